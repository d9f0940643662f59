// Cuts a document down to one build, so that a reader without any idea of builds can walk it.

import { dropMissing } from './drop-missing.js';
import type { ChoiceId, Coverage, Guard, Option, TreeDocument } from './types.js';

export type Slice =
    | { readonly document: TreeDocument; readonly problem?: undefined }
    /** Why there is no such document: one sentence in the words of the reader. */
    | { readonly document?: undefined; readonly problem: string };

/**
 * The document for the build with these choices, without any guard. A choice can be named with its option
 * (`supply.three-phase`) or alone where only one option has it. Every option that the build has needs one choice.
 */
export function sliceToBuild(document: TreeDocument, choices: readonly string[]): Slice {
    if (document.build) return { problem: 'This document is cut down to one build already.' };
    const found = findBuild(document, choices);
    if (found.problem !== undefined) return { problem: found.problem };
    const build = new Set(found.build);
    if (document.tree.guard && !holds(document.tree.guard, build)) {
        return { problem: `The tree \`${document.tree.id}\` is not for this build.` };
    }
    // What others put into a document is theirs, so it stays as it is.
    const { extensions, ...own } = document;
    // A document is plain data, and what is left of it after the guards are gone has the same shape.
    const cut = withChoices(withoutGuards(own, build) as TreeDocument, found.build);
    return { document: dropMissing(extensions ? { ...cut, extensions } : cut) };
}

/** Whether a guard holds in a build. */
export function holds(guard: Guard, build: ReadonlySet<ChoiceId>): boolean {
    if ('choice' in guard) return build.has(guard.choice);
    if ('not' in guard) return !holds(guard.not, build);
    if ('all' in guard) return guard.all.every(operand => holds(operand, build));
    return guard.any.some(operand => holds(operand, build));
}

type FoundBuild =
    | { readonly build: readonly ChoiceId[]; readonly problem?: undefined }
    | { readonly problem: string; readonly build?: undefined };

function findBuild({ equipment, locales }: TreeDocument, names: readonly string[]): FoundBuild {
    const all = equipment.options.flatMap(option => option.choices.map(choice => choice.id));
    const chosen = new Set<ChoiceId>();
    for (const name of names) {
        const meant = all.includes(name) ? [name] : all.filter(id => id.slice(id.indexOf('.') + 1) === name);
        const [choice] = meant;
        if (choice === undefined) return { problem: `\`${equipment.id}\` has no choice \`${name}\`.` };
        if (meant.length > 1) return { problem: `\`${name}\` can be ${meant.map(quote).join(' or ')}; say which.` };
        chosen.add(choice);
    }
    for (const option of equipment.options) {
        const problem = problemOfOption(option, chosen);
        if (problem !== undefined) return { problem };
    }
    const exclusion = equipment.exclusions.find(({ builds }) => holds(builds, chosen));
    if (exclusion) {
        const reason = exclusion.reason?.[locales[0] ?? ''];
        const why = reason === undefined ? '.' : `. The author says why: ${reason}`;
        return { problem: `There is no unit with ${[...chosen].map(quote).join(', ')}${why}` };
    }
    return { build: all.filter(id => chosen.has(id)) };
}

function problemOfOption(option: Option, chosen: ReadonlySet<ChoiceId>): string | undefined {
    const named = option.choices.filter(choice => chosen.has(choice.id));
    if (option.guard && !holds(option.guard, chosen)) {
        return named.length === 0 ? undefined : `This build has no option \`${option.id}\`.`;
    }
    if (named.length === 1) return undefined;
    const ids = option.choices.map(choice => quote(choice.id)).join(', ');
    return `Name one choice of \`${option.id}\`: ${ids}.`;
}

function quote(id: string): string {
    return `\`${id}\``;
}

// Leaves out every entry of a list whose guard does not hold, and the guards that do.
function withoutGuards(value: unknown, build: ReadonlySet<ChoiceId>): unknown {
    if (Array.isArray(value)) {
        return value.filter(entry => !isCutAway(entry, build)).map(entry => withoutGuards(entry, build));
    }
    if (typeof value !== 'object' || value === null) return value;
    return Object.fromEntries(
        Object.entries(value)
            .filter(([name]) => name !== 'guard')
            .map(([name, property]) => [name, withoutGuards(property, build)]),
    );
}

function isCutAway(entry: unknown, build: ReadonlySet<ChoiceId>): boolean {
    return typeof entry === 'object' && entry !== null && 'guard' in entry && !holds(entry.guard as Guard, build);
}

function withChoices(cut: TreeDocument, build: readonly ChoiceId[]): TreeDocument {
    const { format, formatVersion, locales, safetyNotice, equipment, verification, ...rest } = cut;
    const options = equipment.options.map(option => ({
        ...option,
        choices: option.choices.filter(choice => build.includes(choice.id)),
    }));
    const chosen = build.length === 0 ? {} : { build };
    const own = { ...equipment, options, exclusions: [] };
    const { coverage } = verification;
    const record = coverage ? { ...verification, coverage: coverageIn(coverage, build) } : verification;
    return { format, formatVersion, locales, safetyNotice, ...chosen, equipment: own, ...rest, verification: record };
}

/** What is told of this build; of the figures of all builds only where there are none of it alone. */
function coverageIn(coverage: Coverage, build: readonly ChoiceId[]): Coverage {
    if (coverage.type === 'undecided') return coverage;
    const builds = coverage.builds.filter(({ choices }) => choices.every(choice => build.includes(choice)));
    const only =
        coverage.buildsAre === 'builds' ? builds.find(({ choices }) => choices.length === build.length) : undefined;
    return only ? { ...coverage, figures: only.figures, builds: [{ ...only, share: 1 }] } : { ...coverage, builds };
}
