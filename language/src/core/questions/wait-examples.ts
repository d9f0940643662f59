// Finds the quickest way to a wait, by replaying worlds one by one, and tells it as a counterexample.

import { makeCounterexample } from '../findings/counterexample.js';
import type { Counterexample, RelatedPlace } from '../findings/finding.js';
import type { Action, Route, Station } from '../meaning/route.js';
import type { Milliseconds, Unit, UnitGate } from '../meaning/unit.js';
import type { Occurrence, PathVisit } from '../replay/danger-path.js';
import { occurrenceWords } from '../replay/danger-words.js';
import { timeIn } from '../replay/changes.js';
import { type Happening, replay, type Run, type World } from '../replay/replay.js';
import { completeBuild, exists } from '../replay/world.js';
import { quoteName } from '../text/words.js';
import { hazardsOf } from '../walk/hazard-walk.js';
import { allWorlds, type WorldSet } from '../walk/sets/world-sets.js';
import { isPossible, pickWorld } from '../walk/space.js';
import { describeChoices } from './builds.js';
import { exampleOfDanger, findDanger } from './danger-examples.js';
import type { WalkedTree } from './walks.js';

type Wait = Extract<Action, { sort: 'wait' }>;

/** A way to a wait, and the time that has passed at its end since the energy was cut off. */
export interface WayToWait {
    readonly passed: Milliseconds;
    /** The way as a counterexample that ends with these words. */
    readonly example: (end: string) => Counterexample;
}

/** Whether the time of a hazard counts from when a gate is closed, in one build. */
export type CountsFrom = (gate: UnitGate, build: WorldSet) => boolean;

/** So many worlds are replayed to find a quick one. */
const mostWorlds = 60;

/** The quickest of the ways that worlds of these builds go to the wait; undefined where none of those tried comes there. */
export function quickestWay(
    station: Station,
    wait: Wait,
    builds: WorldSet,
    counts: CountsFrom,
    walked: WalkedTree,
): WayToWait | undefined {
    const { route, walk } = walked;
    const { space } = walk.around;
    let quickest: (RunToWait & { readonly passed: Milliseconds }) | undefined;
    for (const { presence, set } of walk.arrivals.slice(0, mostWorlds)) {
        const here = space.sets.and(set, builds);
        const picked = isPossible(here, space) ? pickWorld(here, space) : undefined;
        if (!picked) continue;
        const world: World = { build: picked.build, arrival: presence.arrival, draws: picked.draws };
        const clock = clockFor(world, counts, walked);
        for (const run of replay(route, world)) {
            const visit = run.visits.findIndex(
                one => one.station === station.number && one.steps.some(step => isWait(step, wait)),
            );
            if (visit < 0) continue;
            const passed = timePassed(run, visit, wait, clock) + wait.time;
            if (!quickest || passed < quickest.passed) quickest = { passed, world, run, visit };
        }
    }
    const found = quickest;
    return found && { passed: found.passed, example: end => exampleOfWait(found, end, walked) };
}

/** A way to the wait on which something did not go as said before; the shortest, with the time that passes on it. */
export function detourTo(
    station: Station,
    wait: Wait,
    builds: WorldSet,
    counts: CountsFrom,
    walked: WalkedTree,
): WayToWait | undefined {
    const { space } = walked.walk.around;
    const met = hazardsOf(walked.walk)
        .occasions.filter(
            one =>
                one.occasion === 'waited' &&
                one.lane === 'detour' &&
                one.station === station.number &&
                one.action === wait,
        )
        .map(one => ({ ...one, set: space.sets.and(one.set, builds) }))
        .filter(({ set }) => isPossible(set, space));
    const found = findDanger(met, walked);
    if (!found || found.before.length > 0) return undefined;
    const clock = clockFor(found.world, counts, walked);
    found.danger.path.forEach(visit => passVisit(visit, wait, clock, walked.route));
    return { passed: clock.time + wait.time, example: end => exampleOfDanger(found, walked, end) };
}

interface RunToWait {
    readonly world: World;
    readonly run: Run;
    /** The number of the visit in which it is waited. */
    readonly visit: number;
}

function isWait(step: Happening, wait: Wait): boolean {
    return step.sort === 'waited' && step.action === wait;
}

/** Counts the time since a gate was closed that cuts the energy off. */
class Clock {
    time: Milliseconds = 0;
    private readonly closed = new Set<number>();

    constructor(
        readonly build: ReturnType<typeof completeBuild>,
        private readonly unit: Unit,
        private readonly counts: (gate: UnitGate) => boolean,
    ) {}

    pass(action: Action): void {
        const gate = 'gate' in action ? this.unit.gates[action.gate] : undefined;
        if (action.sort === 'gate' && gate) {
            if (this.counts(gate)) this.closed.add(gate.number);
        } else if (action.sort === 'restore') {
            this.closed.delete(action.gate);
            if (this.closed.size === 0) this.time = 0;
        } else if (this.closed.size > 0) {
            this.time += this.timeOf(action);
        }
    }

    private timeOf(action: Action): Milliseconds {
        if (action.sort === 'do' || action.sort === 'wait') return action.time;
        if (action.sort !== 'ask' && action.sort !== 'read') return 0;
        return timeIn(this.unit.tests[action.test]?.takes ?? [], this.build);
    }
}

function clockFor(world: World, counts: CountsFrom, { route: { unit }, walk }: WalkedTree): Clock {
    const { sets, variables } = walk.around.space;
    const build = [...variables.options].reduce<WorldSet>((set, [option, variable]) => {
        const choice = world.build.get(option);
        return sets.and(set, sets.is(variable, choice ? option.choices.indexOf(choice) : option.choices.length));
    }, allWorlds);
    return new Clock(completeBuild(unit, world.build), unit, gate => counts(gate, build));
}

/** The time on a run up to a wait. */
function timePassed(run: Run, visit: number, wait: Wait, clock: Clock): Milliseconds {
    for (const step of run.visits.slice(0, visit + 1).flatMap(({ steps }) => steps)) {
        if (isWait(step, wait)) break;
        if (!('action' in step)) continue;
        if (['gate', 'restored', 'did', 'waited', 'asked', 'read'].includes(step.sort)) clock.pass(step.action);
    }
    return clock.time;
}

/** Does what is done at one station of a path, up to the wait or to what could not be done or read. */
function passVisit({ station, happenings }: PathVisit, wait: Wait, clock: Clock, route: Route): void {
    const stopped = happenings.flatMap(one =>
        one.sort === 'cannot be done' || one.sort === 'cannot be read' ? [one.action as Action] : [],
    );
    for (const action of route.stations[station]?.actions ?? []) {
        if (action === wait || stopped.includes(action)) return;
        if (exists(action.guard, clock.build)) clock.pass(action);
    }
}

/** The way as a counterexample. */
function exampleOfWait({ world, run, visit }: RunToWait, end: string, { route, all }: WalkedTree): Counterexample {
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
