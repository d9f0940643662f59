// Works calculations out of noted readings.

import type { Calculation, Test } from '../document/types.js';
import { lookUp } from './laws.js';
import { absolute, add, compare, divide, multiply, type Rational, rational, subtract, zero } from './rational.js';
import type { Tree } from './tree.js';
import { coherentQuantity } from './units.js';

/**
 * How a value counts: from the zero of its scale, or as a difference of two such values. Only for temperatures and levels does this
 * matter, and only for amounts that are written: 5 °C can be a temperature, or as much as 5 K.
 */
type Nature = 'point' | 'difference';

/** The readings that have been noted, in units of the SI, by test; undefined for those that were taken without a number. */
export type Readings = ReadonlyMap<string, Rational | undefined>;

/** What a calculation is worked out with. */
export interface Worked {
    readonly tree: Tree;
    readonly readings: Readings;
    /** The test that a name means where `it` stands for something. */
    readonly meant: (test: string) => string;
}

/** The value of a calculated test, in units of the SI; undefined where a reading is missing or there is no value. */
export function valueOf(test: Test, worked: Worked): Rational | undefined {
    const method = test.methods.find(one => one.type === 'calculate');
    if (!method) return undefined;
    const wanted: Nature = method.modes?.includes('difference') ? 'difference' : 'point';
    const natures = naturesOf(method.expression, worked);
    return evaluate(method.expression, natures.includes(wanted) ? wanted : (natures[0] ?? wanted), worked);
}

const both: readonly Nature[] = ['point', 'difference'];

/** How the value of an expression can count. */
function naturesOf(part: Calculation, worked: Worked): readonly Nature[] {
    if ('constant' in part) return both;
    if ('reading' in part) return [natureOfReading(part.reading, worked)];
    if ('table' in part) return [sideIsDifference(part.table, !part.backward, worked.tree) ? 'difference' : 'point'];
    if ('function' in part) {
        if (part.function === 'deviation' || part.function === 'unbalance') return ['difference'];
        return part.arguments
            .map(one => naturesOf(one, worked))
            .reduce((left, right) => left.filter(one => right.includes(one)));
    }
    if (part.operator === '*' || part.operator === '/') return ['difference'];
    const [left, right] = [naturesOf(part.left, worked), naturesOf(part.right, worked)];
    return both.filter(wanted => sidesFor(part.operator, wanted, left, right) !== undefined);
}

/** How the two sides of a sum count for the sum to count so; the first way that can be. */
function sidesFor(
    operator: string,
    wanted: Nature,
    left: readonly Nature[],
    right: readonly Nature[],
): readonly [Nature, Nature] | undefined {
    for (const one of left) {
        for (const other of right) {
            const result = natureOfSum(operator, one, other);
            if (result === wanted) return [one, other];
        }
    }
    return undefined;
}

function natureOfSum(operator: string, left: Nature, right: Nature): Nature | undefined {
    if (operator === '-') return left === right ? 'difference' : left === 'point' ? 'point' : undefined;
    if (left === 'point' && right === 'point') return undefined;
    return left === right ? 'difference' : 'point';
}

function natureOfReading(reading: string, { tree, meant }: Worked): Nature {
    const method = tree.tests
        .get(meant(reading))
        ?.methods.find(one => one.type === 'measure' || one.type === 'calculate');
    const modes = method && 'modes' in method ? method.modes : undefined;
    return modes?.includes('difference') ? 'difference' : 'point';
}

function sideIsDifference(id: string, isOutput: boolean, tree: Tree): boolean {
    const table = tree.tables.get(id);
    if (!table || !('rows' in table)) return false;
    return (isOutput ? table.output : table.input).modes?.includes('difference') ?? false;
}

function evaluate(part: Calculation, nature: Nature, worked: Worked): Rational | undefined {
    if ('constant' in part) return coherentQuantity(part.constant, nature === 'difference', worked.tree).value;
    if ('reading' in part) return worked.readings.get(worked.meant(part.reading));
    if ('table' in part) {
        const declared = worked.tree.tables.get(part.table);
        const isDifference = sideIsDifference(part.table, part.backward ?? false, worked.tree);
        const argument = evaluate(part.argument, isDifference ? 'difference' : 'point', worked);
        return declared && argument && lookUp(declared, argument, part.backward ?? false, worked.tree);
    }
    if ('function' in part) return evaluateFunction(part, nature, worked);
    return evaluateOperation(part, nature, worked);
}

type Part<Key extends string> = Extract<Calculation, Readonly<Record<Key, unknown>>>;

function evaluateOperation(part: Part<'operator'>, nature: Nature, worked: Worked): Rational | undefined {
    const { operator } = part;
    const isSum = operator === '+' || operator === '-';
    const [leftNature, rightNature] = isSum ? sidesOf(part, nature, worked) : (['difference', 'difference'] as const);
    const left = evaluate(part.left, leftNature, worked);
    const right = evaluate(part.right, rightNature, worked);
    if (!left || !right) return undefined;
    switch (operator) {
        case '+':
            return add(left, right);
        case '-':
            return subtract(left, right);
        case '*':
            return multiply(left, right);
        case '/':
            return divide(left, right);
    }
}

/** Points of other quantities than temperature are sums as well: there the zero of the scale is nothing. */
function sidesOf(part: Part<'operator'>, nature: Nature, worked: Worked): readonly [Nature, Nature] {
    const [left, right] = [naturesOf(part.left, worked), naturesOf(part.right, worked)];
    return sidesFor(part.operator, nature, left, right) ?? [left[0] ?? nature, right.at(-1) ?? nature];
}

function evaluateFunction(part: Part<'function'>, nature: Nature, worked: Worked): Rational | undefined {
    const natures = part.arguments
        .map(one => naturesOf(one, worked))
        .reduce((left, right) => left.filter(one => right.includes(one)));
    const inside = natures.includes(nature) ? nature : (natures[0] ?? nature);
    const values: Rational[] = [];
    for (const argument of part.arguments) {
        const value = evaluate(argument, inside, worked);
        if (!value) return undefined;
        values.push(value);
    }
    const mean = divide(values.reduce(add, zero), rational(values.length));
    if (!mean) return undefined;
    const distances = values.map(value => absolute(subtract(value, mean)));
    switch (part.function) {
        case 'mean':
            return mean;
        case 'largest':
            return extreme(values, 1);
        case 'smallest':
            return extreme(values, -1);
        case 'deviation':
            return extreme(distances, 1);
        case 'unbalance': {
            const largest = extreme(distances, 1);
            return largest && divide(largest, absolute(mean));
        }
    }
}

function extreme(values: readonly Rational[], sign: 1 | -1): Rational | undefined {
    return values.reduce<Rational | undefined>(
        (best, value) => (best === undefined || compare(value, best) * sign > 0 ? value : best),
        undefined,
    );
}
