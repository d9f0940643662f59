// Names of units that mean more than one thing in the trade: which meaning is taken here, and what else a writer may have had in mind.

import type Fraction from 'fraction.js';

import { coherentValue, parseQuantity, type Quantity } from './quantity.js';
import type { Unit } from './unit.js';
import { convertible } from './unit-conversion.js';
import { findUnit } from './unit-spellings.js';

/** A thing that a name can mean beside what it means here. */
export interface OtherMeaning {
    /** In words, such as `metric horsepower`. */
    readonly name: string;
    /** One of it: `735.49875 W`. */
    readonly size: Quantity;
    /** How to write it so that nobody can take it for something else; undefined where it has no unit of its own here. */
    readonly write: string | undefined;
    /** How far it lies from what is meant here, as a share of that (0.0137 for 735.5 W against 745.7 W); undefined where it is another sort of thing. */
    readonly apart: Fraction | undefined;
}

/** A name with more than one meaning. */
export interface AmbiguousUnit {
    /** The word that has several meanings: `gallon` for `gpm`. */
    readonly word: string;
    /** The unit that the spelling is read as; undefined where it is not read at all, because no meaning is likely enough (`ton`). */
    readonly unit: Unit | undefined;
    /** The sentence that says which meaning is taken; undefined where none is. */
    readonly note: string | undefined;
    /** The other meanings, or all of them where none is taken. */
    readonly others: readonly OtherMeaning[];
}

/**
 * What else a spelling of a unit could mean; undefined for a name with one meaning only.
 * Upper and lower case count, as they do in `findUnit`.
 */
export function ambiguousUnit(spelling: string): AmbiguousUnit | undefined {
    const unit = findUnit(spelling);
    const row = rows.find(({ symbols }) => symbols.includes(unit?.symbol ?? spelling.trim()));
    if (row === undefined) {
        return undefined;
    }
    const base = unit && findUnit(row.base);
    const others = row.others.flatMap(([name, text, write]): OtherMeaning[] => {
        const size = parseQuantity(text);
        return size === undefined ? [] : [{ name, size, write, apart: base && apartFrom(size, base) }];
    });
    return { word: row.word, unit, note: unit?.note, others };
}

/** The largest of the shares by which the other meanings of one sort lie apart from the one taken; undefined where there is none to compare. */
export function furthestApart({ others }: AmbiguousUnit): Fraction | undefined {
    return others
        .map(({ apart }) => apart)
        .filter(apart => apart !== undefined)
        .reduce<Fraction | undefined>(
            (largest, apart) => (largest === undefined || apart.compare(largest) > 0 ? apart : largest),
            undefined,
        );
}

function apartFrom(size: Quantity, base: Unit): Fraction | undefined {
    const one = parseQuantity(`1 ${base.symbol}`);
    const meant = one && coherentValue(one, true);
    const other = coherentValue(size, true);
    return meant && other && size.unit && convertible(size.unit, base) ? other.div(meant).sub(1n).abs() : undefined;
}

interface Row {
    readonly word: string;
    /** The unit that the sizes are compared with; of no use where no symbol is a unit. */
    readonly base: string;
    readonly symbols: readonly string[];
    readonly others: readonly (readonly [name: string, size: string, write?: string])[];
}

// Sizes: NIST SP 811 (2008) B.8, seen second-hand or from memory as its printed digits go; exact where the definition is.
const rows: readonly Row[] = [
    {
        word: 'inch of mercury',
        base: 'inHg',
        symbols: ['inHg'],
        others: [
            ['inch of mercury at 32 °F', '3386.38 Pa'],
            ['inch of mercury at 60 °F', '3376.85 Pa'],
        ],
    },
    {
        word: 'inch of water',
        base: 'inH2O',
        symbols: ['inH2O'],
        others: [
            ['inch of water at 39.2 °F', '249.082 Pa'],
            ['inch of water at 60 °F', '248.84 Pa'],
        ],
    },
    {
        word: 'foot of water',
        base: 'ftH2O',
        symbols: ['ftH2O'],
        others: [['foot of water at 39.2 °F', '2988.98 Pa']],
    },
    {
        word: 'meter of water',
        base: 'mH2O',
        symbols: ['mH2O', 'cmH2O', 'mmH2O'],
        others: [['meter of water at 4 °C', '9806.38 Pa']],
    },
    { word: 'atmosphere', base: 'atm', symbols: ['atm'], others: [['technical atmosphere', '98066.5 Pa', 'kgf/cm²']] },
    { word: 'micron', base: 'micron', symbols: ['micron'], others: [['micrometer of length', '1 µm', 'µm']] },
    {
        word: 'horsepower',
        base: 'hp',
        symbols: ['hp'],
        others: [
            ['metric horsepower', '735.49875 W', 'PS'],
            ['electric horsepower', '746 W'],
            ['boiler horsepower', '9809.5 W', 'BoHP'],
        ],
    },
    {
        word: 'Btu',
        base: 'Btu',
        symbols: ['Btu', 'kBtu', 'MMBtu', 'Btu/h', 'kBtu/h', 'MMBtu/h'],
        others: [
            ['thermochemical Btu', '1054.35 J'],
            ['Btu at 60 °F', '1054.68 J'],
        ],
    },
    {
        word: 'calorie',
        base: 'kcal',
        symbols: ['kcal', 'kcal/h'],
        others: [
            ['thermochemical kilocalorie', '4184 J'],
            ['kilocalorie at 15 °C', '4185.8 J'],
        ],
    },
    {
        word: 'calorie',
        base: 'kcal',
        symbols: ['cal', 'Cal'],
        others: [
            ['calorie', '4.1868 J'],
            ['kilocalorie, the Calorie of food', '4186.8 J', 'kcal'],
        ],
    },
    { word: 'therm', base: 'therm', symbols: ['therm'], others: [['European therm', '105505585.262 J']] },
    {
        word: 'gallon',
        base: 'gal',
        symbols: ['gal', 'gpm', 'gph', 'gpd', 'lb/gal', 'gr/gal'],
        others: [['imperial gallon', '4.54609 L', 'gal (UK)']],
    },
    { word: 'quart', base: 'qt', symbols: ['qt'], others: [['imperial quart', '1.1365225 L']] },
    { word: 'pint', base: 'pt', symbols: ['pt'], others: [['imperial pint', '0.56826125 L']] },
    { word: 'fluid ounce', base: 'fl oz', symbols: ['fl oz'], others: [['imperial fluid ounce', '28.4130625 mL']] },
    {
        word: 'barrel',
        base: 'bbl',
        symbols: ['bbl'],
        others: [['beer barrel of 31 United States gallons', '117.347765304 L']],
    },
    {
        word: 'ton',
        base: 't',
        symbols: ['t', 't/h'],
        others: [
            ['short ton', '907.18474 kg', 'ston'],
            ['long ton', '1016.0469088 kg', 'lton'],
        ],
    },
    {
        word: 'ton',
        base: 't',
        symbols: ['ton', 'tons', 'Ton', 'Tons'],
        others: [
            ['short ton', '907.18474 kg', 'ston'],
            ['long ton', '1016.0469088 kg', 'lton'],
            ['metric tonne', '1000 kg', 't'],
            ['ton of refrigeration', '12000 Btu/h', 'TR'],
        ],
    },
    {
        word: 'ton of refrigeration',
        base: 'TR',
        symbols: ['TR'],
        others: [['Japanese ton of refrigeration of 3320 kcal/h', '3320 kcal/h']],
    },
    { word: 'ounce', base: 'oz', symbols: ['oz'], others: [['fluid ounce', '29.5735295625 mL', 'fl oz']] },
    { word: 'mil', base: 'mil', symbols: ['mil'], others: [['millimeter, as mil is said for it', '1 mm', 'mm']] },
    { word: 'mile', base: 'mi', symbols: ['mi'], others: [['nautical mile', '1852 m']] },
    {
        word: 'thousand Btu per hour',
        base: 'kBtu/h',
        symbols: ['MBtu/h', 'MBTU/h', 'MBtuh', 'MBTUH', 'MBtu', 'MBTU'],
        others: [
            ['thousand Btu per hour', '1000 Btu/h', 'kBtu/h'],
            ['million Btu per hour', '1000000 Btu/h', 'MMBtu/h'],
        ],
    },
    {
        word: 'cubic foot of gas',
        base: 'cfm',
        symbols: ['cfm', 'cfh'],
        others: [['cubic foot per minute at standard conditions', '1 scfm', 'scfm']],
    },
    {
        word: 'standard cubic foot',
        base: 'scfm',
        symbols: ['scfm', 'scfh'],
        others: [['cubic foot per minute as the gas is there', '1 cfm', 'cfm']],
    },
    {
        word: 'normal cubic meter',
        base: 'Nm³/h',
        symbols: ['Nm³/h', 'NL/min'],
        others: [['cubic meter per hour as the gas is there', '1 m³/h', 'm³/h']],
    },
    {
        word: 'standard liter',
        base: 'slpm',
        symbols: ['slpm', 'sccm'],
        others: [['liter per minute as the gas is there', '1 L/min', 'L/min']],
    },
    {
        word: 'part per trillion or thousand',
        base: 'ppm',
        symbols: ['ppt', 'PPT'],
        others: [
            ['part per thousand', '0.001 ratio', '‰'],
            ['part per trillion', '0.000000000001 ratio'],
        ],
    },
    { word: 'year', base: 'yr', symbols: ['yr'], others: [['year of 365 days', '31536000 s']] },
];
