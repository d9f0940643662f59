// Ids: where each sort is declared, and whether every reference leads somewhere.

import type { Item } from './check-shapes.js';

/** In what a value stands, as far as names depend on it. */
export interface Scope {
    /** The tree or procedure whose steps and ends are meant. */
    readonly owner: Owner | undefined;
    /** The test whose outcomes are meant. */
    readonly test: string | undefined;
    /** The condition whose values are meant. */
    readonly condition: string | undefined;
    /** The procedure whose results are meant. */
    readonly procedure: string | undefined;
}

export interface Owner {
    readonly targets: Set<string>;
    /** The results, by the id of the procedure; the tree has none. */
    readonly procedure: string | undefined;
    /** Whether `it` stands for what a call names. */
    readonly hasSubject: boolean;
}

/** A reference that is checked once all ids are known. */
export type Referred = Item;

/** Ids by their sort, with the test, condition or procedure that they belong to. */
export type Declared = Map<string, Set<string>>;

/** Nothing is declared yet. */
export function noDeclarations(): Declared {
    return new Map();
}

/** The scope of what stands in an object. */
export function scopeWithin({ value, field, scope }: Item): Scope {
    const text = (name: string): string | undefined => {
        const given: unknown = Object.hasOwn(value as object, name)
            ? (value as Record<string, unknown>)[name]
            : undefined;
        return typeof given === 'string' ? given : undefined;
    };
    switch (field) {
        case 'Tree':
            return { ...scope, owner: { targets: new Set(), procedure: undefined, hasSubject: false } };
        case 'Procedure': {
            const hasSubject = Object.hasOwn(value as object, 'about');
            return { ...scope, owner: { targets: new Set(), procedure: text('id'), hasSubject } };
        }
        case 'Test':
            return { ...scope, test: text('id') };
        case 'Complaint':
        case 'Makes':
        case 'AskTest':
        case 'ConfirmTest':
            return { ...scope, test: text('test') };
        case 'Condition':
            return { ...scope, condition: text('id') };
        case 'ConditionState':
        case 'Setting':
        case 'LeavesCondition':
            return { ...scope, condition: text('condition') };
        case 'Follow':
            return { ...scope, procedure: text('procedure') };
        default:
            return scope;
    }
}

/** Notes an id where it is declared; says what is wrong if it is there already. */
export function declare(declared: Declared, item: Item): string | undefined {
    const id = item.value as string;
    const { owner } = item.scope;
    const taken = `\`${id}\` is declared twice.`;
    if (item.field === 'TargetId') {
        if (!owner || owner.targets.has(id)) return taken;
        owner.targets.add(id);
        if (item.parent?.field === 'Result') add(declared, `ResultId of ${owner.procedure ?? ''}`, id);
        return undefined;
    }
    const key = keyOf(item.field, item.scope);
    if (declared.get(key)?.has(id)) return taken;
    add(declared, key, id);
    return undefined;
}

function add(declared: Declared, key: string, id: string): void {
    const known = declared.get(key);
    if (known) known.add(id);
    else declared.set(key, new Set([id]));
}

function keyOf(sort: string, { test, condition, procedure }: Scope): string {
    switch (sort) {
        case 'OutcomeId':
            return `OutcomeId of ${test ?? ''}`;
        case 'ValueId':
            return `ValueId of ${condition ?? ''}`;
        case 'ResultId':
            return `ResultId of ${procedure ?? ''}`;
        default:
            return sort;
    }
}

/** Sorts of ids that other sorts can stand for. */
const sortsOf: Readonly<Record<string, readonly string[]>> = {
    PartId: ['PartId', 'SupplyId'],
    EnergyId: ['HazardId', 'SupplyId'],
    MemberId: ['PartId', 'SupplyId', 'HazardId', 'FlowId'],
};

/** What is not declared in a document: other trees, and kinds, which are written out in their parts. */
const declaredElsewhere: ReadonlySet<string> = new Set(['TreeId', 'KindId']);

/** The first reference that leads nowhere. */
export function checkReferences(
    referred: readonly Referred[],
    declared: Declared,
): { readonly item: Item; readonly why: string } | undefined {
    for (const item of referred) {
        if (!leadsSomewhere(item, declared)) {
            return { item, why: `There is nothing called \`${String(item.value)}\` (${item.field}).` };
        }
    }
    return undefined;
}

function leadsSomewhere({ field, value, scope }: Item, declared: Declared): boolean {
    const id = value as string;
    if (declaredElsewhere.has(field)) return true;
    if (field === 'TargetId') return scope.owner?.targets.has(id) ?? false;
    if (scope.owner?.hasSubject) {
        if (isSubject(id)) return true;
        // The outcomes of what a call names are only known at the call.
        if (field === 'OutcomeId' && scope.test !== undefined && isSubject(scope.test)) return true;
    }
    const key = keyOf(field, scope);
    return (sortsOf[key] ?? [key]).some(sort => declared.get(sort)?.has(id) ?? false);
}

function isSubject(id: string): boolean {
    return id === 'it' || id.startsWith('it.');
}
