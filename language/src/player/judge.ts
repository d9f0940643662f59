// Which outcome takes a reading.

import type { AroundTable, Band, Calculate, Interval, Measure, Outcome, OutcomeCase, Test } from '../document/types.js';
import { lookUp } from './laws.js';
import { absolute, add, compare, multiply, type Rational, subtract } from './rational.js';
import { holdsIn, type Surroundings } from './state.js';
import { type Coherent, coherentQuantity, toCoherent } from './units.js';

/** A reading that has been judged. */
export type Judged =
    | { readonly outcome: string; readonly value: Rational; readonly problem?: undefined }
    /** Where it is a reading all the same, with its value. */
    | { readonly problem: string; readonly value?: Rational; readonly outcome?: undefined };

/** What a reading is judged in. */
export interface Judging extends Surroundings {
    readonly test: Test;
    /** The test that a name means where `it` stands for something. */
    readonly meant: (test: string) => string;
}

/** The method by which the test gives a number in this build; undefined where it gives none. */
export function methodWithNumber({ test, builds }: Pick<Judging, 'test' | 'builds'>): Measure | Calculate | undefined {
    for (const method of test.methods) {
        if (method.type === 'calculate') return method;
        if (method.type === 'measure' && builds.holds(method.guard)) return method;
    }
    return undefined;
}

/** Judges a number with its unit. */
export function judgeReading(number: number, unit: string, judging: Judging): Judged {
    const method = methodWithNumber(judging);
    if (!method) return { problem: 'This test is answered with what is seen, not with a number.' };
    if (!Number.isFinite(number)) return { problem: 'The reading is not a number.' };
    const reading = toCoherent(number, unit, isDifference(method), judging.tree);
    const expected = dimensionsOf(judging.test, method, judging);
    if (expected.size > 0 && !expected.has(reading.dimension)) {
        return { problem: `A reading in \`${unit}\` cannot be compared with the limits of this test.` };
    }
    return judge(reading.value, judging);
}

/** Whether the reading of a method is a difference of two values. */
export function isDifference({ modes }: Measure | Calculate): boolean {
    return modes?.includes('difference') ?? false;
}

/** What the intervals of a test are measured in. */
function dimensionsOf(test: Test, method: Measure | Calculate, { tree }: Judging): ReadonlySet<string> {
    const units = test.outcomes
        .flatMap(({ cases }) => cases.flatMap(({ bands }) => bands ?? []))
        .flatMap(band => ('unit' in band ? band.unit : []));
    return new Set(units.map(unit => toCoherent(0, unit, isDifference(method), tree).dimension));
}

/** An outcome in one of its cases that is for the build. */
interface Entry {
    readonly outcome: Outcome;
    readonly one: OutcomeCase;
    /** Whether its state holds; undefined where that is not known. */
    readonly holds: true | undefined;
}

/** Judges a value in units of the SI. */
export function judge(value: Rational, judging: Judging): Judged {
    const entries = entriesOf(judging);
    const sure = takersAmong(
        entries.filter(({ holds }) => holds),
        value,
        judging,
    );
    const outcomes = sure.size === 1 ? sure : takersAmong(entries, value, judging);
    const [outcome, other] = outcomes;
    if (outcome === undefined) {
        return { value, problem: `No outcome takes this reading; say which one fits. ${listOf(entries)}` };
    }
    if (other !== undefined) {
        return {
            value,
            problem: `Several outcomes take this reading; say which one fits: ${[...outcomes].join(', ')}.`,
        };
    }
    return { outcome, value };
}

function listOf(entries: readonly Entry[]): string {
    return `They are: ${[...new Set(entries.map(({ outcome }) => outcome.id))].join(', ')}.`;
}

function entriesOf({ test, builds, ...rest }: Judging): readonly Entry[] {
    return test.outcomes.flatMap(outcome =>
        outcome.cases.flatMap((one): Entry[] => {
            if (!builds.holds(one.guard)) return [];
            const holds = one.when === undefined ? true : holdsIn(one.when, { ...rest, builds });
            return holds === false ? [] : [{ outcome, one, holds }];
        }),
    );
}

/** The outcomes that take a value: by a band of their own, else beside what a healthy unit reads, else as what is left. */
function takersAmong(entries: readonly Entry[], value: Rational, judging: Judging): ReadonlySet<string> {
    const withIntervals = entries.map(entry => ({ entry, intervals: intervalsOf(entry, judging) }));
    const banded = withIntervals.filter(({ intervals }) => intervals.some(interval => contains(interval, value)));
    if (banded.length > 0) return idsOf(banded.map(({ entry }) => entry));
    const normal = withIntervals.filter(({ entry }) => entry.outcome.healthy && bandsOf(entry).some(isNoRest));
    const isBeside = (side: 'below' | 'above'): boolean =>
        normal.length > 0 &&
        normal.every(
            ({ intervals }) => intervals.length > 0 && intervals.every(interval => liesBeside(value, interval, side)),
        );
    const sided = entries.filter(entry =>
        bandsOf(entry).some(
            band =>
                'otherwise' in band &&
                (band.otherwise === 'below' || band.otherwise === 'above') &&
                isBeside(band.otherwise),
        ),
    );
    if (sided.length > 0) return idsOf(sided);
    return idsOf(entries.filter(entry => bandsOf(entry).some(band => 'otherwise' in band && band.otherwise === 'any')));
}

function idsOf(entries: readonly Entry[]): ReadonlySet<string> {
    return new Set(entries.map(({ outcome }) => outcome.id));
}

function bandsOf({ one }: Entry): readonly Band[] {
    return one.bands ?? [];
}

function isNoRest(band: Band): boolean {
    return !('otherwise' in band);
}

interface End {
    readonly value: Rational;
    readonly closed: boolean;
}

/** Readings between two ends, in units of the SI. */
export interface Stretch {
    readonly low?: End;
    readonly high?: End;
}

function intervalsOf(entry: Entry, judging: Judging): readonly Stretch[] {
    const asDifference = isDifferenceIn(judging);
    return bandsOf(entry).flatMap(band => {
        if ('table' in band) return aroundTable(band, judging) ?? [];
        return 'unit' in band ? stretchOf(band, asDifference, judging) : [];
    });
}

function isDifferenceIn(judging: Judging): boolean {
    const method = methodWithNumber(judging);
    return method !== undefined && isDifference(method);
}

function stretchOf({ low, high, unit }: Interval, asDifference: boolean, { tree }: Judging): Stretch {
    const end = ({ value, closed }: { readonly value: number; readonly closed: boolean }): End => ({
        value: toCoherent(value, unit, asDifference, tree).value,
        closed,
    });
    return { ...(low ? { low: end(low) } : {}), ...(high ? { high: end(high) } : {}) };
}

/** The readings near what a table or a curve gives for a reading of before; undefined where it gives nothing. */
export function aroundTable(band: AroundTable, { tree, state, meant }: Judging): Stretch | undefined {
    const declared = tree.tables.get(band.table);
    const argument = state.readings.get(meant(band.input));
    const center = declared && argument && lookUp(declared, argument, band.backward ?? false, tree);
    if (!center) return undefined;
    const spread = band.tolerance ? spreadOf(coherentQuantity(band.tolerance, true, tree), center) : undefined;
    const low = spread ? subtract(center, spread) : center;
    return { low: { value: low, closed: true }, high: { value: spread ? add(center, spread) : center, closed: true } };
}

function spreadOf(tolerance: Coherent, center: Rational): Rational {
    return tolerance.dimension === 'ratio' ? absolute(multiply(center, tolerance.value)) : tolerance.value;
}

function contains({ low, high }: Stretch, value: Rational): boolean {
    return isAbove(value, low) && isBelow(value, high);
}

function isAbove(value: Rational, end: End | undefined): boolean {
    if (!end) return true;
    const order = compare(value, end.value);
    return order > 0 || (order === 0 && end.closed);
}

function isBelow(value: Rational, end: End | undefined): boolean {
    if (!end) return true;
    const order = compare(value, end.value);
    return order < 0 || (order === 0 && end.closed);
}

function liesBeside(value: Rational, { low, high }: Stretch, side: 'below' | 'above'): boolean {
    const end = side === 'below' ? low : high;
    return end !== undefined && !(side === 'below' ? isAbove(value, end) : isBelow(value, end));
}
