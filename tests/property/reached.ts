/** What was reached in the replays of random worlds, so that a check that never met something is noticed. */
import type { Station } from '../../language/src/core/meaning/route.js';
import type { Unit, UnitTest } from '../../language/src/core/meaning/unit.js';
import { affected } from '../../language/src/core/replay/affected.js';
import { stateOnArrival } from '../../language/src/core/replay/arrival.js';
import type { Happening, Run, World } from '../../language/src/core/replay/replay.js';
import { showsIn } from '../../language/src/core/replay/shows.js';
import { situationOf, viewOf } from '../../language/src/core/replay/situation.js';
import { completeBuild, exists } from '../../language/src/core/replay/world.js';
import { judgementsOf } from '../../language/src/core/walk/judge.js';
import type { RouteWalk } from '../../language/src/core/walk/walk-route.js';
import type { TreeWalk } from '../../language/src/core/walk/walks.js';

/** In how many of the worlds that were counted something was reached, by what it is. */
export type Counts = Map<string, number>;

/** Adds what the runs of one random world have reached: each thing once. */
export function countReached(counts: Counts, found: ReadonlySet<string>): void {
    for (const name of found) counts.set(name, (counts.get(name) ?? 0) + 1);
}

/** What happened in one run. */
export function reachedIn(run: Run, { route }: TreeWalk, found: Set<string>): void {
    const { unit } = route;
    const cleared = new Set<string>();
    for (const { station, key, steps } of run.visits) {
        reachedWithState(key, cleared, unit, found);
        const placed = route.stations[station];
        if (placed) for (const step of steps) reachedBy(step, placed, unit, found);
        for (const step of steps) {
            if ('exit' in step && step.exit !== undefined) found.add(`an exit: ${route.exits[step.exit]?.why ?? ''}`);
        }
    }
    found.add(`an ending: ${run.ending.sort}`);
    if (run.ending.sort === 'missing') {
        const { end, action, station } = run.ending;
        const what = end === undefined ? (action?.sort ?? (station === undefined ? 'tree' : 'station')) : 'end';
        found.add(`missing: ${what}`);
    }
}

/** What a state shows. `cleared` are the faults that were cleared before, and is added to. */
function reachedWithState(key: string, cleared: Set<string>, unit: Unit, found: Set<string>): void {
    const part = (name: string) => new RegExp(`(?:^|\\|)${name}:([^|]*)`).exec(key)?.[1] ?? '';
    const list = (name: string) =>
        part(name)
            .split(',')
            .filter(one => one !== '');
    if (part('g') !== '') found.add('a closed gate');
    if (part('s') !== '') found.add('a hazard made safe');
    if (part('r') === '1') found.add('a part replaced');
    if (part('q') === '1') found.add('a guess');
    if (list('p').some(fault => cleared.has(fault))) found.add('a fault that came back');
    if (part('x') !== '') found.add('a cleared fault with its cause');
    for (const one of list('x')) cleared.add(one.split('@')[0] ?? '');
    if (/=\d/.test(part('m')) && part('p') === '') found.add('a test that remembers what is gone');
    list('c').forEach((value, condition) => {
        const bypassed = unit.conditions[condition]?.bypasses[Number(value)] ?? [];
        if (bypassed.length > 0) found.add('a part bypassed');
    });
}

/** What the walk of a tree tells. */
export function reachedByWalk(walk: RouteWalk, found: Set<string>): void {
    if (walk.loops.length > 0) found.add('a loop found by the walk');
    for (const judgement of judgementsOf(walk)) {
        for (const name of ['healthy', 'right', 'partly', 'unnamed'] as const) {
            const sort = judgement.end.written.sort;
            if (judgement[name].length > 0) found.add(`judged at a ${sort}: ${name}`);
        }
    }
}

function reachedBy(step: Happening, { owner }: Station, unit: Unit, found: Set<string>): void {
    found.add(`a happening: ${step.sort}`);
    if (owner.sort === 'procedure') found.add('a procedure');
    if (step.sort === 'missing') found.add(`missing: ${step.action.sort}`);
    if (step.sort !== 'asked') return;
    const test = unit.tests[step.test];
    if (step.opts.length > 1) found.add('a draw');
    if (step.opts.length === 0) found.add('a test with nothing to show');
    if (test?.identifies) found.add('a test that identifies');
    if (test?.remembers) found.add('a test that remembers');
    if ((test?.readings.length ?? 0) > 0) found.add('a reading');
}

/** What tests show of a world as it arrives. Only worlds with nothing drawn are looked at: the others show the same effects. */
export function reachedOnArrival(world: World, unit: Unit, found: Set<string>): void {
    if (world.draws.some(draw => draw > 0)) return;
    const build = completeBuild(unit, world.build);
    const state = stateOnArrival(unit, world);
    const view = viewOf(situationOf(unit, build, state), state.present);
    for (const test of unit.tests) {
        if (!exists(test.guard, build)) continue;
        const { effects, dead } = affected(test, view);
        const shown = showsIn(unit, test.number, world, state);
        if (effects.size > 0) found.add(`a test that looks ${whereItLooks(test, build)}`);
        for (const effect of effects) found.add(`an effect: ${effect}`);
        if (dead) found.add('a dead test');
        if (shown.length > 1) found.add('a fault that comes and goes');
        const isSilent = !(dead && test.entries.some(({ when }) => when));
        const isNormal = shown.every(({ outcome }) => outcome === test.normal);
        if (effects.size > 0 && isSilent && isNormal) found.add('a blind test');
    }
}

function whereItLooks(test: UnitTest, build: ReturnType<typeof completeBuild>): string {
    if (test.across.some(({ guard }) => exists(guard, build))) return 'across a stretch';
    return test.through.some(({ guard }) => exists(guard, build)) ? 'through flows' : 'at points';
}
