// Lowers clauses that several sorts of declarations share: places, measurement categories, times and costs.

import type { Reference as SyntaxReference } from 'langium';
import type * as ast from '../generated/ast.js';
import type { InZone, Location, MeasurementCategory } from '../core/model/equipment.js';
import type { GuardedAmount } from '../core/model/tests.js';
import type { Amount, Reference, ReferenceRole } from '../core/model/written.js';
import { expectUnit } from './amount-units.js';
import type { Lowering } from './context.js';
import { lowerGuard } from './lower-guards.js';
import {
    lowerAmount,
    lowerAmounts,
    lowerOptionalAmount,
    lowerReference,
    lowerText,
    lowerWord,
} from './lower-written.js';
import { expectOnce } from './said-twice.js';
import { endOf, type Place, pointAround, spanOf, startOf } from './spans.js';

/** A measurement category of a zone, an instrument, or the instruments that a gate asks for. */
export function lowerCategory(context: Lowering, node: ast.Category | ast.InstrumentNeed): MeasurementCategory {
    const place = node.$cstNode ?? pointAround(node);
    const voltage = lowerOptionalAmount(context, place, 'voltage', node.voltage);
    expectUnit(context, voltage, '`category`', 'V');
    return {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        category: lowerWord(context, place, 'category', node.category),
        voltage,
        guard: lowerGuard(context, node.guard),
    };
}

/** Where something is found, in the author's words. */
export function lowerLocation(context: Lowering, node: ast.Location): Location {
    const place = node.$cstNode ?? pointAround(node);
    return {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        text: lowerText(context, place, 'text', node.text),
        guard: lowerGuard(context, node.guard),
    };
}

/** `in ZONE` within the braces of a declaration. */
export function lowerInZone(context: Lowering, node: ast.InZone): InZone {
    const place = node.$cstNode ?? pointAround(node);
    return {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        zone: lowerReference(context, node.zone, 'zone', place),
        guard: lowerGuard(context, node.guard),
    };
}

/** `in ZONE` in the heading of a declaration: it holds for all builds. */
export function headingZones(context: Lowering, node: ast.Part | ast.Supply | ast.Test): InZone[] {
    const place = node.$cstNode ?? pointAround(node);
    if (!node.zone) return [];
    const zone: Reference = lowerReference(context, node.zone, 'zone', place);
    return [{ file: context.file, start: zone.start, end: zone.end, zone, guard: undefined }];
}

/** `takes 3 min` within the braces of a declaration. */
export function lowerTakes(context: Lowering, node: ast.Takes): GuardedAmount {
    const place = node.$cstNode ?? pointAround(node);
    const amount = lowerAmount(context, place, 'amount', node.amount);
    expectUnit(context, amount, '`takes`', 'min');
    return {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        amount,
        guard: lowerGuard(context, node.guard),
    };
}

/** `costs 48 EUR` within the braces of a declaration. */
export function lowerCosts(context: Lowering, node: ast.Costs): GuardedAmount {
    const place = node.$cstNode ?? pointAround(node);
    const amount = lowerAmount(context, place, 'amount', node.amount);
    expectUnit(context, amount, '`costs`', 'EUR');
    return {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        amount,
        guard: lowerGuard(context, node.guard),
    };
}

/** The one time that a clause such as a repair or a `do` takes; the first, where there are several. */
export function lowerOneTime(context: Lowering, place: Place, written: readonly string[]): Amount | undefined {
    return lowerOne(context, place, 'takes', 'min', written);
}

/** The one cost of a repair or a `do`; the first, where there are several. */
export function lowerOneCost(context: Lowering, place: Place, written: readonly string[]): Amount | undefined {
    return lowerOne(context, place, 'costs', 'EUR', written);
}

/** The one reference of a clause that the grammar lets stand several times; the others are findings and are left out. */
export function lowerOneReference(
    context: Lowering,
    references: readonly (SyntaxReference | undefined)[],
    role: ReferenceRole,
    owner: Place,
    words: string,
): Reference | undefined {
    if (references.length === 0) return undefined;
    const one = lowerReference(context, references[0], role, owner);
    if (references.length > 1) {
        const others = references.slice(1).map(other => spanOf(context, other?.$refNode ?? owner));
        expectOnce(context, [one, ...others], words);
    }
    return one;
}

function lowerOne(
    context: Lowering,
    place: Place,
    clause: 'takes' | 'costs',
    unit: string,
    written: readonly string[],
): Amount | undefined {
    if (written.length === 0) return undefined;
    const amounts = lowerAmounts(context, place, clause, written);
    expectOnce(context, amounts, clause);
    for (const amount of amounts) expectUnit(context, amount, `\`${clause}\``, unit);
    return amounts[0];
}
