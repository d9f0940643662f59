// Parts and their faults, with what a kind says filled in.

import type { Fault, Kind, Part, PartLike, Rate, Repair, Supply } from '../model/equipment.js';
import type { Guarded } from '../model/guards.js';
import type { Model } from '../model/model.js';
import {
    bothOf,
    faultsNamed,
    guardOf,
    hazardNamed,
    type Inside,
    type Resolving,
    stateOf,
    testNamed,
    timeOf,
} from './resolving.js';
import type { Limited, UnitFault, UnitMakes, UnitPart, UnitRepair } from './unit.js';

/** The kind of a part. */
export function kindOf(part: PartLike, model: Model): Kind | undefined {
    const reference = (part as Part).sort === 'part' ? (part as Part).kind : undefined;
    const kind = reference && model.target(reference);
    return kind?.sort === 'kind' ? kind : undefined;
}

/** A fault as a part has it: the part's own word, and its kind's. */
export interface FaultOfPart {
    readonly own: Fault;
    readonly ofKind: Fault | undefined;
}

/** The faults of a part by name: its own, then those of its kind that it does not name itself. */
export function faultsOf(part: PartLike, model: Model): Map<string, FaultOfPart> {
    const faults = new Map<string, FaultOfPart>();
    const kind = kindOf(part, model);
    const ofKind = new Map(kind?.faults.map(fault => [fault.name.text, fault]));
    for (const own of part.faults) {
        if (!faults.has(own.name.text)) faults.set(own.name.text, { own, ofKind: ofKind.get(own.name.text) });
    }
    for (const [name, own] of ofKind) if (!faults.has(name)) faults.set(name, { own, ofKind: undefined });
    faults.delete('');
    return faults;
}

/** One part of the unit. `firstFault` is the number of its first fault. */
export function resolvePart(declaration: Part | Supply, names: Resolving): UnitPart {
    const number = names.parts.get(declaration) ?? 0;
    const kind = kindOf(declaration, names.model);
    const carries = declaration.sort === 'supply' ? hazardNamed(declaration.carries, names) : undefined;
    const ownOr = <T>(own: readonly T[], ofKind: readonly T[] | undefined) => (own.length > 0 ? own : (ofKind ?? []));
    return {
        number,
        name: declaration.name.text,
        declaration,
        guard: guardOf(declaration.guard, names),
        faults: [...(names.faultsOfParts[number]?.values() ?? [])],
        tests: [...(names.testsOfParts[number]?.values() ?? [])],
        zones: zonesOf(ownOr(declaration.zones, kind?.zones), names),
        carries,
        protects: ownOr(declaration.protects, kind?.protects).flatMap(clause =>
            clause.flows.flatMap(reference => {
                const flow = names.model.target(reference);
                const found = flow?.sort === 'flow' ? names.flows.get(flow) : undefined;
                return found === undefined ? [] : [{ flow: found, guard: guardOf(clause.guard, names) }];
            }),
        ),
        repairs: mergedRepairs(declaration.repairs, kind?.repairs ?? [], names),
    };
}

/** Zones with their numbers. */
export function zonesOf(
    written: PartLike['zones'],
    names: Resolving,
): readonly (Limited & { readonly zone: number })[] {
    return written.flatMap(({ zone, guard }) => {
        const target = names.model.target(zone);
        const number = target?.sort === 'zone' ? names.zones.get(target) : undefined;
        return number === undefined ? [] : [{ zone: number, guard: guardOf(guard, names) }];
    });
}

/** A repair of the part replaces those of its kind with the same action. */
function mergedRepairs(own: readonly Repair[], ofKind: readonly Repair[], names: Resolving): UnitRepair[] {
    const actions = new Set(own.map(({ action }) => action));
    return repairsOf([...own, ...ofKind.filter(({ action }) => !actions.has(action))], names);
}

/** Repairs with their gates. */
export function repairsOf(written: readonly Repair[], names: Resolving): UnitRepair[] {
    return written.map(declaration => ({
        declaration,
        guard: guardOf(declaration.guard, names),
        time: timeOf(declaration.takes),
        gates: declaration.gates.flatMap(reference => {
            const gate = names.model.target(reference);
            const number = gate?.sort === 'gate' ? names.gates.get(gate) : undefined;
            return number === undefined ? [] : [number];
        }),
    }));
}

/** One fault of one part. What the part says again replaces its kind's word on that point; the rest stays. */
export function resolveFault(number: number, part: UnitPart, fault: FaultOfPart, names: Resolving): UnitFault {
    const { own, ofKind } = fault;
    const inside: Inside = { part: part.number, zones: part.zones };
    const pick = <T>(get: (from: Fault) => readonly T[]): readonly T[] => {
        const said = get(own);
        return said.length > 0 || !ofKind ? said : get(ofKind);
    };
    const limited = <T extends Guarded>(written: readonly T[]) =>
        written.map(clause => ({ clause, guard: guardOf(clause.guard, names) }));
    const rates = limited(pick(from => from.rates));
    return {
        number,
        name: `${part.name}.${own.name.text}`,
        part: part.number,
        declaration: own,
        guard: bothOf(part.guard, guardOf(own.guard ?? ofKind?.guard, names)),
        effects: limited(pick(from => from.effects)).map(({ clause, guard }) => ({ effect: clause.effect, guard })),
        onlyWhenCaused: rates.filter(({ clause }) => clause.onlyWhenCaused).map(({ guard }) => ({ guard })),
        rates: rates
            .filter(({ clause }) => !clause.onlyWhenCaused)
            .map(({ clause, guard }): Limited & { rate: Rate } => ({ rate: clause, guard })),
        intermittent: limited(pick(from => from.intermittent)).map(({ clause, guard }) => ({
            unless: stateOf(clause.unless, names, inside),
            guard,
        })),
        makes: makesOf(own, ofKind, names, inside),
        causes: pick(from => from.causes).flatMap(cause =>
            cause.faults.flatMap(({ fault: reference, guard }) =>
                faultsNamed(reference, names, inside).map(caused => ({
                    fault: caused,
                    after: timeOf(cause.after),
                    guard: guardOf(guard, names),
                })),
            ),
        ),
        repairs: mergedRepairs(own.repairs, ofKind?.repairs ?? [], names),
    };
}

/** What a part's fault makes in a test replaces what its kind's makes in the same test. */
function makesOf(own: Fault, ofKind: Fault | undefined, names: Resolving, inside: Inside): UnitMakes[] {
    const resolve = (fault: Fault): UnitMakes[] =>
        fault.makes.flatMap(clause => {
            const test = testNamed(clause.test, names, inside);
            if (test === undefined) return [];
            const { file, start, end } = clause;
            return [
                {
                    file,
                    start,
                    end,
                    test,
                    outcomes: clause.outcomes.map(outcome => names.outcomeNumber(test, outcome.text)),
                    when: stateOf(clause.when, names, inside),
                    unless: stateOf(clause.unless, names, inside),
                    guard: guardOf(clause.guard, names),
                },
            ];
        });
    const said = resolve(own);
    const tests = new Set(said.map(({ test }) => test));
    return [...said, ...(ofKind ? resolve(ofKind) : []).filter(({ test }) => !tests.has(test))];
}
