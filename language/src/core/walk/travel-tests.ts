// Takes a crowd through a test: what it needs, what is read, and by which exits the answers lead.

import type { AskAction, ReadAction, Station } from '../meaning/route.js';
import type { UnitTest } from '../meaning/unit.js';
import { type Crowd, faultsSeen, forceState, passTime } from './changes.js';
import { takeReading } from './noted.js';
import { noWorlds, type WorldSet } from './sets/world-sets.js';
import { buildsWhere } from './space.js';
import { anyAnswer, detour, exitsFor, meet, split, takeFirst, type Travelling } from './ways.js';

/** Takes a reading and notes it. A build that lacks the test goes on without it: the finding says so once. */
export function travelRead(
    action: ReadAction,
    station: Station,
    crowd: Crowd,
    travelling: Travelling,
): readonly Crowd[] {
    const { around } = travelling;
    const test = around.space.unit.tests[action.test];
    const { inside: there, outside: missing } = split(crowd, buildsWhere(test?.guard, around.space), travelling);
    if (missing) meet('missing', station, action, missing, travelling);
    const others = missing ? [missing] : [];
    if (!there || !test) return others;
    const prepared = prepareReading(test, action, station, there, travelling);
    return [...readCrowds(test, prepared.crowd, travelling), ...others];
}

export function travelAsk(action: AskAction, station: Station, crowd: Crowd, travelling: Travelling): void {
    const { around } = travelling;
    const test = around.space.unit.tests[action.test];
    const { inside: there, outside: missing } = split(crowd, buildsWhere(test?.guard, around.space), travelling);
    if (missing) meet('missing', station, action, missing, travelling);
    if (!there || !test) return;
    const { crowd: prepared, unmet, dark } = prepareReading(test, action, station, there, travelling);
    for (const set of [unmet, dark]) if (set !== noWorlds) anyAnswer(action, set, travelling);
    if (action.confirms) anyAnswer(action, prepared.set, travelling);
    for (const crowdOfTime of readCrowds(test, prepared, travelling)) {
        readAnswer(action, test, station, crowdOfTime, travelling);
    }
}

/** The crowds once the reading has been taken, with its time. */
function readCrowds(test: UnitTest, { presence, set }: Crowd, travelling: Travelling): Crowd[] {
    const { around } = travelling;
    return timesOf(test, set, travelling)
        .flatMap(([time, within]) => passTime({ presence, set: within }, time, around))
        .map(one => (test.noted ? { ...one, set: takeReading(one.set, test.number, around.space) } : one));
}

interface Prepared {
    readonly crowd: Crowd;
    /** Those who lacked something that the test needs, as they go on. */
    readonly unmet: WorldSet;
    /** Those for whom nothing flows there. */
    readonly dark: WorldSet;
}

/** Tells what keeps a test from saying anything; beside it begin the ways of those who cannot read it. */
function prepareReading(
    test: UnitTest,
    action: AskAction | ReadAction,
    station: Station,
    crowd: Crowd,
    travelling: Travelling,
): Prepared {
    const { around, answers } = travelling;
    const { sets } = around.space;
    const { crowd: prepared, unmet } = meetNeeds(test, action, station, crowd, travelling);
    const { present } = prepared.presence;
    const before = answers.answer(test, faultsSeen(prepared.presence, test.number), present);
    const dark = sets.and(prepared.set, before.dead);
    meet('no energy', station, action, { ...prepared, set: dark }, travelling);
    meet('nothing said', station, action, { ...prepared, set: sets.and(prepared.set, before.unsaid) }, travelling);
    detour(action.cannotBeRead, prepared.set, travelling, travelling.sink);
    return { crowd: prepared, unmet, dark };
}

/** Tells which needs are not met, and goes on as if they were: the finding says once what has to be done before. */
function meetNeeds(
    test: UnitTest,
    action: AskAction | ReadAction,
    station: Station,
    crowd: Crowd,
    travelling: Travelling,
): Omit<Prepared, 'dark'> {
    const { around } = travelling;
    const { space, flows } = around;
    const { sets } = space;
    const faults = crowd.presence.present;
    const needed = test.needs.map(({ guard, state }) => ({
        state,
        here: buildsWhere(guard, space),
        holds: flows.where(state, faults),
    }));
    let unset: WorldSet = noWorlds;
    for (const { state, here, holds } of needed) {
        const unmet = sets.without(sets.and(crowd.set, here), holds);
        meet('needs', station, action, { ...crowd, set: unmet }, travelling, { need: state });
        unset = sets.or(unset, unmet);
    }
    if (unset === noWorlds) return { crowd, unmet: noWorlds };
    // A world that meets every need is left as it is; in the others an earlier need may have been set against a later one.
    let set = unset;
    for (const { state, here, holds } of needed) {
        const lacking = sets.without(sets.and(set, here), holds);
        if (lacking === noWorlds) continue;
        set = sets.or(sets.without(set, lacking), forceState(lacking, state, faults, around));
    }
    return { crowd: { presence: crowd.presence, set: sets.or(sets.without(crowd.set, unset), set) }, unmet: set };
}

/** How long a test takes, by build: the first time that is given for it. */
function timesOf({ takes }: UnitTest, set: WorldSet, { around }: Travelling): [number, WorldSet][] {
    const { space } = around;
    const { sets } = space;
    const parts: [number, WorldSet][] = [];
    let left = set;
    for (const { guard, time } of takes) {
        const here = sets.and(left, buildsWhere(guard, space));
        if (here !== noWorlds) parts.push([time, here]);
        left = sets.without(left, here);
    }
    if (left !== noWorlds) parts.push([0, left]);
    return parts;
}

function readAnswer(action: AskAction, test: UnitTest, station: Station, crowd: Crowd, travelling: Travelling): void {
    const { around, answers, sink } = travelling;
    const { sets, variables } = around.space;
    const shown = answers.answer(test, faultsSeen(crowd.presence, test.number), crowd.presence.present);
    shown.outcomes.forEach((worlds, outcome) => {
        let set = sets.and(crowd.set, worlds);
        if (set === noWorlds) return;
        const guessed = sets.and(set, shown.guessed[outcome] ?? noWorlds);
        if (guessed !== noWorlds) {
            const sure = sets.and(set, shown.sure[outcome] ?? noWorlds);
            set = sets.or(sure, sets.assign(guessed, variables.guessed, 1));
        }
        sink.asked(action, outcome, crowd.presence, set);
        takeFirst(
            exitsFor(action, outcome, travelling),
            station,
            action,
            { presence: crowd.presence, set },
            travelling,
        );
    });
    const set = sets.and(crowd.set, shown.nothing);
    if (set === noWorlds) return;
    const exits = [...action.otherwise, ...action.disagree];
    takeFirst(exits, station, action, { presence: crowd.presence, set }, travelling);
}
