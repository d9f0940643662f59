// An end as it is to be seen: what it names, what to do, and how the unit is left.

import type { Conclusion, EndRepair, Referral } from '../document/types.js';
import {
    type CautionView,
    faultOf,
    type GateView,
    inBuild,
    made,
    placesOf,
    type RemarkView,
    type SafetyView,
    viewCautions,
    viewGate,
    type Viewing,
    viewRemarks,
    viewStatements,
} from './screen-parts.js';
import { stateInWords } from './words.js';

export interface EndView {
    readonly kind: 'conclusion' | 'referral';
    readonly end: { readonly id: string; readonly title: string };
    /** Why it is handed over. */
    readonly reason?: string;
    readonly faults: readonly FaultView[];
    /** The repairs are tried in this order until the complaint is gone. */
    readonly inOrder?: true;
    readonly repairs: readonly RepairView[];
    /** Gates to go through before the repairs, those that are closed left out. */
    readonly close: readonly GateView[];
    /** Gates to restore afterwards. */
    readonly restore: readonly GateView[];
    /** Conditions to set afterwards as the unit was found. */
    readonly setBack: readonly { readonly condition: string; readonly value: string; readonly words: string }[];
    /** What stays as it is, on purpose. */
    readonly leaves: readonly string[];
    /** The tests that show whether the complaint is gone. */
    readonly complaints: readonly { readonly test: string; readonly title: string }[];
    /** Why the complaint is not tested again. */
    readonly unconfirmed: readonly string[];
    readonly cautions: readonly CautionView[];
    readonly safety: readonly SafetyView[];
    readonly remarks: readonly RemarkView[];
}

export interface FaultView {
    readonly id: string;
    readonly title: string;
    readonly part: string;
    readonly places: readonly string[];
}

export interface RepairView {
    readonly action: EndRepair['action'];
    readonly text: string;
    readonly faults: readonly string[];
    readonly takes?: string;
    readonly costs?: string;
    readonly gates: readonly string[];
}

type AtEnd =
    { readonly kind: 'conclusion'; readonly end: Conclusion } | { readonly kind: 'referral'; readonly end: Referral };

export function viewEnd({ kind, end }: AtEnd, viewing: Viewing): EndView {
    const { words, tree } = viewing;
    const repairs = inBuild(end.repairs, viewing);
    const beware = viewCautions(end.cautions, undefined, viewing);
    const gates = [...new Set(repairs.flatMap(repair => repair.gates ?? []))].filter(id => isThere(id, viewing));
    return made<EndView>({
        kind,
        end: { id: end.id, title: words.title(end) },
        reason: 'reason' in end ? words.optional(end.reason) : undefined,
        faults: faultsOf(end, viewing),
        inOrder: 'inOrder' in end ? end.inOrder : undefined,
        repairs: repairs.map(repair => viewRepair(repair, viewing)),
        close: gates
            .filter(id => !viewing.state.closed.includes(id))
            .flatMap(id => tree.gates.get(id) ?? [])
            .map(gate => viewGate(gate, false, viewing)),
        ...howToLeave(kind, end, gates, viewing),
        ...howToConfirm(kind, end, viewing),
        cautions: beware.cautions,
        safety: [...beware.safety, ...viewStatements(end.safety, viewing)],
        remarks: viewRemarks(end.remarks, viewing),
    });
}

function isThere(gate: string, { tree, builds }: Viewing): boolean {
    return builds.holds(tree.gates.get(gate)?.guard);
}

function faultsOf(end: Conclusion | Referral, viewing: Viewing): readonly FaultView[] {
    const { tree, builds, words } = viewing;
    return inBuild(end.faults, viewing).flatMap(({ fault: id }) => {
        const fault = faultOf(id, tree);
        const part = tree.parts.get(id.slice(0, id.lastIndexOf('.')));
        if (!fault || !part || !builds.holds(part.guard) || !builds.holds(fault.guard)) return [];
        return [{ id, title: words.title(fault), part: words.title(part), places: placesOf(part, viewing) }];
    });
}

function viewRepair(repair: EndRepair, viewing: Viewing): RepairView {
    const { words, tree } = viewing;
    return made<RepairView>({
        action: repair.action,
        text: words.of(repair.text),
        faults: repair.faults ?? [],
        takes: repair.takes?.display,
        costs: repair.costs?.display,
        gates: (repair.gates ?? []).filter(id => isThere(id, viewing)).map(id => words.title(tree.gates.get(id), id)),
    });
}

/** After a conclusion all is as it was found; after a referral all is left as it is, with what is said on purpose. */
function howToLeave(kind: AtEnd['kind'], end: Conclusion | Referral, gates: readonly string[], viewing: Viewing) {
    const { tree, words, state } = viewing;
    const leaves = inBuild(end.leaves, viewing);
    const leftGates = leaves.flatMap(left => ('gate' in left ? left.gate : []));
    const leftConditions = leaves.flatMap(left => ('condition' in left ? left.condition : []));
    const isConclusion = kind === 'conclusion';
    const closed = [...new Set([...state.closed, ...gates])].filter(id => !leftGates.includes(id));
    const changed = [...state.conditions].filter(
        ([id, value]) => value !== tree.conditions.get(id)?.values[0]?.id && !leftConditions.includes(id),
    );
    return {
        restore: isConclusion
            ? closed.flatMap(id => tree.gates.get(id) ?? []).map(gate => viewGate(gate, true, viewing))
            : [],
        setBack: isConclusion
            ? changed.map(([condition]) => {
                  const value = tree.conditions.get(condition)?.values[0]?.id ?? '';
                  return { condition, value, words: stateInWords({ condition, value }, tree, words) };
              })
            : [],
        leaves: leaves.map(left =>
            'gate' in left
                ? words.title(tree.gates.get(left.gate), left.gate)
                : stateInWords({ condition: left.condition, value: left.value }, tree, words),
        ),
    };
}

function howToConfirm(kind: AtEnd['kind'], end: Conclusion | Referral, viewing: Viewing) {
    const { tree, words } = viewing;
    const unconfirmed = inBuild(end.unconfirmed, viewing).map(({ reason }) => words.of(reason));
    const isTested = kind === 'conclusion' && unconfirmed.length === 0;
    return {
        unconfirmed,
        complaints: isTested
            ? [...new Set(inBuild(tree.document.tree.complaints, viewing).map(({ test }) => test))].map(test => ({
                  test,
                  title: words.title(tree.tests.get(test), test),
              }))
            : [],
    };
}
