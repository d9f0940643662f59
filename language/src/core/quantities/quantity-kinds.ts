// The quantities that a test can measure, with the units that fit and the words that say how each is measured.

import { type Dimension, dimensions, sameDimensions } from './dimensions.js';
import type { Unit } from './unit.js';

/** Words of which at most one can stand beside a quantity. */
export interface ModifierGroup {
    readonly words: readonly string[];
    /** True when leaving all of them out makes the reading unclear, as a pressure without `gauge` or `absolute` is. */
    readonly expected: boolean;
}

/** One named quantity. */
export interface QuantityKind {
    readonly name: QuantityName;
    /** The dimensions that its readings can have; a level can be a length or a ratio. */
    readonly dimensions: readonly Dimension[];
    readonly modifiers: readonly ModifierGroup[];
    /** A unit to suggest where none fits. */
    readonly usualUnit: string;
    /** True when a plain number without a unit is a reading of it. */
    readonly plainNumber: boolean;
    /** Whether a value below zero, in the coherent SI unit, can be: a temperature below 0 K cannot. */
    readonly belowZero: BelowZero;
}

/** Whether values below zero exist: always, never, only with one of these modifiers, or always but with one of these. */
export type BelowZero =
    'always' | 'never' | { readonly onlyWith: readonly string[] } | { readonly exceptWith: readonly string[] };

/** What is wrong with the modifiers that stand beside a quantity. */
export type ModifierProblem =
    | { readonly kind: 'unknown'; readonly word: string; readonly allowed: readonly string[] }
    | { readonly kind: 'clash'; readonly words: readonly string[] }
    | { readonly kind: 'missing'; readonly oneOf: readonly string[] };

interface KindRow {
    readonly dimensions: readonly Dimension[];
    readonly usualUnit: string;
    readonly modifiers?: readonly ModifierGroup[];
    readonly plainNumber?: true;
    readonly belowZero?: BelowZero;
}

const difference: ModifierGroup = { words: ['difference'], expected: false };
const currentForm: ModifierGroup = { words: ['DC', 'AC'], expected: true };
const currentMeasure: ModifierGroup = { words: ['rms', 'peak'], expected: false };
const pressureReference: ModifierGroup = { words: ['gauge', 'absolute', 'difference'], expected: true };
const vacuumReference: ModifierGroup = { words: ['gauge', 'absolute'], expected: true };
const d = dimensions;

const rows = {
    voltage: {
        dimensions: [d.voltage],
        usualUnit: 'V',
        modifiers: [currentForm, currentMeasure, difference],
        belowZero: { exceptWith: ['AC'] },
    },
    current: {
        dimensions: [d.current],
        usualUnit: 'A',
        modifiers: [currentForm, currentMeasure, difference],
        belowZero: { exceptWith: ['AC'] },
    },
    resistance: {
        dimensions: [d.resistance],
        usualUnit: 'Ω',
        modifiers: [difference],
        belowZero: { onlyWith: ['difference'] },
    },
    resistivity: { dimensions: [d.resistivity], usualUnit: 'MΩ·cm' },
    conductance: { dimensions: [d.conductance], usualUnit: 'S' },
    conductivity: { dimensions: [d.conductivity], usualUnit: 'µS/cm' },
    capacitance: { dimensions: [d.capacitance], usualUnit: 'µF' },
    inductance: { dimensions: [d.inductance], usualUnit: 'mH' },
    charge: { dimensions: [d.charge], usualUnit: 'Ah', belowZero: 'always' },
    magnetism: { dimensions: [d.fluxDensity], usualUnit: 'mT', belowZero: 'always' },
    frequency: {
        dimensions: [d.frequency],
        usualUnit: 'Hz',
        modifiers: [difference],
        belowZero: { onlyWith: ['difference'] },
    },
    power: { dimensions: [d.power], usualUnit: 'W', belowZero: 'always' },
    energy: { dimensions: [d.energy], usualUnit: 'kWh', belowZero: 'always' },
    pressure: {
        dimensions: [d.pressure],
        usualUnit: 'kPa',
        modifiers: [pressureReference],
        belowZero: { exceptWith: ['absolute'] },
    },
    vacuum: {
        dimensions: [d.pressure],
        usualUnit: 'mbar',
        modifiers: [vacuumReference],
        belowZero: { exceptWith: ['absolute'] },
    },
    flow: {
        dimensions: [d.volumeFlow, d.massFlow, d.normalFlow, d.standardFlow],
        usualUnit: 'L/min',
        belowZero: 'always',
    },
    'leak-rate': { dimensions: [d.power, d.massFlow], usualUnit: 'mbar·L/s' },
    temperature: {
        dimensions: [d.temperature],
        usualUnit: '°C',
        modifiers: [difference],
        belowZero: { onlyWith: ['difference'] },
    },
    'temperature-rate': { dimensions: [d.temperatureRate], usualUnit: 'K/min', belowZero: 'always' },
    'temperature-coefficient': { dimensions: [d.perTemperature], usualUnit: 'ppm/K', belowZero: 'always' },
    humidity: { dimensions: [d.ratio], usualUnit: '% RH', plainNumber: true },
    length: {
        dimensions: [d.length],
        usualUnit: 'mm',
        modifiers: [difference],
        belowZero: { onlyWith: ['difference'] },
    },
    distance: {
        dimensions: [d.length],
        usualUnit: 'mm',
        modifiers: [difference],
        belowZero: { onlyWith: ['difference'] },
    },
    gap: { dimensions: [d.length], usualUnit: 'mm' },
    area: { dimensions: [d.area], usualUnit: 'mm²' },
    volume: { dimensions: [d.volume], usualUnit: 'L' },
    level: { dimensions: [d.length, d.ratio, d.volume], usualUnit: 'mm', plainNumber: true, belowZero: 'always' },
    mass: { dimensions: [d.mass], usualUnit: 'kg' },
    density: { dimensions: [d.density], usualUnit: 'kg/m³' },
    concentration: { dimensions: [d.ratio, d.density, d.explosiveLimit], usualUnit: 'ppm', plainNumber: true },
    turbidity: { dimensions: [d.turbidity], usualUnit: 'NTU' },
    'water-hardness': { dimensions: [d.hardness], usualUnit: '°dH' },
    viscosity: { dimensions: [d.kinematicViscosity, d.dynamicViscosity], usualUnit: 'mm²/s' },
    acidity: { dimensions: [d.acidity], usualUnit: 'pH', plainNumber: true, belowZero: 'always' },
    speed: {
        dimensions: [d.frequency, d.velocity, d.angularVelocity],
        usualUnit: 'rpm',
        modifiers: [difference],
        belowZero: 'always',
    },
    vibration: { dimensions: [d.velocity, d.acceleration, d.length], usualUnit: 'mm/s' },
    time: { dimensions: [d.time], usualUnit: 's', modifiers: [difference], belowZero: { onlyWith: ['difference'] } },
    force: { dimensions: [d.force], usualUnit: 'N', belowZero: 'always' },
    torque: { dimensions: [d.energy], usualUnit: 'N·m', belowZero: 'always' },
    stiffness: { dimensions: [d.stiffness], usualUnit: 'N/mm' },
    angle: { dimensions: [d.angle], usualUnit: '°', belowZero: 'always' },
    slope: { dimensions: [d.ratio, d.angle], usualUnit: 'mm/m', belowZero: 'always' },
    light: {
        dimensions: [d.illuminance, d.luminousFlux, d.irradiance, d.luminousIntensity, d.luminance],
        usualUnit: 'lx',
    },
    sound: { dimensions: [d.soundLevel, d.soundLevelC, d.level], usualUnit: 'dB(A)', belowZero: 'always' },
    signal: { dimensions: [d.powerLevel, d.voltageLevel, d.level], usualUnit: 'dBm', belowZero: 'always' },
    'voltage-per-frequency': { dimensions: [d.magneticFlux], usualUnit: 'V/Hz' },
    sensitivity: {
        dimensions: [d.perCurrent, d.voltagePerTemperature, d.ratio, d.resistance],
        usualUnit: 'mV/V',
        belowZero: 'always',
    },
    'data-rate': { dimensions: [d.dataRate], usualUnit: 'kbit/s' },
    count: { dimensions: [d.count], usualUnit: 'counts', plainNumber: true },
    ratio: { dimensions: [d.ratio, d.level], usualUnit: '%', plainNumber: true, belowZero: 'always' },
} as const satisfies Record<string, KindRow>;

/** The name of a quantity that a test can measure. */
export type QuantityName = keyof typeof rows;

/** Every quantity that a test can measure, by name. */
export const quantityKinds: ReadonlyMap<string, QuantityKind> = new Map(
    (Object.entries(rows) as [QuantityName, KindRow][]).map(([name, row]) => [name, makeKind(name, row)]),
);

/** True when a reading of this quantity can be in this unit; undefined stands for a plain number without a unit. */
export function unitFits(kind: QuantityKind, unit: Unit | undefined): boolean {
    if (unit === undefined) {
        return kind.plainNumber;
    }
    const dimensionFits = kind.dimensions.some(dimension => sameDimensions(dimension, unit.dimension));
    return dimensionFits && (unit.usedFor === undefined || unit.usedFor.includes(kind.name));
}

/** What is wrong with the modifiers beside a quantity: a word it does not take, two that exclude each other, one that is missing. */
export function modifierProblems(kind: QuantityKind, words: readonly string[]): readonly ModifierProblem[] {
    const allowed = kind.modifiers.flatMap(group => group.words);
    const unknown = words
        .filter(word => !allowed.includes(word))
        .map((word): ModifierProblem => ({ kind: 'unknown', word, allowed }));
    const grouped = kind.modifiers.flatMap((group): ModifierProblem[] => {
        const said = [...new Set(words)].filter(word => group.words.includes(word));
        if (said.length > 1) {
            return [{ kind: 'clash', words: said }];
        }
        return said.length === 0 && group.expected ? [{ kind: 'missing', oneOf: group.words }] : [];
    });
    return [...unknown, ...grouped];
}

/** True when this quantity, measured in this way, can be below zero in the coherent SI unit. */
export function canBeBelowZero(kind: QuantityKind, modifiers: readonly string[]): boolean {
    if (typeof kind.belowZero === 'string') {
        return kind.belowZero === 'always';
    }
    if ('onlyWith' in kind.belowZero) {
        const { onlyWith } = kind.belowZero;
        return modifiers.some(word => onlyWith.includes(word));
    }
    // A difference of two values that are never below zero can still be.
    const { exceptWith } = kind.belowZero;
    return modifiers.includes('difference') || !modifiers.some(word => exceptWith.includes(word));
}

function makeKind(name: QuantityName, row: KindRow): QuantityKind {
    return {
        name,
        dimensions: row.dimensions,
        modifiers: row.modifiers ?? [],
        usualUnit: row.usualUnit,
        plainNumber: row.plainNumber ?? false,
        belowZero: row.belowZero ?? 'never',
    };
}
