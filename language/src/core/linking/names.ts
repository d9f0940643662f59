// The lists of names: hashed once for each file and each declaration, so that a look-up costs the same in any file.

import type { Choice, Equipment, Flow, Option, PartLike, Place } from '../model/equipment.js';
import type { Declaration, FileModel } from '../model/file.js';
import type { Procedure, Tree } from '../model/trees.js';

/** Names of one sort to what they stand for; the first declaration of a name wins, later ones are findings. */
export type Names = ReadonlyMap<string, Declaration>;

export interface EquipmentNames {
    /** Parts, supplies, hazards, zones, conditions and flows share one list. */
    readonly members: Names;
    readonly options: Names;
    /** A choice's name may belong to several options. */
    readonly choices: ReadonlyMap<string, readonly Choice[]>;
    readonly tests: Names;
    readonly gates: Names;
    readonly kinds: Names;
    readonly instruments: Names;
    /** Tables and curves: both turn one quantity into another. */
    readonly tables: Names;
    /** Labels of places in flows. */
    readonly places: Names;
    readonly optionOfChoice: ReadonlyMap<Choice, Option>;
}

const equipmentNames = new WeakMap<Equipment, EquipmentNames>();

/** The lists of names of one equipment; made once for each version of it. */
export function namesOfEquipment(equipment: Equipment): EquipmentNames {
    const known = equipmentNames.get(equipment);
    if (known) return known;
    const choices = new Map<string, Choice[]>();
    const optionOfChoice = new Map<Choice, Option>();
    for (const option of equipment.options) {
        for (const choice of option.choices) {
            optionOfChoice.set(choice, option);
            const same = choices.get(choice.name.text);
            if (same) same.push(choice);
            else choices.set(choice.name.text, [choice]);
        }
    }
    const names: EquipmentNames = {
        members: listNames(
            equipment.parts,
            equipment.supplies,
            equipment.hazards,
            equipment.zones,
            equipment.conditions,
            equipment.flows,
        ),
        options: listNames(equipment.options),
        choices,
        tests: listNames(equipment.tests),
        gates: listNames(equipment.gates),
        kinds: listNames(equipment.kinds),
        instruments: listNames(equipment.instruments),
        tables: listNames(equipment.tables, equipment.curves),
        places: listNames(equipment.flows.flatMap(placesOf)),
        optionOfChoice,
    };
    equipmentNames.set(equipment, names);
    return names;
}

/** All places of a flow, those within its branches included. */
export function placesOf(flow: Flow): Place[] {
    const places: Place[] = [];
    const pending = [flow.chain];
    for (let chain = pending.pop(); chain; chain = pending.pop()) {
        for (const element of chain.elements) {
            if (element.sort === 'place') places.push(element);
            else if (element.sort === 'group') pending.push(...element.chains);
        }
    }
    return places;
}

export interface PartNames {
    readonly faults: Names;
    readonly tests: Names;
}

const partNames = new WeakMap<PartLike, PartNames>();

/** The faults and tests that a part, supply or kind declares itself. */
export function namesOfPart(part: PartLike): PartNames {
    let names = partNames.get(part);
    if (!names) {
        names = { faults: listNames(part.faults), tests: listNames(part.tests) };
        partNames.set(part, names);
    }
    return names;
}

const targetNames = new WeakMap<Tree | Procedure, Names>();

/** Steps and ends of a tree or procedure: where its branches can lead. */
export function targetsOf(owner: Tree | Procedure): Names {
    let names = targetNames.get(owner);
    if (!names) {
        names =
            owner.sort === 'tree'
                ? listNames(owner.steps, owner.conclusions, owner.referrals)
                : listNames(owner.steps, owner.results);
        targetNames.set(owner, names);
    }
    return names;
}

export type GlobalSort = 'equipment' | 'kinds' | 'instruments' | 'tables' | 'trees' | 'procedures';

export const globalSorts: readonly GlobalSort[] = [
    'equipment',
    'kinds',
    'instruments',
    'tables',
    'trees',
    'procedures',
];

const fileNames = new WeakMap<FileModel, Readonly<Record<GlobalSort, Names>>>();

/** What a file declares at its top level. */
export function namesOfFile(file: FileModel): Readonly<Record<GlobalSort, Names>> {
    let names = fileNames.get(file);
    if (!names) {
        names = {
            equipment: listNames(file.equipment),
            kinds: listNames(file.kinds),
            instruments: listNames(file.instruments),
            tables: listNames(file.tables, file.curves),
            trees: listNames(file.trees),
            procedures: listNames(file.procedures),
        };
        fileNames.set(file, names);
    }
    return names;
}

const innerNames = new WeakMap<Declaration, Names>();

/** The names that belong to a declaration: outcomes of a test, values of a condition, choices of an option, results. */
export function namesWithin(declaration: Declaration): Names {
    let names = innerNames.get(declaration);
    if (!names) {
        names = listNames(innerDeclarations(declaration));
        innerNames.set(declaration, names);
    }
    return names;
}

function innerDeclarations(declaration: Declaration): readonly Declaration[] {
    switch (declaration.sort) {
        case 'test':
            return declaration.outcomes;
        case 'condition':
            return declaration.values;
        case 'option':
            return declaration.choices;
        case 'procedure':
            return declaration.results;
        default:
            return [];
    }
}

/** A list of names out of declarations; unnamed ones (half-written) are left out. */
export function listNames(...groups: readonly (readonly Declaration[])[]): Names {
    const names = new Map<string, Declaration>();
    for (const group of groups) {
        for (const declaration of group) {
            const name = nameOf(declaration);
            if (name !== '' && !names.has(name)) names.set(name, declaration);
        }
    }
    return names;
}

/** The name of a declaration; `it` for the subject of a procedure. */
export function nameOf(declaration: Declaration): string {
    return declaration.sort === 'subject' ? 'it' : declaration.name.text;
}
