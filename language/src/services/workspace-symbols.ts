// Search by name through all workspaces.

import type { CancellationToken, WorkspaceSymbol, WorkspaceSymbolParams } from 'vscode-languageserver';
import type { FuzzyMatcher, WorkspaceSymbolProvider } from 'langium/lsp';
import { interruptAndCheck } from 'langium';
import { nameOf } from '../core/linking/names.js';
import type { Declaration } from '../core/model/file.js';
import { ownName, ownerOf } from './names-at.js';
import { symbolKindOf } from './symbol-kinds.js';
import { toLocation } from './to-lsp.js';
import type { Workspaces } from './workspaces.js';

/** A longer list helps nobody: another letter makes it shorter. */
const mostSymbols = 500;

/** Declarations of these sorts are too many and too small to be looked for by themselves. */
const leftOut: ReadonlySet<Declaration['sort']> = new Set(['outcome', 'value', 'choice-declared', 'place', 'subject']);

export class FaultWorkspaceSymbolProvider implements WorkspaceSymbolProvider {
    constructor(
        private readonly workspaces: Workspaces,
        private readonly matcher: FuzzyMatcher,
        /** Resolves when all files were read. */
        private readonly ready: () => Promise<void>,
    ) {}

    async getSymbols({ query }: WorkspaceSymbolParams, token: CancellationToken): Promise<WorkspaceSymbol[]> {
        await this.ready();
        const symbols: WorkspaceSymbol[] = [];
        for (const workspace of this.workspaces.all()) {
            for (const source of workspace.all()) {
                await interruptAndCheck(token);
                for (const declaration of source.nodes.keys()) {
                    const name = ownName(declaration);
                    if (!name || leftOut.has(declaration.sort) || !this.matcher.match(query, name.text)) continue;
                    const location = toLocation(name, workspace.textOf);
                    const owner = ownerOf(declaration, workspace);
                    if (location) {
                        symbols.push({
                            name: name.text,
                            kind: symbolKindOf(declaration.sort),
                            location,
                            ...(owner ? { containerName: nameOf(owner) } : {}),
                        });
                    }
                    if (symbols.length >= mostSymbols) return symbols;
                }
            }
        }
        return symbols;
    }
}
