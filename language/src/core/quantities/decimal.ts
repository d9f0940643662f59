// Exact decimal numbers as a person writes them, and exact fractions printed as decimals.
//
// A reading of `21.6 V` must stay 21.6 in every output, so nothing here passes through a binary floating point number.

import Fraction from 'fraction.js';

/**
 * A decimal number as written: `digits` times ten to the power of `exponent`.
 * Zeros at the end of the fraction are kept (`24.0` stays `24.0`), because they tell how fine the writer meant it.
 * `text` is the canonical spelling: a plain `-`, no `+`, no zeros in front, the exponent written out where the result stays readable.
 */
export interface Decimal {
    readonly text: string;
    readonly negative: boolean;
    /** Decimal digits without zeros in front; `0` for zero. */
    readonly digits: string;
    readonly exponent: number;
}

/** A fraction as a decimal text; `exact` is false when the text had to be rounded. */
export interface PrintedFraction {
    readonly text: string;
    readonly exact: boolean;
}

/** The longest number that is read, in characters: more is a slip or an attack, not a reading. */
export const longestNumber = 50;

/** The largest power of ten, up or down, that is read, both as written and for the first digit. */
export const largestExponent = 99;

const pattern = /^([+\-−]?)(\d*)(?:\.(\d+))?(?:[eE]([+\-−]?)(\d+))?$/;
const longestExpanded = 21;
const fractions = new WeakMap<Decimal, Fraction>();

/**
 * Reads a decimal number: `24`, `21.6`, `.5`, `-0.2`, `−0.2` (U+2212), `1e6`.
 * Returns undefined for anything else, and for numbers beyond `longestNumber` or `largestExponent`.
 */
export function parseDecimal(text: string): Decimal | undefined {
    if (text.length > longestNumber) {
        return undefined;
    }
    const match = pattern.exec(text);
    if (match === null) {
        return undefined;
    }
    const [, sign = '', whole = '', fraction = '', exponentSign = '', exponentDigits = '0'] = match;
    if (whole === '' && fraction === '') {
        return undefined;
    }
    const power = Number(exponentDigits);
    if (power > largestExponent) {
        return undefined;
    }
    const signedPower = exponentSign === '-' || exponentSign === '−' ? -power : power;
    const decimal = makeDecimal(sign === '-' || sign === '−', whole + fraction, signedPower - fraction.length);
    const powerOfFirstDigit = decimal.exponent + decimal.digits.length - 1;
    return Math.abs(powerOfFirstDigit) > largestExponent ? undefined : decimal;
}

/** The number as an exact fraction; made when first asked for, then kept. */
export function decimalToFraction(decimal: Decimal): Fraction {
    const known = fractions.get(decimal);
    if (known !== undefined) {
        return known;
    }
    const digits = BigInt(decimal.negative ? `-${decimal.digits}` : decimal.digits);
    const made =
        decimal.exponent >= 0
            ? new Fraction(digits * 10n ** BigInt(decimal.exponent), 1n)
            : new Fraction(digits, 10n ** BigInt(-decimal.exponent));
    fractions.set(decimal, made);
    return made;
}

/** The fraction as a decimal, or undefined when its decimals never end (one third). */
export function decimalFromFraction(value: Fraction): Decimal | undefined {
    const places = decimalPlaces(value.d);
    if (places === undefined) {
        return undefined;
    }
    const digits = (value.n * 10n ** BigInt(places)) / value.d;
    return makeDecimal(value.s < 0n, digits.toString(), -places);
}

/** The number times a power of ten, without making a fraction of it. */
export function shiftDecimal(decimal: Decimal, power: number): Decimal {
    return makeDecimal(decimal.negative, decimal.digits, decimal.exponent + power);
}

/** True when the two numbers have the same value, however they are written (`24` and `24.0`). */
export function sameNumber(a: Decimal, b: Decimal): boolean {
    return a.text === b.text || decimalToFraction(a).equals(decimalToFraction(b));
}

/**
 * Prints a fraction as a decimal: exactly when its decimals end, else rounded to `significantDigits` (half away from zero).
 * A decimal that ends only after more than `longestExact` significant digits is rounded too, since nobody can read it.
 */
export function printFraction(value: Fraction, significantDigits = 6, longestExact = 30): PrintedFraction {
    const exact = decimalFromFraction(value);
    if (exact !== undefined && exact.digits.length <= Math.max(longestExact, significantDigits)) {
        return { text: exact.text, exact: true };
    }
    return { text: roundFraction(value, significantDigits).text, exact: false };
}

/** The nearest decimal with at most `significantDigits` digits; halves go away from zero. */
export function roundFraction(value: Fraction, significantDigits: number): Decimal {
    if (value.n === 0n) {
        return makeDecimal(false, '0', 0);
    }
    const wanted = Math.max(1, Math.floor(significantDigits));
    // The lengths give the place of the first digit to within one; a digit too many is then rounded once, from the exact value.
    let power = value.n.toString().length - value.d.toString().length - wanted;
    let digits = divideAtPower(value, power);
    if (digits.toString().length > wanted) {
        power += 1;
        digits = divideAtPower(value, power);
    }
    const trimmed = digits.toString().replace(/0+$/, '');
    return makeDecimal(value.s < 0n, trimmed, power + digits.toString().length - trimmed.length);
}

/**
 * The nearest decimal whose last digit counts powers of ten of this size (`-1` for tenths, `2` for hundreds); halves go away from zero.
 * Zeros at the end of the fraction stay, since they say how fine the number is: 11 at `-1` is `11.0`.
 */
export function roundToPower(value: Fraction, power: number): Decimal {
    return makeDecimal(value.s < 0n, divideAtPower(value, power).toString(), power);
}

function makeDecimal(negative: boolean, rawDigits: string, rawExponent: number): Decimal {
    const digits = rawDigits.replace(/^0+(?=\d)/, '');
    const zero = digits === '0';
    // Zero keeps its places after the point, but ten to any power of nothing is still nothing.
    const exponent = zero ? Math.min(rawExponent, 0) : rawExponent;
    const signed = negative && !zero;
    return { text: (signed ? '-' : '') + writeDigits(digits, exponent), negative: signed, digits, exponent };
}

function writeDigits(digits: string, exponent: number): string {
    if (exponent >= 0 && digits.length + exponent <= longestExpanded) {
        return digits + '0'.repeat(exponent);
    }
    if (exponent < 0 && -exponent <= Math.max(longestExpanded, digits.length)) {
        const padded = digits.padStart(1 - exponent, '0');
        return `${padded.slice(0, exponent)}.${padded.slice(exponent)}`;
    }
    const rest = digits.slice(1);
    return `${digits.charAt(0)}${rest === '' ? '' : `.${rest}`}e${exponent + rest.length}`;
}

// The whole number nearest to value / 10^power, without its sign.
function divideAtPower(value: Fraction, power: number): bigint {
    const numerator = power < 0 ? value.n * 10n ** BigInt(-power) : value.n;
    const denominator = power > 0 ? value.d * 10n ** BigInt(power) : value.d;
    return (2n * numerator + denominator) / (2n * denominator);
}

// The decimals of a reduced fraction end only when nothing but twos and fives divides its denominator.
function decimalPlaces(denominator: bigint): number | undefined {
    let rest = denominator;
    let twos = 0;
    let fives = 0;
    for (; rest % 2n === 0n; rest /= 2n) {
        twos += 1;
    }
    for (; rest % 5n === 0n; rest /= 5n) {
        fives += 1;
    }
    return rest === 1n ? Math.max(twos, fives) : undefined;
}
