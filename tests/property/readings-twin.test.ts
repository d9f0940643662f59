/**
 * Gaps and overlaps of bands, and outcomes for which nothing is left, agree with reading every value in every build and state:
 * what each outcome takes is said here a second time, in plain words, and asked value by value.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import Fraction from 'fraction.js';
import { contains, type Interval } from '../../language/src/core/quantities/intervals.js';
import { outcomesWithNothingLeft } from '../../language/src/core/readings/beyond-range.js';
import { gapsOf } from '../../language/src/core/readings/gaps.js';
import { overlappingBands, restPairs } from '../../language/src/core/readings/overlaps.js';
import { type Reading, readingsOf } from '../../language/src/core/readings/reading.js';
import type { Witness } from '../../language/src/core/readings/search.js';
import { onlyFile } from '../support/check.js';
import { readTexts } from '../support/read-texts.js';
import {
    type Build,
    choicesOf,
    enumerateBuilds,
    type Guard,
    guardOver,
    holds,
    type SmallBuilds,
    smallBuilds,
    writeEquipment,
    writeFor,
} from '../support/small-builds.js';
import { runs } from './runs.js';

/** In halves of a volt. */
type Band =
    | { readonly sort: 'limit'; readonly sign: '<' | '<=' | '>' | '>='; readonly value: number }
    | { readonly sort: 'range'; readonly from: number; readonly to: number; readonly open: readonly [boolean, boolean] }
    | { readonly sort: 'around'; readonly middle: number; readonly width: number }
    | { readonly sort: 'otherwise' };

interface SmallOutcome {
    readonly name: string;
    readonly bands: readonly Band[];
    readonly guard: Guard | undefined;
    /** States are written as guards, over the values of the conditions. */
    readonly when: Guard | undefined;
}

interface SmallTest {
    readonly builds: SmallBuilds;
    readonly conditions: readonly { readonly name: string; readonly guard: Guard | undefined }[];
    readonly test: Guard | undefined;
    readonly measured: Guard | undefined;
    readonly needs: Guard | undefined;
    readonly outcomes: readonly SmallOutcome[];
    readonly range: 'steps' | 'fine' | 'none' | 'never below zero';
}

const conditionNames = ['lid', 'mode'] as const;
const values = ['one', 'two', 'three'];
const stateNames = conditionNames.flatMap(name => values.map(value => `${name} ${value}`));

const half = fc.integer({ min: -8, max: 8 });
const band: fc.Arbitrary<Band> = fc.oneof(
    fc.record({ sort: fc.constant('limit'), sign: fc.constantFrom('<', '<=', '>', '>='), value: half } as const),
    fc
        .tuple(half, fc.integer({ min: 1, max: 8 }), fc.boolean(), fc.boolean())
        .map(([from, width, low, high]): Band => ({ sort: 'range', from, to: from + width, open: [low, high] })),
    fc.record({ sort: fc.constant('around'), middle: half, width: fc.integer({ min: 0, max: 4 }) } as const),
    fc.constant({ sort: 'otherwise' } as const),
);

const smallTest: fc.Arbitrary<SmallTest> = smallBuilds.chain(builds => {
    const guard = fc.option(guardOver(choicesOf(builds)), { nil: undefined, freq: 2 });
    const when = fc.option(guardOver(stateNames), { nil: undefined, freq: 2 });
    const outcome = (name: fc.Arbitrary<string>) =>
        fc.record({ name, bands: fc.array(band, { minLength: 1, maxLength: 2 }), guard, when });
    return fc.record({
        builds: fc.constant(builds),
        conditions: fc.tuple(...conditionNames.map(name => guard.map(one => ({ name, guard: one })))),
        test: guard,
        measured: guard,
        needs: when,
        outcomes: fc
            .tuple(
                fc.array(outcome(fc.constant('normal')), { minLength: 1, maxLength: 2 }),
                fc.array(outcome(fc.constantFrom('low', 'high', 'absent', 'wrong')), { maxLength: 4 }),
            )
            .map(([normal, others]) => [...normal, ...others]),
        range: fc.constantFrom('steps', 'fine', 'none', 'never below zero'),
    });
});

function volts(halves: number): string {
    return `${halves / 2}`;
}

function writeBand(one: Band, unit: string): string {
    switch (one.sort) {
        case 'limit':
            return `${one.sign} ${volts(one.value)} ${unit}`;
        case 'range': {
            const [low, high] = one.open;
            return `${low ? '> ' : ''}${volts(one.from)} ${unit} .. ${high ? '< ' : ''}${volts(one.to)} ${unit}`;
        }
        case 'around':
            return `${volts(one.middle)} ${unit} ± ${volts(one.width)} ${unit}`;
        case 'otherwise':
            return 'otherwise';
    }
}

/** A state as the language writes it. */
function writeState(state: Guard): string {
    if ('is' in state) return state.is;
    if ('not' in state) return `not ${writeState(state.not)}`;
    const [operands, word] = 'all' in state ? [state.all, ' and '] : [state.any, ' or '];
    return `(${operands.map(writeState).join(word)})`;
}

function write({ builds, conditions, test: guard, measured, needs, outcomes, range }: SmallTest): string {
    const unit = range === 'never below zero' ? 'Ω' : 'V';
    const ends = range === 'steps' ? '-5 V .. 5 V resolution 0.5 V' : '-5 V .. 5 V';
    const quantity = range === 'never below zero' ? 'resistance' : 'voltage DC';
    const instrument = range === 'steps' || range === 'fine' ? ' with meter' : '';
    return [
        `instrument meter { measures voltage DC ${ends} }`,
        writeEquipment(builds, [
            ...conditions.map(one => `condition ${one.name}${writeFor(one.guard)} { ${values.join(' ')} }`),
            `test t${writeFor(guard)} {`,
            `  measure ${quantity}${instrument}${writeFor(measured)}`,
            ...(needs ? [`  needs ${writeState(needs)}`] : []),
            ...outcomes.map(outcome => {
                const bands = outcome.bands.map(one => writeBand(one, unit)).join(' or ');
                const when = outcome.when ? ` when ${writeState(outcome.when)}` : '';
                return `  ${outcome.name} ${bands}${when}${writeFor(outcome.guard)}`;
            }),
            '}',
        ]),
    ].join('\n');
}

function read(small: SmallTest): Reading {
    const { model } = readTexts({ [onlyFile]: write(small) });
    const file = model.files.get(onlyFile);
    const [reading] = file ? readingsOf(file, model) : [];
    if (!reading) throw new Error(`The test cannot be read:\n${write(small)}`);
    return reading;
}

/** A build, and the value of each condition, both as words. */
interface Case {
    readonly build: Build;
    readonly state: Build;
}

/** Every build and state in which the test is asked and says what a healthy unit shows. */
function casesOf({ builds, conditions, test: guard, measured, needs, outcomes }: SmallTest): Case[] {
    return enumerateBuilds(builds)
        .filter(build => holds(guard, build) && holds(measured, build))
        .flatMap(build => {
            let states: string[][] = [[]];
            for (const { name, guard: exists } of conditions) {
                // What the build has not got stays as it is found.
                const possible = holds(exists, build) ? values : values.slice(0, 1);
                states = states.flatMap(state => possible.map(value => [...state, `${name} ${value}`]));
            }
            return states.map(state => ({ build, state: new Set(state) }));
        })
        .filter(({ state }) => holds(needs, state))
        .filter(one => standing(outcomes, one).some(({ name }) => name === 'normal'));
}

function standing(outcomes: readonly SmallOutcome[], { build, state }: Case): SmallOutcome[] {
    return outcomes.filter(({ guard, when }) => holds(guard, build) && holds(when, state));
}

/** Values are counted in quarters of a volt here. */
function isWithin(one: Band, quarters: number): boolean {
    const value = quarters / 2;
    switch (one.sort) {
        case 'limit':
            if (one.sign === '<') return value < one.value;
            if (one.sign === '<=') return value <= one.value;
            return one.sign === '>' ? value > one.value : value >= one.value;
        case 'range': {
            const [low, high] = one.open;
            return (low ? value > one.from : value >= one.from) && (high ? value < one.to : value <= one.to);
        }
        case 'around':
            return Math.abs(value - one.middle) <= one.width;
        case 'otherwise':
            return false;
    }
}

/** Whether a value lies on one side of every value of a band. */
function isBeyond(one: Band, quarters: number, side: 'below' | 'above'): boolean {
    return everyQuarter.every(
        value => !isWithin(one, value) || (side === 'below' ? quarters < value : quarters > value),
    );
}

/** The outcomes that take a value: those with a band for it; else `low` or `high`; else whatever takes all the rest. */
function takers(small: SmallTest, one: Case, quarters: number): { names: Set<string>; byRest: boolean } {
    const here = standing(small.outcomes, one);
    const name = (outcome: SmallOutcome) => outcome.name;
    const banded = here.filter(({ bands }) => bands.some(each => isWithin(each, quarters)));
    if (banded.length > 0) return { names: new Set(banded.map(name)), byRest: false };
    const rest = here.filter(({ bands }) => bands.some(({ sort }) => sort === 'otherwise'));
    const normal = here
        .filter(outcome => outcome.name === 'normal')
        .flatMap(({ bands }) => bands.filter(({ sort }) => sort !== 'otherwise'));
    const sided = rest.filter(outcome => {
        const side = outcome.name === 'low' ? 'below' : outcome.name === 'high' ? 'above' : undefined;
        return side && normal.length > 0 && normal.every(each => isBeyond(each, quarters, side));
    });
    const all = rest.filter(outcome => outcome.name !== 'low' && outcome.name !== 'high');
    return { names: new Set((sided.length > 0 ? sided : all).map(name)), byRest: true };
}

/** The values to try: all that is between two ends, and beyond the last, has one of them. */
function sampled(range: SmallTest['range']): readonly number[] {
    const all = everyQuarter;
    if (range === 'none') return all;
    if (range === 'never below zero') return all.filter(value => value >= 0);
    const within = all.filter(value => Math.abs(value) <= 20);
    return range === 'steps' ? within.filter(value => value % 2 === 0) : within;
}

const everyQuarter: readonly number[] = Array.from({ length: 97 }, (_, index) => index - 48);

function asFraction(quarters: number): Fraction {
    return new Fraction(quarters).div(4n);
}

function samplesIn(intervals: readonly Interval[], range: SmallTest['range']): number[] {
    return sampled(range).filter(value => intervals.some(interval => contains(interval, asFraction(value))));
}

function caseOf({ choices }: Witness): Case {
    const words = [...choices].flatMap(([option, choice]) =>
        choice === 'absent' ? [] : [{ option: option.name.text, choice: choice.name.text }],
    );
    const isState = (option: string) => conditionNames.some(name => name === option);
    const state = words.filter(({ option }) => isState(option)).map(({ option, choice }) => `${option} ${choice}`);
    return {
        build: new Set(words.filter(({ option }) => !isState(option)).map(({ choice }) => choice)),
        // A condition that nothing asks about is not in the witness; any value does.
        state: new Set(state),
    };
}

describe('the bands of a test', () => {
    test('leave out exactly what no outcome takes in some build and state', () => {
        let withGap = 0;
        fc.assert(
            fc.property(smallTest, small => {
                const cases = casesOf(small);
                const gaps = gapsOf(read(small));
                const told = samplesIn(
                    gaps.flatMap(({ stretches }) => stretches.map(({ interval }) => interval)),
                    small.range,
                );
                const plain = sampled(small.range).filter(value =>
                    cases.some(one => takers(small, one, value).names.size === 0),
                );
                expect(told).toEqual(plain);
                withGap += Math.min(plain.length, 1);
                for (const { witness, stretches } of gaps) {
                    const shown = samplesIn(
                        stretches.map(({ interval }) => interval),
                        small.range,
                    );
                    expect(shown.map(value => takers(small, caseOf(witness), value).names.size)).toEqual(
                        shown.map(() => 0),
                    );
                }
            }),
            runs(200),
        );
        expect(withGap).toBeGreaterThan(25);
        expect(withGap).toBeLessThan(200);
    });

    test('overlap exactly where two outcomes take one reading in some build and state', () => {
        let withOverlap = 0;
        fc.assert(
            fc.property(smallTest, small => {
                const cases = casesOf(small);
                const reading = read(small);
                const told = overlappingBands(reading).map(({ first, second, shared }) => ({
                    pair: [first.entry.name, second.entry.name].sort().join(' '),
                    shared,
                }));
                const doubles = (byRest: boolean) =>
                    sampled(small.range).flatMap(value =>
                        cases.flatMap(one => {
                            const found = takers(small, one, value);
                            return found.byRest === byRest ? pairsOf(found.names).map(pair => ({ value, pair })) : [];
                        }),
                    );
                const byBand = new Set(doubles(false).map(({ value, pair }) => `${value} ${pair}`));
                const toldAt = new Set(
                    told.flatMap(({ pair, shared }) =>
                        samplesIn([shared], small.range).map(value => `${value} ${pair}`),
                    ),
                );
                expect([...toldAt].sort()).toEqual([...byBand].sort());
                withOverlap += Math.min(byBand.size, 1);
                const rest = restPairs(reading).map(({ first, second }) =>
                    [first.entry.name, second.entry.name].sort(),
                );
                const byRest = new Set(doubles(true).map(({ pair }) => pair));
                expect([...new Set(rest.map(names => names.join(' ')))].sort()).toEqual([...byRest].sort());
            }),
            runs(200),
        );
        expect(withOverlap).toBeGreaterThan(25);
    });

    test('leave nothing for an outcome exactly where it takes no reading in any state of some build', () => {
        let withNothing = 0;
        fc.assert(
            fc.property(smallTest, small => {
                const told = outcomesWithNothingLeft(read(small)).map(({ entry }) => entry.name);
                const isRest = (name: string) =>
                    small.outcomes.some(one => one.name === name && one.bands.some(({ sort }) => sort === 'otherwise'));
                const names = [...new Set(small.outcomes.map(({ name }) => name))].filter(isRest);
                const hasInstrument = small.range === 'steps' || small.range === 'fine';
                // Above the last reading an instrument shows that it is over range.
                const values = [...sampled(small.range), ...(hasInstrument ? [21] : [])];
                const cases = casesOf(small);
                const plain = names.filter(name =>
                    [...groupedByBuild(cases)].some(([, states]) => {
                        const having = states.filter(one =>
                            standing(small.outcomes, one).some(each => each.name === name),
                        );
                        return (
                            having.length > 0 &&
                            !having.some(one => values.some(value => takers(small, one, value).names.has(name)))
                        );
                    }),
                );
                expect(told.sort()).toEqual(plain.sort());
                withNothing += Math.min(plain.length, 1);
            }),
            runs(200),
        );
        expect(withNothing).toBeGreaterThan(5);
    });
});

function pairsOf(names: ReadonlySet<string>): string[] {
    const sorted = [...names].sort();
    return sorted.flatMap((one, index) => sorted.slice(index + 1).map(other => `${one} ${other}`));
}

function groupedByBuild(cases: readonly Case[]): Map<Build, Case[]> {
    const groups = new Map<Build, Case[]>();
    for (const one of cases) {
        const group = groups.get(one.build);
        if (group) group.push(one);
        else groups.set(one.build, [one]);
    }
    return groups;
}
