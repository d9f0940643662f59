// The one linker: resolves the references of a file by hashed lists of names, for the command line and the editor alike.

import type { Equipment } from '../model/equipment.js';
import type { Declaration, FileModel } from '../model/file.js';
import type { Tree } from '../model/trees.js';
import type { FileId, Reference } from '../model/written.js';
import { nearNames } from '../text/near-names.js';
import { type GlobalSort, namesOfEquipment, namesOfFile } from './names.js';
import type { LinkProblem } from './problem.js';
import { type Context, type Scope, scopeOf } from './scope.js';
import { visitReferences } from './visit.js';

/** What the linker knows of the workspace. */
export interface LinkSources {
    /** The files that a file sees, itself first. */
    visibleFiles(file: FileId): readonly FileModel[];
    /** All files that declare this name at their top level, seen or not. */
    declaring(sort: GlobalSort, name: string): readonly FileId[];
}

/** The links of one file: a target for each reference number, and what could not be resolved. */
export interface FileLinks {
    readonly targets: readonly (Declaration | undefined)[];
    readonly problems: readonly LinkProblem[];
}

/** Functions that a calculation may call without declaring them. */
export const builtInFunctions: readonly string[] = ['mean', 'largest', 'smallest', 'deviation', 'unbalance'];

/** Near names cost a comparison with every candidate; past this many problems in one file they are left out. */
const problemsWithNearNames = 200;

const globalSortOfRole: Partial<Record<Reference['role'], GlobalSort>> = {
    equipment: 'equipment',
    kind: 'kinds',
    instrument: 'instruments',
    table: 'tables',
    tree: 'trees',
    procedure: 'procedures',
};

/** Links one file. `watch` is told of each reference with its context, for completion. */
export function linkFile(
    file: FileModel,
    sources: LinkSources,
    watch?: (reference: Reference, context: Context) => void,
): FileLinks {
    const targets = new Array<Declaration | undefined>(file.referenceCount);
    const problems: LinkProblem[] = [];

    const resolve = (reference: Reference, context: Context): Declaration | undefined => {
        watch?.(reference, context);
        if (reference.text === '') return undefined;
        const target = lookUp(reference, context, sources, problems);
        targets[reference.number] = target;
        return target;
    };

    const equipmentOf = (tree: Tree): Equipment | undefined => equipmentOfTree(tree, sources);
    visitReferences(file, resolve, equipmentOf);
    problems.sort((one, other) => one.reference.start - other.reference.start);
    return { targets, problems };
}

/** The equipment of a tree that may stand in another file than the one being linked. */
export function equipmentOfTree(tree: Tree, sources: LinkSources): Equipment | undefined {
    for (const file of sources.visibleFiles(tree.file)) {
        const found = namesOfFile(file).equipment.get(tree.equipment.text);
        if (found?.sort === 'equipment') return found;
    }
    return undefined;
}

function lookUp(
    reference: Reference,
    context: Context,
    sources: LinkSources,
    problems: LinkProblem[],
): Declaration | undefined {
    if (reference.role === 'choice') return lookUpChoice(reference, context, problems);
    const scope = scopeOf(reference.role, context, sources);
    let instead: Declaration | undefined;
    for (const list of scope.lists) {
        const found = list.get(reference.text);
        if (!found) continue;
        if (scope.fits(found)) return found;
        instead ??= found;
    }
    if (scope.open) return undefined;
    if (reference.role === 'table' && builtInFunctions.includes(reference.text)) return undefined;
    problems.push(unknown(reference, scope, sources, instead, problems.length < problemsWithNearNames));
    return undefined;
}

function unknown(
    reference: Reference,
    scope: Scope,
    sources: LinkSources,
    instead: Declaration | undefined,
    withNearNames: boolean,
): LinkProblem {
    const globalSort = globalSortOfRole[reference.role];
    const near = withNearNames ? nearNames(reference.text, fittingNames(scope)) : [];
    return {
        sort: 'unknown',
        reference,
        wanted: scope.wanted,
        within: scope.within,
        near,
        elsewhere: globalSort ? sources.declaring(globalSort, reference.text) : [],
        instead,
    };
}

/** All names that would fit in a scope; the nearest list first. */
export function fittingNames(scope: Scope): string[] {
    const names = new Set<string>();
    for (const list of scope.lists) {
        for (const [name, declaration] of list) if (scope.fits(declaration)) names.add(name);
    }
    return [...names];
}

/** A choice without its option: it must belong to one option only. */
function lookUpChoice(reference: Reference, context: Context, problems: LinkProblem[]): Declaration | undefined {
    const names = context.equipment ? namesOfEquipment(context.equipment) : undefined;
    const candidates = names?.choices.get(reference.text) ?? [];
    const first = candidates[0];
    if (candidates.length === 1) return first;
    if (first) {
        problems.push({ sort: 'ambiguous', reference, wanted: 'choice', candidates });
        return undefined;
    }
    const within = context.equipment
        ? `equipment \`${context.equipment.name.text}\``
        : 'a declaration that stands outside any equipment';
    const near =
        problems.length < problemsWithNearNames ? nearNames(reference.text, [...(names?.choices.keys() ?? [])]) : [];
    const instead = names?.options.get(reference.text) ?? names?.members.get(reference.text);
    problems.push({ sort: 'unknown', reference, wanted: 'choice', within, near, elsewhere: [], instead });
    return undefined;
}
