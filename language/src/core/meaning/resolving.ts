// What all parts of resolving a unit share: numbers of declarations, guards, states, times and references.

import type { ChoiceCondition } from '../builds/evaluate.js';
import { KnownGuards } from '../builds/known-guards.js';
import { namesOfEquipment } from '../linking/names.js';
import type { Condition, Equipment, FaultReference, Flow, Hazard, Part, Supply, Zone } from '../model/equipment.js';
import type { Declaration } from '../model/file.js';
import type { Gate, Setting } from '../model/gates.js';
import type { ChoiceExpression, State, StateExpression } from '../model/guards.js';
import type { Model } from '../model/model.js';
import type { Test, TestReference } from '../model/tests.js';
import type { Amount, Reference } from '../model/written.js';
import { coherentValue, parseQuantity } from '../quantities/quantity.js';
import type { InBuilds, Limited, Milliseconds, StateCondition, UnitSetting } from './unit.js';

/** The numbers of everything in one equipment, and the model to look names up in. */
export interface Resolving {
    readonly model: Model;
    readonly equipment: Equipment;
    readonly conditions: ReadonlyMap<Condition, number>;
    readonly hazards: ReadonlyMap<Hazard, number>;
    readonly zones: ReadonlyMap<Zone, number>;
    readonly gates: ReadonlyMap<Gate, number>;
    readonly parts: ReadonlyMap<Part | Supply, number>;
    readonly flows: ReadonlyMap<Flow, number>;
    /** Numbers of the equipment's own tests. */
    readonly tests: ReadonlyMap<Test, number>;
    /** For each part the numbers of its tests and faults by name, those of its kind included. */
    readonly testsOfParts: readonly ReadonlyMap<string, number>[];
    readonly faultsOfParts: readonly ReadonlyMap<string, number>[];
    /** The number of an outcome of a test, -1 where it has none of that name. */
    readonly outcomeNumber: (test: number, name: string) => number;
}

/** What a name may mean beside the equipment's own names. */
export interface Inside {
    /** The part whose own faults and tests may be named without it. */
    readonly part?: number | undefined;
    /** What a procedure is about, as it was followed. */
    readonly subjectPart?: number | undefined;
    readonly subjectTest?: number | undefined;
    /** The zones in which `isolated` without a name looks. */
    readonly zones?: readonly (Limited & { readonly zone: number })[];
}

/** A guard with its names looked up. Unknown names count as no guard: no walk is done until they are mended. */
export function guardOf(written: ChoiceExpression | undefined, names: Resolving): InBuilds {
    if (!written) return undefined;
    const { equipment, model } = names;
    let guards = knownGuards.get(equipment);
    if (!guards) {
        const { optionOfChoice } = namesOfEquipment(equipment);
        guards = new KnownGuards(choice => optionOfChoice.get(choice));
        knownGuards.set(equipment, guards);
    }
    return guards.resolve(written, reference => model.target(reference));
}

const knownGuards = new WeakMap<Equipment, KnownGuards>();

/** Builds in which all of these hold. */
export function bothOf(...guards: readonly InBuilds[]): InBuilds {
    const operands = guards.filter(guard => guard !== undefined);
    return operands.length > 1 ? { sort: 'all', operands } : operands[0];
}

/** Builds in which none of these holds; undefined where that is every build, `never` where it is none. */
export function noneOf(guards: readonly InBuilds[]): InBuilds {
    if (guards.length === 0) return undefined;
    const operands = guards.filter(guard => guard !== undefined);
    if (operands.length < guards.length) return never;
    return { sort: 'not', operand: { sort: 'any', operands } };
}

/** No build at all. */
export const never: ChoiceCondition = { sort: 'any', operands: [] };

/** A written length of time; nothing written, or nothing that can be read, is no time. */
export function timeOf(amount: Amount | undefined): Milliseconds {
    const quantity = amount && parseQuantity(amount.written);
    const seconds = quantity && coherentValue(quantity);
    return seconds ? Math.round(Number(seconds.valueOf()) * 1000) : 0;
}

/** A share between 0 and 1; undefined where nothing is written. */
export function shareOf(amount: Amount | undefined): number | undefined {
    const quantity = amount && parseQuantity(amount.written);
    const value = quantity && coherentValue(quantity);
    return value ? Number(value.valueOf()) : undefined;
}

/** The faults that a reference names: one, or all of a part. */
export function faultsNamed(reference: FaultReference, names: Resolving, inside: Inside): readonly number[] {
    const owner = names.model.target(reference.owner);
    if (reference.fault) {
        const part = partNamed(owner, names, inside);
        const fault = part === undefined ? undefined : names.faultsOfParts[part]?.get(reference.fault.text);
        return fault === undefined ? [] : [fault];
    }
    if (owner?.sort === 'fault') {
        const fault = inside.part === undefined ? undefined : names.faultsOfParts[inside.part]?.get(owner.name.text);
        return fault === undefined ? [] : [fault];
    }
    const part = partNamed(owner, names, inside);
    return part === undefined ? [] : [...(names.faultsOfParts[part]?.values() ?? [])];
}

/** The test that `clears TEST` names, if it names one. */
export function testCleared(reference: FaultReference, names: Resolving): number | undefined {
    if (reference.fault) return undefined;
    const owner = names.model.target(reference.owner);
    return owner?.sort === 'test' ? names.tests.get(owner) : undefined;
}

/** The number of a part or supply, or of what a procedure is about. */
export function partNamed(declaration: Declaration | undefined, names: Resolving, inside: Inside): number | undefined {
    if (declaration?.sort === 'part' || declaration?.sort === 'supply') return names.parts.get(declaration);
    return declaration?.sort === 'subject' ? inside.subjectPart : undefined;
}

/** The test that a reference names. */
export function testNamed(reference: TestReference, names: Resolving, inside: Inside): number | undefined {
    const owner = names.model.target(reference.owner);
    if (reference.test) {
        const part = partNamed(owner, names, inside);
        return part === undefined ? undefined : names.testsOfParts[part]?.get(reference.test.text);
    }
    if (owner?.sort === 'subject') return inside.subjectTest;
    if (owner?.sort !== 'test') return undefined;
    const own = inside.part === undefined ? undefined : names.testsOfParts[inside.part]?.get(owner.name.text);
    return names.tests.get(owner) ?? own;
}

/** The hazard that a name means: itself, or what a supply carries. */
export function hazardNamed(reference: Reference | undefined, names: Resolving): number | undefined {
    const target = reference && names.model.target(reference);
    if (target?.sort === 'hazard') return names.hazards.get(target);
    return target?.sort === 'supply' ? hazardNamed(target.carries, names) : undefined;
}

const noSettings: readonly UnitSetting[] = [];

/** Conditions that an action sets. */
export function settingsOf(settings: readonly Setting[], names: Resolving): readonly UnitSetting[] {
    if (settings.length === 0) return noSettings;
    return settings.flatMap(setting => {
        const condition = names.model.target(setting.condition);
        const value = names.model.target(setting.value);
        if (condition?.sort !== 'condition' || value?.sort !== 'value') return [];
        const number = names.conditions.get(condition);
        return number === undefined ? [] : [{ condition: number, value: condition.values.indexOf(value) }];
    });
}

/** A state with its names looked up; undefined where a name is unknown. */
export function stateOf(
    written: StateExpression | undefined,
    names: Resolving,
    inside: Inside = {},
): StateCondition | undefined {
    if (!written) return undefined;
    if (written.sort === 'state') return plainState(written, names, inside);
    if (written.sort === 'not') {
        const operand = stateOf(written.operand, names, inside);
        return operand && { sort: 'not', operand };
    }
    const operands = written.operands.map(operand => stateOf(operand, names, inside)).filter(one => one !== undefined);
    return { sort: written.sort, operands };
}

function plainState(state: State, names: Resolving, inside: Inside): StateCondition | undefined {
    const subject = state.subject && names.model.target(state.subject);
    if (state.is === 'value') {
        const value = state.value && names.model.target(state.value);
        if (subject?.sort !== 'condition' || value?.sort !== 'value') return undefined;
        const condition = names.conditions.get(subject);
        return condition === undefined ? undefined : { sort: 'value', condition, value: subject.values.indexOf(value) };
    }
    if (subject?.sort === 'flow') {
        const flow = names.flows.get(subject);
        if (flow === undefined) return undefined;
        const flowing: StateCondition = { sort: 'flowing', flow };
        return state.is === 'flowing' ? flowing : { sort: 'not', operand: flowing };
    }
    if (!state.subject) return { sort: 'zones isolated', zones: inside.zones ?? [] };
    const hazard = hazardNamed(state.subject, names);
    return hazard === undefined ? undefined : { sort: 'isolated', hazard };
}
