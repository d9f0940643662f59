// The spellings of units: looking one up, suggesting near ones, and what a lexer needs to see where a unit ends.

import { nearNames } from '../text/near-names.js';
import { currencies, currencySigns } from './currencies.js';
import { dimensions, sameDimensions } from './dimensions.js';
import { type Unit, units } from './unit.js';

/** A unit with a remark run into it, such as `VAC` or `psig`, taken apart. */
export interface SplitUnit {
    readonly unit: Unit;
    /** What is said beside the quantity instead of in the unit. */
    readonly modifier: 'AC' | 'DC' | 'gauge' | 'absolute' | 'difference';
}

/** The characters with which a plain unit can start, as the inside of a character class of a regular expression. */
export const unitStartCharacters = 'A-Za-z%‰°º˚Ωµμ€£¥₹$\u2126\u2103\u2109\u212A';

/** The characters with which a plain unit can go on, written as `unitStartCharacters` is. */
export const unitCharacters = 'A-Za-z0-9%/²³⁻¹₂ₙ·⋅°º˚Ωµμ$\u2126\u212A';

const unitBySpelling = new Map<string, Unit>(
    units.flatMap(unit => unit.spellings.map((spelling): [string, Unit] => [spelling, unit])),
);

const plainUnit = new RegExp(`^[${unitStartCharacters}][${unitCharacters}]*$`, 'u');

/**
 * Spellings that hold a space, a dot or another sign that a run of `unitCharacters` would not take in
 * (`in. w.c.`, `dB(A)`, `ft-lb`, `1/min`), the longest first, so that a pattern made of them takes the longest.
 */
export const longUnitSpellings: readonly string[] = [...unitBySpelling.keys()]
    .filter(spelling => !plainUnit.test(spelling))
    .sort((a, b) => b.length - a.length || (a < b ? -1 : 1));

/** The unit with this spelling. Upper and lower case count, since `mΩ` is not `MΩ`; several spaces count as one. */
export function findUnit(spelling: string): Unit | undefined {
    return unitBySpelling.get(spelling) ?? unitBySpelling.get(spelling.trim().replace(/\s+/g, ' '));
}

/**
 * At most three symbols of units that an unknown spelling may stand for, the likeliest first: the same letters in another case,
 * the unit's name in words, a unit with `AC` or `gauge` run into it, or a spelling that is a slip away.
 */
export function nearUnits(spelling: string): readonly string[] {
    const simple = simplify(spelling);
    if (simple === '') {
        return [];
    }
    const sure = currencySigns.get(spelling.trim()) ?? lookUp([simple]);
    if (sure.length > 0) {
        return sure.slice(0, 3);
    }
    const split = splitUnit(spelling);
    if (split !== undefined) {
        return [split.unit.symbol];
    }
    // A word in small letters is no slip of a currency's code, or nearly every short word would be near one.
    const looksLikeCode = /^[A-Z]{2,4}$/.test(spelling.trim());
    const names = [...unitsInWords().keys(), ...simpleSpellings().keys()];
    return lookUp(nearNames(simple, looksLikeCode ? names : names.filter(name => !currencyKeys.has(name)))).slice(0, 3);
}

/**
 * The one unit that an unknown spelling can stand for: its letters in another case, as a keyboard has them, or its name in words.
 * Undefined where two units could be meant (`mw` is `mW` or `MW`), and for a spelling that is a slip away.
 */
export function unitMeant(spelling: string): Unit | undefined {
    const simple = simplify(spelling);
    const [symbol, ...others] = simple === '' ? [] : (currencySigns.get(spelling.trim()) ?? lookUp([simple]));
    return symbol === undefined || others.length > 0 ? undefined : findUnit(symbol);
}

/** Takes a voltage, current or pressure unit apart from the kind of reading run into it; undefined where there is none. */
export function splitUnit(spelling: string): SplitUnit | undefined {
    const text = spelling.trim();
    if (findUnit(text) !== undefined) {
        return undefined;
    }
    for (const [ending, modifier, dimensionName] of modifierEndings) {
        if (!text.toLowerCase().endsWith(ending) || text.length === ending.length) {
            continue;
        }
        const unit = findUnit(text.slice(0, text.length - ending.length));
        const fits = dimensionName.some(name => unit !== undefined && sameDimensions(unit.dimension, dimensions[name]));
        if (unit !== undefined && fits) {
            return { unit, modifier };
        }
    }
    return undefined;
}

const electrical = ['voltage', 'current'] as const;
const pressure = ['pressure'] as const;
const modifierEndings: readonly (readonly [string, SplitUnit['modifier'], readonly (keyof typeof dimensions)[]])[] = [
    ['ac', 'AC', electrical],
    ['dc', 'DC', electrical],
    ['(g)', 'gauge', pressure],
    ['(a)', 'absolute', pressure],
    ['(d)', 'difference', pressure],
    ['gauge', 'gauge', pressure],
    ['abs', 'absolute', pressure],
    ['g', 'gauge', pressure],
    ['a', 'absolute', pressure],
    ['d', 'difference', pressure],
];

const currencyKeys: ReadonlySet<string> = new Set(currencies.map(code => code.toLowerCase()));

// Both indexes are needed only for a unit that is not known, so a workspace without such slips never pays for them.
let simpleIndex: ReadonlyMap<string, readonly string[]> | undefined;
let wordIndex: ReadonlyMap<string, readonly string[]> | undefined;

function lookUp(names: readonly string[]): readonly string[] {
    return [
        ...new Set(
            names.flatMap(name => [...(unitsInWords().get(name) ?? []), ...(simpleSpellings().get(name) ?? [])]),
        ),
    ];
}

function simpleSpellings(): ReadonlyMap<string, readonly string[]> {
    simpleIndex ??= indexSymbols(unit => unit.spellings.map(simplify));
    return simpleIndex;
}

function unitsInWords(): ReadonlyMap<string, readonly string[]> {
    wordIndex ??= indexSymbols(unit => {
        const everyday = everydayNames.get(unit.symbol) ?? [];
        if (unit.money) {
            return everyday;
        }
        const [first = '', ...rest] = unit.name.split(' ');
        const plurals = [`${unit.name}s`, [`${first}s`, ...rest].join(' ')];
        return [unit.name, ...plurals, ...everyday].map(simplify);
    });
    return wordIndex;
}

const everydayNames: ReadonlyMap<string, readonly string[]> = new Map([
    ['A', ['amp', 'amps']],
    ['mA', ['milliamp', 'milliamps']],
    ['°C', ['celsius', 'centigrade', 'degrees celsius', 'cel']],
    ['°F', ['fahrenheit', 'degrees fahrenheit']],
    ['ft', ['feet']],
    ['kg', ['kilo', 'kilos']],
    ['kΩ', ['k']],
    ['bar', ['bars']],
    ['EUR', ['euro', 'euros']],
    ['USD', ['dollar', 'dollars']],
]);

function indexSymbols(keysOf: (unit: Unit) => readonly string[]): ReadonlyMap<string, readonly string[]> {
    const index = new Map<string, string[]>();
    for (const unit of units) {
        for (const key of new Set(keysOf(unit))) {
            const symbols = index.get(key);
            if (symbols === undefined) {
                index.set(key, [unit.symbol]);
            } else {
                symbols.push(unit.symbol);
            }
        }
    }
    return index;
}

function simplify(spelling: string): string {
    return spelling
        .replace(/[º˚]/g, '°')
        .normalize('NFKC')
        .replace(/[\s.·⋅*^()-]/g, '')
        .replace(/Ω/g, 'ohm')
        .replace(/μ/g, 'u')
        .toLowerCase();
}
