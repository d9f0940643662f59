// Who ends wrongly, each world under the one finding that names its cause.

import type { RouteEnd } from '../meaning/route.js';
import type { UnitFault } from '../meaning/unit.js';
import type { Conclusion, Referral, Tree } from '../model/trees.js';
import type { Crowd } from '../walk/changes.js';
import { type Judgement, judgementsOf, namesFault } from '../walk/judge.js';
import { allWorlds, noWorlds, type WorldSet } from '../walk/sets/world-sets.js';
import { buildsIn, buildsWhere, isPossible } from '../walk/space.js';
import type { EquipmentWalks } from '../walk/walks.js';
import type { WalkedTree } from './walks.js';

/**
 * Why worlds end wrongly: a healthy unit at a repair, or handed over as faulty; a conclusion that is right for others or for
 * nobody; a fault that no end names, or that ends unnamed in all units of some builds.
 */
export type WhyWrong = 'condemned' | 'handed over' | 'too strong' | 'wrong' | 'unnamed' | 'missed';

/** One end to which worlds come wrongly, for one reason. */
export interface WrongEnd {
    readonly end: Conclusion | Referral;
    readonly number: number;
    readonly why: WhyWrong;
    readonly crowds: readonly Crowd[];
    /** The faults that they arrived with, each once, in the order of the text. */
    readonly faults: readonly UnitFault[];
    /** Effects that the end leaves out for those whose fault it names. */
    readonly effects: readonly UnitFault[];
    /** Effects that the end names, where each of those whose fault it leaves out has one. */
    readonly namedEffects: readonly UnitFault[];
}

const wrongEnds = new WeakMap<EquipmentWalks, WeakMap<WalkedTree['walk'], readonly WrongEnd[]>>();

/** The wrong ends of a tree, in the order of the text. */
export function wrongEndsOf({ walk, all }: WalkedTree): readonly WrongEnd[] {
    const known = wrongEnds.get(all) ?? new WeakMap<WalkedTree['walk'], readonly WrongEnd[]>();
    wrongEnds.set(all, known);
    let wrong = known.get(walk);
    if (!wrong) {
        const unprepared = askedUnprepared(walk);
        wrong = judgementsOf(walk)
            .map(judgement => leaveOut(judgement, unprepared))
            .flatMap(judgement => wrongAt(judgement, walk.route.tree, all))
            .sort((one, other) => one.end.start - other.end.start);
        known.set(walk, wrong);
    }
    return wrong;
}

/** Whether a tree ends wrongly for anybody, or somebody does not come to an end. */
export function hasWrongWays(walked: WalkedTree): boolean {
    const { walk } = walked;
    const stops = walk.meetings.some(({ sort }) => sort === 'missing' || sort === 'stranded');
    return stops || walk.loops.length > 0 || wrongEndsOf(walked).length > 0;
}

/** Whether a world with these faults (none for a healthy unit) is among those that go wrong in some tree. */
export function goesWrong(arrival: readonly number[], trees: readonly WalkedTree[]): boolean {
    const key = arrival.join(',');
    const isOf = ({ presence }: Crowd) => presence.arrival.join(',') === key;
    return trees.some(walked => {
        const { meetings, loops } = walked.walk;
        return meetings.some(isOf) || loops.some(isOf) || wrongEndsOf(walked).some(({ crowds }) => crowds.some(isOf));
    });
}

/** The faults that were asked a test that is not set up: what they are answered there says nothing of the tree. */
function askedUnprepared({ meetings }: WalkedTree['walk']): ReadonlySet<string> {
    const unprepared = meetings.filter(({ sort }) => sort !== 'missing' && sort !== 'stranded');
    return new Set(unprepared.map(({ presence }) => presence.arrival.join(',')));
}

function leaveOut(judgement: Judgement, unprepared: ReadonlySet<string>): Judgement {
    if (unprepared.size === 0) return judgement;
    const keep = ({ presence }: Crowd) => !unprepared.has(presence.arrival.join(','));
    const { healthy, partly, unnamed } = judgement;
    return { ...judgement, healthy: healthy.filter(keep), partly: partly.filter(keep), unnamed: unnamed.filter(keep) };
}

/** What all trees of an equipment together find. */
interface Found {
    /** Faults that an end of some tree in whose scope they are names. */
    readonly named: ReadonlySet<number>;
    /** By tree and fault, the builds in which some way of the tree, or of those it hands over to, leads to an end that names it. */
    readonly builds: ReadonlyMap<Tree, ReadonlyMap<number, WorldSet>>;
}

const foundOf = new WeakMap<EquipmentWalks, Found>();

function findFound(all: EquipmentWalks): Found {
    const known = foundOf.get(all);
    if (known) return known;
    const { trees, around } = all;
    const named = new Set<number>();
    for (const { walk, route } of trees) {
        // Where nobody knows what comes to its ends, nothing may be called missing that one of them names.
        const inScope = walk && new Set(walk.arrivals.flatMap(({ presence }) => presence.arrival));
        for (const end of route.ends) {
            for (const { fault } of end.names) {
                const isInScope = !inScope || inScope.has(fault);
                if (isInScope && isPossible(namesFault(end, fault, around.space), around.space)) named.add(fault);
            }
        }
    }
    const builds = new Map(trees.map(({ tree }) => [tree, foundFrom(tree, all)]));
    const found = { named, builds };
    foundOf.set(all, found);
    return found;
}

/** What is found from one tree on. */
function foundFrom(start: Tree, { trees, around }: EquipmentWalks): ReadonlyMap<number, WorldSet> {
    const { sets } = around.space;
    const builds = new Map<number, WorldSet>();
    const open = new Set([start]);
    // The loop also visits what it adds.
    for (const tree of open) {
        const walked = trees.find(one => one.tree === tree);
        for (const next of walked?.walk?.handedOver.keys() ?? []) open.add(next);
        if (walked && !walked.walk) {
            for (const { fault } of walked.route.ends.flatMap(end => end.names)) builds.set(fault, allWorlds);
        }
        for (const { presence, set } of walked?.walk ? judgementsOf(walked.walk).flatMap(({ right }) => right) : []) {
            const here = buildsIn(set, around.space);
            for (const fault of presence.arrival) builds.set(fault, sets.or(builds.get(fault) ?? noWorlds, here));
        }
    }
    return builds;
}

function wrongAt(judgement: Judgement, tree: Tree, all: EquipmentWalks): WrongEnd[] {
    const { end, healthy, right, partly, unnamed } = judgement;
    const { written, number } = end;
    const isConclusion = written.sort === 'conclusion';
    const named = findFound(all).named;
    const isNamed = ({ presence }: Crowd) => presence.arrival.some(fault => named.has(fault));
    const wrong: WrongEnd[] = [];
    const add = (why: WhyWrong, crowds: readonly Crowd[], left: readonly Crowd[] = []) => {
        if (crowds.length === 0) return;
        wrong.push({ end: written, number, why, crowds, ...whatIsLeftOut(judgement, crowds, left, all) });
    };
    if (isConclusion) add('condemned', healthy);
    else add('handed over', whoseFaultsAreNamed(healthy, end, all));
    const nowhereNamed = unnamed.filter(crowd => !isNamed(crowd));
    if (isConclusion) {
        // An effect that is left out as a fault of its own is one slip, and one finding.
        const told = new Set(nowhereNamed.flatMap(({ presence }) => presence.arrival));
        const lacking = partly.filter(crowd => effectsLeftOut(crowd, end, all).some(fault => !told.has(fault)));
        add(right.length > 0 ? 'too strong' : 'wrong', [...lacking, ...unnamed.filter(isNamed)], lacking);
    }
    add('unnamed', nowhereNamed);
    if (!isConclusion) add('missed', missed(unnamed.filter(isNamed), tree, all));
    return wrong;
}

/** Those of healthy crowds in whose builds an end names any fault that they could have. */
function whoseFaultsAreNamed(healthy: readonly Crowd[], end: RouteEnd, { around, unit }: EquipmentWalks): Crowd[] {
    const { space } = around;
    const named = end.names.reduce<WorldSet>((any, { fault, guard }) => {
        const there = buildsWhere(unit.faults[fault]?.guard, space);
        return space.sets.or(any, space.sets.and(buildsWhere(guard, space), there));
    }, noWorlds);
    return healthy
        .map(({ presence, set }) => ({ presence, set: space.sets.and(set, named) }))
        .filter(({ set }) => isPossible(set, space));
}

/** The effects of a crowd's fault that are still there and that the end does not name in all of its builds. */
function effectsLeftOut({ presence, set }: Crowd, end: RouteEnd, { around: { space } }: EquipmentWalks): number[] {
    return presence.present.filter(fault => {
        if (presence.arrival.includes(fault)) return false;
        return isPossible(space.sets.without(set, namesFault(end, fault, space)), space);
    });
}

/** Those of the crowds in whose builds no way leads to an end that names their fault. */
function missed(crowds: readonly Crowd[], tree: Tree, all: EquipmentWalks): Crowd[] {
    const { space } = all.around;
    const builds = findFound(all).builds.get(tree);
    return crowds.flatMap(({ presence, set }) => {
        const found = presence.arrival.reduce<WorldSet>(
            (any, fault) => space.sets.or(any, builds?.get(fault) ?? noWorlds),
            noWorlds,
        );
        const left = space.sets.without(set, found);
        return isPossible(left, space) ? [{ presence, set: left }] : [];
    });
}

function whatIsLeftOut(
    { end }: Judgement,
    crowds: readonly Crowd[],
    partly: readonly Crowd[],
    all: EquipmentWalks,
): Pick<WrongEnd, 'faults' | 'effects' | 'namedEffects'> {
    const { unit, around } = all;
    const pick = (numbers: readonly number[]) =>
        [...new Set(numbers)]
            .map(number => unit.faults[number])
            .filter(fault => fault !== undefined)
            .sort((one, other) => one.number - other.number);
    const effects = partly.flatMap(crowd => effectsLeftOut(crowd, end, all));
    const whole = crowds.filter(crowd => !partly.includes(crowd));
    const caused = whole.map(({ presence, set }) =>
        presence.present.filter(fault => {
            const namedHere = namesFault(end, fault, around.space);
            return !presence.arrival.includes(fault) && isPossible(around.space.sets.and(set, namedHere), around.space);
        }),
    );
    return {
        faults: pick(whole.flatMap(({ presence }) => presence.arrival)),
        effects: pick(effects),
        namedEffects: caused.every(faults => faults.length > 0) ? pick(caused.flat()) : [],
    };
}
