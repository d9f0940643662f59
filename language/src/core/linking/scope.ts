// Where a reference looks: which lists of names, and which declarations fit its role.
// The linker and completion both ask here, so that they can never disagree.

import type { Equipment, Kind, Part, PartLike } from '../model/equipment.js';
import type { Declaration, FileModel } from '../model/file.js';
import type { Test } from '../model/tests.js';
import type { Procedure, Subject, Tree } from '../model/trees.js';
import type { FileId, Reference, ReferenceRole } from '../model/written.js';
import {
    type GlobalSort,
    listNames,
    type Names,
    namesOfEquipment,
    namesOfFile,
    namesOfPart,
    namesWithin,
    targetsOf,
} from './names.js';

/** What stands around a reference, as far as it decides what names mean there. */
export interface Context {
    readonly file: FileId;
    readonly equipment: Equipment | undefined;
    /** The part, supply or kind whose own faults and tests may be named without their owner. */
    readonly partLike: PartLike | undefined;
    readonly owner: Tree | Procedure | undefined;
    /** What the procedure is about: `it`. */
    readonly subject: Subject | undefined;
    /** The declaration that the name belongs to: a test's outcome, a part's fault, a condition's value. */
    readonly of: Declaration | undefined;
}

/** What a scope asks of the workspace. */
export interface Visible {
    /** The files that a file sees, itself first. */
    visibleFiles(file: FileId): readonly FileModel[];
}

/** Where one reference looks. */
export interface Scope {
    /** In the order of looking; the first list that has the name decides. */
    readonly lists: readonly Names[];
    readonly fits: (declaration: Declaration) => boolean;
    /** What is wanted, in the writer's words. */
    readonly wanted: string;
    /** Where it is looked for, in the writer's words. */
    readonly within: string;
    /** True where nothing can be said because what it depends on is unknown already. */
    readonly open: boolean;
}

const anything = () => true;

const sorts =
    (...wanted: readonly Declaration['sort'][]) =>
    (declaration: Declaration) =>
        wanted.includes(declaration.sort);

interface MemberRole {
    readonly wanted: string;
    readonly fits: (declaration: Declaration) => boolean;
}

const memberRoles: Partial<Record<ReferenceRole, MemberRole>> = {
    member: { wanted: 'part, supply, hazard or flow', fits: sorts('part', 'supply', 'hazard', 'flow') },
    zone: { wanted: 'zone', fits: sorts('zone') },
    part: { wanted: 'part or supply', fits: sorts('part', 'supply', 'subject') },
    energy: { wanted: 'hazard or supply', fits: sorts('hazard', 'supply') },
    condition: { wanted: 'condition', fits: sorts('condition') },
    flow: { wanted: 'flow', fits: sorts('flow') },
    subject: { wanted: 'condition, hazard or flow', fits: sorts('condition', 'hazard', 'flow', 'supply') },
};

/** The scope of a role in a context. */
export function scopeOf(role: ReferenceRole, context: Context, visible: Visible): Scope {
    const member = memberRoles[role];
    if (member) return memberScope(member, context);
    switch (role) {
        case 'gate':
            return equipmentScope('gate', context, names => [names.gates]);
        case 'option':
            return equipmentScope('option', context, names => [names.options]);
        case 'place':
            return {
                ...equipmentScope('place or flow', context, names => [names.places, names.members]),
                fits: sorts('place', 'flow'),
            };
        case 'stretch-end':
            return {
                ...equipmentScope('part, supply, hazard or place', context, names => [names.places, names.members]),
                fits: sorts('place', 'part', 'supply', 'hazard'),
            };
        case 'kind':
            return globalScope('kind', 'kinds', context, visible);
        case 'instrument':
            return globalScope('instrument', 'instruments', context, visible);
        case 'table':
            return globalScope('table or curve', 'tables', context, visible);
        case 'equipment':
            return globalScope('equipment', 'equipment', context, visible);
        case 'tree':
            return globalScope('tree', 'trees', context, visible);
        case 'procedure':
            return globalScope('procedure', 'procedures', context, visible);
        case 'target':
            return targetScope(context);
        case 'test':
            return testScope(context, visible);
        case 'fault':
            return faultScope(context, visible);
        case 'subject-given':
            return subjectGivenScope(context);
        default:
            return scopeWithin(role, context, visible);
    }
}

function memberScope(member: MemberRole, context: Context): Scope {
    const lists: Names[] = [];
    if (context.subject) lists.push(listNames([context.subject]));
    if (context.equipment) lists.push(namesOfEquipment(context.equipment).members);
    return { lists, fits: member.fits, wanted: member.wanted, within: equipmentWords(context), open: false };
}

function equipmentScope(
    wanted: string,
    context: Context,
    pick: (names: ReturnType<typeof namesOfEquipment>) => Names[],
): Scope {
    const lists = context.equipment ? pick(namesOfEquipment(context.equipment)) : [];
    return { lists, fits: anything, wanted, within: equipmentWords(context), open: false };
}

function equipmentWords(context: Context): string {
    if (context.equipment) return `equipment \`${context.equipment.name.text}\``;
    if (context.owner) return `\`${context.owner.name.text}\`, which does not say of which equipment it is`;
    return 'a declaration that stands outside any equipment';
}

/** The equipment's own list first, then what the visible files declare at their top level. */
function globalScope(wanted: string, sort: GlobalSort, context: Context, visible: Visible): Scope {
    const lists: Names[] = [];
    if (context.equipment && (sort === 'kinds' || sort === 'instruments' || sort === 'tables')) {
        lists.push(namesOfEquipment(context.equipment)[sort]);
    }
    for (const file of visible.visibleFiles(context.file)) lists.push(namesOfFile(file)[sort]);
    return { lists, fits: anything, wanted, within: '', open: false };
}

function targetScope(context: Context): Scope {
    const owner = context.of?.sort === 'tree' ? context.of : context.owner;
    if (!owner) return openScope('step or end');
    return {
        lists: [targetsOf(owner)],
        fits: anything,
        wanted: owner.sort === 'tree' ? 'step, conclusion or referral' : 'step or result',
        within: `${owner.sort} \`${owner.name.text}\``,
        open: false,
    };
}

/** Own tests of a part or kind first, then the equipment's; `it` where the procedure is about a test. */
function testScope(context: Context, visible: Visible): Scope {
    const lists: Names[] = [];
    if (context.subject?.of === 'test') lists.push(listNames([context.subject]));
    if (context.partLike) lists.push(...partLists(context.partLike, context, visible).map(names => names.tests));
    if (context.equipment) lists.push(namesOfEquipment(context.equipment).tests);
    return { lists, fits: anything, wanted: 'test', within: equipmentWords(context), open: false };
}

/** What a procedure is followed with: a part, a supply or a test, or what the following procedure is about itself. */
function subjectGivenScope(context: Context): Scope {
    const lists: Names[] = [];
    if (context.subject) lists.push(listNames([context.subject]));
    if (context.equipment) {
        const names = namesOfEquipment(context.equipment);
        lists.push(names.members, names.tests);
    }
    return {
        lists,
        fits: sorts('part', 'supply', 'test', 'subject'),
        wanted: 'part, supply or test',
        within: equipmentWords(context),
        open: false,
    };
}

/** A fault without its owner: one of the part's own, else a whole part, else a test that remembers. */
function faultScope(context: Context, visible: Visible): Scope {
    const lists: Names[] = [];
    if (context.subject) lists.push(listNames([context.subject]));
    if (context.partLike) lists.push(...partLists(context.partLike, context, visible).map(names => names.faults));
    if (context.equipment) {
        const names = namesOfEquipment(context.equipment);
        lists.push(names.members, names.tests);
    }
    return {
        lists,
        fits: sorts('fault', 'part', 'supply', 'subject', 'test'),
        wanted: 'part or fault',
        within: equipmentWords(context),
        open: false,
    };
}

/** Names that belong to what stands before them: `part.fault`, a test's outcome, a condition's value. */
function scopeWithin(role: ReferenceRole, context: Context, visible: Visible): Scope {
    const of = context.of;
    switch (role) {
        case 'fault-of-part':
            return withinPart('fault', context, visible, names => names.faults);
        case 'test-of-part':
            return withinPart('test', context, visible, names => names.tests);
        case 'value':
            return of?.sort === 'condition'
                ? closed('value', [namesWithin(of)], `condition \`${of.name.text}\``)
                : openScope('value');
        case 'choice-of-option':
            return of?.sort === 'option'
                ? closed('choice', [namesWithin(of)], `option \`${of.name.text}\``)
                : openScope('choice');
        case 'result':
            return of?.sort === 'procedure'
                ? closed('result', [namesWithin(of)], `procedure \`${of.name.text}\``)
                : openScope('result');
        case 'outcome':
            return outcomeScope(of, context);
        default:
            return openScope('name');
    }
}

function outcomeScope(of: Declaration | undefined, context: Context): Scope {
    if (of?.sort !== 'test') return openScope('outcome');
    const option = optionOf(of, context);
    const lists = [namesWithin(of)];
    if (option?.sort === 'option') lists.push(namesWithin(option));
    return closed('outcome', lists, `test \`${of.name.text}\``);
}

function withinPart(
    wanted: string,
    context: Context,
    visible: Visible,
    pick: (names: ReturnType<typeof namesOfPart>) => Names,
): Scope {
    const of = context.of?.sort === 'subject' ? kindNamed(context.of.kind, context, visible) : context.of;
    if (of?.sort !== 'part' && of?.sort !== 'supply' && of?.sort !== 'kind') return openScope(wanted);
    return closed(wanted, partLists(of, context, visible).map(pick), `${of.sort} \`${of.name.text}\``);
}

/** A part's own names, then those of its kind. */
function partLists(part: PartLike, context: Context, visible: Visible): ReturnType<typeof namesOfPart>[] {
    const kind = kindOf(part, context, visible);
    return kind ? [namesOfPart(part), namesOfPart(kind)] : [namesOfPart(part)];
}

/** The kind of a part; looked up by name, because the part may stand later in the text or in another file. */
function kindOf(part: PartLike, context: Context, visible: Visible): PartLike | undefined {
    const reference = (part as Part).sort === 'part' ? (part as Part).kind : undefined;
    return kindNamed(reference, { ...context, file: part.file }, visible);
}

function kindNamed(reference: Reference | undefined, context: Context, visible: Visible): Kind | undefined {
    if (!reference) return undefined;
    for (const list of globalScope('kind', 'kinds', context, visible).lists) {
        const kind = list.get(reference.text);
        if (kind?.sort === 'kind') return kind;
    }
    return undefined;
}

/** The option that a test identifies, if it is such a test. */
function optionOf(test: Test, context: Context): Declaration | undefined {
    const identify = test.methods.find(method => method.sort === 'identify');
    if (!identify || !context.equipment) return undefined;
    return namesOfEquipment(context.equipment).options.get(identify.option.text);
}

function closed(wanted: string, lists: readonly Names[], within: string): Scope {
    return { lists, fits: anything, wanted, within, open: false };
}

function openScope(wanted: string): Scope {
    return { lists: [], fits: anything, wanted, within: '', open: true };
}
