// Which readings a quantity can have at all, whatever shows them.

import Fraction from 'fraction.js';

import { type Dimension, dimensions, sameDimensions } from '../quantities/dimensions.js';
import type { Interval } from '../quantities/intervals.js';
import { canBeBelowZero, type QuantityKind } from '../quantities/quantity-kinds.js';

/** A limit that no reading of a quantity can pass, in words for a message. */
export interface PossibleReadings {
    /** In the coherent SI unit. */
    readonly interval: Interval;
    /** Why nothing is below it, and why nothing is above it. */
    readonly below: string | undefined;
    readonly above: string | undefined;
}

/**
 * Readings of a quantity that can be. A humidity is at most 100 %, and so is a concentration that is given as a share.
 * A gauge pressure is at least that of a vacuum against the highest air pressure there is, about 1085 hPa at sea level
 * (the records of the World Meteorological Organization, from memory); 1100 hPa are allowed for.
 */
export function possibleReadings(
    kind: QuantityKind,
    modes: readonly string[],
    dimension: Dimension | undefined,
): PossibleReadings {
    const { low, below } = lowest(kind, modes);
    const isShare =
        (kind.name === 'humidity' || kind.name === 'concentration') &&
        (dimension === undefined || sameDimensions(dimension, dimensions.ratio));
    return {
        interval: {
            ...(low ? { low: { value: low, closed: true } } : {}),
            ...(isShare ? { high: { value: one, closed: true } } : {}),
        },
        below,
        above: isShare ? `${kind.name} is at most 100 %` : undefined,
    };
}

const zero = new Fraction(0n);
const one = new Fraction(1n);
const vacuumBelowAir = new Fraction(-110_000n);

function lowest(kind: QuantityKind, modes: readonly string[]): { low?: Fraction; below: string | undefined } {
    if (!canBeBelowZero(kind, modes)) return { low: zero, below: whyNotBelowZero(kind, modes) };
    const isGauge = (kind.name === 'pressure' || kind.name === 'vacuum') && modes.includes('gauge');
    return isGauge
        ? { low: vacuumBelowAir, below: 'nothing is emptier than a vacuum, about 1 bar below the air' }
        : { below: undefined };
}

function whyNotBelowZero({ name }: QuantityKind, modes: readonly string[]): string {
    switch (name) {
        case 'temperature':
            return 'nothing is colder than absolute zero, -273.15 °C';
        case 'pressure':
        case 'vacuum':
            return 'an absolute pressure begins at a vacuum, which is zero';
        case 'voltage':
        case 'current':
            return `an instrument shows how large ${modes.includes('AC') ? `an AC ${name}` : `a ${name}`} is, without a sign`;
        default:
            return `there is no ${name} below zero`;
    }
}
