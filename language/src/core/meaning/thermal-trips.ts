// Which faults are trips by heat: those of an overload relay, not of a breaker that opens at once.

import type { Unit } from './unit.js';

/**
 * Whether a fault is the trip of what protects against a hazard's heat: the hazard is thermal, and all that causes the fault
 * does so after a time only, as a relay that is heated by the current trips. Common practice, no source.
 */
export function isThermalTrip(fault: number, hazard: number, { faults, hazards }: Unit): boolean {
    const isHeat = hazards[hazard]?.declaration.energies.some(({ kind }) => kind.text === 'thermal') ?? false;
    if (!isHeat) return false;
    return slowTripsOf(faults).has(fault);
}

const slowTrips = new WeakMap<Unit['faults'], ReadonlySet<number>>();

/** The faults that something causes, and everything only after a time. */
function slowTripsOf(faults: Unit['faults']): ReadonlySet<number> {
    const known = slowTrips.get(faults);
    if (known) return known;
    const causes = faults.flatMap(fault => fault.causes);
    const atOnce = new Set(causes.filter(({ after }) => after <= 0).map(({ fault }) => fault));
    const slow = new Set(causes.map(({ fault }) => fault).filter(fault => !atOnce.has(fault)));
    slowTrips.set(faults, slow);
    return slow;
}
