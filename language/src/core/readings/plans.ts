// The plan of a calculated test, down to the readings that are measured; and its value for exact readings.

import Fraction from 'fraction.js';

import { inputAt, valueAt } from '../curves/curve.js';
import type { Model } from '../model/model.js';
import type { Calculate, Test } from '../model/tests.js';
import { quantityKinds } from '../quantities/quantity-kinds.js';
import { calculationOf, type FunctionName, type Plan } from './calculation.js';
import { common, meantBy, type Nature } from './natures.js';

/**
 * How the reading of a calculated test is worked out from measured readings: a reading that is itself calculated is put in with its own
 * plan. Undefined where something is unknown or does not fit, and for a test that is worked out from itself.
 */
export function planOf(method: Calculate, model: Model): Plan | undefined {
    return planWithin(method, model, new Set());
}

function planWithin(method: Calculate, model: Model, around: ReadonlySet<Calculate>): Plan | undefined {
    if (around.has(method)) return undefined;
    const nature = natureOf(method, model);
    const plan = nature && calculationOf(method, model).planAs(nature);
    return plan && expanded(plan, model, new Set([...around, method]));
}

/** How the result is meant: as it is declared, if it can be that. */
function natureOf(method: Calculate, model: Model): Nature | undefined {
    const { type } = calculationOf(method, model);
    const kind = quantityKinds.get(method.quantity.text);
    if (!type || !kind) return undefined;
    const modes = method.modes.map(({ text }) => text);
    return common(type.natures, meantBy(type.dimension, modes))[0];
}

function expanded(plan: Plan, model: Model, around: ReadonlySet<Calculate>): Plan | undefined {
    switch (plan.sort) {
        case 'constant':
            return plan;
        case 'reading': {
            const calculated = calculatedBy(plan.test);
            return calculated ? planWithin(calculated, model, around) : plan;
        }
        case 'operation': {
            const [left, right] = [expanded(plan.left, model, around), expanded(plan.right, model, around)];
            return left && right && { ...plan, left, right };
        }
        case 'function': {
            const values = plan.arguments.map(one => expanded(one, model, around)).filter(one => one !== undefined);
            return values.length < plan.arguments.length ? undefined : { ...plan, arguments: values };
        }
        case 'curve': {
            const argument = expanded(plan.argument, model, around);
            return argument && { ...plan, argument };
        }
    }
}

/** The calculation of a test that is read in no other way. */
function calculatedBy({ methods }: Test): Calculate | undefined {
    const [only, second] = methods;
    return only?.sort === 'calculate' && !second ? only : undefined;
}

/** The tests whose readings a plan takes, each once. */
export function readingsIn(plan: Plan): ReadonlySet<Test> {
    switch (plan.sort) {
        case 'constant':
            return new Set();
        case 'reading':
            return new Set([plan.test]);
        case 'operation':
            return new Set([...readingsIn(plan.left), ...readingsIn(plan.right)]);
        case 'function':
            return new Set(plan.arguments.flatMap(one => [...readingsIn(one)]));
        case 'curve':
            return readingsIn(plan.argument);
    }
}

/**
 * The value of a plan for readings in the coherent SI unit. It is exact where only + - * / and straight curves are used; else it is right
 * to 12 significant digits. Undefined where a reading is not there, where something is divided by zero, and outside a curve.
 */
export function evaluate(plan: Plan, readingOf: (test: Test) => Fraction | undefined): Fraction | undefined {
    switch (plan.sort) {
        case 'constant':
            return plan.value;
        case 'reading':
            return readingOf(plan.test);
        case 'operation': {
            const [left, right] = [evaluate(plan.left, readingOf), evaluate(plan.right, readingOf)];
            return left && right && operate(plan.operator, left, right);
        }
        case 'function': {
            const values = plan.arguments.map(one => evaluate(one, readingOf)).filter(value => value !== undefined);
            return values.length < plan.arguments.length ? undefined : applyFunction(plan.name, values);
        }
        case 'curve': {
            const argument = evaluate(plan.argument, readingOf);
            return argument && (plan.direction === 'forward' ? valueAt : inputAt)(plan.law, argument);
        }
    }
}

function operate(operator: '+' | '-' | '*' | '/', left: Fraction, right: Fraction): Fraction | undefined {
    switch (operator) {
        case '+':
            return left.add(right);
        case '-':
            return left.sub(right);
        case '*':
            return left.mul(right);
        case '/':
            return right.n === 0n ? undefined : left.div(right);
    }
}

/**
 * The mean, the largest, the smallest, the largest distance from the mean, or this distance as a share of the mean's size.
 * The share is the unbalance of NEMA MG 1 (12.45 and 14.36 in older numbering, seen second-hand). A mean of zero has no shares.
 */
function applyFunction(name: FunctionName, values: readonly Fraction[]): Fraction | undefined {
    const [first] = values;
    if (!first) return undefined;
    const largest = values.reduce((most, value) => (value.compare(most) > 0 ? value : most), first);
    const smallest = values.reduce((least, value) => (value.compare(least) < 0 ? value : least), first);
    if (name === 'largest') return largest;
    if (name === 'smallest') return smallest;
    const mean = values.reduce((sum, value) => sum.add(value), new Fraction(0n)).div(values.length);
    if (name === 'mean') return mean;
    const [above, below] = [largest.sub(mean), mean.sub(smallest)];
    const deviation = above.compare(below) > 0 ? above : below;
    if (name === 'deviation') return deviation;
    return mean.n === 0n ? undefined : deviation.div(mean.abs());
}
