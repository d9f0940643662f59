// Formatting: the edits of the one layout, for a whole file or for the lines that are selected.

import type { LangiumDocument } from 'langium';
import type { Formatter } from 'langium/lsp';
import type { DocumentFormattingParams, DocumentRangeFormattingParams, TextEdit } from 'vscode-languageserver';
import { formatEdits } from '../format/format-text.js';
import { toRange } from './to-lsp.js';

export class FaultFormatter implements Formatter {
    /** No edits for a file with slips in its spelling: what cannot be read stays as it is. */
    formatDocument(document: LangiumDocument, _params: DocumentFormattingParams): TextEdit[] {
        return editsOf(document, 0, Number.POSITIVE_INFINITY);
    }

    formatDocumentRange(document: LangiumDocument, { range }: DocumentRangeFormattingParams): TextEdit[] {
        const { textDocument } = document;
        return editsOf(document, textDocument.offsetAt(range.start), textDocument.offsetAt(range.end));
    }

    formatDocumentOnType(): TextEdit[] {
        return [];
    }

    get formatOnTypeOptions(): undefined {
        return undefined;
    }
}

function editsOf({ textDocument }: LangiumDocument, from: number, to: number): TextEdit[] {
    return formatEdits(textDocument.getText())
        .edits.filter(({ start, end }) => start >= from && end <= to)
        .map(edit => ({ range: toRange(textDocument, edit), newText: edit.text }));
}
