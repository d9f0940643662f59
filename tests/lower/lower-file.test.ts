/** Checks what holds for every lowered file: places, references, and that the syntax tree can be dropped. */
import { expect, test } from 'vitest';
import { visitReferences } from '../../language/src/core/linking/visit.js';
import { HalfsplitAstReflection } from '../../language/src/generated/ast.js';
import { parseText } from '../../language/src/lower/parse/parse-text.js';
import { everyForm } from '../support/every-form.js';
import { file, lower, lowerWhole, objectsIn, referencesIn, spansIn, syntaxNodesIn } from '../support/lower.js';

test('the sample text has every sort of syntax node', () => {
    const { root, findings } = parseText(everyForm, file);
    expect(findings).toEqual([]);
    const seen = new Set(syntaxNodesIn(root).map(node => node.$type));
    const reflection = new HalfsplitAstReflection();
    const concrete = reflection
        .getAllTypes()
        .filter(type => reflection.getAllSubTypes(type).every(sub => sub === type));
    expect(concrete.filter(type => !seen.has(type))).toEqual([]);
});

test('the text of every reference is what is written at its place', () => {
    const references = referencesIn(lowerWhole(everyForm).model);
    expect(references.length).toBeGreaterThan(150);
    expect(references.map(({ start, end }) => everyForm.slice(start, end))).toEqual(references.map(({ text }) => text));
});

test('the text of every name, word and amount is what is written at its place', () => {
    const objects = objectsIn(lowerWhole(everyForm).model) as Record<string, unknown>[];
    const written = objects.flatMap(({ start, end, text, written: amount }) => {
        const said = text ?? amount;
        return typeof said === 'string' && said !== '' ? [[said, everyForm.slice(Number(start), Number(end))]] : [];
    });
    const changed = written.filter(([said, there]) => said !== there);
    expect(written.length).toBeGreaterThan(400);
    // The low end of a range has got the unit of the high one, and a unit alone a one before it.
    expect(changed).toEqual(
        expect.arrayContaining([
            ['40 °C', '40'],
            ['0 V', '0'],
            ['0 bar', '0'],
            ['1 h', 'h'],
        ]),
    );
    expect(changed).toHaveLength(4);
});

test('the references of a file are numbered from 0 without a gap', () => {
    const { model } = lowerWhole(everyForm);
    expect(referencesIn(model).map(({ number }) => number)).toEqual([...Array(model.referenceCount).keys()]);
});

test('the linker visits every reference of a file once', () => {
    const { model } = lowerWhole(everyForm);
    const visited: number[] = [];
    visitReferences(
        model,
        reference => {
            visited.push(reference.number);
            return undefined;
        },
        () => undefined,
    );
    expect(visited.sort((a, b) => a - b)).toEqual([...Array(model.referenceCount).keys()]);
});

test('every place lies within the place of what it belongs to', () => {
    const outside: string[] = [];
    for (const outer of spansIn(lowerWhole(everyForm).model)) {
        for (const inner of spansIn(outer)) {
            if (inner.start < outer.start || inner.end > outer.end) {
                outside.push(everyForm.slice(inner.start, inner.end));
            }
        }
    }
    expect(outside).toEqual([]);
});

test('the model keeps nothing of the syntax tree', () => {
    const kept = objectsIn(lowerWhole(everyForm).model).filter(object =>
        Object.keys(object).some(key => key.startsWith('$')),
    );
    expect(kept).toEqual([]);
});

test('the syntax node of each declaration is noted where somebody asks for it', () => {
    const { model, nodes } = lower('equipment e { part p { fault f } }', { nodes: true });
    const part = model.equipment[0]?.parts[0];
    const fault = part?.faults[0];
    expect([part && nodes?.get(part)?.$type, fault && nodes?.get(fault)?.$type]).toEqual(['Part', 'Fault']);
    expect(lower('equipment e { }').nodes).toBeUndefined();
});

test('every declaration has its syntax node', () => {
    const { model, nodes } = lower(everyForm, { nodes: true });
    const declarations = objectsIn(model).filter(
        object => 'name' in object || ('sort' in object && object.sort === 'subject'),
    );
    expect(declarations.length).toBeGreaterThan(70);
    expect(declarations.filter(declaration => !nodes?.has(declaration as never))).toEqual([]);
});

test('a file knows its length and the files that it uses', () => {
    const text = 'uses "a.fault"\nuses "b\\"c.fault"\n\n';
    const { model } = lowerWhole(text);
    expect(model.length).toBe(text.length);
    expect(model.uses.map(({ path }) => [path.value, text.slice(path.start, path.end)])).toEqual([
        ['a.fault', '"a.fault"'],
        ['b"c.fault', '"b\\"c.fault"'],
    ]);
});

test('an empty file has an empty model', () => {
    const { model, findings } = lowerWhole('');
    expect(findings).toEqual([]);
    expect(Object.values(model)).toEqual([file, 0, [], [], [], [], [], [], [], [], [], [], 0]);
});
