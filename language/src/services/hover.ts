// Hover: what a name stands for, with the title that the author gave it; an amount in both systems of units.

import type { LangiumDocument } from 'langium';
import type { HoverProvider } from 'langium/lsp';
import { type Hover, type HoverParams, MarkupKind } from 'vscode-languageserver';
import { nounFor } from '../core/model/declaration-words.js';
import { nameOf } from '../core/linking/names.js';
import type { Declaration } from '../core/model/file.js';
import type { Test } from '../core/model/tests.js';
import { amountAt, toldOutcomes } from '../core/questions/told-amounts.js';
import { quoteName } from '../core/text/words.js';
import type { EditorWorkspace } from './editor-workspace.js';
import { escapeMarkdown } from './markdown.js';
import { nameAt, ownerOf } from './names-at.js';
import { toRange } from './to-lsp.js';
import type { Located, Workspaces } from './workspaces.js';

export class FaultHoverProvider implements HoverProvider {
    constructor(private readonly workspaces: Workspaces) {}

    getHoverContent(document: LangiumDocument, { position }: HoverParams): Hover | undefined {
        const located = this.workspaces.read(document);
        if (!located) return undefined;
        const offset = located.source.text.offsetAt(position);
        const place = nameAt(located, offset);
        if (!place?.declaration) return hoverOfAmount(located, offset);
        return {
            contents: { kind: MarkupKind.Markdown, value: describe(place.declaration, located.workspace) },
            range: toRange(located.source.text, place),
        };
    }
}

function hoverOfAmount({ source, workspace, file }: Located, offset: number): Hover | undefined {
    const told = amountAt(source.model, workspace.links.model, offset);
    if (!told || told.amount.file !== file) return undefined;
    const { text, other, unit, ucum, note } = told;
    const meant = [unit === undefined ? undefined : escapeMarkdown(unit), ucum && `UCUM \`${ucum}\``];
    const lines = [
        `**${escapeMarkdown(text)}**${other === undefined ? '' : ` = ${escapeMarkdown(other)}`}`,
        meant.filter(part => part !== undefined).join(', '),
        note === undefined ? '' : escapeMarkdown(note),
    ];
    return {
        contents: { kind: MarkupKind.Markdown, value: lines.filter(line => line !== '').join('\n\n') },
        range: toRange(source.text, told.amount),
    };
}

/** The readings of a test's outcomes, in both systems of units where they differ. */
function readingLines(test: Test): string {
    return toldOutcomes(test)
        .map(({ name, text, other }) => {
            const both = other === undefined ? '' : ` (${escapeMarkdown(other)})`;
            return `- \`${name}\`: ${escapeMarkdown(text)}${both}`;
        })
        .join('\n');
}

function describe(declaration: Declaration, workspace: EditorWorkspace): string {
    const noun = nounFor(declaration);
    const owner = ownerOf(declaration, workspace);
    const within = owner && nameOf(owner) !== '' ? `, ${nounFor(owner)} ${quoteName(nameOf(owner))}` : '';
    const heading = `${noun} ${quoteName(nameOf(declaration))}${within}`;
    const title = 'title' in declaration ? declaration.title?.value.trim() : undefined;
    const readings = declaration.sort === 'test' ? readingLines(declaration) : '';
    return [title ? `**${escapeMarkdown(title)}**` : '', heading, readings].filter(text => text !== '').join('\n\n');
}
