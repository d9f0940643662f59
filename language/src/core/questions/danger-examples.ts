// Finds a world that meets a danger, by going its ways one by one, and tells its way as a counterexample.
//
// The ways are those of the plain replay, which knows no world sets: what it does not find again is no counterexample.

import { makeCounterexample } from '../findings/counterexample.js';
import type { Counterexample, RelatedPlace } from '../findings/finding.js';
import type { Route } from '../meaning/route.js';
import type { Unit } from '../meaning/unit.js';
import { type Danger, dangersHandedOver, dangersOf, type PathVisit, type WaysOptions } from '../replay/dangers.js';
import type { World } from '../replay/replay.js';
import { listOf, quoteName } from '../text/words.js';
import type { HazardMet, LeftBehind } from '../walk/hazards-met.js';
import type { OccasionMet } from '../walk/occasions.js';
import { buildsIn, changedByActions, isPossible, pickWorld } from '../walk/space.js';
import type { Crowd } from '../walk/changes.js';
import type { RouteWalk } from '../walk/walk-route.js';
import { describeChoices } from './builds.js';
import type { WalkedTree } from './walks.js';

/** A danger with the world that meets it. */
export interface FoundDanger {
    readonly world: World;
    readonly danger: Danger;
    /** All that this world meets in the same tree, on whatever way. */
    readonly dangers: readonly Danger[];
    /** The ways through other trees that led to this one. */
    readonly before: readonly { readonly route: Route; readonly path: readonly PathVisit[] }[];
}

/** What is looked for on the ways. */
export type Wanted = HazardMet | LeftBehind | OccasionMet;

/** So many worlds are gone through to find one that meets a danger. */
const mostWorlds = 60;

/** Goes through worlds of the right builds until one meets one of the dangers; those that go as told come first. */
export function findDanger(wanted: readonly Wanted[], { route, walk, all }: WalkedTree): FoundDanger | undefined {
    const { space } = walk.around;
    const told = [...wanted].sort((one, other) => (one.lane === other.lane ? 0 : one.lane === 'told' ? -1 : 1));
    const routes = all.trees.map(tree => tree.route);
    let left = mostWorlds;
    for (const one of told) {
        const builds = buildsIn(one.set, space);
        for (const { presence, set } of candidatesFor(one, walk)) {
            const here = space.sets.and(set, builds);
            const picked = isPossible(here, space) ? pickWorld(here, space) : undefined;
            if (!picked) continue;
            if (left === 0) return undefined;
            left -= 1;
            const world: World = { build: picked.build, arrival: presence.arrival, draws: picked.draws };
            const found = inOwnTree(world, one, route) ?? afterOtherTrees(world, one, route, routes);
            if (found) return found;
        }
    }
    return undefined;
}

/** Those who come to the place as told, with the draws that lead them there, if that is known; then all who arrive. */
function candidatesFor(wanted: Wanted, { stations, ends, arrivals, around }: RouteWalk): Crowd[] {
    if (wanted.lane !== 'told') return [...arrivals];
    const station = 'station' in wanted ? wanted.station : undefined;
    const crowds = station === undefined ? ends[wanted.end ?? -1] : stations[station];
    const changed = changedByActions(around.space.variables);
    const there = [...(crowds ?? [])].map(([number, set]) => ({
        presence: around.presences.at(number),
        set: around.space.sets.forget(set, changed),
    }));
    return [...there, ...arrivals];
}

function inOwnTree(world: World, wanted: Wanted, route: Route): FoundDanger | undefined {
    const dangers = dangersOf(route, world, optionsFor(wanted));
    const danger = dangers.find(one => isSame(one, wanted));
    return danger && { world, danger, dangers, before: [] };
}

function afterOtherTrees(
    world: World,
    wanted: Wanted,
    route: Route,
    routes: readonly Route[],
): FoundDanger | undefined {
    if (routes.length < 2) return undefined;
    for (const { dangers, through } of dangersHandedOver(route, routes, world, optionsFor(wanted))) {
        const danger = dangers.find(one => isSame(one, wanted));
        if (!danger) continue;
        const before = through.flatMap(({ tree, path }) => {
            const other = routes.find(one => one.tree === tree);
            return other ? [{ route: other, path }] : [];
        });
        return { world, danger, dangers, before };
    }
    return undefined;
}

function optionsFor({ sort }: Wanted): WaysOptions {
    return { occasions: sort === 'occasion' };
}

function isSame(danger: Danger, wanted: Wanted): boolean {
    if (danger.sort !== wanted.sort || danger.end !== wanted.end) return false;
    if (wanted.sort === 'left') {
        return danger.gate === wanted.gate && danger.condition === wanted.condition && danger.value === wanted.value;
    }
    if (danger.hazard !== wanted.hazard) return false;
    if (wanted.sort === 'hazard') return isAtSamePlace(danger, wanted);
    const { occasion, station, action } = wanted;
    return danger.occasion === occasion && danger.station === station && danger.action === action;
}

function isAtSamePlace(danger: Danger, { station, action, end, zone, part }: Danger | HazardMet): boolean {
    return (
        danger.station === station &&
        danger.action === action &&
        danger.end === end &&
        danger.zone === zone &&
        danger.part === part
    );
}

/** The counterexample: the build, the fault, the way, and what is met or left at its end, or what is said of it. */
export function exampleOfDanger(found: FoundDanger, walked: WalkedTree, said?: string): Counterexample {
    const { world, danger, dangers, before } = found;
    const { route, all } = walked;
    const [fault] = world.arrival;
    return makeCounterexample({
        build: describeChoices(world.build, [...world.build.keys()]),
        fault: fault === undefined ? 'healthy' : `with ${quoteName(all.unit.faults[fault]?.name ?? '')}`,
        path: [...before, { route, path: danger.path }].flatMap(stepsOf),
        end: said ?? (danger.sort === 'left' ? leftWords(danger, walked) : metWords(danger, dangers, all.unit)),
    });
}

function stepsOf({ route, path }: FoundDanger['before'][number]): (RelatedPlace & { readonly step: string })[] {
    return path.flatMap(({ station, happenings }) => {
        const step = route.stations[station]?.step;
        if (!step) return [];
        const { file, start, end, text } = step.name;
        return [{ file, start, end, step: text, text: happenings.map(({ words }) => words).join(', ') }];
    });
}

/** All that the same world meets at the same place on the same way. */
function metWords(danger: Danger, dangers: readonly Danger[], unit: Unit): string {
    const here = dangers.filter(
        one =>
            one.sort === 'hazard' &&
            isAtSamePlace(one, danger) &&
            one.wasControlled === danger.wasControlled &&
            wayOf(one) === wayOf(danger),
    );
    const numbers = new Set(here.map(({ hazard }) => hazard ?? -1));
    const names = [...numbers]
        .sort((one, other) => one - other)
        .map(number => quoteName(unit.hazards[number]?.declaration.name.text ?? ''));
    return `nothing has ${listOf(names, 'and')} under control`;
}

function wayOf({ path }: Danger): string {
    return JSON.stringify(path.map(({ station, happenings }) => [station, happenings.map(({ words }) => words)]));
}

function leftWords({ gate, condition, value, end }: Danger, { route, all }: WalkedTree): string {
    const declared = all.unit.conditions[condition ?? -1]?.declaration;
    const there = quoteName(route.ends[end ?? -1]?.written.name.text ?? '');
    if (gate !== undefined) {
        return `it ends at ${there} with gate ${quoteName(all.unit.gates[gate]?.declaration.name.text ?? '')} closed`;
    }
    const set = quoteName(declared?.values[value ?? -1]?.name.text ?? '');
    return `it ends at ${there} with ${quoteName(declared?.name.text ?? '')} at ${set}`;
}
