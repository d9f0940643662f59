// How a rule is declared: data plus one pure function.

import type { Model } from '../model/model.js';
import type { FileId, Span } from '../model/written.js';
import type { Settings } from './settings.js';
import type { Counterexample, Finding, Mend, RelatedPlace, Severity } from './finding.js';

export type RuleGroup =
    'text' | 'names' | 'structure' | 'builds' | 'readings' | 'safety' | 'diagnosis' | 'economy' | 'wording';

/** Values for the `{placeholders}` of a message. */
export type MessageValues = Readonly<Record<string, string | number>>;

export interface FindingExtras {
    readonly related?: readonly RelatedPlace[];
    readonly counterexample?: Counterexample;
    readonly advice?: string;
    readonly mends?: readonly Mend[];
    readonly unnecessary?: boolean;
    /** Where this finding weighs less than the rule's others. */
    readonly severity?: Severity;
}

/** Reports one finding: which message, where, its values, and what else belongs to it. */
export type Report<Key extends string = string> = (
    message: Key,
    place: Span,
    values?: MessageValues,
    extras?: FindingExtras,
) => void;

/** Asks whether the work is no longer wanted; long loops call it. */
export interface Signal {
    readonly aborted: boolean;
}

export interface Rule<Key extends string = string> {
    /** The folder's name; names the bad thing in kebab case; never used again once released. */
    readonly code: string;
    readonly since: string;
    readonly severity: Severity;
    readonly group: RuleGroup;
    /** `fast` runs as you type, `slow` when typing pauses and in the command line. */
    readonly cost: 'fast' | 'slow';
    /**
     * `walked` rules ask where worlds go. They wait until every file that theirs sees can be read without slips, because
     * a line that could not be read is a line that nobody walks.
     */
    readonly asks?: 'walked';
    readonly messages: Readonly<Record<Key, string>>;
    /**
     * Looks at one file of the linked model and reports what is there.
     * Absent where another stage reports the code (reading, parsing): the folder then holds its help and severity.
     */
    readonly check?: (model: Model, file: FileId, report: Report<Key>, signal: Signal, settings: Settings) => void;
}

/** Keeps the keys of the messages and the calls of `report` in step. */
export function defineRule<Key extends string>(rule: Rule<Key>): Rule {
    return rule;
}

/** Fills the `{placeholders}` of a message. */
export function fillMessage(template: string, values: MessageValues = {}): string {
    return template.replace(/\{(\w+)\}/g, (whole, key: string) => {
        const value = values[key];
        return value === undefined ? whole : String(value);
    });
}

/** A finding of a rule, with everything that was not given left empty. */
export function makeFinding(
    code: string,
    severity: Severity,
    message: string,
    place: Span,
    extras: FindingExtras = {},
): Finding {
    return {
        code,
        severity,
        message,
        file: place.file,
        start: place.start,
        end: place.end,
        related: extras.related ?? [],
        counterexample: extras.counterexample,
        advice: extras.advice ?? extras.mends?.[0]?.title,
        mends: extras.mends ?? [],
        unnecessary: extras.unnecessary ?? false,
    };
}
