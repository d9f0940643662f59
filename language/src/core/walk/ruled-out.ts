// Who is still possible at a position, who is not any more, and which answer has ruled them out.

import type { UnitFault } from '../meaning/unit.js';
import { type Answer, answersAt, type Position } from './go-through.js';
import type { Crowd } from './changes.js';
import { type Suspect, suspectsAt } from './suspects.js';

/** What a unit arrives with: a fault, or nothing where it is healthy. */
export type Arrival = UnitFault | undefined;

/** Why somebody who came with the complaint is out. */
export type Reason =
    | {
          readonly sort: 'answer';
          /** Where the answer was given. */
          readonly at: Position;
          readonly answer: Answer;
          /** What would have been answered there; nothing where the tree leads nowhere. */
          readonly wouldBe: readonly Answer[];
      }
    /** No unit of the builds that were given at the start can have it, or shows the complaint with it. */
    | { readonly sort: 'build' };

export interface RuledOut {
    readonly arrival: Arrival;
    readonly reason: Reason;
}

/** What is known of one fault, or of the healthy unit, at a position. */
export type Standing =
    /** It is still possible; `wouldBe` is what may be answered to the question now. */
    | { readonly sort: 'possible'; readonly wouldBe: readonly Answer[] }
    | ({ readonly sort: 'out' } & RuledOut)
    /** It never shows the complaint of the tree. */
    | { readonly sort: 'never' };

/** Those who are still possible, the likeliest first. */
export function suspectsOf({ beginning, crowds, isAnybodyLeft }: Position): readonly Suspect[] {
    if (!isAnybodyLeft) return [];
    const { sets } = beginning.walked.all.around.space;
    const byPresence = new Map<number, number>();
    for (const { presence, set } of crowds) {
        byPresence.set(presence.number, sets.or(byPresence.get(presence.number) ?? 0, set));
    }
    return suspectsAt(beginning.walk, byPresence, beginning.within).suspects;
}

/** Those whom the last answer has ruled out, in the order of the text, the healthy unit last. */
export function ruledOutBy(position: Position): readonly RuledOut[] {
    const { answered, beginning } = position;
    if (!answered) {
        const here = arrivalsIn(position.crowds);
        return [...arrivalsIn(beginning.walk.arrivals)]
            .filter(number => !here.has(number))
            .map(number => ({ arrival: arrivalOf(number, position), reason: { sort: 'build' } }));
    }
    const still = possibleAt(position);
    return [...possibleAt(answered.before)]
        .filter(number => !still.has(number))
        .sort((one, other) => orderOf(one) - orderOf(other))
        .map(number => ({ arrival: arrivalOf(number, position), reason: reasonFor(number, answered) }));
}

/** Whether a fault is still possible, and if not, which answer was the first that none of its worlds gives. */
export function standingOf(arrival: Arrival, position: Position): Standing {
    const number = arrival?.number ?? healthy;
    if (possibleAt(position).has(number)) return { sort: 'possible', wouldBe: wouldAnswer(number, position) };
    if (!arrivalsIn(position.beginning.walk.arrivals).has(number)) return { sort: 'never' };
    for (let at = position; at.answered; at = at.answered.before) {
        if (possibleAt(at.answered.before).has(number)) {
            return { sort: 'out', arrival, reason: reasonFor(number, at.answered) };
        }
    }
    return { sort: 'out', arrival, reason: { sort: 'build' } };
}

/** The healthy unit stands behind all faults. */
const healthy = -1;

function orderOf(number: number): number {
    return number === healthy ? Number.POSITIVE_INFINITY : number;
}

function arrivalOf(number: number, { beginning }: Position): Arrival {
    return beginning.walked.all.unit.faults[number];
}

function possibleAt({ crowds, isAnybodyLeft }: Position): ReadonlySet<number> {
    return isAnybodyLeft ? arrivalsIn(crowds) : new Set();
}

function arrivalsIn(crowds: readonly Crowd[]): ReadonlySet<number> {
    return new Set(crowds.map(({ presence }) => presence.arrival[0] ?? healthy));
}

function reasonFor(number: number, { before, answer }: NonNullable<Position['answered']>): Reason {
    return { sort: 'answer', at: before, answer, wouldBe: wouldAnswer(number, before) };
}

/** What somebody who stands at a question may be answered with. */
function wouldAnswer(number: number, position: Position): readonly Answer[] {
    return answersAt(position).filter(
        ({ isShown, isDetour, leavings }) =>
            isShown && !isDetour && leavings.some(({ crowds }) => arrivalsIn(crowds).has(number)),
    );
}
