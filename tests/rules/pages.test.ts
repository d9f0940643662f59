/** Every page of a rule, and the reference of the language, is its own test: what its examples give is what they say. */
import { describe, expect, test } from 'vitest';
import { rulePages } from '../../language/src/generated/rule-pages.js';
import { rules } from '../../language/src/rules/index.js';
import { readText } from '../house/project.mjs';
import { blocksOf, checkBlock, checkMends, findingsIn, markedCodes } from '../support/check-page.js';

const sections = ['What it finds', 'Why it matters', 'Example', 'Write instead', 'Fix safety', 'When to turn it off'];

/** Rules without an example in the language, and why. */
const withoutExample: Readonly<Record<string, string>> = {
    'internal-failure': 'it is a mistake of the tool, which is mended where one is known',
    'rule-failed': 'it is a mistake of the tool, which is mended where one is known',
    'unreadable-file': 'what cannot be read as text cannot stand in a page',
    'settings-invalid': 'it is in the settings file, which is no source; the tests of the settings show it',
    'undecided-builds': 'it takes hundreds of lines; a test of its own makes them',
    'undecided-walk': 'it takes hundreds of lines; a test of its own limits the walk instead',
};

describe.each(rules.map(rule => ({ rule, code: rule.code })))('the page of $code', ({ rule, code }) => {
    const page = rulePages[code] ?? '';
    // As you type, only the fast rules speak; the page of one of them shows what they say.
    const { cost } = rule;
    const blocks = blocksOf(page);

    test('begins with its code and one sentence, and has the fixed sections', () => {
        const [title, empty, sentence = '', after] = page.split('\n');
        expect(title).toBe(`# ${code}`);
        expect(empty).toBe('');
        expect(after).toBe('');
        expect(sentence).toMatch(/^[^.]+\.$/);
        expect([...page.matchAll(/^## (.*)$/gm)].map(([, heading]) => heading)).toEqual(sections);
    });

    test('has examples that give exactly the marked findings', () => {
        expect(report(blocks, block => checkBlock(block, { cost }))).toBe('');
    });

    test('shows its own finding in the example, and nothing to mend in what to write instead', () => {
        const examples = blocks.filter(({ section }) => section === 'Example');
        const instead = blocks.filter(({ section }) => section === 'Write instead');
        expect(examples.some(block => markedCodes(block).includes(code))).toBe(!(code in withoutExample));
        expect(instead.length > 0).toBe(!(code in withoutExample));
        expect(instead.flatMap(markedCodes)).toEqual([]);
    });

    test('has examples whose mends can be applied, the safe ones without new findings', () => {
        expect(report(blocks, block => checkMends(block, { cost }))).toBe('');
    });

    test('names the severity that the finding has', () => {
        const found = blocks.flatMap(block => findingsIn(block, block.texts, { cost }));
        const severities = found.filter(finding => finding.code === code).map(({ severity }) => severity);
        expect(severities.filter(severity => severity !== rule.severity)).toEqual([]);
        const says = /^Never: it is an error/m.test(page);
        expect(says).toBe(rule.severity === 'error');
    });
});

describe('the reference of the language', () => {
    const blocks = blocksOf(readText('language/reference.md'), 'language');

    test('has examples', () => {
        expect(blocks.length).toBeGreaterThan(50);
    });

    test('has examples that give exactly the marked findings, most of them none', () => {
        expect(report(blocks, block => checkBlock(block))).toBe('');
    });
});

describe('a page', () => {
    const page = (...lines: readonly string[]) => ['# page', '## Example', '```fault', ...lines, '```'].join('\n');
    const wrongIn = (text: string) => blocksOf(text).flatMap(block => checkBlock(block));

    test('that leaves a finding without a mark is noticed', () => {
        expect(wrongIn(page('uses "other.fault"'))).toEqual([
            'found and not marked: example.fault:1:6+13 missing-file: There is no file `other.fault`.',
        ]);
    });

    test('with a mark at another place, of another code or with other words is noticed', () => {
        const line = 'uses "other.fault"';
        for (const mark of [
            '//    ^^^^^^^^^^^^^ missing-file: There is no file',
            '//   ^^^^^^^^^^^^ missing-file: There is no file',
            '//   ^^^^^^^^^^^^^ missing-picture: There is no file',
            '//   ^^^^^^^^^^^^^ missing-file: There is no such file',
        ]) {
            expect(wrongIn(page(line, mark))).toHaveLength(2);
        }
        expect(wrongIn(page(line, '//   ^^^^^^^^^^^^^ missing-file: There is no file'))).toEqual([]);
    });

    test('with a mark for which there is no finding is noticed', () => {
        const text = page('instrument ruler "Ruler" { measures length 0 mm .. 300 mm }', '//         ^^^^^ name-taken');
        expect(wrongIn(text)).toEqual(['marked and not found: example.fault:1:12+5 name-taken: ']);
    });

    test('can say at its beginning what the settings are', () => {
        const line = 'equipment a "A" { option b "B" { c "C"  d "D" }  exclude d because "it is not built" }';
        expect(wrongIn(page(line))).toEqual([
            expect.stringContaining('found and not marked: example.fault:1:41+1 dead-choice'),
        ]);
        expect(wrongIn(page('// settings: { "severities": { "dead-choice": "off" } }', line))).toEqual([]);
        expect(() => blocksOf(page('// settings: { "severitys": {} }', line))).toThrow('There is no setting called');
    });

    test('can hold several files in one block', () => {
        expect(
            wrongIn(
                page('uses "a.fault"', '// file: a.fault', 'uses "b.fault"', '//   ^^^^^^^^^ missing-file: `b.fault`'),
            ),
        ).toEqual([]);
    });
});

/** What is wrong, with the line of the page that the block begins on; empty where nothing is. */
function report(
    blocks: readonly ReturnType<typeof blocksOf>[number][],
    wrongIn: (block: ReturnType<typeof blocksOf>[number]) => readonly string[],
): string {
    return blocks
        .map(block => ({ block, wrong: wrongIn(block) }))
        .filter(({ wrong }) => wrong.length > 0)
        .map(({ block, wrong }) => [`line ${block.line}, ${block.section}`, ...wrong].join('\n    '))
        .join('\n');
}
