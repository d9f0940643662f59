// Which of two exact numbers is larger, told by their nearest floating point numbers wherever these are clearly apart.

import type Fraction from 'fraction.js';

/** Far more than what three roundings to 53 bits can be off, as a share of the number. */
const certainShare = 1e-14;

/** Below this size floating point numbers have fewer digits, and nothing is concluded from them. */
const smallestCertain = 1e-290;

/** The floating point number near to an exact one; infinite or not a number where that would need too large a number. */
export function nearestFloat({ s, n, d }: Fraction): number {
    const parts = Number(d);
    return Number.isFinite(parts) ? (Number(s) * Number(n)) / parts : Number.NaN;
}

/** Below zero, zero or above it, as `one.compare(other)` gives it, exactly. */
export function compareExactly(one: Fraction, other: Fraction): number {
    if (one === other) return 0;
    return compareNear(one, nearestFloat(one), other, nearestFloat(other));
}

/** The same for numbers whose floating point numbers are known already. */
export function compareNear(one: Fraction, oneNear: number, other: Fraction, otherNear: number): number {
    const difference = oneNear - otherNear;
    const uncertain = certainShare * (Math.abs(oneNear) + Math.abs(otherNear)) + smallestCertain;
    if (Math.abs(difference) > uncertain) return difference;
    const [left, right] = [one.s * one.n * other.d, other.s * other.n * one.d];
    return left < right ? -1 : Number(left > right);
}
