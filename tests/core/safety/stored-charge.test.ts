/** Energies and discharge times of capacitors against worked values: E = C·V²/2, t = R·C·ln(V0/V). All recomputed by hand. */
import { describe, expect, test } from 'vitest';
import {
    dischargeTime,
    harmlessVoltage,
    largestResistance,
    storedEnergy,
} from '../../../language/src/core/safety/stored-charge.js';

const micro = 1e-6;

test.each([
    // 100 µF at 400 V: 8.0 J. 2200 µF at 560 V: 344.96 J. 125 µF at 400 V: 10 J. Recomputed.
    [100, 400, 8],
    [2200, 560, 344.96],
    [125, 400, 10],
])('%d µF at %d V hold %d J', (microfarads, voltage, joules) => {
    expect(storedEnergy({ capacitance: microfarads * micro, voltage })).toBeCloseTo(joules, 9);
});

describe('the time of a discharge', () => {
    test('of 470 µF through 10 kΩ from 325 V to 60 V is 7.9406 s, more than the 5 s of IEC 60204-1', () => {
        // 10 000 Ω × 470 µF × ln(325 / 60), recomputed. IEC 60204-1, 6.2.4: to 60 V or less within 5 s, seen second-hand.
        const time = dischargeTime({ resistance: 10_000, capacitance: 470 * micro, voltage: 325 }, 60);
        expect(time).toBeCloseTo(7.9406, 4);
        expect(time).toBeGreaterThan(5);
    });

    test('is one time constant down to a share of 1/e', () => {
        // The definition of the time constant R·C.
        expect(dischargeTime({ resistance: 2000, capacitance: 500 * micro, voltage: 100 }, 100 / Math.E)).toBeCloseTo(
            1,
            12,
        );
    });

    test('is none where the voltage is low already', () => {
        expect(dischargeTime({ resistance: 1e6, capacitance: 1, voltage: 60 }, 60)).toBe(0);
        expect(dischargeTime({ resistance: 1e6, capacitance: 1, voltage: 12 }, 60)).toBe(0);
    });
});

describe('the largest resistance', () => {
    test('that empties 100 µF from 325 V to 60 V in 5 s is 29 595 Ω', () => {
        // 5 s / (100 µF × ln(325 / 60)), recomputed.
        expect(Math.round(largestResistance({ capacitance: 100 * micro, voltage: 325 }, 60, 5))).toBe(29_595);
    });

    test('needs just that time', () => {
        const charge = { capacitance: 47 * micro, voltage: 400 };
        const resistance = largestResistance(charge, 60, 3);
        expect(dischargeTime({ ...charge, resistance }, 60)).toBeCloseTo(3, 12);
    });

    test('is without limit where the voltage is low already', () => {
        expect(largestResistance({ capacitance: 1, voltage: 24 }, 60, 5)).toBe(Number.POSITIVE_INFINITY);
    });
});

describe('the voltage at which a capacitor can hurt no more', () => {
    test('is the limit for the voltage', () => {
        expect(harmlessVoltage(470 * micro, 60, 100)).toBe(60);
    });

    test('is lower where it would still hold more than the limit for the energy', () => {
        // 1 F with 100 J stands at √(2 × 100 J / 1 F) = 14.142 V, recomputed.
        expect(harmlessVoltage(1, 60, 100)).toBeCloseTo(14.142, 3);
        expect(storedEnergy({ capacitance: 1, voltage: harmlessVoltage(1, 60, 100) })).toBeCloseTo(100, 9);
    });
});
