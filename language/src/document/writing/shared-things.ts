// Finds the instruments, tables, curves and procedures of other files that a tree reaches, and gives each an id of its own.

import type { Equipment } from '../../core/model/equipment.js';
import type { Declaration } from '../../core/model/file.js';
import type { Model } from '../../core/model/model.js';
import type { Calculation, Curve, Instrument, Table, Test } from '../../core/model/tests.js';
import type { Procedure, Tree } from '../../core/model/trees.js';
import type { Reference } from '../../core/model/written.js';

export interface SharedThings {
    readonly instruments: readonly Instrument[];
    readonly tables: readonly Table[];
    readonly curves: readonly Curve[];
    /** Those that the tree follows and those that they follow. */
    readonly procedures: readonly Procedure[];
    readonly ids: ReadonlyMap<Declaration, string>;
}

/**
 * What the equipment declares comes first and keeps its names. Others follow by name, then by file and place, so that the
 * order of the files does not matter; where two have the same name, the later one gets a number behind it.
 */
export function findSharedThings(model: Model, equipment: Equipment, tree: Tree): SharedThings {
    const instruments = new Set(equipment.instruments);
    const tables = new Set(equipment.tables);
    const curves = new Set(equipment.curves);
    for (const reference of referencesIn(model, equipment)) {
        const target = model.target(reference);
        if (target?.sort === 'instrument') instruments.add(target);
        else if (target?.sort === 'table') tables.add(target);
        else if (target?.sort === 'curve') curves.add(target);
    }
    const ids = new Map<Declaration, string>();
    return {
        instruments: name(ordered(instruments, equipment.instruments), ids),
        ...nameTables(tables, curves, equipment, ids),
        procedures: name(ordered(findProcedures(model, tree), []), ids),
        ids,
    };
}

/** Tables and curves share one list of names. */
function nameTables(
    tables: ReadonlySet<Table>,
    curves: ReadonlySet<Curve>,
    equipment: Equipment,
    ids: Map<Declaration, string>,
): Pick<SharedThings, 'tables' | 'curves'> {
    const own: readonly (Table | Curve)[] = [...equipment.tables, ...equipment.curves];
    name(ordered(new Set<Table | Curve>([...tables, ...curves]), own), ids);
    return { tables: ordered(tables, equipment.tables), curves: ordered(curves, equipment.curves) };
}

function findProcedures(model: Model, tree: Tree): Set<Procedure> {
    const found = new Set<Procedure>();
    const pending: (Tree | Procedure)[] = [tree];
    for (let owner = pending.pop(); owner; owner = pending.pop()) {
        for (const statement of owner.steps.flatMap(step => step.statements)) {
            const target = statement.sort === 'follow' ? model.target(statement.procedure) : undefined;
            if (target?.sort !== 'procedure' || found.has(target)) continue;
            found.add(target);
            pending.push(target);
        }
    }
    return found;
}

/** References to instruments and tables in all that the document writes of the equipment. */
function referencesIn(model: Model, equipment: Equipment): readonly Reference[] {
    const kinds = equipment.parts.flatMap(part => {
        const kind = part.kind && model.target(part.kind);
        return kind?.sort === 'kind' ? [kind] : [];
    });
    const owners = [equipment, ...equipment.parts, ...equipment.supplies, ...new Set(kinds)];
    return [
        ...owners.flatMap(owner => owner.tests.flatMap(referencesInTest)),
        ...equipment.gates.flatMap(gate => gate.elements.flatMap(({ instrument }) => instrument ?? [])),
    ];
}

function referencesInTest(test: Test): readonly Reference[] {
    const inMethods = test.methods.flatMap(method => {
        if (method.sort === 'measure') return method.instrument ?? [];
        return method.sort === 'calculate' ? referencesInCalculation(method.expression) : [];
    });
    const bands = test.outcomes.flatMap(outcome => outcome.bands);
    return [...inMethods, ...bands.flatMap(band => (band.sort === 'from-table' ? band.table : []))];
}

function referencesInCalculation(calculation: Calculation): readonly Reference[] {
    switch (calculation.sort) {
        case 'operation':
            return [...referencesInCalculation(calculation.left), ...referencesInCalculation(calculation.right)];
        case 'call':
            return [calculation.function, ...calculation.arguments.flatMap(referencesInCalculation)];
        default:
            return [];
    }
}

function ordered<T extends Instrument | Table | Curve | Procedure>(
    found: ReadonlySet<T>,
    own: readonly T[],
): readonly T[] {
    const others = [...found].filter(each => !own.includes(each));
    return [...own, ...others.sort(compare)];
}

function compare(a: Instrument | Table | Curve | Procedure, b: Instrument | Table | Curve | Procedure): number {
    return compareText(a.name.text, b.name.text) || compareText(a.file, b.file) || a.start - b.start;
}

/** By UTF-16 units, so that the order is the same on every machine. */
export function compareText(a: string, b: string): number {
    if (a === b) return 0;
    return a < b ? -1 : 1;
}

function name<T extends Instrument | Table | Curve | Procedure>(
    list: readonly T[],
    ids: Map<Declaration, string>,
): readonly T[] {
    const taken = new Set(list.map(each => each.name.text));
    const given = new Set<string>();
    for (const each of list) {
        let id = each.name.text;
        for (let number = 2; given.has(id); number += 1) {
            const numbered = `${each.name.text}-${number}`;
            if (!taken.has(numbered)) id = numbered;
        }
        given.add(id);
        ids.set(each, id);
    }
    return list;
}
