// Proofs that a voltage is gone which prove nothing: without a tester, or with one that is not itself proved.

import { bothOf, noneOf, type Resolving } from '../meaning/resolving.js';
import type { Unit, UnitGate } from '../meaning/unit.js';
import type { Equipment } from '../model/equipment.js';
import type { Gate, GateElement } from '../model/gates.js';
import type { Model } from '../model/model.js';
import type { Instrument } from '../model/tests.js';
import type { SafetyLimits } from '../safety/limit-sets.js';
import { type HazardLevel, levelsOf } from './energies.js';
import { controlledBy, elementsOf, isFor, type ResolvedElement } from './gate-elements.js';
import { someBuild, unitOf } from './units.js';

/** A proof for a hazardous voltage that does not show that it is gone. */
export interface UnprovedVoltage {
    readonly gate: Gate;
    readonly element: GateElement;
    readonly hazard: string;
    /** `tester`: none is named. `not proved`: it is not proved before and after. `cannot`: it measures no such voltage. */
    readonly why: 'tester' | 'not proved' | 'cannot';
    /** The voltage that is to be gone, as written: `230 V AC`. */
    readonly voltage: string;
    readonly instrument: string | undefined;
    readonly build: readonly string[];
}

/** The proofs of an equipment's gates that prove nothing, each once. */
export function unprovedVoltages(equipment: Equipment, model: Model, limits: SafetyLimits): UnprovedVoltage[] {
    if (equipment.gates.length === 0) return [];
    const { unit, names } = unitOf(equipment, model);
    return unit.gates.flatMap(gate => unprovedIn(gate, unit, names, limits));
}

function unprovedIn(gate: UnitGate, unit: Unit, names: Resolving, limits: SafetyLimits): UnprovedVoltage[] {
    const proofs = elementsOf(gate.declaration, names).filter(({ written }) => written.element === 'prove');
    const told = new Set<GateElement>();
    return controlledBy(gate, unit, names).flatMap(({ hazard, guard }) => {
        const own = proofs.filter(proof => isFor(proof, hazard.number) && !proof.isUnclear);
        const levels = levelsOf(hazard, names, limits).filter(({ above, energy }) => above && energy === 'electrical');
        return levels.flatMap(level => {
            const judged = own.map(proof => ({ proof, why: whyUnproved(proof, level, names) }));
            const good = noneOf(judged.filter(({ why }) => why === undefined).map(({ proof }) => proof.guard));
            return judged.flatMap(({ proof, why }) => {
                if (!why || told.has(proof.written)) return [];
                const build = someBuild(unit.equipment, names.model, [bothOf(guard, level.guard), proof.guard, good]);
                if (!build) return [];
                told.add(proof.written);
                const { written } = proof;
                const name = hazard.declaration.name.text;
                const voltage = [level.amount.written, ...level.modes].join(' ');
                const instrument = written.instrument?.text;
                return [{ gate: gate.declaration, element: written, hazard: name, why, voltage, instrument, build }];
            });
        });
    });
}

function whyUnproved(
    { written }: ResolvedElement,
    level: HazardLevel,
    { model }: Resolving,
): UnprovedVoltage['why'] | undefined {
    if (!written.instrument) return 'tester';
    const instrument = model.target(written.instrument);
    // An unknown name is told by the linker.
    if (instrument?.sort === 'instrument' && !canShow(instrument, level)) return 'cannot';
    return written.provedBeforeAndAfter ? undefined : 'not proved';
}

/** Whether an instrument measures a voltage of this form; one that does not say AC or DC is taken to measure both. */
function canShow(instrument: Instrument, { modes }: HazardLevel): boolean {
    const other = modes.includes('DC') ? 'AC' : modes.includes('AC') ? 'DC' : undefined;
    return instrument.measures.some(({ quantity, modes: measured }) => {
        if (quantity.text !== 'voltage') return false;
        return other === undefined || !measured.some(({ text }) => text === other);
    });
}
