/** The laws of curves as the player computes them: against published tables, and against the curves of the verifier. */
import Fraction from 'fraction.js';
import { describe, expect, test } from 'vitest';
import { inputAt, isCurveProblem, makeCurve, valueAt } from '../../language/src/core/curves/curve.js';
import type { CurveShape } from '../../language/src/core/curves/curve-shape.js';
import type { Curve, Law, Quantity } from '../../language/src/document/types.js';
import { lookUp } from '../../language/src/player/laws.js';
import { rational, toNumber } from '../../language/src/player/rational.js';
import { randomFrom } from '../property/random.js';
import { played, walkedTrees } from './walks.js';

const text = `equipment e "E" {
  part a "A" { replace "R." takes 1 min fault f "F" rate 1 per 1e6 h }
  test t "T" { checks a.f as low measure temperature takes 1 min normal >= 5 °C low otherwise }
}
tree x "X" of e {
  complaint t low
  step s "S" { test t { normal -> n  low -> c } }
  conclude c "C" { a.f }
  refer n "N" because "n"
}
`;
const [walked] = walkedTrees({ 'e.fault': text });
if (!walked) throw new Error('The text has a tree.');
const { tree } = played(walked.tree, [], []);

const quantity = (value: number, unit: string): Quantity => ({ value, unit, display: `${value} ${unit}` });

function curve(law: Law): Curve {
    return { id: 'curve', law };
}

/** What the curve gives at a temperature in °C, as a table prints it. */
function printed(law: Law, celsius: number, decimals: number, share = 1): string {
    const value = lookUp(curve(law), rational(Math.round((celsius + 273.15) * 1e6) / 1e6), false, tree);
    return value ? (toNumber(value) / share).toFixed(decimals) : 'none';
}

const platinum: Law = { law: 'platinum', atZero: quantity(100, 'Ohm') };

describe('published values', () => {
    // IEC 60751:2008, table 1, seen second-hand in public copies.
    test.each([
        [-200, '18.52'],
        [-100, '60.26'],
        [0, '100.00'],
        [100, '138.51'],
        [250, '194.10'],
        [850, '390.48'],
        [850.1, 'none'],
        [-200.1, 'none'],
    ])('a platinum sensor of 100 Ω at %d °C has %s Ω', (celsius, ohms) => {
        expect(printed(platinum, celsius, 2)).toBe(ohms);
    });

    // NIST Standard Reference Database 60 (ITS-90), seen second-hand in public copies.
    test.each([
        ['K', -200, '-5.891'],
        ['K', 0, '0.000'],
        ['K', 500, '20.644'],
        ['K', 1000, '41.276'],
        ['J', 100, '5.269'],
        ['J', 760, '42.919'],
        ['T', 100, '4.279'],
        ['T', -200, '-5.603'],
        ['E', 500, '37.005'],
        ['E', -200, '-8.825'],
        ['N', 500, '16.748'],
        ['N', -200, '-3.990'],
    ] as const)('a thermocouple of type %s at %d °C gives %s mV', (letter, celsius, millivolts) => {
        expect(printed({ law: 'thermocouple', letter }, celsius, 3, 1e-3).replace('-0.000', '0.000')).toBe(millivolts);
    });

    // R₂ = R₁ (k + t₂)/(k + t₁), recomputed; k = 235 is IEC 60034-1, from memory.
    test('a winding of 10 Ω at 25 °C has 12.115385 Ω at 80 °C', () => {
        const winding: Law = {
            law: 'winding',
            resistance: quantity(10, 'Ohm'),
            temperature: quantity(25, 'Cel'),
            constant: quantity(235, 'K'),
        };
        expect(printed(winding, 80, 6)).toBe('12.115385');
    });

    // I = 4 mA + 16 mA × share (IEC 60381-1); 3.8 mA and 20.5 mA are the last that count (NAMUR NE 43). Seen second-hand.
    test.each([
        [4, '0'],
        [12, '500000'],
        [20, '1000000'],
        [3.8, '-12500'],
        [20.5, '1031250'],
        [3.79, 'none'],
        [20.51, 'none'],
    ])('a loop for 0 bar to 10 bar at %d mA stands for %s Pa', (milliamperes, pascals) => {
        const loop: Law = {
            law: 'loop',
            quantity: 'pressure',
            low: quantity(0, 'Pa'),
            high: quantity(1_000_000, 'Pa'),
        };
        const value = lookUp(curve(loop), rational(Number((milliamperes / 1000).toPrecision(12))), true, tree);
        expect(value ? String(toNumber(value)) : 'none').toBe(pascals);
    });
});

const shapes: readonly (readonly [Law, CurveShape])[] = [
    [platinum, { sort: 'platinum', atZero: 100 }],
    [
        {
            law: 'ntc',
            resistance: quantity(10_000, 'Ohm'),
            temperature: quantity(25, 'Cel'),
            beta: quantity(3950, 'K'),
        },
        { sort: 'ntc', resistance: 10_000, temperature: 298.15, beta: 3950 },
    ],
    [
        {
            law: 'steinhart-hart',
            a: quantity(1.129148e-3, '1'),
            b: quantity(2.34125e-4, '1'),
            c: quantity(8.76741e-8, '1'),
        },
        { sort: 'steinhart-hart', a: 1.129148e-3, b: 2.34125e-4, c: 8.76741e-8 },
    ],
    ...(['E', 'J', 'K', 'N', 'T'] as const).map(
        letter =>
            [
                { law: 'thermocouple', letter },
                { sort: 'thermocouple', type: letter },
            ] as const,
    ),
    [
        {
            law: 'winding',
            resistance: quantity(12.4, 'Ohm'),
            temperature: quantity(20, 'Cel'),
            constant: quantity(234.5, 'K'),
        },
        { sort: 'metal', resistance: 12.4, temperature: 293.15, constant: 234.5 },
    ],
];

test.each(shapes)('$law: as the verifier has it, forward and back', (law, shape) => {
    const made = makeCurve(shape);
    if (isCurveProblem(made)) throw new Error(made.problem);
    const random = randomFrom(20_260_131);
    const [low, high] = [made.domain.low?.value.valueOf() ?? 0, made.domain.high?.value.valueOf() ?? 0];
    for (let count = 0; count < 60; count++) {
        const input = Number((low + ((high - low) * random.between(1, 9999)) / 10_000).toPrecision(9));
        const expected = valueAt(made, new Fraction(input));
        const value = lookUp(curve(law), rational(input), false, tree);
        const [one, other] = [value && toNumber(value), expected?.valueOf()];
        expect(Math.abs((one ?? NaN) - (other ?? NaN))).toBeLessThanOrEqual(1e-10 * Math.abs(other ?? 0) + 1e-14);
        const back = value && lookUp(curve(law), value, true, tree);
        const backThere = expected && inputAt(made, expected);
        expect(Math.abs((back ? toNumber(back) : NaN) - (backThere?.valueOf() ?? NaN))).toBeLessThanOrEqual(1e-5);
    }
});

test('the limits of a curve count', () => {
    const limited: Curve = { ...curve(platinum), from: quantity(-10, 'Cel'), to: quantity(60, 'Cel') };
    expect(lookUp(limited, rational(263.15), false, tree)).toBeDefined();
    expect(lookUp(limited, rational(263), false, tree)).toBeUndefined();
    expect(lookUp(limited, rational(333.2), false, tree)).toBeUndefined();
});
