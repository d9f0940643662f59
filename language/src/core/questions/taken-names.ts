// Names that two declarations of one list share: the first one has it, the later ones cannot be named.

import {
    type GlobalSort,
    globalSorts,
    nameOf,
    type Names,
    namesOfEquipment,
    namesOfFile,
    namesOfPart,
    namesWithin,
    placesOf,
    targetsOf,
} from '../linking/names.js';
import { resolvePath } from '../linking/paths.js';
import type { Equipment, Kind, Part, Supply } from '../model/equipment.js';
import type { Declaration, FileModel } from '../model/file.js';
import type { Model } from '../model/model.js';
import type { Span } from '../model/written.js';
import { oncePerFile, oncePerModel } from './remember.js';

/** A declaration whose name stands for another one already. */
export interface TakenName {
    readonly name: string;
    /** Where the finding belongs: the later declaration's name, or the `uses` line that brings it in. */
    readonly place: Span;
    readonly later: Declaration;
    readonly first: Declaration;
    /** Where both belong, in words, such as ``equipment `lamp` ``; empty for declarations that files share. */
    readonly within: string;
    /** Every name of the list, so that a new one can be found; empty where the later declaration is elsewhere. */
    readonly names: Names;
    /** Whether the later declaration stands in another file, which `place` uses. */
    readonly used: boolean;
}

/** All names of a file that are taken. Each declaration is looked at once. */
export const takenNamesOf = oncePerFile(findTakenNames);

function findTakenNames(file: FileModel, model: Model): TakenName[] {
    const taken: TakenName[] = [];
    const names = namesOfFile(file);
    for (const sort of globalSorts) inList(taken, undefined, names[sort], file[sort]);
    amongFiles(taken, file, model);
    for (const equipment of file.equipment) inEquipment(taken, equipment);
    for (const kind of file.kinds) inPart(taken, kind);
    for (const tree of file.trees) inList(taken, tree, targetsOf(tree), tree.steps, tree.conclusions, tree.referrals);
    for (const owner of file.procedures) inList(taken, owner, targetsOf(owner), owner.steps, owner.results);
    return taken;
}

function inEquipment(taken: TakenName[], equipment: Equipment): void {
    const names = namesOfEquipment(equipment);
    const { parts, supplies, hazards, zones, conditions, flows, kinds } = equipment;
    inList(taken, equipment, names.members, parts, supplies, hazards, zones, conditions, flows);
    inList(taken, equipment, names.options, equipment.options);
    inList(taken, equipment, names.tests, equipment.tests);
    inList(taken, equipment, names.gates, equipment.gates);
    inList(taken, equipment, names.kinds, kinds);
    inList(taken, equipment, names.instruments, equipment.instruments);
    inList(taken, equipment, names.tables, equipment.tables, equipment.curves);
    inLabels(taken, equipment);
    for (const option of equipment.options) inList(taken, option, namesWithin(option), option.choices);
    for (const condition of conditions) inList(taken, condition, namesWithin(condition), condition.values);
    for (const list of [kinds, supplies, parts]) for (const part of list) inPart(taken, part);
}

/** A fault that a part shares with its kind is no finding: the part adds to it. */
function inPart(taken: TakenName[], part: Part | Supply | Kind): void {
    const { faults, tests } = namesOfPart(part);
    inList(taken, part, faults, part.faults);
    inList(taken, part, tests, part.tests);
}

/** Where a label can stand, a flow, a part, a supply or a hazard can stand as well. */
function inLabels(taken: TakenName[], equipment: Equipment): void {
    const { places, members } = namesOfEquipment(equipment);
    if (places.size === 0) return;
    const labels = equipment.flows.flatMap(placesOf).filter(({ name }) => name.text !== '');
    inList(taken, equipment, places, labels);
    for (const [name, later] of places) {
        const first = members.get(name);
        if (!first || first.sort === 'zone' || first.sort === 'condition') continue;
        taken.push({
            name,
            place: placeOf(later),
            later,
            first,
            within: words(equipment),
            names: members,
            used: false,
        });
    }
}

/** Every declaration for which the list of names has another one. Without an owner the list is that of the file. */
function inList(
    taken: TakenName[],
    owner: Named | undefined,
    names: Names,
    ...groups: readonly (readonly Declaration[])[]
): void {
    let count = 0;
    for (const group of groups) count += group.length;
    // As many names as declarations: each has its own.
    if (count === names.size) return;
    for (const group of groups) {
        for (const later of group) {
            const name = nameOf(later);
            const first = names.get(name);
            if (!first || first === later) continue;
            const within = owner ? words(owner) : '';
            taken.push({ name, place: placeOf(later), later, first, within, names, used: false });
        }
    }
}

/** A name that another file declares as well. */
interface SharedName {
    readonly key: string;
    readonly name: string;
    readonly sort: GlobalSort;
    readonly declaration: Declaration;
}

/** The names of each file that another file of the workspace declares as well, whether it sees that file or not. */
const sharedNamesOf = oncePerModel(findSharedNames);

function findSharedNames(model: Model): ReadonlyMap<FileModel, readonly SharedName[]> {
    const declaring = new Map<string, { readonly file: FileModel; readonly shared: SharedName }[]>();
    for (const file of model.files.values()) {
        const namesBySort = namesOfFile(file);
        for (const sort of globalSorts) {
            for (const [name, declaration] of namesBySort[sort]) {
                const key = `${sort} ${name}`;
                const entry = { file, shared: { key, name, sort, declaration } };
                const known = declaring.get(key);
                if (known) known.push(entry);
                else declaring.set(key, [entry]);
            }
        }
    }
    const sharedNames = new Map<FileModel, SharedName[]>();
    for (const entries of declaring.values()) {
        if (entries.length < 2) continue;
        for (const { file, shared } of entries) {
            const known = sharedNames.get(file);
            if (known) known.push(shared);
            else sharedNames.set(file, [shared]);
        }
    }
    return sharedNames;
}

/** Names that meet in this file: its own with those of a file that it sees, or those of two files that it uses. */
function amongFiles(taken: TakenName[], file: FileModel, model: Model): void {
    const sharedNames = sharedNamesOf(model);
    if (sharedNames.size === 0) return;
    const [, ...others] = model.visibleFiles(file.file);
    const met = new Map<string, { readonly declaration: Declaration; readonly file: FileModel }>();
    const own = new Map((sharedNames.get(file) ?? []).map(shared => [shared.key, shared]));
    for (const other of others) {
        for (const { key, name, sort, declaration } of sharedNames.get(other) ?? []) {
            const ours = own.get(key);
            const first = met.get(key);
            if (ours && !first) {
                met.set(key, { declaration, file: other });
                const [later, names] = [ours.declaration, namesOfFile(file)[sort]];
                taken.push({ name, place: placeOf(later), later, first: declaration, within: '', names, used: false });
            } else if (!first) {
                met.set(key, { declaration, file: other });
            } else if (!ours) {
                const place = placeOfMeeting(file, first.file, other, model);
                const names: Names = new Map();
                if (place) {
                    taken.push({
                        name,
                        place,
                        later: declaration,
                        first: first.declaration,
                        within: '',
                        names,
                        used: true,
                    });
                }
            }
        }
    }
}

/** The `uses` that brings in the second of two files; undefined where a used file sees both, which is told there. */
function placeOfMeeting(file: FileModel, first: FileModel, second: FileModel, model: Model): Span | undefined {
    let place: Span | undefined;
    for (const { path } of file.uses) {
        const used = resolvePath(file.file, path.value);
        const seen = used === undefined ? [] : model.visibleFiles(used);
        if (!seen.includes(second)) continue;
        if (seen.includes(first)) return undefined;
        place ??= path;
    }
    return place;
}

function placeOf(declaration: Declaration): Span {
    return declaration.sort === 'subject' ? declaration : declaration.name;
}

/** Anything with a name of its own. */
type Named = Exclude<Declaration, { sort: 'subject' }>;

function words(declaration: Named): string {
    return `${declaration.sort} \`${declaration.name.text}\``;
}
