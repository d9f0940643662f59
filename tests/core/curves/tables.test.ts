/** Tables of an author: straight lines between the rows, or straight lines of the logarithm. */

import type Fraction from 'fraction.js';
import { describe, expect, test } from 'vitest';
import { image, inputAt, makeCurve, preimage, valueAt } from '../../../language/src/core/curves/curve.js';
import { exact } from '../quantities/read.js';
import { curveOf, kelvins, stretch, table } from './curves.js';

describe('a linear table', () => {
    const curve = curveOf(
        table(
            [
                ['0', '10'],
                ['3', '11'],
                ['4', '31'],
            ],
            'linear',
        ),
    );

    test('is exact between its rows, in both directions', () => {
        expect(valueAt(curve, exact('1'))).toEqual(exact('31').div(3));
        expect(inputAt(curve, exact('31').div(3))).toEqual(exact('1'));
        expect(valueAt(curve, exact('3.5'))).toEqual(exact('21'));
        expect(valueAt(curve, exact('4'))).toEqual(exact('31'));
        expect(inputAt(curve, exact('10'))).toEqual(exact('0'));
    });

    test('has no value outside its rows', () => {
        expect(valueAt(curve, exact('-0.1'))).toBeUndefined();
        expect(valueAt(curve, exact('4.1'))).toBeUndefined();
        expect(inputAt(curve, exact('9.9'))).toBeUndefined();
        expect(image(curve, { high: { value: exact('3'), closed: true } })).toEqual({
            outputs: stretch(exact('10'), exact('11')),
            beyond: true,
        });
    });

    test('reads the same from the last row to the first', () => {
        const reversed = curveOf(
            table(
                [
                    ['4', '31'],
                    ['3', '11'],
                    ['0', '10'],
                ],
                'linear',
            ),
        );
        expect(reversed.course).toBe('rising');
        expect(valueAt(reversed, exact('3.5'))).toEqual(exact('21'));
        expect(inputAt(reversed, exact('21'))).toEqual(exact('3.5'));
    });
});

describe('a table that turns', () => {
    const shape = table(
        [
            ['0', '5'],
            ['2', '9'],
            ['3', '1'],
            ['7', '4'],
        ],
        'linear',
    );
    const curve = curveOf(shape);

    test('gives the highest and the lowest value inside a stretch, not those at its ends', () => {
        expect(image(curve, stretch(exact('1'), exact('4'))).outputs).toEqual(stretch(exact('1'), exact('9')));
        const open = { low: { value: exact('2'), closed: false }, high: { value: exact('3'), closed: false } };
        expect(image(curve, open).outputs).toEqual({
            low: { value: exact('1'), closed: false },
            high: { value: exact('9'), closed: false },
        });
    });

    test('cannot be read backward', () => {
        expect(curve.course).toBe('neither');
        expect(inputAt(curve, exact('5'))).toBeUndefined();
        expect(preimage(curve, stretch(exact('2'), exact('5'))).outputs).toBeUndefined();
    });

    test('can be read backward where its limits leave a part that only falls or only rises', () => {
        const falling = curveOf(shape, stretch(exact('2.25'), exact('3')));
        expect(falling.course).toBe('falling');
        expect(falling.range).toEqual(stretch(exact('1'), exact('7')));
        expect(inputAt(falling, exact('5'))).toEqual(exact('2.5'));
        expect(inputAt(falling, exact('8'))).toBeUndefined();
        const rising = curveOf(shape, stretch(exact('4'), exact('6')));
        expect(inputAt(rising, exact('2.5'))).toEqual(exact('5'));
    });

    test('that stays level in one place cannot be read backward either', () => {
        const level = curveOf(
            table(
                [
                    ['0', '5'],
                    ['2', '5'],
                    ['3', '6'],
                ],
                'linear',
            ),
        );
        expect(level.course).toBe('neither');
    });
});

describe('a logarithmic table', () => {
    const curve = curveOf(
        table(
            [
                ['-1', '0.1'],
                ['1', '10'],
                ['2', '1000'],
            ],
            'logarithmic',
        ),
    );

    test('gives the geometric mean half-way, and has no noise there', () => {
        // √(0.1 × 10) = 1 and √(10 × 1000) = 100: the definition of the mean.
        expect(valueAt(curve, exact('0'))).toEqual(exact('1'));
        expect(valueAt(curve, exact('1.5'))).toEqual(exact('100'));
        expect(inputAt(curve, exact('1'))).toEqual(exact('0'));
        expect(inputAt(curve, exact('100'))).toEqual(exact('1.5'));
        expect(image(curve, stretch(exact('0'), exact('1.5'))).outputs).toEqual(stretch(exact('1'), exact('100')));
        expect(preimage(curve, stretch(exact('1'), exact('100'))).outputs).toEqual(stretch(exact('0'), exact('1.5')));
    });

    test('is read backward to all digits also where its outputs are nearly the same', () => {
        const flat = curveOf(
            table(
                [
                    ['0', '10'],
                    ['100', '10.0000001'],
                ],
                'logarithmic',
            ),
        );
        // 100 × ln(1 + 5e-9)/ln(1 + 1e-8) = 50 × (1 + 2.5e-9), by the series of the logarithm.
        expect(inputAt(flat, exact('10.00000005'))).toEqual(exact('50.000000125'));
    });

    test('leads from an output within the rounding of its last row to that row', () => {
        const fine = curveOf(
            table(
                [
                    ['0', '1'],
                    ['1', '5'],
                    ['10', '6.0000000000004'],
                ],
                'logarithmic',
            ),
        );
        expect(fine.range.high?.value).toEqual(exact('6.00000000001'));
        expect(inputAt(fine, exact('6.000000000005'))).toEqual(exact('10'));
    });

    test('gives its own rows back, to 12 digits', () => {
        const rows = [
            ['0.12345678901234567', '6894.757293168361'],
            ['1', '7000'],
            ['1.5', '0.3'],
        ] as const;
        const fine = curveOf(table(rows, 'logarithmic'), stretch(exact('0.12345678901234567'), exact('1')));
        expect(valueAt(fine, exact('0.12345678901234567'))).toEqual(exact('6894.75729317'));
        expect(valueAt(fine, exact('1'))).toEqual(exact('7000'));
        expect(inputAt(fine, exact('7000'))).toEqual(exact('1'));
        // What is rounded beside the row must lie in the range too.
        expect(fine.range.low?.value).toEqual(exact('6894.75729316'));
    });
});

describe('rows that make no table', () => {
    test.each([
        ['too few', [['0', '1']], { problem: 'too-few-rows' }],
        ['none', [], { problem: 'too-few-rows' }],
        [
            'out of order',
            [
                ['0', '1'],
                ['2', '2'],
                ['1', '3'],
            ],
            { problem: 'row-order', row: 2 },
        ],
        [
            'out of order, falling',
            [
                ['5', '1'],
                ['2', '2'],
                ['3', '3'],
            ],
            { problem: 'row-order', row: 2 },
        ],
        [
            'repeated',
            [
                ['0', '1'],
                ['2', '2'],
                ['2.0', '3'],
            ],
            { problem: 'repeated-input', row: 2, first: 1 },
        ],
        [
            'repeated at once',
            [
                ['0', '1'],
                ['0', '2'],
            ],
            { problem: 'repeated-input', row: 1, first: 0 },
        ],
        [
            'repeated further up',
            [
                ['0', '1'],
                ['2', '2'],
                ['0', '3'],
            ],
            { problem: 'repeated-input', row: 2, first: 0 },
        ],
        [
            'without a logarithm',
            [
                ['0', '1'],
                ['2', '0'],
            ],
            { problem: 'output-not-positive', row: 1 },
        ],
        [
            'without a logarithm',
            [
                ['0', '-1'],
                ['2', '1'],
            ],
            { problem: 'output-not-positive', row: 0 },
        ],
    ] as [string, [string, string][], object][])('%s', (_, rows, problem) => {
        expect(makeCurve(table(rows, 'logarithmic'))).toEqual(problem);
    });

    test('may be zero or negative in a linear one', () => {
        expect(
            curveOf(
                table(
                    [
                        ['0', '-1'],
                        ['2', '0'],
                    ],
                    'linear',
                ),
            ).course,
        ).toBe('rising');
    });
});

describe('the boiling pressure of R-134a', () => {
    // Absolute kilopascals of the saturated refrigerant: 665.4 at 25 °C is NIST, seen second-hand; the others from memory.
    const points: readonly (readonly [celsius: number, kilopascals: string])[] = [
        [-20, '132.7'],
        [0, '292.8'],
        [10, '414.6'],
        [20, '571.7'],
        [25, '665.4'],
        [30, '770.2'],
        [40, '1016.6'],
        [60, '1681.8'],
    ];

    function worstError(rows: readonly number[], interpolation: 'linear' | 'logarithmic'): number {
        const kept = points.filter(([celsius]) => rows.includes(celsius));
        const curve = curveOf(
            table(
                kept.map(([celsius, pressure]) => [kelvins(celsius).toString(), pressure]),
                interpolation,
            ),
        );
        const leftOut = points.filter(([celsius]) => !rows.includes(celsius));
        expect(leftOut.length).toBeGreaterThan(0);
        return Math.max(
            ...leftOut.map(([celsius, pressure]) =>
                (valueAt(curve, kelvins(celsius)) as Fraction).div(exact(pressure)).sub(1).abs().valueOf(),
            ),
        );
    }

    test('comes within 1.5 % from rows 20 K apart by the logarithm, and within 5 % only by straight lines', () => {
        expect(worstError([-20, 0, 20, 40, 60], 'logarithmic')).toBeLessThan(0.015);
        const straight = worstError([-20, 0, 20, 40, 60], 'linear');
        expect(straight).toBeGreaterThan(0.04);
        expect(straight).toBeLessThan(0.05);
    });

    test('comes within 0.3 % from rows 10 K apart by the logarithm', () => {
        expect(worstError([-20, 0, 10, 20, 30, 40, 60], 'logarithmic')).toBeLessThan(0.003);
    });

    test('leads back to the temperature within half a kelvin', () => {
        const rows = points.filter(([celsius]) => celsius % 20 === 0);
        const curve = curveOf(
            table(
                rows.map(([celsius, pressure]) => [kelvins(celsius).toString(), pressure]),
                'logarithmic',
            ),
        );
        for (const [celsius, pressure] of points) {
            const back = inputAt(curve, exact(pressure)) as Fraction;
            expect(Math.abs(back.sub(kelvins(celsius)).valueOf())).toBeLessThan(0.5);
        }
    });
});
