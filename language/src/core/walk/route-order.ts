// The order in which a walk takes the stations of a route, and the stations from which a way leads back to them.

import type { Destination, Exit, Route, Station } from '../meaning/route.js';
import { componentsOf } from './components.js';

export interface RouteOrder {
    /** By station: what leads to it mostly has a lower rank. */
    readonly ranks: readonly number[];
    /** Stations that some way leads back to, whoever takes it. */
    readonly circles: ReadonlySet<number>;
    /** By station: its exits. */
    readonly exitsOf: readonly (readonly number[])[];
    /** By station: the stations that a way leads to. */
    readonly next: readonly (readonly number[])[];
}

/** Orders the stations so that each way leads up, except those that close a circle. */
export function orderRoute(route: Route): RouteOrder {
    const exitsOf = exitsByStation(route);
    const next = route.stations.map(station => nextStations(station, exitsOf[station.number] ?? [], route));
    const order = visitInOrder(next);
    const ranks = new Array<number>(order.length);
    order.forEach((station, index) => {
        ranks[station] = order.length - 1 - index;
    });
    return { ranks, circles: inCircles(next), exitsOf, next };
}

/** Lists of just the length that they need: there are as many as stations. */
function exitsByStation({ stations, exits }: Route): number[][] {
    const counts = new Int32Array(stations.length);
    for (const { station } of exits) counts[station] = (counts[station] as number) + 1;
    const lists = stations.map((_, station) => new Array<number>(counts[station] as number));
    for (let exit = exits.length - 1; exit >= 0; exit -= 1) {
        const station = (exits[exit] as Exit).station;
        const place = (counts[station] as number) - 1;
        counts[station] = place;
        (lists[station] as number[])[place] = exit;
    }
    return lists;
}

function nextStations(station: Station, exits: readonly number[], route: Route): number[] {
    const found: number[] = [];
    const add = (to: Destination | undefined): void => {
        if (to?.sort === 'station' && !found.includes(to.station)) found.push(to.station);
        // A result leads on from the station that follows the procedure.
        else if (to?.sort === 'result') for (const exit of to.exits) add(route.exits[exit]?.to);
    };
    for (const exit of exits) add(route.exits[exit]?.to);
    for (const action of station.actions) if (action.sort === 'follow') add(action.to);
    return found.slice();
}

/** The stations in the order in which a depth-first search is done with them. */
function visitInOrder(next: readonly (readonly number[])[]): number[] {
    const done: number[] = [];
    const seen = new Uint8Array(next.length);
    // How many ways of a station are still to be taken: later ones first, so that the ranks follow the order of the text.
    const left = next.map(list => list.length);
    const open: number[] = [];
    for (let root = 0; root < next.length; root += 1) {
        if (seen[root] === 1) continue;
        seen[root] = 1;
        open.push(root);
        for (let station = open.at(-1); station !== undefined; station = open.at(-1)) {
            const index = (left[station] ?? 0) - 1;
            left[station] = index;
            const to = next[station]?.[index];
            if (to === undefined) {
                open.pop();
                done.push(station);
            } else if (seen[to] === 0) {
                seen[to] = 1;
                open.push(to);
            }
        }
    }
    return done;
}

function inCircles(next: readonly (readonly number[])[]): Set<number> {
    const component = componentsOf(next);
    const sizes = new Int32Array(next.length);
    for (const number of component) sizes[number] = (sizes[number] as number) + 1;
    const circles = new Set<number>();
    next.forEach((list, station) => {
        if ((sizes[component[station] as number] as number) > 1 || list.includes(station)) circles.add(station);
    });
    return circles;
}
