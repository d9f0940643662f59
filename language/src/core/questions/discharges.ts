// Stored charges that last longer than is said.

import { bothOf, guardOf, hazardNamed, noneOf, type Resolving } from '../meaning/resolving.js';
import type { InBuilds, Unit, UnitHazard } from '../meaning/unit.js';
import type { Equipment, Hazard, StoredCharge } from '../model/equipment.js';
import type { Model } from '../model/model.js';
import type { Amount, Span } from '../model/written.js';
import type { SafetyLimits } from '../safety/limit-sets.js';
import { limitValue, voltageLimit } from '../safety/limits.js';
import { dischargeTime, harmlessVoltage, largestResistance, storedEnergy } from '../safety/stored-charge.js';
import { chargedTo, type HazardLevel, levelsOf, numberOf } from './energies.js';
import { elementsOf, isFor } from './gate-elements.js';
import { oncePerModel } from './remember.js';
import { someBuild, unitOf } from './units.js';

/** A charge that lasts longer than is said, or of which nothing is said. Seconds, volts, joules, ohms. */
export interface SlowDischarge {
    readonly hazard: Hazard;
    readonly stored: StoredCharge;
    /** `said`: longer than its `discharges in`. `waited`: longer than somebody waits for it. `unsaid`: nobody waits. */
    readonly sort: 'said' | 'waited' | 'unsaid';
    /** The time that is too short; the charge itself where none is said. */
    readonly place: Span;
    readonly time: Amount | undefined;
    readonly needed: number;
    readonly from: number;
    readonly to: number;
    readonly energy: number;
    /** The largest resistance that would do in the time that is written. */
    readonly mostOhms: number | undefined;
    readonly build: readonly string[];
}

/** The charges of an equipment that last longer than is said; one for each place. */
export function slowDischarges(equipment: Equipment, model: Model, limits: SafetyLimits): SlowDischarge[] {
    if (!equipment.hazards.some(({ stored }) => stored.some(({ through }) => through))) return [];
    const { unit, names } = unitOf(equipment, model);
    return unit.hazards.flatMap(hazard => {
        const worst = new Map<number, SlowDischarge>();
        for (const charge of chargesOf(hazard, names, limits)) {
            for (const found of slowIn({ charge, hazard, unit, names })) {
                const known = worst.get(found.place.start);
                if (!known || found.needed > known.needed) worst.set(found.place.start, found);
            }
        }
        return [...worst.values()];
    });
}

/** One charge in some builds, with how long it lasts. */
interface Charge {
    readonly stored: StoredCharge;
    readonly guard: InBuilds;
    readonly capacitance: number;
    readonly from: number;
    readonly to: number;
    readonly needed: number;
}

function chargesOf(hazard: UnitHazard, names: Resolving, limits: SafetyLimits): Charge[] {
    const levels = levelsOf(hazard, names, limits).filter(({ energy }) => energy === 'electrical');
    return hazard.declaration.stored.flatMap(stored => {
        const capacitance = numberOf(stored.amount);
        const resistance = numberOf(stored.through);
        if (capacitance === undefined || resistance === undefined) return [];
        return levels.map(level => {
            const from = chargedTo(level);
            const to = harmless(capacitance, level, limits);
            const needed = dischargeTime({ capacitance, resistance, voltage: from }, to);
            const guard = bothOf(hazard.guard, guardOf(stored.guard, names), level.guard);
            return { stored, guard, capacitance, from, to, needed };
        });
    });
}

/** What is left in a capacitor is a direct voltage, whatever has charged it; where that is not known, the lower limit holds. */
function harmless(capacitance: number, { modes }: HazardLevel, limits: SafetyLimits): number {
    const name = modes.length === 0 ? voltageLimit(limits, modes) : 'dcVoltage';
    const [voltage, energy] = [limitValue(limits, name), limitValue(limits, 'storedEnergy')];
    return harmlessVoltage(capacitance, Number(voltage.valueOf()), Number(energy.valueOf()));
}

interface Asked {
    readonly charge: Charge;
    readonly hazard: UnitHazard;
    readonly unit: Unit;
    readonly names: Resolving;
}

function slowIn(asked: Asked): SlowDischarge[] {
    const { charge, hazard, names } = asked;
    const said = hazard.declaration.runDowns.filter(({ manner }) => manner === 'discharges');
    const found = said.flatMap(clause =>
        tooShort('said', clause, clause.amount, bothOf(charge.guard, guardOf(clause.guard, names)), asked),
    );
    const silent = bothOf(charge.guard, noneOf(said.map(({ guard }) => guardOf(guard, names))));
    return [...found, ...unsaid(silent, asked)];
}

/** Where no `discharges in` is written, those who wait for it say how long it lasts. */
function unsaid(guard: InBuilds, asked: Asked): SlowDischarge[] {
    const { charge, hazard, unit, names } = asked;
    if (charge.needed === 0) return [];
    const waits = waitsFor(asked);
    const short = waits.flatMap(({ amount, guard: when }) => {
        if (!amount) return [];
        const place = amount.file === hazard.declaration.file ? amount : charge.stored;
        return tooShort('waited', place, amount, bothOf(guard, when), asked);
    });
    if (short.length > 0) return short;
    const nobody = bothOf(guard, noneOf(waits.map(({ guard: when }) => when)));
    const build = someBuild(unit.equipment, names.model, [nobody]);
    return build ? [describe('unsaid', charge.stored, undefined, build, asked)] : [];
}

/** So much may a time that is rounded fall short. */
const tolerance = 1 + 1e-9;

function tooShort(
    sort: 'said' | 'waited',
    place: Span,
    amount: Amount,
    guard: InBuilds,
    asked: Asked,
): SlowDischarge[] {
    const time = numberOf(amount);
    if (time === undefined || asked.charge.needed <= time * tolerance) return [];
    const build = someBuild(asked.unit.equipment, asked.names.model, [guard]);
    return build ? [describe(sort, place, amount, build, asked)] : [];
}

function describe(
    sort: SlowDischarge['sort'],
    place: Span,
    amount: Amount | undefined,
    build: readonly string[],
    { charge, hazard }: Asked,
): SlowDischarge {
    const { stored, capacitance, from, to, needed } = charge;
    const time = numberOf(amount);
    return {
        hazard: hazard.declaration,
        stored,
        sort,
        place,
        time: amount,
        needed,
        from,
        to,
        energy: storedEnergy({ capacitance, voltage: from }),
        mostOhms: time === undefined ? undefined : largestResistance({ capacitance, voltage: from }, to, time),
        build,
    };
}

/** Somebody who waits for a hazard, or lets it go without a time: with a stick that shorts it, say. */
interface Waiting {
    readonly amount: Amount | undefined;
    readonly guard: InBuilds;
}

/** Who waits for a hazard: the `release` elements of the gates, and the waits `until` it is safe in any file. */
function waitsFor({ hazard, unit, names }: Asked): Waiting[] {
    const { number } = hazard;
    const released = unit.gates
        .filter(({ controls }) => controls.some(one => one.hazard === number))
        .flatMap(gate =>
            elementsOf(gate.declaration, names)
                .filter(element => element.written.element === 'release' && isFor(element, number))
                .map(({ written, guard }) => ({ amount: written.duration, guard: bothOf(gate.guard, guard) })),
        );
    const waited = waitsIn(names.model)
        .filter(wait => hazardNamed(wait.hazard, names) === number)
        .map(({ amount, guard }) => ({ amount, guard: guardOf(guard, names) }));
    return [...released, ...waited];
}

/** Every wait of the workspace that names a hazard. */
const waitsIn = oncePerModel((model: Model) =>
    [...model.files.values()].flatMap(file =>
        [...file.trees, ...file.procedures].flatMap(owner =>
            owner.steps.flatMap(step =>
                step.statements.flatMap(statement =>
                    statement.sort === 'wait' && statement.hazard ? [statement] : [],
                ),
            ),
        ),
    ),
);
