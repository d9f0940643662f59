/** Holds the dangers that the walk finds for all worlds at once against those that the plain twin finds one by one. */
import { drawSizes } from '../../language/src/core/meaning/draws.js';
import type { Action, Route } from '../../language/src/core/meaning/route.js';
import type { Choice, Option } from '../../language/src/core/model/equipment.js';
import { type Danger, waysOf } from '../../language/src/core/replay/dangers.js';
import type { World } from '../../language/src/core/replay/replay.js';
import { type State, stateKey } from '../../language/src/core/replay/state.js';
import { buildsOf, completeBuild, exists } from '../../language/src/core/replay/world.js';
import { hazardsOf } from '../../language/src/core/walk/hazard-walk.js';
import type { HazardMet, LeftBehind } from '../../language/src/core/walk/hazards-met.js';
import type { OccasionMet } from '../../language/src/core/walk/occasions.js';
import { noWorlds, type WorldSet } from '../../language/src/core/walk/sets/world-sets.js';
import type { WalkSpace } from '../../language/src/core/walk/space.js';
import type { EquipmentWalks, TreeWalk } from '../../language/src/core/walk/walks.js';

type Build = ReadonlyMap<Option, Choice>;

/** Is shown each danger of each world. */
export type WatchDangers = (
    danger: Danger,
    world: World,
    through: { readonly route: Route; readonly start: State | undefined },
) => void;

/** What only one side finds: dangers and occasions by tree, place, lane and build. Empty where both find the same. */
export function dangerDifferences(all: EquipmentWalks, watch?: WatchDangers, watchOccasions?: WatchDangers): string[] {
    const { trees, unit } = all;
    const builds = [...buildsOf(unit.space)];
    const journeys = builds.flatMap(build => journeysOf(build, all));
    return trees.flatMap(tree => {
        const { walk, route } = tree;
        if (!walk) return route.stations.length > 0 ? [`${tree.tree.name.text} was not walked`] : [];
        const { met, left, occasions, forgotten } = hazardsOf(walk);
        const classes = buildClasses(builds, forgotten, all.around.space);
        const plain = plainDangers(
            journeys.filter(journey => journey.tree === tree),
            classes,
            danger => (danger.sort === 'occasion' ? watchOccasions : watch),
        );
        if (!plain) return [`${tree.tree.name.text} was not gone through to the end`];
        const sets = new DangerSets([...met, ...left, ...occasions], route, all.around.space);
        return compare(plain, sets, classes).map(one => `${tree.tree.name.text}: ${one}`);
    });
}

/** One world that comes to one tree, by itself or handed over. */
interface Journey {
    readonly world: World;
    readonly tree: TreeWalk;
    readonly start: State | undefined;
    /** Where its told ways come. */
    readonly told: ReadonlySet<string>;
}

/** All journeys in one build, with only those draws that make a difference. */
function journeysOf(build: Build, { trees, unit }: EquipmentWalks): Journey[] {
    const sizes = drawSizes(unit);
    const isOpen = (test: number) => (sizes[test] ?? 1) > 1;
    const complaining = new Set(trees.flatMap(({ route }) => route.complaints.map(({ test }) => test)).filter(isOpen));
    const complete = completeBuild(unit, build);
    const faults = unit.faults.filter(({ guard }) => exists(guard, complete)).map(({ number }) => [number]);
    const found: Journey[] = [];
    for (const arrival of [[], ...faults]) {
        const first = { world: { build, arrival, draws: sizes.map(() => 0) }, drawn: new Set<number>() };
        const open: { world: World; drawn: ReadonlySet<number> }[] = [first];
        for (let next = open.pop(); next; next = open.pop()) {
            const { world, drawn } = next;
            const { journeys, asked } = goThroughTrees(world, trees);
            const more = [...(arrival.length > 0 ? complaining : []), ...asked].filter(
                test => isOpen(test) && !drawn.has(test),
            );
            const [test] = more;
            if (test === undefined) {
                found.push(...journeys);
                continue;
            }
            for (let draw = 0; draw < (sizes[test] ?? 1); draw += 1) {
                const draws = world.draws.map((other, index) => (index === test ? draw : other));
                open.push({ world: { ...world, draws }, drawn: new Set([...drawn, test]) });
            }
        }
    }
    return found;
}

/** Goes the told ways of a world through every tree, and on through those that hand it over. */
function goThroughTrees(
    world: World,
    trees: readonly TreeWalk[],
): { journeys: readonly Journey[]; asked: ReadonlySet<number> } {
    const journeys: Journey[] = [];
    const asked = new Set<number>();
    const open: { tree: TreeWalk; start: State | undefined }[] = trees.map(tree => ({ tree, start: undefined }));
    const begun = new Set<string>();
    // The loop also visits what it adds.
    for (const { tree, start } of open) {
        const ways = waysOf(tree.route, world, { start, toldOnly: true });
        for (const test of ways.drawn) asked.add(test);
        journeys.push({ world, tree, start, told: ways.told });
        for (const { tree: to, state } of ways.handedOver) {
            const next = trees.find(one => one.tree === to);
            const key = `${next ? trees.indexOf(next) : ''} ${stateKey(state)}`;
            if (next && !begun.has(key)) open.push({ tree: next, start: state });
            begun.add(key);
        }
    }
    return { journeys, asked };
}

/** Builds that differ only in what makes no difference to any hazard count as one. */
interface BuildClasses {
    readonly nameOf: ReadonlyMap<Build, string>;
    readonly examples: ReadonlyMap<string, Build>;
}

function buildClasses(builds: readonly Build[], forgotten: readonly number[], { variables }: WalkSpace): BuildClasses {
    const kept = [...variables.options].filter(([, variable]) => !forgotten.includes(variable));
    const nameOf = new Map(
        builds.map(build => [build, kept.map(([option]) => build.get(option)?.name.text ?? '-').join('+')]),
    );
    return { nameOf, examples: new Map([...nameOf].map(([build, name]) => [name, build])) };
}

/** By danger: the classes of builds in which it is met; on told ways, and on any way. */
interface PlainDangers {
    readonly told: ReadonlyMap<string, ReadonlySet<string>>;
    readonly any: ReadonlyMap<string, ReadonlySet<string>>;
}

function plainDangers(
    journeys: readonly Journey[],
    { nameOf }: BuildClasses,
    watchOf: (danger: Danger) => WatchDangers | undefined,
): PlainDangers | undefined {
    const knownByClass = new Map<string, Set<string>>();
    for (const { world, told } of journeys) {
        const known = knownByClass.get(nameOf.get(world.build) ?? '') ?? new Set<string>();
        knownByClass.set(nameOf.get(world.build) ?? '', known);
        for (const place of told) known.add(place);
    }
    const found = { told: new Map<string, Set<string>>(), any: new Map<string, Set<string>>() };
    for (const { world, tree, start } of journeys) {
        const name = nameOf.get(world.build) ?? '';
        const knownPlaces = knownByClass.get(name) ?? new Set();
        const { dangers, isCut, detoured } = waysOf(tree.route, world, { start, knownPlaces, occasions: true });
        if (isCut) return undefined;
        // A detour is the same for every world of the class: it need not be gone twice.
        for (const place of detoured) knownPlaces.add(place);
        for (const danger of dangers) {
            const key = keyOf(danger, tree.route);
            add(found.any, key, name);
            if (danger.lane === 'told') add(found.told, key, name);
            watchOf(danger)?.(danger, world, { route: tree.route, start });
        }
    }
    return found;
}

function add(to: Map<string, Set<string>>, key: string, name: string): void {
    const names = to.get(key) ?? new Set<string>();
    to.set(key, names.add(name));
}

/** A danger, whatever the lane: what, and where. */
function keyOf(danger: Danger | HazardMet | LeftBehind | OccasionMet, route: Route): string {
    const { unit, ends } = route;
    const end = ends[danger.end ?? -1]?.written.name.text ?? '';
    if (danger.sort === 'left') {
        const condition = unit.conditions[danger.condition ?? -1]?.declaration;
        const value = condition?.values[danger.value ?? -1]?.name.text ?? '';
        const gate = unit.gates[danger.gate ?? -1]?.declaration.name.text;
        return `${gate ?? `${condition?.name.text ?? ''} ${value}`} is left at ${end}`;
    }
    if (danger.sort === 'occasion') return keyOfOccasion(danger, route);
    const { station, action, part, hazard, zone } = danger as HazardMet;
    const place = part === undefined ? actionWords(action, station ?? -1, route) : `the repair of ${part} at ${end}`;
    return `${hazard} in ${zone} is met at ${place}`;
}

function keyOfOccasion(
    { action, station, hazard, occasion }: Pick<Danger, 'action' | 'station' | 'hazard' | 'occasion'>,
    route: Route,
): string {
    return `${hazard ?? -1} is ${occasion ?? ''} at ${actionWords(action, station ?? -1, route)}`;
}

function actionWords(action: Action | undefined, station: number, { stations }: Route): string {
    const index = action ? (stations[station]?.actions.indexOf(action) ?? -1) : -1;
    return `${station} ${stations[station]?.step.name.text ?? ''} ${action?.sort ?? ''} ${index}`;
}

/** The sets of builds in which each danger is met. */
class DangerSets {
    readonly told = new Map<string, WorldSet>();
    readonly any = new Map<string, WorldSet>();

    constructor(
        found: readonly (HazardMet | LeftBehind | OccasionMet)[],
        route: Route,
        readonly space: WalkSpace,
    ) {
        const { sets, variables } = space;
        const changing = [...variables.conditions, ...variables.gates, ...variables.hazards];
        for (const danger of found) {
            const key = keyOf(danger, route);
            const builds = sets.forget(danger.set, changing);
            this.any.set(key, sets.or(this.any.get(key) ?? noWorlds, builds));
            if (danger.lane === 'told') this.told.set(key, sets.or(this.told.get(key) ?? noWorlds, builds));
        }
    }

    /** Whether a build is in a set. */
    has(set: WorldSet, build: Build): boolean {
        const values = this.space.sets.sizes.map(() => 0);
        for (const [option, variable] of this.space.variables.options) {
            const choice = build.get(option);
            values[variable] = choice ? option.choices.indexOf(choice) : option.choices.length;
        }
        return this.space.sets.has(set, values);
    }
}

function compare(plain: PlainDangers, sets: DangerSets, { examples }: BuildClasses): string[] {
    const differences: string[] = [];
    for (const lane of ['told', 'any'] as const) {
        for (const key of new Set([...plain[lane].keys(), ...sets[lane].keys()])) {
            const set = sets[lane].get(key) ?? noWorlds;
            for (const [name, build] of examples) {
                const isPlain = plain[lane].get(key)?.has(name) ?? false;
                if (isPlain === sets.has(set, build)) continue;
                const side = isPlain ? 'only the plain twin finds' : 'only the sets find';
                differences.push(`${side} on ${lane === 'told' ? 'a told way' : 'some way'}: ${key} [${name}]`);
            }
        }
    }
    return differences;
}
