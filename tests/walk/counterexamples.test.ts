/**
 * Every finding of the walk that can show a counterexample shows one, and the plain replay, which knows no world sets, finds
 * a world of that build and fault that goes just this way and comes to just this.
 */
import { describe, expect, test } from 'vitest';
import type { Finding } from '../../language/src/core/findings/finding.js';
import { defaultSettings } from '../../language/src/core/findings/settings.js';
import { verify } from '../../language/src/core/findings/verify.js';
import { rulePages } from '../../language/src/generated/rule-pages.js';
import { rules } from '../../language/src/rules/index.js';
import { randomWorld } from '../property/random-world.js';
import { runs } from '../property/runs.js';
import { worlds } from '../property/samples.js';
import { blocksOf } from '../support/check-page.js';
import { readFolder } from '../support/read-folder.js';
import { readTexts, type Texts } from '../support/read-texts.js';
import { isReplayed, replayedCodes } from '../support/replay-counterexample.js';
import { seededDefects } from './seeded-defects.js';

/** Codes of the walk whose findings tell what nobody meets, or what no single world shows, and the messages that do so. */
const withoutExample: Readonly<Record<string, RegExp>> = {
    'fault-in-no-tree': /^/,
    'impossible-branch': /^/,
    'pointless-test': /^/,
    'repeated-test': /^/,
    'unreachable-step': /^/,
    'undecided-walk': /^/,
    'scenario-failed': /^No unit is built|does not (say|bring)|which is a step|nothing makes/,
    'gate-left-closed': /nobody comes there/,
    'wait-too-short': /is closed .* after it is cut off|is closed at once/,
};

const codesOfTheWalk: ReadonlySet<string> = new Set(
    rules.filter(({ asks }) => asks === 'walked').map(({ code }) => code),
);

/** Codes of the findings that were replayed, for all tests of this file together. */
const replayed = new Set<string>();

describe('the counterexamples', () => {
    test.each(Object.entries(rulePages))('on the page of %s are replayed', (_, page) => {
        expect(blocksOf(page).flatMap(({ texts }) => wrongExamples(texts, true))).toEqual([]);
    });

    test.each(seededDefects)('of this slip are replayed: $slip', ({ file, oldText, newText }) => {
        const example = readFolder('examples/dust-extractor');
        const texts = { ...example, [file]: (example[file] ?? '').replace(oldText, () => newText) };
        expect(wrongExamples(texts)).toEqual([]);
    });

    test.each([...worlds, { folder: 'tests/worlds-wrong/everything-wrong', texts: {} }].map(({ folder }) => folder))(
        'of what is found in %s are replayed',
        folder => {
            expect(wrongExamples(readFolder(folder))).toEqual([]);
        },
    );

    test.each(Array.from({ length: 4 }, (_, part) => part + 1))(
        'of 100 random worlds are replayed, part %i of 4',
        { timeout: 60_000 },
        part => {
            const first = runs(1).seed + part * 10_000_000;
            for (let seed = first; seed < first + 100; seed++) {
                const texts = { 'example.fault': randomWorld(seed) };
                expect(wrongExamples(texts, true), `Seed ${seed}:\n${texts['example.fault']}`).toEqual([]);
            }
        },
    );

    test('have been replayed for every code that has them', () => {
        expect(replayedCodes.filter(code => !replayed.has(code))).toEqual([]);
    });
});

/**
 * The findings that lack a counterexample, or whose counterexample is not found again; as lines. Pairs of faults are looked
 * at only in small texts: in a large one they are many.
 */
function wrongExamples(texts: Texts, doubleFaults = false): string[] {
    const { model, findings } = readTexts(texts, { repository: true });
    const verdict = verify(model, findings, {
        rules,
        settings: { ...defaultSettings, doubleFaults },
        signal: { aborted: false },
        cost: 'slow',
        files: Object.keys(texts).filter(file => file.endsWith('.fault')),
    });
    return (verdict?.findings ?? []).flatMap(finding => {
        const { code, counterexample } = finding;
        if (code === 'rule-failed') return [describeFinding(finding)];
        if (!codesOfTheWalk.has(code)) return [];
        if (!counterexample) {
            return withoutExample[code]?.test(finding.message) ? [] : [`without example: ${describeFinding(finding)}`];
        }
        if (!replayedCodes.includes(code)) return [];
        replayed.add(code);
        return isReplayed(finding, counterexample, model) ? [] : [`not replayed: ${describeFinding(finding)}`];
    });
}

function describeFinding({ code, message, counterexample }: Finding): string {
    return `${code}: ${message} ${counterexample?.sentence ?? ''}`;
}
