// Worlds that come back to a station unchanged, and so never get to an end.
//
// Of the worlds that came to the stations of a circle, those are kept that are led there again by a world that is kept;
// what is left when nothing falls away any more goes on for ever, because there are only so many states.

import type { Route } from '../meaning/route.js';
import type { Crowd, Surroundings } from './changes.js';
import type { Presence } from './presence.js';
import { noWorlds, type WorldSet } from './sets/world-sets.js';
import type { TestAnswers } from './shows.js';
import { isPossible } from './space.js';
import { travelStation } from './travel.js';
import type { Sink } from './ways.js';

/** Worlds that go round for ever, at one of the stations that they come to. */
export interface Loop extends Crowd {
    readonly station: number;
}

type Gathered = Map<number, Map<Presence, WorldSet>>;

/**
 * Looks for worlds that never leave the stations of a circle. `there` are all that came to those stations. Gives the first
 * station of the text that such worlds come back to, with one presence.
 */
export function findLoops(there: Gathered, route: Route, around: Surroundings, answers: TestAnswers): Loop[] {
    return new Circling(there, route, around, answers).find();
}

class Circling {
    constructor(
        private readonly there: Gathered,
        private readonly route: Route,
        private readonly around: Surroundings,
        private readonly answers: TestAnswers,
    ) {}

    find(): Loop[] {
        let kept = this.there;
        for (;;) {
            const next = this.both(kept, this.leadOn(kept));
            if (isEmpty(next)) return [];
            if (isSame(kept, next)) return this.pick(next);
            kept = next;
        }
    }

    /** Where a fault comes and goes, worlds may be kept that have left their circle: only those count that come back. */
    private pick(kept: Gathered): Loop[] {
        const stations = [...kept.keys()].sort((one, other) => this.placeOf(one) - this.placeOf(other));
        for (const station of stations) {
            let coming: Gathered = new Map([[station, kept.get(station) ?? new Map<Presence, WorldSet>()]]);
            for (;;) {
                const back = this.both(coming, this.reachedFrom(coming, kept));
                const [first] = back.get(station) ?? [];
                if (!first) break;
                if (isSame(coming, back)) return [{ station, presence: first[0], set: first[1] }];
                coming = back;
            }
        }
        return [];
    }

    private placeOf(station: number): number {
        return this.route.stations[station]?.step.start ?? 0;
    }

    /** All that come from these worlds, one station further or more, among those that are kept. */
    private reachedFrom(from: Gathered, kept: Gathered): Gathered {
        const { sets } = this.around.space;
        const reached: Gathered = new Map();
        let fresh = from;
        while (!isEmpty(fresh)) {
            const next = this.both(this.leadOn(fresh), kept);
            fresh = new Map();
            for (const [station, crowds] of next) {
                for (const [presence, set] of crowds) {
                    const before = reached.get(station)?.get(presence) ?? noWorlds;
                    const more = sets.without(set, before);
                    if (!isPossible(more, this.around.space)) continue;
                    put(reached, station, presence, sets.or(before, more));
                    put(fresh, station, presence, more);
                }
            }
        }
        return reached;
    }

    /** Where worlds come to next, among the stations of the circle. */
    private leadOn(from: Gathered): Gathered {
        const { route, around, answers } = this;
        const arrived: Gathered = new Map();
        const sink: Sink = {
            arrive: (station, presence, set) => {
                if (!this.there.has(station)) return;
                const before = arrived.get(station)?.get(presence) ?? noWorlds;
                put(arrived, station, presence, around.space.sets.or(before, set));
            },
            exit: () => undefined,
            end: () => undefined,
            tree: () => undefined,
            asked: () => undefined,
            detour: () => undefined,
            meet: () => undefined,
        };
        for (const [number, crowds] of from) {
            const station = route.stations[number];
            if (!station) continue;
            for (const [presence, set] of crowds) {
                travelStation(station, { presence, set }, { route, around, answers, sink });
            }
        }
        return arrived;
    }

    /** The worlds that are among both. */
    private both(one: Gathered, other: Gathered): Gathered {
        const { space } = this.around;
        const both: Gathered = new Map();
        for (const [station, crowds] of one) {
            for (const [presence, set] of crowds) {
                const left = space.sets.and(set, other.get(station)?.get(presence) ?? noWorlds);
                if (isPossible(left, space)) put(both, station, presence, left);
            }
        }
        return both;
    }
}

function put(gathered: Gathered, station: number, presence: Presence, set: WorldSet): void {
    const crowds = gathered.get(station);
    if (crowds) crowds.set(presence, set);
    else gathered.set(station, new Map([[presence, set]]));
}

function isEmpty(gathered: Gathered): boolean {
    return gathered.size === 0;
}

function isSame(one: Gathered, other: Gathered): boolean {
    if (one.size !== other.size) return false;
    for (const [station, crowds] of one) {
        const others = other.get(station);
        if (others?.size !== crowds.size) return false;
        for (const [presence, set] of crowds) if (others.get(presence) !== set) return false;
    }
    return true;
}
