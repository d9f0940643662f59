// Complaints and ends of a tree, with their names looked up.

import type { Conclusion, Referral, Tree } from '../model/trees.js';
import { repairsOf } from './resolve-parts.js';
import { faultsNamed, guardOf, type Resolving, settingsOf, shareOf, stateOf, testNamed } from './resolving.js';
import type { RouteComplaint, RouteEnd, Way } from './route.js';
import type { Unit } from './unit.js';

/** The complaints of a tree. Those whose test is unknown are left out. */
export function resolveComplaints(tree: Tree, unit: Unit, names: Resolving): RouteComplaint[] {
    return tree.complaints.flatMap(complaint => {
        const test = testNamed(complaint.test, names, {});
        const declared = test === undefined ? undefined : unit.tests[test];
        if (!declared) return [];
        return [
            {
                test: declared.number,
                outcomes: complaint.outcomes.map(({ text }) => declared.outcomes.indexOf(text)),
                when: stateOf(complaint.when, names),
                mistaken: shareOf(complaint.mistaken) ?? 0,
                guard: guardOf(complaint.guard, names),
            },
        ];
    });
}

/** One end of a tree. */
export function resolveEnd(
    written: Conclusion | Referral,
    number: number,
    names: Resolving,
    stillWrong: readonly Way[],
): RouteEnd {
    return {
        number,
        written,
        guard: guardOf(written.guard, names),
        names: written.faults.flatMap(clause =>
            faultsNamed(clause.fault, names, {}).map(fault => ({ fault, clause, guard: guardOf(clause.guard, names) })),
        ),
        repairs: repairsOf(written.repairs, names),
        leavesGates: written.leaves.flatMap(({ gate, guard }) => {
            const target = gate && names.model.target(gate);
            const found = target?.sort === 'gate' ? names.gates.get(target) : undefined;
            return found === undefined ? [] : [{ gate: found, guard: guardOf(guard, names) }];
        }),
        leavesConditions: written.leaves.flatMap(({ file, start, end, condition, value, guard }) => {
            if (!condition || !value) return [];
            return settingsOf([{ file, start, end, condition, value }], names).map(setting => ({
                ...setting,
                guard: guardOf(guard, names),
            }));
        }),
        unconfirmed: written.unconfirmed.map(({ guard }) => ({ guard: guardOf(guard, names) })),
        stillWrong,
    };
}
