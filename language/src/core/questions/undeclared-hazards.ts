// Readings that can hurt, measured where nothing is said to.

import type Fraction from 'fraction.js';

import { bothOf, guardOf, noneOf, type Resolving } from '../meaning/resolving.js';
import type { InBuilds, Unit } from '../meaning/unit.js';
import type { Equipment } from '../model/equipment.js';
import type { Model } from '../model/model.js';
import type { Band, Measure, Outcome } from '../model/tests.js';
import type { Amount } from '../model/written.js';
import { bandInterval, type QuantityBand } from '../quantities/bands.js';
import type { End } from '../quantities/intervals.js';
import { parseQuantity } from '../quantities/quantity.js';
import type { LimitName, SafetyLimits } from '../safety/limit-sets.js';
import { gaugePressure, limitValue, voltageLimit } from '../safety/limits.js';
import { isOfEnergy, type MeasuredEnergy } from './energies.js';
import { type MeasuredTest, measuredTests } from './measured-places.js';
import { someBuild, unitOf } from './units.js';

/** A test whose reading can hurt, where no hazard of that energy is exposed. */
export interface UndeclaredHazard {
    readonly measured: MeasuredTest;
    readonly outcome: Outcome;
    readonly band: Band;
    readonly energy: MeasuredEnergy;
    readonly limit: LimitName;
    /** The zones in which it is done; empty where it is done in none. */
    readonly zones: readonly string[];
    readonly build: readonly string[];
}

/** The readings of an equipment that can hurt where nothing is said to; one for each test, and one for each part with tests of its kind. */
export function undeclaredHazards(equipment: Equipment, model: Model, limits: SafetyLimits): UndeclaredHazard[] {
    const { unit, names } = unitOf(equipment, model);
    const told = new Set<unknown>();
    return measuredTests(unit, names).flatMap(measured => {
        const reading = readingOf(measured.measure, limits);
        if (!reading) return [];
        const key = measured.part ? `${measured.part.start} ${reading.energy}` : measured.test;
        const found = told.has(key) ? undefined : undeclaredIn(measured, reading, unit, names);
        if (found) told.add(key);
        return found ? [found] : [];
    });
}

/** What a test reads, and above what it can hurt. */
interface Reading {
    readonly energy: MeasuredEnergy;
    readonly limit: LimitName;
    readonly above: Fraction;
    readonly modes: readonly string[];
}

function readingOf({ quantity, modes: words }: Measure, limits: SafetyLimits): Reading | undefined {
    const modes = words.map(({ text }) => text);
    const reading = (energy: MeasuredEnergy, limit: LimitName): Reading => ({
        energy,
        limit,
        above: limitValue(limits, limit),
        modes,
    });
    switch (quantity.text) {
        case 'voltage':
            return reading('electrical', voltageLimit(limits, modes));
        case 'temperature':
            // A difference of two temperatures burns nobody.
            return modes.includes('difference') ? undefined : reading('thermal', 'accidentalTouch');
        case 'pressure':
            return reading('pressure', 'gaugePressure');
        default:
            return undefined;
    }
}

function undeclaredIn(
    measured: MeasuredTest,
    reading: Reading,
    unit: Unit,
    names: Resolving,
): UndeclaredHazard | undefined {
    const { test, zones, guard } = measured;
    const covered = noneOf(coveringGuards(measured, reading.energy, unit));
    // What a healthy unit shows is looked at first: it is the reading that comes most often.
    const outcomes = [...test.declaration.outcomes].sort(
        (one, other) => Number(other.name.text === 'normal') - Number(one.name.text === 'normal'),
    );
    for (const outcome of outcomes) {
        const band = outcome.bands.find(one => canHurt(one, outcome, reading));
        if (!band) continue;
        const build = someBuild(unit.equipment, names.model, [guard, guardOf(outcome.guard, names), covered]);
        if (!build) continue;
        const inZones = zones.map(({ zone }) => zone.declaration.name.text);
        return { measured, outcome, band, energy: reading.energy, limit: reading.limit, zones: inZones, build };
    }
    return undefined;
}

/**
 * Builds in which it is said what can hurt. In a zone, the zone must say it.
 * In no zone nobody comes near what is measured: a gauge that stands outside shows the pressure of a line that is a hazard
 * elsewhere. Voltages are measured with probes at the very place, so that this does not hold for them.
 */
function coveringGuards({ zones }: MeasuredTest, energy: MeasuredEnergy, unit: Unit): InBuilds[] {
    const inZones = zones.flatMap(({ guard, exposed }) =>
        exposed.filter(({ hazard }) => isOfEnergy(hazard.declaration, energy)).map(one => bothOf(guard, one.guard)),
    );
    if (energy === 'electrical') return inZones;
    const inNone = noneOf(zones.map(({ guard }) => guard));
    const elsewhere = unit.hazards
        .filter(({ declaration }) => isOfEnergy(declaration, energy))
        .map(({ guard }) => (zones.length > 0 ? bothOf(inNone, guard) : guard));
    return [...inZones, ...elsewhere];
}

/**
 * Whether a band tells of a reading that can hurt: it begins above the limit, or goes beyond it and is bounded.
 * Where a healthy unit may read anything up to a value above the limit, that value counts; where a faulty one may,
 * as in `absent < 40 V`, it need not ever be reached.
 */
function canHurt(band: Band, outcome: Outcome, { above, modes, energy }: Reading): boolean {
    const quantities = quantitiesOf(band);
    const result = quantities && bandInterval(quantities, modes.includes('difference'));
    if (!result || result.problem) return false;
    const size = (value: Fraction) => (energy === 'pressure' ? gaugePressure(value, modes) : value);
    const isOver = (end: End | undefined) => end !== undefined && size(end.value).compare(above) > 0;
    // A direct voltage may be measured the other way round.
    const isUnder = (end: End | undefined) => energy === 'electrical' && end !== undefined && isOver(opposite(end));
    const { low, high } = result.interval;
    if (isOver(low) || isUnder(high)) return true;
    if (low && high) return isOver(high) || isUnder(low);
    return outcome.name.text === 'normal' && (isOver(high) || isUnder(low));
}

function opposite({ value, closed }: End): End {
    return { value: value.neg(), closed };
}

function quantitiesOf(band: Band): QuantityBand | undefined {
    const read = (amount: Amount) => parseQuantity(amount.written);
    switch (band.sort) {
        case 'limit': {
            const value = read(band.value);
            return value && { sort: 'limit', comparison: band.comparison, value };
        }
        case 'range': {
            const [from, to] = [read(band.from), read(band.to)];
            return from && to && { sort: 'range', from, fromOpen: band.fromOpen, to, toOpen: band.toOpen };
        }
        case 'around': {
            const value = read(band.value);
            return value && { sort: 'around', value, tolerance: band.tolerance && read(band.tolerance) };
        }
        default:
            return undefined;
    }
}
