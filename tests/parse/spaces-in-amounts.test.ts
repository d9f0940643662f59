/** Spaces that a word processor puts between a number and its unit are read like any other. */
import { expect, test } from 'vitest';
import { parseQuantity } from '../../language/src/core/quantities/quantity.js';
import { formatText } from '../../language/src/format/format-text.js';
import { parseText } from '../../language/src/lower/parse/parse-text.js';
import { readSource } from '../../language/src/workspace/read-workspace.js';

test.each(['\u00A0', '\u2009', '\u202F'])('the space %j joins a number and its unit', space => {
    const text = `instrument meter {\n  measures voltage DC 0${space}V .. 600${space}V\n}\n`;
    expect(parseText(text, 'meter.fault').findings).toEqual([]);
    expect(parseQuantity(`600${space}V`)?.unit?.symbol).toBe('V');
    expect(formatText(text).text).toContain('0 V .. 600 V');
});

test('a degree sign takes its letters along, so that a slip in them is a finding of the unit', () => {
    const text = 'instrument meter { measures temperature 0 °c .. 90 °C }';
    expect(readSource('meter.fault', text).model.instruments[0]?.measures[0]?.from?.written).toBe('0 °c');
});
