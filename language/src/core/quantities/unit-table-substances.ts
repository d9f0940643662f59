// Units of what liquids and gases are made of and contain.

import { dimensions } from './dimensions.js';
import { nistB8, nistB9, siBrochure, type UnitGroup } from './unit-row.js';

const turbidityNote =
    'Both scales are set with formazin; NTU is read with white light and FNU with infrared, so colored water reads differently.';

export const substanceUnits: readonly UnitGroup[] = [
    {
        dimension: dimensions.density,
        source: siBrochure,
        rows: [
            { symbol: 'kg/m³', also: ['kg/m3'], name: 'kilogram per cubic meter', ucum: 'kg/m3', factor: '1' },
            { symbol: 'kg/L', also: ['kg/l'], name: 'kilogram per liter', ucum: 'kg/L', factor: '1000' },
            {
                symbol: 'lb/ft³',
                also: ['lb/ft3', 'pcf'],
                name: 'pound per cubic foot',
                ucum: '[lb_av]/[cft_i]',
                factor: '0.45359237/0.028316846592',
                source: nistB8,
            },
            {
                symbol: 'lb/gal',
                also: ['ppg'],
                name: 'pound per gallon',
                ucum: '[lb_av]/[gal_us]',
                factor: '0.45359237/0.003785411784',
                source: nistB8,
                note: 'The United States gallon (3.785 L), not the imperial one (4.546 L).',
            },
            { symbol: 'g/m³', also: ['g/m3'], name: 'gram per cubic meter', ucum: 'g/m3', factor: '0.001' },
            {
                symbol: 'µg/m³',
                also: ['µg/m3'],
                name: 'microgram per cubic meter',
                ucum: 'ug/m3',
                factor: '0.000000001',
            },
            {
                symbol: 'g/cm³',
                also: ['g/cm3', 'g/mL', 'g/ml'],
                name: 'gram per cubic centimeter',
                ucum: 'g/cm3',
                factor: '1000',
            },
            { symbol: 'g/L', also: ['g/l'], name: 'gram per liter', ucum: 'g/L', factor: '1' },
            { symbol: 'mg/L', also: ['mg/l'], name: 'milligram per liter', ucum: 'mg/L', factor: '0.001' },
            { symbol: 'mg/m³', also: ['mg/m3'], name: 'milligram per cubic meter', ucum: 'mg/m3', factor: '0.000001' },
        ],
    },
    {
        dimension: dimensions.kinematicViscosity,
        source: siBrochure,
        rows: [
            {
                symbol: 'mm²/s',
                also: ['mm2/s', 'cSt'],
                name: 'square millimeter per second',
                ucum: 'mm2/s',
                factor: '0.000001',
            },
        ],
    },
    {
        dimension: dimensions.dynamicViscosity,
        source: siBrochure,
        rows: [
            {
                symbol: 'mPa·s',
                also: ['mPa.s', 'mPas', 'cP'],
                name: 'millipascal second',
                ucum: 'mPa.s',
                factor: '0.001',
            },
            { symbol: 'Pa·s', also: ['Pa.s', 'Pas'], name: 'pascal second', ucum: 'Pa.s', factor: '1' },
        ],
    },
    {
        dimension: dimensions.acidity,
        source: 'ISO 80000-9, from memory',
        rows: [{ symbol: 'pH', also: ['PH'], name: 'pH', ucum: '[pH]', factor: '1' }],
    },
    {
        dimension: dimensions.explosiveLimit,
        source: 'EN 60079-29-1, from memory',
        rows: [
            {
                symbol: '% LEL',
                also: ['%LEL', '% lel'],
                name: 'percent of the lower explosive limit',
                ucum: '%{LEL}',
                factor: '0.01',
                note: 'A share of the lower explosive limit of the gas that the detector is set for; the content by volume is another number.',
            },
        ],
    },
    {
        dimension: dimensions.ratio,
        source: 'ICUMSA, from memory: the percentage by mass of sucrose',
        rows: [
            {
                symbol: '°Bx',
                also: ['°Brix', 'Brix'],
                name: 'degree Brix',
                ucum: '%{sucrose}',
                factor: '0.01',
                usedFor: ['concentration'],
                note: 'Percent by mass of sugar, or of anything else that bends light as much sugar would: a coolant has a chart of its own.',
            },
        ],
    },
    {
        dimension: dimensions.turbidity,
        source: 'ISO 7027-1, from memory',
        rows: [
            { symbol: 'NTU', name: 'nephelometric turbidity unit', ucum: '{NTU}', factor: '1', note: turbidityNote },
            {
                symbol: 'FNU',
                also: ['FTU'],
                name: 'formazin nephelometric unit',
                ucum: '{FNU}',
                factor: '1',
                note: turbidityNote,
            },
        ],
    },
    {
        dimension: dimensions.hardness,
        source: 'DIN 38409-6, from memory; counted as calcium carbonate',
        rows: [
            {
                symbol: '°dH',
                name: 'German degree of hardness',
                ucum: '17848.mg/m3{CaCO3}',
                rounded: true,
                factor: '17.848',
                note: 'Counted as 10 mg of calcium oxide in a liter, which is 17.848 mg/L as calcium carbonate.',
            },
            {
                symbol: '°fH',
                name: 'French degree of hardness',
                ucum: '10.g/m3{CaCO3}',
                factor: '10',
                note: 'Counted as 10 mg of calcium carbonate in a liter.',
            },
            {
                symbol: 'gr/gal',
                also: ['gpg', 'grains/gal'],
                name: 'grain per gallon',
                ucum: '[gr]/[gal_us]{CaCO3}',
                factor: '0.06479891/0.003785411784',
                note: 'Grains of calcium carbonate in a United States gallon.',
                source: nistB9,
            },
        ],
    },
];
