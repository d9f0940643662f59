// Which of the protocol's symbols stands for which declaration, in outlines and lists of names.

import { CompletionItemKind, SymbolKind } from 'vscode-languageserver';
import type { Declaration } from '../core/model/file.js';

type Sort = Declaration['sort'];

export function symbolKindOf(sort: Sort): SymbolKind {
    return kinds[sort][0];
}

export function completionKindOf(sort: Sort): CompletionItemKind {
    return kinds[sort][1];
}

const kinds: Readonly<Record<Sort, readonly [SymbolKind, CompletionItemKind]>> = {
    equipment: [SymbolKind.Package, CompletionItemKind.Module],
    option: [SymbolKind.Enum, CompletionItemKind.Enum],
    'choice-declared': [SymbolKind.EnumMember, CompletionItemKind.EnumMember],
    hazard: [SymbolKind.Event, CompletionItemKind.Event],
    zone: [SymbolKind.Namespace, CompletionItemKind.Folder],
    condition: [SymbolKind.Variable, CompletionItemKind.Variable],
    value: [SymbolKind.EnumMember, CompletionItemKind.EnumMember],
    supply: [SymbolKind.Interface, CompletionItemKind.Interface],
    part: [SymbolKind.Object, CompletionItemKind.Class],
    kind: [SymbolKind.Struct, CompletionItemKind.Struct],
    fault: [SymbolKind.Field, CompletionItemKind.Field],
    flow: [SymbolKind.Array, CompletionItemKind.Reference],
    place: [SymbolKind.Property, CompletionItemKind.Property],
    test: [SymbolKind.Method, CompletionItemKind.Method],
    outcome: [SymbolKind.EnumMember, CompletionItemKind.Value],
    instrument: [SymbolKind.Constant, CompletionItemKind.Constant],
    table: [SymbolKind.Array, CompletionItemKind.Constant],
    curve: [SymbolKind.Array, CompletionItemKind.Constant],
    gate: [SymbolKind.Key, CompletionItemKind.Interface],
    tree: [SymbolKind.Module, CompletionItemKind.Module],
    procedure: [SymbolKind.Function, CompletionItemKind.Function],
    subject: [SymbolKind.Variable, CompletionItemKind.Variable],
    result: [SymbolKind.Boolean, CompletionItemKind.Value],
    step: [SymbolKind.Operator, CompletionItemKind.Operator],
    conclusion: [SymbolKind.Constructor, CompletionItemKind.Constructor],
    referral: [SymbolKind.Interface, CompletionItemKind.Interface],
};
