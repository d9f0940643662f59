// What the trees of an equipment find of its faults, weighed by how often each comes.
//
// The fractions are those of testability work: the fraction of faults detected is the rate of the faults that are found,
// divided by the rate of all; the fraction isolated to at most n parts is the rate of those found in a group of at most n
// parts, divided by the rate of all that are found (MIL-HDBK-2165 and IEEE 1522-2004, formulas from memory).

import type { Choice, Option } from '../model/equipment.js';
import type { Tree } from '../model/trees.js';
import type { RouteEnd } from '../meaning/route.js';
import type { UnitFault } from '../meaning/unit.js';
import { listBuilds } from './build-list.js';
import { type Fate, type FatedWorlds, type FaultFates, fatesIn } from './fates.js';
import { countSets } from './groups.js';
import { allWorlds, noWorlds, type WorldSet } from './sets/world-sets.js';
import { buildsWhere, isPossible, type WalkSpace } from './space.js';
import type { EquipmentWalks } from './walks.js';
import { weightsOf } from './weights.js';

/** What the trees of one equipment find. All rates are per hour and unit, averaged over the fleet or the builds that count. */
export interface Coverage {
    /** In the order of files and places; without those that were not walked. */
    readonly trees: readonly TreeCoverage[];
    /** Every fault that comes by itself in some build that counts, in the order of the text. */
    readonly faults: readonly FaultCoverage[];
    /** All faults and all trees together. What several trees judge counts in equal parts for each of them. */
    readonly fleet: Figures;
    /** The same for each build that is made or, where there are too many of these, for each choice of each option. */
    readonly builds: readonly BuildFigures[];
    readonly buildsAre: 'builds' | 'choices';
    /** Trees that are left out: what only they find counts as in no tree's scope. */
    readonly notWalked: readonly Tree[];
}

export interface TreeCoverage {
    readonly tree: Tree;
    /** Of the faults that arrive at it, those handed on to another tree left out. */
    readonly figures: Figures;
    /** Those that arrive, in the order of the text. */
    readonly faults: readonly FaultInTree[];
    /** As in `Coverage`. */
    readonly builds: readonly BuildFigures[];
}

/** What one tree does with one fault. */
export interface FaultInTree {
    readonly fault: UnitFault;
    /** How often the fault comes in units in which it leads to this tree. */
    readonly rate: number;
    /** What becomes of it, the best first; the rates add to the one above. */
    readonly portions: readonly Portion[];
}

export interface Portion {
    readonly fate: Fate;
    readonly rate: number;
    /** Where it ends; undefined where it is lost or handed on. */
    readonly end: RouteEnd | undefined;
    /** The tree that it is handed on to. */
    readonly to: Tree | undefined;
    /** How many parts the end leaves to choose from, where it names the fault; else 0. */
    readonly parts: number;
}

/** One fault over all trees. */
export interface FaultCoverage {
    readonly fault: UnitFault;
    /** The trees at which it arrives; none where it is in no tree's scope. */
    readonly trees: readonly Tree[];
    readonly figures: Figures;
}

export interface BuildFigures {
    /** The choices of the build, or the one choice, in the order of the text. */
    readonly choices: ReadonlyMap<Option, Choice>;
    /** The share of the builds that count, from 0 to 1. */
    readonly share: number;
    readonly figures: Figures;
}

/** Rates, and the fractions made of them. */
export interface Figures {
    /** All that is judged here: what is found, missed, wrong, lost and out of scope adds to it. */
    readonly rate: number;
    /** What an end rightly names; `handedOver` is the part of it that a referral names. */
    readonly found: number;
    readonly handedOver: number;
    readonly missed: number;
    readonly wrong: number;
    readonly lost: number;
    /** What arrives at no tree. */
    readonly outOfScope: number;
    /** What another tree goes on with, and judges; not in `rate`. */
    readonly handedOn: number;
    /** What is found in a group of n parts, by n. */
    readonly byParts: readonly number[];
    /** The fraction of faults detected, from 0 to 1; undefined where no fault comes. */
    readonly detected: number | undefined;
    /** The fraction isolated to at most 1, 2 and 3 parts; undefined where nothing is found. */
    readonly isolated: readonly [number, number, number] | undefined;
}

export interface CoverageOptions {
    /** Only these builds count. */
    readonly within?: WorldSet;
    /** Trees to leave out. */
    readonly without?: ReadonlySet<Tree>;
}

/**
 * What the trees of an equipment find.
 *
 * @throws TooManyNodes when the sets of worlds grow beyond their budget.
 */
export function coverageOf(walks: EquipmentWalks, options: CoverageOptions = {}): Coverage {
    const { trees, around } = walks;
    const { within = allWorlds, without = new Set() } = options;
    const { space } = around;
    const fates = trees.flatMap(({ tree, walk }): TreeFates[] =>
        walk && !without.has(tree) ? [{ tree, faults: fatesIn(walk) }] : [],
    );
    const { buildsAre, builds } = listBuilds(within, space);
    const byBuild = (counted: readonly Counted[]): BuildFigures[] =>
        builds.map(({ choices, set, share }) => ({ choices, share, figures: figuresOf(counted, set, space) }));
    const all = existingFaults(within, space).map(({ fault, set }) => ({
        fault,
        ...countFault(fault, set, fates, space),
    }));
    const counted = all.flatMap(one => one.counted);
    return {
        trees: fates.map(one => coverTree(one, within, space, byBuild)),
        faults: all.map(one => ({
            fault: one.fault,
            trees: one.trees,
            figures: figuresOf(one.counted, within, space),
        })),
        fleet: figuresOf(counted, within, space),
        builds: byBuild(counted),
        buildsAre,
        notWalked: trees.filter(({ tree, walk }) => !walk || without.has(tree)).map(({ tree }) => tree),
    };
}

/** The fates of the faults in one tree. */
interface TreeFates {
    readonly tree: Tree;
    readonly faults: readonly FaultFates[];
}

function coverTree(
    { tree, faults }: TreeFates,
    within: WorldSet,
    space: WalkSpace,
    byBuild: (counted: readonly Counted[]) => BuildFigures[],
): TreeCoverage {
    const { sets, unit } = space;
    const counted = faults.flatMap(({ fault, fated }) => fated.map(one => ({ ...one, fault, weight: 1 })));
    const rateOf = rateWithin(within, space);
    const covered = faults.flatMap(({ fault: number, arriving, fated }): FaultInTree[] => {
        const fault = unit.faults[number];
        if (!fault || !isPossible(sets.and(arriving, within), space)) return [];
        const portions = fated
            .filter(({ set }) => isPossible(sets.and(set, within), space))
            .map(({ fate, end, to, parts, set }) => ({ fate, rate: rateOf(number, set), end, to, parts }));
        return [{ fault, rate: rateOf(number, arriving), portions: portions.reverse() }];
    });
    return { tree, figures: figuresOf(counted, within, space), faults: covered, builds: byBuild(counted) };
}

/** The faults that come by themselves, with the builds in which they do. */
function existingFaults(within: WorldSet, space: WalkSpace): { fault: UnitFault; set: WorldSet }[] {
    const { sets, unit } = space;
    return unit.faults.flatMap(fault => {
        let set = sets.and(within, buildsWhere(fault.guard, space));
        for (const { guard } of fault.onlyWhenCaused) set = sets.without(set, buildsWhere(guard, space));
        return isPossible(set, space) ? [{ fault, set }] : [];
    });
}

/** Worlds with one fault that count with a weight: less than 1 where several trees judge them. */
interface Counted extends Pick<FatedWorlds, 'parts' | 'set'> {
    readonly fault: number;
    readonly fate: Fate | 'out of scope';
    readonly weight: number;
}

/** One fault over all trees, each of its worlds with a weight of 1 in all. */
function countFault(
    { number: fault }: UnitFault,
    existing: WorldSet,
    trees: readonly TreeFates[],
    space: WalkSpace,
): { readonly trees: readonly Tree[]; readonly counted: readonly Counted[] } {
    const { sets } = space;
    const there = trees.flatMap(({ tree, faults }) =>
        faults.filter(one => one.fault === fault).map(({ arriving, fated }) => ({ tree, arriving, fated })),
    );
    const judged = there.map(({ fated }) => fated.filter(({ fate }) => fate !== 'handed on'));
    const union = (list: readonly WorldSet[]) => list.reduce<WorldSet>((any, set) => sets.or(any, set), noWorlds);
    const arriving = union(there.map(one => one.arriving));
    const judgedIn = judged.map(fated => union(fated.map(({ set }) => set)));
    const counted: Counted[] = [
        { fault, fate: 'out of scope', parts: 0, set: sets.without(existing, arriving), weight: 1 },
        // Trees that only hand it on to each other never judge it.
        { fault, fate: 'lost', parts: 0, set: sets.without(arriving, union(judgedIn)), weight: 1 },
    ];
    countSets(judgedIn, space).forEach((judging, number) => {
        if (number === 0 || judging === noWorlds) return;
        for (const { fate, parts, set } of judged.flat()) {
            counted.push({ fault, fate, parts, set: sets.and(set, judging), weight: 1 / number });
        }
    });
    const scope = there.filter(one => isPossible(sets.and(one.arriving, existing), space));
    return { trees: scope.map(({ tree }) => tree), counted: counted.filter(({ set }) => set !== noWorlds) };
}

/** How often faults come in some builds, per hour and unit of these builds. */
function rateWithin(within: WorldSet, space: WalkSpace): (fault: number, set: WorldSet) => number {
    const weights = weightsOf(space);
    const share = weights.share(within);
    return (fault, set) => (share === 0 ? 0 : weights.rate(fault, space.sets.and(set, within)) / share);
}

function figuresOf(counted: readonly Counted[], within: WorldSet, space: WalkSpace): Figures {
    const rateOf = rateWithin(within, space);
    const sums: Record<Counted['fate'], number> = {
        found: 0,
        'handed over': 0,
        'handed on': 0,
        missed: 0,
        wrong: 0,
        lost: 0,
        'out of scope': 0,
    };
    const byParts = new Map<number, number>();
    for (const { fault, fate, parts, set, weight } of counted) {
        const rate = weight * rateOf(fault, set);
        sums[fate] += rate;
        if (fate === 'found' || fate === 'handed over') byParts.set(parts, (byParts.get(parts) ?? 0) + rate);
    }
    const largest = Math.max(0, ...byParts.keys());
    const list = Array.from({ length: largest + 1 }, (_, parts) => byParts.get(parts) ?? 0);
    const found = sumUpTo(largest, list);
    const rate = found + sums.missed + sums.wrong + sums.lost + sums['out of scope'];
    return {
        rate,
        found,
        handedOver: sums['handed over'],
        missed: sums.missed,
        wrong: sums.wrong,
        lost: sums.lost,
        outOfScope: sums['out of scope'],
        handedOn: sums['handed on'],
        byParts: list,
        detected: rate === 0 ? undefined : found / rate,
        isolated: found === 0 ? undefined : isolatedOf(list, found),
    };
}

function isolatedOf(byParts: readonly number[], found: number): [number, number, number] {
    return [sumUpTo(1, byParts) / found, sumUpTo(2, byParts) / found, sumUpTo(3, byParts) / found];
}

function sumUpTo(most: number, byParts: readonly number[]): number {
    return byParts.slice(0, most + 1).reduce((sum, rate) => sum + rate, 0);
}
