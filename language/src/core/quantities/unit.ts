// A unit of measure as plain data, made from the tables by putting the SI prefixes before their rows.

import Fraction from 'fraction.js';

import { currencies } from './currencies.js';
import { type Decimal, decimalToFraction, parseDecimal, shiftDecimal } from './decimal.js';
import { type Dimension, dimensions } from './dimensions.js';
import type { QuantityName } from './quantity-kinds.js';
import type { UnitGroup, UnitRow } from './unit-row.js';
import { countUnits } from './unit-table-counts.js';
import { electricalUnits } from './unit-table-electrical.js';
import { energyUnits } from './unit-table-energy.js';
import { fluidUnits } from './unit-table-fluids.js';
import { mechanicalUnits } from './unit-table-mechanical.js';
import { pressureUnits } from './unit-table-pressure.js';
import { signalUnits } from './unit-table-signals.js';
import { sizeUnits } from './unit-table-sizes.js';
import { substanceUnits } from './unit-table-substances.js';

/** A unit of measure or a currency. A value in the coherent SI unit is (number + offset) × factor. */
export interface Unit {
    /** The spelling that is shown; it is the first of `spellings`. */
    readonly symbol: string;
    readonly spellings: readonly string[];
    /** The name in words, in the singular: `kilovolt`. */
    readonly name: string;
    /** The UCUM code; a currency has none. */
    readonly ucum: string | undefined;
    readonly dimension: Dimension;
    /** Size in the coherent SI unit: an exact decimal, or a quotient of two. Read it with `unitFactor`. */
    readonly factor: string;
    /** What is added to the number before the factor applies; for a temperature scale (°C, °F) and a level counted from another reference (dBW). Read it with `unitOffset`. */
    readonly offset: string | undefined;
    /** True when no fraction gives the factor exactly: with pi it has more than thirty digits, by convention (°dH) it has the digits of its source. */
    readonly rounded: boolean;
    /** Where the factor was published. */
    readonly source: string;
    /** For a name with more than one meaning: which one is meant, and what else it could be. */
    readonly note: string | undefined;
    /** For a unit whose dimension fits more: the only quantities it is used for. */
    readonly usedFor: readonly QuantityName[] | undefined;
    readonly money: boolean;
}

interface Prefix {
    readonly symbols: readonly string[];
    readonly name: string;
    readonly ucum: string;
    readonly power: number;
}

// The micro sign (U+00B5) is shown; the Greek letter mu (U+03BC) and the keyboard's u are read.
const prefixes: Readonly<Record<string, Prefix>> = {
    T: { symbols: ['T'], name: 'tera', ucum: 'T', power: 12 },
    G: { symbols: ['G'], name: 'giga', ucum: 'G', power: 9 },
    M: { symbols: ['M'], name: 'mega', ucum: 'M', power: 6 },
    k: { symbols: ['k'], name: 'kilo', ucum: 'k', power: 3 },
    h: { symbols: ['h'], name: 'hecto', ucum: 'h', power: 2 },
    c: { symbols: ['c'], name: 'centi', ucum: 'c', power: -2 },
    m: { symbols: ['m'], name: 'milli', ucum: 'm', power: -3 },
    µ: { symbols: ['\u00B5', '\u03BC', 'u'], name: 'micro', ucum: 'u', power: -6 },
    n: { symbols: ['n'], name: 'nano', ucum: 'n', power: -9 },
    p: { symbols: ['p'], name: 'pico', ucum: 'p', power: -12 },
};

/** Every unit of measure, and after them every currency. */
export const units: readonly Unit[] = [
    ...[
        ...electricalUnits,
        ...energyUnits,
        ...signalUnits,
        ...pressureUnits,
        ...fluidUnits,
        ...substanceUnits,
        ...sizeUnits,
        ...mechanicalUnits,
        ...countUnits,
    ].flatMap(expandGroup),
    ...currencies.map(currencyUnit),
];

const factors = new WeakMap<Unit, Fraction>();
const offsets = new WeakMap<Unit, Fraction>();
const zero = new Fraction(0n, 1n);

/** The size of the unit in the coherent SI unit, as an exact fraction; made when first asked for. */
export function unitFactor(unit: Unit): Fraction {
    let factor = factors.get(unit);
    if (factor === undefined) {
        const [numerator = '', denominator = '1'] = unit.factor.split('/');
        factor = tableNumber(numerator).div(tableNumber(denominator));
        factors.set(unit, factor);
    }
    return factor;
}

/** What is added to a number in this unit before the factor applies; zero for nearly every unit. */
export function unitOffset(unit: Unit): Fraction {
    if (unit.offset === undefined) {
        return zero;
    }
    let offset = offsets.get(unit);
    if (offset === undefined) {
        offset = tableNumber(unit.offset);
        offsets.set(unit, offset);
    }
    return offset;
}

function expandGroup(group: UnitGroup): Unit[] {
    return group.rows.flatMap(row => {
        const plain = makeUnit(group, row);
        const prefixed = (row.prefixes ?? '').split(' ').flatMap(symbol => {
            const prefix = prefixes[symbol];
            return prefix === undefined ? [] : [prefixUnit(plain, prefix)];
        });
        return [plain, ...prefixed];
    });
}

function makeUnit(group: UnitGroup, row: UnitRow): Unit {
    return {
        symbol: row.symbol,
        spellings: [
            row.symbol,
            ...(row.also ?? []),
            ...(row.symbol.includes('µ') ? [row.symbol.replace('µ', 'μ'), row.symbol.replace('µ', 'u')] : []),
        ],
        name: row.name,
        ucum: row.ucum,
        dimension: group.dimension,
        factor: row.factor,
        offset: row.offset,
        rounded: row.rounded ?? false,
        source: row.source ?? group.source,
        note: row.note,
        usedFor: row.usedFor,
        money: false,
    };
}

function prefixUnit(unit: Unit, prefix: Prefix): Unit {
    const spellings = unit.spellings.flatMap(spelling => prefix.symbols.map(symbol => symbol + spelling));
    const [numerator = '', denominator] = unit.factor.split('/');
    const shifted = shiftDecimal(tableDecimal(numerator), prefix.power).text;
    return {
        ...unit,
        symbol: spellings[0] ?? unit.symbol,
        spellings,
        name: prefix.name + unit.name,
        ucum: unit.ucum === undefined ? undefined : prefix.ucum + unit.ucum,
        factor: denominator === undefined ? shifted : `${shifted}/${denominator}`,
    };
}

function currencyUnit(code: string): Unit {
    return {
        symbol: code,
        spellings: [code],
        name: code,
        ucum: undefined,
        dimension: dimensions.money,
        factor: '1',
        offset: undefined,
        rounded: false,
        source: 'ISO 4217, the list of codes from memory',
        note: undefined,
        usedFor: undefined,
        money: true,
    };
}

function tableNumber(text: string): Fraction {
    return decimalToFraction(tableDecimal(text));
}

// The tables are ours, and a test reads every row; a slip in one must stop that test rather than become a wrong factor.
function tableDecimal(text: string): Decimal {
    const decimal = parseDecimal(text);
    if (decimal === undefined) {
        throw new Error(`the table of units has the factor ${text}, which is no number`);
    }
    return decimal;
}
