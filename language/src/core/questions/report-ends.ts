// Reports the wrong ends of one sort, each with its example, for the rules that name them.

import type { Mend } from '../findings/finding.js';
import type { FindingExtras, MessageValues, Signal } from '../findings/rule.js';
import type { UnitFault } from '../meaning/unit.js';
import type { Model } from '../model/model.js';
import type { FileId } from '../model/written.js';
import { listOf, quoteName } from '../text/words.js';
import { counterexampleOf } from './counterexamples.js';
import { type Example, pickExample, walkedTrees } from './walks.js';
import { type WhyWrong, type WrongEnd, wrongEndsOf } from './wrong-ends.js';

/** The names in a message are cut after so many. */
const mostNames = 4;

/** Values of a message about an end. */
export type EndValues = MessageValues & {
    readonly end: string;
    /** The faults that it leaves out: `a and b`, and `a or b` behind a `not`. */
    readonly faults: string;
    readonly noFaults: string;
    /** The effects that it leaves out. */
    readonly effects: string;
    /** `it comes` and `it ends`, or `they come` and `they end`, of the faults. */
    readonly comes: string;
    readonly ends: string;
};

/** What else belongs to the finding, with this advice. */
export type ExtrasWith = (advice: string) => FindingExtras;

/** Goes through the wrong ends of one sort in a file's trees. */
export function reportWrongEnds(
    model: Model,
    file: FileId,
    signal: Signal,
    why: WhyWrong,
    report: (wrong: WrongEnd, values: EndValues, extrasWith: ExtrasWith) => void,
): void {
    const fileModel = model.files.get(file);
    if (!fileModel) return;
    for (const walked of walkedTrees(fileModel, model, signal)) {
        for (const wrong of wrongEndsOf(walked)) {
            if (wrong.why !== why) continue;
            const example = pickExample(wrong.crowds, walked.walk);
            if (!example) continue;
            const words = `ends at ${quoteName(wrong.end.name.text)}`;
            const goal = { sort: 'end', end: wrong.number, wrong: true } as const;
            const counterexample = counterexampleOf(example, goal, walked, words);
            report(wrong, valuesOf(wrong), advice => ({
                ...(counterexample ? { counterexample } : {}),
                ...guessExtras(example),
                advice: withGuess(example, withCause(wrong, advice)),
                mends: namingMends(wrong),
            }));
        }
    }
}

function valuesOf({ end, faults, effects }: WrongEnd): EndValues {
    const several = faults.length > 1;
    return {
        end: quoteName(end.name.text),
        faults: namesOf(faults, 'and'),
        noFaults: namesOf(faults, 'or'),
        effects: namesOf(effects, 'and'),
        comes: several ? 'they come' : 'it comes',
        ends: several ? 'they end' : 'it ends',
    };
}

function namesOf(faults: readonly UnitFault[], word: 'and' | 'or'): string {
    return listOf(
        faults.map(fault => quoteName(fault.name)),
        word,
        mostNames,
    );
}

/** Where an end names what a fault has caused and not the fault, this is what there is to say. */
function withCause({ namedEffects, faults }: WrongEnd, advice: string): string {
    if (namedEffects.length === 0 || faults.length === 0) return advice;
    return `The end names only what ${namesOf(faults, 'and')} causes, ${namesOf(namedEffects, 'and')}: name the cause here too.`;
}

/** Adds what is left out to the faults that the end names. */
function namingMends({ end, faults, effects }: WrongEnd): Mend[] {
    const missing = faults.length > 0 ? faults : effects;
    const last = end.faults.at(-1);
    if (!last || missing.length === 0 || missing.length > mostNames) return [];
    const text = missing.map(fault => `, ${fault.name}`).join('');
    return [
        {
            title: `Name ${namesOf(missing, 'and')} in \`${end.name.text}\` too`,
            safety: 'suggestion',
            edits: [{ file: last.file, start: last.end, end: last.end, text }],
        },
    ];
}

/** A finding that only a guess brings about is a warning: the model does not say which outcome. */
export function guessExtras({ guessed }: Example): Pick<FindingExtras, 'severity'> {
    return guessed ? { severity: 'warning' } : {};
}

/** Advice on a finding; where only a guess brings it about, also how to leave no guess. */
export function withGuess({ guessed }: Example, advice: string): string {
    if (!guessed) return advice;
    return `Say with \`shows\`, \`as\` or \`makes\` what the tests of the example show: so far nothing does. If it is so, ${lowerFirst(advice)}`;
}

function lowerFirst(sentence: string): string {
    return `${sentence.charAt(0).toLowerCase()}${sentence.slice(1)}`;
}
