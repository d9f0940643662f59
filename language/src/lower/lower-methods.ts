// Lowers how a test is done: a measurement, an observation, a calculation, or finding out which build it is.

import type * as ast from '../generated/ast.js';
import type { Calculation, Method } from '../core/model/tests.js';
import type { Lowering } from './context.js';
import { lowerGuard } from './lower-guards.js';
import { lowerTestReference } from './lower-references.js';
import {
    all,
    lowerAmount,
    lowerOptionalReference,
    lowerOptionalWord,
    lowerReference,
    lowerWord,
    lowerWords,
} from './lower-written.js';
import { endOf, pointAround, pointAt, startOf } from './spans.js';

/** One way in which a test is done. */
export function lowerMethod(context: Lowering, node: ast.Measure | ast.Observe | ast.Calculate | ast.Identify): Method {
    const place = node.$cstNode ?? pointAround(node);
    const { file } = context;
    const start = startOf(place);
    const end = endOf(place);
    switch (node.$type) {
        case 'Measure':
            return {
                file,
                start,
                end,
                sort: 'measure',
                quantity: lowerWord(context, place, 'quantity', node.quantity),
                modes: lowerWords(context, place, 'modes', node.modes),
                instrument: lowerOptionalReference(context, node.instrument, 'instrument', place),
                guard: lowerGuard(context, node.guard),
            };
        case 'Observe':
            return { file, start, end, sort: 'observe', sense: lowerOptionalWord(context, place, 'sense', node.sense) };
        case 'Calculate':
            return {
                file,
                start,
                end,
                sort: 'calculate',
                quantity: lowerWord(context, place, 'quantity', node.quantity),
                modes: lowerWords(context, place, 'modes', node.modes),
                expression: lowerCalculation(context, node.expression) ?? missingCalculation(context, end),
            };
        case 'Identify':
            return {
                file,
                start,
                end,
                sort: 'identify',
                option: lowerReference(context, node.option, 'option', place),
                sense: lowerOptionalWord(context, place, 'sense', node.sense),
            };
    }
}

function lowerCalculation(context: Lowering, node: ast.Calculation | undefined): Calculation | undefined {
    if (!node) return undefined;
    const place = node.$cstNode ?? pointAround(node);
    const { file } = context;
    const start = startOf(place);
    const end = endOf(place);
    switch (node.$type) {
        case 'Operation':
            return {
                file,
                start,
                end,
                sort: 'operation',
                operator: operators[node.operator] ?? '+',
                left: lowerCalculation(context, node.left) ?? missingCalculation(context, start),
                right: lowerCalculation(context, node.right) ?? missingCalculation(context, end),
            };
        case 'Constant':
            return { file, start, end, sort: 'constant', amount: lowerAmount(context, place, 'amount', node.amount) };
        case 'Call':
            return {
                file,
                start,
                end,
                sort: 'call',
                // The functions of the language share the names' place with tables; the linker tells them apart.
                function: lowerReference(context, node.function, 'table', place),
                arguments: all(node.arguments).map(
                    argument => lowerCalculation(context, argument) ?? missingCalculation(context, end),
                ),
            };
        case 'ReadingOf':
            return { file, start, end, sort: 'reading', test: lowerTestReference(context, node.test, place) };
        default:
            return undefined;
    }
}

const operators: Readonly<Partial<Record<string, '+' | '-' | '*' | '/'>>> = {
    '+': '+',
    '-': '-',
    '−': '-',
    '*': '*',
    '×': '*',
    '/': '/',
    '÷': '/',
};

/** What stands for a calculation that is not written yet: a constant without a number. */
function missingCalculation(context: Lowering, offset: number): Calculation {
    const place = pointAt(context, offset);
    return { ...place, sort: 'constant', amount: { ...place, written: '' } };
}
