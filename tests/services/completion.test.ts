/** Completion offers the words of the language that fit the place, and the names that fit what is wanted. */
import { expect, test } from 'vitest';
import { TextDocument } from 'langium';
import { type CompletionItem, CompletionItemKind, type TextEdit } from 'vscode-languageserver';
import { type Files, openAtCursor } from './world.js';

interface Offered {
    readonly items: readonly CompletionItem[];
    /** The text after an item is taken. */
    readonly take: (label: string) => string;
}

async function offer(files: Files | string): Promise<Offered> {
    const { world, document, position, textDocument } = await openAtCursor(
        typeof files === 'string' ? { 'a.fault': files } : files,
    );
    const list = await world.fault.lsp.CompletionProvider?.getCompletion(document, { position, textDocument });
    expect(world.failures).toEqual([]);
    const items = [...(list?.items ?? [])].sort((one, other) =>
        (one.sortText ?? '') < (other.sortText ?? '') ? -1 : 1,
    );
    return {
        items,
        take: label => {
            const item = items.find(one => one.label === label);
            if (!item) throw new Error(`${label} is not offered`);
            return TextDocument.applyEdits(document.textDocument, [item.textEdit as TextEdit]);
        },
    };
}

/** The names that are offered at the cursor, in their order. */
async function names(files: Files | string): Promise<string[]> {
    const { items } = await offer(files);
    return items.filter(({ kind }) => kind !== CompletionItemKind.Keyword).map(({ label }) => label);
}

/** The words of the language that are offered at the cursor, in their order. */
async function words(text: string): Promise<string[]> {
    const { items } = await offer(text);
    return items.filter(({ kind }) => kind === CompletionItemKind.Keyword).map(({ label }) => label);
}

const equipment = `equipment e {
    option size { small "Small" large }
    option color { red blue small }
    hazard mains { electrical 230 V AC }
    zone box
    condition switch { off on }
    supply plug carries mains
    part bulb "Bulb" in box { fault dark fault dim }
    part k1 is relay
    flow power: plug -> bulb -> [light]
    test light "Light?" { normal yes  none no }
    gate lockout
    instrument meter
}
kind relay { fault open  test coil { ok yes } }
procedure look about relay { step a  result good  result bad }
`;

const inTree = (text: string): string => `${equipment}tree t of e {\n${text}\n}`;

test('offers what a file can hold', async () => {
    expect(await words('<|>')).toEqual([
        'uses',
        'equipment',
        'kind',
        'instrument',
        'table',
        'curve',
        'tree',
        'procedure',
        'scenario',
        'accept',
    ]);
});

test('offers what a tree can hold, with phrases whole', async () => {
    const offered = await words('tree t of e {\n  st<|>\n}');
    expect(offered).toEqual(
        expect.arrayContaining(['complaint', 'step', 'conclude', 'refer', 'still wrong', 'disagree']),
    );
    expect(offered).not.toContain('part');
    expect(offered).not.toContain('do');
});

test('offers on the same line what goes on there, and on a new line what is new', async () => {
    const sameLine = await words('tree t of e { step a {\n do "x" <|>\n} }');
    expect(sameLine.slice(0, 3)).toEqual(expect.arrayContaining(['sets', 'clears', 'replaces']));
    const newLine = await words('tree t of e { step a {\n do "x"\n <|>\n} }');
    expect(newLine.slice(0, 3)).toEqual(['do', 'wait', 'gate']);
});

test('offers the whole phrase and explains it', async () => {
    const { items } = await offer('equipment e { part p { fault f {\n <|>\n} } }');
    expect(items.find(({ label }) => label === 'comes and goes')?.detail).toBe('an intermittent fault');
    expect(items.find(({ label }) => label === 'only when caused')).toBeDefined();
});

test('offers the steps and ends of the tree after an arrow', async () => {
    expect(await names(inTree('step a { test light { normal -> <|> } }\nstep b\nconclude c'))).toEqual(['a', 'b', 'c']);
});

test('offers names with their titles', async () => {
    const { items } = await offer(inTree('step a { test <|> }'));
    expect(items.find(({ label }) => label === 'light')?.detail).toBe('Light?');
});

test('replaces what is written of the name', async () => {
    const { take } = await offer('tree t of e { step first { go fi<|> } step fine }');
    expect(take('fine')).toBe('tree t of e { step first { go fine } step fine }');
    const hyphen = await offer('tree t of e { step at-once { go at-<|> } }');
    expect(hyphen.take('at-once')).toBe('tree t of e { step at-once { go at-once } }');
});

test('offers the outcomes of the test, and the words beside them', async () => {
    expect(await names(inTree('step a { test light {\n <|>\n} }'))).toEqual(['normal', 'none']);
    expect(await words(inTree('step a { test light {\n <|>\n} }'))).toEqual(['otherwise', 'cannot be read']);
    expect(await names(inTree('complaint light <|>'))).toEqual(['normal', 'none']);
});

test('offers the results of the procedure', async () => {
    expect(await names(inTree('step a { follow look with k1 {\n <|>\n} }'))).toEqual(['good', 'bad']);
});

test('offers tests of the equipment, and of a part that has them from its kind', async () => {
    expect(await names(inTree('step a { test <|> }'))).toEqual(['light', 'k1.coil']);
    expect(await names(inTree('step a { test k1.<|> }'))).toEqual(['coil']);
});

test('offers parts and their faults', async () => {
    expect(await names(inTree('conclude c { <|> }'))).toEqual(['bulb', 'k1', 'plug']);
    expect(await names(inTree('conclude c { bulb.<|> }'))).toEqual(['dark', 'dim']);
    expect(await names(inTree('conclude c { bulb.dark, k1.<|> }'))).toEqual(['open']);
});

test('offers conditions and their values', async () => {
    expect(await names(inTree('step a { do "x" sets <|> }'))).toEqual(['switch']);
    expect(await names(inTree('step a { do "x" sets switch <|> }'))).toEqual(['off', 'on']);
});

test('offers choices, with the option where two options have the same', async () => {
    expect(await names(inTree('step a for <|>'))).toEqual(['size.small', 'color.small', 'large', 'red', 'blue']);
});

test('offers zones, gates, hazards, kinds, instruments and equipment where they are wanted', async () => {
    const within = (text: string): string => equipment.replace('gate lockout', text);
    expect(await names(within('part p in <|>'))).toEqual(['box']);
    expect(await names(inTree('step a { gate <|> }'))).toEqual(['lockout']);
    expect(await names(within('gate g { controls <|> }'))).toEqual(['plug', 'mains']);
    expect(await names(within('part p is <|>'))).toEqual(['relay']);
    expect(await names(within('test x { measure voltage with <|> }'))).toEqual(['meter']);
    expect(await names(`${equipment}tree t of <|> { }`)).toEqual(['e']);
});

test('offers names of files that are used, and of no others', async () => {
    const files = {
        'a.fault': 'uses "lamp.fault"\ntree t of <|> { }',
        'lamp.fault': 'equipment lamp { }',
        'else.fault': 'equipment else { }',
    };
    expect(await names(files)).toEqual(['lamp']);
});

test('offers `it` in a procedure', async () => {
    expect(await names('kind relay\nprocedure p about relay { step a { do "x" at <|> } }')).toEqual(['it']);
});

test('offers functions and tests in a calculation', async () => {
    const text = 'equipment e { test a { measure voltage } test b { calculate voltage from <|> } }';
    expect(await names(text)).toEqual(['a', 'b', 'mean', 'largest', 'smallest', 'deviation', 'unbalance']);
});

test('offers tables where a band may come from one', async () => {
    const text = `equipment e {
        table curve from temperature to resistance { 0 °C = 1 Ω }
        test hot { measure temperature }
        test x { measure resistance
            normal <|>
        }
    }`;
    expect(await names(text)).toContain('curve');
});

test.each([
    ['a text', 'tree t "ti<|>tle"'],
    ['a text without its end', 'tree t "ti<|>'],
    ['a comment', 'tree t // co<|>'],
    ['a comment of several lines', '/* a <|> */'],
    ['an amount', 'equipment e { test x { takes 5 mi<|>n } }'],
])('offers nothing inside %s', async (_, text) => {
    expect((await offer(text)).items).toEqual([]);
});

test('offers no name where a new one is given', async () => {
    expect(await names(inTree('step <|>'))).toEqual([]);
    expect(await words(inTree('step <|>'))).toEqual([]);
});

test('works behind a slip further up', async () => {
    const text = inTree('stp x { do "y" }\nconclud z\nstep a { go <|> }\nstep b');
    expect(await names(text)).toEqual(['a', 'b']);
    expect(await words(inTree('stp x { do "y" }\n  <|>'))).toContain('step');
});

test('works where the rest of the file is not written yet', async () => {
    expect(await names(`${equipment}tree t of e {\n  step a {\n    test light { normal -> <|>`)).toEqual(['a']);
    expect(await words(`${equipment}tree t of e {\n  step a {\n    <|>`)).toContain('test');
});

test('offers the words of an equipment also far down in it', async () => {
    const parts = Array.from({ length: 300 }, (_, index) => `part p${index} { fault f "x" rate 1 per 1e6 h }`).join(
        '\n',
    );
    expect(await words(`equipment e {\n${parts}\n<|>\n}`)).toContain('zone');
});
