/**
 * Small worlds made at random, as text: an equipment with everything that the walk looks at, and trees through it. Its
 * names all lead somewhere; what it says is nonsense, and now and then wrong in a way that the walk has to bear.
 */
import { type Random, randomFrom } from './random.js';
import {
    guard,
    guarded,
    type NamedTest,
    type Names,
    outcomesOf,
    planNames,
    state,
    stated,
    writeSettings,
} from './random-names.js';
import { writeProcedures, writeTrees } from './random-trees.js';

/** A world of its own for each seed, one clause a line. */
export function randomWorld(seed: number): string {
    const random = randomFrom(seed);
    const names = planNames(random);
    const procedures = writeProcedures(names, random);
    return [
        'equipment m "Machine" {',
        ...writeOptions(names, random),
        ...writeSurroundings(names, random),
        ...writeKinds(names, random),
        ...writeParts(names, random),
        ...writeFlows(names, random),
        ...writeTests(names, random),
        ...writeGates(names, random),
        '}',
        ...procedures.lines,
        ...writeTrees(names, procedures.procedures, random),
        '',
    ].join('\n');
}

function writeOptions(names: Names, random: Random): string[] {
    const { chance, pick, times } = random;
    const lines = names.options.map(({ name, choices }, index) => {
        const before = { ...names, options: names.options.slice(0, index) };
        return `option ${name}${guarded(before, random, 0.3)} { ${choices.join(' ')} }`;
    });
    const choices = names.options.flatMap(option => option.choices);
    const exclusions =
        choices.length < 3 || !chance(0.3)
            ? []
            : times(1, 2, () => `exclude ${guard(choices, random)} with ${pick(choices)}`);
    return [...lines, ...exclusions];
}

function writeSurroundings(names: Names, random: Random): string[] {
    const { chance, pick, some } = random;
    return [
        ...names.hazards.map(name => `hazard ${name} "Energy"${guarded(names, random)} { electrical }`),
        ...names.zones.flatMap(name => [
            `zone ${name} "Zone"${guarded(names, random)} {`,
            ...some(names.hazards, 0.8).map(
                hazard => `exposes ${hazard}${stated('while', names, random, 0.3)}${guarded(names, random)}`,
            ),
            '}',
        ]),
        ...names.conditions.flatMap(({ name, values }) => [
            `condition ${name} "State"${guarded(names, random)} {`,
            ...values.map(value => {
                const bypassed = value === 'bridged' || chance(0.05) ? pick(names.parts).name : undefined;
                return `${value} "State"${bypassed === undefined ? '' : ` bypasses ${bypassed}`}`;
            }),
            '}',
        ]),
        ...names.supplies.flatMap(({ name, carries }) => [
            `supply ${name} "Supply"${carries === undefined ? '' : ` carries ${carries}`}${guarded(names, random)} {`,
            ...faultsOf(name, names).flatMap(fault => writeFault(name, fault, names, random)),
            '}',
        ]),
    ];
}

function faultsOf(part: string, { faults }: Names): string[] {
    return faults.filter(fault => fault.startsWith(`${part}.`)).map(fault => fault.slice(part.length + 1));
}

function writeKinds(names: Names, random: Random): string[] {
    return names.kinds.flatMap(({ name, faults, test }) => [
        `kind ${name} "Kind" {`,
        ...Array.from({ length: faults }, (_, index) => writeFault('', `f${index}`, names, random, test)).flat(),
        ...(test
            ? writeTest(
                  test,
                  names,
                  random,
                  Array.from({ length: faults }, (_, index) => `f${index}`),
              )
            : []),
        '}',
    ]);
}

function writeParts(names: Names, random: Random): string[] {
    const { chance, pick, some } = random;
    return names.parts.flatMap(({ name, kind }) => [
        `part ${name}${kind === undefined ? '' : ` is ${kind}`} "Part"${guarded(names, random, 0.1)} {`,
        ...(names.zones.length > 0 && chance(0.3) ? [`in ${pick(names.zones)}${guarded(names, random)}`] : []),
        ...(chance(0.15) ? [`protects ${pick(names.flows).name}${guarded(names, random)}`] : []),
        // A part of a kind says again only some of the faults.
        ...some(faultsOf(name, names), kind === undefined ? 1 : 0.3).flatMap(fault =>
            writeFault(name, fault, names, random),
        ),
        '}',
    ]);
}

/** A fault; within a kind it may speak of the kind's own test. */
function writeFault(part: string, name: string, names: Names, random: Random, ownTest?: NamedTest): string[] {
    const { chance, pick, times } = random;
    const effects = ['stops', 'weakens', 'raises', 'loads', 'shorts'];
    const places = names.flows.flatMap(flow => [flow.name, ...flow.labels]);
    const tests = [...names.tests.filter(({ option }) => option === undefined), ...(ownTest ? [ownTest, ownTest] : [])];
    const caused = names.caused.get(`${part}.${name}`);
    const heading = [
        chance(0.35) ? ` ${pick(effects)}` : '',
        chance(0.1) ? ' only when caused' : '',
        chance(0.1) ? ` at ${pick(places)}` : '',
        chance(0.12) ? ` comes and goes${stated('unless', names, random, 0.5)}` : '',
    ].join('');
    return [
        `fault ${name} "Fault"${heading}${guarded(names, random, 0.12)} {`,
        ...(chance(0.2) ? times(1, 2, () => `${pick(effects)}${guarded(names, random, 0.6)}`) : []),
        ...(chance(0.08) ? [`at ${pick(places)}${guarded(names, random, 0.5)}`] : []),
        ...(chance(0.05) ? [`only when caused${guarded(names, random, 0.8)}`] : []),
        ...(chance(0.05)
            ? [`comes and goes${stated('unless', names, random, 0.5)}${guarded(names, random, 0.8)}`]
            : []),
        ...(chance(0.3) ? times(1, 2, () => writeMakes(pick(tests), names, random)) : []),
        ...(caused === undefined
            ? []
            : [`causes ${caused}${guarded(names, random, 0.1)}${chance(0.6) ? ` after ${pick([0, 1, 5])} min` : ''}`]),
        '}',
    ];
}

function writeMakes(test: NamedTest, names: Names, random: Random): string {
    const { chance, pick } = random;
    const { name, outcomes } = test;
    const shown =
        chance(0.25) && outcomes.length > 1
            ? outcomes.slice(0, 2).join(' or ')
            : pick([...outcomes, ...outcomesOf(test)]);
    return `makes ${name} ${shown}${stated(pick(['when', 'unless']), names, random, 0.3)}${guarded(names, random)}`;
}

function writeFlows(names: Names, random: Random): string[] {
    const { chance, pick } = random;
    return names.flows.map((flow, index) => {
        const later = names.circles ? names.flows : names.flows.slice(index + 1);
        const feeds =
            later.length > 0 && chance(0.4)
                ? [`${pick(names.parts).name} in ${pick(later).name}${guarded(names, random)}`]
                : [];
        const chain = writeChain(index, names, random, 2);
        const all = chain.some(element => !element.startsWith('[')) ? chain : [pick(names.parts).name, ...chain];
        const labels = [...flow.labels];
        // The labels of a flow go to its last places, so that each of them is there.
        for (let at = all.length - 1; at >= 0 && labels.length > 0; at--) {
            const [, member = '', rest = ''] = /^(p\d)(.*)$/.exec(all[at] ?? '') ?? [];
            if (member !== '') all[at] = `${member} as ${labels.pop()}${rest}`;
        }
        const labelled = labels.map(label => `${pick(names.parts).name} as ${label}`);
        const when = stated('when', names, random, 0.2, flowsBefore(index, names).length);
        return `flow ${flow.name} "Flow"${when}${guarded(names, random, 0.12)}: ${[...all, ...labelled].join(' -> ')}${feeds.length > 0 ? ` feeds ${feeds.join(', ')}` : ''}`;
    });
}

/** The flows that one may go on from, or ask about. */
function flowsBefore(flow: number, { flows, circles }: Names): Names['flows'] {
    return circles ? flows : flows.slice(0, flow);
}

/** The elements of a chain: parts, sources, flows that come before, test points, and brackets within brackets. */
function writeChain(flow: number, names: Names, random: Random, depth: number): string[] {
    const { chance, pick, times } = random;
    const sources = [
        ...names.supplies.map(({ name }) => name),
        ...names.hazards,
        ...flowsBefore(flow, names).map(({ name }) => name),
    ];
    const points = names.tests.filter(({ option }) => option === undefined);
    const first = depth === 2 && sources.length > 0 && chance(0.5) ? [pick(sources)] : [];
    const rest = times(1, depth === 2 ? 5 : 2, () => {
        if (chance(0.4)) {
            const tests = [pick(points).name, ...(chance(0.2) ? [pick(points).name] : [])];
            return `[${[...new Set(tests)].join(', ')}]${guarded(names, random, 0.1)}`;
        }
        if (depth > 0 && chance(0.25)) {
            const chains = times(1, 3, () => writeChain(flow, names, random, depth - 1).join(' -> '));
            return `(${chains.join(` ${pick(['or', 'with', 'and'])} `)})${guarded(names, random, 0.15)}`;
        }
        const member = chance(0.12) && sources.length > 0 ? pick(sources) : pick(names.parts).name;
        return `${member}${stated('when', names, random, 0.15, flowsBefore(flow, names).length)}${guarded(names, random, 0.15)}`;
    });
    return [...first, ...rest];
}

function writeTests(names: Names, random: Random): string[] {
    return names.tests
        .filter(({ name }) => !name.includes('.'))
        .flatMap(test => writeTest(test, names, random, names.faults));
}

function writeTest(test: NamedTest, names: Names, random: Random, faults: readonly string[]): string[] {
    const { chance, pick, some, times } = random;
    const isOfKind = test.name.startsWith('k');
    if (test.option !== undefined) {
        return [`test ${test.name} "Plate"${guarded(names, random)} {`, `identify ${test.option} by eye`, '}'];
    }
    const zone = names.zones.length > 0 && chance(0.3) ? ` in ${pick(names.zones)}` : '';
    const measured = names.tests.filter(one => one.measured && !one.name.includes('.') && one.name < test.name);
    const derived = test.measured && measured.length > 0 && chance(0.4) && !isOfKind;
    const ends = [...names.parts, ...names.supplies]
        .map(({ name }) => name)
        .concat(names.flows.flatMap(({ labels }) => labels));
    const needs = chance(0.35)
        ? [state(names, random), ...(chance(0.3) ? [state(names, random)] : [])].filter(one => one !== undefined)
        : [];
    return [
        `test ${test.name} "Test"${zone}${chance(0.2) && !isOfKind ? ` at ${pick(names.parts).name}` : ''}${guarded(names, random, 0.12)} {`,
        derived
            ? `calculate voltage from ${measured
                  .map(({ name }) => name)
                  .slice(0, 2)
                  .join(' - ')}`
            : test.measured
              ? 'measure voltage DC'
              : 'observe by eye',
        ...(chance(0.5) ? [`takes ${pick([1, 2, 6])} min${guarded(names, random, 0.2)}`] : []),
        ...(needs.length > 0 ? [`needs ${needs.join(', ')}${guarded(names, random)}`] : []),
        ...(chance(0.15) ? [`needs isolated${guarded(names, random)}`] : []),
        ...(chance(0.4)
            ? some(faults, 0.4).map(fault => {
                  return `checks ${fault}${chance(0.6) ? ` as ${pick(test.outcomes)}` : ''}${guarded(names, random)}`;
              })
            : []),
        ...(chance(0.12) ? [`across ${pick(ends)} to ${pick(ends)}${guarded(names, random, 0.4)}`] : []),
        ...(chance(0.12) ? times(1, 2, () => `through ${pick(names.flows).name}${guarded(names, random, 0.4)}`) : []),
        ...(test.remembers ? ['remembers until cleared'] : []),
        ...outcomesOf(test).flatMap(outcome => writeEntries(outcome, test, names, random)),
        '}',
    ];
}

function writeEntries(outcome: string, { measured }: NamedTest, names: Names, random: Random): string[] {
    const { chance, pick, some, times } = random;
    const bands: Readonly<Record<string, string>> = {
        normal: '20 V .. 28 V',
        low: '2 V .. < 20 V',
        high: '> 28 V',
        absent: '< 2 V',
    };
    const written = measured ? bands[outcome] : outcome === 'normal' ? 'yes' : `"${outcome}"`;
    const effects = ['stopped', 'weakened', 'raised', 'loaded', 'shorted'];
    const twice = chance(0.2);
    return times(1, twice ? 2 : 1, () => {
        const shown = outcome === 'normal' || chance(0.35) ? [] : some(effects, 0.35);
        const shows = shown.length > 0 ? ` shows ${shown.join(', ')}` : '';
        const when = stated('when', names, random, twice ? 0.6 : 0.15);
        return `${outcome} ${written}${pick([`${shows}${when}`, `${when}${shows}`])}${guarded(names, random)}`;
    });
}

function writeGates(names: Names, random: Random): string[] {
    const { chance, some } = random;
    const sets = () => writeSettings(names, random, 0.6);
    return names.gates.flatMap(name => [
        `gate ${name} "Gate"${guarded(names, random)} {`,
        ...some(names.hazards, 0.6).map(hazard => `controls ${hazard}${guarded(names, random)}`),
        `shut-down "Do."${sets()}${chance(0.3) ? ' takes 1 min' : ''}${guarded(names, random)}`,
        ...(chance(0.3) ? [`isolate "Do."${sets()}`] : []),
        ...(chance(0.5) ? [`restore "Do."${sets()}${guarded(names, random)}`] : []),
        '}',
    ]);
}
