// Visits the references in what stands inside other things: guards, states, readings, and the names of tests and faults.

import type { FaultReference } from '../model/equipment.js';
import type { Declaration } from '../model/file.js';
import type { ChoiceExpression, ChoiceReference, Guarded, StateExpression } from '../model/guards.js';
import type { Band, Calculation, TestReference } from '../model/tests.js';
import type { Reference } from '../model/written.js';
import type { Context } from './scope.js';

/** Resolves one reference in its context; the answer decides what later names belong to. */
export type Resolve = (reference: Reference, context: Context) => Declaration | undefined;

export function visitBand(band: Band, context: Context, resolve: Resolve): void {
    if (band.sort !== 'from-table') return;
    resolve(band.table, context);
    visitTestReference(band.input, context, resolve);
}

export function visitCalculation(calculation: Calculation, context: Context, resolve: Resolve): void {
    if (calculation.sort === 'operation') {
        visitCalculation(calculation.left, context, resolve);
        visitCalculation(calculation.right, context, resolve);
    } else if (calculation.sort === 'call') {
        resolve(calculation.function, context);
        for (const argument of calculation.arguments) visitCalculation(argument, context, resolve);
    } else if (calculation.sort === 'reading') {
        visitTestReference(calculation.test, context, resolve);
    }
}

export function visitTestReference(
    reference: TestReference,
    context: Context,
    resolve: Resolve,
): Declaration | undefined {
    const owner = resolve(reference.owner, context);
    return reference.test ? resolve(reference.test, { ...context, of: owner }) : owner;
}

export function visitFaultReference(reference: FaultReference, context: Context, resolve: Resolve): void {
    const owner = resolve(reference.owner, context);
    if (reference.fault) resolve(reference.fault, { ...context, of: owner });
}

export function visitGuards(guarded: readonly Guarded[], context: Context, resolve: Resolve): void {
    for (const one of guarded) visitChoices(one.guard, context, resolve);
}

export function visitGuard(guarded: Guarded, context: Context, resolve: Resolve): void {
    if (guarded.guard) visitChoices(guarded.guard, context, resolve);
}

export function visitChoices(expression: ChoiceExpression | undefined, context: Context, resolve: Resolve): void {
    if (!expression) return;
    if (expression.sort === 'choice') visitChoiceReference(expression, context, resolve);
    else if (expression.sort === 'not') visitChoices(expression.operand, context, resolve);
    else for (const operand of expression.operands) visitChoices(operand, context, resolve);
}

export function visitChoiceReference(reference: ChoiceReference, context: Context, resolve: Resolve): void {
    const of = resolve(reference.choice, context);
    if (reference.member) resolve(reference.member, { ...context, of });
}

export function visitStates(expression: StateExpression | undefined, context: Context, resolve: Resolve): void {
    if (!expression) return;
    if (expression.sort === 'state') {
        const of = expression.subject ? resolve(expression.subject, context) : undefined;
        if (expression.value) resolve(expression.value, { ...context, of });
    } else if (expression.sort === 'not') {
        visitStates(expression.operand, context, resolve);
    } else {
        for (const operand of expression.operands) visitStates(operand, context, resolve);
    }
}
