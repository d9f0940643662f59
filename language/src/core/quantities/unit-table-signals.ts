// Units of signals, data, light and sound.

import { dimensions } from './dimensions.js';
import { iec80000, nistB8, siBrochure, type UnitGroup } from './unit-row.js';

export const signalUnits: readonly UnitGroup[] = [
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
            {
                symbol: 'dBW',
                name: 'decibel above one watt',
                ucum: 'dB[W]',
                factor: '1',
                offset: '30',
                note: 'A power, counted in decibels from one watt: 0 dBW is 30 dBm.',
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
        rows: [
            { symbol: 'lx', also: ['lux', 'Lux'], name: 'lux', ucum: 'lx', factor: '1', prefixes: 'k' },
            {
                symbol: 'fc',
                also: ['ftc', 'lm/ft²', 'lm/ft2'],
                name: 'foot-candle',
                ucum: 'lm/[sft_i]',
                factor: '1/0.09290304',
                source: nistB8,
            },
        ],
    },
    {
        dimension: dimensions.luminousFlux,
        source: siBrochure,
        rows: [{ symbol: 'lm', name: 'lumen', ucum: 'lm', factor: '1' }],
    },
    {
        dimension: dimensions.irradiance,
        source: siBrochure,
        rows: [
            {
                symbol: 'W/m²',
                also: ['W/m2'],
                name: 'watt per square meter',
                ucum: 'W/m2',
                factor: '1',
                prefixes: 'k m',
            },
            {
                symbol: 'W/cm²',
                also: ['W/cm2'],
                name: 'watt per square centimeter',
                ucum: 'W/cm2',
                factor: '10000',
                prefixes: 'm µ',
            },
        ],
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
            {
                symbol: 'B/s',
                name: 'byte per second',
                ucum: 'By/s',
                factor: '8',
                prefixes: 'G M k',
                note: 'Bytes of eight bits; `b` and `bit` are bits.',
            },
        ],
    },
    {
        dimension: dimensions.voltageLevel,
        source: iec80000,
        rows: [
            {
                symbol: 'dBµV',
                name: 'decibel above one microvolt',
                ucum: 'dB[uV]',
                factor: '1',
                note: 'A voltage, counted in decibels from one microvolt; the same as a power in `dBm` only at a known impedance.',
            },
            {
                symbol: 'dBmV',
                name: 'decibel above one millivolt',
                ucum: 'dB[mV]',
                factor: '1',
                offset: '60',
                note: 'A voltage, counted in decibels from one millivolt: 0 dBmV is 60 dBµV.',
            },
            {
                symbol: 'dBV',
                name: 'decibel above one volt',
                ucum: 'dB[V]',
                factor: '1',
                offset: '120',
                note: 'A voltage, counted in decibels from one volt: 0 dBV is 120 dBµV.',
            },
        ],
    },
    {
        dimension: dimensions.soundLevelC,
        source: 'IEC 61672-1, from memory',
        rows: [
            {
                symbol: 'dB(C)',
                also: ['dBC', 'dB(c)'],
                name: 'C-weighted decibel',
                ucum: 'dB{C}',
                factor: '1',
                note: 'A sound pressure level with frequency weighting C; one with weighting A is another number, and the two are never compared.',
            },
        ],
    },
    {
        dimension: dimensions.luminousIntensity,
        source: siBrochure,
        rows: [{ symbol: 'cd', also: ['candela'], name: 'candela', ucum: 'cd', factor: '1', prefixes: 'k m' }],
    },
    {
        dimension: dimensions.luminance,
        source: siBrochure,
        rows: [
            {
                symbol: 'cd/m²',
                also: ['cd/m2', 'nit', 'nits'],
                name: 'candela per square meter',
                ucum: 'cd/m2',
                factor: '1',
            },
        ],
    },
];
