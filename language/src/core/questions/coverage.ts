// What the trees of an equipment cover, for somebody who asks about some trees and builds by their names.

import type { Choice, Equipment, Option } from '../model/equipment.js';
import type { Model } from '../model/model.js';
import type { Tree } from '../model/trees.js';
import type { FileId } from '../model/written.js';
import { nearNames } from '../text/near-names.js';
import { type Coverage, coverageOf } from '../walk/coverage.js';
import { allWorlds, noWorlds, TooManyNodes, type WorldSet } from '../walk/sets/world-sets.js';
import { isPossible, type WalkSpace } from '../walk/space.js';
import { treesOf } from '../walk/walks.js';
import { equipmentOf } from './answers.js';
import { equipmentWalks } from './walks.js';

/** The coverage of one equipment, or why there is none. */
export interface EquipmentCoverage {
    /** Undefined for trees whose equipment is not known. */
    readonly equipment: Equipment | undefined;
    /** The trees that were asked about, in the order of files and places. */
    readonly trees: readonly Tree[];
    /** Whether these are all trees of the equipment. */
    readonly isWhole: boolean;
    readonly answer: CoverageAnswer;
}

export type CoverageAnswer =
    | { readonly sort: 'covered'; readonly coverage: Coverage }
    /** What these of the trees say cannot be read to its end, or their names lead nowhere. */
    | { readonly sort: 'unreadable'; readonly trees: readonly Tree[] }
    /** There are too many worlds to tell. */
    | { readonly sort: 'too large' }
    | { readonly sort: 'unknown choice'; readonly name: string; readonly near: readonly string[] }
    /** Several options have a choice of this name; written with their options they are these. */
    | { readonly sort: 'ambiguous choice'; readonly name: string; readonly written: readonly string[] }
    /** No build with these choices is made. */
    | { readonly sort: 'no build' };

/**
 * The coverage of every equipment that one of the trees is of. `choices` are names of choices, `choice` or
 * `option.choice`; only builds that have them count, and of two choices of one option either will do.
 * `unreadable` are the files with slips.
 */
export function coverageOfTrees(
    trees: readonly Tree[],
    choices: readonly string[],
    model: Model,
    unreadable: ReadonlySet<FileId>,
): EquipmentCoverage[] {
    const groups = new Map<Equipment | undefined, Tree[]>();
    for (const tree of trees) {
        const equipment = equipmentOf(tree, model);
        groups.set(equipment, [...(groups.get(equipment) ?? []), tree]);
    }
    return [...groups].map(([equipment, asked]) => {
        const all = equipment ? treesOf(equipment, model) : asked;
        return {
            equipment,
            trees: asked,
            isWhole: all.every(tree => asked.includes(tree)),
            answer: equipment
                ? answerFor(equipment, asked, all, choices, model, unreadable)
                : { sort: 'unreadable', trees: asked },
        };
    });
}

function answerFor(
    equipment: Equipment,
    asked: readonly Tree[],
    all: readonly Tree[],
    choices: readonly string[],
    model: Model,
    unreadable: ReadonlySet<FileId>,
): CoverageAnswer {
    const isUnclear = (file: FileId) => unreadable.has(file) || model.problems(file).length > 0;
    const unclear = all.filter(tree =>
        [tree.file, equipment.file].some(from => model.visibleFiles(from).some(({ file }) => isUnclear(file))),
    );
    const inTheWay = asked.filter(tree => unclear.includes(tree));
    if (inTheWay.length > 0) return { sort: 'unreadable', trees: inTheWay };
    try {
        const walks = equipmentWalks(equipment, model, { aborted: false });
        if (!walks) return { sort: 'too large' };
        const builds = buildsWith(choices, walks.around.space);
        if (builds.sort !== 'builds') return builds;
        return { sort: 'covered', coverage: coverageOf(walks, { within: builds.set, without: new Set(unclear) }) };
    } catch (problem) {
        if (problem instanceof TooManyNodes) return { sort: 'too large' };
        throw problem;
    }
}

type BuildsWith =
    | { readonly sort: 'builds'; readonly set: WorldSet }
    | Extract<CoverageAnswer, { sort: 'unknown choice' | 'ambiguous choice' | 'no build' }>;

/** The builds that have these choices. */
function buildsWith(names: readonly string[], space: WalkSpace): BuildsWith {
    const { sets, variables, unit } = space;
    const wanted = new Map<Option, number[]>();
    for (const name of names) {
        const found = choicesCalled(name, unit.space.options);
        const [first, second] = found;
        if (!first) return { sort: 'unknown choice', name, near: nearNames(name, choiceNames(unit.space.options)) };
        if (second) {
            const written = found.map(({ option, choice }) => `${option.name.text}.${choice.name.text}`);
            return { sort: 'ambiguous choice', name, written };
        }
        const { option, choice } = first;
        wanted.set(option, [...(wanted.get(option) ?? []), option.choices.indexOf(choice)]);
    }
    let set: WorldSet = allWorlds;
    for (const [option, values] of wanted) {
        const variable = variables.options.get(option);
        set = variable === undefined ? noWorlds : sets.and(set, sets.oneOf(variable, values));
    }
    return isPossible(set, space) ? { sort: 'builds', set } : { sort: 'no build' };
}

function choicesCalled(name: string, options: readonly Option[]): { option: Option; choice: Choice }[] {
    return options.flatMap(option =>
        option.choices
            .filter(({ name: { text } }) => text === name || `${option.name.text}.${text}` === name)
            .map(choice => ({ option, choice })),
    );
}

function choiceNames(options: readonly Option[]): string[] {
    return options.flatMap(option =>
        option.choices.flatMap(({ name: { text } }) => [text, `${option.name.text}.${text}`]),
    );
}
