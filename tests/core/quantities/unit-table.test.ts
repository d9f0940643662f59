/** Checks every row of the tables of units, against UCUM and against published factors. */

import { describe, expect, test } from 'vitest';
import {
    baseDimensions,
    type Dimension,
    dimensionInWords,
    dimensions,
} from '../../../language/src/core/quantities/dimensions.js';
import { printFraction } from '../../../language/src/core/quantities/decimal.js';
import { type Unit, unitFactor, unitOffset, units } from '../../../language/src/core/quantities/unit.js';
import { findUnit } from '../../../language/src/core/quantities/unit-spellings.js';
import { brokenRules, convertByLibrary, isValidCode } from './ucum.js';

const measures = units.filter(unit => !unit.money);

// UCUM codes of our base dimensions. The pseudo dimensions are plain numbers there; each has a reason.
const ucumBases: Readonly<Record<keyof Dimension, string | undefined>> = {
    length: 'm',
    mass: 'kg',
    time: 's',
    current: 'A',
    temperature: 'K',
    // UCUM counts the lumen as candela times steradian.
    light: 'cd.sr',
    angle: 'rad',
    // UCUM's bit is a plain number, and its baud is one per second.
    information: undefined,
    // Things counted are a plain number with a remark in braces.
    count: undefined,
    money: undefined,
    // Levels and pH are logarithms; UCUM's codes for them cannot be multiplied. Their factor is 1 by definition here.
    level: 'dB',
    powerLevel: 'dB',
    soundLevel: 'dB',
    acidity: '[pH]',
    explosiveLimit: undefined,
    voltageLevel: 'dB[uV]',
    soundLevelC: 'dB',
    // UCUM has no reference conditions: a normal or standard volume is a volume with a remark in braces.
    normalVolume: 'm3',
    standardVolume: 'm3',
    turbidity: undefined,
    // Counted as grams of calcium carbonate in a cubic meter, which UCUM can only say in a remark.
    hardness: 'g/m3',
};

// Mercury: UCUM's column is rounded to 133.3220 kPa per meter, NIST's conventional one is 133.322387415 kPa.
const toleranceByCode = new Map([
    ["[in_i'Hg]", 1e-5],
    ['mm[Hg]', 1e-5],
    ['um[Hg]', 1e-5],
]);

describe('the UCUM code of', () => {
    test.each(measures)('$symbol is valid', ({ ucum = '' }) => {
        expect(isValidCode(ucum)).toBe(true);
        expect(brokenRules(ucum)).toEqual([]);
    });

    test('a prefixed unit that takes no prefix would be noticed', () => {
        expect(brokenRules('k[Btu_IT]/h')).toEqual(['k[Btu_IT]']);
        expect(brokenRules('rpm')).toEqual(['rpm']);
    });
});

// The library refuses to convert the baud, which UCUM defines as one per second (the UCUM table of units, from memory).
const notConverted = new Map([['Bd', 1]]);

describe('the factor of', () => {
    // @lhncbc/ucum-lhc 7.1.10 is the outside reference; it computes in binary floating point, hence the tolerance.
    test.each(measures.filter(unit => unit.ucum !== 'dB[W]'))(
        '$symbol agrees with the UCUM reference library',
        unit => {
            const code = unit.ucum ?? '';
            const tolerance = toleranceByCode.get(code) ?? 1e-9;
            for (const number of [1, 100]) {
                const known = notConverted.get(code);
                const expected =
                    known === undefined ? convertByLibrary(number, code, coherentCode(unit.dimension)) : known * number;
                const actual = unitFactor(unit).mul(unitOffset(unit).add(number)).valueOf();
                expect(Math.abs(actual / expected - 1)).toBeLessThan(tolerance);
            }
        },
    );

    // NIST SP 811 (2008) appendix B.8 and B.9, seen second-hand, in the digits printed there.
    test.each([
        ['in', '0.0254'],
        ['ft', '0.3048'],
        ['mil', '0.0000254'],
        ['lb', '0.4535924'],
        ['lbf', '4.448222'],
        ['psi', '6894.757'],
        ['bar', '100000'],
        ['atm', '101325'],
        ['inHg', '3386.389'],
        ['mmHg', '133.3224'],
        ['Torr', '133.3224'],
        ['inH2O', '249.0889'],
        ['ftH2O', '2989.067'],
        ['cmH2O', '98.0665'],
        ['gal', '0.003785412'],
        ['gal (UK)', '0.00454609'],
        ['gpm', '0.0000630902'],
        ['hp', '745.6999'],
        ['PS', '735.4988'],
        ['Btu', '1055.056'],
        ['Btu/h', '0.2930711'],
        ['TR', '3516.853'],
    ])('%s is printed as %s in NIST SP 811', (symbol, printed) => {
        const digits = printed.replace(/^[0.]+|\./g, '').length;
        expect(printFraction(unitFactor(unitOf(symbol)), digits, 0).text).toBe(printed);
    });

    // Recomputed from the exact inch and pound (NIST SP 811 B.8) and the standard acceleration 9.80665 m/s² (3rd CGPM 1901, from memory).
    test.each([
        ['psi', ['lbf'], ['in', 'in']],
        ['lbf·ft', ['lbf', 'ft'], []],
        ['lbf·in', ['lbf', 'in'], []],
        ['lbf', ['lb', 'gₙ'], []],
        ['kgf/cm²', ['kgf'], ['cm', 'cm']],
        ['in³', ['in', 'in', 'in'], []],
        ['ft³', ['ft', 'ft', 'ft'], []],
        ['cfm', ['ft³'], ['min']],
        ['gpm', ['gal'], ['min']],
        ['inHg', ['mmHg', 'in'], ['mm']],
        ['inH2O', ['mmH2O', 'in'], ['mm']],
        ['ftH2O', ['mmH2O', 'ft'], ['mm']],
        ['psf', ['lbf'], ['ft', 'ft']],
        ['igpm', ['gal (UK)'], ['min']],
        ['lb/ft³', ['lb'], ['ft³']],
        ['lb/gal', ['lb'], ['gal']],
        ['lbf/in', ['lbf'], ['in']],
        ['in/ft', ['in'], ['ft']],
        ['gr/lb', ['gr'], ['lb']],
        ['kgf·cm', ['kgf', 'cm'], []],
        ['gf·cm', ['gf', 'cm'], []],
        ['fc', ['lm'], ['ft²']],
        ['oz/yr', ['oz'], ['yr']],
        ['°F/min', ['°F'], ['min']],
        ['°F/h', ['°R'], ['h']],
        ['Torr·L/s', ['Torr', 'L/s'], []],
        ['atm·cm³/s', ['atm', 'mL'], ['s']],
    ])('%s is exactly the product and quotient that defines it', (symbol, times, over) => {
        const product = times.reduce((value, name) => value.mul(unitFactor(unitOf(name))), unitFactor(unitOf('m')));
        const quotient = over.reduce((value, name) => value.div(unitFactor(unitOf(name))), product);
        expect(unitFactor(unitOf(symbol)).toFraction()).toBe(quotient.toFraction());
    });

    test('a horsepower is exactly 550 foot pounds-force in a second', () => {
        expect(unitFactor(unitOf('hp')).equals(unitFactor(unitOf('lbf·ft')).mul(550n))).toBe(true);
    });

    test('an ounce is exactly a sixteenth of a pound, also of force', () => {
        for (const [ounce, pound] of [
            ['oz', 'lb'],
            ['ozf', 'lbf'],
            ['ozf·in', 'lbf·in'],
            ['ozf/in²', 'psi'],
        ] as const) {
            expect(
                unitFactor(unitOf(ounce))
                    .mul(16n)
                    .equals(unitFactor(unitOf(pound))),
            ).toBe(true);
        }
    });

    test('a grain in a gallon is exactly 64.79891 mg in 3.785411784 L', () => {
        // Hardness counts in milligrams in a liter, so the factor has grams for kilograms.
        const milligrams = unitFactor(unitOf('gr'))
            .div(unitFactor(unitOf('gal')))
            .mul(1000n);
        expect(unitFactor(unitOf('gr/gal')).equals(milligrams)).toBe(true);
    });

    test('a gallon is exactly 231 cubic inches', () => {
        // NIST Handbook 44 appendix C, from memory.
        expect(unitFactor(unitOf('gal')).equals(unitFactor(unitOf('in³')).mul(231n))).toBe(true);
    });

    test('a ton of refrigeration is exactly 12 000 Btu per hour', () => {
        expect(unitFactor(unitOf('TR')).equals(unitFactor(unitOf('Btu/h')).mul(12_000n))).toBe(true);
    });

    test('is rounded only where pi is in it, far finer than any reading, or by convention', () => {
        expect(units.filter(unit => unit.rounded).map(unit => unit.symbol)).toEqual([
            '°dH',
            'cmil',
            'kcmil',
            '°/s',
            '°',
        ]);
        // Pi to fifty decimals, from memory.
        const pi = '3.14159265358979323846264338327950288419716939937510';
        for (const symbol of ['°', '°/s']) {
            const half = unitFactor(unitOf(symbol)).mul(180n);
            expect(printFraction(half, 33, 40).text.slice(0, 33)).toBe(pi.slice(0, 33));
        }
        // A circular mil is a circle of one mil: pi / 4 square mils.
        const square = unitFactor(unitOf('mil')).mul(unitFactor(unitOf('mil')));
        expect(printFraction(unitFactor(unitOf('cmil')).mul(4n).div(square), 33, 40).text.slice(0, 31)).toBe(
            pi.slice(0, 31),
        );
        expect(unitFactor(unitOf('kcmil')).equals(unitFactor(unitOf('cmil')).mul(1000n))).toBe(true);
    });

    test('dBW agrees with the UCUM reference library by way of the watt', () => {
        // The library does not convert between levels of power, but a level into watts; its bel is the decimal logarithm of a ratio.
        for (const level of [0, 1, 30]) {
            const milliwatts = convertByLibrary(level, 'dB[W]', 'mW');
            const actual = unitFactor(unitOf('dBW'))
                .mul(unitOffset(unitOf('dBW')).add(level))
                .valueOf();
            expect(actual).toBeCloseTo(10 * Math.log10(milliwatts), 9);
        }
    });
});

describe('the table of units', () => {
    test('gives each spelling to one unit only', () => {
        const spellings = units.flatMap(unit => unit.spellings);
        const twice = spellings.filter((spelling, index) => spellings.indexOf(spelling) !== index);
        expect(twice).toEqual([]);
    });

    test('shows each unit by its first spelling', () => {
        expect(units.filter(unit => unit.spellings[0] !== unit.symbol)).toEqual([]);
    });

    test('says for every unit where its factor comes from', () => {
        expect(units.filter(unit => unit.source.length < 10)).toEqual([]);
    });

    test('has a name in words for the dimension of every unit', () => {
        expect(units.filter(unit => dimensionInWords(unit.dimension) === undefined)).toEqual([]);
        expect(dimensionInWords({ length: 7 })).toBeUndefined();
        expect(dimensionInWords(dimensions.pressure)).toBe('pressure');
    });

    test('gives the UCUM code of every unit but money', () => {
        expect(units.filter(unit => (unit.ucum === undefined) !== unit.money)).toEqual([]);
    });
});

function unitOf(symbol: string): Unit {
    const unit = findUnit(symbol);
    if (unit === undefined) {
        throw new Error(`the test names the unit ${symbol}, which is not in the table`);
    }
    return unit;
}

function coherentCode(dimension: Dimension): string {
    const powers = baseDimensions.flatMap(base => {
        const power = dimension[base] ?? 0;
        const code = ucumBases[base];
        return power === 0 || code === undefined ? [] : [power === 1 ? code : code + power];
    });
    return powers.length === 0 ? '1' : powers.join('.');
}
