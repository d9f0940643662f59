// The walks of the trees of a file, for all rules that ask about them.

import type { Equipment } from '../model/equipment.js';
import type { FileModel } from '../model/file.js';
import type { Model } from '../model/model.js';
import type { Step, Tree } from '../model/trees.js';
import type { Crowd } from '../walk/changes.js';
import type { PickedWorld, WalkBudget } from '../walk/space.js';
import { isPossible, pickWorld, variablesThatMatter } from '../walk/space.js';
import type { RouteWalk } from '../walk/walk-route.js';
import { type EquipmentWalks, type TreeWalk, walkEquipment } from '../walk/walks.js';
import type { Route } from '../meaning/route.js';
import type { Option } from '../model/equipment.js';
import { equipmentOf } from './answers.js';
import { oncePerModel } from './remember.js';

/** A tree that was walked, with the walks of its equipment. */
export interface WalkedTree {
    readonly tree: Tree;
    readonly route: Route;
    readonly walk: RouteWalk;
    readonly all: EquipmentWalks;
}

interface Signal {
    readonly aborted: boolean;
}

interface Remembered {
    readonly all: EquipmentWalks;
    readonly budget: WalkBudget | undefined;
}

const walksOf = oncePerModel((): Map<Equipment, Remembered> => new Map());

/**
 * The walks of an equipment; undefined when the signal says that they are no longer wanted. They are remembered with the
 * model, so that the budget of whoever asks first holds for all.
 */
export function equipmentWalks(
    equipment: Equipment,
    model: Model,
    signal: Signal,
    budget?: WalkBudget,
): EquipmentWalks | undefined {
    const known = walksOf(model);
    const all = known.get(equipment)?.all ?? walkEquipment(equipment, model, signal, budget);
    if (all && !known.has(equipment)) known.set(equipment, { all, budget });
    return all;
}

/**
 * Walks the trees of a file again with formulas, where what was asked of their walks became too large for diagrams. False
 * where that was done before. From then on the new walks are the walks.
 */
export function walkWithFormulas(file: FileModel, model: Model, signal: Signal): boolean {
    const known = walksOf(model);
    let isNew = false;
    for (const all of walksConcerning(file, model, signal)) {
        if (all.heldAs === 'formulas') continue;
        const { equipment } = all.unit;
        const budget = known.get(equipment)?.budget;
        const again = walkEquipment(equipment, model, signal, budget, 'formulas');
        if (again) known.set(equipment, { all: again, budget });
        isNew = true;
    }
    return isNew;
}

/**
 * The trees of a file that could be walked, in the order of the text.
 * None of an equipment whose names do not all lead somewhere: what would be said of it is not true yet.
 */
export function walkedTrees(file: FileModel, model: Model, signal: Signal): WalkedTree[] {
    return treeWalksIn(file, model, signal).flatMap(({ all, ...one }) => {
        const { walk } = one;
        return walk ? [{ ...one, walk, all }] : [];
    });
}

/** A tree of which not all is known. */
export interface UndecidedTree {
    readonly tree: Tree;
    /** The steps at which it stayed open who comes to them or how they go on; undefined where that holds for all. */
    readonly steps: readonly Step[] | undefined;
}

/** The trees of a file with too many worlds to tell all of them. */
export function undecidedTrees(file: FileModel, model: Model, signal: Signal): UndecidedTree[] {
    return treeWalksIn(file, model, signal).flatMap(({ walk, route, tree }): UndecidedTree[] => {
        if (!walk) return route.stations.length === 0 ? [] : [{ tree, steps: undefined }];
        const steps = route.stations.filter(({ number }) => walk.undecided.has(number)).map(({ step }) => step);
        return steps.length === 0 ? [] : [{ tree, steps: [...new Set(steps)] }];
    });
}

/** The walks of every equipment of which a tree goes through a step or end of this file: its own trees, or its procedures. */
export function walksConcerning(file: FileModel, model: Model, signal: Signal): EquipmentWalks[] {
    const trees = file.procedures.length === 0 ? file.trees : [...model.files.values()].flatMap(one => one.trees);
    const found = new Set<EquipmentWalks>();
    for (const tree of trees) {
        if (tree.file !== file.file && !model.visibleFiles(tree.file).includes(file)) continue;
        const equipment = equipmentOf(tree, model);
        if (!equipment || hasLooseNames(tree, equipment, model)) continue;
        const all = equipmentWalks(equipment, model, signal);
        if (all) found.add(all);
    }
    return [...found];
}

/**
 * The walks of all trees that go through a step or end of this file. What they meet in a procedure is told in the file of the
 * procedure, once for all trees that follow it.
 */
export function walksThrough(file: FileModel, model: Model, signal: Signal): WalkedTree[] {
    return walksConcerning(file, model, signal).flatMap(all =>
        all.trees.flatMap(({ tree, route, walk }) => (walk ? [{ tree, route, walk, all }] : [])),
    );
}

function treeWalksIn(file: FileModel, model: Model, signal: Signal): (TreeWalk & { readonly all: EquipmentWalks })[] {
    return file.trees.flatMap(tree => {
        const equipment = equipmentOf(tree, model);
        if (!equipment || hasLooseNames(tree, equipment, model)) return [];
        const all = equipmentWalks(equipment, model, signal);
        const found = all?.trees.find(one => one.tree === tree);
        return all && found ? [{ ...found, all }] : [];
    });
}

function hasLooseNames(tree: Tree, equipment: Equipment, model: Model): boolean {
    const files = [...model.visibleFiles(tree.file), ...model.visibleFiles(equipment.file)];
    return files.some(({ file }) => model.problems(file).length > 0);
}

/** One world out of several crowds, and the crowd that it is of. A world without a guess where there is one. */
export interface Example {
    readonly crowd: Crowd;
    readonly world: PickedWorld;
    /** The options whose choice matters for it. */
    readonly options: readonly Option[];
    /** Every world of the crowds rests on a choice that the source leaves. */
    readonly guessed: boolean;
}

/** Picks the world that a finding shows, the same one on every run. Undefined where the crowds hold no world that is made. */
export function pickExample(crowds: readonly Crowd[], walk: RouteWalk): Example | undefined {
    const { space } = walk.around;
    const { sets, variables } = space;
    const sure = sets.is(variables.guessed, 0);
    for (const guessed of [false, true]) {
        for (const crowd of [...crowds].sort((one, other) => one.presence.number - other.presence.number)) {
            const set = guessed ? crowd.set : sets.and(crowd.set, sure);
            if (!isPossible(set, space)) continue;
            const world = pickWorld(set, space);
            if (!world) continue;
            const asked = new Set(variablesThatMatter(set, space));
            const options = [...variables.options]
                .filter(([, variable]) => asked.has(variable))
                .map(([option]) => option);
            return { crowd, world, options: options.sort((one, other) => one.start - other.start), guessed };
        }
    }
    return undefined;
}
