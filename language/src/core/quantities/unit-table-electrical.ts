// Units of electricity and magnetism.

import { dimensions } from './dimensions.js';
import { nistB8, siBrochure, type UnitGroup } from './unit-row.js';

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
            {
                symbol: 'mV/A',
                name: 'millivolt per ampere',
                ucum: 'mV/A',
                factor: '0.001',
                usedFor: ['sensitivity'],
            },
        ],
    },
    {
        dimension: dimensions.conductance,
        source: siBrochure,
        rows: [{ symbol: 'S', also: ['mho'], name: 'siemens', ucum: 'S', factor: '1', prefixes: 'm µ' }],
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
        rows: [
            { symbol: 'T', name: 'tesla', ucum: 'T', factor: '1', prefixes: 'm µ' },
            { symbol: 'gauss', also: ['Gs'], name: 'gauss', ucum: 'G', factor: '0.0001', source: nistB8 },
        ],
    },
    {
        dimension: dimensions.resistivity,
        source: siBrochure,
        rows: [
            {
                symbol: 'Ω·m',
                also: ['Ω.m', 'Ωm', 'ohm·m', 'ohm.m', 'ohm-m'],
                name: 'ohm meter',
                ucum: 'Ohm.m',
                factor: '1',
            },
            {
                symbol: 'Ω·cm',
                also: ['Ω.cm', 'Ωcm', 'ohm·cm', 'ohm.cm', 'ohm-cm'],
                name: 'ohm centimeter',
                ucum: 'Ohm.cm',
                factor: '0.01',
                prefixes: 'M k',
            },
        ],
    },
    {
        dimension: dimensions.magneticFlux,
        source: siBrochure,
        rows: [
            { symbol: 'V/Hz', name: 'volt per hertz', ucum: 'V/Hz', factor: '1', usedFor: ['voltage-per-frequency'] },
        ],
    },
    {
        dimension: dimensions.perCurrent,
        source: siBrochure,
        rows: [
            {
                symbol: 'Ω/V',
                also: ['ohm/V', 'ohms/V'],
                name: 'ohm per volt',
                ucum: 'Ohm/V',
                factor: '1',
                prefixes: 'M k',
            },
        ],
    },
    {
        dimension: dimensions.voltagePerTemperature,
        source: siBrochure,
        rows: [{ symbol: 'V/K', also: ['V/°C'], name: 'volt per kelvin', ucum: 'V/K', factor: '1', prefixes: 'm µ' }],
    },
    {
        dimension: dimensions.perTemperature,
        source: siBrochure,
        rows: [
            { symbol: '%/K', also: ['%/°C'], name: 'percent per kelvin', ucum: '%/K', factor: '0.01' },
            {
                symbol: 'ppm/K',
                also: ['ppm/°C'],
                name: 'part per million per kelvin',
                ucum: '[ppm]/K',
                factor: '0.000001',
            },
            { symbol: '1/K', also: ['/K', 'K⁻¹'], name: 'one per kelvin', ucum: '/K', factor: '1' },
        ],
    },
];
