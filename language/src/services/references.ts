// Find references, and the places of the same name in one file.

import type { LangiumDocument } from 'langium';
import type { DocumentHighlightProvider, ReferencesProvider } from 'langium/lsp';
import {
    type DocumentHighlight,
    DocumentHighlightKind,
    type DocumentHighlightParams,
    type Location,
    type Position,
    type ReferenceParams,
} from 'vscode-languageserver';
import { nameAt, type NamePlace, namesakesOf, placesNaming } from './names-at.js';
import { toLocation, toRange } from './to-lsp.js';
import type { Located, Workspaces } from './workspaces.js';

export class FaultReferencesProvider implements ReferencesProvider {
    constructor(private readonly workspaces: Workspaces) {}

    findReferences(document: LangiumDocument, { position, context }: ReferenceParams): Location[] {
        const located = this.workspaces.read(document);
        if (!located) return [];
        return findPlaces(located, position)
            .filter(({ reference }) => context.includeDeclaration || reference !== undefined)
            .flatMap(place => toLocation(place, located.workspace.textOf) ?? []);
    }
}

export class FaultDocumentHighlightProvider implements DocumentHighlightProvider {
    constructor(private readonly workspaces: Workspaces) {}

    getDocumentHighlight(document: LangiumDocument, { position }: DocumentHighlightParams): DocumentHighlight[] {
        const located = this.workspaces.read(document);
        if (!located) return [];
        return findPlaces(located, position)
            .filter(({ file }) => file === located.file)
            .map(place => ({
                range: toRange(located.source.text, place),
                kind: place.reference ? DocumentHighlightKind.Read : DocumentHighlightKind.Write,
            }));
    }
}

function findPlaces(located: Located, position: Position): NamePlace[] {
    const { workspace, source } = located;
    const declaration = nameAt(located, source.text.offsetAt(position))?.declaration;
    return declaration ? placesNaming(namesakesOf(declaration, workspace), workspace) : [];
}
