// Hover: what a name stands for, with the title that the author gave it.

import type { LangiumDocument } from 'langium';
import type { HoverProvider } from 'langium/lsp';
import { type Hover, type HoverParams, MarkupKind } from 'vscode-languageserver';
import { nounFor } from '../core/model/declaration-words.js';
import { nameOf } from '../core/linking/names.js';
import type { Declaration } from '../core/model/file.js';
import { quoteName } from '../core/text/words.js';
import type { EditorWorkspace } from './editor-workspace.js';
import { escapeMarkdown } from './markdown.js';
import { nameAt, ownerOf } from './names-at.js';
import { toRange } from './to-lsp.js';
import type { Workspaces } from './workspaces.js';

export class FaultHoverProvider implements HoverProvider {
    constructor(private readonly workspaces: Workspaces) {}

    getHoverContent(document: LangiumDocument, { position }: HoverParams): Hover | undefined {
        const located = this.workspaces.read(document);
        if (!located) return undefined;
        const place = nameAt(located, located.source.text.offsetAt(position));
        if (!place?.declaration) return undefined;
        return {
            contents: { kind: MarkupKind.Markdown, value: describe(place.declaration, located.workspace) },
            range: toRange(located.source.text, place),
        };
    }
}

function describe(declaration: Declaration, workspace: EditorWorkspace): string {
    const noun = nounFor(declaration);
    const owner = ownerOf(declaration, workspace);
    const within = owner && nameOf(owner) !== '' ? `, ${nounFor(owner)} ${quoteName(nameOf(owner))}` : '';
    const heading = `${noun} ${quoteName(nameOf(declaration))}${within}`;
    const title = 'title' in declaration ? declaration.title?.value.trim() : undefined;
    return title ? `**${escapeMarkdown(title)}**\n\n${heading}` : heading;
}
