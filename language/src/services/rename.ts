// Rename: a new name for a declaration wherever it is named, refused where any name would come to mean something else.

import type { LangiumDocument } from 'langium';
import type { RenameProvider } from 'langium/lsp';
import {
    LSPErrorCodes,
    type Position,
    type Range,
    type RenameParams,
    ResponseError,
    type TextDocumentPositionParams,
    type TextEdit,
    type WorkspaceEdit,
} from 'vscode-languageserver';
import { nounFor } from '../core/model/declaration-words.js';
import { nameOf } from '../core/linking/names.js';
import type { Declaration } from '../core/model/file.js';
import { quoteName } from '../core/text/words.js';
import type { NewNames } from './new-names.js';
import { nameAt, type NamePlace, namesakesOf, placesNaming } from './names-at.js';
import { type ReadFile, tryRenaming } from './rename-trial.js';
import { toRange } from './to-lsp.js';
import type { Located, Workspaces } from './workspaces.js';

export class FaultRenameProvider implements RenameProvider {
    constructor(
        private readonly workspaces: Workspaces,
        private readonly names: NewNames,
        private readonly readFile: ReadFile,
    ) {}

    prepareRename(document: LangiumDocument, { position }: TextDocumentPositionParams): Range | undefined {
        const located = this.workspaces.read(document);
        const named = located && findNamed(located, position);
        if (!named) return undefined;
        return toRange(located.source.text, named.place);
    }

    rename(document: LangiumDocument, { position, newName }: RenameParams): WorkspaceEdit | undefined {
        const located = this.workspaces.read(document);
        const named = located && findNamed(located, position);
        if (!named) return undefined;
        const { workspace } = located;
        const { declaration } = named;
        if (newName === nameOf(declaration)) return { changes: {} };
        this.requireName(newName, declaration);
        const declarations = namesakesOf(declaration, workspace);
        const places = placesNaming(declarations, workspace);
        const problem = tryRenaming({ workspace, declarations, places, newName, readFile: this.readFile });
        if (problem !== undefined) throw refusal(problem);
        return { changes: toChanges(places, newName, located) };
    }

    private requireName(newName: string, declaration: Declaration): void {
        if (!this.names.isName(newName)) {
            throw refusal(
                `${quoteName(newName)} cannot be a name. A name begins with a letter and goes on with letters, digits and hyphens.`,
            );
        }
        if (this.names.isReserved(newName, declaration.sort)) {
            throw refusal(
                `${quoteName(newName)} is a word of the language, so a ${nounFor(declaration)} cannot be called so.`,
            );
        }
    }
}

interface Named {
    readonly place: NamePlace;
    readonly declaration: Declaration;
}

/** The name at a position that can be changed; refuses with the reason where one cannot. */
function findNamed(located: Located, position: Position): Named | undefined {
    const place = nameAt(located, located.source.text.offsetAt(position));
    if (!place) return undefined;
    const { declaration } = place;
    if (!declaration) {
        const name = place.reference ? quoteName(place.reference.text) : 'This name';
        throw refusal(`${name} leads nowhere, so there is nothing to rename.`);
    }
    if (declaration.sort === 'subject') {
        throw refusal('`it` is what the procedure is about. It has no name of its own that could be changed.');
    }
    return { place, declaration };
}

function toChanges(places: readonly NamePlace[], newText: string, { workspace }: Located): Record<string, TextEdit[]> {
    const changes: Record<string, TextEdit[]> = {};
    for (const place of places) {
        const found = workspace.textOf(place.file);
        if (found) (changes[found.uri] ??= []).push({ range: toRange(found.text, place), newText });
    }
    return changes;
}

function refusal(message: string): ResponseError<void> {
    return new ResponseError(LSPErrorCodes.RequestFailed, message);
}
