/** Every unit can be written in a file by the symbol that it is shown with, because a mend writes that symbol. */

import { expect, test } from 'vitest';
import { units } from '../../../language/src/core/quantities/unit.js';
import { readSource } from '../../../language/src/workspace/read-workspace.js';

test('the symbol of every unit is read as one amount', () => {
    const symbols = units.map(unit => unit.symbol);
    const lines = symbols.map(symbol => `  measures voltage DC 0 ${symbol} .. 5 ${symbol}\n`);
    const { model } = readSource('meter.fault', `instrument meter "Meter" {\n${lines.join('')}}\n`);
    const read = model.instruments[0]?.measures.map(({ to }) => to?.written);
    expect(read).toEqual(symbols.map(symbol => `5 ${symbol}`));
});
