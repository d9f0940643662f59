// What readings of a file have in common: tests that are written alike share the intervals of their bands, and where they hold in the same
// builds and states too, the answers to all questions about them.

import type { ChoiceCondition } from '../builds/evaluate.js';
import type { Choice, Equipment, Option } from '../model/equipment.js';
import type { Outcome, Test } from '../model/tests.js';
import { type Dimension, sameDimensions } from '../quantities/dimensions.js';
import { type Interval, intervalKey } from '../quantities/intervals.js';
import type { QuantityKind } from '../quantities/quantity-kinds.js';
import type { Unit } from '../quantities/unit.js';
import type { CellPlace } from './cells.js';
import type { ReadingRange } from './range-of.js';
import { bandKey, readBand, type ReadingBand } from './read-band.js';
import { cellsOfBands, type ReadingCells } from './reading-cells.js';

/** The bands of a test, and what lies between their ends, without where they stand in the text. */
interface ReadingShape {
    readonly outcomes: readonly OutcomeShape[];
    readonly cells: ReadingCells;
    /** The unit that the writer thinks in. */
    readonly unit: Unit | undefined;
}

export interface OutcomeShape {
    /** The bands that are intervals, each by its place among the bands of the outcome. */
    readonly bands: readonly BandShape[];
    /** It has a band of which the interval is not known. */
    readonly isUnclear: boolean;
}

interface BandShape {
    readonly at: number;
    readonly interval: Interval;
    readonly unit: Unit | undefined;
    readonly place: CellPlace;
}

/** Finds readings that are alike. It is made for one file and one model, whose objects it compares. */
export class AlikeReadings {
    private readonly shapes = new Map<string, ReadingShape>();
    private readonly tokens = new Map<string, object>();
    private readonly numbers = new Map<object, number>();

    /** The bands of a test, for what can be read. */
    shapeOf({ outcomes }: Test, kind: QuantityKind, modes: readonly string[], range: ReadingRange): ReadingShape {
        const shown = range.sort === 'shown' ? String(this.numberOf(range.ranges)) : rangeKey(range);
        const key = `${kind.name} ${modes.join(' ')} ${shown}${outcomes.map(outcomeKey).join('')}`;
        let shape = this.shapes.get(key);
        if (!shape) {
            shape = makeShape(outcomes, kind, modes, range);
            this.shapes.set(key, shape);
        }
        return shape;
    }

    /** The same object for readings of one shape with the same conditions in the same equipment. */
    tokenOf(
        shape: ReadingShape,
        equipment: Equipment | undefined,
        conditions: readonly ChoiceCondition[],
        states: readonly Option[],
    ): object {
        const of = [shape, ...(equipment ? [equipment] : []), ...states].map(one => this.numberOf(one)).join(' ');
        const key = `${of}:${conditions.map(condition => this.conditionKey(condition)).join(';')}`;
        let token = this.tokens.get(key);
        if (!token) {
            token = { key };
            this.tokens.set(key, token);
        }
        return token;
    }

    private numberOf(one: object): number {
        let number = this.numbers.get(one);
        if (number === undefined) {
            number = this.numbers.size;
            this.numbers.set(one, number);
        }
        return number;
    }

    private conditionKey(condition: ChoiceCondition): string {
        switch (condition.sort) {
            case 'is':
                return this.choiceKey(condition.option, condition.choice);
            case 'not':
                return `!${this.conditionKey(condition.operand)}`;
            default: {
                const operands = condition.operands.map(operand => this.conditionKey(operand));
                return `(${operands.join(condition.sort === 'all' ? '&' : '|')}${condition.sort})`;
            }
        }
    }

    private choiceKey(option: Option, choice: Choice): string {
        return `${this.numberOf(option)}=${option.choices.indexOf(choice)}`;
    }
}

function rangeKey(range: Exclude<ReadingRange, { readonly sort: 'shown' }>): string {
    return range.sort === 'possible' ? intervalKey(range.interval) : range.sort;
}

function outcomeKey({ name, bands, answer }: Outcome): string {
    const start = `\n${name.text}${bands.length === 0 && answer ? '?' : ''}`;
    return bands.reduce((text, band) => `${text}|${bandKey(band)}`, start);
}

function makeShape(
    outcomes: readonly Outcome[],
    kind: QuantityKind,
    modes: readonly string[],
    range: ReadingRange,
): ReadingShape {
    const wanted = range.sort === 'shown' ? range.ranges.find(one => one.dimension)?.dimension : undefined;
    const read = outcomes.map(outcome => bandsOf(outcome, kind, modes).filter(({ reading }) => isOf(reading, wanted)));
    const first = read.flat().find(({ reading }) => reading.unit)?.reading.unit;
    const usable = read.map(own => own.filter(({ reading }) => isOf(reading, wanted ?? first?.dimension)));
    const { cells, places } = cellsOfBands(
        usable.flatMap(own => own.map(({ reading }) => reading.interval)),
        range,
    );
    let placed = 0;
    return {
        outcomes: outcomes.map(({ bands, answer }, index): OutcomeShape => {
            const own = usable[index] ?? [];
            const written = bands.filter(({ sort }) => sort !== 'otherwise').length;
            return {
                bands: own.map(({ at, reading: { interval, unit } }) => {
                    const place = places[placed] ?? { first: 0, last: -1 };
                    placed += 1;
                    return { at, interval, unit, place };
                }),
                // What is half written takes nobody knows what.
                isUnclear: own.length < written || (bands.length === 0 && answer === undefined),
            };
        }),
        cells,
        unit: usable.flat().find(({ reading }) => reading.unit)?.reading.unit,
    };
}

/** The bands of an outcome that are intervals, with their places among all of its bands. */
function bandsOf({ bands }: Outcome, kind: QuantityKind, modes: readonly string[]) {
    return bands.flatMap((band, at) => {
        const reading =
            band.sort === 'otherwise' || band.sort === 'from-table' ? undefined : readBand(band, kind, modes);
        return reading ? [{ at, reading }] : [];
    });
}

function isOf({ unit }: ReadingBand, dimension: Dimension | undefined): boolean {
    return !unit || !dimension || sameDimensions(unit.dimension, dimension);
}
