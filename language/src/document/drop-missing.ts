// Leaves out what refers to something that a document no longer has, after it was cut down to one build.

import { declaredIds, type DeclaredIds, outcomesOf, targetsOf } from './ids.js';
import { resolveSchema } from './schema/resolve.js';
import type { ListSchema, ObjectSchema, Schema } from './schema/vocabulary.js';
import type { TreeDocument } from './types.js';

/**
 * The document without references that lead nowhere. What cannot be without such a reference goes too, and then
 * what refers to that, until nothing is left to drop.
 */
export function dropMissing(document: TreeDocument): TreeDocument {
    let current = document;
    for (;;) {
        const next = dropOnce(current);
        if (JSON.stringify(next) === JSON.stringify(current)) return next;
        current = next;
    }
}

const dropped = Symbol('dropped');

// Leaving these out would widen what they limit: a proof for one hazard would become a proof for all.
const goWithOwner: ReadonlySet<string> = new Set([
    'EndRepair.faults',
    'GateElement.hazards',
    'Fault.places',
    'Test.owner',
    'Makes.when',
    'OutcomeCase.when',
    'Outcome.choice',
    'Check.outcome',
    'Place.when',
    'Flow.when',
    'Complaint.when',
    'Branch.outcomes',
    'Follow.withPart',
    'Follow.withTest',
    'HazardMet.withPart',
    'HazardMet.withTest',
    ...['zone', 'hazard', 'part', 'fault', 'test', 'gate', 'withPart', 'withTest'].map(name => `StatementsOf.${name}`),
]);

function dropOnce(document: TreeDocument): TreeDocument {
    const ids = declaredIds(document);
    const equipment = drop(document.equipment, 'Equipment', ids);
    const tree = drop(document.tree, 'Tree', ids);
    const procedures = document.procedures.map(procedure =>
        drop(
            procedure,
            'Procedure',
            new Map([...ids, ['TargetId', targetsOf(procedure)]]),
            procedure.about !== undefined,
        ),
    );
    const shown = new Set(picturesIn([equipment, tree, procedures]));
    const pictures = document.pictures.filter(({ path }) => shown.has(path));
    return { ...document, equipment, tree, procedures, pictures };
}

// What the whole document consists of can lose entries of its lists but is never dropped itself.
function drop<T extends object>(value: T, name: string, ids: DeclaredIds, hasSubject = false): T {
    const result = dropFrom(value, { $ref: `#/$defs/${name}` }, { ids, hasSubject });
    return result === dropped ? value : (result as T);
}

interface Scope {
    readonly ids: DeclaredIds;
    /** Whether `it` stands for what the call of a procedure names. */
    readonly hasSubject: boolean;
}

function dropFrom(value: unknown, schema: Schema, scope: Scope): unknown {
    const resolved = resolveSchema(value, schema);
    if (!resolved) return value;
    if (typeof value === 'string') return isMissing(value, resolved.name, scope) ? dropped : value;
    if (!('type' in resolved.schema)) return value;
    if (resolved.schema.type === 'array') return dropFromList(value, resolved.schema, scope);
    return 'properties' in resolved.schema ? dropFromObject(value, resolved.schema, scope, resolved.name) : value;
}

function isMissing(id: string, sort: string, { ids, hasSubject }: Scope): boolean {
    if (hasSubject && (id === 'it' || id.startsWith('it.'))) return false;
    const known = ids.get(sort);
    return known !== undefined && !known.has(id);
}

function dropFromList(value: unknown, schema: ListSchema, scope: Scope): unknown {
    if (!Array.isArray(value)) return value;
    const kept = value.map(entry => dropFrom(entry, schema.items, scope)).filter(entry => entry !== dropped);
    return kept.length < (schema.minItems ?? 0) ? dropped : kept;
}

function dropFromObject(value: unknown, schema: ObjectSchema, scope: Scope, name: string): unknown {
    const given = Object.entries(value as object);
    const test: unknown = given.find(([property]) => property === (name === 'Test' ? 'id' : 'test'))?.[1];
    const inner = typeof test === 'string' ? withOutcomesOf(test, scope) : scope;
    const result: Record<string, unknown> = {};
    for (const [property, entry] of given) {
        const propertySchema = schema.properties[property];
        const kept: unknown = propertySchema ? dropFrom(entry, propertySchema, inner) : entry;
        if (kept !== dropped) result[property] = kept;
        else if (schema.required.includes(property) || goWithOwner.has(`${name}.${property}`)) return dropped;
    }
    return result;
}

// Names of outcomes belong to a test: the one that they stand in, or the one that is named beside them.
function withOutcomesOf(test: string, scope: Scope): Scope {
    const outcomes = scope.ids.get(outcomesOf(test));
    const others = [...scope.ids].filter(([sort]) => sort !== 'OutcomeId');
    return { ...scope, ids: new Map(outcomes ? [...others, ['OutcomeId', outcomes]] : others) };
}

function picturesIn(value: unknown): readonly string[] {
    if (Array.isArray(value)) return value.flatMap(picturesIn);
    if (typeof value !== 'object' || value === null) return [];
    const own = 'type' in value && value.type === 'picture' && 'path' in value ? [String(value.path)] : [];
    return [...own, ...Object.values(value).flatMap(picturesIn)];
}
