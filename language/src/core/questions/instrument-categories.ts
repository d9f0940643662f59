// Instruments whose measurement category is not enough for where they are used, and gates that ask for too little.

import { bothOf, guardOf, type Resolving } from '../meaning/resolving.js';
import type { InBuilds, Unit, UnitGate } from '../meaning/unit.js';
import type { Equipment, MeasurementCategory, Zone } from '../model/equipment.js';
import type { Gate } from '../model/gates.js';
import type { Model } from '../model/model.js';
import type { Instrument } from '../model/tests.js';
import type { SafetyLimits } from '../safety/limit-sets.js';
import { type Category, categoryRank, serves } from '../safety/measurement-category.js';
import { isOfEnergy, levelsOf, numberOf } from './energies.js';
import { permittedBy } from './gate-elements.js';
import {
    type Exposed,
    exposedIn,
    liveBuilds,
    type MeasuredTest,
    measuredTests,
    type TestZone,
} from './measured-places.js';
import { someBuild, unitOf } from './units.js';

/** A place that asks for more than the instrument has. */
interface Shortfall {
    /** The category of the zone. */
    readonly asked: MeasurementCategory;
    readonly zone: string;
    /** The voltage that is needed, as written; that of the hazard where the zone gives none. */
    readonly voltage: string | undefined;
    readonly volts: number | undefined;
    readonly build: readonly string[];
}

/** An instrument that is not enough for a zone in which it measures. */
export interface WeakInstrument extends Shortfall {
    readonly measured: MeasuredTest;
    readonly instrument: Instrument;
    /** Other instruments that can be used in the same place and are enough. */
    readonly others: readonly Instrument[];
}

/** A gate that asks less of instruments than a zone where it permits measuring. */
export interface WeakPermit extends Shortfall {
    readonly gate: Gate;
    readonly clause: MeasurementCategory;
}

/** The instruments of an equipment's tests that are not enough: one for each test, and one for each part with tests of its kind. */
export function weakInstruments(equipment: Equipment, model: Model, limits: SafetyLimits): WeakInstrument[] {
    if (!equipment.zones.some(({ categories }) => categories.length > 0)) return [];
    const { unit, names } = unitOf(equipment, model);
    const told = new Set<unknown>();
    return measuredTests(unit, names).flatMap(measured => {
        const { measure, part } = measured;
        const instrument = measure.instrument && model.target(measure.instrument);
        if (instrument?.sort !== 'instrument' || !isElectrical(measured, instrument)) return [];
        for (const place of measured.zones) {
            const shortfall = shortfallIn(measured, instrument, place, unit, names, limits);
            // Two parts of a kind are two places; two tests of one part are mended by one instrument.
            const key = part ? `${part.start} ${instrument.name.text}` : measure;
            if (!shortfall || told.has(key)) continue;
            told.add(key);
            return [{ ...shortfall, measured, instrument, others: betterThan(instrument, measured, shortfall, names) }];
        }
        return [];
    });
}

/** What is measured at a circuit with probes or a clamp. */
const electricalQuantities = ['voltage', 'current', 'resistance', 'conductance', 'capacitance', 'inductance', 'charge'];

/** A caliper or a manometer touches no circuit, so it needs no category; a frequency may be measured by either. */
function isElectrical({ measure }: MeasuredTest, instrument: Instrument): boolean {
    if (electricalQuantities.includes(measure.quantity.text)) return true;
    const isEither = ['frequency', 'power', 'energy', 'ratio', 'angle', 'time'].includes(measure.quantity.text);
    return isEither && instrument.measures.some(({ quantity }) => ['voltage', 'current'].includes(quantity.text));
}

function shortfallIn(
    { test, guard }: MeasuredTest,
    instrument: Instrument,
    { zone, guard: inZone, exposed }: TestZone,
    unit: Unit,
    names: Resolving,
    limits: SafetyLimits,
): Shortfall | undefined {
    const marks = instrument.categories.map(categoryOf);
    const live = voltagesIn(exposed, names, limits).map(one => ({
        ...one,
        guard: bothOf(one.guard, liveBuilds(test, one.hazard)),
    }));
    return shortfallOf(zone.declaration, marks, live, { guard: bothOf(guard, inZone), unit, names });
}

/** A voltage that a place exposes. */
interface ExposedVoltage {
    readonly hazard: number | undefined;
    readonly guard: InBuilds;
    /** Volts rms, as instruments are marked; undefined where no voltage is given. */
    readonly volts: number | undefined;
    readonly written: string | undefined;
}

/** The voltages of a place. A category with no voltage around it is asked for all the same. */
function voltagesIn(exposed: readonly Exposed[], names: Resolving, limits: SafetyLimits): ExposedVoltage[] {
    const electrical = exposed.filter(({ hazard }) => isOfEnergy(hazard.declaration, 'electrical'));
    if (electrical.length === 0) return [{ hazard: undefined, guard: undefined, volts: undefined, written: undefined }];
    return electrical.flatMap(({ hazard, guard }): ExposedVoltage[] => {
        const { number } = hazard;
        const levels = levelsOf(hazard, names, limits).filter(({ energy }) => energy === 'electrical');
        if (levels.length === 0) return [{ hazard: number, guard, volts: undefined, written: undefined }];
        return levels.map(level => {
            const volts = Math.abs(Number(level.value.valueOf()));
            return {
                hazard: number,
                guard: bothOf(guard, level.guard),
                volts: level.modes.includes('peak') ? volts / Math.SQRT2 : volts,
                written: [level.amount.written, ...level.modes].join(' '),
            };
        });
    });
}

interface Where {
    readonly guard: InBuilds;
    readonly unit: Unit;
    readonly names: Resolving;
}

/**
 * The first category of a zone for which the marks are not enough in some build.
 * Where every voltage is isolated first, there is no circuit of the mains, and no category is asked for.
 */
function shortfallOf(
    zone: Zone,
    marks: readonly Category[],
    live: readonly ExposedVoltage[],
    { guard, unit, names }: Where,
): Shortfall | undefined {
    const { model } = names;
    // The largest first, so that it is the one that is told.
    const voltages = [...live].sort((one, other) => (other.volts ?? 0) - (one.volts ?? 0));
    for (const asked of zone.categories) {
        const rank = categoryRank(asked.category.text);
        if (rank === undefined) continue;
        const written = asked.voltage && numberOf(asked.voltage);
        for (const one of voltages) {
            const voltage = written ?? one.volts;
            if (marks.some(mark => serves(mark, { rank, voltage }))) continue;
            const build = someBuild(unit.equipment, model, [guard, guardOf(asked.guard, names), one.guard]);
            if (build) {
                const name = zone.name.text;
                return { asked, zone: name, voltage: asked.voltage?.written ?? one.written, volts: voltage, build };
            }
        }
    }
    return undefined;
}

function categoryOf({ category, voltage }: MeasurementCategory): Category {
    return { rank: categoryRank(category.text), voltage: numberOf(voltage) };
}

function betterThan(
    instrument: Instrument,
    { measure }: MeasuredTest,
    { asked, volts }: Shortfall,
    { equipment, model }: Resolving,
): Instrument[] {
    const rank = categoryRank(asked.category.text);
    const known = [...equipment.instruments, ...model.visibleFiles(measure.file).flatMap(file => file.instruments)];
    const modes = measure.modes.map(({ text }) => text).filter(mode => mode === 'AC' || mode === 'DC');
    return [...new Set(known)].filter(
        other =>
            other !== instrument &&
            other.categories.map(categoryOf).some(mark => serves(mark, { rank, voltage: volts })) &&
            other.measures.some(
                one =>
                    one.quantity.text === measure.quantity.text &&
                    modes.every(mode => one.modes.some(({ text }) => text === mode)),
            ),
    );
}

/** The gates of an equipment that ask too little of instruments; one for each clause. */
export function weakPermits(equipment: Equipment, model: Model, limits: SafetyLimits): WeakPermit[] {
    if (!equipment.gates.some(({ instruments }) => instruments.length > 0)) return [];
    const { unit, names } = unitOf(equipment, model);
    return unit.gates.flatMap(gate =>
        gate.declaration.instruments.flatMap(clause => weakPermit(gate, clause, unit, names, limits) ?? []),
    );
}

function weakPermit(
    gate: UnitGate,
    clause: MeasurementCategory,
    unit: Unit,
    names: Resolving,
    limits: SafetyLimits,
): WeakPermit | undefined {
    const measured = permittedBy(gate, unit, names).filter(({ activity }) => activity === 'measuring');
    const guard = guardOf(clause.guard, names);
    for (const zone of unit.zones) {
        const { declaration } = zone;
        const exposed = exposedIn(zone, unit).flatMap(one =>
            measured
                .filter(({ hazard }) => hazard === one.hazard && isOfEnergy(hazard.declaration, 'electrical'))
                .map(permit => ({ hazard: one.hazard, guard: bothOf(one.guard, permit.guard) })),
        );
        if (exposed.length === 0) continue;
        const where = { guard: bothOf(guard, zone.guard), unit, names };
        const found = shortfallOf(declaration, [categoryOf(clause)], voltagesIn(exposed, names, limits), where);
        if (found) return { ...found, gate: gate.declaration, clause };
    }
    return undefined;
}
