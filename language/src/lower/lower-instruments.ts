// Lowers instruments with what they can measure, and tables from one quantity to another.

import type * as ast from '../generated/ast.js';
import type { MeasurementCategory } from '../core/model/equipment.js';
import type { Instrument, Measures, Table } from '../core/model/tests.js';
import type { Amount } from '../core/model/written.js';
import { expectUnit, expectUnitOfQuantity, withUnitOf } from './amount-units.js';
import { declared, type Lowering } from './context.js';
import { lowerCategory } from './lower-clauses.js';
import { addRemark, type GatheredRemarks, noRemarks } from './lower-remarks.js';
import {
    all,
    lowerAmount,
    lowerName,
    lowerOptionalAmount,
    lowerProse,
    lowerWord,
    lowerWords,
    packed,
} from './lower-written.js';
import { expectOnce } from './said-twice.js';
import { endOf, pointAround, spanOf, startOf } from './spans.js';

/** A measuring instrument. */
export function lowerInstrument(context: Lowering, node: ast.Instrument): Instrument {
    const place = node.$cstNode ?? pointAround(node);
    let gathered: GatheredRemarks | undefined;
    const measures: Measures[] = [];
    const categories: MeasurementCategory[] = [];
    for (const member of all(node.members)) {
        switch (member.$type) {
            case 'Measures':
                measures.push(lowerMeasures(context, member));
                break;
            case 'Category':
                categories.push(lowerCategory(context, member));
                break;
            default:
                gathered = addRemark(context, gathered, member);
        }
    }
    const { remarks, safety, acceptances } = gathered ?? noRemarks;
    const instrument: Instrument = {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        sort: 'instrument',
        name: lowerName(context, place, node.name),
        title: lowerProse(context, place, 'title', node.title),
        measures: packed(measures),
        categories: packed(categories),
        remarks,
        safety,
        acceptances,
    };
    return declared(context, instrument, node);
}

/** A table from one quantity to another. */
export function lowerTable(context: Lowering, node: ast.Table): Table {
    const place = node.$cstNode ?? pointAround(node);
    const table: Table = {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        sort: 'table',
        name: lowerName(context, place, node.name),
        title: lowerProse(context, place, 'title', node.title),
        input: {
            quantity: lowerWord(context, place, 'inputQuantity', node.inputQuantity),
            modes: lowerWords(context, place, 'inputModes', node.inputModes),
        },
        output: {
            quantity: lowerWord(context, place, 'outputQuantity', node.outputQuantity),
            modes: lowerWords(context, place, 'outputModes', node.outputModes),
        },
        interpolation: node.interpolation ?? 'linear',
        rows: all(node.rows).map(row => lowerRow(context, row)),
    };
    for (const row of table.rows) {
        expectUnitOfQuantity(context, row.input, table.input.quantity.text);
        expectUnitOfQuantity(context, row.output, table.output.quantity.text);
    }
    return declared(context, table, node);
}

function lowerRow(context: Lowering, node: ast.Row): Table['rows'][number] {
    const place = node.$cstNode ?? pointAround(node);
    return {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        input: lowerAmount(context, place, 'input', node.input),
        output: lowerAmount(context, place, 'output', node.output),
    };
}

function lowerMeasures(context: Lowering, node: ast.Measures): Measures {
    const place = node.$cstNode ?? pointAround(node);
    const quantity = lowerWord(context, place, 'quantity', node.quantity);
    const start = lowerOptionalAmount(context, place, 'start', node.start);
    const to = lowerOptionalAmount(context, place, 'end', node.end);
    const from = start && withUnitOf(start, to);
    const resolution = lowerResolution(context, all(node.resolutions));
    const { accuracy, accuracyPlus } = lowerAccuracy(context, all(node.accuracies));
    expectUnitOfQuantity(context, from, quantity.text, to);
    expectUnitOfQuantity(context, to, quantity.text, from);
    expectUnitOfQuantity(context, resolution, quantity.text);
    expectUnitOfQuantity(context, accuracy, quantity.text);
    expectUnit(context, accuracyPlus, '`accuracy`', 'digits');
    return {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        quantity,
        modes: lowerWords(context, place, 'modes', node.modes),
        from,
        to,
        resolution,
        accuracy,
        accuracyPlus,
    };
}

function lowerResolution(context: Lowering, nodes: readonly ast.Resolution[]): Amount | undefined {
    const [node] = nodes;
    if (!node) return undefined;
    const places = nodes.map(resolution => resolution.$cstNode ?? pointAround(resolution));
    if (places.length > 1) {
        expectOnce(
            context,
            places.map(place => spanOf(context, place)),
            'resolution',
        );
    }
    return lowerAmount(context, places[0] ?? pointAround(node), 'amount', node.amount);
}

function lowerAccuracy(context: Lowering, nodes: readonly ast.Accuracy[]): Pick<Measures, 'accuracy' | 'accuracyPlus'> {
    const [node] = nodes;
    if (!node) return { accuracy: undefined, accuracyPlus: undefined };
    const places = nodes.map(accuracy => accuracy.$cstNode ?? pointAround(accuracy));
    if (places.length > 1) {
        expectOnce(
            context,
            places.map(place => spanOf(context, place)),
            'accuracy',
        );
    }
    const place = places[0] ?? pointAround(node);
    return {
        accuracy: lowerAmount(context, place, 'amount', node.amount),
        accuracyPlus: lowerOptionalAmount(context, place, 'plus', node.plus),
    };
}
