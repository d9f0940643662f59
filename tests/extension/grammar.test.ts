/** The colors of the editor: the TextMate grammar knows every word of the language and cuts a file up as the lexer does. */
import { readdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { GrammarAST } from 'langium';
import { beforeAll, expect, test } from 'vitest';
import oniguruma from 'vscode-oniguruma';
import textmate, { type IGrammar } from 'vscode-textmate';
import type { FaultLexingReport } from '../../language/src/lower/parse/fault-lexer.js';
import { createParserServices } from '../../language/src/lower/parse/parser-module.js';
import { tokenEnd } from '../../language/src/lower/parse/token.js';
import { keywordsOf } from '../../language/src/services/keywords.js';
import { readText, root } from '../house/project.mjs';

const grammarFile = 'extension/syntaxes/fault.tmLanguage.json';
const services = createParserServices();
let grammar: IGrammar;

beforeAll(async () => {
    const wasm = readFileSync(createRequire(import.meta.url).resolve('vscode-oniguruma/release/onig.wasm'));
    await oniguruma.loadWASM(new Uint8Array(wasm).buffer);
    const registry = new textmate.Registry({
        onigLib: Promise.resolve({
            createOnigScanner: patterns => new oniguruma.OnigScanner(patterns),
            createOnigString: text => new oniguruma.OnigString(text),
        }),
        loadGrammar: async () => textmate.parseRawGrammar(readText(grammarFile), grammarFile),
    });
    const loaded = await registry.loadGrammar('source.fault');
    if (!loaded) throw new Error('The grammar could not be loaded');
    grammar = loaded;
});

/** A piece of a text that has one scope; the language's own scope and the ending `.fault` are left out. */
interface Piece {
    readonly start: number;
    readonly end: number;
    readonly scopes: readonly string[];
}

function cutUp(text: string): Piece[] {
    const pieces: Piece[] = [];
    let stack = textmate.INITIAL;
    let offset = 0;
    for (const line of text.split('\n')) {
        const { tokens, ruleStack } = grammar.tokenizeLine(line, stack);
        for (const { startIndex, endIndex, scopes } of tokens) {
            const own = scopes.slice(1).map(scope => scope.replace(/\.fault$/, ''));
            pieces.push({ start: offset + startIndex, end: offset + Math.min(endIndex, line.length), scopes: own });
        }
        stack = ruleStack;
        offset += line.length + 1;
    }
    return pieces;
}

/** Each stretch that looks the same with its scopes, blank ones left out. */
function paint(text: string): string[] {
    const joined: Piece[] = [];
    for (const piece of cutUp(text)) {
        const last = joined.at(-1);
        const same = last && last.end === piece.start && last.scopes.join() === piece.scopes.join();
        if (same) joined.splice(-1, 1, { ...last, end: piece.end });
        else joined.push(piece);
    }
    return joined
        .map(({ start, end, scopes }) => [text.slice(start, end).trim(), scopes.join(' ')])
        .filter(([words]) => words !== '')
        .map(([words, scopes]) => `${words}  ${scopes}`.trim());
}

test('paints a declaration: word, name and title', () => {
    expect(paint('part k1 "Relay" in box { }')).toEqual([
        'part  keyword.other',
        'k1  entity.name.class',
        '"Relay"  string.quoted.double',
        'in  keyword.other',
        'box  variable.other',
        '{  punctuation.section.block',
        '}  punctuation.section.block',
    ]);
});

test('paints a step with its branches', () => {
    expect(paint('step look-twice { test k1.coil { normal -> at-rest  cannot be read -> end } }')).toEqual([
        'step  keyword.control',
        'look-twice  entity.name.function',
        '{  punctuation.section.block',
        'test  keyword.other',
        'k1  entity.name.function',
        '.  punctuation.separator',
        'coil  variable.other',
        '{  punctuation.section.block',
        'normal  variable.other',
        '->  keyword.operator.arrow',
        'at-rest  variable.other',
        'cannot  keyword.control',
        'be  keyword.control',
        'read  keyword.control',
        '->  keyword.operator.arrow',
        'end  variable.other',
        '}  punctuation.section.block',
        '}  punctuation.section.block',
    ]);
});

test('paints amounts: the number, and its unit', () => {
    expect(paint('takes 25 min costs 4.5 EUR')).toEqual([
        'takes  keyword.other',
        '25  constant.numeric',
        'min  keyword.other.unit',
        'costs  keyword.other',
        '4.5  constant.numeric',
        'EUR  keyword.other.unit',
    ]);
    expect(paint('normal 24 V ± 10 %')).toEqual([
        'normal  variable.other',
        '24  constant.numeric',
        'V  keyword.other.unit',
        '±  keyword.operator.tolerance',
        '10  constant.numeric',
        '%  keyword.other.unit',
    ]);
    expect(paint('rate 9 per 1e6 h')).toEqual([
        'rate  keyword.other',
        '9  constant.numeric',
        'per  keyword.other',
        '1e6  constant.numeric',
        'h  keyword.other.unit',
    ]);
});

test('paints hazards and signal words', () => {
    expect(paint('hazard mains "Mains" { electrical 230 V AC }')).toEqual([
        'hazard  keyword.other',
        'mains  entity.name.section',
        '"Mains"  string.quoted.double',
        '{  punctuation.section.block',
        'electrical  support.type.energy',
        '230  constant.numeric',
        'V  keyword.other.unit',
        'AC  storage.modifier',
        '}  punctuation.section.block',
    ]);
    expect(paint('danger about mains "Keep off"')[0]).toBe('danger  support.type.signal-word');
});

test('paints comments and texts of one line and of several', () => {
    expect(paint('// part a\n/* part\n b */ tree')).toEqual([
        '// part a  comment.line.double-slash',
        '/* part  comment.block',
        'b */  comment.block',
        'tree  keyword.other',
    ]);
    expect(paint('note """\n  step one\n""" note "a \\" b"')).toEqual([
        'note  keyword.other',
        '"""  string.quoted.triple',
        'step one  string.quoted.triple',
        '"""  string.quoted.triple',
        'note  keyword.other',
        '"a  string.quoted.double',
        '\\"  string.quoted.double constant.character.escape',
        'b"  string.quoted.double',
    ]);
});

test('a text without its end stops at the end of its line', () => {
    expect(paint('note "open\nstep a')).toEqual([
        'note  keyword.other',
        '"open  string.quoted.double',
        'step  keyword.control',
        'a  entity.name.function',
    ]);
});

test('a word of the language within a longer name is not one', () => {
    expect(paint('go no-light')).toEqual(['go  keyword.control', 'no-light  variable.other']);
    expect(paint('shut-down "x"')[0]).toBe('shut-down  keyword.other');
});

test('the words are those of the language, each once', () => {
    const { repository } = JSON.parse(readText(grammarFile)) as {
        repository: Record<string, { patterns: { match?: string; name?: string }[] }>;
    };
    const patterns = [...(repository['words']?.patterns ?? []), ...(repository['signal-words']?.patterns ?? [])];
    const words = patterns.flatMap(({ match }) => /\(\?:([a-zA-Z|-]+)\)/.exec(match ?? '')?.[1]?.split('|') ?? []);
    expect(words.length).toBeGreaterThan(150);
    expect([...words].sort()).toEqual([...new Set(keywordsOf(services.Grammar))].sort());
});

test('an amount has the form that it has in the language', () => {
    const rule = services.Grammar.rules.find(({ name }) => name === 'AMOUNT');
    const { repository } = JSON.parse(readText(grammarFile)) as {
        repository: { amounts: { patterns: [{ match: string }] } };
    };
    // The pattern has one bracket more, around the number, and writes characters and slashes another way.
    const [{ match }] = repository.amounts.patterns;
    const painted = match.replace('(', '').replace('[0-9]+)?)(', '[0-9]+)?(');
    const form = GrammarAST.isTerminalRule(rule) ? rule.definition : undefined;
    const source = (form as GrammarAST.RegexToken).regex.slice(1, -1);
    expect(painted).toBe(source.replace(/\\u([0-9A-Fa-f]{4})/g, '\\x{$1}').replaceAll('\\/', '/'));
});

const worlds = ['examples', 'tests/worlds'].flatMap(folder =>
    readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
        .filter(name => name.endsWith('.fault'))
        .map(name => `${folder}/${name}`),
);

test('there are files to compare', () => {
    expect(worlds.length).toBeGreaterThan(10);
});

test.each(worlds)('%s is painted as the lexer cuts it up', file => {
    const text = readText(file);
    const pieces = cutUp(text);
    const scopesAt = new Map<number, string>();
    for (const { start, end, scopes } of pieces) {
        for (let offset = start; offset < end; offset += 1) scopesAt.set(offset, scopes.join(' '));
    }
    const { tokens, report } = services.parser.Lexer.tokenize(text);
    const { comments } = report as FaultLexingReport;
    const stretches = [
        ...comments.map(({ start, end }) => ({ start, end, form: /^comment/ })),
        ...tokens.map(token => ({
            start: token.startOffset,
            end: tokenEnd(token),
            form: formOf(token.tokenType.name),
        })),
    ];
    const wrong = stretches.filter(({ start, end, form }) => {
        for (let offset = start; offset < end; offset += 1) {
            if (!/\s/.test(text[offset] ?? '') && !form.test(scopesAt.get(offset) ?? '')) return true;
        }
        return false;
    });
    expect(wrong.map(({ start, end }) => `${text.slice(start, end)}: ${scopesAt.get(start)}`)).toEqual([]);
    expect(stretches.length).toBeGreaterThan(0);
});

/** What a token may be painted as. A word of the language may also be a name that is declared. */
function formOf(type: string): RegExp {
    if (type === 'TEXT') return /^string/;
    if (type === 'AMOUNT') return /^(constant\.numeric|keyword\.other\.unit)/;
    if (type === 'ID') return /^(entity\.name|variable|support\.type\.energy)/;
    return /^\p{L}/u.test(type) ? /^(keyword|storage|constant|support|entity)/ : /^(keyword\.operator|punctuation)/;
}
