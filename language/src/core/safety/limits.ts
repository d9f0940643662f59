// Above which voltage, stored energy, temperature and pressure something can hurt: what the named limits are amounts of.

import type Fraction from 'fraction.js';

import { type Dimension, dimensions } from '../quantities/dimensions.js';
import { coherentValue, parseQuantity } from '../quantities/quantity.js';
import type { LimitName, SafetyLimits } from './limit-sets.js';

/** What each limit is, in words, and what its value must be an amount of. */
export const limitKinds: Readonly<Record<LimitName, { readonly words: string; readonly dimension: Dimension }>> = {
    acVoltage: { words: 'alternating voltage (rms)', dimension: dimensions.voltage },
    peakVoltage: { words: 'peak of a voltage', dimension: dimensions.voltage },
    dcVoltage: { words: 'direct voltage', dimension: dimensions.voltage },
    storedEnergy: { words: 'energy in a capacitor of low voltage', dimension: dimensions.energy },
    longContact: { words: 'temperature of a surface that is held', dimension: dimensions.temperature },
    accidentalTouch: {
        words: 'temperature of a surface that is touched by accident',
        dimension: dimensions.temperature,
    },
    gaugePressure: { words: 'pressure above that of the air', dimension: dimensions.pressure },
};

/** The names of the limits, in the order in which they are told. */
export const limitNames = Object.keys(limitKinds) as LimitName[];

/** The value of a limit in the coherent SI unit. */
export function limitValue(limits: SafetyLimits, name: LimitName): Fraction {
    return valueOf(limits.values[name]);
}

/** The set with some of its values replaced by stricter ones. */
export function withStricter(limits: SafetyLimits, stricter: Partial<Record<LimitName, string>>): SafetyLimits {
    return { ...limits, values: { ...limits.values, ...stricter } };
}

/**
 * The limit for a voltage that is measured or given in this way: `peak`, `DC`, else `AC`, of which rms is meant.
 * Where neither AC nor DC is said, the lower of the two holds.
 */
export function voltageLimit(limits: SafetyLimits, modes: readonly string[]): LimitName {
    if (modes.includes('peak')) return 'peakVoltage';
    if (modes.includes('DC')) return 'dcVoltage';
    if (modes.includes('AC') || modes.includes('rms')) return 'acVoltage';
    return limitValue(limits, 'acVoltage').compare(limitValue(limits, 'dcVoltage')) <= 0 ? 'acVoltage' : 'dcVoltage';
}

/** A pressure as it stands over the air; `absolute` counts from nothing, so one atmosphere is taken off. */
export function gaugePressure(value: Fraction, modes: readonly string[]): Fraction {
    return modes.includes('absolute') ? value.sub(valueOf('1 atm')) : value;
}

// The amounts of the sets are ours, and a test reads every one; a slip in one must stop that test.
function valueOf(written: string): Fraction {
    const quantity = parseQuantity(written);
    const value = quantity?.unit && coherentValue(quantity);
    if (!value) throw new Error(`the limits have the amount ${written}, which cannot be read`);
    return value;
}
