// Units of pressure and vacuum.

import { dimensions } from './dimensions.js';
import { nistB8, siBrochure, type UnitGroup } from './unit-row.js';

const waterNote =
    'The conventional column of water (249.0889 Pa per inch, density 1000 kg/m³); not water at 39.2 °F (249.082 Pa) or at 60 °F (248.84 Pa).';
const mercuryNote =
    'The conventional column of mercury (3386.389 Pa per inch); not mercury at 32 °F (3386.38 Pa) or at 60 °F (3376.85 Pa).';

export const pressureUnits: readonly UnitGroup[] = [
    {
        dimension: dimensions.pressure,
        source: nistB8,
        rows: [
            { symbol: 'Pa', name: 'pascal', ucum: 'Pa', factor: '1', prefixes: 'G M k h m', source: siBrochure },
            { symbol: 'bar', name: 'bar', ucum: 'bar', factor: '100000', prefixes: 'm µ', source: siBrochure },
            {
                symbol: 'psi',
                also: ['PSI', 'lbf/in²', 'lbf/in2', 'lb/in²', 'lb/in2'],
                name: 'pound per square inch',
                ucum: '[psi]',
                factor: '4.4482216152605/0.00064516',
            },
            {
                symbol: 'inHg',
                also: ['in. Hg', 'in Hg'],
                name: 'inch of mercury',
                ucum: "[in_i'Hg]",
                factor: '3386.388640341',
                note: mercuryNote,
            },
            {
                symbol: 'mmHg',
                also: ['mm Hg'],
                name: 'millimeter of mercury',
                ucum: 'mm[Hg]',
                factor: '133.322387415',
                note: mercuryNote,
            },
            {
                symbol: 'micron',
                also: ['microns', 'µmHg', 'µm Hg', 'umHg'],
                name: 'micron of mercury',
                ucum: 'um[Hg]',
                factor: '0.133322387415',
                usedFor: ['vacuum', 'pressure'],
                note: 'The micrometer of mercury of a vacuum gauge (0.1333 Pa); a length is written in `µm`.',
            },
            { symbol: 'Torr', also: ['torr'], name: 'torr', ucum: '101325.Pa/760', factor: '101325/760' },
            { symbol: 'mTorr', also: ['mtorr'], name: 'millitorr', ucum: '101325.mPa/760', factor: '101.325/760' },
            {
                symbol: 'inH2O',
                also: [
                    'inH₂O',
                    'in. H2O',
                    'in H2O',
                    'in. H₂O',
                    'in H₂O',
                    'inWC',
                    'in. w.c.',
                    'in w.c.',
                    'in. wc',
                    'in wc',
                    'in. W.C.',
                    'in W.C.',
                    'in. WC',
                    'in WC',
                    'in.w.c.',
                    'inwc',
                    'inWG',
                    'in. w.g.',
                    'in w.g.',
                    'in. WG',
                    'in WG',
                    'in wg',
                    'iwc',
                ],
                name: 'inch of water',
                ucum: "[in_i'H2O]",
                factor: '249.08891',
                note: waterNote,
            },
            {
                symbol: 'ftH2O',
                also: ['ftH₂O', 'ft. H2O', 'ft H2O', 'ft. w.c.', 'ft w.c.', 'ft wc', 'ft WC'],
                name: 'foot of water',
                ucum: "12.[in_i'H2O]",
                factor: '2989.06692',
                note: waterNote,
            },
            {
                symbol: 'mmH2O',
                also: ['mmH₂O', 'mm H2O', 'mm H₂O', 'mmWC', 'mmWG', 'mm w.c.', 'mm WC'],
                name: 'millimeter of water',
                ucum: 'mm[H2O]',
                factor: '9.80665',
                note: waterNote,
            },
            {
                symbol: 'cmH2O',
                also: ['cmH₂O', 'cm H2O', 'cm w.c.'],
                name: 'centimeter of water',
                ucum: 'cm[H2O]',
                factor: '98.0665',
                note: waterNote,
            },
            {
                symbol: 'mH2O',
                also: ['mH₂O', 'm H2O', 'mWC', 'm w.c.'],
                name: 'meter of water',
                ucum: 'm[H2O]',
                factor: '9806.65',
                note: waterNote,
            },
            {
                symbol: 'atm',
                name: 'standard atmosphere',
                ucum: 'atm',
                factor: '101325',
                note: 'The standard atmosphere (101 325 Pa); not the technical one (`kgf/cm²`, 98 066.5 Pa).',
            },
            {
                symbol: 'kgf/cm²',
                also: ['kgf/cm2', 'kg/cm²', 'kg/cm2'],
                name: 'kilogram-force per square centimeter',
                ucum: 'kgf/cm2',
                factor: '98066.5',
            },
        ],
    },
];
