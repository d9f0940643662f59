// Lowers bands of readings: limits, ranges, tolerances, tables. Each spelling of a comparison becomes one.

import type * as ast from '../generated/ast.js';
import type { Band, Test } from '../core/model/tests.js';
import { expectUnitOfQuantity, withUnitOf } from './amount-units.js';
import { type Lowering, report } from './context.js';
import { lowerTestReference } from './lower-references.js';
import { lowerAmount, lowerOptionalAmount, lowerReference, none } from './lower-written.js';
import { endOf, pointAround, spanOf, startOf } from './spans.js';

/** The bands of an outcome, joined by `or`; half-written ones are left out. */
export function lowerBands(context: Lowering, nodes: readonly ast.Band[]): readonly Band[] {
    if (nodes.length === 0) return none;
    return nodes.map(node => lowerBand(context, node)).filter(band => band !== undefined);
}

/** Reports numbers without a unit in the bands of a test; what the test measures says whether they need one. */
export function reportBareBands(context: Lowering, test: Test): void {
    const method = test.methods.find(({ sort }) => sort === 'measure' || sort === 'calculate');
    const quantity = method && 'quantity' in method ? method.quantity.text : '';
    for (const outcome of test.outcomes) {
        for (const band of outcome.bands) {
            if (band.sort === 'limit') expectUnitOfQuantity(context, band.value, quantity);
            else if (band.sort === 'around') expectUnitOfQuantity(context, band.value, quantity);
            else if (band.sort === 'range') {
                expectUnitOfQuantity(context, band.from, quantity, band.to);
                expectUnitOfQuantity(context, band.to, quantity, band.from);
            }
        }
    }
}

function lowerBand(context: Lowering, node: ast.Band): Band | undefined {
    const place = node.$cstNode ?? pointAround(node);
    const { file } = context;
    const start = startOf(place);
    const end = endOf(place);
    if (node.otherwise) return { file, start, end, sort: 'otherwise' };
    if (node.table) {
        return {
            file,
            start,
            end,
            sort: 'from-table',
            table: lowerReference(context, node.table, 'table', place),
            input: lowerTestReference(context, node.input, place),
            tolerance: lowerOptionalAmount(context, place, 'tolerance', node.tolerance),
        };
    }
    if (node.value === undefined) return undefined;
    const value = lowerAmount(context, place, 'value', node.value);
    const comparison = node.comparison && comparisons[node.comparison];
    if (node.end !== undefined) {
        const to = lowerAmount(context, place, 'end', node.end);
        if (comparison === '<' || comparison === '<=') reportUnclearRange(context, node, comparison);
        return {
            file,
            start,
            end,
            sort: 'range',
            from: withUnitOf(value, to),
            fromOpen: comparison === '>' || comparison === '<',
            to,
            toOpen: node.endOpen,
        };
    }
    if (comparison) return { file, start, end, sort: 'limit', comparison, value };
    const tolerance = lowerOptionalAmount(context, place, 'tolerance', node.tolerance);
    return {
        file,
        start,
        end,
        sort: 'around',
        value: withUnitOf(value, tolerance),
        tolerance: tolerance && withUnitOf(tolerance, value),
    };
}

const comparisons = {
    '<': '<',
    '<=': '<=',
    '≤': '<=',
    '>': '>',
    '>=': '>=',
    '≥': '>=',
} as const satisfies Record<ast.Comparison, string>;

function reportUnclearRange(context: Lowering, node: ast.Band, comparison: string): void {
    const place = node.$cstNode ?? pointAround(node);
    report(
        context,
        'unclear-range',
        `This range begins with \`${comparison}\`, so it is not clear on which side of \`${node.value ?? ''}\` the readings are.`,
        spanOf(context, place),
        {
            advice: `Write \`${node.value ?? ''} .. ${node.end ?? ''}\` for the readings between the two, or two bands joined by \`or\`.`,
        },
    );
}
