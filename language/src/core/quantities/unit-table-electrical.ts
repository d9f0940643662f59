// Units of electricity, signals, light and sound.

import { dimensions } from './dimensions.js';
import { iec80000, nistB8, siBrochure, type UnitGroup } from './unit-row.js';

const btuNote =
    'The International Table Btu (1055.056 J); not the thermochemical one (1054.350 J) or that at 60 °F (1054.68 J).';

export const electricalUnits: readonly UnitGroup[] = [
    {
        dimension: dimensions.voltage,
        source: siBrochure,
        rows: [{ symbol: 'V', name: 'volt', ucum: 'V', factor: '1', prefixes: 'k m µ' }],
    },
    {
        dimension: dimensions.current,
        source: siBrochure,
        rows: [{ symbol: 'A', name: 'ampere', ucum: 'A', factor: '1', prefixes: 'k m µ n' }],
    },
    {
        dimension: dimensions.resistance,
        source: siBrochure,
        rows: [
            {
                symbol: 'Ω',
                also: ['\u2126', 'ohm', 'ohms', 'Ohm', 'Ohms'],
                name: 'ohm',
                ucum: 'Ohm',
                factor: '1',
                prefixes: 'T G M k m µ',
            },
        ],
    },
    {
        dimension: dimensions.conductance,
        source: siBrochure,
        rows: [{ symbol: 'S', name: 'siemens', ucum: 'S', factor: '1', prefixes: 'm µ' }],
    },
    {
        dimension: dimensions.conductivity,
        source: siBrochure,
        rows: [
            { symbol: 'S/m', name: 'siemens per meter', ucum: 'S/m', factor: '1', prefixes: 'm µ' },
            { symbol: 'S/cm', name: 'siemens per centimeter', ucum: 'S/cm', factor: '100', prefixes: 'm µ' },
        ],
    },
    {
        dimension: dimensions.capacitance,
        source: siBrochure,
        rows: [{ symbol: 'F', name: 'farad', ucum: 'F', factor: '1', prefixes: 'm µ n p' }],
    },
    {
        dimension: dimensions.inductance,
        source: siBrochure,
        rows: [{ symbol: 'H', name: 'henry', ucum: 'H', factor: '1', prefixes: 'm µ n' }],
    },
    {
        dimension: dimensions.charge,
        source: siBrochure,
        rows: [
            { symbol: 'C', name: 'coulomb', ucum: 'C', factor: '1', prefixes: 'm µ n p' },
            { symbol: 'Ah', also: ['A·h', 'A.h'], name: 'ampere hour', ucum: 'A.h', factor: '3600', prefixes: 'm' },
        ],
    },
    {
        dimension: dimensions.fluxDensity,
        source: siBrochure,
        rows: [{ symbol: 'T', name: 'tesla', ucum: 'T', factor: '1', prefixes: 'm µ' }],
    },
    {
        dimension: dimensions.power,
        source: siBrochure,
        rows: [
            { symbol: 'W', name: 'watt', ucum: 'W', factor: '1', prefixes: 'M k m µ' },
            { symbol: 'VA', also: ['V·A', 'V.A'], name: 'volt ampere', ucum: 'V.A', factor: '1', prefixes: 'M k' },
            {
                symbol: 'var',
                also: ['VAr', 'VAR'],
                name: 'var',
                ucum: 'V.A{reactive}',
                factor: '1',
                prefixes: 'M k',
                note: 'Reactive power; UCUM has no code of its own for it, so the code is that of the volt ampere with a remark.',
                source: iec80000,
            },
            {
                symbol: 'hp',
                also: ['HP', 'bhp'],
                name: 'horsepower',
                ucum: '[HP]',
                factor: '745.69987158227022',
                note: 'The mechanical horsepower of 550 ft·lbf/s (745.7 W); not the metric one (`PS`, 735.5 W), the electric one (746 W) or the boiler horsepower (9809.5 W).',
                source: nistB8,
            },
            {
                symbol: 'PS',
                also: ['hp(M)'],
                name: 'metric horsepower',
                ucum: '75.kgf.m/s',
                factor: '735.49875',
                note: 'The metric horsepower of 75 kgf·m/s; the mechanical one is `hp`.',
                source: nistB8,
            },
            {
                symbol: 'Btu/h',
                also: ['BTU/h', 'Btuh', 'BTUH', 'BTU/hr', 'Btu/hr'],
                name: 'British thermal unit per hour',
                ucum: '[Btu_IT]/h',
                factor: '1055.05585262/3600',
                note: btuNote,
                source: nistB8,
            },
            {
                symbol: 'kBtu/h',
                also: ['kBTU/h', 'kBtuh', 'kBTUH', 'kBTU/hr', 'kBtu/hr', 'MBH'],
                name: 'thousand British thermal units per hour',
                ucum: '1000.[Btu_IT]/h',
                factor: '1055055.85262/3600',
                note: btuNote,
                source: nistB8,
            },
            {
                symbol: 'TR',
                also: ['RT'],
                name: 'ton of refrigeration',
                ucum: '12000.[Btu_IT]/h',
                factor: '12660670.23144/3600',
                note: 'The United States ton of refrigeration of 12 000 Btu/h (3516.853 W).',
                source: nistB8,
            },
        ],
    },
    {
        dimension: dimensions.energy,
        source: siBrochure,
        rows: [
            { symbol: 'J', name: 'joule', ucum: 'J', factor: '1', prefixes: 'M k m', usedFor: ['energy'] },
            {
                symbol: 'Wh',
                also: ['W·h', 'W.h'],
                name: 'watt hour',
                ucum: 'W.h',
                factor: '3600',
                prefixes: 'M k',
                usedFor: ['energy'],
            },
            {
                symbol: 'Btu',
                also: ['BTU'],
                name: 'British thermal unit',
                ucum: '[Btu_IT]',
                factor: '1055.05585262',
                usedFor: ['energy'],
                note: btuNote,
                source: nistB8,
            },
        ],
    },
    {
        dimension: dimensions.level,
        source: iec80000,
        rows: [
            {
                symbol: 'dB',
                name: 'decibel',
                ucum: 'dB',
                factor: '1',
                note: 'A ratio on a logarithmic scale: 10 lg of a ratio of powers, 20 lg of a ratio of voltages or pressures.',
            },
        ],
    },
    {
        dimension: dimensions.powerLevel,
        source: iec80000,
        rows: [
            {
                symbol: 'dBm',
                name: 'decibel above one milliwatt',
                ucum: 'dB{1mW}',
                factor: '1',
                note: 'A power, counted in decibels from one milliwatt; a difference of two such powers is in `dB`.',
            },
        ],
    },
    {
        dimension: dimensions.soundLevel,
        source: 'IEC 61672-1, from memory',
        rows: [
            {
                symbol: 'dB(A)',
                also: ['dBA', 'dBa', 'dB(a)'],
                name: 'A-weighted decibel',
                ucum: 'dB{A}',
                factor: '1',
                note: 'A sound pressure level with frequency weighting A, counted from 20 µPa.',
            },
        ],
    },
    {
        dimension: dimensions.illuminance,
        source: siBrochure,
        rows: [{ symbol: 'lx', also: ['lux', 'Lux'], name: 'lux', ucum: 'lx', factor: '1', prefixes: 'k' }],
    },
    {
        dimension: dimensions.luminousFlux,
        source: siBrochure,
        rows: [{ symbol: 'lm', name: 'lumen', ucum: 'lm', factor: '1' }],
    },
    {
        dimension: dimensions.irradiance,
        source: siBrochure,
        rows: [{ symbol: 'W/m²', also: ['W/m2'], name: 'watt per square meter', ucum: 'W/m2', factor: '1' }],
    },
    {
        dimension: dimensions.dataRate,
        source: iec80000,
        rows: [
            {
                symbol: 'bit/s',
                also: ['bps'],
                name: 'bit per second',
                ucum: 'bit/s',
                factor: '1',
                prefixes: 'G M k',
            },
            {
                symbol: 'Bd',
                also: ['baud'],
                name: 'baud',
                ucum: 'Bd',
                factor: '1',
                note: 'Symbols per second, taken as bits per second, as on a serial line with two states.',
            },
        ],
    },
];
