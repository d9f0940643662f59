/** The other system of units for any number and unit: compared with a search that tries every place a number can be rounded at. */

import fc from 'fast-check';
import Fraction from 'fraction.js';
import { describe, expect, test } from 'vitest';
import type { QuantityBand } from '../../language/src/core/quantities/bands.js';
import { decimalToFraction, parseDecimal } from '../../language/src/core/quantities/decimal.js';
import { dimensions, sameDimensions } from '../../language/src/core/quantities/dimensions.js';
import { bandInOtherSystem, inOtherSystem } from '../../language/src/core/quantities/other-system.js';
import { type Measured, unitsIn } from '../../language/src/core/quantities/other-units.js';
import { display, makeQuantity, parseQuantity, type Quantity } from '../../language/src/core/quantities/quantity.js';
import { quantityKinds, unitFits } from '../../language/src/core/quantities/quantity-kinds.js';
import { type Unit, unitFactor, units } from '../../language/src/core/quantities/unit.js';
import { convert, convertDifference, convertible } from '../../language/src/core/quantities/unit-conversion.js';

const systems = ['SI', 'US customary'] as const;
const cases: readonly Measured[] = [
    {},
    { asDifference: true },
    { quantity: 'vacuum' },
    { heat: true },
    { quantity: 'vacuum', asDifference: true, heat: true },
];
const convertibles = units.filter(unit => systems.some(system => unitsIn(system, unit, {}).length > 0));

describe('the table of other units', () => {
    test.each(cases)('leads from every unit to one of the same sort, the last one for any size: %j', measured => {
        for (const unit of units) {
            for (const system of systems) {
                const candidates = unitsIn(system, unit, measured);
                const wrong = candidates.filter(one => !convertible(unit, one.unit) || one.unit === unit);
                expect([unit.symbol, wrong]).toEqual([unit.symbol, []]);
                const limits = candidates.map(({ below }) => below);
                expect([unit.symbol, limits.indexOf(undefined)]).toEqual([unit.symbol, limits.length - 1]);
            }
        }
    });

    test('leads to a unit that the same quantities are measured in', () => {
        for (const kind of quantityKinds.values()) {
            for (const unit of units.filter(one => unitFits(kind, one))) {
                const measured: Measured = { quantity: kind.name };
                const others = systems.flatMap(system => unitsIn(system, unit, measured)).map(one => one.unit);
                expect([kind.name, unit.symbol, others.filter(one => !unitFits(kind, one))]).toEqual([
                    kind.name,
                    unit.symbol,
                    [],
                ]);
            }
        }
    });

    test('leads back: what is shown for one system stays as it is in that system, and has another in the other', () => {
        for (const unit of convertibles) {
            const [forward, back] = unitsIn('SI', unit, {}).length > 0 ? systems : [...systems].reverse();
            for (const one of unitsIn(forward ?? 'SI', unit, {})) {
                expect([unit.symbol, one.unit.symbol, unitsIn(forward ?? 'SI', one.unit, {})]).toEqual([
                    unit.symbol,
                    one.unit.symbol,
                    [],
                ]);
                const heatOnly = ['W', 'kW', 'MW', 'kJ', 'MJ', 'GJ'].includes(one.unit.symbol);
                const there = unitsIn(back ?? 'SI', one.unit, { heat: heatOnly });
                expect([unit.symbol, one.unit.symbol, there.length > 0]).toEqual([unit.symbol, one.unit.symbol, true]);
            }
        }
    });
});

describe('a converted number', () => {
    test('is rounded at the coarsest place that the rule allows', () => {
        fc.assert(
            fc.property(fc.constantFrom(...convertibles), decimalText, fc.boolean(), (unit, text, asDifference) => {
                const written = quantityOf(text, unit);
                const shown = inOtherSystem(written, { asDifference });
                const point = !asDifference && sameDimensions(unit.dimension, dimensions.temperature);
                if (shown?.quantity.unit === undefined) {
                    throw new Error(`${display(written)} has no other`);
                }
                const turn = asDifference ? convertDifference : convert;
                const value = turn(decimalToFraction(written.number), unit, shown.quantity.unit) ?? new Fraction(0);
                const found = decimalToFraction(shown.quantity.number);
                const expected = point
                    ? temperatureByHand(value, text, unit, shown.quantity.unit)
                    : roundedByHand(value, stepByHand(text).mul(unitFactor(unit)).div(unitFactor(shown.quantity.unit)));
                expect([display(written), found.toFraction()]).toEqual([display(written), expected.toFraction()]);
                expect(shown.exact).toBe(found.equals(value));
                expect(parseQuantity(shown.text)).toMatchObject({ unit: shown.quantity.unit });
            }),
            { numRuns: 500 },
        );
    });

    test('of a range keeps two ends apart and in order, and is never farther off than a step of what was written', () => {
        fc.assert(
            fc.property(fc.constantFrom(...convertibles), decimalText, decimalText, (unit, a, b) => {
                const [from, to] = [quantityOf(a, unit), quantityOf(b, unit)];
                const band: QuantityBand = { sort: 'range', from, fromOpen: false, to, toOpen: true };
                const shown = bandInOtherSystem(band)?.band;
                if (shown?.sort !== 'range' || shown.from.unit === undefined) {
                    throw new Error(`${a} .. ${b} ${unit.symbol} has no other`);
                }
                expect(shown.to.unit).toBe(shown.from.unit);
                expect([shown.fromOpen, shown.toOpen]).toEqual([false, true]);
                const order = (x: Quantity, y: Quantity) =>
                    decimalToFraction(x.number).compare(decimalToFraction(y.number));
                expect(Math.sign(order(shown.from, shown.to))).toBe(Math.sign(order(from, to)));
                for (const [written, end] of [
                    [from, shown.from],
                    [to, shown.to],
                ] as const) {
                    const value = convert(decimalToFraction(written.number), unit, shown.from.unit) ?? new Fraction(0);
                    const off = decimalToFraction(end.number).sub(value).abs();
                    const step = stepByHand(written.number.text).mul(unitFactor(unit)).div(unitFactor(shown.from.unit));
                    expect(off.compare(step) <= 0).toBe(true);
                }
            }),
            { numRuns: 300 },
        );
    });
});

// The twins below know the rule from the docstring of inOtherSystem and nothing else of how it is done.

function stepByHand(text: string): Fraction {
    const [mantissa = '', exponent = '0'] = text.replace('-', '').split('e');
    const [, fraction] = mantissa.split('.');
    if (fraction !== undefined) {
        return ten(Number(exponent) - fraction.length);
    }
    // Nothing but the first two digits counts for sure among the zeros that end a whole number.
    let zeros = 0;
    while (mantissa.length - zeros > 2 && mantissa.endsWith('0'.repeat(zeros + 1))) {
        zeros += 1;
    }
    return ten(zeros);
}

function roundedByHand(value: Fraction, step: Fraction): Fraction {
    for (let power = 60; power > -120; power -= 1) {
        if (ten(power).compare(step) > 0) {
            continue;
        }
        const rounded = nearest(value, ten(power));
        if (rounded.sub(value).abs().mul(50).compare(value.abs()) <= 0) {
            return rounded;
        }
    }
    throw new Error('no place was fine enough');
}

function temperatureByHand(value: Fraction, text: string, from: Unit, to: Unit): Fraction {
    const [, fraction] = text.split('.');
    if (fraction !== undefined) {
        return nearest(value, ten(-fraction.length));
    }
    return nearest(value, unitFactor(from).compare(unitFactor(to)) < 0 ? new Fraction(1, 2) : new Fraction(1));
}

// Halves go away from zero.
function nearest(value: Fraction, step: Fraction): Fraction {
    const whole = value.abs().div(step).add(new Fraction(1, 2)).floor().mul(step);
    return value.s < 0n ? whole.neg() : whole;
}

function ten(power: number): Fraction {
    return power < 0 ? new Fraction(1n, 10n ** BigInt(-power)) : new Fraction(10n ** BigInt(power), 1n);
}

function quantityOf(text: string, unit: Unit): Quantity {
    const number = parseDecimal(text);
    if (number === undefined) {
        throw new Error(`the test uses ${text} as a number`);
    }
    return makeQuantity(number, unit);
}

const decimalText = fc
    .tuple(fc.integer({ min: -99_999, max: 99_999 }), fc.constantFrom(0, 1, 2, 3), fc.boolean())
    .map(([digits, places, zeros]) => (zeros ? (digits * 100) / 10 ** places : digits / 10 ** places).toFixed(places));
