// What the elements of a gate are for: which hazards each serves, and in which builds.

import { bothOf, guardOf, hazardNamed, type Resolving } from '../meaning/resolving.js';
import type { InBuilds, Unit, UnitGate, UnitHazard } from '../meaning/unit.js';
import type { Supply } from '../model/equipment.js';
import type { ControlledHazard, Gate, GateElement, GateElementSort } from '../model/gates.js';

/** An element of a gate with its hazards looked up. */
export interface ResolvedElement {
    readonly written: GateElement;
    readonly guard: InBuilds;
    /** The numbers of the hazards that it names; empty where it names none. */
    readonly hazards: readonly number[];
    /** It names something that there is not, so nothing can be said of what it is for. */
    readonly isUnclear: boolean;
}

/** The elements of a gate in the order written. */
export function elementsOf(gate: Gate, names: Resolving): ResolvedElement[] {
    return gate.elements.map(written => {
        const hazards = written.hazards.map(reference => hazardNamed(reference, names));
        return {
            written,
            guard: guardOf(written.guard, names),
            hazards: hazards.filter(hazard => hazard !== undefined),
            isUnclear: hazards.some(hazard => hazard === undefined),
        };
    });
}

/** Whether an element is for a hazard: it names it, or it names none and is for all of the gate. */
export function isFor(element: ResolvedElement, hazard: number): boolean {
    return element.isUnclear || element.written.hazards.length === 0 || element.hazards.includes(hazard);
}

/** Where the elements of these sorts stand that serve a hazard, as the guards under which they exist. */
export function guardsOfElements(
    elements: readonly ResolvedElement[],
    sorts: readonly GateElementSort[],
    serves: (element: ResolvedElement) => boolean = () => true,
): InBuilds[] {
    return elements.filter(one => sorts.includes(one.written.element) && serves(one)).map(({ guard }) => guard);
}

/** A hazard that a gate controls, with the builds in which it does. */
export interface Controlled {
    readonly hazard: UnitHazard;
    readonly written: ControlledHazard;
    readonly guard: InBuilds;
}

/** The hazards that a gate controls. */
export function controlledBy(gate: UnitGate, unit: Unit, names: Resolving): Controlled[] {
    return gate.declaration.controls.flatMap(written => resolveControlled(written, gate, unit, names));
}

/** The hazards that a gate permits an activity at, with the word for the activity. */
export function permittedBy(
    gate: UnitGate,
    unit: Unit,
    names: Resolving,
): (Controlled & { readonly activity: string })[] {
    return gate.declaration.permits.flatMap(({ activity, hazards }) =>
        hazards.flatMap(written =>
            resolveControlled(written, gate, unit, names).map(one => ({ ...one, activity: activity.text })),
        ),
    );
}

function resolveControlled(written: ControlledHazard, gate: UnitGate, unit: Unit, names: Resolving): Controlled[] {
    const number = hazardNamed(written.hazard, names);
    const hazard = number === undefined ? undefined : unit.hazards[number];
    if (!hazard) return [];
    return [{ hazard, written, guard: bothOf(gate.guard, hazard.guard, guardOf(written.guard, names)) }];
}

/** The supplies that bring a hazard. */
export function suppliesOf(hazard: UnitHazard, unit: Unit): Supply[] {
    return unit.parts.flatMap(({ carries, declaration }) =>
        carries === hazard.number && declaration.sort === 'supply' ? [declaration] : [],
    );
}
