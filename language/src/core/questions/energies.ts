// What kind of energy a hazard is, and whether it is above the limits, build by build.

import type Fraction from 'fraction.js';

import type { Resolving } from '../meaning/resolving.js';
import { guardOf } from '../meaning/resolving.js';
import type { InBuilds, UnitHazard } from '../meaning/unit.js';
import type { Energy, Hazard } from '../model/equipment.js';
import type { Amount } from '../model/written.js';
import { dimensions, sameDimensions } from '../quantities/dimensions.js';
import { coherentValue, parseQuantity } from '../quantities/quantity.js';
import type { LimitName, SafetyLimits } from '../safety/limit-sets.js';
import { gaugePressure, limitValue, voltageLimit } from '../safety/limits.js';
import { storedEnergy } from '../safety/stored-charge.js';

/** The energies that numbers can be compared for. */
export type MeasuredEnergy = 'electrical' | 'thermal' | 'pressure';

/** One level of a hazard. */
export interface HazardLevel {
    readonly guard: InBuilds;
    readonly amount: Amount;
    readonly modes: readonly string[];
    /** In the coherent SI unit. */
    readonly value: Fraction;
    /** What the level is an amount of; undefined for anything but a voltage, a temperature or a pressure. */
    readonly energy: MeasuredEnergy | undefined;
    /** Whether it is above the limit; undefined where no limit can tell. */
    readonly above: boolean | undefined;
}

/** Whether a hazard is of this energy, by the word for it or by what its levels are amounts of. */
export function isOfEnergy(hazard: Hazard, energy: MeasuredEnergy): boolean {
    if (energy === 'electrical' && hazard.stored.length > 0) return true;
    return hazard.energies.some(
        ({ kind, levels }) =>
            wordsFor[energy].includes(kind.text) || levels.some(({ amount }) => energyOfAmount(amount) === energy),
    );
}

/** Whether the word for one of its energies is among these. */
export function hasEnergyWord(hazard: Hazard, words: readonly string[]): boolean {
    return hazard.energies.some(({ kind }) => words.includes(kind.text));
}

const wordsFor: Readonly<Record<MeasuredEnergy, readonly string[]>> = {
    electrical: ['electrical'],
    thermal: ['thermal'],
    // A gas is kept in by what would also hold a pressure.
    pressure: ['pressure', 'gas'],
};

/** The levels of a hazard that can be read, those of all its energies. */
export function levelsOf({ declaration }: UnitHazard, names: Resolving, limits: SafetyLimits): HazardLevel[] {
    return declaration.energies.flatMap(energy => levelsOfEnergy(energy, names, limits));
}

/** The levels of one energy that can be read. */
function levelsOfEnergy({ kind, levels }: Energy, names: Resolving, limits: SafetyLimits): HazardLevel[] {
    return levels.flatMap(({ amount, modes: words, guard }) => {
        const value = valueOf(amount);
        if (!value) return [];
        const modes = words.map(({ text }) => text);
        const energy = energyOfAmount(amount);
        // What a gas does is no matter of its pressure.
        const above = energy === undefined || kind.text === 'gas' ? undefined : isAbove(energy, value, modes, limits);
        return [{ guard: guardOf(guard, names), amount, modes, value, energy, above }];
    });
}

/** The limit that a voltage, temperature or pressure of a hazard is compared with. */
function limitFor(energy: MeasuredEnergy, modes: readonly string[], limits: SafetyLimits): LimitName {
    if (energy === 'electrical') return voltageLimit(limits, modes);
    return energy === 'thermal' ? 'longContact' : 'gaugePressure';
}

/** Cold burns too and an underpressure can hurt, but no limit here tells of either. */
function isAbove(
    energy: MeasuredEnergy,
    value: Fraction,
    modes: readonly string[],
    limits: SafetyLimits,
): boolean | undefined {
    const over = energy === 'pressure' ? gaugePressure(value, modes) : energy === 'electrical' ? value.abs() : value;
    if (energy === 'pressure' && over.compare(0) < 0) return undefined;
    if (energy === 'thermal' && value.compare(freezing) < 0) return undefined;
    return over.compare(limitValue(limits, limitFor(energy, modes, limits))) > 0;
}

/** The freezing point of water in kelvins, as text for an exact comparison. */
const freezing = '273.15';

/** Whether what a hazard stores is above the limit for energy in some of its levels. */
export function storesTooMuch(hazard: UnitHazard, levels: readonly HazardLevel[], limits: SafetyLimits): boolean {
    const limit = Number(limitValue(limits, 'storedEnergy').valueOf());
    return hazard.declaration.stored.some(({ amount }) => {
        const capacitance = numberOf(amount);
        return levels.some(level => {
            if (level.energy !== 'electrical' || capacitance === undefined) return false;
            return storedEnergy({ capacitance, voltage: chargedTo(level) }) > limit;
        });
    });
}

/** The voltage to which a level charges a capacitor: an alternating voltage charges it to its peak. */
export function chargedTo({ value, modes }: HazardLevel): number {
    const voltage = Math.abs(Number(value.valueOf()));
    const isRms = !modes.includes('peak') && (modes.includes('AC') || modes.includes('rms'));
    return isRms ? voltage * Math.SQRT2 : voltage;
}

/** An amount as a number in the coherent SI unit. */
export function numberOf(amount: Amount | undefined): number | undefined {
    const value = amount && valueOf(amount);
    return value && Number(value.valueOf());
}

function valueOf(amount: Amount): Fraction | undefined {
    const quantity = parseQuantity(amount.written);
    return quantity?.unit ? coherentValue(quantity) : undefined;
}

function energyOfAmount(amount: Amount): MeasuredEnergy | undefined {
    const unit = parseQuantity(amount.written)?.unit;
    if (!unit) return undefined;
    if (sameDimensions(unit.dimension, dimensions.voltage)) return 'electrical';
    if (sameDimensions(unit.dimension, dimensions.temperature)) return 'thermal';
    return sameDimensions(unit.dimension, dimensions.pressure) ? 'pressure' : undefined;
}
