// Finds the name at a place of a file, and all places where a declaration is named.

import type { AstNode } from 'langium';
import { nameOf } from '../core/linking/names.js';
import type { Kind, Part } from '../core/model/equipment.js';
import type { Declaration } from '../core/model/file.js';
import type { Reference, Span } from '../core/model/written.js';
import type { EditorWorkspace } from './editor-workspace.js';
import type { SourceFile } from './source-file.js';
import type { Located } from './workspaces.js';

/** A name where it is written: by the declaration that gives it, or by a reference. */
export interface NamePlace extends Span {
    /** What the name stands for; undefined where the linker has said why not. */
    readonly declaration: Declaration | undefined;
    /** The reference; undefined where the declaration itself stands. */
    readonly reference: Reference | undefined;
}

/** The name that the offset touches; with the cursor between two, the one behind it. */
export function nameAt({ workspace, file, source }: Located, offset: number): NamePlace | undefined {
    let before: NamePlace | undefined;
    for (const place of namesIn(source, workspace)) {
        if (place.file !== file || place.start > offset || place.end < offset || place.start === place.end) continue;
        if (place.end > offset) return place;
        before = place;
    }
    return before;
}

/** Every place of the workspace where one of the declarations is named, the declarations' own names included. */
export function placesNaming(declarations: readonly Declaration[], workspace: EditorWorkspace): NamePlace[] {
    const wanted = new Set(declarations);
    const places: NamePlace[] = [];
    for (const source of workspace.all()) {
        for (const place of namesIn(source, workspace)) {
            if (place.declaration && wanted.has(place.declaration)) places.push(place);
        }
    }
    return places;
}

function* namesIn(source: SourceFile, workspace: EditorWorkspace): Generator<NamePlace> {
    const links = workspace.links.links(source.file);
    for (const reference of links?.references ?? []) {
        if (reference.text === '') continue;
        const { file, start, end, number } = reference;
        yield { file, start, end, reference, declaration: links?.targets[number] };
    }
    for (const declaration of source.nodes.keys()) {
        const name = ownName(declaration);
        if (name) yield { file: name.file, start: name.start, end: name.end, reference: undefined, declaration };
    }
}

/** The name that a declaration gives itself; undefined for the subject of a procedure, and where none is written yet. */
export function ownName(declaration: Declaration): (Span & { readonly text: string }) | undefined {
    if (declaration.sort === 'subject' || declaration.name.text === '') return undefined;
    return declaration.name;
}

/**
 * All declarations that are one thing under one name: an outcome that stands several times in its test,
 * and a fault or test that a part repeats from its kind.
 */
export function namesakesOf(declaration: Declaration, workspace: EditorWorkspace): readonly Declaration[] {
    const name = nameOf(declaration);
    const owner = ownerOf(declaration, workspace);
    if (declaration.sort === 'outcome' && owner?.sort === 'test') {
        return owner.outcomes.filter(outcome => outcome.name.text === name);
    }
    if (declaration.sort !== 'fault' && declaration.sort !== 'test') return [declaration];
    if (owner?.sort !== 'part' && owner?.sort !== 'kind') return [declaration];
    const kind = owner.sort === 'part' ? kindOf(owner, workspace) : owner;
    const list = declaration.sort === 'fault' ? 'faults' : 'tests';
    const owners: readonly (Part | Kind)[] = kind ? [kind, ...partsOf(kind, workspace)] : [owner];
    return owners.flatMap((one): Declaration[] => one[list].filter(inner => inner.name.text === name));
}

/** The declaration that another one stands in. */
export function ownerOf(declaration: Declaration, workspace: EditorWorkspace): Declaration | undefined {
    const source = workspace.get(declaration.file);
    if (!source) return undefined;
    const declarations = declarationsByNode(source);
    let node = source.nodes.get(declaration)?.$container;
    while (node && !declarations.has(node)) node = node.$container;
    return node && declarations.get(node);
}

function kindOf(part: Part, workspace: EditorWorkspace): Kind | undefined {
    const target = part.kind && workspace.links.model.target(part.kind);
    return target?.sort === 'kind' ? target : undefined;
}

function partsOf(kind: Kind, workspace: EditorWorkspace): Part[] {
    return [...workspace.all()].flatMap(({ model }) =>
        model.equipment.flatMap(({ parts }) => parts.filter(part => kindOf(part, workspace) === kind)),
    );
}

const byNode = new WeakMap<SourceFile, ReadonlyMap<AstNode, Declaration>>();

function declarationsByNode(source: SourceFile): ReadonlyMap<AstNode, Declaration> {
    let declarations = byNode.get(source);
    if (!declarations) {
        declarations = new Map([...source.nodes].map(([declaration, node]) => [node, declaration]));
        byNode.set(source, declarations);
    }
    return declarations;
}
