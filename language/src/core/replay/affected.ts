// Which effects a test meets on its flows, and whether there is any energy where it stands.

import type { UnitFlow, UnitTest } from '../meaning/unit.js';
import type { Place } from '../model/equipment.js';
import { backwardAtPoints, backwardInto } from './backward.js';
import { effectsAtPlaces, effectsAtPoints, placesIn } from './flows.js';
import { type Effects, joined, noEffects, type Situation, type View, viewOf } from './situation.js';
import { deadPoints, isDeadAtEnd } from './standing.js';
import { exists } from './world.js';

export interface Affected {
    readonly effects: Effects;
    /** True where all that the test looks at has no energy. */
    readonly dead: boolean;
}

/** What a test meets: across a stretch if it says so in this build, else through flows, else at its points. */
export function affected(test: UnitTest, view: View): Affected {
    const across = test.across.filter(({ guard }) => exists(guard, view.build));
    if (across.length > 0) {
        return { effects: joined(...across.map(({ from, to }) => acrossStretch(from, to, view))), dead: false };
    }
    const through = test.through.filter(({ guard }) => exists(guard, view.build));
    if (through.length > 0) {
        const named = new Set(through.map(({ flow }) => flow));
        return throughFlows(
            flowsIn(view).filter(({ number }) => named.has(number)),
            view,
        );
    }
    return atPoints(test, view);
}

/** Whether a test finds no energy where it looks, whatever the faults are. */
export function isDead(test: UnitTest, situation: Situation): boolean {
    return affected(test, viewOf(situation, new Set())).dead;
}

function flowsIn(view: View): UnitFlow[] {
    return view.unit.flows.filter(({ guard }) => exists(guard, view.build));
}

/** In each flow, all places from the first where the stretch begins to the last where it ends. */
function acrossStretch(from: readonly Place[], to: readonly Place[], view: View): Effects {
    let effects = noEffects;
    for (const flow of flowsIn(view)) {
        const places = placesIn(flow.chain, view.build);
        const first = places.findIndex(({ declaration }) => from.includes(declaration));
        if (first < 0) continue;
        const last = places.reduce((found, { declaration }, index) => (to.includes(declaration) ? index : found), -1);
        effects = joined(effects, effectsAtPlaces(places.slice(first, last + 1), flow, view));
    }
    return effects;
}

/** All that happens anywhere in the flows, and what comes back into them. */
function throughFlows(flows: readonly UnitFlow[], view: View): Affected {
    const effects = flows.flatMap(flow => [
        effectsAtPlaces(placesIn(flow.chain, view.build), flow, view),
        backwardInto(flow, view),
    ]);
    return { effects: joined(...effects), dead: areAllDead(flows.map(flow => isDeadAtEnd(flow, view))) };
}

/** What the points of the test see; dead ones count only where there are no others. */
function atPoints(test: UnitTest, view: View): Affected {
    const seen: Affected[] = [];
    for (const flow of flowsIn(view)) {
        if (!test.flows.includes(flow.number)) continue;
        const backward = backwardAtPoints(flow, view);
        const dead = deadPoints(flow, view);
        for (const [point, effects] of effectsAtPoints(flow, view)) {
            if (!point.tests.includes(test.number)) continue;
            seen.push({
                effects: joined(effects, backward.get(point) ?? noEffects),
                dead: dead.get(point) ?? false,
            });
        }
    }
    const allDead = areAllDead(seen.map(({ dead }) => dead));
    const counting = seen.filter(({ dead }) => allDead || !dead);
    return { effects: joined(...counting.map(({ effects }) => effects)), dead: allDead };
}

function areAllDead(dead: readonly boolean[]): boolean {
    return dead.length > 0 && dead.every(one => one);
}
