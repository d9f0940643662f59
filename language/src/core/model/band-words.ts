// Bands of readings as the author writes them, for people.

import type { Band, TestReference } from './tests.js';

/** A band as text, its numbers and units as written: `21.6 V .. 26.4 V`, `< 3 V`, `24 V ± 10 %`, `any other reading`. */
export function bandText(band: Band): string {
    switch (band.sort) {
        case 'otherwise':
            return 'any other reading';
        case 'limit':
            return `${band.comparison} ${band.value.written}`;
        case 'range': {
            const [from, to] = [band.fromOpen ? '> ' : '', band.toOpen ? '< ' : ''];
            return `${from}${band.from.written} .. ${to}${band.to.written}`;
        }
        case 'around':
            return `${band.value.written}${spread(band.tolerance)}`;
        case 'from-table':
            return `as the table ${band.table.text} says of ${testName(band.input)}${spread(band.tolerance)}`;
    }
}

function spread(tolerance: { readonly written: string } | undefined): string {
    return tolerance ? ` ± ${tolerance.written}` : '';
}

function testName({ owner, test }: TestReference): string {
    return test ? `${owner.text}.${test.text}` : owner.text;
}
