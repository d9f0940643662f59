/** Calculations of the tests: a text in, the typed calculation and its plan out. */

import type Fraction from 'fraction.js';
import type { Model } from '../../../language/src/core/model/model.js';
import type { Calculate, Test } from '../../../language/src/core/model/tests.js';
import { printFraction } from '../../../language/src/core/quantities/decimal.js';
import { coherentValue, parseQuantity } from '../../../language/src/core/quantities/quantity.js';
import { differenceFromCoherent, fromCoherent } from '../../../language/src/core/quantities/unit-conversion.js';
import { findUnit } from '../../../language/src/core/quantities/unit-spellings.js';
import { calculationOf, type TypedCalculation } from '../../../language/src/core/readings/calculation.js';
import { evaluate, planOf } from '../../../language/src/core/readings/plans.js';
import { onlyFile } from '../../support/check.js';
import { readTexts } from '../../support/read-texts.js';

export interface Calculated {
    readonly method: Calculate;
    readonly model: Model;
    readonly tests: ReadonlyMap<string, Test>;
    readonly typed: TypedCalculation;
}

/** What is measured, by name: `voltage AC`, with an instrument where one is wanted: `voltage AC with meter`. */
export type Readings = Readonly<Record<string, string>>;

/** A text in which the readings are tests, and `result` is worked out from them. */
export function textOf(readings: Readings, quantity: string, expression: string, declarations = ''): string {
    return [
        declarations,
        'equipment bench "Bench" {',
        ...Object.entries(readings).map(
            ([name, measured]) => `  test ${name} { measure ${measured}  normal otherwise }`,
        ),
        `  test result { calculate ${quantity} from ${expression}  normal otherwise }`,
        '}',
    ].join('\n');
}

/** The calculation of such a text. */
export function calculated(readings: Readings, quantity: string, expression: string, declarations = ''): Calculated {
    const { model, findings } = readTexts({ [onlyFile]: textOf(readings, quantity, expression, declarations) });
    if (findings.length > 0) throw new Error(findings.map(({ message }) => message).join('\n'));
    const all = model.files.get(onlyFile)?.equipment[0]?.tests ?? [];
    const method = all.find(({ name }) => name.text === 'result')?.methods[0];
    if (method?.sort !== 'calculate') throw new Error('The text has no calculation.');
    return { method, model, tests: new Map(all.map(one => [one.name.text, one])), typed: calculationOf(method, model) };
}

/** The result for readings such as `460 V`, in a unit and with so many significant digits; `none` where there is no value. */
export function valueOf(
    { method, model }: Calculated,
    given: Readonly<Record<string, string>>,
    unit: string,
    { digits = 12, asDifference = false } = {},
): string {
    const plan = planOf(method, model);
    if (!plan) throw new Error('The calculation has no plan.');
    const value = evaluate(plan, test => coherent(given[test.name.text] ?? '', isDifference(test)));
    return value ? inUnit(value, unit, asDifference, digits) : 'none';
}

/** An amount in the coherent SI unit. */
export function coherent(written: string, asDifference = false): Fraction | undefined {
    const quantity = parseQuantity(written);
    return quantity && coherentValue(quantity, asDifference);
}

function isDifference({ methods }: Test): boolean {
    return methods.some(method => 'modes' in method && method.modes.some(({ text }) => text === 'difference'));
}

/** A value of the coherent SI unit in another unit, without its symbol. */
export function inUnit(value: Fraction, symbol: string, asDifference: boolean, digits: number): string {
    const unit = findUnit(symbol);
    const number = unit ? (asDifference ? differenceFromCoherent : fromCoherent)(value, unit) : value;
    return printFraction(number, digits, digits).text;
}
