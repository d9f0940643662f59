// What shows before its place: a fault that loads or shorts its flow, from the end of each chain back to its start.

import type { ShownEffect, UnitChain, UnitFlow, UnitPlace } from '../meaning/unit.js';
import { type AtPoint, isBypassed, ownEffects } from './flows.js';
import { holdsAnything, placesIn, type UnitPoint } from './layout.js';
import { type Effects, joined, lookOnce, noEffects, type View } from './situation.js';
import { holdsIfSaid } from './standing.js';
import { exists } from './world.js';

/** What goes back past each point of a flow that exists. */
export function backwardAtPoints(flow: UnitFlow, view: View): ReadonlyMap<UnitPoint, Effects> {
    const found = new Map<UnitPoint, Effects>();
    if (!anythingGoesBack(view)) return found;
    goBack(flow.chain, backwardInto(flow, view), view, { atPoint: (point, effects) => found.set(point, effects) });
    return found;
}

/** Whether any fault that is there loads or shorts its flow, in whatever build. */
function anythingGoesBack({ faults, unit }: View): boolean {
    return [...faults].some(number =>
        unit.faults[number]?.effects.some(({ effect }) => effect === 'loads' || effect === 'shorts'),
    );
}

/** What goes back into the end of a flow, from the flows in which it is a place. */
export function backwardInto(flow: UnitFlow, view: View): Effects {
    return lookOnce(view.backward, flow.number, noEffects, () => {
        let into = noEffects;
        for (const outer of view.unit.flows) {
            if (!exists(outer.guard, view.build)) continue;
            if (!placesIn(outer.chain, view.build).some(place => place.flow === flow.number)) continue;
            goBack(outer.chain, backwardInto(outer, view), view, {
                intoFlow: (number, effects) => {
                    if (number === flow.number) into = joined(into, effects);
                },
            });
        }
        return into;
    });
}

/** Is told what passes on the way back. */
interface Passing {
    readonly atPoint?: AtPoint<Effects>;
    readonly intoFlow?: (flow: number, effects: Effects) => void;
}

/** What comes out at the start of a chain when `effects` go into its end. */
function goBack(chain: UnitChain, effects: Effects, view: View, passing: Passing): Effects {
    let back = effects;
    for (const element of [...chain].reverse()) {
        if (!exists(element.guard, view.build)) continue;
        if (element.sort === 'point') passing.atPoint?.(element, back);
        else if (element.sort === 'place') back = pastPlace(element, back, view, passing);
        else {
            const branches = element.chains.filter(branch => holdsAnything(branch, view.build));
            const into = back;
            if (branches.length > 0) back = joined(...branches.map(branch => goBack(branch, into, view, passing)));
        }
    }
    return back;
}

function pastPlace(place: UnitPlace, effects: Effects, view: View, passing: Passing): Effects {
    const bypassed = isBypassed(place, view);
    let back = effects;
    if (!bypassed && !holdsIfSaid(place.when, view)) back = noEffects;
    else if (!bypassed) back = joined(back, new Set([...ownEffects(place, view)].filter(goesBack)));
    if (place.flow !== undefined) {
        passing.intoFlow?.(place.flow, back);
        return noEffects;
    }
    const isBarrier = place.barrier.some(({ guard }) => exists(guard, view.build));
    return isBarrier ? noEffects : back;
}

function goesBack(effect: ShownEffect): boolean {
    return effect === 'loaded' || effect === 'shorted';
}
