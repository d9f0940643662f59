// Writes curves: the law that each follows, with its figures.

import type * as model from '../../core/model/tests.js';
import type { Reference } from '../../core/model/written.js';
import { lookUp } from '../../core/readings/calculation.js';
import type { ValueType } from '../../core/readings/natures.js';
import type * as document from '../types.js';
import { writeModes, writeOptionalQuantity, writeQuantity } from './amounts.js';
import { writeRemark } from './remarks.js';
import { made, present, report, some, writeOptionalText, type Writer } from './writer.js';

/** A curve. Undefined, with a problem, where its law or a figure of it cannot be made out. */
export function writeCurve(writer: Writer, curve: model.Curve): document.Curve | undefined {
    const [follows] = curve.follows;
    const law = follows && writeLaw(writer, follows);
    if (!law) {
        report(writer, curve.name, `The law that \`${curve.name.text}\` follows cannot be made out.`);
        return undefined;
    }
    const [limits] = curve.limits;
    return made<document.Curve>({
        id: writer.sharedIds.get(curve) ?? curve.name.text,
        title: writeOptionalText(writer, curve.title),
        law,
        from: writeOptionalQuantity(writer, limits?.from),
        to: writeOptionalQuantity(writer, limits?.to),
        remarks: some(present(curve.remarks.map(remark => writeRemark(writer, remark)))),
    });
}

/** True where a table or a curve is read from its output to its input for a value of this type. */
export function writeDirection({ model }: Writer, table: Reference, argument: ValueType | undefined): true | undefined {
    const declared = model.target(table);
    if ((declared?.sort !== 'table' && declared?.sort !== 'curve') || !argument) return undefined;
    const found = lookUp(declared, argument);
    return found.sort === 'read' && found.direction === 'backward' ? true : undefined;
}

function writeLaw(writer: Writer, follows: model.Follows): document.Law | undefined {
    const { shape } = follows;
    return Object.hasOwn(laws, shape.text) ? laws[shape.text]?.(writer, follows) : undefined;
}

/** By the word of each shape. */
const laws: Readonly<Record<string, (writer: Writer, follows: model.Follows) => document.Law | undefined>> = {
    platinum: (writer, { values: [value] }) => {
        const atZero = writeOptionalQuantity(writer, value);
        return atZero && { law: 'platinum', atZero };
    },
    ntc: (writer, follows) => {
        const resistance = writeOptionalQuantity(writer, follows.values[0]);
        const temperature = writeOptionalQuantity(writer, follows.at);
        const beta = writeConstant(writer, follows);
        return resistance && temperature && beta && { law: 'ntc', resistance, temperature, beta };
    },
    'steinhart-hart': (writer, { values }) => {
        const [a, b, c] = values.map(value => writeQuantity(writer, value));
        return a && b && c && { law: 'steinhart-hart', a, b, c };
    },
    thermocouple: (_, { word }) => {
        const letter = letters.find(one => one === word?.text);
        return letter && { law: 'thermocouple', letter };
    },
    copper: (writer, follows) => writeWinding(writer, follows, usualConstants.copper),
    aluminum: (writer, follows) => writeWinding(writer, follows, usualConstants.aluminum),
    loop: (writer, { word, modes, values: [first], last }) => {
        const low = writeOptionalQuantity(writer, first);
        const high = writeOptionalQuantity(writer, last);
        return low && high && word
            ? made<document.LoopLaw>({ law: 'loop', quantity: word.text, modes: writeModes(modes), low, high })
            : undefined;
    },
};

function writeWinding(
    writer: Writer,
    follows: model.Follows,
    usual: document.Quantity,
): document.WindingLaw | undefined {
    const resistance = writeOptionalQuantity(writer, follows.values[0]);
    const temperature = writeOptionalQuantity(writer, follows.at);
    const constant = writeConstant(writer, follows) ?? usual;
    return resistance && temperature && { law: 'winding', resistance, temperature, constant };
}

/** A constant of a law is in kelvins and no temperature: nobody reads it in °F. */
function writeConstant(writer: Writer, { propertyValue }: model.Follows): document.Quantity | undefined {
    const quantity = writeOptionalQuantity(writer, propertyValue);
    return quantity && made<document.Quantity>({ ...quantity, rounded: quantity.rounded, other: undefined });
}

const letters = ['E', 'J', 'K', 'N', 'T'] as const;

/** What is taken where no constant is written: copper by IEEE practice, aluminum by IEC 60034-1, both from memory. */
const usualConstants = {
    copper: { value: 234.5, unit: 'K', display: '234.5 K' },
    aluminum: { value: 225, unit: 'K', display: '225 K' },
} as const;
