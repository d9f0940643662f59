/** The names of a small world made at random, and what is written in terms of them everywhere: guards, states, settings. */
import type { Random } from './random.js';

/** What is declared, by name; everything else is written in terms of it. */
export interface Names {
    readonly options: readonly { readonly name: string; readonly choices: readonly string[] }[];
    readonly hazards: readonly string[];
    readonly zones: readonly string[];
    readonly conditions: readonly { readonly name: string; readonly values: readonly string[] }[];
    /** Supplies, with the hazard that each carries. */
    readonly supplies: readonly { readonly name: string; readonly carries: string | undefined }[];
    readonly parts: readonly { readonly name: string; readonly kind: string | undefined }[];
    readonly kinds: readonly { readonly name: string; readonly faults: number; readonly test: NamedTest | undefined }[];
    /** Every fault as `part.fault`. */
    readonly faults: readonly string[];
    /** Faults that another one causes, by the name of that one. */
    readonly caused: ReadonlyMap<string, string>;
    /** Flows, with the labels of their places. */
    readonly flows: readonly { readonly name: string; readonly labels: readonly string[] }[];
    /** Flows may feed or continue each other in a circle. */
    readonly circles: boolean;
    /** The equipment's own tests, then those that parts have from their kind. */
    readonly tests: readonly NamedTest[];
    readonly gates: readonly string[];
}

/** A test with its abnormal outcomes, or with the choices that it asks for. */
export interface NamedTest {
    readonly name: string;
    readonly outcomes: readonly string[];
    readonly remembers: boolean;
    readonly measured: boolean;
    readonly option: string | undefined;
    /** A test that says nothing of healthy units is wrong, and still it is asked. */
    readonly normal: boolean;
}

/** All outcomes of a test. */
export function outcomesOf({ normal, outcomes }: NamedTest): readonly string[] {
    return normal ? ['normal', ...outcomes] : outcomes;
}

/** Names of everything that a random world declares. */
export function planNames(random: Random): Names {
    const { between, chance, pick, some, times } = random;
    const options = times(0, pick([1, 1, 2, 2, 3]), index => ({
        name: `o${index}`,
        choices: times(1, chance(0.2) ? 3 : 2, choice => `${['a', 'b', 'c'][choice]}${index}`),
    }));
    const hazards = times(0, 2, index => `h${index}`);
    const kinds = times(0, 1, index => ({
        name: `k${index}`,
        faults: between(1, 2),
        test: chance(0.6) ? { ...planTest(`kt${index}`, random), measured: false } : undefined,
    }));
    const parts = times(2, 5, index => {
        return { name: `p${index}`, kind: kinds.length > 0 && chance(0.4) ? pick(kinds).name : undefined };
    });
    const supplies = times(0, 1, index => {
        return { name: `s${index}`, carries: hazards.length > 0 && chance(0.7) ? pick(hazards) : undefined };
    });
    const faults = [
        ...parts.flatMap(({ name, kind }) => {
            const count = kinds.find(one => one.name === kind)?.faults ?? (chance(0.7) ? 1 : between(0, 2));
            return Array.from({ length: count }, (_, index) => `${name}.f${index}`);
        }),
        ...supplies.filter(() => chance(0.6)).map(({ name }) => `${name}.f0`),
    ];
    const tests: NamedTest[] = times(2, 4, index => planTest(`t${index}`, random));
    if (options.length > 0 && chance(0.25)) {
        const { name, choices } = pick(options);
        tests.push({
            name: 'plate',
            outcomes: choices,
            remembers: false,
            measured: false,
            option: name,
            normal: false,
        });
    }
    for (const part of parts) {
        const test = kinds.find(({ name }) => name === part.kind)?.test;
        if (test) tests.push({ ...test, name: `${part.name}.${test.name}` });
    }
    const all = faults.length > 0 ? faults : ['p0.f0'];
    return {
        options,
        hazards,
        zones: hazards.length > 0 ? times(0, 1, index => `z${index}`) : [],
        conditions: times(0, 3, index => ({
            name: `c${index}`,
            values: ['off', 'on', 'bridged'].slice(0, between(1, 3)),
        })),
        supplies,
        parts,
        kinds,
        faults: all,
        caused: new Map(
            chance(0.5) && all.length > 1
                ? some(all, 0.4).map(fault => [fault, pick(all.filter(other => other !== fault))])
                : [],
        ),
        flows: times(1, 4, index => ({ name: `f${index}`, labels: chance(0.4) ? [`l${index}`] : [] })),
        circles: chance(0.12),
        tests,
        gates: times(0, 2, index => `g${index}`),
    };
}

function planTest(name: string, { between, chance, some }: Random): NamedTest {
    const outcomes = ['low', 'high', 'absent'];
    const few = some(outcomes, chance(0.5) ? 0.3 : 0.6);
    return {
        name,
        outcomes: few.length > 0 ? few : [outcomes[between(0, 2)] ?? 'low'],
        remembers: chance(0.12),
        measured: chance(0.4),
        option: undefined,
        normal: chance(0.96),
    };
}

/** ` for GUARD`, or nothing. The guard is one choice or stands in brackets, so that it can stand anywhere. */
export function guarded({ options }: Names, random: Random, of = 0.15): string {
    const choices = options.flatMap(option => option.choices);
    if (choices.length === 0 || !random.chance(of)) return '';
    return ` for ${guard(choices, random)}`;
}

/** One choice, or a pair of them in brackets. */
export function guard(choices: readonly string[], { chance, pick }: Random): string {
    const one = chance(0.25) ? `not ${pick(choices)}` : pick(choices);
    return chance(0.2) ? `(${one} ${pick(['and', 'or'])} ${chance(0.3) ? 'not ' : ''}${pick(choices)})` : one;
}

/** A state as ` when STATE` or another word before it, or nothing. Only so many flows may stand in it. */
export function stated(word: string, names: Names, random: Random, of: number, flows = names.flows.length): string {
    return random.chance(of) ? withWord(word, state(names, random, flows)) : '';
}

function withWord(word: string, written: string | undefined): string {
    return written === undefined ? '' : ` ${word} ${written}`;
}

/** A state, in brackets where it is not one pair of words; undefined where there is nothing that could hold. */
export function state(names: Names, random: Random, flows = names.flows.length): string | undefined {
    const { chance, pick } = random;
    const values = names.conditions.flatMap(({ name, values }) => values.map(value => `${name} ${value}`));
    const others = [
        ...[...names.hazards, ...names.supplies.filter(({ carries }) => carries).map(({ name }) => name)].map(
            name => `${name} isolated`,
        ),
        ...names.flows.slice(0, flows).map(({ name }) => `${name} ${pick(['flowing', 'flowing', 'isolated'])}`),
    ];
    const atoms = [...values, ...values, ...values, ...others];
    if (atoms.length === 0) return undefined;
    const one = `${chance(0.2) ? 'not ' : ''}${pick(atoms)}`;
    return chance(0.2) ? `(${one} ${pick(['and', 'or'])} ${chance(0.2) ? 'not ' : ''}${pick(atoms)})` : one;
}

/** ` sets CONDITION VALUE`, perhaps several, or nothing. */
export function writeSettings({ conditions }: Names, { chance, pick, times }: Random, of: number): string {
    if (conditions.length === 0 || !chance(of)) return '';
    const settings = times(1, 2, () => {
        const { name, values } = pick(conditions);
        return `${name} ${pick(values)}`;
    });
    return ` sets ${settings.join(' and ')}`;
}
