// Finds the quickest way to a wait, by replaying worlds one by one, and tells it as a counterexample.

import { makeCounterexample } from '../findings/counterexample.js';
import type { Counterexample, RelatedPlace } from '../findings/finding.js';
import type { Action, Route, Station } from '../meaning/route.js';
import type { Milliseconds, UnitTest } from '../meaning/unit.js';
import type { Occurrence } from '../replay/danger-path.js';
import { occurrenceWords } from '../replay/danger-words.js';
import { timeIn } from '../replay/changes.js';
import { type Happening, replay, type Run, type World } from '../replay/replay.js';
import { readingsOf } from '../replay/shows.js';
import { completeBuild } from '../replay/world.js';
import { quoteName } from '../text/words.js';
import type { WorldSet } from '../walk/sets/world-sets.js';
import { isPossible, pickWorld } from '../walk/space.js';
import { describeChoices } from './builds.js';
import type { WalkedTree } from './walks.js';

type Wait = Extract<Action, { sort: 'wait' }>;

/** A way to a wait, and the time that has passed at its end since the energy was cut off. */
export interface WayToWait {
    readonly passed: Milliseconds;
    readonly world: World;
    readonly run: Run;
    /** The number of the visit in which it is waited. */
    readonly visit: number;
}

/** So many worlds are replayed to find a quick one. */
const mostWorlds = 60;

/** The quickest of the ways that worlds of these builds go to the wait; undefined where none of those tried comes there. */
export function quickestWay(
    station: Station,
    wait: Wait,
    builds: WorldSet,
    { route, walk }: WalkedTree,
): WayToWait | undefined {
    const { space } = walk.around;
    let quickest: WayToWait | undefined;
    for (const { presence, set } of walk.arrivals.slice(0, mostWorlds)) {
        const here = space.sets.and(set, builds);
        const picked = isPossible(here, space) ? pickWorld(here, space) : undefined;
        if (!picked) continue;
        const world: World = { build: picked.build, arrival: presence.arrival, draws: picked.draws };
        for (const run of replay(route, world)) {
            const visit = run.visits.findIndex(
                one => one.station === station.number && one.steps.some(step => isWait(step, wait)),
            );
            if (visit < 0) continue;
            const passed = timePassed(run, visit, wait, world, route);
            if (!quickest || passed < quickest.passed) quickest = { passed, world, run, visit };
        }
    }
    return quickest;
}

function isWait(step: Happening, wait: Wait): boolean {
    return step.sort === 'waited' && step.action === wait;
}

/** The time on a way since a gate was closed, up to the end of a wait; at least that of the wait. */
function timePassed(run: Run, visit: number, wait: Wait, world: World, { unit }: Route): Milliseconds {
    const build = completeBuild(unit, world.build);
    const ofTest = (test: UnitTest): Milliseconds =>
        readingsOf(test, unit, build).reduce((sum, { takes }) => sum + timeIn(takes, build), 0);
    const closed = new Set<number>();
    let time = 0;
    for (const step of run.visits.slice(0, visit + 1).flatMap(({ steps }) => steps)) {
        if (!('action' in step)) continue;
        const { action, sort } = step;
        if (isWait(step, wait)) return time + wait.time;
        if (sort === 'gate' && action.sort === 'gate') {
            if ((unit.gates[action.gate]?.controls.length ?? 0) > 0) closed.add(action.gate);
        } else if (sort === 'restored' && action.sort === 'restore') {
            closed.delete(action.gate);
            if (closed.size === 0) time = 0;
        } else if (closed.size > 0 && (sort === 'did' || sort === 'waited')) {
            time += action.sort === 'do' || action.sort === 'wait' ? action.time : 0;
        } else if (closed.size > 0 && sort === 'asked') {
            const test = unit.tests[step.test];
            time += test ? ofTest(test) : 0;
        }
    }
    return time + wait.time;
}

/** The way as a counterexample. */
export function exampleOfWait(
    { world, run, visit }: WayToWait,
    end: string,
    { route, all }: WalkedTree,
): Counterexample {
    const [fault] = world.arrival;
    return makeCounterexample({
        build: describeChoices(world.build, [...world.build.keys()]),
        fault: fault === undefined ? 'healthy' : `with ${quoteName(all.unit.faults[fault]?.name ?? '')}`,
        path: run.visits.slice(0, visit + 1).flatMap(({ station, steps }, index) => {
            const step = route.stations[station]?.step;
            return step ? [placeOf(step.name, index === visit ? beforeWait(steps) : steps, route)] : [];
        }),
        end,
    });
}

/** What happens in the last step before it is waited. */
function beforeWait(steps: readonly Happening[]): readonly Happening[] {
    const first = steps.findIndex(({ sort }) => sort === 'waited');
    return first < 0 ? steps : steps.slice(0, first);
}

function placeOf(
    { file, start, end, text }: Station['step']['name'],
    steps: readonly Happening[],
    route: Route,
): RelatedPlace & { readonly step: string } {
    const said = steps.flatMap(step => occurrenceOf(step) ?? []).map(one => occurrenceWords(one, route));
    return { file, start, end, step: text, text: said.join(', ') };
}

/** What has to be told of a way: answers, and gates that are closed or restored. */
function occurrenceOf(step: Happening): Occurrence | undefined {
    if (step.sort === 'asked') return { sort: 'asked', action: step.action, outcome: step.outcome };
    if (step.sort === 'gate' && step.action.sort === 'gate') return { sort: 'closed', action: step.action };
    if (step.sort === 'restored' && step.action.sort === 'restore') {
        return { sort: 'restored', action: step.action, lost: [] };
    }
    return undefined;
}
