// The walks of all trees of an equipment, each done again only when something that it depends on has changed.

import type { InBuilds, Unit } from '../meaning/unit.js';
import { makeRoute } from '../meaning/make-route.js';
import { resolveUnit } from '../meaning/resolve-unit.js';
import type { Resolving } from '../meaning/resolving.js';
import type { Route } from '../meaning/route.js';
import type { Equipment } from '../model/equipment.js';
import type { FileModel } from '../model/file.js';
import type { Model } from '../model/model.js';
import type { Tree } from '../model/trees.js';
import type { Crowd, Surroundings } from './changes.js';
import { FlowSets } from './flow-sets.js';
import { Presences } from './presence.js';
import { orderRoute } from './route-order.js';
import { TooManyNodes } from './sets/world-sets.js';
import { TestAnswers } from './shows.js';
import { type HeldAs, makeSpace, usualBudget, type WalkBudget } from './space.js';
import { type RouteWalk, walkRoute, type WalkSignal } from './walk-route.js';

/** What is known of one tree. */
export interface TreeWalk {
    readonly tree: Tree;
    readonly route: Route;
    /** Undefined where there are too many worlds even for formulas. */
    readonly walk: RouteWalk | undefined;
}

/** The walks of an equipment. */
export interface EquipmentWalks {
    readonly unit: Unit;
    readonly around: Surroundings;
    readonly answers: TestAnswers;
    /** For what else is looked up of this equipment. */
    readonly names: Resolving;
    readonly heldAs: HeldAs;
    /** In the order of the trees' places. */
    readonly trees: readonly TreeWalk[];
}

/**
 * Walks every tree of an equipment. Where diagrams are too large, all trees are walked again with formulas, which take more
 * time and hardly any room; with `heldAs` 'formulas' at once.
 * Undefined when the signal says that the answer is no longer wanted.
 */
export function walkEquipment(
    equipment: Equipment,
    model: Model,
    signal: WalkSignal,
    budget: WalkBudget = usualBudget,
    heldAs?: 'formulas',
): EquipmentWalks | undefined {
    const trees = treesOf(equipment, model);
    let prepared: Prepared | undefined;
    try {
        prepared = surroundingsOf(equipment, model, budget, heldAs);
        const walks = walkTrees(trees, prepared, model, signal);
        return walks && allWalks(prepared, walks);
    } catch (problem) {
        if (heldAs === 'formulas' || !(problem instanceof TooManyNodes)) throw problem;
    }
    try {
        return walkEquipment(equipment, model, signal, budget, 'formulas');
    } catch (problem) {
        if (!prepared || !(problem instanceof TooManyNodes)) throw problem;
        return notWalked(trees, prepared);
    }
}

/** For trees with so many worlds that not even a beginning could be made. */
function notWalked(trees: readonly Tree[], prepared: Prepared): EquipmentWalks {
    const { unit, names } = prepared;
    const walks = trees.map(tree => ({ tree, route: makeRoute(tree, unit, names), walk: undefined }));
    // There is nothing else to try.
    return allWalks({ ...prepared, heldAs: 'formulas' }, walks);
}

function allWalks({ unit, names, around, answers, heldAs }: Prepared, trees: readonly TreeWalk[]): EquipmentWalks {
    return { unit, names, around, answers, heldAs, trees };
}

/** The walks of the trees, in their order. */
function walkTrees(
    trees: readonly Tree[],
    prepared: Prepared,
    model: Model,
    signal: WalkSignal,
): readonly TreeWalk[] | undefined {
    const handed = new Map<Tree, readonly Crowd[]>();
    const walks = new Map<Tree, TreeWalk>();
    // A tree that is handed worlds is walked again with them; a circle of trees ends when nothing new is handed over.
    let open = trees;
    while (open.length > 0) {
        for (const tree of open) {
            const walk = walkTree(tree, prepared, handed.get(tree) ?? [], model, signal);
            if (!walk) return undefined;
            walks.set(tree, walk);
        }
        const given = collectHandedOver([...walks.values()], prepared.around);
        open = trees.filter(tree => !isSameCrowds(handed.get(tree) ?? [], given.get(tree) ?? []));
        for (const tree of open) handed.set(tree, given.get(tree) ?? []);
    }
    return trees.map(tree => walks.get(tree)).filter(walk => walk !== undefined);
}

/** The trees of an equipment, in the order of files and places. */
export function treesOf(equipment: Equipment, model: Model): Tree[] {
    return [...model.files.values()].flatMap(({ trees }) =>
        trees.filter(tree => model.target(tree.equipment) === equipment),
    );
}

interface Prepared {
    readonly unit: Unit;
    readonly names: Resolving;
    readonly around: Surroundings;
    readonly answers: TestAnswers;
    readonly heldAs: HeldAs;
}

interface KnownUnit extends Prepared {
    readonly sees: readonly FileModel[];
    readonly budget: WalkBudget;
}

const preparedUnits = new WeakMap<Equipment, KnownUnit>();

/**
 * The unit of an equipment and all that is worked out for it, kept as long as no file that it sees has changed. Walks of
 * trees that have changed since leave their nodes behind: once half of the budget is used up, it is worked out anew.
 * Where diagrams were too large before, they are not tried again.
 */
function surroundingsOf(equipment: Equipment, model: Model, budget: WalkBudget, wanted: HeldAs | undefined): Prepared {
    const sees = model.visibleFiles(equipment.file);
    const known = preparedUnits.get(equipment);
    const isUnchanged = known?.budget === budget && isSameList(known.sees, sees);
    const heldAs = wanted ?? (isUnchanged ? known.heldAs : 'diagrams');
    if (isUnchanged && heldAs === known.heldAs) {
        const most = heldAs === 'diagrams' ? budget.nodes : budget.formulas;
        if (known.around.space.sets.nodeCount <= most / 2) return { ...known, names: { ...known.names, model } };
    }
    const { unit, names } = resolveUnit(equipment, model);
    const space = makeSpace(unit, guardsIn(unit), budget, heldAs);
    const flows = new FlowSets(space);
    const remembering = unit.tests.filter(test => test.remembers).map(({ number }) => number);
    const around: Surroundings = { space, flows, presences: new Presences(), remembering };
    const prepared = { unit, names, around, answers: new TestAnswers(space, flows), heldAs, sees, budget };
    preparedUnits.set(equipment, prepared);
    return prepared;
}

/** The guards of a unit, for the order of its options. */
function guardsIn(unit: Unit): InBuilds[] {
    return [...unit.parts, ...unit.faults, ...unit.flows, ...unit.tests].map(({ guard }) => guard);
}

interface KnownWalk extends TreeWalk {
    readonly around: Surroundings;
    readonly sees: readonly FileModel[];
    readonly handed: readonly Crowd[];
}

const knownWalks = new WeakMap<Tree, KnownWalk>();

function walkTree(
    tree: Tree,
    prepared: Prepared,
    handed: readonly Crowd[],
    model: Model,
    signal: WalkSignal,
): TreeWalk | undefined {
    const { unit, names, around } = prepared;
    const sees = model.visibleFiles(tree.file);
    const known = knownWalks.get(tree);
    if (known?.around === around && isSameList(known.sees, sees) && isSameCrowds(known.handed, handed)) return known;
    const route = makeRoute(tree, unit, names);
    const walk = tryWalk(route, prepared, handed, signal);
    if (signal.aborted) return undefined;
    const result = { tree, route, walk, around, sees, handed };
    knownWalks.set(tree, result);
    return result;
}

/** Undefined where there are too many worlds even for formulas. */
function tryWalk(
    route: Route,
    { around, answers, heldAs }: Prepared,
    handed: readonly Crowd[],
    signal: WalkSignal,
): RouteWalk | undefined {
    if (route.stations.length === 0) return undefined;
    try {
        return walkRoute(route, orderRoute(route), around, answers, handed, signal);
    } catch (problem) {
        if (problem instanceof TooManyNodes && heldAs === 'formulas') return undefined;
        throw problem;
    }
}

/** What the trees hand over, by the tree that is handed it; crowds of one presence together. */
function collectHandedOver(walks: readonly TreeWalk[], { space }: Surroundings): Map<Tree, readonly Crowd[]> {
    const given = new Map<Tree, Map<number, Crowd>>();
    for (const { walk } of walks) {
        for (const [tree, crowds] of walk?.handedOver ?? []) {
            const known = given.get(tree) ?? new Map<number, Crowd>();
            given.set(tree, known);
            for (const { presence, set } of crowds) {
                const before = known.get(presence.number);
                known.set(presence.number, { presence, set: before ? space.sets.or(before.set, set) : set });
            }
        }
    }
    return new Map([...given].map(([tree, crowds]) => [tree, [...crowds.values()]]));
}

function isSameCrowds(one: readonly Crowd[], other: readonly Crowd[]): boolean {
    return (
        one.length === other.length &&
        one.every(({ presence, set }, index) => other[index]?.presence === presence && other[index].set === set)
    );
}

function isSameList<T>(one: readonly T[], other: readonly T[]): boolean {
    return one.length === other.length && one.every((item, index) => item === other[index]);
}
