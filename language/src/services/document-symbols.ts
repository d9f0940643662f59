// The outline of a file: equipment with its parts, tests and gates, trees with their steps and ends.

import type { LangiumDocument } from 'langium';
import type { DocumentSymbolProvider } from 'langium/lsp';
import { type DocumentSymbol, type DocumentSymbolParams, SymbolKind } from 'vscode-languageserver';
import { nameOf } from '../core/linking/names.js';
import type { Equipment, PartLike } from '../core/model/equipment.js';
import type { Declaration, FileModel, Scenario } from '../core/model/file.js';
import { nounFor } from '../core/model/declaration-words.js';
import { ownName } from './names-at.js';
import type { SourceFile } from './source-file.js';
import { symbolKindOf } from './symbol-kinds.js';
import { toRange } from './to-lsp.js';
import type { Workspaces } from './workspaces.js';

export class FaultDocumentSymbolProvider implements DocumentSymbolProvider {
    constructor(private readonly workspaces: Workspaces) {}

    getSymbols(document: LangiumDocument, _params: DocumentSymbolParams): DocumentSymbol[] {
        const source = this.workspaces.read(document)?.source;
        return source ? symbolsOf(source) : [];
    }
}

/** The symbols of a file in the order of its text. */
export function symbolsOf(source: SourceFile): DocumentSymbol[] {
    const symbols = topLevel(source.model).map(declaration => toSymbol(declaration, source));
    const scenarios = source.model.scenarios.map(scenario => toScenarioSymbol(scenario, source));
    return inOrder([...symbols, ...scenarios]);
}

function topLevel(model: FileModel): Declaration[] {
    return [
        ...model.equipment,
        ...model.kinds,
        ...model.instruments,
        ...model.tables,
        ...model.curves,
        ...model.trees,
        ...model.procedures,
    ];
}

function toSymbol(declaration: Declaration, source: SourceFile): DocumentSymbol {
    const name = nameOf(declaration);
    const title = 'title' in declaration ? declaration.title?.value : undefined;
    const children = childrenOf(declaration);
    return {
        // The protocol wants a name; a half-written declaration shows what it is.
        name: name === '' ? nounFor(declaration) : name,
        kind: symbolKindOf(declaration.sort),
        range: toRange(source.text, declaration),
        selectionRange: toRange(
            source.text,
            ownName(declaration) ?? { start: declaration.start, end: declaration.start },
        ),
        ...(title === undefined || title === '' ? {} : { detail: oneLine(title) }),
        ...(children.length === 0 ? {} : { children: inOrder(children.map(child => toSymbol(child, source))) }),
    };
}

function childrenOf(declaration: Declaration): readonly Declaration[] {
    switch (declaration.sort) {
        case 'equipment':
            return membersOf(declaration);
        case 'option':
            return declaration.choices;
        case 'condition':
            return declaration.values;
        case 'part':
        case 'kind':
        case 'supply':
            return partMembersOf(declaration);
        case 'tree':
            return [...declaration.steps, ...declaration.conclusions, ...declaration.referrals];
        case 'procedure':
            return [...declaration.steps, ...declaration.results];
        default:
            return [];
    }
}

function membersOf(equipment: Equipment): Declaration[] {
    return [
        ...equipment.options,
        ...equipment.hazards,
        ...equipment.zones,
        ...equipment.conditions,
        ...equipment.supplies,
        ...equipment.parts,
        ...equipment.kinds,
        ...equipment.flows,
        ...equipment.tests,
        ...equipment.gates,
        ...equipment.instruments,
        ...equipment.tables,
        ...equipment.curves,
    ];
}

function partMembersOf(part: PartLike): Declaration[] {
    return [...part.faults, ...part.tests];
}

function toScenarioSymbol(scenario: Scenario, source: SourceFile): DocumentSymbol {
    const title = oneLine(scenario.title.value);
    return {
        name: title === '' ? 'scenario' : title,
        detail: scenario.tree.text,
        kind: SymbolKind.File,
        range: toRange(source.text, scenario),
        selectionRange: toRange(source.text, scenario.title),
    };
}

function inOrder(symbols: DocumentSymbol[]): DocumentSymbol[] {
    return symbols.sort(
        ({ range: { start: one } }, { range: { start: other } }) =>
            one.line - other.line || one.character - other.character,
    );
}

function oneLine(text: string): string {
    return text.replace(/\s+/g, ' ').trim();
}
