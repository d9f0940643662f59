// Writes quantities and prices: the author's decimal as a JSON number, the unit's UCUM code, and what to show.

import { type Decimal, decimalFromFraction, decimalToFraction, roundFraction } from '../../core/quantities/decimal.js';
import type { End } from '../../core/quantities/intervals.js';
import { display, parseQuantity, type Quantity as ReadQuantity } from '../../core/quantities/quantity.js';
import type { Measures } from '../../core/model/tests.js';
import type { Amount } from '../../core/model/written.js';
import { inOtherSystem, type Measured } from '../../core/quantities/other-system.js';
import type { Measure, Money, OtherQuantity, Quantity } from '../types.js';
import { made, report, some, type Writer, writeWords } from './writer.js';

/** A number for JSON; `rounded` is true where it is not exactly what was meant. */
export interface JsonNumber {
    readonly value: number;
    readonly rounded: true | undefined;
}

/** A decimal of up to this many significant digits comes back out of a binary number of 64 bits as it went in. */
const exactDigits = 15;

/** The decimal as a number that JSON shows with the same digits. */
export function toJsonNumber(decimal: Decimal): JsonNumber {
    const digits = decimal.digits.replace(/0+$/, '');
    if (digits.length <= exactDigits) return { value: Number(decimal.text), rounded: undefined };
    return { value: Number(roundFraction(decimalToFraction(decimal), exactDigits).text), rounded: true };
}

/** The fraction as a number; rounded where its decimals do not end, or are too many. */
export function fractionToJsonNumber(value: End['value']): JsonNumber {
    const exact = decimalFromFraction(value);
    if (exact) return toJsonNumber(exact);
    return { value: Number(roundFraction(value, exactDigits).text), rounded: true };
}

/**
 * A quantity as it was written, and in the other system of units. Undefined, with a problem, where it cannot be read.
 * `measured` tells what it is a quantity of: a temperature that is a difference has another value elsewhere.
 */
export function writeQuantity(writer: Writer, amount: Amount, measured: Measured = {}): Quantity | undefined {
    const quantity = readAmount(writer, amount);
    const unit = quantity && unitCode(quantity);
    if (!quantity || unit === undefined) {
        if (quantity) report(writer, amount, `The unit of \`${amount.written}\` is not known.`);
        return undefined;
    }
    const { value, rounded } = toJsonNumber(quantity.number);
    return made<Quantity>({ value, rounded, unit, display: display(quantity), other: writeOther(quantity, measured) });
}

function writeOther(quantity: ReadQuantity, measured: Measured): OtherQuantity | undefined {
    const other = inOtherSystem(quantity, measured);
    const unit = other?.quantity.unit?.ucum;
    return other && unit !== undefined
        ? { value: toJsonNumber(other.quantity.number).value, unit, display: other.text }
        : undefined;
}

export function writeOptionalQuantity(
    writer: Writer,
    amount: Amount | undefined,
    measured: Measured = {},
): Quantity | undefined {
    return amount && writeQuantity(writer, amount, measured);
}

/** A price as it was written. Undefined, with a problem, where it is none. */
export function writeMoney(writer: Writer, amount: Amount | undefined): Money | undefined {
    const quantity = amount && readAmount(writer, amount);
    if (!amount || !quantity) return undefined;
    if (!quantity.unit?.money) {
        report(writer, amount, `\`${amount.written}\` is no price: a price ends in a currency such as EUR.`);
        return undefined;
    }
    const { value, rounded } = toJsonNumber(quantity.number);
    return made<Money>({ amount: value, rounded, currency: quantity.unit.symbol, display: display(quantity) });
}

/** The amount read; a unit alone, as in `12 starts per h`, stands for one of it. */
export function readAmount(writer: Writer, amount: Amount): ReadQuantity | undefined {
    const quantity = parseQuantity(amount.written) ?? parseQuantity(`1 ${amount.written}`);
    if (!quantity) report(writer, amount, `\`${amount.written}\` does not begin with a number that can be read.`);
    return quantity;
}

/** The UCUM code of the unit, `1` for a plain number; undefined for money and for a unit that is not known. */
export function unitCode(quantity: ReadQuantity): string | undefined {
    if (quantity.unit) return quantity.unit.ucum;
    return quantity.unitText === '' ? '1' : undefined;
}

/** What a clause measures, for its amounts in the other system of units. */
export function measuredBy({ quantity, modes }: Pick<Measures, 'quantity' | 'modes'>): Measured {
    return { quantity: quantity.text, asDifference: modes.some(({ text }) => text === 'difference') };
}

/** Modes are words of the grammar, which has the same list as the document. */
export function writeModes(modes: Parameters<typeof writeWords>[0]): Measure['modes'] | undefined {
    return some(writeWords(modes)) as Measure['modes'] | undefined;
}
