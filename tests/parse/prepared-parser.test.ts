/** The prepared parser and scanner read every text as the libraries do that they stand in for, whatever is wrong with it. */
import fc from 'fast-check';
import { AstUtils, createParser, CstUtils, DefaultLexer, isAstNode, isReference, type AstNode } from 'langium';
import { describe, expect, test } from 'vitest';
import { FaultParser, type FaultParseResult } from '../../language/src/lower/parse/fault-parser.js';
import { loadGrammar } from '../../language/src/lower/parse/load-grammar.js';
import { createParserServices } from '../../language/src/lower/parse/parser-module.js';
import { makeReadingParser } from '../../language/src/lower/parse/reading-services.js';
import { ScanningLexer } from '../../language/src/lower/parse/scanning-lexer.js';
import { damaged } from '../property/damage.js';
import { runs } from '../property/runs.js';
import { pieces, samples } from '../property/samples.js';
import { everyFormParts } from '../support/every-form.js';

/** Whole files, and declarations with every form of the language. */
const whole = [...samples.map(({ text }) => text), ...everyFormParts];

const services = createParserServices();
/** The parsers that must agree with the library: those of the command line and of the language server. */
const preparedParsers = [makeReadingParser(), services.parser.LangiumParser as FaultParser];
const libraryParser = createParserServices({
    parser: {
        LangiumParser: own => {
            const parser = createParser(own.Grammar, new FaultParser(own), own.parser.Lexer.definition);
            parser.finalize();
            return parser;
        },
    },
}).parser.LangiumParser as FaultParser;

const scanningLexer = new ScanningLexer(services);
const libraryLexer = new DefaultLexer(services);

/** Pieces of files with slips, and a few texts of which the library has to see more than the tables hold. */
const slips = fc.oneof(
    { arbitrary: damaged(pieces).map(({ text }) => text), weight: 19 },
    { arbitrary: fc.constantFrom(...calculations()), weight: 1 },
);

describe('the prepared parser', () => {
    test('gives the tree and the findings of the library for every world and example', () => {
        expect(whole.length).toBeGreaterThan(20);
        for (const text of whole) {
            const wanted = describeResult(libraryParser.parse(text));
            for (const parser of preparedParsers) expect(describeResult(parser.parse(text))).toBe(wanted);
        }
    });

    test('gives them for texts with slips', { timeout: 120_000 }, () => {
        let findings = 0;
        fc.assert(
            fc.property(slips, text => {
                const wanted = libraryParser.parse(text);
                findings += wanted.findings.length;
                for (const parser of preparedParsers) {
                    expect(describeResult(parser.parse(text))).toBe(describeResult(wanted));
                }
            }),
            runs(2000),
        );
        expect(findings).toBeGreaterThan(1000);
    });
});

test('the grammar is the one that the library loads', () => {
    expect(describeGrammar(loadGrammar())).toEqual(describeGrammar(services.Grammar));
});

describe('the scanner', () => {
    test('finds the tokens of the library in every world and example', () => {
        for (const text of whole) {
            expect(describeTokens(scanningLexer, text)).toEqual(describeTokens(libraryLexer, text));
        }
    });

    test('finds them in texts with slips', { timeout: 60_000 }, () => {
        fc.assert(
            fc.property(slips, text => {
                expect(describeTokens(scanningLexer, text)).toEqual(describeTokens(libraryLexer, text));
            }),
            runs(3000),
        );
    });
});

function calculations(): readonly string[] {
    const readings = [
        'mean(a, b)',
        'mean(a, b',
        'mean(a b)',
        'mean (a) - 2 V',
        'a ( b )',
        '(a.b + mean((c))) × 2',
        'a.b(',
    ];
    return readings.map(reading => `equipment e { test t { calculate voltage from ${reading} normal yes } }`);
}

/** Everything of a result that depends on the text, as text: findings, comments, and the tree with its places. */
function describeResult(result: FaultParseResult): string {
    const { value, findings, comments, parserErrors, lexerErrors } = result;
    const errors = [...parserErrors, ...lexerErrors].map(({ message }) => message);
    return JSON.stringify([findings, comments, errors, describeNode(value), describePlaces(value)], undefined, 1);
}

function describeNode(node: AstNode): unknown {
    const properties = Object.entries(node).filter(([name]) => !name.startsWith('$') || name === '$type');
    return [
        node.$cstNode?.offset,
        node.$cstNode?.end,
        ...properties.map(([name, value]) => [name, describeValue(value)]),
    ];
}

function describeValue(value: unknown): unknown {
    if (Array.isArray(value)) return value.map(describeValue);
    if (isReference(value)) return [value.$refText, value.$refNode?.offset, value.$refNode?.end];
    return isAstNode(value) ? describeNode(value) : value;
}

/** The words of the file with the elements of the grammar that they come from. */
function describePlaces(root: AstNode): unknown {
    if (root.$cstNode === undefined) return undefined;
    return [...CstUtils.streamCst(root.$cstNode)].map(({ offset, end, hidden, grammarSource }) => [
        offset,
        end,
        hidden,
        grammarSource?.$type,
        grammarSource?.$containerIndex,
        grammarSource?.$container?.$type,
    ]);
}

/** Every element of the grammar with its values, its place, and what it refers to. */
function describeGrammar(grammar: AstNode): readonly unknown[] {
    const describeProperty = (value: unknown): unknown => {
        if (isReference(value)) return [value.$refText, (value.ref as { name?: string } | undefined)?.name];
        return typeof value === 'object' ? undefined : value;
    };
    return [...AstUtils.streamAst(grammar)].map(element => [
        element.$container?.$type,
        element.$containerProperty,
        element.$containerIndex,
        ...Object.entries(element)
            .filter(([name]) => !name.startsWith('$') || name === '$type')
            .map(([name, value]) => [name, describeProperty(value)]),
    ]);
}

function describeTokens(lexer: Pick<DefaultLexer, 'tokenize'>, text: string): unknown {
    const { tokens, hidden, errors } = lexer.tokenize(text);
    // The numbers of the types are left out: they come from the parser that a lexer belongs to.
    const describeToken = ({ tokenType, ...rest }: (typeof tokens)[number]): unknown => {
        return { ...rest, tokenTypeIdx: undefined, type: tokenType.name };
    };
    return [tokens.map(describeToken), hidden.map(describeToken), errors];
}
