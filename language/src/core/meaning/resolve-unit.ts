// Resolves an equipment into the unit that the walk and the replay look at.

import { buildSpaceOf } from '../builds/find-build.js';
import type { Condition, Equipment, Hazard, Part, Supply, Zone } from '../model/equipment.js';
import type { Gate, GateElement } from '../model/gates.js';
import type { Model } from '../model/model.js';
import type { Test } from '../model/tests.js';
import { noteReadings } from './noted.js';
import { resolveFlow } from './resolve-flows.js';
import { type FaultOfPart, faultsOf, kindOf, resolveFault, resolvePart } from './resolve-parts.js';
import { outcomeNames, resolveTest } from './resolve-tests.js';
import { guardOf, hazardNamed, type Resolving, settingsOf, stateOf, timeOf } from './resolving.js';
import type { Unit, UnitElement, UnitGate, UnitZone } from './unit.js';

/** The unit of an equipment, and what is needed to resolve its trees. What cannot be looked up is left out. */
export function resolveUnit(equipment: Equipment, model: Model): { readonly unit: Unit; readonly names: Resolving } {
    const declarations: (Part | Supply)[] = [...equipment.supplies, ...equipment.parts];
    const faults: FaultOfPart[] = [];
    const tests: { readonly test: Test; readonly part: number | undefined }[] = [];
    const names = numberNames(equipment, model, declarations, faults, tests);
    const parts = declarations.map(declaration => resolvePart(declaration, names));
    const hazards = equipment.hazards.map((declaration: Hazard, number) => ({
        number,
        declaration,
        guard: guardOf(declaration.guard, names),
        runDowns: declaration.runDowns.map(({ amount, guard }) => ({ amount, guard: guardOf(guard, names) })),
    }));
    const unit: Unit = {
        equipment,
        space: buildSpaceOf(equipment, reference => model.target(reference)),
        conditions: equipment.conditions.map((declaration, number) => resolveCondition(declaration, number, names)),
        hazards,
        zones: equipment.zones.map((declaration, number) => resolveZone(declaration, number, names)),
        gates: equipment.gates.map((declaration, number) => resolveGate(declaration, number, names)),
        parts,
        faults: parts.flatMap(part =>
            part.faults.flatMap(number => {
                const fault = faults[number];
                return fault ? [resolveFault(number, part, fault, names)] : [];
            }),
        ),
        flows: equipment.flows.map((declaration, number) => resolveFlow(number, declaration, { names, parts, faults })),
        tests: tests.map(({ test, part }, number) =>
            resolveTest(number, test, part === undefined ? undefined : parts[part], parts, names),
        ),
    };
    return { unit: { ...unit, tests: noteReadings(unit) }, names };
}

/** Gives everything its number. */
function numberNames(
    equipment: Equipment,
    model: Model,
    declarations: readonly (Part | Supply)[],
    faults: FaultOfPart[],
    tests: { readonly test: Test; readonly part: number | undefined }[],
): Resolving {
    const faultsOfParts: Map<string, number>[] = [];
    const testsOfParts: Map<string, number>[] = [];
    for (const test of equipment.tests) tests.push({ test, part: undefined });
    declarations.forEach((declaration, part) => {
        const ownFaults = new Map<string, number>();
        for (const [name, fault] of faultsOf(declaration, model)) ownFaults.set(name, faults.push(fault) - 1);
        faultsOfParts.push(ownFaults);
        const ownTests = new Map<string, number>();
        for (const test of [...declaration.tests, ...(kindOf(declaration, model)?.tests ?? [])]) {
            if (test.name.text === '' || ownTests.has(test.name.text)) continue;
            ownTests.set(test.name.text, tests.push({ test, part }) - 1);
        }
        testsOfParts.push(ownTests);
    });
    const outcomes = tests.map(({ test }) => outcomeNames(test, model).names);
    return {
        model,
        equipment,
        conditions: numbersOf(equipment.conditions),
        hazards: numbersOf(equipment.hazards),
        zones: numbersOf(equipment.zones),
        gates: numbersOf(equipment.gates),
        parts: numbersOf(declarations),
        flows: numbersOf(equipment.flows),
        tests: numbersOf(equipment.tests),
        testsOfParts,
        faultsOfParts,
        outcomeNumber: (test, name) => outcomes[test]?.indexOf(name) ?? -1,
    };
}

function numbersOf<T>(declarations: readonly T[]): ReadonlyMap<T, number> {
    return new Map(declarations.map((declaration, number) => [declaration, number]));
}

function resolveCondition(declaration: Condition, number: number, names: Resolving): Unit['conditions'][number] {
    const bypasses = declaration.values.map(value =>
        value.bypasses.flatMap(reference => {
            const part = names.model.target(reference);
            const found = part?.sort === 'part' || part?.sort === 'supply' ? names.parts.get(part) : undefined;
            return found === undefined ? [] : [found];
        }),
    );
    return { number, declaration, guard: guardOf(declaration.guard, names), bypasses };
}

function resolveZone(declaration: Zone, number: number, names: Resolving): UnitZone {
    const exposures = declaration.exposures.flatMap(exposure => {
        const hazard = hazardNamed(exposure.hazard, names);
        if (hazard === undefined) return [];
        return [{ hazard, while: stateOf(exposure.while, names), guard: guardOf(exposure.guard, names) }];
    });
    return { number, declaration, guard: guardOf(declaration.guard, names), exposures };
}

function resolveGate(declaration: Gate, number: number, names: Resolving): UnitGate {
    const elements = declaration.elements.map(element => ({
        element,
        resolved: resolveElement(element, declaration, names),
    }));
    const isRestoring = ({ element }: { element: GateElement }) => element.element === 'restore';
    return {
        number,
        declaration,
        guard: guardOf(declaration.guard, names),
        controls: declaration.controls.flatMap(({ hazard, guard }) => {
            const found = hazardNamed(hazard, names);
            return found === undefined ? [] : [{ hazard: found, guard: guardOf(guard, names) }];
        }),
        permits: declaration.permits.flatMap(({ activity, hazards }) =>
            hazards.flatMap(({ hazard, guard }) => {
                const found = hazardNamed(hazard, names);
                return found === undefined
                    ? []
                    : [{ hazard: found, activity: activity.text, guard: guardOf(guard, names) }];
            }),
        ),
        closing: elements.filter(one => !isRestoring(one)).map(({ resolved }) => resolved),
        restoring: elements.filter(isRestoring).map(({ resolved }) => resolved),
        takes: declaration.takes.map(({ amount, guard }) => ({ time: timeOf(amount), guard: guardOf(guard, names) })),
    };
}

function resolveElement(declaration: GateElement, { controls }: Gate, names: Resolving): UnitElement {
    const only = controls.length === 1 ? controls.map(({ hazard }) => hazard) : [];
    const hazards = declaration.hazards.length > 0 ? declaration.hazards : only;
    return {
        declaration,
        hazards: hazards.flatMap(hazard => hazardNamed(hazard, names) ?? []),
        guard: guardOf(declaration.guard, names),
        settings: settingsOf(declaration.settings, names),
        time: timeOf(declaration.duration) + timeOf(declaration.takes),
    };
}
