/** Where a path is not written yet, the reader says so, and no rule says it again at a place without text. */
import { expect, test } from 'vitest';
import { check } from '../support/check.js';

test('a `uses` without a path is no missing file', () => {
    expect(codesOf('uses\n')).toEqual(['unexpected-text']);
    expect(codesOf('uses ""\n')).toEqual(['missing-file']);
});

test('a `picture` without a path is no missing picture', () => {
    const codes = (clause: string): string[] => codesOf(`instrument meter "Meter" {\n  ${clause}\n}\n`);
    expect(codes('picture')).toEqual(['unexpected-text']);
    expect(codes('picture "" "The meter"')).toContain('missing-picture');
});

function codesOf(text: string): string[] {
    return check(text).map(line => line.slice(0, line.indexOf(' ')));
}
