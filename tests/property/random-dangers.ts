/**
 * Small machines made at random that can hurt somebody, as text: zones with hazards, gates that control and permit, waits,
 * repairs under gates, referrals that leave things changed, and detours of every sort. What they say is nonsense.
 */
import { type Random, randomFrom } from './random.js';

interface Names {
    readonly choices: readonly string[];
    readonly hazards: readonly string[];
    readonly zones: readonly string[];
    readonly conditions: readonly { readonly name: string; readonly values: readonly string[] }[];
    readonly parts: readonly string[];
    readonly flows: readonly string[];
    readonly tests: readonly {
        readonly name: string;
        readonly outcomes: readonly string[];
        readonly measured: boolean;
    }[];
    readonly gates: readonly string[];
    /** How much is limited to builds, from 0 to 1. With little of it, some options make no difference to any hazard. */
    readonly limited: number;
    readonly random: Random;
}

/** A machine of its own for each seed, one clause a line. */
export function randomDangers(seed: number): string {
    const random = randomFrom(seed);
    const { chance, pick, times } = random;
    const options = times(0, 2, index => [`a${index}`, `b${index}`]);
    const names: Names = {
        choices: options.flat(),
        hazards: times(1, 2, index => `h${index}`),
        zones: times(1, 2, index => `z${index}`),
        conditions: times(1, 2, index => ({
            name: `c${index}`,
            values: ['off', 'on', 'third'].slice(0, chance(0.1) ? 3 : 2),
        })),
        parts: times(2, 3, index => `p${index}`),
        flows: times(1, 2, index => `f${index}`),
        tests: times(2, 3, index => ({
            name: `t${index}`,
            outcomes: ['low', 'high'].slice(0, chance(0.75) ? 1 : 2),
            measured: chance(0.5),
        })),
        gates: times(1, 2, index => `g${index}`),
        limited: pick([0.15, 0.4, 1, 1]),
        random,
    };
    const hasProcedure = chance(0.3);
    const trees = chance(0.15) ? ['x', 'y'] : ['x'];
    return [
        'instrument meter "Meter" { measures voltage DC 0 V .. 30 V resolution 1 mV accuracy 1 % }',
        'equipment m "Machine" {',
        ...options.map(
            (choices, index) =>
                `option o${index}${index > 0 ? guarded(names, 0.2, 2 * index) : ''} { ${choices.join(' ')} }`,
        ),
        ...(names.choices.length > 2 && chance(0.2) ? ['exclude a0 with b1'] : []),
        ...writeSurroundings(names),
        ...names.parts.flatMap((part, index) => writePart(part, index, names)),
        ...names.flows.map((flow, index) => writeFlow(flow, index, names)),
        ...names.tests.flatMap((_, index) => writeTest(index, names)),
        ...names.gates.flatMap(gate => writeGate(gate, names)),
        '}',
        ...(hasProcedure ? writeProcedure(names) : []),
        ...trees.flatMap(tree => writeTree(tree, trees, hasProcedure, names)),
        '',
    ].join('\n');
}

/** ` for CHOICE`, or nothing; only the first so many choices may be named. */
function guarded({ choices, limited, random }: Names, of = 0.12, most = choices.length): string {
    const { chance, pick } = random;
    if (most === 0 || choices.length === 0 || !chance(of * limited)) return '';
    return ` for ${chance(0.2) ? 'not ' : ''}${pick(choices.slice(0, most))}`;
}

/** ` when STATE` or another word before it, or nothing; only the first so many flows may stand in it. */
function stated(word: string, names: Names, of: number, flows = names.flows.length): string {
    return names.random.chance(of) ? ` ${word} ${state(names, flows)}` : '';
}

function state({ conditions, hazards, flows, random }: Names, mostFlows: number): string {
    const { chance, pick } = random;
    const values = conditions.flatMap(({ name, values }) => values.map(value => `${name} ${value}`));
    const others = [
        ...hazards.map(name => `${name} isolated`),
        ...flows.slice(0, mostFlows).map(name => `${name} flowing`),
    ];
    const one = () => `${chance(0.15) ? 'not ' : ''}${pick([...values, ...values, ...values, ...others])}`;
    return chance(0.15) ? `(${one()} ${pick(['and', 'or'])} ${one()})` : one();
}

function writeSurroundings(names: Names): string[] {
    const { chance, pick, some } = names.random;
    return [
        ...names.hazards.map(
            name => `hazard ${name} "Energy"${guarded(names)} { ${pick(['electrical', 'thermal', 'thermal'])} }`,
        ),
        ...names.zones.flatMap(name => {
            const exposed = some(names.hazards, 0.8).map(
                hazard => `exposes ${hazard}${stated('while', names, 0.4)}${guarded(names)}`,
            );
            return [`zone ${name} "Zone"${guarded(names, 0.08)} {`, ...exposed, '}'];
        }),
        ...names.conditions.flatMap(({ name, values }) => [
            `condition ${name} "State"${guarded(names, 0.08)} {`,
            ...values.map(value => `${value} "State"${chance(0.06) ? ` bypasses ${pick(names.parts)}` : ''}`),
            '}',
        ]),
        `supply s0 "Supply"${chance(0.7) ? ` carries ${pick(names.hazards)}` : ''}${guarded(names, 0.05)}`,
    ];
}

function writePart(name: string, index: number, names: Names): string[] {
    const { chance, pick, times } = names.random;
    const causes = index > 0 && chance(0.2) ? [`causes p0.f${pick(['', ' after 1 min', ' after 2 min'])}`] : [];
    return [
        `part ${name} "Part"${guarded(names, 0.08)} {`,
        ...writePlaces(names),
        ...(chance(0.4) ? [`protects ${pick(names.flows)}${guarded(names)}`] : []),
        `fault f "Fault"${chance(0.4) ? ` ${pick(['stops', 'weakens', 'shorts'])}` : ''}${chance(0.08) ? ' comes and goes' : ''}${guarded(names, 0.08)} {`,
        ...causes,
        ...(chance(0.2) ? [writeRepair(names)] : []),
        '}',
        ...times(0, 2, () => writeRepair(names)),
        '}',
    ];
}

/** The zone that a part is in: one, none, or another one for each choice. */
function writePlaces(names: Names): string[] {
    const { choices, zones, limited, random } = names;
    const { chance, pick } = random;
    const [first, second] = choices;
    if (first !== undefined && chance(0.2 * limited)) {
        return [`in ${pick(zones)} for ${first}`, `in ${pick(zones)} for ${second ?? ''}`];
    }
    return chance(0.75) ? [`in ${pick(zones)}${guarded(names)}`] : [];
}

function writeRepair(names: Names): string {
    const { chance, pick, some } = names.random;
    const gates = some(names.gates, 0.4).map(gate => ` under ${gate}`);
    return `${pick(['replace', 'repair', 'reset'])} "Mend."${gates.join('')}${guarded(names, chance(0.5) ? 0 : 0.4)}`;
}

function writeFlow(name: string, index: number, names: Names): string {
    const { chance, pick, times } = names.random;
    const sources = ['s0', 's0', ...names.hazards, ...names.flows.slice(0, index)];
    const point = () => `[${pick(names.tests).name}]`;
    const place = () => `${pick(names.parts)}${stated('when', names, 0.3, index)}${guarded(names, 0.25)}`;
    const rest = times(1, 4, () => (chance(0.35) ? point() : place()));
    const group = chance(0.15) ? [`(${place()} ${pick(['or', 'and', 'with'])} ${place()})`] : [];
    const fed = names.flows[index + 1];
    const feeds = fed !== undefined && chance(0.3) ? ` feeds ${pick(names.parts)} in ${fed}` : '';
    const when = stated('when', names, 0.25, index);
    return `flow ${name} "Flow"${when}${guarded(names, 0.08)}: ${[pick(sources), ...rest, ...group, point()].join(' -> ')}${feeds}`;
}

function writeTest(index: number, names: Names): string[] {
    const { chance, pick, some } = names.random;
    const test = names.tests[index];
    if (!test) return [];
    const { name, outcomes, measured } = test;
    const before = names.tests.slice(0, index).filter(one => one.measured);
    const isWorkedOut = measured && before.length > 0 && chance(0.5);
    const method = isWorkedOut
        ? `calculate voltage from ${pick(before).name}`
        : measured
          ? 'measure voltage DC'
          : `observe by ${pick(['eye', 'hand'])}`;
    const bands: Readonly<Record<string, string>> = { normal: '20 V .. 28 V', low: '< 20 V', high: '> 28 V' };
    return [
        `test ${name} "Test"${chance(0.5) ? ` in ${pick(names.zones)}` : chance(0.5) ? ` at ${pick(names.parts)}` : ''}${guarded(names, 0.08)} {`,
        method,
        ...(chance(0.3) ? ['takes 1 min'] : []),
        ...(chance(0.3) ? [`needs ${state(names, names.flows.length)}${guarded(names)}`] : []),
        ...(chance(0.15) ? ['needs isolated'] : []),
        ...(chance(0.5)
            ? some(names.parts, 0.5).map(part => `checks ${part}.f as ${pick(outcomes)}${guarded(names)}`)
            : []),
        ...['normal', ...outcomes].map(outcome => {
            const written = measured ? (bands[outcome] ?? '') : `"${outcome}"`;
            const shows = outcome === 'low' && chance(0.5) ? ' shows stopped' : '';
            return `${outcome} ${written}${shows}${stated('when', names, 0.08)}`;
        }),
        '}',
    ];
}

function writeGate(name: string, names: Names): string[] {
    const { chance, pick, some, times } = names.random;
    return [
        `gate ${name} "Gate"${guarded(names, 0.08)} {`,
        ...(chance(0.85) ? some(names.hazards, 0.7) : []).map(hazard => `controls ${hazard}${guarded(names)}`),
        ...some(names.hazards, 0.3).map(
            hazard => `permits ${pick(['measuring', 'measuring', 'looking', 'charging'])} ${hazard}${guarded(names)}`,
        ),
        `shut-down "Do."${sets(names, 0.4)}${guarded(names)}`,
        ...times(0, 1, () => `prove ${pick([...names.hazards, ''])} "Do." with meter${guarded(names)}`),
        ...times(0, 2, () => `restore "Do."${sets(names, 0.5)}${guarded(names)}`),
        '}',
    ];
}

/** ` sets CONDITION VALUE`, perhaps two, or nothing. */
function sets({ conditions, random }: Names, of: number): string {
    const { chance, pick, times } = random;
    if (!chance(of)) return '';
    const settings = times(1, 2, () => {
        const { name, values } = pick(conditions);
        return `${name} ${pick(values)}`;
    });
    return ` sets ${settings.join(' and ')}`;
}

/** Where a step is written: its steps and ends in order. */
interface Scene {
    readonly names: Names;
    readonly steps: readonly string[];
    readonly ends: readonly string[];
    readonly others: readonly string[];
    readonly hasProcedure: boolean;
}

function writeProcedure(names: Names): string[] {
    const { chance, times } = names.random;
    const scene: Scene = {
        names,
        steps: times(1, 2, index => `u${index}`),
        ends: ['good', 'bad'],
        others: [],
        hasProcedure: false,
    };
    return [
        `procedure q "Procedure" of m about part${guarded(names, 0.3)} {`,
        ...scene.steps.flatMap((_, index) => writeStep(index, scene)),
        'result good "Good"',
        'result bad "Bad"',
        ...(chance(0.2) ? [`cannot be read -> bad`] : []),
        '}',
    ];
}

function writeTree(name: string, trees: readonly string[], hasProcedure: boolean, names: Names): string[] {
    const { chance, pick, some, times } = names.random;
    const ends = [...times(1, 2, index => `e${index}`), ...times(1, 2, index => `r${index}`)];
    const steps = times(2, 6, index => `x${index}`);
    const scene: Scene = { names, steps, ends, others: trees.filter(other => other > name), hasProcedure };
    const anywhere = () => `${pick([...ends, ...steps, ...steps.slice(1)])}${guarded(names)}`;
    return [
        `tree ${name} "Tree" of m${guarded(names, 0.08)} {`,
        ...times(1, 2, () => {
            const test = pick(names.tests);
            return `complaint ${test.name} ${test.outcomes.join(', ')}`;
        }),
        ...steps.flatMap((_, index) => writeStep(index, scene)),
        ...(chance(0.5) ? [`cannot be read -> ${anywhere()}`] : []),
        ...(chance(0.5) ? [`cannot be done -> ${anywhere()}`] : []),
        ...(chance(0.6) ? [`disagree -> ${anywhere()}`] : []),
        ...ends.flatMap(end => {
            const isReferral = end.startsWith('r');
            const faults = some(names.parts, isReferral ? 0.2 : 0.7).map(
                part => `${part}${chance(0.8) ? '.f' : ''}${guarded(names)}`,
            );
            const members = isReferral ? writeLeaves(names) : chance(0.15) ? [writeRepair(names)] : [];
            return [
                `${isReferral ? 'refer' : 'conclude'} ${end} "End"${guarded(names, 0.05)} {`,
                faults.join(', '),
                ...members,
                '}',
            ];
        }),
        '}',
    ];
}

function writeLeaves(names: Names): string[] {
    const { some, pick } = names.random;
    return [
        ...some(names.gates, 0.3).map(gate => `leaves gate ${gate} closed${guarded(names)}`),
        ...some(names.conditions, 0.3).map(({ name, values }) => `leaves ${name} ${pick(values)}${guarded(names)}`),
    ];
}

function writeStep(index: number, scene: Scene): string[] {
    const { names, steps, ends, others, hasProcedure } = scene;
    const { chance, pick, times } = names.random;
    const later = steps.slice(index + 1);
    const to = () =>
        chance(0.08) ? pick(steps) : later.length > 0 && chance(0.75) ? pick(later.slice(0, 2)) : pick(ends);
    const last = (): string[] => {
        if (hasProcedure && chance(0.15)) {
            return [`follow q with ${pick(names.parts)} { good -> ${to()} bad -> ${to()} }`];
        }
        if (others.length > 0 && chance(0.2)) return [`continue with ${pick(others)}`];
        return chance(0.15) ? [`go ${to()}`] : writeQuestion(to, names);
    };
    const guard = guarded(names, 0.1);
    return [
        `step ${steps[index] ?? ''} "Step"${guarded(names, 0.05)} {`,
        ...times(0, 3, () => writeAct(to, names)),
        ...(guard !== '' ? [`go ${to()}${guard}`] : []),
        ...last(),
        '}',
    ];
}

function writeAct(to: () => string, names: Names): string {
    const { chance, pick } = names.random;
    const guard = guarded(names, 0.1);
    if (chance(0.12)) return `read ${pick(names.tests).name}${guard}`;
    if (chance(0.5)) return `${pick(['gate', 'gate', 'restore'])} ${pick(names.gates)}${guard}`;
    if (chance(0.3)) {
        return `wait ${pick([1, 3])} min${chance(0.85) ? ` until ${pick(names.hazards)} safe` : ''} "Wait."${guard}`;
    }
    const clauses = [
        sets(names, 0.7),
        chance(0.2) ? ` clears ${chance(0.5) ? 'p0' : pick(names.parts)}.f` : '',
        chance(0.15) ? ` replaces ${pick(names.parts)}` : '',
        chance(0.2) ? ` using ${chance(0.5) ? 'p0' : pick(names.parts)}` : '',
        chance(0.3) ? ` at ${pick(names.parts)}` : '',
        chance(0.25) ? ` in ${pick(names.zones)}` : '',
        chance(0.3) ? ' takes 1 min' : '',
        chance(0.15) ? ` cannot be done -> ${to()}` : '',
    ];
    return `do "Act."${clauses.join('')}${guard}`;
}

function writeQuestion(to: () => string, names: Names): string[] {
    const { chance, pick, some } = names.random;
    const { name, outcomes } = pick(names.tests);
    const all = ['normal', ...outcomes];
    if (chance(0.25)) return [`confirm ${name} ${pick(all)} -> ${to()}`];
    const branches = some(all, 0.9).map(outcome => `${outcome} -> ${to()}${guarded(names, 0.06)}`);
    if (branches.length < all.length || chance(0.1)) branches.push(`otherwise -> ${to()}`);
    if (chance(0.15)) branches.push(`cannot be read -> ${to()}`);
    return [`${chance(0.2) ? 'confirm' : 'test'} ${name} {`, ...branches, '}'];
}
