// Writes instruments and tables.

import type * as model from '../../core/model/tests.js';
import type * as document from '../types.js';
import { measuredBy, writeModes, writeOptionalQuantity, writeQuantity } from './amounts.js';
import { writeCategories, writeRemarks } from './remarks.js';
import { made, present, some, writeOptionalText, type Writer } from './writer.js';

export function writeInstrument(writer: Writer, instrument: model.Instrument): document.Instrument {
    return made<document.Instrument>({
        id: writer.sharedIds.get(instrument) ?? instrument.name.text,
        title: writeOptionalText(writer, instrument.title),
        measures: some(instrument.measures.map(measures => writeMeasures(writer, measures))),
        categories: writeCategories(writer, instrument.categories),
        ...writeRemarks(writer, instrument),
    });
}

export function writeTable(writer: Writer, table: model.Table): document.Table {
    return made<document.Table>({
        id: writer.sharedIds.get(table) ?? table.name.text,
        title: writeOptionalText(writer, table.title),
        input: writeSide(table.input),
        output: writeSide(table.output),
        interpolation: table.interpolation,
        rows: present(
            table.rows.map(row => {
                const input = writeQuantity(writer, row.input, measuredBy(table.input));
                const output = writeQuantity(writer, row.output, measuredBy(table.output));
                return input && output && { input, output };
            }),
        ),
    });
}

function writeMeasures(writer: Writer, measures: model.Measures): document.Measures {
    const reading = measuredBy(measures);
    const span = { ...reading, asDifference: true };
    return made<document.Measures>({
        quantity: measures.quantity.text,
        modes: writeModes(measures.modes),
        from: writeOptionalQuantity(writer, measures.from, reading),
        to: writeOptionalQuantity(writer, measures.to, reading),
        resolution: writeOptionalQuantity(writer, measures.resolution, span),
        accuracy: writeOptionalQuantity(writer, measures.accuracy, span),
        accuracyPlus: writeOptionalQuantity(writer, measures.accuracyPlus, span),
    });
}

function writeSide({ quantity, modes }: model.Table['input']): document.TableSide {
    return made<document.TableSide>({ quantity: quantity.text, modes: writeModes(modes) });
}
