/** Spaces that a word processor puts between a number and its unit are read like any other. */
import { expect, test } from 'vitest';
import { parseQuantity } from '../../language/src/core/quantities/quantity.js';
import { formatText } from '../../language/src/format/format-text.js';
import { parseText } from '../../language/src/lower/parse/parse-text.js';

test.each(['\u00A0', '\u2009', '\u202F'])('the space %j joins a number and its unit', space => {
    const text = `instrument meter {\n  measures voltage DC 0${space}V .. 600${space}V\n}\n`;
    expect(parseText(text, 'meter.fault').findings).toEqual([]);
    expect(parseQuantity(`600${space}V`)?.unit?.symbol).toBe('V');
    expect(formatText(text).text).toContain('0 V .. 600 V');
});
