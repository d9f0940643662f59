// Go to definition: from a name to the declaration that gives it, and from `uses` to the file.

import type { LangiumDocument } from 'langium';
import type { DefinitionProvider } from 'langium/lsp';
import type { DefinitionParams, LocationLink } from 'vscode-languageserver';
import { resolvePath } from '../core/linking/paths.js';
import { nameAt, ownName } from './names-at.js';
import { toRange } from './to-lsp.js';
import type { Located, Workspaces } from './workspaces.js';

export class FaultDefinitionProvider implements DefinitionProvider {
    constructor(private readonly workspaces: Workspaces) {}

    getDefinition(document: LangiumDocument, { position }: DefinitionParams): LocationLink[] | undefined {
        const located = this.workspaces.read(document);
        if (!located) return undefined;
        const offset = located.source.text.offsetAt(position);
        const place = nameAt(located, offset);
        if (!place) return usedFileAt(located, offset);
        const { declaration } = place;
        const target = declaration && located.workspace.get(declaration.file);
        if (!declaration || !target) return undefined;
        return [
            {
                originSelectionRange: toRange(located.source.text, place),
                targetUri: target.uri.toString(),
                targetRange: toRange(target.text, declaration),
                targetSelectionRange: toRange(target.text, ownName(declaration) ?? declaration),
            },
        ];
    }
}

function usedFileAt({ workspace, file, source }: Located, offset: number): LocationLink[] | undefined {
    const uses = source.model.uses.find(({ path }) => path.start <= offset && path.end >= offset);
    const used = uses && resolvePath(file, uses.path.value);
    const target = used === undefined ? undefined : workspace.get(used);
    if (!uses || !target) return undefined;
    const top = toRange(target.text, { start: 0, end: 0 });
    return [
        {
            originSelectionRange: toRange(source.text, uses.path),
            targetUri: target.uri.toString(),
            targetRange: top,
            targetSelectionRange: top,
        },
    ];
}
