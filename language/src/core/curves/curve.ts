// Curves: one quantity from another, forward and back, for single values and for stretches.
//
// Platinum sensors (forward), windings, loops and linear tables are exact. All else is computed to more than 12 significant digits and
// then rounded to 12: to the nearest for a single value, outward for the ends of a stretch.

import type Fraction from 'fraction.js';

import { contains, containsInterval, type End, type Interval, intersection } from '../quantities/intervals.js';
import type { Course, Curve, CurveProblem, CurveShape, Image } from './curve-shape.js';
import type { Computed, Law } from './law.js';
import { isProblem, lawOf } from './laws.js';
import { rounded, type Rounding } from './rounding.js';

/** The curve that follows the shape, for the inputs in `within` only; or why there is none. */
export function makeCurve(shape: CurveShape, within?: Interval): Curve | CurveProblem {
    const law = lawOf(shape);
    if (isProblem(law)) {
        return law;
    }
    const domain = within === undefined ? law.domain : intersection(law.domain, within);
    return domain === undefined
        ? { problem: 'nothing-within', domain: law.domain }
        : { shape, domain, range: outputsOver(law, domain), course: law.course ?? courseOver(law, domain) };
}

/** True where a curve could not be made. */
export function isCurveProblem(made: Curve | CurveProblem): made is CurveProblem {
    return isProblem(made);
}

/** The output for an input; undefined outside the domain. */
export function valueAt(curve: Curve, input: Fraction): Fraction | undefined {
    const law = lawOf(curve.shape);
    return isProblem(law) || !contains(curve.domain, input) ? undefined : rounded(law.outputAt(input), 'nearest');
}

/** The input that gives this output; undefined outside the range, and where the curve is not strictly rising or falling. */
export function inputAt(curve: Curve, output: Fraction): Fraction | undefined {
    const law = lawOf(curve.shape);
    if (isProblem(law) || curve.course === 'neither' || !contains(curve.range, output)) {
        return undefined;
    }
    const input = backward(law, curve.domain, output, 'nearest').value;
    return contains(curve.domain, input) ? input : undefined;
}

/** The outputs for a stretch of inputs. */
export function image(curve: Curve, inputs: Interval): Image {
    const law = lawOf(curve.shape);
    const stretch = intersection(curve.domain, inputs);
    const outputs = isProblem(law) || stretch === undefined ? undefined : outputsOver(law, stretch);
    return { outputs, beyond: !containsInterval(curve.domain, inputs) };
}

/**
 * The inputs that give a stretch of outputs, in the field `outputs` as for the other direction: what comes out when it is read backward.
 * There are none where the curve is not strictly rising or falling.
 */
export function preimage(curve: Curve, outputs: Interval): Image {
    const law = lawOf(curve.shape);
    const stretch = intersection(curve.range, outputs);
    const inputs =
        isProblem(law) || curve.course === 'neither' || stretch === undefined
            ? undefined
            : inputsOver(law, curve, stretch);
    return { outputs: inputs, beyond: !containsInterval(curve.range, outputs) };
}

/** A place on the curve, and whether it belongs to the stretch. */
interface Place {
    readonly output: Computed;
    readonly closed: boolean;
}

// Every domain ends on both sides, because every law does. Between two corners the output only grows or only falls.
function placesOver(law: Law, { low, high }: Interval): readonly Place[] {
    const inside = law.corners.filter(corner => contains({ ...open(low, 'low'), ...open(high, 'high') }, corner));
    const ends = (end: End | undefined): readonly Place[] =>
        end === undefined ? [] : [{ output: law.outputAt(end.value), closed: end.closed }];
    const corners = inside.map(corner => ({ output: law.outputAt(corner), closed: true }));
    return [...ends(low), ...corners, ...ends(high)];
}

function open(end: End | undefined, side: 'low' | 'high'): Interval {
    return end === undefined ? {} : { [side]: { value: end.value, closed: false } };
}

function outputsOver(law: Law, inputs: Interval): Interval {
    const places = placesOver(law, inputs);
    return { ...outermost(places, 'low'), ...outermost(places, 'high') };
}

function outermost(places: readonly Place[], side: 'low' | 'high'): Interval {
    const ends = places.map(({ output, closed }) => roundedEnd(output, closed, side === 'low' ? 'down' : 'up'));
    const [first, ...others] = ends;
    if (first === undefined) {
        return {};
    }
    const end = others.reduce((furthest, next) => {
        const order = next.value.compare(furthest.value) * (side === 'low' ? -1 : 1);
        return order > 0 || (order === 0 && next.closed) ? next : furthest;
    }, first);
    return { [side]: end };
}

// Rounded values near an open end may come to lie on it, so that it must belong to the interval.
function roundedEnd(computed: Computed, closed: boolean, rounding: Rounding): End {
    return { value: rounded(computed, rounding), closed: closed || !computed.exact };
}

function courseOver(law: Law, domain: Interval): Course {
    const outputs = placesOver(law, domain).map(({ output }) => output.value);
    const steps = outputs.slice(1).map((output, at) => Math.sign(output.compare(outputs[at] as Fraction)));
    if (steps.every(step => step > 0)) {
        return 'rising';
    }
    return steps.every(step => step < 0) ? 'falling' : 'neither';
}

function inputsOver(law: Law, { domain, course }: Curve, { low, high }: Interval): Interval | undefined {
    const [first, last] = course === 'rising' ? [low, high] : [high, low];
    return intersection(domain, {
        ...(first === undefined ? {} : { low: backward(law, domain, first.value, 'down', first.closed) }),
        ...(last === undefined ? {} : { high: backward(law, domain, last.value, 'up', last.closed) }),
    });
}

// An end of the range that was rounded outward leads to just outside the domain, and so back to its end.
function backward(law: Law, domain: Interval, output: Fraction, rounding: Rounding, closed = true): End {
    const { low, high } = domain;
    const end = roundedEnd(law.inputAt(output, domain), closed, rounding);
    if (low !== undefined && end.value.compare(low.value) < 0) {
        return { value: low.value, closed: true };
    }
    return high !== undefined && end.value.compare(high.value) > 0 ? { value: high.value, closed: true } : end;
}
