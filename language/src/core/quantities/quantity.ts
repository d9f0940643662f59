// A measured or given value: an exact number and the unit written after it.

import type Fraction from 'fraction.js';

import { type Decimal, decimalToFraction, parseDecimal } from './decimal.js';
import type { Unit } from './unit.js';
import { differenceToCoherent, toCoherent } from './unit-conversion.js';
import { findUnit } from './unit-spellings.js';

/** A number and its unit. It is plain data; the same text gives the same object, so it must not be changed. */
export interface Quantity {
    readonly number: Decimal;
    /** The unit, or undefined where none was written or the spelling is not known. */
    readonly unit: Unit | undefined;
    /** The unit as it was written; empty where none was. */
    readonly unitText: string;
}

// A workspace repeats few distinct texts many times; the limit keeps a long editing session from growing without end.
const cacheLimit = 20_000;
const cache = new Map<string, Quantity | undefined>();

const pattern = /^([+\-−]?(?:\d+(?:\.\d+)?|\.\d+)(?:[eE][+\-−]?\d+)?)(\s*)(.*)$/su;

/**
 * Reads a number and a unit: `24 V`, `24V`, `−0.2 V`, `1e6 h`, `10 in. w.c.`, `70 %`, `21.6`.
 * An unknown unit is kept as written. Returns undefined where the text does not begin with a number that can be read.
 */
export function parseQuantity(text: string): Quantity | undefined {
    const known = cache.get(text);
    if (known !== undefined || cache.has(text)) {
        return known;
    }
    if (cache.size >= cacheLimit) {
        cache.clear();
    }
    const quantity = readQuantity(text);
    cache.set(text, quantity);
    return quantity;
}

/** A quantity made of a number and a unit rather than read from a text. */
export function makeQuantity(number: Decimal, unit: Unit | undefined): Quantity {
    return { number, unit, unitText: unit?.symbol ?? '' };
}

/** The quantity as it is shown: the canonical number, and the preferred symbol of its unit or the unit as written (`4.7 uF` is shown as `4.7 µF`). */
export function display(quantity: Quantity): string {
    return displayNumber(quantity.number.text, quantity.unit?.symbol ?? quantity.unitText);
}

/** A number and the symbol of a unit with the space between them that the SI asks for; only the degree sign of an angle has none. */
export function displayNumber(number: string, symbol: string): string {
    if (symbol === '' || symbol === '°') {
        return number + symbol;
    }
    return `${number} ${symbol}`;
}

/**
 * The value in the coherent SI unit; a number without a unit stands for itself.
 * With `asDifference`, a temperature is taken as a difference of two. Undefined for an unknown unit.
 */
export function coherentValue(quantity: Quantity, asDifference = false): Fraction | undefined {
    const number = decimalToFraction(quantity.number);
    if (quantity.unit === undefined) {
        return quantity.unitText === '' ? number : undefined;
    }
    return asDifference ? differenceToCoherent(number, quantity.unit) : toCoherent(number, quantity.unit);
}

function readQuantity(text: string): Quantity | undefined {
    const match = pattern.exec(text.trim());
    if (match === null) {
        return undefined;
    }
    const [, numberText = '', space = '', unitText = ''] = match;
    // A dot or comma right after the number is a slip within the number (`1,5 V`, `1.2.3`), not the start of a unit.
    const number = space === '' && /^[.,]/.test(unitText) ? undefined : parseDecimal(numberText);
    if (number === undefined) {
        return undefined;
    }
    return { number, unit: findUnit(unitText), unitText };
}
