/** Habits of every source file: it begins with a comment, stays short, skips no test and names no machine. */
import { expect, test } from 'vitest';
import { listFiles, listSources, readText } from '../house/project.mjs';

const longestFile = 450;
const sources = listSources();
const texts = listFiles().filter(path => !/\.(png|wasm|ico)$/.test(path));
const tests = sources.filter(path => path.startsWith('tests/'));

test('there are sources, texts and tests to look at', () => {
    expect(sources).toContain('tests/tidy/sources.test.ts');
    expect(sources.some(path => path.startsWith('language/src/core/'))).toBe(true);
    expect(texts.length).toBeGreaterThan(sources.length);
    expect(tests.length).toBeGreaterThan(0);
});

test('every source file begins with a comment on its job', () => {
    expect(sources.filter(path => !beginsWithComment(readText(path)))).toEqual([]);
});

test('a file without a comment is noticed', () => {
    expect(beginsWithComment('const a = 1; // too late\n')).toBe(false);
    expect(beginsWithComment('#!/usr/bin/env node\n// Starts it.\n')).toBe(true);
    expect(beginsWithComment('/** Says what it is. */\nconst a = 1;\n')).toBe(true);
});

test(`no source file is longer than ${longestFile} lines`, () => {
    const long = sources.map(path => ({ path, lines: readText(path).split('\n').length - 1 }));
    expect(long.filter(({ lines }) => lines > longestFile)).toEqual([]);
});

test('no test is skipped, left for later or run alone', () => {
    expect(
        tests.flatMap(path =>
            findMatches(path, /\b(test|it|describe|suite)(\.\w+)*\.(skip|only|todo|fails|skipIf|runIf)\b/),
        ),
    ).toEqual([]);
    expect(tests.flatMap(path => findMatches(path, /\bthis\.skip\(|\bx(it|describe|test)\(/))).toEqual([]);
});

test('nothing is left for later in a note', () => {
    const word = new RegExp(`\\b(${['TO', 'FIX'].map((start, index) => start + ['DO', 'ME'][index]).join('|')})\\b`);
    expect(sources.flatMap(path => findMatches(path, word))).toEqual([]);
});

test('no file names a folder of somebody’s machine', () => {
    const folder = /(^|[\s'"`(=:,]|file:\/\/)\/(work|root|home|Users|tmp)\/|\b[A-Z]:\\Users\\/;
    expect(texts.flatMap(path => findMatches(path, folder))).toEqual([]);
});

test('no file names the host of a package registry', () => {
    const host = new RegExp(['registry\\.', '\\.org'].join('npmjs'));
    expect(texts.flatMap(path => findMatches(path, host))).toEqual([]);
});

function beginsWithComment(text: string): boolean {
    return /^(#!.*\n)?\s*(\/\/|\/\*)/.test(text);
}

/** Gives each line that matches as `path:line text`. */
function findMatches(path: string, pattern: RegExp): string[] {
    return readText(path)
        .split('\n')
        .flatMap((line, index) => (pattern.test(line) ? [`${path}:${index + 1} ${line.trim().slice(0, 120)}`] : []));
}
