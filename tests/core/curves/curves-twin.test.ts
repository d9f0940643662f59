/** Curves of every shape against a twin that tries many values one by one. */

import fc from 'fast-check';
import Fraction from 'fraction.js';
import { describe, expect, test } from 'vitest';
import { image, inputAt, preimage, valueAt } from '../../../language/src/core/curves/curve.js';
import type { Curve } from '../../../language/src/core/curves/curve-shape.js';
import { contains, type End, type Interval } from '../../../language/src/core/quantities/intervals.js';
import { runs } from '../../property/runs.js';
import { holds } from './curves.js';
import { curves, placeIn, share, stretches } from './random-curves.js';

const curveAndStretch = curves.chain(curve => fc.tuple(fc.constant(curve), stretches(curve.domain)));
const curveAndOutputs = curves.chain(curve => fc.tuple(fc.constant(curve), stretches(curve.range)));

// Sixty-one places from end to end.
const places = Array.from({ length: 61 }, (_, at) => new Fraction(BigInt(at), 60n));

describe('the image of a stretch', () => {
    test('holds the value of every input in it', () => {
        fc.assert(
            fc.property(curveAndStretch, share, ([curve, inputs], at) => {
                const input = placeIn(inputs, at);
                fc.pre(contains(inputs, input) && contains(curve.domain, input));
                expect(holds(image(curve, inputs).outputs, valueAt(curve, input))).toBe(true);
            }),
            runs(1500),
        );
    });

    test('goes hardly further than the values of many inputs in it', () => {
        fc.assert(
            fc.property(curveAndStretch, ([curve, inputs]) => {
                const { outputs, beyond } = image(curve, inputs);
                expect(beyond).toBe(false);
                const values = sampled(curve, inputs).map(value => value.valueOf());
                const [low, high] = [Math.min(...values), Math.max(...values)];
                // Corners between two samples can be missed by a table, and by nothing else.
                const slack = curve.shape.sort === 'table' ? slackOfTable(curve, inputs) : tiny(low, high);
                expect(low - (outputs?.low?.value.valueOf() ?? Number.NaN)).toBeLessThanOrEqual(slack);
                expect((outputs?.high?.value.valueOf() ?? Number.NaN) - high).toBeLessThanOrEqual(slack);
            }),
            runs(200),
        );
    });

    test('says of a stretch that reaches out that it is beyond, and gives what it gives for the part inside', () => {
        fc.assert(
            fc.property(curveAndStretch, ([curve, inputs]) => {
                const { low } = inputs;
                const further: Interval = low === undefined ? {} : { low };
                expect(image(curve, further)).toEqual({
                    outputs: image(curve, { ...further, ...highOf(curve.domain) }).outputs,
                    beyond: true,
                });
            }),
            runs(200),
        );
    });
});

describe('the course', () => {
    test('is that of every two values', () => {
        fc.assert(
            fc.property(curves, share, share, (curve, a, b) => {
                fc.pre(curve.course !== 'neither' && a.compare(b) < 0);
                const [first, second] = [a, b].map(at => valueAt(curve, placeIn(curve.domain, at)));
                fc.pre(first !== undefined && second !== undefined);
                const order = second.compare(first);
                // Two inputs that are near each other can have the same 12 digits, and so can two rows.
                expect(curve.course === 'rising' ? order >= 0 : order <= 0).toBe(true);
                expect(order !== 0 || b.sub(a).valueOf() < 1e-5 || curve.shape.sort === 'table').toBe(true);
            }),
            runs(1000),
        );
    });

    test('is neither only where many values one after the other go up and down, or stay', () => {
        fc.assert(
            fc.property(curves, curve => {
                fc.pre(curve.course === 'neither');
                const inputs = cornersOf(curve);
                const values = inputs.map(input => valueAt(curve, input) as Fraction);
                const steps = new Set(
                    values.slice(1).map((value, at) => Math.sign(value.compare(values[at] as Fraction))),
                );
                expect(steps.size > 1 || steps.has(0)).toBe(true);
            }),
            runs(500),
        );
    });
});

describe('the input for a value', () => {
    test('is the input that gave it, as nearly as 12 digits of the value can tell', () => {
        fc.assert(
            fc.property(curves, share, (curve, at) => {
                const input = placeIn(curve.domain, at);
                const output = valueAt(curve, input);
                fc.pre(curve.course !== 'neither' && output !== undefined);
                const back = inputAt(curve, output);
                expect(back).toBeDefined();
                const error = (back as Fraction).sub(input).abs().valueOf();
                expect(error).toBeLessThanOrEqual(accuracy(curve, input, output));
            }),
            runs(1500),
        );
    });

    test('is none where the curve is not strictly rising or falling', () => {
        fc.assert(
            fc.property(curves, share, (curve, at) => {
                fc.pre(curve.course === 'neither');
                expect(inputAt(curve, placeIn(curve.range, at))).toBeUndefined();
            }),
            runs(300),
        );
    });
});

describe('the preimage of a stretch', () => {
    test('holds the input for every output in it', () => {
        fc.assert(
            fc.property(curveAndOutputs, share, ([curve, outputs], at) => {
                const output = placeIn(outputs, at);
                fc.pre(curve.course !== 'neither' && contains(outputs, output));
                const { outputs: inputs, beyond } = preimage(curve, outputs);
                expect(beyond).toBe(false);
                const input = inputAt(curve, output);
                fc.pre(input !== undefined);
                expect(holds(inputs, input)).toBe(true);
            }),
            runs(1500),
        );
    });

    test('leads to the stretch again, and hardly further', () => {
        fc.assert(
            fc.property(curveAndOutputs, ([curve, outputs]) => {
                fc.pre(curve.course !== 'neither');
                const inputs = preimage(curve, outputs).outputs ?? {};
                const again = image(curve, inputs).outputs;
                const { low, high } = outputs;
                fc.pre(low !== undefined && high !== undefined);
                // The steepest law is that of three constants near its bend: there the twelfth digit of a temperature is worth most.
                const slack = 1e-8 * Math.max(...[low, high].map(end => Math.abs(end?.value.valueOf() ?? 0)));
                expect(distance(again?.low, low)).toBeLessThanOrEqual(slack);
                expect(distance(again?.high, high)).toBeLessThanOrEqual(slack);
            }),
            runs(400),
        );
    });
});

function distance(a: End | undefined, b: End | undefined): number {
    return a === undefined || b === undefined ? Number.POSITIVE_INFINITY : a.value.sub(b.value).abs().valueOf();
}

function sampled(curve: Curve, inputs: Interval): readonly Fraction[] {
    return places
        .map(at => placeIn(inputs, at))
        .map(input => valueAt(curve, input))
        .filter(value => value !== undefined);
}

function highOf({ high }: Interval): Interval {
    return high === undefined ? {} : { high };
}

function tiny(...values: readonly number[]): number {
    return 2e-11 * Math.max(...values.map(Math.abs)) + 2e-15;
}

// No further than the steepest pair of rows goes in one step of the samples.
function slackOfTable(curve: Curve, { low, high }: Interval): number {
    if (curve.shape.sort !== 'table' || low === undefined || high === undefined) {
        throw new Error('the test takes another curve for a table');
    }
    const { rows } = curve.shape;
    const step = high.value.sub(low.value).div(60).valueOf();
    const slopes = rows.slice(1).map((row, at) => {
        const before = rows[at] ?? row;
        const [first, second] = [before.output.valueOf(), row.output.valueOf()];
        const width = row.input.sub(before.input).valueOf();
        // The logarithm is steepest at the larger output: y·ln(y₂/y₁) per width.
        return (
            (Math.max(first, second) * Math.max(Math.abs(Math.log(second / first)), 1) + Math.abs(second - first)) /
            width
        );
    });
    return step * Math.max(...slopes) + 1e-9;
}

function cornersOf(curve: Curve): readonly Fraction[] {
    const inside = curve.shape.sort === 'table' ? curve.shape.rows.map(({ input }) => input) : [];
    return [placeIn(curve.domain, new Fraction(0)), ...inside, placeIn(curve.domain, new Fraction(1))]
        .filter(input => contains(curve.domain, input))
        .sort((a, b) => a.compare(b))
        .filter((input, at, all) => at === 0 || !input.equals(all[at - 1] as Fraction));
}

// One unit of the twelfth digit of the output, divided by the slope there, and of the input.
function accuracy(curve: Curve, input: Fraction, output: Fraction): number {
    const width = (curve.domain.high?.value.valueOf() ?? 0) - (curve.domain.low?.value.valueOf() ?? 0);
    const step = new Fraction(BigInt(Math.max(1, Math.round(width * 1e3))), 10n ** 7n);
    const near = [input.add(step), input.sub(step)].flatMap(next => valueAt(curve, next) ?? []);
    const rises = near.map(value => value.sub(output).abs().valueOf() / step.valueOf());
    return 4 * (tiny(output.valueOf()) / Math.min(...rises)) + tiny(input.valueOf(), width);
}
