/** Trees and procedures made at random through the equipment of a random world. */
import type { Random } from './random.js';
import { guarded, type NamedTest, type Names, outcomesOf, stated, writeSettings } from './random-names.js';

/** What a step may follow. */
export interface NamedProcedure {
    readonly name: string;
    /** `part`, `test`, or the name of a kind. */
    readonly about: string;
}

/** Where a tree or procedure is being written. */
interface Scene {
    readonly names: Names;
    readonly random: Random;
    readonly steps: readonly string[];
    /** Ends, or the results of a procedure. */
    readonly ends: readonly string[];
    readonly procedures: readonly NamedProcedure[];
    readonly trees: readonly string[];
    /** Tests that `it` names, and whether it is a part. */
    readonly itsTests: readonly NamedTest[];
    readonly itIsPart: boolean;
}

/** Procedures, each of which may follow those before it; now and then one wrongly follows itself. */
export function writeProcedures(names: Names, random: Random): { lines: string[]; procedures: NamedProcedure[] } {
    const { chance, pick, times } = random;
    const procedures: NamedProcedure[] = [];
    const lines: string[] = [];
    if (chance(0.5)) return { lines, procedures };
    for (const name of times(1, 2, index => `q${index}`)) {
        const about = pick(['part', 'test', ...names.kinds.map(kind => kind.name)]);
        const kind = names.kinds.find(one => one.name === about);
        const ofKind = kind?.test ? [{ ...kind.test, name: `it.${kind.test.name}` }] : [];
        const scene: Scene = {
            names,
            random,
            steps: times(chance(0.03) ? 0 : 1, 2, index => `u${index}`),
            ends: ['good', 'bad'],
            procedures: [...procedures, ...(chance(0.1) ? [{ name, about }] : [])],
            trees: [],
            itsTests: about === 'test' ? [{ ...testOfIt, name: 'it' }] : ofKind,
            itIsPart: about !== 'test',
        };
        lines.push(
            `procedure ${name} "Procedure" of m about ${about}${guarded(names, random, 0.2)} {`,
            ...scene.steps.flatMap(step => writeStep(step, scene)),
            'result good "Good"',
            'result bad "Bad"',
            ...(chance(0.2) ? [`cannot be done -> ${pick(scene.ends)}${guarded(names, random)}`] : []),
            '}',
        );
        procedures.push({ name, about });
    }
    return { lines, procedures };
}

/** A test of which only `normal` is known. */
const testOfIt: NamedTest = {
    name: 'it',
    outcomes: [],
    remembers: false,
    measured: false,
    option: undefined,
    normal: true,
};

/** One tree or two, of which one may go on with the other. */
export function writeTrees(names: Names, procedures: readonly NamedProcedure[], random: Random): string[] {
    const { chance, pick, times } = random;
    const trees = times(1, chance(0.35) ? 2 : 1, index => `tree${index}`);
    return trees.flatMap((tree, index) => {
        const conclusions = times(1, 3, end => `e${end}`);
        const scene: Scene = {
            names,
            random,
            steps: times(1, 8, step => `x${step}`),
            ends: [...conclusions, 'r0', ...(chance(0.5) ? ['r1'] : [])],
            procedures,
            trees: trees.filter((_, other) => other !== index && (other > index || chance(0.3))),
            itsTests: [],
            itIsPart: false,
        };
        return [
            `tree ${tree} "Tree" of m${guarded(names, random, index === 0 ? 0.1 : 0.35)} {`,
            ...times(1, 3, () => writeComplaint(names, random)),
            ...scene.steps.flatMap(step => writeStep(step, scene)),
            ...(chance(0.3)
                ? [`cannot be done -> ${pick([...scene.ends, ...scene.steps])}${guarded(names, random)}`]
                : []),
            ...(chance(0.5) ? [`disagree -> ${pick([...scene.ends, ...scene.steps])}${guarded(names, random)}`] : []),
            ...scene.ends.map(end => writeEnd(end, names, random)),
            '}',
        ];
    });
}

function writeComplaint(names: Names, random: Random): string {
    const { name, outcomes } = random.pick(names.tests.filter(({ option }) => option === undefined));
    const shown = random.some(outcomes, 0.8);
    const listed = shown.length > 0 ? shown.join(', ') : outcomes[0];
    return `complaint ${name} ${listed}${stated('when', names, random, 0.3)}${guarded(names, random, 0.1)}`;
}

function writeEnd(name: string, names: Names, random: Random): string {
    const { chance, pick, some } = random;
    const isReferral = name.startsWith('r');
    const named = some(names.faults, isReferral ? 0.15 : 0.4).map(fault => {
        return `${chance(0.15) ? fault.split('.')[0] : fault}${guarded(names, random, 0.1)}`;
    });
    const faults = named.length > 0 || isReferral ? named : [pick(names.faults)];
    const heading = isReferral ? `refer ${name} "End" because "it ends"` : `conclude ${name} "End"`;
    return `${heading}${guarded(names, random, 0.08)} { ${faults.join(', ')} }`;
}

function writeStep(name: string, scene: Scene): string[] {
    const { names, random, steps } = scene;
    const { chance, pick, times } = random;
    const before = chance(0.45) ? times(1, 2, () => writeAct(scene)) : [];
    const caused = [...names.caused.values()];
    // The effect of a fault is put right early, while the cause is still there.
    if (caused.length > 0 && name === steps[0] && chance(0.6)) before.push(`do "Act." clears ${pick(caused)}`);
    const leaving = times(1, chance(0.15) ? 2 : 1, index => index);
    const lines = leaving.flatMap(index => {
        const guard = guarded(names, random, leaving.length > 1 && index === 0 ? 1 : 0.06);
        const kind = pick(['ask', 'ask', 'ask', 'ask', 'confirm', 'go', 'follow', 'continue']);
        if (kind === 'follow' && scene.procedures.length > 0) return writeFollow(guard, scene);
        if (kind === 'continue' && scene.trees.length > 0) return [`continue with ${pick(scene.trees)}${guard}`];
        if (kind === 'go') return [`go ${target(name, scene)}${guard}`];
        return writeQuestion(name, kind === 'confirm' ? 'confirm' : 'test', guard, scene);
    });
    return [`step ${name} "Step"${guarded(names, random, 0.08)} {`, ...before, ...lines, '}'];
}

/** Mostly a later step or an end, sometimes an earlier step. */
function target(from: string, { steps, ends, random }: Scene): string {
    const { chance, pick } = random;
    const later = steps.slice(steps.indexOf(from) + 1);
    if (chance(0.12)) return pick(steps);
    return later.length > 0 && chance(0.7) ? pick(later.slice(0, 3)) : pick(ends);
}

function writeAct(scene: Scene): string {
    const { names, random } = scene;
    const { chance, pick } = random;
    const { hazards, gates } = names;
    if (chance(0.25)) return writeRead(scene);
    if (gates.length > 0 && chance(0.3)) {
        return `${pick(['gate', 'restore'])} ${pick(gates)}${guarded(names, random, 0.1)}`;
    }
    if (chance(0.15)) {
        const until = hazards.length > 0 && chance(0.7) ? ` until ${pick(hazards)} safe` : '';
        return `wait ${pick([1, 3, 10])} min${until} "Wait."${guarded(names, random, 0.1)}`;
    }
    const parts = [...names.parts.map(({ name }) => name), ...(scene.itIsPart ? ['it', 'it', 'it'] : [])];
    const caused = [...names.caused.values()];
    const cleared = [
        ...[...caused, ...caused, ...caused, ...caused],
        ...names.faults,
        ...parts,
        ...names.tests.filter(({ remembers, name }) => remembers && !name.includes('.')).map(({ name }) => name),
    ];
    const clauses = [
        writeSettings(names, random, 0.5),
        chance(0.5) ? ` clears ${pick(cleared)}` : '',
        chance(0.2) ? ` replaces ${pick(parts)}` : '',
        chance(0.15) ? ` using ${pick(parts)}` : '',
        chance(0.1) ? ` at ${pick(parts)}` : '',
        names.zones.length > 0 && chance(0.1) ? ` in ${pick(names.zones)}` : '',
        chance(0.5) ? ` takes ${pick([1, 3, 6])} min` : '',
        chance(0.15) ? ` cannot be done -> ${pick([...scene.ends, ...scene.steps])}` : '',
    ];
    return `do "Act."${clauses.join('')}${guarded(names, random, 0.1)}`;
}

/** Readings that are noted, mostly of those tests that others may be worked out from. */
function writeRead({ names, random, itsTests }: Scene): string {
    const { chance, pick, times } = random;
    const measured = names.tests.filter(one => one.measured && !one.name.includes('.'));
    const tests = [...names.tests, ...measured, ...measured, ...measured, ...itsTests];
    const read = times(1, 3, () => pick(tests).name);
    return `read ${read.join(', ')}${chance(0.1) ? guarded(names, random, 1) : ''}`;
}

function writeQuestion(step: string, word: 'test' | 'confirm', guard: string, scene: Scene): string[] {
    const { names, random } = scene;
    const { chance, pick, some } = random;
    const test = pick([
        ...names.tests,
        ...names.tests.filter(({ name }) => !name.includes('.')),
        ...scene.itsTests,
        ...scene.itsTests,
    ]);
    const outcomes = outcomesOf(test);
    const to = () => target(step, scene);
    if (word === 'confirm' && chance(0.6)) {
        const expected = some(outcomes, 0.5);
        return [`confirm ${test.name} ${expected.length > 0 ? expected.join(', ') : outcomes[0]} -> ${to()}${guard}`];
    }
    const branches = some(outcomes, 0.9).map(outcome => `${outcome} -> ${to()}${guarded(names, random, 0.08)}`);
    if (chance(0.25) || test.name === 'it' || branches.length === 0) {
        branches.push(`otherwise -> ${to()}${guarded(names, random, 0.08)}`);
    }
    if (chance(0.1)) branches.push(`cannot be read -> ${to()}`);
    return [`${word} ${test.name}${guard} {`, ...branches, '}'];
}

function writeFollow(guard: string, scene: Scene): string[] {
    const { names, random, steps } = scene;
    const { chance, pick, some } = random;
    const { name, about } = pick(scene.procedures);
    const ofKind = names.parts.filter(({ kind }) => kind === about).map(part => part.name);
    const parts = about === 'part' ? names.parts.map(part => part.name) : ofKind;
    const subjects =
        about === 'test' ? names.tests.filter(({ option }) => option === undefined).map(test => test.name) : parts;
    const subject = subjects.length > 0 ? ` with ${pick(subjects)}` : '';
    const branches = some(['good', 'bad'], 0.9).map(result => {
        return `${result} -> ${target(steps[0] ?? '', scene)}${guarded(names, random, 0.08)}`;
    });
    if (chance(0.2)) branches.push(`otherwise -> ${target(steps[0] ?? '', scene)}`);
    return [`follow ${name}${subject}${guard} {`, ...branches, '}'];
}
