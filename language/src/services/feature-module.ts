// The features of the language server, each guarded against its own failures.

import type { DeepPartial, Module } from 'langium';
import { FaultCodeActionProvider } from './code-actions.js';
import { FaultCompletionProvider } from './completion.js';
import { FaultDefinitionProvider } from './definition.js';
import { FaultDocumentSymbolProvider } from './document-symbols.js';
import type { HalfsplitServices, HalfsplitSharedServices } from './fault-module.js';
import { FaultFoldingRangeProvider } from './folding.js';
import { FaultFormatter } from './formatting.js';
import { guarded } from './guarded.js';
import { FaultHoverProvider } from './hover.js';
import { readNewNames } from './new-names.js';
import { makeReadFile } from './read-trial-file.js';
import { FaultDocumentHighlightProvider, FaultReferencesProvider } from './references.js';
import { FaultRenameProvider } from './rename.js';
import { FaultWorkspaceSymbolProvider } from './workspace-symbols.js';

/** Features of one file. Another feature is one file beside this one and one line here. */
export const featureModule: Module<HalfsplitServices, DeepPartial<HalfsplitServices>> = {
    lsp: {
        CompletionProvider: ({ shared, parser, Grammar }) =>
            guarded(
                'Completion',
                new FaultCompletionProvider(
                    shared.halfsplit.Workspaces,
                    Grammar,
                    parser.Lexer,
                    makeReadFile(parser.LangiumParser),
                ),
                shared.halfsplit.Log,
            ),
        DefinitionProvider: ({ shared: { halfsplit } }) =>
            guarded('Go to definition', new FaultDefinitionProvider(halfsplit.Workspaces), halfsplit.Log),
        ReferencesProvider: ({ shared: { halfsplit } }) =>
            guarded('Find references', new FaultReferencesProvider(halfsplit.Workspaces), halfsplit.Log),
        DocumentHighlightProvider: ({ shared: { halfsplit } }) =>
            guarded('Highlighting', new FaultDocumentHighlightProvider(halfsplit.Workspaces), halfsplit.Log),
        RenameProvider: ({ shared, parser, Grammar }) =>
            guarded(
                'Rename',
                new FaultRenameProvider(
                    shared.halfsplit.Workspaces,
                    readNewNames(Grammar),
                    makeReadFile(parser.LangiumParser),
                ),
                shared.halfsplit.Log,
            ),
        DocumentSymbolProvider: ({ shared: { halfsplit } }) =>
            guarded('The outline', new FaultDocumentSymbolProvider(halfsplit.Workspaces), halfsplit.Log),
        HoverProvider: ({ shared: { halfsplit } }) =>
            guarded('Hover', new FaultHoverProvider(halfsplit.Workspaces), halfsplit.Log),
        FoldingRangeProvider: ({ shared, parser }) =>
            guarded('Folding', new FaultFoldingRangeProvider(parser.Lexer), shared.halfsplit.Log),
        Formatter: ({ shared }) => guarded('Formatting', new FaultFormatter(), shared.halfsplit.Log),
        CodeActionProvider: ({ shared }) =>
            guarded('Quick fixes', new FaultCodeActionProvider(shared.workspace.TextDocuments), shared.halfsplit.Log),
    },
};

/** Features of all files together. */
export const sharedFeatureModule: Module<HalfsplitSharedServices, DeepPartial<HalfsplitSharedServices>> = {
    lsp: {
        WorkspaceSymbolProvider: ({ lsp, halfsplit, workspace }) =>
            guarded(
                'Searching for names',
                new FaultWorkspaceSymbolProvider(
                    halfsplit.Workspaces,
                    lsp.FuzzyMatcher,
                    () => workspace.WorkspaceManager.ready,
                ),
                halfsplit.Log,
            ),
    },
};
