/** Holds the walk, which takes all worlds at once, against the plain replay, which takes them one by one. */
import type { Action, AskAction } from '../../language/src/core/meaning/route.js';
import type { Unit } from '../../language/src/core/meaning/unit.js';
import { endingAt } from '../../language/src/core/replay/judgment.js';
import { arrives, type Ending, replay, type Run, type World } from '../../language/src/core/replay/replay.js';
import { type State, stateKey } from '../../language/src/core/replay/state.js';
import type { Crowd } from '../../language/src/core/walk/changes.js';
import { judgementsOf } from '../../language/src/core/walk/judge.js';
import type { Presence } from '../../language/src/core/walk/presence.js';
import { noWorlds, type WorldSet } from '../../language/src/core/walk/sets/world-sets.js';
import { changedByActions, onlyMade, type WalkSpace } from '../../language/src/core/walk/space.js';
import type { Crowds, RouteWalk } from '../../language/src/core/walk/walk-route.js';
import type { EquipmentWalks, TreeWalk } from '../../language/src/core/walk/walks.js';

/** All that happened to worlds in the runs of one tree, by what it is; each as the worlds (with their states) by key. */
interface Replayed {
    /** By a name such as `station 3`: the worlds with their states there. */
    readonly states: ReadonlyMap<string, ReadonlyMap<string, { readonly world: World; readonly key: string }>>;
    /** By a name such as `exit 7`: the worlds, whatever their state. */
    readonly worlds: ReadonlyMap<string, ReadonlyMap<string, World>>;
    readonly cut: boolean;
}

/**
 * What differs between the walks of an equipment's trees and the replays of the worlds: who comes where in which state, how
 * the ends judge them, what they meet, where they leave, and who goes round for ever. `whole` says that the worlds are all
 * there are, so that counts can be compared too.
 */
export function differencesOf(all: EquipmentWalks, worlds: Iterable<World>, whole: boolean, watch?: Watch): string[] {
    const replayed = replayAll(all, worlds, watch);
    return all.trees.flatMap(tree => {
        const { walk, route } = tree;
        if (!walk) return route.stations.length > 0 ? [`${tree.tree.name.text} was not walked`] : [];
        const found = replayed.get(tree);
        if (!found || found.cut) return [`${tree.tree.name.text} ${notToTheEnd}`];
        const differences = differencesIn(walk, found, all, whole);
        return differences.map(one => `${tree.tree.name.text}: ${one}`);
    });
}

/** Is shown every run. */
export type Watch = (run: Run, tree: TreeWalk) => void;

/** What is said of a tree in which a world can go more ways than the replay gives. */
export const notToTheEnd = 'was not replayed to the end';

/** Replays the worlds through every tree, and on through those that they are handed over to. */
function replayAll(
    { trees, unit }: EquipmentWalks,
    worlds: Iterable<World>,
    watch?: Watch,
): ReadonlyMap<TreeWalk, Replayed> {
    const records = new Map(trees.map(tree => [tree, new Recording()]));
    for (const world of worlds) {
        const words = worldWords(world, unit);
        const open: { tree: TreeWalk; start: State | undefined }[] = trees
            .filter(({ route }) => arrives(route, world))
            .map(tree => ({ tree, start: undefined }));
        const begun = new Set<string>();
        for (let next = open.pop(); next; next = open.pop()) {
            const { tree, start } = next;
            const key = `${trees.indexOf(tree)} ${start ? stateKey(start) : ''}`;
            if (begun.has(key)) continue;
            begun.add(key);
            for (const run of replay(tree.route, world, start ? { start } : {})) {
                records.get(tree)?.add(run, world, words, tree);
                watch?.(run, tree);
                const { ending } = run;
                const onward = trees.find(one => ending.sort === 'handed over' && one.tree === ending.tree);
                if (onward && ending.sort === 'handed over') open.push({ tree: onward, start: ending.state });
            }
        }
    }
    return records;
}

/** Notes what happens in the runs of one tree. */
class Recording implements Replayed {
    cut = false;
    readonly states = new Map<string, Map<string, { readonly world: World; readonly key: string }>>();
    readonly worlds = new Map<string, Map<string, World>>();

    add(run: Run, world: World, words: string, { route }: TreeWalk): void {
        for (const { station, key, steps } of run.visits) {
            this.addState(`station ${station}`, words, world, key);
            for (const step of steps) {
                if ('exit' in step && step.exit !== undefined) this.addWorld(`exit ${step.exit}`, words, world);
                if (step.sort === 'asked' && step.outcome >= 0) {
                    this.addWorld(nameOfAsked(station, step.action, step.outcome, route), words, world);
                }
                if (
                    step.sort === 'needs' ||
                    step.sort === 'no energy' ||
                    step.sort === 'nothing said' ||
                    step.sort === 'missing'
                ) {
                    const need = 'need' in step ? JSON.stringify(step.need) : '';
                    this.addWorld(nameOfMeeting(step.sort, station, step.action, undefined, need, route), words, world);
                }
            }
        }
        this.addEnding(run, world, words, route);
    }

    private addEnding({ ending, state, visits }: Run, world: World, words: string, route: TreeWalk['route']): void {
        const last = visits.at(-1)?.station;
        switch (ending.sort) {
            case 'end':
                this.addState(`end ${ending.end}`, words, world, stateKey(state));
                this.addState(
                    `end ${ending.end} ${judgedAs(ending, state, world, route)}`,
                    words,
                    world,
                    stateKey(state),
                );
                return;
            case 'handed over':
                this.addState(`handed over to ${ending.tree.name.text}`, words, world, stateKey(ending.state));
                return;
            case 'stranded':
                this.addWorld(
                    nameOfMeeting('stranded', ending.station, ending.action, undefined, '', route),
                    words,
                    world,
                );
                return;
            case 'missing': {
                // A world that comes to a station that is missing meets that there; one that misses an end meets it before.
                const station = ending.action ? last : (ending.station ?? last);
                this.addWorld(nameOfMeeting('missing', station, ending.action, ending.end, '', route), words, world);
                return;
            }
            case 'loop': {
                this.addWorld('loop', words, world);
                const first = visits.findIndex(one => one.station === ending.station && one.key === stateKey(state));
                for (const { station } of visits.slice(first)) this.addWorld(`loop at ${station}`, words, world);
                return;
            }
            case 'cut':
                this.cut = true;
        }
    }

    private addState(name: string, words: string, world: World, key: string): void {
        const found = this.states.get(name) ?? new Map<string, { world: World; key: string }>();
        this.states.set(name, found);
        found.set(`${words} ${key}`, { world, key });
    }

    private addWorld(name: string, words: string, world: World): void {
        const found = this.worlds.get(name) ?? new Map<string, World>();
        this.worlds.set(name, found);
        found.set(words, world);
    }
}

function judgedAs(
    ending: Extract<Ending, { sort: 'end' }>,
    state: State,
    world: World,
    { ends, unit }: TreeWalk['route'],
): 'healthy' | 'right' | 'partly' | 'unnamed' {
    if (world.arrival.length === 0) return 'healthy';
    if (ending.right) return 'right';
    const end = ends[ending.end];
    const alone = end && endingAt(end, { ...state, present: new Set(world.arrival) }, world, unit);
    return alone?.sort === 'end' && alone.right ? 'partly' : 'unnamed';
}

function nameOfAsked(station: number, action: AskAction, outcome: number, route: TreeWalk['route']): string {
    return `answer ${outcome} at ${station} ${numberOf(action, station, route)}`;
}

function nameOfMeeting(
    sort: string,
    station: number | undefined,
    action: Action | undefined,
    end: number | undefined,
    need: string,
    route: TreeWalk['route'],
): string {
    // Where an end is missing, the action that leads there does not count.
    const at = end === undefined ? numberOf(action, station, route) : '';
    return `${sort} at ${station} ${at} ${end ?? ''} ${need}`;
}

function numberOf(action: Action | undefined, station: number | undefined, { stations }: TreeWalk['route']): number {
    return action ? (stations[station ?? -1]?.actions.indexOf(action) ?? -1) : -1;
}

function differencesIn(walk: RouteWalk, replayed: Replayed, all: EquipmentWalks, whole: boolean): string[] {
    const comparing = new Comparing(walk, all, whole);
    const { route } = walk;
    const walkedStates = new Map<string, readonly Crowd[]>();
    route.stations.forEach((_, number) =>
        walkedStates.set(`station ${number}`, comparing.crowdsOf(walk.stations[number])),
    );
    route.ends.forEach((_, number) => walkedStates.set(`end ${number}`, comparing.crowdsOf(walk.ends[number])));
    for (const { end, healthy, right, partly, unnamed } of judgementsOf(walk)) {
        for (const [name, crowds] of Object.entries({ healthy, right, partly, unnamed })) {
            walkedStates.set(`end ${end.number} ${name}`, crowds);
        }
    }
    for (const [tree, crowds] of walk.handedOver) walkedStates.set(`handed over to ${tree.name.text}`, crowds);
    for (const name of new Set([...walkedStates.keys(), ...replayed.states.keys()])) {
        comparing.states(name, walkedStates.get(name) ?? [], replayed.states.get(name) ?? new Map());
    }
    const walkedWorlds = new Map<string, Crowd[]>();
    const add = (name: string, crowds: readonly Crowd[]) =>
        walkedWorlds.set(name, [...(walkedWorlds.get(name) ?? []), ...crowds]);
    route.exits.forEach((_, number) => add(`exit ${number}`, comparing.crowdsOf(walk.exits[number])));
    for (const [action, outcomes] of walk.asked) {
        const station = route.stations.findIndex(({ actions }) => actions.includes(action));
        outcomes.forEach((crowds, outcome) =>
            add(nameOfAsked(station, action, outcome, route), comparing.crowdsOf(crowds)),
        );
    }
    for (const meeting of walk.meetings) {
        const { sort, station, action, end, need } = meeting;
        add(nameOfMeeting(sort, station, action, end, need ? JSON.stringify(need) : '', route), [meeting]);
    }
    for (const name of new Set([...walkedWorlds.keys(), ...replayed.worlds.keys()])) {
        if (!name.startsWith('loop')) {
            comparing.worlds(name, walkedWorlds.get(name) ?? [], replayed.worlds.get(name) ?? new Map());
        }
    }
    comparing.loops(replayed);
    return comparing.differences;
}

/** Compares crowds with worlds that were replayed. */
class Comparing {
    readonly differences: string[] = [];
    private readonly space: WalkSpace;
    private readonly changing: readonly number[];
    /** How often a world stands in a set in which all that changes is left open. */
    private readonly copies: bigint;

    constructor(
        private readonly walk: RouteWalk,
        private readonly all: EquipmentWalks,
        private readonly whole: boolean,
    ) {
        this.space = all.around.space;
        const { variables, sets } = this.space;
        this.changing = changedByActions(variables);
        this.copies = this.changing.reduce((product, variable) => product * BigInt(sets.sizes[variable] ?? 1), 1n);
    }

    crowdsOf(crowds: Crowds | undefined): readonly Crowd[] {
        return [...(crowds ?? [])].map(([number, set]) => ({ presence: this.all.around.presences.at(number), set }));
    }

    /** Worlds with their states. */
    states(
        name: string,
        crowds: readonly Crowd[],
        replayed: ReadonlyMap<string, { readonly world: World; readonly key: string }>,
    ): void {
        const { unit } = this.space;
        const byPresence = this.joined(
            crowds,
            presence => `${presence.arrival.join()} ${presenceWords(presence, unit)}`,
        );
        for (const [id, { world, key }] of replayed) {
            const state = readKey(key);
            const set = byPresence.get(`${world.arrival.join()} ${state.presence}`) ?? noWorlds;
            if (!this.space.sets.has(set, valuesOf(world, state, this.space))) {
                this.differences.push(`only replayed: ${name}: ${id}`);
            }
        }
        this.compareCounts(name, byPresence, replayed.size, 1n);
    }

    /** Worlds, whatever their states. */
    worlds(name: string, crowds: readonly Crowd[], replayed: ReadonlyMap<string, World>): void {
        const { sets } = this.space;
        const blank = crowds.map(({ presence, set }) => ({ presence, set: this.blank(set) }));
        const byArrival = this.joined(blank, ({ arrival }) => arrival.join());
        for (const [id, world] of replayed) {
            const set = byArrival.get(world.arrival.join()) ?? noWorlds;
            if (!sets.has(set, valuesOf(world, noState, this.space))) {
                this.differences.push(`only replayed: ${name}: ${id}`);
            }
        }
        this.compareCounts(name, byArrival, replayed.size, this.copies);
    }

    /** The walk tells for each fault one station of a loop, if there is any, and who comes to it again. */
    loops(replayed: Replayed): void {
        const { loops } = this.walk;
        const arrivals = new Set(loops.map(({ presence }) => presence.arrival.join()));
        const looping = replayed.worlds.get('loop') ?? new Map<string, World>();
        for (const [id, world] of looping) {
            if (!arrivals.has(world.arrival.join())) this.differences.push(`only replayed: loop: ${id}`);
        }
        if (!this.whole) return;
        const { sets } = this.space;
        for (const loop of loops) {
            const name = `loop at ${loop.station}`;
            const set = this.blank(loop.set);
            const there = [...(replayed.worlds.get(name) ?? [])].filter(([, world]) => {
                const isSame = world.arrival.join() === loop.presence.arrival.join();
                return isSame && sets.has(set, valuesOf(world, noState, this.space));
            });
            this.compareCounts(name, new Map([['', set]]), there.length, this.copies);
        }
    }

    /** A set without what actions change. */
    private blank(set: WorldSet): WorldSet {
        return this.space.sets.forget(onlyMade(set, this.space), this.changing);
    }

    private joined(crowds: readonly Crowd[], keyOf: (presence: Presence) => string): Map<string, WorldSet> {
        const joined = new Map<string, WorldSet>();
        for (const { presence, set } of crowds) {
            const key = keyOf(presence);
            joined.set(key, this.space.sets.or(joined.get(key) ?? noWorlds, set));
        }
        return joined;
    }

    private compareCounts(name: string, walked: ReadonlyMap<string, WorldSet>, replayed: number, copies: bigint): void {
        if (!this.whole) return;
        const { sets } = this.space;
        let count = 0n;
        for (const set of walked.values()) count += sets.count(onlyMade(set, this.space)) / copies;
        if (count !== BigInt(replayed)) this.differences.push(`${name}: ${count} are walked and ${replayed} replayed`);
    }
}

interface ReadState {
    readonly conditions: readonly number[];
    readonly closed: ReadonlySet<number>;
    readonly safe: ReadonlySet<number>;
    readonly guessed: number;
    /** By test, where its reading has been taken. */
    readonly noted: ReadonlyMap<number, number>;
    /** The parts of the key that a presence holds. */
    readonly presence: string;
}

const noState: ReadState = {
    conditions: [],
    closed: new Set(),
    safe: new Set(),
    guessed: 0,
    noted: new Map(),
    presence: '',
};

const readStates = new Map<string, ReadState>();

function readKey(key: string): ReadState {
    const known = readStates.get(key);
    if (known) return known;
    const parts = new Map(key.split('|').map(part => [part.slice(0, 1), part.slice(2)]));
    const numbers = (name: string) =>
        (parts.get(name) ?? '')
            .split(',')
            .filter(text => text !== '')
            .map(Number);
    const state = {
        conditions: numbers('c'),
        closed: new Set(numbers('g')),
        safe: new Set(numbers('s')),
        guessed: Number(parts.get('q') ?? 0),
        noted: new Map((parts.get('n') ?? '').split(',').map(one => one.split('=').map(Number) as [number, number])),
        presence: ['p', 'x', 'm', 'r'].map(name => `${name}:${parts.get(name) ?? ''}`).join('|'),
    };
    readStates.set(key, state);
    return state;
}

function presenceWords({ present, cleared, memory, replaced }: Presence, unit: Unit): string {
    const times = cleared.map(({ fault, time }) => `${fault}@${time}`).join(',');
    const remembered = unit.tests
        .filter(test => memory.has(test.number))
        .map(({ number }) => `${number}=${(memory.get(number) ?? []).join(',')}`)
        .join(';');
    return `p:${present.join(',')}|x:${times}|m:${remembered}|r:${replaced ? 1 : 0}`;
}

function valuesOf({ build, draws }: World, state: ReadState, { variables, sets }: WalkSpace): number[] {
    const values = sets.sizes.map(() => 0);
    for (const [option, variable] of variables.options) {
        const choice = build.get(option);
        values[variable] = choice ? option.choices.indexOf(choice) : option.choices.length;
    }
    variables.conditions.forEach(
        (variable, condition) => (values[variable] = Math.max(0, state.conditions[condition] ?? 0)),
    );
    variables.gates.forEach((variable, gate) => (values[variable] = state.closed.has(gate) ? 1 : 0));
    variables.hazards.forEach((variable, hazard) => (values[variable] = state.safe.has(hazard) ? 1 : 0));
    values[variables.guessed] = state.guessed;
    variables.taken.forEach((variable, test) => {
        if (variable >= 0) values[variable] = state.noted.get(test) ?? 0;
    });
    variables.draws.forEach((variable, test) => {
        if (variable >= 0) values[variable] = draws[test] ?? 0;
    });
    return values;
}

/** A world in words, for messages. */
export function worldWords({ build, arrival, draws }: World, unit: Unit): string {
    const choices = [...build.values()].map(choice => choice.name.text).join('+');
    const faults = arrival.map(fault => unit.faults[fault]?.name ?? '').join('+') || 'healthy';
    const drawn = draws
        .map((draw, test) => (draw > 0 ? `${unit.tests[test]?.name ?? ''}=${draw}` : ''))
        .filter(Boolean);
    return `[${choices} ${faults} ${drawn.join(' ')}]`;
}
