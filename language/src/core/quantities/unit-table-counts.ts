// Units of time and angle, ratios, and things that are counted.

import { dimensions } from './dimensions.js';
import { nistB8, plainCount, siBrochure, type UnitGroup } from './unit-row.js';

export const countUnits: readonly UnitGroup[] = [
    {
        dimension: dimensions.time,
        source: siBrochure,
        rows: [
            {
                symbol: 's',
                also: ['sec', 'sec.', 'second', 'seconds'],
                name: 'second',
                ucum: 's',
                factor: '1',
                prefixes: 'm µ n',
            },
            { symbol: 'min', also: ['min.', 'mins', 'minute', 'minutes'], name: 'minute', ucum: 'min', factor: '60' },
            { symbol: 'h', also: ['hr', 'hrs', 'hour', 'hours'], name: 'hour', ucum: 'h', factor: '3600' },
            { symbol: 'd', also: ['day', 'days'], name: 'day', ucum: 'd', factor: '86400' },
            { symbol: 'wk', also: ['week', 'weeks'], name: 'week', ucum: 'wk', factor: '604800' },
            {
                symbol: 'yr',
                also: ['year', 'years'],
                name: 'year',
                ucum: 'a',
                factor: '31557600',
                note: 'A year of 365.25 days.',
                source: 'UCUM, the Julian year, from memory',
            },
        ],
    },
    {
        dimension: dimensions.angle,
        source: nistB8,
        rows: [
            {
                symbol: '°',
                also: ['deg', 'degree', 'degrees', 'º', '˚'],
                name: 'degree',
                ucum: 'deg',
                rounded: true,
                factor: '3.14159265358979323846264338327950288/180',
            },
            { symbol: 'rad', name: 'radian', ucum: 'rad', factor: '1', prefixes: 'm', source: siBrochure },
        ],
    },
    {
        dimension: dimensions.ratio,
        source: siBrochure,
        rows: [
            { symbol: '%', also: ['percent', 'pct'], name: 'percent', ucum: '%', factor: '0.01' },
            { symbol: '‰', name: 'per thousand', ucum: '[ppth]', factor: '0.001' },
            { symbol: 'ppm', also: ['PPM'], name: 'part per million', ucum: '[ppm]', factor: '0.000001' },
            {
                symbol: 'ppb',
                also: ['PPB'],
                name: 'part per billion',
                ucum: '[ppb]',
                factor: '0.000000001',
                note: 'Parts in 1 000 000 000.',
            },
            { symbol: 'ratio', name: 'plain ratio', ucum: '1', factor: '1' },
            {
                symbol: '% vol',
                also: ['%vol', '% Vol', 'vol%', 'vol %', 'vol. %', '% by volume'],
                name: 'percent by volume',
                ucum: '%{vol}',
                factor: '0.01',
                usedFor: ['concentration'],
            },
            {
                symbol: '% RH',
                also: ['%RH', '% rh', '%rh', '% r.h.'],
                name: 'percent relative humidity',
                ucum: '%{RH}',
                factor: '0.01',
                usedFor: ['humidity'],
            },
        ],
    },
    {
        dimension: dimensions.count,
        source: plainCount,
        rows: [
            { symbol: 'cycles', also: ['cycle'], name: 'cycle', ucum: '{cycle}', factor: '1' },
            { symbol: 'starts', also: ['start'], name: 'start', ucum: '{start}', factor: '1' },
            { symbol: 'operations', also: ['operation', 'ops'], name: 'operation', ucum: '{operation}', factor: '1' },
            {
                symbol: 'digits',
                also: ['digit', 'dgt', 'dgts'],
                name: 'digit',
                ucum: '{digit}',
                factor: '1',
                note: 'Steps of the last place that a display shows.',
            },
            {
                symbol: 'counts',
                also: ['count', 'cts'],
                name: 'count',
                ucum: '{count}',
                factor: '1',
                note: 'Things counted, or steps of the last place that a display shows.',
            },
            { symbol: 'pulses', also: ['pulse'], name: 'pulse', ucum: '{pulse}', factor: '1' },
            { symbol: 'blinks', also: ['blink', 'flashes', 'flash'], name: 'blink', ucum: '{blink}', factor: '1' },
            { symbol: 'turns', also: ['turn', 'revolutions', 'revolution'], name: 'turn', ucum: '{turn}', factor: '1' },
            { symbol: 'strokes', also: ['stroke'], name: 'stroke', ucum: '{stroke}', factor: '1' },
            { symbol: 'pieces', also: ['piece', 'pcs'], name: 'piece', ucum: '{piece}', factor: '1' },
        ],
    },
];
