/**
 * Goes through an exported document at random, as a field app might: it keeps which gates are closed, what has been waited for
 * and how conditions are set, and tells at every step what the hands meet. It knows nothing of how the document was made.
 */
import type * as document from '../../language/src/document/types.js';
import type { Random } from './random.js';

/** A hazard that is exposed where the hands are. */
export interface Met {
    readonly at: document.Step | document.Conclusion;
    readonly hazard: string;
    readonly zone: string;
    /** What `it` stands for there. */
    readonly subject: string | undefined;
    /** The gates that are closed and control it, and the gates that permit to measure beside it. */
    readonly closed: readonly string[];
    readonly permitting: readonly string[];
    readonly waited: boolean;
}

interface Frame {
    readonly owner: document.Tree | document.Procedure;
    readonly subject: string | undefined;
    readonly branches: readonly document.ResultBranch[];
}

interface Permitted {
    readonly activity: string;
    readonly hazard: string;
    readonly gate: string;
}

/** Whether the step goes on, else where the way leads; nowhere where it ends. */
type Next = 'on' | { readonly to: string | undefined };

const mostSteps = 120;

/** One way through a document without guards. */
export function goThroughDocument(whole: document.TreeDocument, random: Random): readonly Met[] {
    return new Way(whole, random).go();
}

class Way {
    private readonly met: Met[] = [];
    private readonly closed = new Set<string>();
    private readonly waited = new Set<string>();
    private readonly values = new Map<string, string>();
    private readonly frames: Frame[];

    constructor(
        private readonly whole: document.TreeDocument,
        private readonly random: Random,
    ) {
        for (const { id, values } of whole.equipment.conditions) this.values.set(id, values[0]?.id ?? '');
        this.frames = [{ owner: whole.tree, subject: undefined, branches: [] }];
    }

    go(): readonly Met[] {
        let next: string | undefined = this.whole.tree.steps[0]?.id;
        for (let count = 0; next !== undefined && count < mostSteps; count += 1) {
            const step: document.Step | undefined = this.frame().owner.steps.find(({ id }) => id === next);
            next = step ? this.doStep(step) : this.leaveOrEnd(next);
        }
        return this.met;
    }

    private frame(): Frame {
        const frame = this.frames.at(-1);
        if (!frame) throw new Error('There is always the tree.');
        return frame;
    }

    private leaveOrEnd(target: string): string | undefined {
        if (this.frames.length === 1) {
            const end = this.whole.tree.conclusions.find(({ id }) => id === target);
            if (end) this.repair(end);
            return undefined;
        }
        const { branches } = this.frame();
        this.frames.pop();
        const named = branches.filter(({ results }) => results?.includes(target));
        return (named[0] ?? branches.find(({ otherwise }) => otherwise))?.to;
    }

    private doStep(step: document.Step): string | undefined {
        const permits: Permitted[] = [];
        for (const statement of step.statements) {
            const next = this.doStatement(statement, step, permits);
            if (next !== 'on') return next.to;
        }
        return undefined;
    }

    private doStatement(statement: document.Statement, step: document.Step, permits: Permitted[]): Next {
        switch (statement.type) {
            case 'do':
                return this.doAction(statement, step);
            case 'wait':
                if (statement.untilSafe) this.waited.add(this.energy(statement.untilSafe));
                return 'on';
            case 'gate':
                this.closeGate(statement.gate, permits);
                return 'on';
            case 'restore':
                this.restoreGate(statement.gate);
                return 'on';
            case 'read':
                for (const id of statement.tests) this.meetAtTest(step, id, permits);
                return 'on';
            case 'test':
            case 'confirm':
                this.meetAtTest(step, statement.test, permits);
                return { to: this.anyAnswer(statement) };
            case 'follow':
                return { to: this.follow(statement) };
            case 'go':
                return { to: statement.to };
            case 'continue':
                return { to: undefined };
            default:
                return 'on';
        }
    }

    private doAction(action: document.Do, step: document.Step): Next {
        const parts = [...(action.at && !action.in ? [action.at] : []), ...(action.replaces ?? [])];
        const zones = [...(action.in ? [action.in] : []), ...parts.flatMap(id => this.zonesOfPart(id))];
        this.meet(step, zones, []);
        if (action.cannotBeDone && this.random.chance(0.1)) return { to: action.cannotBeDone };
        this.set(action.sets);
        this.meet(step, zones, []);
        return 'on';
    }

    private closeGate(id: string, permits: Permitted[]): void {
        const gate = this.gate(id);
        if (gate?.controls) this.closed.add(id);
        for (const { activity, hazards } of gate?.permits ?? []) {
            permits.push(...hazards.map(({ hazard }) => ({ activity, hazard: this.energy(hazard), gate: id })));
        }
        for (const { element, sets } of gate?.elements ?? []) if (element !== 'restore') this.set(sets);
    }

    private restoreGate(id: string): void {
        const gate = this.gate(id);
        this.closed.delete(id);
        for (const { hazard } of gate?.controls ?? []) this.waited.delete(this.energy(hazard));
        for (const { element, sets } of gate?.elements ?? []) if (element === 'restore') this.set(sets);
    }

    /** Any branch, whatever a unit would answer. */
    private anyAnswer(asked: document.AskTest | document.ConfirmTest): string | undefined {
        const { owner } = this.frame();
        const disagree = asked.type === 'confirm' && 'disagree' in owner ? (owner.disagree ?? []) : [];
        const ways = [...asked.branches, ...asked.branches, ...(owner.cannotBeRead ?? []), ...disagree];
        return ways.length === 0 ? undefined : this.random.pick(ways).to;
    }

    private follow({ procedure, withPart, withTest, branches }: document.Follow): string | undefined {
        const owner = this.whole.procedures.find(({ id }) => id === procedure);
        if (!owner) return undefined;
        const named = withPart ?? withTest;
        const subject = named === undefined ? undefined : this.meant(named);
        this.frames.push({ owner, subject, branches });
        return owner.steps[0]?.id;
    }

    private meetAtTest(step: document.Step, id: string, permits: readonly Permitted[]): void {
        const test = this.whole.equipment.tests.find(one => one.id === this.meant(id));
        const measures = test?.methods.some(({ type }) => type === 'measure') ?? false;
        const zones = (test?.zones ?? []).map(({ zone }) => zone);
        this.meet(
            step,
            zones,
            permits.filter(({ activity }) => measures && activity === 'measuring'),
        );
    }

    private repair(end: document.Conclusion): void {
        for (const { faults, gates } of end.repairs ?? []) {
            const closed = [...this.closed];
            for (const gate of gates ?? []) if (this.gate(gate)?.controls) this.closed.add(gate);
            const parts = new Set((faults ?? []).map(fault => fault.slice(0, fault.lastIndexOf('.'))));
            for (const part of parts) this.meet(end, this.zonesOfPart(part), []);
            this.closed.clear();
            for (const gate of closed) this.closed.add(gate);
        }
    }

    private meet(at: Met['at'], zones: readonly string[], permits: readonly Permitted[]): void {
        for (const id of zones) {
            const zone = this.whole.equipment.zones.find(one => one.id === id);
            for (const { hazard: named, when } of zone?.exposures ?? []) {
                if (when && !this.mayHold(when)) continue;
                const hazard = this.energy(named);
                if (!this.whole.equipment.hazards.some(one => one.id === hazard)) continue;
                this.met.push({
                    at,
                    hazard,
                    zone: id,
                    subject: this.frame().subject,
                    closed: [...this.closed].filter(gate =>
                        this.gate(gate)?.controls?.some(control => this.energy(control.hazard) === hazard),
                    ),
                    permitting: permits.filter(permit => permit.hazard === hazard).map(({ gate }) => gate),
                    waited: this.waited.has(hazard),
                });
            }
        }
    }

    /** Whether a state can hold; of flows nothing is known, so those can. */
    private mayHold(state: document.State): boolean {
        if ('condition' in state) return this.values.get(state.condition) === state.value;
        if ('all' in state) return state.all.every(one => this.mayHold(one));
        if ('any' in state) return state.any.some(one => this.mayHold(one));
        if ('not' in state && 'condition' in state.not) return !this.mayHold(state.not);
        return true;
    }

    private set(settings: readonly document.Setting[] | undefined): void {
        for (const { condition, value } of settings ?? []) this.values.set(condition, value);
    }

    private gate(id: string): document.Gate | undefined {
        return this.whole.equipment.gates.find(one => one.id === id);
    }

    /** The hazard that a supply carries, or the hazard itself. */
    private energy(id: string): string {
        return this.whole.equipment.supplies.find(one => one.id === id)?.carries ?? id;
    }

    private zonesOfPart(id: string): readonly string[] {
        const { parts, supplies } = this.whole.equipment;
        const part = [...parts, ...supplies].find(one => one.id === this.meant(id));
        return (part?.zones ?? []).map(({ zone }) => zone);
    }

    /** What a name means where `it` stands for something. */
    private meant(id: string): string {
        const { subject } = this.frame();
        if (subject === undefined) return id;
        return id === 'it' ? subject : id.replace(/^it\./, `${subject}.`);
    }
}
