// Bands and outcomes that can never be read: they lie beyond what the instrument shows, or other outcomes take all of it.

import type Fraction from 'fraction.js';

import type { ChoiceCondition } from '../builds/evaluate.js';
import type { Option } from '../model/equipment.js';
import { compareExactly } from '../quantities/exact-order.js';
import { contains, type End, type Interval, intersection } from '../quantities/intervals.js';
import { lastCell } from './cells.js';
import { allOf, always, anyOf, never, notOf } from './conditions.js';
import type { Neighbor } from './gaps.js';
import type { MeasuringRange } from './measuring-ranges.js';
import { possibleReadings } from './possible.js';
import { nothingIfAlike } from './once-per-reading.js';
import type { Entry, Reading } from './reading.js';
import { cellsWithReadings, hasReading } from './reading-cells.js';
import type { Witness } from './search.js';
import { isUnclear, takesValue, takesWhereverItHolds } from './takers.js';

/** A band that goes, or lies, beyond what the instrument shows. */
export interface BeyondRange {
    readonly reading: Reading;
    readonly taker: Neighbor;
    /** The whole band lies beyond, or only one of its ends. */
    readonly sort: 'whole' | 'low' | 'high';
    /** The nearest that the instrument shows. */
    readonly limit: Fraction;
    readonly witness: Witness;
}

/** An outcome for which the others leave nothing, in some build. */
export interface NothingLeft {
    readonly reading: Reading;
    readonly entry: Entry;
    readonly witness: Witness;
}

/** The bands of a test that go beyond what its instrument shows; nothing where no range is known. */
export const bandsBeyond = nothingIfAlike(findBeyond);

function findBeyond(reading: Reading): readonly BeyondRange[] {
    const { range } = reading;
    if (range.sort !== 'shown') return [];
    const whole = wholeRange(range.ranges);
    return reading.entries.flatMap(entry =>
        entry.bands.flatMap(band => {
            const beyond = isPossible(reading, band) ? beyondOf(band.interval, whole, range.ranges) : undefined;
            const witness = beyond && reading.search.find(entry.holds);
            return witness ? [{ reading, taker: { entry, band }, ...beyond, witness }] : [];
        }),
    );
}

/** What there cannot be at all is a finding by itself. */
function isPossible({ kind, modes }: Reading, { interval, unit }: Neighbor['band']): boolean {
    const possible = possibleReadings(kind, modes, unit?.dimension).interval;
    return [interval.low, interval.high].every(end => !end || contains(possible, end.value));
}

/** From the first to the last that any of the ranges shows. */
export function wholeRange(ranges: readonly MeasuringRange[]): Interval {
    const outermost = (side: 'low' | 'high'): End | undefined => {
        const ends = ranges.map(({ interval }) => interval[side]);
        const sign = side === 'low' ? -1 : 1;
        return ends.reduce((far, end) =>
            far && end && compareExactly(end.value, far.value) * sign > 0 ? end : far && end && far,
        );
    };
    const [low, high] = [outermost('low'), outermost('high')];
    return { ...(low ? { low } : {}), ...(high ? { high } : {}) };
}

type Beyond = Pick<BeyondRange, 'sort' | 'limit'>;

function beyondOf(band: Interval, whole: Interval, ranges: readonly MeasuringRange[]): Beyond | undefined {
    const isRead = ranges.some(({ interval }) => intersection(interval, band));
    if (!isRead) return whollyBeyond(band, whole);
    if (whole.high && band.high && compareExactly(band.high.value, whole.high.value) > 0) {
        return { sort: 'high', limit: whole.high.value };
    }
    if (!whole.low || !band.low || compareExactly(band.low.value, whole.low.value) >= 0) return undefined;
    // Where readings begin at zero, a tolerance around zero has a half that nobody needs.
    const isAroundZero = whole.low.value.n === 0n && contains(band, whole.low.value);
    return isAroundZero ? undefined : { sort: 'low', limit: whole.low.value };
}

function whollyBeyond(band: Interval, { low, high }: Interval): Beyond | undefined {
    const above = high && band.low ? compareExactly(band.low.value, high.value) : -1;
    const end = above >= 0 ? high : low;
    // Above the last reading the instrument shows that it is over range: a band that takes all of it is meant for that.
    const isOverRange = above === 0 && !band.high;
    return end && !isOverRange ? { sort: 'whole', limit: end.value } : undefined;
}

/** More states than this are not tried one by one. */
const mostStates = 64;

/** Outcomes with `otherwise` for which nothing is left in a build, whatever the state. Over range counts as a reading above the last. */
export const outcomesWithNothingLeft = nothingIfAlike(findNothingLeft);

function findNothingLeft(reading: Reading): readonly NothingLeft[] {
    if (reading.range.sort === 'unknown') return [];
    const names = new Set<string>();
    return reading.entries.flatMap(entry => {
        if (!entry.rest || names.has(entry.name)) return [];
        names.add(entry.name);
        const alike = reading.entries.filter(({ name }) => name === entry.name);
        if (alike.every(one => isSurelyLeft(reading, one))) return [];
        const states = statesOf(reading.search.states);
        if (states.length > mostStates) return [];
        const cells = readableCells(reading);
        const exists = anyOf(alike.map(({ holds }) => holds));
        const clear = notOf(isUnclear(reading));
        const taken = anyOf(cells.flatMap(cell => alike.map(one => takesValue(reading, one, cell))));
        // In no state may anything be left for it, so each state is put in, and the builds are searched.
        const none = states.map(state => {
            const isAsked = inState(allOf([reading.search.context, exists]), state);
            return notOf(allOf([isAsked, inState(anyOf([taken, notOf(clear)]), state)]));
        });
        const witness = reading.search.find(allOf([exists, clear, ...none]));
        return witness ? [{ reading, entry, witness }] : [];
    });
}

/** Whether nothing needs to be searched to see that an entry takes some reading wherever it holds. */
function isSurelyLeft(reading: Reading, entry: Entry): boolean {
    const { inRange } = reading.cells;
    return (
        inRange.some(cell => takesWhereverItHolds(reading, entry, cell) && hasReading(reading, cell)) ||
        (reading.range.sort === 'shown' && takesWhereverItHolds(reading, entry, lastCell(reading.cells)))
    );
}

/** The cells in which there can be a reading, and the one above the last where an instrument shows that it is over range. */
function readableCells(reading: Reading): readonly number[] {
    const last = lastCell(reading.cells);
    const cells = cellsWithReadings(reading);
    return reading.range.sort === 'shown' && cells.at(-1) !== last ? [...cells, last] : cells;
}

type State = ReadonlyMap<Option, number>;

/** Every combination of what the states can be; the conditions tell which of them there are. */
function statesOf(options: readonly Option[]): State[] {
    let states: State[] = [new Map()];
    for (const option of options) {
        states = states.flatMap(state => option.choices.map((_, index) => new Map([...state, [option, index]])));
        if (states.length > mostStates) return states;
    }
    return states;
}

/** What is left of a condition where the states are known. */
function inState(condition: ChoiceCondition, state: State): ChoiceCondition {
    switch (condition.sort) {
        case 'is': {
            const index = state.get(condition.option);
            if (index === undefined) return condition;
            return condition.option.choices[index] === condition.choice ? always : never;
        }
        case 'not':
            return notOf(inState(condition.operand, state));
        case 'all':
            return allOf(condition.operands.map(operand => inState(operand, state)));
        case 'any':
            return anyOf(condition.operands.map(operand => inState(operand, state)));
    }
}
