// Which effects a test meets on its flows, and whether there is any energy where it stands.

import type { UnitFlow, UnitTest } from '../meaning/unit.js';
import type { Place } from '../model/equipment.js';
import { backwardAtPoints, backwardInto } from './backward.js';
import { effectsAtPlaces, effectsAtPoints } from './flows.js';
import { placesIn, type UnitPoint } from './layout.js';
import { type Effects, joined, noEffects, type Situation, type View } from './situation.js';
import { deadPoints, isDeadAtEnd } from './standing.js';
import { exists } from './world.js';

export interface Affected {
    readonly effects: Effects;
    /** True where all that the test looks at has no energy. */
    readonly dead: boolean;
}

/** What a test meets: across a stretch if it says so in this build, else through flows, else at its points. */
export function affected(test: UnitTest, view: View): Affected {
    const across = acrossIn(test, view);
    if (across.length > 0) {
        return { effects: joined(...across.map(({ from, to }) => acrossStretch(from, to, view))), dead: false };
    }
    const through = throughIn(test, view);
    return through ? throughFlows(through, view) : atPoints(test, view);
}

/** Whether a test finds no energy where it looks, whatever the faults are. */
export function isDead(test: UnitTest, situation: Situation): boolean {
    if (acrossIn(test, situation).length > 0) return false;
    const through = throughIn(test, situation);
    if (through) return areAllDead(through.map(flow => isDeadAtEnd(flow, situation)));
    const points = flowsAt(test, situation).flatMap(flow => pointsOf(test, deadPoints(flow, situation)));
    return areAllDead(points.map(([, dead]) => dead));
}

/** The stretches that a test looks across in this build. */
function acrossIn({ across }: UnitTest, { build }: Situation): UnitTest['across'] {
    return across.filter(({ guard }) => exists(guard, build));
}

/** The flows that a test looks through, as far as they exist; undefined where it looks through none in this build. */
function throughIn({ through }: UnitTest, situation: Situation): UnitFlow[] | undefined {
    const said = through.filter(({ guard }) => exists(guard, situation.build));
    const named = new Set(said.map(({ flow }) => flow));
    return said.length === 0 ? undefined : flowsIn(situation).filter(({ number }) => named.has(number));
}

/** The flows with points of a test, as far as they exist. */
function flowsAt({ flows }: UnitTest, { unit, build }: Situation): UnitFlow[] {
    return flows.flatMap(number => unit.flows[number] ?? []).filter(({ guard }) => exists(guard, build));
}

/** Those points of a flow that are of a test. */
function pointsOf<T>({ number }: UnitTest, points: ReadonlyMap<UnitPoint, T>): (readonly [UnitPoint, T])[] {
    return [...points].filter(([{ tests }]) => tests.includes(number));
}

function flowsIn({ unit, build }: Situation): UnitFlow[] {
    return unit.flows.filter(({ guard }) => exists(guard, build));
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
    for (const flow of flowsAt(test, view)) {
        const forward = effectsAtPoints(flow, view);
        const backward = backwardAtPoints(flow, view);
        for (const [point, dead] of pointsOf(test, deadPoints(flow, view))) {
            seen.push({ effects: joined(forward.get(point) ?? noEffects, backward.get(point) ?? noEffects), dead });
        }
    }
    const allDead = areAllDead(seen.map(({ dead }) => dead));
    const counting = seen.filter(({ dead }) => allDead || !dead);
    return { effects: joined(...counting.map(({ effects }) => effects)), dead: allDead };
}

function areAllDead(dead: readonly boolean[]): boolean {
    return dead.length > 0 && dead.every(one => one);
}
