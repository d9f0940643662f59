// A quantity or a band as it reads in the other system of units: psi and kPa, °F and °C, ft·lbf and N·m.
//
// What is shown here is an aid to reading. What was written counts: bands are compared by their exact ends, never by these.

import { displayBand, isShareOf, type QuantityBand, withUnitOf } from './bands.js';
import { convertParts, isTemperaturePoint, type Part, partOf } from './other-parts.js';
import { type Measured, type UnitSystem, unitsIn } from './other-units.js';
import { coherentValue, display, type Quantity } from './quantity.js';
import type { Unit } from './unit.js';

export type { Measured, UnitSystem } from './other-units.js';

/** What a reader wants to see. `as written` leaves every value as its writer put it. */
export type UnitPreference = 'as written' | UnitSystem;

/** Every preference, the usual one first. */
export const unitPreferences: readonly UnitPreference[] = ['as written', 'SI', 'US customary'];

/** A quantity in the other system. */
export interface OtherQuantity {
    /** The number, rounded as finely as it was written, and its unit. */
    readonly quantity: Quantity;
    /** What to show: `165 kPa`. */
    readonly text: string;
    /** False where the number was rounded. */
    readonly exact: boolean;
}

/** A band in the other system, all its parts in one unit. */
export interface OtherBand {
    readonly band: QuantityBand;
    /** What to show: `148.9 kPa .. 182.0 kPa`. */
    readonly text: string;
    /** False where an end was rounded. */
    readonly exact: boolean;
}

/**
 * The quantity in the other system: 24 psi is 165 kPa, 25 °C is 77 °F, a difference of 9 °F is one of 5 K.
 * A unit of neither system (kgf/cm², imperial gallon) is shown in SI.
 * Undefined where there is no other unit: electrical units, times, shares, money, plain numbers, units that are not known.
 *
 * How it is rounded, always from the exact value and once, halves away from zero:
 * 1. The last digit shown is the largest power of ten that is no larger than the last sure digit of the written number (`lastSurePower`),
 *    converted: a step of 0.1 psi is one of 0.69 kPa, so tenths of a psi give tenths of a kPa (NIST SP 811, B.7.2: 36 ft is 11.0 m; seen second-hand).
 * 2. Where this would move the value by more than 2 %, it gets further digits: 10 bar is 145 psi, not 150 psi.
 * 3. A temperature keeps its place, as tenths of °F give tenths of °C; whole °F give the nearest half °C
 *    (IEEE/ASTM SI 10, from memory), since a whole °C is coarser than a whole °F.
 * 4. A whole number that converts exactly shows no zeros after its point: 77 °F is 25 °C.
 */
export function inOtherSystem(quantity: Quantity, measured: Measured = {}): OtherQuantity | undefined {
    const system = quantity.unit && otherSystemOf(quantity.unit, measured);
    return system && inSystem(quantity, system, measured);
}

/** The quantity as a reader with this preference wants it. Undefined where it is to be shown as it was written. */
export function inPreferredSystem(
    quantity: Quantity,
    preference: UnitPreference,
    measured: Measured = {},
): OtherQuantity | undefined {
    return preference === 'as written' ? undefined : inSystem(quantity, preference, measured);
}

/**
 * The whole band in the other system: `21.6 psi .. 26.4 psi` is `148.9 kPa .. 182.0 kPa`, `< 3 psi` is `< 21 kPa`.
 * Its parts share one unit, chosen for the largest of them, and one last digit, that of the finest of them (a zero without decimals aside);
 * two ends that differ stay different. A tolerance in percent stays (`24 psi ± 10 %` is `165 kPa ± 10 %`) and `± 2 psi` is converted as a difference.
 * Only a percentage of a temperature becomes a difference, because 10 % of 72 °F is 4 K while 10 % of 22.2 °C is 2.2 K.
 * Undefined as for a quantity, and for a band whose parts do not fit each other.
 */
export function bandInOtherSystem(band: QuantityBand, measured: Measured = {}): OtherBand | undefined {
    const systems = partsOf(band, measured)?.map(({ unit }) => otherSystemOf(unit, measured));
    const system = systems?.find(other => other !== undefined);
    return system && bandInSystem(band, system, measured);
}

/** The band as a reader with this preference wants it. Undefined where it is to be shown as it was written. */
export function bandInPreferredSystem(
    band: QuantityBand,
    preference: UnitPreference,
    measured: Measured = {},
): OtherBand | undefined {
    return preference === 'as written' ? undefined : bandInSystem(band, preference, measured);
}

// SI comes first, for the units that belong to neither system.
function otherSystemOf(unit: Unit, measured: Measured): UnitSystem | undefined {
    const systems = ['SI', 'US customary'] as const;
    return systems.find(system => unitsIn(system, unit, measured).length > 0);
}

function inSystem(quantity: Quantity, system: UnitSystem, measured: Measured): OtherQuantity | undefined {
    const part = partOf(quantity, measured.asDifference ?? false);
    const shown = part && convertParts([part], system, measured, false);
    const [converted] = shown?.quantities ?? [];
    return shown && converted && { quantity: converted, text: display(converted), exact: shown.exact };
}

function bandInSystem(band: QuantityBand, system: UnitSystem, measured: Measured): OtherBand | undefined {
    const parts = partsOf(band, measured);
    const shown = parts && convertParts(parts, system, measured, band.sort === 'range');
    const converted = shown && withQuantities(band, shown.quantities);
    return converted && { band: converted, text: displayBand(converted), exact: shown.exact };
}

// The numbers of a band that carry its unit; undefined where one has none.
function partsOf(band: QuantityBand, { asDifference = false }: Measured): readonly Part[] | undefined {
    switch (band.sort) {
        case 'limit':
            return known([partOf(band.value, asDifference)]);
        case 'range':
            return known([partOf(withUnitOf(band.from, band.to), asDifference), partOf(band.to, asDifference)]);
        case 'around': {
            const { value, tolerance } = band;
            if (tolerance === undefined) {
                return known([partOf(value, asDifference)]);
            }
            if (!isShareOf(tolerance, value)) {
                return known([
                    partOf(withUnitOf(value, tolerance), asDifference),
                    partOf(withUnitOf(tolerance, value), true),
                ]);
            }
            const middle = partOf(value, asDifference);
            return middle && isTemperaturePoint(middle) ? [middle, shareOf(tolerance, middle)] : known([middle]);
        }
    }
}

function known(parts: readonly (Part | undefined)[]): readonly Part[] | undefined {
    const found = parts.filter(part => part !== undefined);
    return found.length === parts.length ? found : undefined;
}

// The share is taken of the number as it is written, as it is for the band itself, and told as finely as that number.
function shareOf(tolerance: Quantity, middle: Part): Part {
    const share = coherentValue(tolerance) ?? middle.value.sub(middle.value);
    return { ...middle, value: middle.value.abs().mul(share), isDifference: true };
}

function withQuantities(band: QuantityBand, [first, second]: readonly Quantity[]): QuantityBand | undefined {
    if (first === undefined) {
        return undefined;
    }
    switch (band.sort) {
        case 'limit':
            return { ...band, value: first };
        case 'range':
            return second && { ...band, from: first, to: second };
        case 'around':
            return { ...band, value: first, tolerance: second ?? band.tolerance };
    }
}
