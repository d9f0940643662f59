// Finds numbers that lack their unit, and gives an end of a range the unit that its other end has.

import type { Amount } from '../core/model/written.js';
import { quantityKinds } from '../core/quantities/quantity-kinds.js';
import { quoteName } from '../core/text/words.js';
import { type Lowering, report } from './context.js';

/** Reports an amount that is a mere number; `clause` names what it belongs to, `unit` is one that fits. */
export function expectUnit(context: Lowering, amount: Amount | undefined, clause: string, unit: string): void {
    if (!amount || !isBareNumber(amount.written)) return;
    report(context, 'amount-without-unit', `The number \`${amount.written}\` of ${clause} has no unit.`, amount, {
        advice: `Write the unit behind the number, for example \`${amount.written} ${unit}\`.`,
    });
}

/** Reports a mere number where a share of a whole is meant; in trade practice that is percent. */
export function expectPercent(context: Lowering, amount: Amount | undefined, clause: string): void {
    if (!amount || !isBareNumber(amount.written)) return;
    const title = `Write \`${amount.written} %\``;
    report(context, 'amount-without-unit', `The number \`${amount.written}\` of ${clause} has no unit.`, amount, {
        advice: `Write a share in percent, for example \`${amount.written} %\`.`,
        mends: [
            {
                title,
                safety: 'suggestion',
                edits: [{ file: amount.file, start: amount.end, end: amount.end, text: ' %' }],
            },
        ],
    });
}

/**
 * Reports an amount of a measured quantity that is a mere number, unless readings of the quantity can be mere numbers,
 * as a count can. `other` is the end of the same range whose unit it should have.
 */
export function expectUnitOfQuantity(
    context: Lowering,
    amount: Amount | undefined,
    quantity: string,
    other?: Amount,
): void {
    if (!amount || !isBareNumber(amount.written)) return;
    const kind = quantityKinds.get(quantity);
    const unit = other === undefined ? '' : unitText(other.written);
    // A quantity that is not known is a finding of its own; its units cannot be told.
    if (unit === '' && (!kind || kind.plainNumber)) return;
    const expected = unit === '' ? (kind?.usualUnit ?? '') : unit;
    const of = quantity === '' ? 'this reading' : `this ${quoteName(quantity)} reading`;
    report(context, 'amount-without-unit', `The number \`${amount.written}\` of ${of} has no unit.`, amount, {
        advice: `Write the unit behind the number, for example \`${amount.written} ${expected}\`.`,
        mends:
            unit === ''
                ? []
                : [
                      {
                          title: `Write \`${amount.written} ${unit}\``,
                          safety: 'suggestion',
                          edits: [{ file: amount.file, start: amount.end, end: amount.end, text: ` ${unit}` }],
                      },
                  ],
    });
}

/** The amount with the unit of the other where it has none itself: `21.6` of `21.6 .. 26.4 V` is 21.6 V. Its place stays. */
export function withUnitOf(amount: Amount, other: Amount | undefined): Amount {
    if (!other || !isBareNumber(amount.written)) return amount;
    const unit = unitText(other.written);
    return unit === '' ? amount : { ...amount, written: `${amount.written} ${unit}` };
}

/** Whether an amount is written as a number alone. */
export function isBareNumber(written: string): boolean {
    const last = written.charCodeAt(written.length - 1);
    // Nearly every amount ends with a letter or a sign; only the few that end with a digit need a closer look.
    return last >= digitZero && last <= digitNine && unitText(written) === '';
}

// The unit as it is written behind the number; empty where there is none.
function unitText(written: string): string {
    return written.replace(number, '');
}

const number = /^[+\-−]?[0-9]+(?:\.[0-9]+)?(?:[eE][+-]?[0-9]+)?\s*/;
const digitZero = 0x30;
const digitNine = 0x39;
