/** Short forms for tests of the replay: a text and a world in, its runs as lines out; or what each test shows. */
import { makeRoute } from '../../../language/src/core/meaning/make-route.js';
import { resolveUnit } from '../../../language/src/core/meaning/resolve-unit.js';
import type { Resolving } from '../../../language/src/core/meaning/resolving.js';
import type { Route } from '../../../language/src/core/meaning/route.js';
import type { StateCondition, Unit, UnitSetting } from '../../../language/src/core/meaning/unit.js';
import type { Choice, Option } from '../../../language/src/core/model/equipment.js';
import type { Model } from '../../../language/src/core/model/model.js';
import { stateOnArrival } from '../../../language/src/core/replay/arrival.js';
import { replay, type ReplayOptions, type Run, type World } from '../../../language/src/core/replay/replay.js';
import type { Happening, Visit } from '../../../language/src/core/replay/run.js';
import { showsIn } from '../../../language/src/core/replay/shows.js';
import type { State } from '../../../language/src/core/replay/state.js';
import { buildsOf } from '../../../language/src/core/replay/world.js';
import { readTexts, type Texts } from '../../support/read-texts.js';

/** A world as a test writes it. */
export interface SmallWorld {
    /** Names of choices; the first build that has them all is taken. */
    readonly build?: readonly string[];
    /** `part.fault`; none for a healthy unit. */
    readonly fault?: string | readonly string[];
    /** By the names of tests; 0 where nothing is said. */
    readonly draws?: Readonly<Record<string, number>>;
    /** What a scenario fixes: outcomes by the names of tests. */
    readonly reads?: Readonly<Record<string, string>>;
    /** The tree, where there are several. */
    readonly tree?: string;
}

/** The first equipment of some texts with its trees, ready to be replayed. */
export interface Read {
    readonly model: Model;
    readonly unit: Unit;
    readonly names: Resolving;
    readonly routes: ReadonlyMap<string, Route>;
}

const read = new Map<string, Read>();

/** Reads texts, which must be free of slips and of unknown names, so that a test does not rest on half of its text. */
export function readUnit(texts: string | Texts): Read {
    const key = typeof texts === 'string' ? texts : JSON.stringify(texts);
    const known = read.get(key);
    if (known) return known;
    const { model, findings } = readTexts(typeof texts === 'string' ? { 'example.fault': texts } : texts);
    const files = [...model.files.values()];
    const problems = files.flatMap(({ file }) => model.problems(file));
    const [slip] = findings.filter(({ severity }) => severity === 'error');
    if (slip) throw new Error(`The text of the test is wrong: ${slip.message}`);
    if (problems.length > 0) {
        throw new Error(`The text of the test has an unknown name: ${JSON.stringify(problems[0])}`);
    }
    const [equipment] = files.flatMap(file => file.equipment);
    if (!equipment) throw new Error('The text of the test has no equipment.');
    const { unit, names } = resolveUnit(equipment, model);
    const trees = files.flatMap(file => file.trees).filter(tree => model.target(tree.equipment) === equipment);
    const routes = new Map(trees.map(tree => [tree.name.text, makeRoute(tree, unit, names)]));
    const made = { model, unit, names, routes };
    read.set(key, made);
    return made;
}

/** The world that a test writes. */
export function worldOf({ unit }: Read, { build = [], fault = [], draws = {}, reads = {} }: SmallWorld): World {
    const faults = typeof fault === 'string' ? [fault] : fault;
    const outcome = (test: number, name: string): number => must(unit.tests[test]?.outcomes.indexOf(name), name);
    return {
        build: buildWith(unit, build),
        arrival: faults.map(name => must(unit.faults.find(one => one.name === name)?.number, name)),
        draws: unit.tests.map(({ name }) => draws[name] ?? 0),
        reads: new Map(
            Object.entries(reads).map(([name, shown]) => [
                testNumber(unit, name),
                outcome(testNumber(unit, name), shown),
            ]),
        ),
    };
}

function buildWith(unit: Unit, names: readonly string[]): ReadonlyMap<Option, Choice> {
    for (const build of buildsOf(unit.space)) {
        const choices = new Set([...build.values()].map(({ name }) => name.text));
        if (names.every(name => choices.has(name))) return build;
    }
    throw new Error(`No build has ${names.join(', ')}.`);
}

function testNumber(unit: Unit, name: string): number {
    return must(unit.tests.find(test => test.name === name)?.number, name);
}

function must<T>(found: T | undefined, name: string): T {
    if (found === undefined) throw new Error(`The text of the test has no ${name}.`);
    return found;
}

/**
 * The runs of a world through a tree, each as `start > look(absent) > coil(open) > bad-coil right`.
 * An outcome that rests on a choice of the model has a `?`; what is amiss stands in the brackets before it.
 */
export function runsOf(texts: string | Texts, world: SmallWorld = {}, options: ReplayOptions = {}): string[] {
    const all = readUnit(texts);
    const route = routeOf(all, world.tree);
    return replay(route, worldOf(all, world), options).map(run => lineOf(run, route));
}

/** The whole runs of a world. */
export function wholeRunsOf(
    texts: string | Texts,
    world: SmallWorld = {},
    options: ReplayOptions = {},
): readonly Run[] {
    const all = readUnit(texts);
    return replay(routeOf(all, world.tree), worldOf(all, world), options);
}

/** The route of a tree, or of the only one. */
export function routeOf({ routes }: Read, tree?: string): Route {
    return must(tree === undefined ? [...routes.values()][0] : routes.get(tree), `tree ${tree ?? ''}`);
}

/** A run as one line. */
export function lineOf(run: Run, route: Route): string {
    const steps = run.visits.map(visit => `${stepName(route, visit.station)}${happeningsOf(visit, route.unit)}`);
    return [...steps, endingOf(run, route)].join(' > ');
}

function stepName(route: Route, station: number): string {
    const { step, calls } = must(route.stations[station], `station ${station}`);
    const within = calls.map(call => `${must(route.stations[call], `station ${call}`).step.name.text}/`);
    return `${within.join('')}${step.name.text}`;
}

function happeningsOf({ steps }: Visit, unit: Unit): string {
    const words = steps.map(step => happeningWords(step, unit)).filter(word => word !== undefined);
    return words.length > 0 ? `(${words.join(', ')})` : '';
}

function happeningWords(step: Happening, unit: Unit): string | undefined {
    switch (step.sort) {
        case 'asked':
            return `${unit.tests[step.test]?.outcomes[step.outcome] ?? 'no outcome'}${step.guessed ? '?' : ''}`;
        case 'needs':
            return `needs ${step.need ? stateWords(step.need, unit) : ''}`;
        case 'no energy':
        case 'nothing said':
        case 'cannot be done':
        case 'missing':
            return step.sort;
        default:
            return undefined;
    }
}

function valueWords({ condition, value }: UnitSetting, unit: Unit): string {
    const declaration = unit.conditions[condition]?.declaration;
    return `${declaration?.name.text ?? ''} ${declaration?.values[value]?.name.text ?? ''}`;
}

function stateWords(state: StateCondition, unit: Unit): string {
    switch (state.sort) {
        case 'value':
            return valueWords(state, unit);
        case 'isolated':
            return `${unit.hazards[state.hazard]?.declaration.name.text ?? ''} isolated`;
        case 'flowing':
            return `${unit.flows[state.flow]?.declaration.name.text ?? ''} flowing`;
        case 'zones isolated':
            return 'isolated';
        case 'taken':
            return `${unit.tests[state.test]?.name ?? ''} taken`;
        case 'not':
            return `not ${stateWords(state.operand, unit)}`;
        case 'all':
        case 'any':
            return state.operands
                .map(operand => stateWords(operand, unit))
                .join(state.sort === 'all' ? ' and ' : ' or ');
    }
}

function endingOf({ ending }: Run, route: Route): string {
    switch (ending.sort) {
        case 'end':
            return `${route.ends[ending.end]?.written.name.text ?? ''} ${ending.right ? 'right' : 'wrong'}`;
        case 'handed over':
            return `handed over to ${ending.tree.name.text}`;
        case 'loop':
            return `again ${stepName(route, ending.station)}: loop`;
        case 'missing': {
            const end = ending.end === undefined ? undefined : route.ends[ending.end]?.written.name.text;
            const station = ending.station === undefined ? undefined : stepName(route, ending.station);
            return `missing${ending.action ? ` for ${ending.action.sort}` : ` ${end ?? station ?? 'tree'}`}`;
        }
        default:
            return ending.sort;
    }
}

/** A state to ask tests in: what has been set, closed, made safe or cleared since arrival. */
export interface SmallState {
    /** `condition value`. */
    readonly set?: readonly string[];
    readonly closed?: readonly string[];
    readonly safe?: readonly string[];
    /** Faults that are no longer present. */
    readonly gone?: readonly string[];
}

/** The state of a world on arrival, then changed as a test says. */
export function stateOf(all: Read, world: World, { set = [], closed = [], safe = [], gone = [] }: SmallState): State {
    const { unit } = all;
    const state = stateOnArrival(unit, world);
    const conditions = [...state.conditions];
    for (const [name, value] of set.map(one => one.split(' '))) {
        const condition = unit.conditions.find(({ declaration }) => declaration.name.text === name);
        const number = condition?.declaration.values.findIndex(one => one.name.text === value);
        conditions[must(condition, name ?? '').number] = must(number, value ?? '');
    }
    const numbersOf = <T extends { readonly number: number }>(
        list: readonly T[],
        names: readonly string[],
        nameOf: (one: T) => string,
    ) => new Set(names.map(name => must(list.find(one => nameOf(one) === name)?.number, name)));
    const away = numbersOf(unit.faults, gone, ({ name }) => name);
    return {
        ...state,
        conditions,
        closed: numbersOf(unit.gates, closed, ({ declaration }) => declaration.name.text),
        safe: numbersOf(unit.hazards, safe, ({ declaration }) => declaration.name.text),
        present: new Set([...state.present].filter(fault => !away.has(fault))),
    };
}

/** What one test shows: its outcome; or `low|absent` where several are possible, with `?` where the model leaves it open. */
export function shown(texts: string | Texts, test: string, world: SmallWorld = {}, state: SmallState = {}): string {
    const all = readUnit(texts);
    const made = worldOf(all, world);
    const number = testNumber(all.unit, test);
    const { outcomes } = must(all.unit.tests[number], test);
    return showsIn(all.unit, number, made, stateOf(all, made, state))
        .map(({ opts, guessed }) => opts.map(opt => outcomes[opt] ?? '').join('|') + (guessed ? '?' : ''))
        .join(' / ');
}
