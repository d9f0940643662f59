// Numbers of one band converted together: into one unit, and rounded at one place.

import type Fraction from 'fraction.js';

import { decimalToFraction } from './decimal.js';
import { dimensions, sameDimensions } from './dimensions.js';
import {
    lastSurePower,
    powerKeeping,
    powerOfTen,
    powerWithin,
    roundAt,
    type RoundedNumber,
    roundToHalf,
} from './other-rounding.js';
import { type Measured, type UnitSystem, unitsIn } from './other-units.js';
import { makeQuantity, type Quantity } from './quantity.js';
import { type Unit, unitFactor } from './unit.js';
import { convert, convertDifference, convertible } from './unit-conversion.js';

/** A number as it was written, before it is converted. */
export interface Part {
    readonly value: Fraction;
    readonly unit: Unit;
    /** The power of ten of its last sure digit. */
    readonly surePower: number;
    /** True for a whole number; zero says nothing about how fine the numbers beside it are. */
    readonly whole: boolean;
    /** True for a tolerance and for a difference of temperatures: it takes no notice of where a scale begins. */
    readonly isDifference: boolean;
}

/** Numbers that were converted together, in the order of their parts. */
export interface ConvertedParts {
    readonly quantities: readonly Quantity[];
    /** False where a number was rounded. */
    readonly exact: boolean;
}

/** A quantity as a part; undefined without a known unit. */
export function partOf({ number, unit }: Quantity, isDifference: boolean): Part | undefined {
    return (
        unit && {
            value: decimalToFraction(number),
            unit,
            surePower: lastSurePower(number),
            whole: number.exponent >= 0,
            isDifference,
        }
    );
}

/** True for a temperature on a scale, as against a difference of two. */
export function isTemperaturePoint({ unit, isDifference }: Part): boolean {
    return !isDifference && sameDimensions(unit.dimension, dimensions.temperature);
}

/**
 * The parts in one unit of this system. With `stayApart`, two that differ are not rounded to the same number.
 * Undefined where the system has no other unit for any of them, or they do not fit each other.
 */
export function convertParts(
    parts: readonly Part[],
    system: UnitSystem,
    measured: Measured,
    stayApart: boolean,
): ConvertedParts | undefined {
    const unit = chooseUnit(parts, system, measured);
    if (unit === undefined) {
        return undefined;
    }
    const values = parts.map(part => inUnit(part, unit));
    const apart = stayApart ? values : [];
    const rounded = halvesSuit(parts, unit) ? roundToHalves(values, apart) : undefined;
    const numbers = rounded ?? roundTogether(parts, values, apart, unit);
    return {
        quantities: numbers.map(({ number }) => makeQuantity(number, unit)),
        exact: numbers.every(({ exact }) => exact),
    };
}

// The first unit that suits the size of the largest number; the last one suits all, and zero, which has no size.
function chooseUnit(parts: readonly Part[], system: UnitSystem, measured: Measured): Unit | undefined {
    const candidates = parts.map(part => unitsIn(system, part.unit, measured)).find(({ length }) => length > 0) ?? [];
    const chosen = candidates.find(({ unit, below }) => {
        if (below === undefined) {
            return true;
        }
        const sizes = parts.filter(part => convertible(part.unit, unit)).map(part => inUnit(part, unit).abs());
        return sizes.every(size => size.compare(below) < 0) && sizes.some(size => size.n !== 0n);
    });
    return chosen && parts.every(part => convertible(part.unit, chosen.unit)) ? chosen.unit : undefined;
}

function inUnit({ value, unit, isDifference }: Part, to: Unit): Fraction {
    return (isDifference ? convertDifference(value, unit, to) : convert(value, unit, to)) ?? value;
}

function roundTogether(
    parts: readonly Part[],
    values: readonly Fraction[],
    apart: readonly Fraction[],
    unit: Unit,
): readonly RoundedNumber[] {
    const telling = parts.filter(({ value, whole }) => value.n !== 0n || !whole);
    const power = Math.min(...(telling.length === 0 ? parts : telling).map(part => convertedPower(part, unit)));
    // How far a temperature lies from the zero of its scale says nothing about how finely it was read.
    const sized = values.filter((_, index) => !parts[index] || !isTemperaturePoint(parts[index]));
    const kept = powerKeeping(sized, apart, power);
    return values.map((value, index) => roundAt(value, kept, parts[index]?.whole ?? false));
}

function convertedPower(part: Part, unit: Unit): number {
    return isTemperaturePoint(part)
        ? Math.min(part.surePower, 0)
        : powerWithin(powerOfTen(part.surePower).mul(unitFactor(part.unit)).div(unitFactor(unit)));
}

// A whole degree Celsius is coarser than a whole degree Fahrenheit; half a degree keeps them apart.
function halvesSuit(parts: readonly Part[], to: Unit): boolean {
    return parts.every(
        part => isTemperaturePoint(part) && part.whole && unitFactor(part.unit).compare(unitFactor(to)) < 0,
    );
}

function roundToHalves(values: readonly Fraction[], apart: readonly Fraction[]): readonly RoundedNumber[] | undefined {
    const rounded = values.map(roundToHalf);
    const different = new Set(rounded.map(({ number }) => number.text)).size;
    return apart.length === 0 || different === new Set(apart.map(value => value.toFraction())).size
        ? rounded
        : undefined;
}
