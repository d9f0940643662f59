/** Checks that lowering gives a model for any text while it is being written. */
import type { AstNode } from 'langium';
import { expect, test } from 'vitest';
import type { File } from '../../language/src/generated/ast.js';
import { lowerFile } from '../../language/src/lower/lower-file.js';
import { createParserServices } from '../../language/src/lower/parse/parser-module.js';
import { parseText } from '../../language/src/lower/parse/parse-text.js';
import { everyFormParts } from '../support/every-form.js';
import { file, lower, objectsIn, referencesIn, spansIn, syntaxNodesIn } from '../support/lower.js';

const { Lexer } = createParserServices().parser;

interface Written {
    readonly start: number;
    readonly end: number;
}

function tokensOf(text: string): Written[] {
    return Lexer.tokenize(text).tokens.map(({ startOffset, image }) => {
        return { start: startOffset, end: startOffset + image.length };
    });
}

/** What is wrong with the model of a text: places outside it, references that do not say what is written. */
function wrongIn(text: string): string[] {
    const { model, findings } = lower(text);
    const references = referencesIn(model);
    const misplaced = [...spansIn(model), ...findings].filter(
        ({ start, end }) => !(start >= 0 && start <= end && end <= text.length),
    );
    const misread = references.filter(({ start, end, text: name }) => text.slice(start, end) !== name);
    const misnumbered = references.filter(({ number }, index) => number !== index);
    const wrong = misplaced.length + misread.length + misnumbered.length + (model.referenceCount - references.length);
    return wrong === 0 ? [] : [text.slice(-60)];
}

test('a text cut off behind any word has a model with its places in the text', () => {
    const wrong = everyFormParts.flatMap(text => tokensOf(text).flatMap(({ end }) => wrongIn(text.slice(0, end))));
    expect(wrong).toEqual([]);
});

test('a text that lacks any one word has a model with its places in the text', () => {
    const wrong = everyFormParts.flatMap(text => {
        return tokensOf(text).flatMap(({ start, end }) => wrongIn(text.slice(0, start) + text.slice(end)));
    });
    expect(wrong).toEqual([]);
});

test('a syntax tree that lacks any property of any node is lowered', () => {
    const failed: string[] = [];
    for (const text of everyFormParts) {
        const { root } = parseText(text, file);
        for (const node of syntaxNodesIn(root)) failed.push(...lowerWithoutEach(root, node));
    }
    expect(failed).toEqual([]);
});

function lowerWithoutEach(root: File, node: AstNode): string[] {
    const properties = node as unknown as Record<string, unknown>;
    const names = Object.keys(node).filter(name => name === '$cstNode' || !name.startsWith('$'));
    return names.flatMap(name => {
        const value = properties[name];
        properties[name] = undefined;
        try {
            const { model } = lowerFile(root, file);
            return objectsIn(model).length > 0 ? [] : [`${node.$type}.${name}: nothing`];
        } catch (failure) {
            return [`${node.$type}.${name}: ${String(failure)}`];
        } finally {
            properties[name] = value;
        }
    });
}

test('a missing name is empty and stands behind its keyword', () => {
    const text = 'equipment e { part "Pump" }';
    const name = lower(text).model.equipment[0]?.parts[0]?.name;
    expect([name?.text, name?.start, name?.end]).toEqual(['', 18, 18]);
});

test('a missing reference is empty and stands at the end of what needs it', () => {
    const text = 'tree t of e { step s { test a { low -> } } }';
    const ask = lower(text).model.trees[0]?.steps[0]?.statements[0];
    const target = ask?.sort === 'ask' ? ask.branches[0]?.target : undefined;
    expect([target?.text, target?.role, text.slice(0, target?.start)]).toEqual([
        '',
        'target',
        'tree t of e { step s { test a { low ->',
    ]);
});

test('a name behind a dot can be missing', () => {
    const text = 'tree t of e { conclude c { contactor. } }';
    const fault = lower(text).model.trees[0]?.conclusions[0]?.faults[0]?.fault;
    expect([fault?.owner.role, fault?.owner.text]).toEqual(['part', 'contactor']);
    expect([fault?.fault?.role, fault?.fault?.text, fault?.fault?.start]).toEqual(['fault-of-part', '', 37]);
});

test('a missing amount is empty', () => {
    const takes = lower('equipment e { test t { takes } }').model.equipment[0]?.tests[0]?.takes;
    expect(takes?.map(({ amount }) => amount.written)).toEqual(['']);
});

test('a missing text is empty', () => {
    const notes = lower('equipment e { note }').model.equipment[0]?.remarks;
    expect(notes?.map(remark => (remark.sort === 'note' ? remark.text.value : remark.sort))).toEqual(['']);
});

test('a block without its closing brace ends with the text', () => {
    const text = 'tree t of e { step s { test a { low -> b';
    const ask = lower(text).model.trees[0]?.steps[0]?.statements[0];
    const block = ask?.sort === 'ask' ? ask.block : undefined;
    expect(text.slice(block?.start, block?.end)).toBe('{ low -> b');
});
