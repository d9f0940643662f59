/** The outline shows what a file declares, in the order of its text. */
import { expect, test } from 'vitest';
import { type DocumentSymbol, SymbolKind } from 'vscode-languageserver';
import { openWorld } from './world.js';

/** One line a symbol: its kind, its name and its title, indented as it stands. */
async function outline(text: string): Promise<string[]> {
    const world = await openWorld({ 'a.fault': text });
    await world.type('a.fault', text);
    const document = world.documentOf('a.fault');
    const textDocument = { uri: document.uri.toString() };
    const symbols = await world.fault.lsp.DocumentSymbolProvider?.getSymbols(document, { textDocument });
    expect(world.failures).toEqual([]);
    const tell = (symbol: DocumentSymbol, indent: string): string[] => {
        const kind = Object.entries(SymbolKind).find(([, value]) => value === symbol.kind)?.[0];
        const own = `${indent}${kind} ${symbol.name}${symbol.detail === undefined ? '' : ` "${symbol.detail}"`}`;
        return [own, ...(symbol.children ?? []).flatMap(child => tell(child, `${indent}  `))];
    };
    return (symbols ?? []).flatMap(symbol => tell(symbol, ''));
}

test('shows a tree with its steps and ends in the order of the text', async () => {
    expect(
        await outline(`tree t "No light" of e {
            complaint x dark
            refer r "Ask" because "y"
            step a "Look" { }
            conclude c { }
            step b
        }`),
    ).toEqual(['Module t "No light"', '  Interface r "Ask"', '  Operator a "Look"', '  Constructor c', '  Operator b']);
});

test('shows an equipment with its members, faults and values', async () => {
    expect(
        await outline(`equipment e "Lamp" {
            option size { small "Small one" large }
            condition switch { off on }
            zone box
            part bulb "Bulb" in box { fault dark "Burnt out" }
            flow power: bulb
            test light { normal yes }
            gate lockout
        }`),
    ).toEqual([
        'Package e "Lamp"',
        '  Enum size',
        '    EnumMember small "Small one"',
        '    EnumMember large',
        '  Variable switch',
        '    EnumMember off',
        '    EnumMember on',
        '  Namespace box',
        '  Object bulb "Bulb"',
        '    Field dark "Burnt out"',
        '  Array power',
        '  Method light',
        '  Key lockout',
    ]);
});

test('shows scenarios by their titles, and procedures with their results', async () => {
    expect(await outline('scenario "Open coil" of t { }\nprocedure p { step a  result good }')).toEqual([
        'File Open coil "t"',
        'Function p',
        '  Operator a',
        '  Boolean good',
    ]);
});

test('shows what a half-written declaration is going to be', async () => {
    expect(await outline('equipment e { part { fault')).toEqual(['Package e', '  Object part', '    Field fault']);
});

test('puts a title of several lines on one', async () => {
    expect(await outline('tree t """\n  One\n  two\n""" { }')).toEqual(['Module t "One two"']);
});
