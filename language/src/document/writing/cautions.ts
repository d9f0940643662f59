// Writes what can hurt at each step and end of a tree and of the procedures that it follows.

import { makeRoute } from '../../core/meaning/make-route.js';
import type { Inside } from '../../core/meaning/resolving.js';
import { partNamed, testNamed } from '../../core/meaning/resolving.js';
import type { Route, Station } from '../../core/meaning/route.js';
import type { Unit } from '../../core/meaning/unit.js';
import type { End, Step, Tree } from '../../core/model/trees.js';
import * as core from '../../core/questions/cautions.js';
import { heldOnWays } from '../../core/questions/held-hazards.js';
import { type ResolvedUnit, unitOf } from '../../core/questions/units.js';
import type * as document from '../types.js';
import { writeBuilds, writeStateOf } from './guards.js';
import { made, some, type Writer } from './writer.js';

/** The cautions of everything that has some. */
export type WrittenCautions = ReadonlyMap<Step | End, readonly document.Caution[]>;

/** What is met at each step, on whatever way it is come to: a step of a procedure meets what it meets in every call. */
export function writeCautions(writer: Writer, tree: Tree): WrittenCautions {
    const { model, equipment } = writer;
    const resolved = unitOf(equipment, model);
    const route = makeRoute(tree, resolved.unit, resolved.names);
    const held = heldOnWays(route);
    const gathered = new Map<Step | End, document.Caution[]>();
    const add = (to: Step | End, cautions: readonly document.Caution[]) => {
        gathered.set(to, [...(gathered.get(to) ?? []), ...cautions]);
    };
    route.stations.forEach((station, number) => {
        const cautions = core.cautionsAt(station, held.stations[number] ?? nothing, route, model);
        add(station.step, writeFound(cautions, writeWithin(station, route, resolved, writer), resolved.unit));
    });
    for (const end of route.ends) {
        const cautions = core.cautionsAtEnd(end, held.ends[end.number] ?? nothing, route, model);
        add(end.written, writeFound(cautions, {}, resolved.unit));
    }
    return new Map([...gathered].map(([where, cautions]) => [where, eachOnce(cautions)]));
}

const nothing = { gates: new Set<number>(), waited: new Set<number>() };

/** The procedure that a station belongs to, and what `it` stands for there; none of it in a tree. */
interface Within {
    readonly procedure?: string;
    readonly withPart?: string;
    readonly withTest?: string;
}

/** The procedure of a station, and what `it` stands for there, as the call says. */
function writeWithin({ owner, calls, number }: Station, route: Route, resolved: ResolvedUnit, writer: Writer): Within {
    if (owner.sort !== 'procedure') return {};
    const procedure = writer.sharedIds.get(owner) ?? owner.name.text;
    const { subject } = owner;
    if (!subject) return { procedure };
    const { subjectPart, subjectTest } = insideOf({ calls, number }, route, resolved);
    const { unit } = resolved;
    const test = subject.of === 'test' ? unit.tests[subjectTest ?? -1] : undefined;
    const part = subject.of === 'test' ? undefined : unit.parts[subjectPart ?? -1];
    return { procedure, ...(part ? { withPart: part.name } : {}), ...(test ? { withTest: test.name } : {}) };
}

/** A procedure that is followed within another may have its subject from there. */
function insideOf(
    { calls, number }: Pick<Station, 'calls' | 'number'>,
    route: Route,
    { names, unit }: ResolvedUnit,
): Inside {
    const caller = route.stations[calls.at(-1) ?? -1];
    if (!caller) return {};
    // The stations of a call stand behind its first one, and those of the next call behind them.
    const follows = caller.actions.flatMap(action => {
        if (action.sort !== 'follow' || action.to.sort !== 'station' || action.to.station > number) return [];
        return action.written;
    });
    const subject = follows.at(-1)?.subject;
    if (!subject) return {};
    const outer = insideOf(caller, route, { names, unit });
    return {
        subjectPart: partNamed(names.model.target(subject.owner), names, outer),
        subjectTest: testNamed(subject, names, outer),
    };
}

function writeFound(cautions: core.Cautions, within: Within, unit: Unit): readonly document.Caution[] {
    return [
        ...cautions.statements.map(one => writeStatements(one, within)),
        ...cautions.hazards.map(one => writeHazardMet(one, within, unit)),
        ...cautions.gates.map(one => writeGateChange(one, unit)),
    ];
}

function writeStatements({ sort, name, guard }: core.StatementsOf, within: Within): document.StatementsOf {
    const only = (wanted: core.StatementsOf['sort']) => (wanted === sort ? name : undefined);
    return made<document.StatementsOf>({
        type: 'statements',
        equipment: only('equipment'),
        tree: only('tree'),
        procedure: sort === 'procedure' ? within.procedure : undefined,
        zone: only('zone'),
        hazard: only('hazard'),
        part: only('part'),
        fault: only('fault'),
        test: only('test'),
        gate: only('gate'),
        withPart: within.withPart,
        withTest: within.withTest,
        guard: writeBuilds(guard),
    });
}

function writeHazardMet(met: core.HazardMet, within: Within, unit: Unit): document.HazardMet {
    return made<document.HazardMet>({
        type: 'hazard',
        hazard: hazardId(met.hazard, unit),
        zone: unit.zones[met.zone]?.declaration.name.text ?? '',
        withPart: within.withPart,
        withTest: within.withTest,
        when: met.while && writeStateOf(met.while, unit),
        controls: some(met.controls.map(control => writeControl(control, unit))),
        guard: writeBuilds(met.guard),
    });
}

function writeControl(control: core.HazardControl, unit: Unit): document.HazardControl {
    const guard = writeBuilds(control.guard);
    switch (control.sort) {
        case 'gate':
            return made<document.ControlByGate>({ type: 'gate', gate: gateId(control.gate, unit), guard });
        case 'permit': {
            const { activity } = control;
            return made<document.ControlByPermit>({
                type: 'permit',
                gate: gateId(control.gate, unit),
                activity,
                guard,
            });
        }
        case 'wait':
            return { type: 'wait' };
    }
}

function writeGateChange(change: core.GateChange, unit: Unit): document.GateChange {
    return made<document.GateChange>({
        type: 'gate',
        gate: gateId(change.gate, unit),
        change: change.change,
        hazard: hazardId(change.hazard, unit),
        activity: change.activity,
        guard: writeBuilds(change.guard),
    });
}

function hazardId(hazard: number, unit: Unit): string {
    return unit.hazards[hazard]?.declaration.name.text ?? '';
}

function gateId(gate: number, unit: Unit): string {
    return unit.gates[gate]?.declaration.name.text ?? '';
}

/** The same caution of several ways to a step once, in the builds of either. */
function eachOnce(cautions: readonly document.Caution[]): readonly document.Caution[] {
    const found = new Map<string, Repeated>();
    for (const { guard, ...caution } of cautions) {
        const key = JSON.stringify(caution);
        const known: Repeated = found.get(key) ?? { caution, guards: [] };
        found.set(key, known);
        known.guards.push(guard);
    }
    return [...found.values()].map(one => {
        const guard = anyGuard(one.guards);
        return guard ? { ...one.caution, guard } : one.caution;
    });
}

interface Repeated {
    readonly caution: document.Caution;
    readonly guards: (document.Guard | undefined)[];
}

function anyGuard(guards: readonly (document.Guard | undefined)[]): document.Guard | undefined {
    const different = new Map<string, document.Guard>();
    for (const guard of guards) {
        if (!guard) return undefined;
        different.set(JSON.stringify(guard), guard);
    }
    const [first, ...others] = different.values();
    return first && others.length > 0 ? { any: [first, ...others] } : first;
}
