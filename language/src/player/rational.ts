// Exact fractions, as small as they can be: for readings at the very end of a band.

/** A fraction in lowest terms; the denominator is above zero. */
export interface Rational {
    readonly n: bigint;
    readonly d: bigint;
}

/** A fraction longer than this is rounded to so many digits, so that no calculation can grow without end. */
const mostDigits = 400;
const keptDigits = 60;

/** The fraction of two whole numbers; undefined where the second is zero. */
function fraction(n: bigint, d: bigint): Rational | undefined {
    if (d === 0n) return undefined;
    const divisor = greatestDivisor(n < 0n ? -n : n, d < 0n ? -d : d) * (d < 0n ? -1n : 1n);
    return shortened({ n: n / divisor, d: d / divisor });
}

function greatestDivisor(a: bigint, b: bigint): bigint {
    while (b !== 0n) [a, b] = [b, a % b];
    return a === 0n ? 1n : a;
}

const bitsInDigit = 3.33;

function shortened(value: Rational): Rational {
    if (value.n.toString(2).length + value.d.toString(2).length < mostDigits * bitsInDigit) return value;
    const power = BigInt(keptDigits - (value.n.toString().length - value.d.toString().length));
    if (value.n === 0n) return zero;
    return power > 0n
        ? ({ n: (value.n * 10n ** power) / value.d, d: 10n ** power } satisfies Rational)
        : { n: (value.n / value.d / 10n ** -power) * 10n ** -power, d: 1n };
}

export const zero: Rational = { n: 0n, d: 1n };

/** The fraction with the shortest decimals that stand for this number, as 0.1 stands for one tenth. The number must be finite. */
export function rational(value: number): Rational {
    const [digits = '0', power = '0'] = value.toExponential().split('e');
    const [whole = '0', decimals = ''] = digits.split('.');
    const exponent = Number(power) - decimals.length;
    const n = BigInt(whole + decimals);
    return exponent < 0 ? (fraction(n, 10n ** BigInt(-exponent)) ?? zero) : { n: n * 10n ** BigInt(exponent), d: 1n };
}

export function add(a: Rational, b: Rational): Rational {
    return fraction(a.n * b.d + b.n * a.d, a.d * b.d) ?? zero;
}

export function subtract(a: Rational, b: Rational): Rational {
    return fraction(a.n * b.d - b.n * a.d, a.d * b.d) ?? zero;
}

export function multiply(a: Rational, b: Rational): Rational {
    return fraction(a.n * b.n, a.d * b.d) ?? zero;
}

/** Undefined where it would be a division by zero. */
export function divide(a: Rational, b: Rational): Rational | undefined {
    return fraction(a.n * b.d, a.d * b.n);
}

/** Below zero where the first is smaller, above zero where it is larger. */
export function compare(a: Rational, b: Rational): number {
    const difference = a.n * b.d - b.n * a.d;
    return difference < 0n ? -1 : Number(difference > 0n);
}

export function absolute(a: Rational): Rational {
    return a.n < 0n ? { n: -a.n, d: a.d } : a;
}

/** The nearest number that a computer has, to about 17 digits. */
export function toNumber({ n, d }: Rational): number {
    if (n === 0n) return 0;
    const power = 18 - (n.toString().length - d.toString().length);
    const scaled = power >= 0 ? (n * 10n ** BigInt(power)) / d : n / (d * 10n ** BigInt(-power));
    return Number(`${scaled}e${-power}`);
}

/** The number with 12 significant digits, which is what a law that is computed with logarithms and powers is good for. */
export function rounded(value: number): Rational | undefined {
    return Number.isFinite(value) ? rational(Number(value.toPrecision(12))) : undefined;
}
