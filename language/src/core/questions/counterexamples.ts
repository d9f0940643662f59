// Turns a world of the walk into the counterexample of a finding, by replaying it one step at a time.
//
// The replay is code of its own that knows no world sets: what it does not reach again is no counterexample.

import { makeCounterexample } from '../findings/counterexample.js';
import type { Counterexample, RelatedPlace } from '../findings/finding.js';
import type { AskAction, Route, Station } from '../meaning/route.js';
import type { Unit } from '../meaning/unit.js';
import { arrives, type Happening, replay, type Run, type World } from '../replay/replay.js';
import type { State } from '../replay/state.js';
import { listOf, quoteName } from '../text/words.js';
import type { Meeting } from '../walk/ways.js';
import type { TreeWalk } from '../walk/walks.js';
import { describeChoices } from './builds.js';
import type { ScenarioRun } from './scenarios.js';
import type { Example, WalkedTree } from './walks.js';

/** What the path of a counterexample leads to. */
export type Goal =
    | { readonly sort: 'station'; readonly station: number }
    | { readonly sort: 'exit'; readonly exit: number }
    /** An end; where a fault comes and goes, a world may come there in a state that is right and in one that is not. */
    | { readonly sort: 'end'; readonly end: number; readonly wrong?: true }
    | { readonly sort: 'loop'; readonly station: number }
    | { readonly sort: 'meeting'; readonly meeting: Meeting }
    /** A question that is answered, whatever the answer. */
    | { readonly sort: 'asked'; readonly station: number; readonly action: AskAction }
    /** Its end, whatever it is. */
    | { readonly sort: 'run' };

/** A world with the way that it goes; what findings and their tests look at. */
export interface Shown {
    readonly world: World;
    /** The runs one after the other: of the trees that hand it over, then of the tree itself. */
    readonly runs: readonly { readonly route: Route; readonly run: Run }[];
    /** How many visits of the last run, and how many happenings of the last of these, belong to the path. */
    readonly visits: number;
    readonly happenings: number;
}

/** The counterexample of a finding; `end` says what happens where its path ends. */
export function counterexampleOf(
    example: Example,
    goal: Goal,
    { route, all }: WalkedTree,
    end: string,
): Counterexample | undefined {
    const shown = showWorld(worldOf(example), goal, route, all.trees);
    if (!shown) return undefined;
    const { unit } = all;
    return makeCounterexample({
        build: describeChoices(example.world.build, example.options),
        fault: faultWords(shown.world, unit),
        path: pathOf(shown, unit),
        end,
    });
}

/** A whole run as a counterexample, for a world that is given and not found. */
export function counterexampleOfRun({ world, route, run, unit }: ScenarioRun, end: string): Counterexample {
    const visits = run.visits.length;
    const happenings = run.visits.at(-1)?.steps.length ?? 0;
    return makeCounterexample({
        build: describeChoices(world.build, [...world.build.keys()]),
        fault: faultWords(world, unit),
        path: pathOf({ world, runs: [{ route, run }], visits, happenings }, unit),
        end,
    });
}

/** The world of an example, for the replay. */
export function worldOf({ crowd, world }: Example): World {
    return { build: world.build, arrival: crowd.presence.arrival, draws: world.draws };
}

/** `fault \`k1.coil-open\``, or that the unit is healthy. */
function faultWords({ arrival }: World, unit: Unit): string {
    if (arrival.length === 0) return 'healthy';
    return `with ${listOf(
        arrival.map(fault => quoteName(unit.faults[fault]?.name ?? '')),
        'and',
    )}`;
}

/** Replays a world until it comes to the goal; undefined where no run of it does. */
export function showWorld(world: World, goal: Goal, route: Route, trees: readonly TreeWalk[]): Shown | undefined {
    if (arrives(route, world)) {
        const shown = findRun(world, goal, route, undefined, []);
        if (shown) return shown;
    }
    return throughOthers(world, goal, route, trees, new Set([route]));
}

/** Looks among the trees that hand worlds over to this one. */
function throughOthers(
    world: World,
    goal: Goal,
    route: Route,
    trees: readonly TreeWalk[],
    visited: ReadonlySet<Route>,
): Shown | undefined {
    const open: { route: Route; start: State | undefined; before: Shown['runs'] }[] = trees
        .filter(({ route: other }) => !visited.has(other) && arrives(other, world))
        .map(({ route: other }) => ({ route: other, start: undefined, before: [] }));
    for (let next = open.shift(); next; next = open.shift()) {
        for (const run of replay(next.route, world, next.start ? { start: next.start } : {})) {
            const { ending } = run;
            if (ending.sort !== 'handed over') continue;
            const before = [...next.before, { route: next.route, run }];
            if (ending.tree === route.tree) {
                const shown = findRun(world, goal, route, ending.state, before);
                if (shown) return shown;
            }
            const onward = trees.find(({ tree }) => tree === ending.tree)?.route;
            const seen = before.some(one => one.route === onward);
            if (onward && onward !== route && !seen) open.push({ route: onward, start: ending.state, before });
        }
    }
    return undefined;
}

/** The shortest run that comes to the goal. */
function findRun(
    world: World,
    goal: Goal,
    route: Route,
    start: State | undefined,
    before: Shown['runs'],
): Shown | undefined {
    let best: Shown | undefined;
    for (const run of replay(route, world, start ? { start } : {})) {
        const reached = whereReached(run, goal);
        if (!reached) continue;
        const shown: Shown = { world, runs: [...before, { route, run }], ...reached };
        if (!best || shown.visits < best.visits) best = shown;
    }
    return best;
}

/** Up to which visit and happening a run goes to come to the goal. */
function whereReached(run: Run, goal: Goal): Pick<Shown, 'visits' | 'happenings'> | undefined {
    const whole = { visits: run.visits.length, happenings: run.visits.at(-1)?.steps.length ?? 0 };
    const { ending } = run;
    switch (goal.sort) {
        case 'end':
            return ending.sort === 'end' && ending.end === goal.end && !(goal.wrong && ending.right)
                ? whole
                : undefined;
        case 'run':
            return whole;
        case 'loop':
            return ending.sort === 'loop' ? whole : undefined;
        case 'meeting':
            return whereMet(run, goal.meeting, whole);
        case 'station': {
            const index = run.visits.findIndex(visit => visit.station === goal.station);
            return index < 0 ? undefined : { visits: index + 1, happenings: 0 };
        }
        case 'exit':
            return firstHappening(run, step => 'exit' in step && step.exit === goal.exit);
        case 'asked':
            return firstHappening(run, step => step.sort === 'asked' && step.action === goal.action, goal.station);
    }
}

function whereMet(
    run: Run,
    meeting: Meeting,
    whole: Pick<Shown, 'visits' | 'happenings'>,
): Pick<Shown, 'visits' | 'happenings'> | undefined {
    const { ending } = run;
    if (meeting.sort === 'missing' && goesOn(meeting)) {
        return firstHappening(run, step => 'action' in step && step.action === meeting.action, meeting.station);
    }
    if (meeting.sort === 'missing') {
        const isThere = ending.sort === 'missing' && (ending.end === undefined) === (meeting.end === undefined);
        return isThere ? whole : undefined;
    }
    if (meeting.sort === 'stranded') {
        return ending.sort === 'stranded' && ending.station === meeting.station ? whole : undefined;
    }
    const { sort } = meeting;
    return firstHappening(run, step => step.sort === sort && step.action === meeting.action, meeting.station);
}

/** Whether a unit goes on after what its build lacks: so it is with a gate, with what is done and with what is read. */
function goesOn({ action }: Meeting): boolean {
    const sorts: readonly (string | undefined)[] = ['gate', 'restore', 'do', 'read'];
    return sorts.includes(action?.sort);
}

function firstHappening(
    run: Run,
    fits: (step: Happening) => boolean,
    station?: number,
): Pick<Shown, 'visits' | 'happenings'> | undefined {
    for (const [index, visit] of run.visits.entries()) {
        if (station !== undefined && visit.station !== station) continue;
        const happening = visit.steps.findIndex(fits);
        if (happening >= 0) return { visits: index + 1, happenings: happening + 1 };
    }
    return undefined;
}

/** The steps of the path, each with what was read or could not be done there. */
function pathOf({ runs, visits, happenings }: Shown, unit: Unit): (RelatedPlace & { readonly step: string })[] {
    return runs.flatMap(({ route, run }, index) => {
        const isLast = index === runs.length - 1;
        const taken = isLast ? run.visits.slice(0, visits) : run.visits;
        return taken.flatMap((visit, number) => {
            const station = route.stations[visit.station];
            const steps = isLast && number === taken.length - 1 ? visit.steps.slice(0, happenings) : visit.steps;
            return station ? [placeOf(station, steps, unit)] : [];
        });
    });
}

function placeOf({ step }: Station, steps: readonly Happening[], unit: Unit): RelatedPlace & { readonly step: string } {
    const { file, start, end } = step.name;
    const said = steps.map(happening => happeningWords(happening, unit)).filter(words => words !== undefined);
    return { file, start, end, step: step.name.text, text: said.join(', ') };
}

function happeningWords(happening: Happening, unit: Unit): string | undefined {
    switch (happening.sort) {
        case 'asked': {
            const test = unit.tests[happening.test];
            return `${quoteName(test?.name ?? '')} shows ${quoteName(test?.outcomes[happening.outcome] ?? '')}`;
        }
        case 'cannot be done':
            return `${quoteName(happening.action.written.text.value)} cannot be done`;
        default:
            return undefined;
    }
}
