// Quick fixes: the mends that come with a finding, as edits.

import type { LangiumDocument, TextDocument } from 'langium';
import type { CodeActionProvider, TextDocuments } from 'langium/lsp';
import {
    type CodeAction,
    CodeActionKind,
    type CodeActionParams,
    type Diagnostic,
    type TextEdit,
} from 'vscode-languageserver';
import type { DiagnosticData, MendData } from '../protocol/diagnostic-data.js';

export class FaultCodeActionProvider implements CodeActionProvider {
    constructor(private readonly openTexts: TextDocuments<TextDocument>) {}

    getCodeActions({ uri }: LangiumDocument, { context }: CodeActionParams): CodeAction[] {
        const { only } = context;
        const version = this.openTexts.get(uri)?.version;
        if (only && !only.some(kind => CodeActionKind.QuickFix.startsWith(kind))) return [];
        return context.diagnostics.flatMap(diagnostic => {
            const data = diagnostic.data as DiagnosticData | undefined;
            // Edits that were made for another text would write into the wrong place.
            if (!data || diagnostic.source !== 'halfsplit' || data.version !== version) return [];
            return data.mends.map(mend => toCodeAction(mend, diagnostic, data.mends.length === 1));
        });
    }
}

function toCodeAction({ title, safety, edits }: MendData, diagnostic: Diagnostic, alone: boolean): CodeAction {
    const changes: Record<string, TextEdit[]> = {};
    for (const { uri, range, newText } of edits) (changes[uri] ??= []).push({ range, newText });
    return {
        title,
        kind: CodeActionKind.QuickFix,
        diagnostics: [diagnostic],
        isPreferred: alone && safety === 'safe',
        edit: { changes },
    };
}
