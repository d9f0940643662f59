/** The notice that stands once in every output. */
import { expect, test } from 'vitest';
import { safetyNotice, safetyNotices } from '../../../language/src/core/safety/notice.js';

test('says that verification is an aid, and what comes before it', () => {
    expect(safetyNotice()).toContain('Verification is an aid');
    for (const words of ["equipment maker's instructions", 'local codes', 'licensed practice', 'come first']) {
        expect(safetyNotice()).toContain(words);
    }
});

test.each(['en', 'en-GB', 'de', 'constructor', ''])('is there for the locale `%s`', locale => {
    expect(safetyNotice(locale)).toBe(safetyNotices.en);
});
