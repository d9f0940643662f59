// Which trips by heat protect against a hazard, and in which builds.

import { isThermalTrip } from '../meaning/thermal-trips.js';
import { driversOf } from './drivers.js';
import type { FlowSets } from './flow-sets.js';
import { noWorlds, type WorldSet } from './sets/world-sets.js';
import { buildsWhere } from './space.js';

/** The builds in which one of these faults is a trip of a part that protects a flow which drives the hazard. */
export function protectedIn(hazard: number, faults: readonly number[], flows: FlowSets): WorldSet {
    const { space } = flows;
    const { sets, unit } = space;
    let found: WorldSet = noWorlds;
    for (const fault of faults) {
        if (!isThermalTrip(fault, hazard, unit)) continue;
        const part = unit.parts[unit.faults[fault]?.part ?? -1];
        for (const { flow, guard } of part?.protects ?? []) {
            const protects = sets.and(buildsWhere(guard, space), buildsWhere(part?.guard, space));
            for (const driver of driversOf(hazard, flows)) {
                if (driver.flow === flow) found = sets.or(found, sets.and(protects, driver.where));
            }
        }
    }
    return found;
}
