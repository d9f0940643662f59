// What can hurt at a step or an end, whatever its writer said of it there: the hazards of the zones where hands come, what
// controls them, what gates change, and the safety statements of everything that is touched.

import type { Action, DoAction, Route, RouteEnd, Station } from '../meaning/route.js';
import { openedZones } from '../meaning/covers.js';
import { permitsTest } from '../meaning/permitted.js';
import { kindOf } from '../meaning/resolve-parts.js';
import { bothOf } from '../meaning/resolving.js';
import type { InBuilds, Limited, StateCondition, Unit, UnitGate, UnitRepair } from '../meaning/unit.js';
import type { Model } from '../model/model.js';
import type { SafetyStatement } from '../model/remarks.js';
import { closeGate, type Held, heldAfter } from './held-hazards.js';

/** A hazard that a zone exposes where somebody works. `guard` are the builds in which it is met. */
export interface HazardMet extends Limited {
    readonly hazard: number;
    readonly zone: number;
    /** The state that it is exposed in; always where this is undefined. */
    readonly while: StateCondition | undefined;
    /** What may hold it there; empty where nothing on any way does. */
    readonly controls: readonly HazardControl[];
}

export type HazardControl =
    | (Limited & { readonly sort: 'gate'; readonly gate: number })
    /** One sort of work is permitted beside it, until the end of the step. */
    | (Limited & { readonly sort: 'permit'; readonly gate: number; readonly activity: string })
    /** A wait has made it safe. */
    | (Limited & { readonly sort: 'wait' });

/** What a gate does to a hazard at a step. */
export interface GateChange extends Limited {
    readonly gate: number;
    readonly change: 'closed' | 'restored' | 'permits';
    readonly hazard: number;
    /** The sort of work, where the gate permits one. */
    readonly activity: string | undefined;
}

/** Something whose safety statements apply here. Its name is the one by which the whole equipment knows it. */
export interface StatementsOf extends Limited {
    readonly sort: 'equipment' | 'tree' | 'procedure' | 'zone' | 'hazard' | 'part' | 'fault' | 'test' | 'gate';
    readonly name: string;
    readonly safety: readonly SafetyStatement[];
}

/** In the order in which the technician comes to them; each once. */
export interface Cautions {
    readonly hazards: readonly HazardMet[];
    readonly gates: readonly GateChange[];
    readonly statements: readonly StatementsOf[];
}

/** The cautions of a station. `held` is what may hold hazards when the technician comes there. */
export function cautionsAt(station: Station, held: Held, { unit, tree }: Route, model: Model): Cautions {
    const collecting = new Collecting(unit, model);
    collecting.begin(station, tree);
    let before = held;
    const permits: Permitted[] = [];
    for (const action of station.actions) {
        collecting.addAction(action, before, permits);
        before = heldAfter(action, before, unit);
    }
    return collecting.cautions();
}

/** The cautions of an end: those of the repairs that are done there. */
export function cautionsAtEnd(end: RouteEnd, held: Held, { unit }: Route, model: Model): Cautions {
    const collecting = new Collecting(unit, model);
    for (const { fault: number, guard } of end.names) {
        const fault = unit.faults[number];
        const part = unit.parts[fault?.part ?? -1];
        if (!fault || !part) continue;
        for (const repair of repairsAt(end, number, unit)) {
            const where = bothOf(guard, fault.guard, part.guard, repair.guard);
            const under = repair.gates.reduce((closed, gate) => closeGate(closed, gate, unit.gates), held);
            collecting.addPart(part.number, where);
            collecting.add({ sort: 'fault', name: fault.name, safety: fault.declaration.safety, guard: where });
            for (const gate of repair.gates) collecting.addGate(gate, where);
            collecting.addZones(part.zones, where, under, []);
        }
    }
    return collecting.cautions();
}

/** The repairs of an end for a fault: its own, else those of the fault, else of the part; a referral repairs only what it says. */
export function repairsAt(end: RouteEnd, fault: number, { faults, parts }: Unit): readonly UnitRepair[] {
    if (end.repairs.length > 0 || end.written.sort === 'referral') return end.repairs;
    const declared = faults[fault];
    if (!declared) return [];
    return declared.repairs.length > 0 ? declared.repairs : (parts[declared.part]?.repairs ?? []);
}

type Permitted = Limited & { readonly hazard: number; readonly gate: number; readonly activity: string };

/** Builds in which either holds; undefined for all of them, as where every choice of an option is named. */
function eitherOf(one: InBuilds, other: InBuilds, { space }: Unit): InBuilds {
    if (!one || !other) return undefined;
    const operands = [...new Set([...(one.sort === 'any' ? one.operands : [one]), other])];
    const choices = new Set(operands.flatMap(operand => (operand.sort === 'is' ? operand.choice : [])));
    const isEveryChoice = operands.some(
        operand =>
            operand.sort === 'is' &&
            !space.guards.has(operand.option) &&
            operand.option.choices.every(choice => choices.has(choice)),
    );
    return isEveryChoice ? undefined : operands.length > 1 ? { sort: 'any', operands } : operands[0];
}

/** Gathers cautions; what comes up twice is there in the builds of either. */
class Collecting {
    private readonly hazards = new Map<string, HazardMet>();
    private readonly gates = new Map<string, GateChange>();
    private readonly statements = new Map<string, StatementsOf>();

    constructor(
        private readonly unit: Unit,
        private readonly model: Model,
    ) {}

    cautions(): Cautions {
        return {
            hazards: [...this.hazards.values()],
            gates: [...this.gates.values()],
            statements: [...this.statements.values()],
        };
    }

    /** What the technician is told on coming to a tree, or to a procedure. */
    begin({ number, owner, step }: Station, tree: Route['tree']): void {
        const { equipment } = this.unit;
        if (number === 0) {
            this.addDeclared('equipment', equipment.name.text, equipment.safety);
            this.addDeclared('tree', tree.name.text, tree.safety);
        }
        if (owner.sort === 'procedure' && owner.steps[0] === step) {
            this.addDeclared('procedure', owner.name.text, owner.safety);
        }
    }

    addAction(action: Action, held: Held, permits: Permitted[]): void {
        switch (action.sort) {
            case 'do':
                this.addDoing(action, held, permits);
                return;
            case 'read':
            case 'ask':
                this.addTest(action.test, action.guard, held, permits);
                return;
            case 'gate':
                this.addGate(action.gate, action.guard);
                this.useGate(action.gate, action.guard, permits);
                return;
            case 'restore':
                this.restoreGate(action.gate, action.guard);
                return;
            default:
        }
    }

    addPart(number: number, guard: InBuilds): void {
        const part = this.unit.parts[number];
        if (!part) return;
        const kind = kindOf(part.declaration, this.model);
        const safety = [...part.declaration.safety, ...(kind?.safety ?? [])];
        this.add({ sort: 'part', name: part.name, safety, guard: bothOf(guard, part.guard) });
    }

    addGate(number: number, guard: InBuilds): void {
        const gate = this.unit.gates[number];
        if (gate) this.addDeclared('gate', gate.declaration.name.text, gate.declaration.safety, guard);
    }

    /** The zones where hands are, with what they expose and what may hold it. */
    addZones(
        zones: readonly (Limited & { readonly zone: number })[],
        guard: InBuilds,
        held: Held,
        permits: readonly Permitted[],
    ): void {
        for (const { zone: number, guard: inZone } of zones) {
            const zone = this.unit.zones[number];
            if (!zone) continue;
            const there = bothOf(guard, inZone, zone.guard);
            this.addDeclared('zone', zone.declaration.name.text, zone.declaration.safety, there);
            zone.exposures.forEach((exposure, index) => {
                const hazard = this.unit.hazards[exposure.hazard];
                if (!hazard) return;
                const where = bothOf(there, exposure.guard, hazard.guard);
                this.addDeclared('hazard', hazard.declaration.name.text, hazard.declaration.safety, where);
                const controls = this.controlsOf(exposure.hazard, held, permits);
                const key = [number, index, ...controls.map(controlKey)].join(' ');
                const known = this.hazards.get(key);
                this.hazards.set(key, {
                    hazard: exposure.hazard,
                    zone: number,
                    while: exposure.while,
                    controls,
                    guard: known ? eitherOf(known.guard, where, this.unit) : where,
                });
            });
        }
    }

    add(statements: StatementsOf): void {
        if (statements.safety.length === 0) return;
        const key = `${statements.sort} ${statements.name}`;
        const known = this.statements.get(key);
        const guard = known ? eitherOf(known.guard, statements.guard, this.unit) : statements.guard;
        this.statements.set(key, { ...statements, guard });
    }

    private addDeclared(
        sort: StatementsOf['sort'],
        name: string,
        safety: readonly SafetyStatement[],
        guard?: InBuilds,
    ): void {
        this.add({ sort, name, safety, guard });
    }

    /** Hands are in the zone that is said, else at the part; and at the parts that are replaced. */
    private addDoing(action: DoAction, held: Held, permits: readonly Permitted[]): void {
        const { at, zone, replaces, guard } = action;
        const { parts } = this.unit;
        for (const part of new Set([...(at === undefined ? [] : [at]), ...replaces])) this.addPart(part, guard);
        const atPart = at === undefined ? [] : (parts[at]?.zones ?? []);
        const where = zone === undefined ? atPart : [{ zone, guard: undefined }];
        const replaced = replaces.flatMap(part => parts[part]?.zones ?? []);
        this.addZones([...where, ...replaced], guard, held, []);
        // Whoever may work beside a hazard may open a cover for that.
        const opened = openedZones(action, this.unit).map(({ zone: number }) => ({ zone: number, guard: undefined }));
        this.addZones(opened, guard, held, permits);
    }

    private addTest(number: number, guard: InBuilds, held: Held, permits: readonly Permitted[]): void {
        const { tests } = this.unit;
        const test = tests[number];
        if (!test) return;
        const there = bothOf(guard, test.guard);
        if (test.part !== undefined) this.addPart(test.part, there);
        this.addDeclared('test', test.name, test.declaration.safety, there);
        const allowed = permits.filter(({ activity }) => permitsTest(activity, test));
        this.addZones(test.zones, there, held, allowed);
    }

    private useGate(number: number, guard: InBuilds, permits: Permitted[]): void {
        const gate = this.unit.gates[number];
        if (!gate) return;
        for (const { hazard, guard: own } of gate.controls) {
            this.change({ gate: number, change: 'closed', hazard, guard: bothOf(guard, gate.guard, own) });
        }
        for (const { hazard, activity, guard: own } of gate.permits) {
            const where = bothOf(guard, gate.guard, own);
            this.change({ gate: number, change: 'permits', hazard, activity, guard: where });
            permits.push({ hazard, gate: number, activity, guard: where });
        }
    }

    private restoreGate(number: number, guard: InBuilds): void {
        const gate = this.unit.gates[number];
        for (const { hazard, guard: own } of gate?.controls ?? []) {
            this.change({ gate: number, change: 'restored', hazard, guard: bothOf(guard, gate?.guard, own) });
        }
    }

    private change(made: Omit<GateChange, 'activity'> & { readonly activity?: string }): void {
        const change: GateChange = { ...made, activity: made.activity };
        const key = [change.gate, change.change, change.hazard, change.activity ?? ''].join(' ');
        const known = this.gates.get(key);
        this.gates.set(key, {
            ...change,
            guard: known ? eitherOf(known.guard, change.guard, this.unit) : change.guard,
        });
    }

    private controlsOf(hazard: number, held: Held, permits: readonly Permitted[]): HazardControl[] {
        const byGate = this.unit.gates.flatMap(gate => (held.gates.has(gate.number) ? controlBy(gate, hazard) : []));
        const byPermit = permits
            .filter(permit => permit.hazard === hazard)
            .map(({ gate, activity, guard }): HazardControl => ({ sort: 'permit', gate, activity, guard }));
        const byWait: HazardControl[] = held.waited.has(hazard) ? [{ sort: 'wait', guard: undefined }] : [];
        return [...byGate, ...byWait, ...byPermit];
    }
}

function controlBy(gate: UnitGate, hazard: number): HazardControl[] {
    return gate.controls
        .filter(control => control.hazard === hazard)
        .map(({ guard }) => ({ sort: 'gate', gate: gate.number, guard: bothOf(gate.guard, guard) }));
}

function controlKey(control: HazardControl): string {
    return control.sort === 'wait' ? 'wait' : `${control.sort}:${control.gate}`;
}
