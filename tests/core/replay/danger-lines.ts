/** Short forms for tests of dangers: a text and a world in, its dangers or the ways to them as lines out. */
import type { Route } from '../../../language/src/core/meaning/route.js';
import {
    type Danger,
    dangersHandedOver,
    dangersOf,
    type PathVisit,
    type WaysOptions,
} from '../../../language/src/core/replay/dangers.js';
import { readUnit, routeOf, type SmallWorld, worldOf } from './replays.js';

/** The zone of the saw, and a gate for its blade. */
export const inside = 'zone inside { exposes blade }';
export const lockout = 'gate lockout { controls blade }';

/** A saw with a blade; its tree ends at the referral `done`, which may leave everything as it is. */
export const saw = (tree: string, members = `${inside} ${lockout}`) => {
    const gates = [...members.matchAll(/gate ([\w-]+)/g)].map(([, name = '']) => `leaves gate ${name} closed`);
    return `equipment saw {
            option size { small large } hazard blade { mechanical } condition switch { off on }
            test hum { observe normal yes absent no } ${members}
        }
        tree t of saw { complaint hum absent ${tree} refer done { ${gates.join(' ')} leaves switch on } }`;
};

/**
 * The dangers of a world: `told: blade in inside at open do`, `detour: blade in inside at the repair of belt (bad-belt)`,
 * `told: done leaves lockout closed`, `told: done leaves switch on`. What was under control before ends with `, lost`.
 */
export function dangersIn(text: string, world: SmallWorld = {}, options: WaysOptions = {}): string[] {
    const { route, dangers } = find(text, world, options);
    return dangers.map(danger => lineOf(danger, route));
}

/** The ways to the dangers: `look(`hum` cannot be read) > open`. */
export function waysIn(text: string, world: SmallWorld = {}): string[] {
    const { route, dangers } = find(text, world, {});
    return dangers.map(({ path }) => pathLine(path, route));
}

/** The dangers in a tree of a world that others hand over, each behind the ways through those. */
export function handedOverIn(text: string, world: SmallWorld & { readonly tree: string }): string[] {
    const all = readUnit(text);
    const route = routeOf(all, world.tree);
    const routes = [...all.routes.values()];
    return dangersHandedOver(route, routes, worldOf(all, world)).flatMap(({ through, dangers }) => {
        const ways = through.map(({ tree, path }) => {
            const other = routes.find(one => one.tree === tree);
            return `${tree.name.text}: ${other ? pathLine(path, other) : ''}`;
        });
        return dangers.map(danger => `${ways.join(' | ')} | ${lineOf(danger, route)}`);
    });
}

function find(text: string, world: SmallWorld, options: WaysOptions): { route: Route; dangers: readonly Danger[] } {
    const all = readUnit(text);
    const route = routeOf(all, world.tree);
    return { route, dangers: dangersOf(route, worldOf(all, world), options) };
}

function lineOf(danger: Danger, route: Route): string {
    return `${danger.lane}: ${danger.sort === 'left' ? leftLine(danger, route) : hazardLine(danger, route)}`;
}

function hazardLine({ station, action, end, part, hazard, zone, wasControlled }: Danger, route: Route): string {
    const { hazards, zones, parts } = route.unit;
    const what = `${hazards[hazard ?? -1]?.declaration.name.text ?? ''} in ${zones[zone ?? -1]?.declaration.name.text ?? ''}`;
    const where =
        end === undefined
            ? `${route.stations[station ?? -1]?.step.name.text ?? ''} ${action?.sort ?? ''}`
            : `the repair of ${parts[part ?? -1]?.name ?? ''} (${endName(end, route)})`;
    return `${what} at ${where}${wasControlled ? ', lost' : ''}`;
}

function leftLine({ end, gate, condition, value }: Danger, route: Route): string {
    const { gates, conditions } = route.unit;
    const changed = conditions[condition ?? -1]?.declaration;
    const what =
        gate === undefined
            ? `${changed?.name.text ?? ''} ${changed?.values[value ?? -1]?.name.text ?? ''}`
            : `${gates[gate]?.declaration.name.text ?? ''} closed`;
    return `${endName(end ?? -1, route)} leaves ${what}`;
}

function endName(end: number, { ends }: Route): string {
    return ends[end]?.written.name.text ?? '';
}

function pathLine(path: readonly PathVisit[], { stations }: Route): string {
    const visits = path.map(({ station, happenings }) => {
        const said = happenings.map(({ words }) => words).join(', ');
        return `${stations[station]?.step.name.text ?? ''}${said === '' ? '' : `(${said})`}`;
    });
    return visits.join(' > ');
}
