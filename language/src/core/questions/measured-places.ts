// Where each test measures: one entry for a method in a zone, those of kinds once for each part.

import { bothOf, guardOf, hazardNamed, noneOf, type Resolving } from '../meaning/resolving.js';
import { kindOf } from '../meaning/resolve-parts.js';
import type { InBuilds, StateCondition, Unit, UnitHazard, UnitTest, UnitZone } from '../meaning/unit.js';
import type { InZone } from '../model/equipment.js';
import type { Measure } from '../model/tests.js';
import type { Span } from '../model/written.js';

/** A method of a test, with the builds in which it is used. */
export interface MeasuredTest {
    readonly test: UnitTest;
    readonly measure: Measure;
    readonly guard: InBuilds;
    readonly zones: readonly TestZone[];
    /** What the finding points at: the part, for a test that it has from its kind, because only the part has a zone. */
    readonly part: Span | undefined;
}

/** A zone of a test, with the builds in which the test is done there. */
export interface TestZone {
    readonly zone: UnitZone;
    readonly guard: InBuilds;
    readonly exposed: readonly Exposed[];
}

/** A hazard that a zone exposes in some state, with the builds in which it does. */
export interface Exposed {
    readonly hazard: UnitHazard;
    readonly guard: InBuilds;
}

/** Everything that is measured in a unit. Tests of which a zone, or what it exposes, cannot be looked up are left out. */
export function measuredTests(unit: Unit, names: Resolving): MeasuredTest[] {
    return unit.tests.flatMap(test => {
        const measures = test.declaration.methods.filter(method => method.sort === 'measure');
        if (measures.length === 0 || !areZonesKnown(test, unit, names)) return [];
        const zones = test.zones.flatMap(({ zone, guard }) => {
            const found = unit.zones[zone];
            return found ? [{ zone: found, guard: bothOf(guard, found.guard), exposed: exposedIn(found, unit) }] : [];
        });
        const part = partOfKindTest(test, unit);
        return measures.map(measure => ({
            test,
            measure,
            guard: bothOf(test.guard, guardOf(measure.guard, names)),
            zones,
            part,
        }));
    });
}

/** What a zone exposes. */
export function exposedIn(zone: UnitZone, unit: Unit): Exposed[] {
    return zone.exposures.flatMap(exposure => {
        const hazard = unit.hazards[exposure.hazard];
        return hazard ? [{ hazard, guard: bothOf(exposure.guard, hazard.guard) }] : [];
    });
}

/** Builds in which a test does not ask for a hazard to be isolated; undefined stands for a hazard that is not said. */
export function liveBuilds(test: UnitTest, hazard: number | undefined): InBuilds {
    return noneOf(test.needs.filter(({ state }) => isolates(state, hazard)).map(({ guard }) => guard));
}

function isolates(state: StateCondition, hazard: number | undefined): boolean {
    switch (state.sort) {
        case 'isolated':
            return state.hazard === hazard;
        case 'zones isolated':
            return true;
        case 'all':
            return state.operands.some(operand => isolates(operand, hazard));
        default:
            return false;
    }
}

function areZonesKnown(test: UnitTest, unit: Unit, names: Resolving): boolean {
    const { zones } = test.declaration;
    const part = test.part === undefined ? undefined : unit.parts[test.part]?.declaration;
    const ofPart = part && part.zones.length === 0 ? kindOf(part, names.model)?.zones : part?.zones;
    const written: readonly InZone[] = zones.length > 0 ? zones : (ofPart ?? []);
    return written.every(({ zone }) => {
        const target = names.model.target(zone);
        return target?.sort === 'zone' && target.exposures.every(one => hazardNamed(one.hazard, names) !== undefined);
    });
}

function partOfKindTest(test: UnitTest, unit: Unit): Span | undefined {
    const part = test.part === undefined ? undefined : unit.parts[test.part]?.declaration;
    const isOfKind = part?.tests.includes(test.declaration) === false && test.name.includes('.');
    return isOfKind ? part.name : undefined;
}
