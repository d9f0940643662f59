/** The layout changes neither what a file says nor its comments, and laying out twice is laying out once. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { formatText } from '../../language/src/format/format-text.js';
import { readSource } from '../../language/src/workspace/read-workspace.js';
import { differenceOf } from './differences.js';
import { oddForms } from './odd-forms.js';
import { plainModel } from './plain-model.js';
import { commentsIn, respaced } from './respaced.js';
import { runs } from './runs.js';
import { samples } from './samples.js';

const layoutsOfEach = 20;

test('there are files to lay out, with comments in them', () => {
    expect(samples.length).toBeGreaterThan(15);
    expect(samples.flatMap(({ text }) => commentsIn(text)).length).toBeGreaterThan(40);
});

describe.each([...samples, { name: 'a file of odd forms', text: oddForms }])('$name', ({ text }) => {
    test('keeps its model and its comments when it is laid out', () => {
        expect(changedBy(text)).toEqual([]);
        expect(changedBy(text.replaceAll('\n', '\r\n'))).toEqual([]);
    });

    test('keeps them out of any other spacing too', { timeout: 120_000 }, () => {
        const said = saidBy(text);
        fc.assert(
            fc.property(respaced(text), other => {
                const wrong = compare('the other spacing says something else', said, saidBy(other.text));
                wrong.push(...changedBy(other.text));
                if (wrong.length > 0) throw new Error(wrong.join('\n'));
            }),
            runs(layoutsOfEach),
        );
    });
});

/** What the layout changes in a text beside its blanks, and what laying it out again would change; each as one line. */
function changedBy(text: string): string[] {
    const { text: laidOut, findings } = formatText(text);
    return [
        ...compare('the text cannot be laid out', [], findings),
        ...compare('the layout changes the model', saidBy(text), saidBy(laidOut)),
        ...compare('the layout changes the comments', commentsIn(text), commentsIn(laidOut)),
        ...compare('the layout is not final', laidOut.split('\n'), formatText(laidOut).text.split('\n')),
    ];
}

/** The model without places, and the codes of what reading finds. */
function saidBy(text: string): unknown {
    const { model, findings } = readSource('file.fault', text);
    return { model: plainModel(model), codes: findings.map(({ code }) => code) };
}

function compare(what: string, expected: unknown, found: unknown): string[] {
    const difference = differenceOf(expected, found);
    return difference === undefined ? [] : [`${what}: ${difference}`];
}
