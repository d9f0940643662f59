// Writes conclusions and referrals, with the repairs that each of them asks for.

import type { Repair } from '../../core/model/equipment.js';
import type * as model from '../../core/model/trees.js';
import type * as document from '../types.js';
import { allGuards, writeGuard } from './guards.js';
import { repairsOf, writeGuardedFaults } from './parts.js';
import { type NamedFault, writeFaults } from './references.js';
import { writeHandovers, writeRemarks, writeRepair } from './remarks.js';
import { made, present, report, some, writeId, writeOptionalText, type Writer, writeText } from './writer.js';

export function writeConclusion(writer: Writer, conclusion: model.Conclusion): document.Conclusion {
    return made<document.Conclusion>({
        id: conclusion.name.text,
        title: writeOptionalText(writer, conclusion.title),
        inOrder: conclusion.inOrder || undefined,
        ...writeEnd(writer, conclusion, writeEndRepairs(writer, conclusion)),
    });
}

/** A referral hands the faults over, so only repairs that it names itself are done. */
export function writeReferral(writer: Writer, referral: model.Referral): document.Referral {
    return made<document.Referral>({
        id: referral.name.text,
        title: writeOptionalText(writer, referral.title),
        reason: writeOptionalText(writer, referral.reason),
        ...writeEnd(writer, referral, writeOwnRepairs(writer, referral)),
    });
}

function writeEnd(writer: Writer, end: model.End, repairs: readonly document.EndRepair[]) {
    return {
        faults: some(end.faults.flatMap(guarded => writeGuardedFaults(writer, guarded))),
        repairs: some(repairs),
        unconfirmed: some(
            end.unconfirmed.map(unconfirmed =>
                made<document.Unconfirmed>({
                    reason: writeText(writer, unconfirmed.reason),
                    guard: writeGuard(writer, unconfirmed),
                }),
            ),
        ),
        leaves: some(present(end.leaves.map(leaves => writeLeaves(writer, leaves)))),
        stillWrong: writeHandovers(writer, end.stillWrong),
        cautions: some(writer.cautions.get(end) ?? []),
        ...writeRemarks(writer, end),
        guard: writeGuard(writer, end),
    };
}

function writeOwnRepairs(writer: Writer, end: model.End): readonly document.EndRepair[] {
    const faults = some(end.faults.flatMap(({ fault }) => writeFaults(writer, fault).faults.map(({ id }) => id)));
    return end.repairs.map(repair => endRepair(faults, writeRepair(writer, repair)));
}

interface RepairOfFaults {
    readonly faults: string[];
    readonly repair: Repair;
    readonly guard: document.Guard | undefined;
}

// One repair often puts several faults of a part right; it is written once for the builds that it is for.
function writeEndRepairs(writer: Writer, end: model.End): readonly document.EndRepair[] {
    if (end.repairs.length > 0) return writeOwnRepairs(writer, end);
    const found: RepairOfFaults[] = [];
    for (const guarded of end.faults) {
        const guard = writeGuard(writer, guarded);
        for (const fault of writeFaults(writer, guarded.fault).faults) {
            for (const repair of repairsOfFault(fault)) addRepair(found, repair, fault.id, guard);
        }
    }
    return found.map(({ faults, repair, guard }) => {
        const written = writeRepair(writer, repair);
        const { guard: own, ...rest } = written;
        const both = allGuards(guard, own);
        return endRepair(faults, both ? { ...rest, guard: both } : rest);
    });
}

function repairsOfFault({ declared }: NamedFault): readonly Repair[] {
    if (!declared) return [];
    return declared.fault.repairs.length > 0 ? declared.fault.repairs : repairsOf(declared.owner);
}

// Two parts of one kind share the repair of the kind, and still both of them have to be repaired.
function addRepair(found: RepairOfFaults[], repair: Repair, fault: string, guard: document.Guard | undefined): void {
    const part = fault.slice(0, fault.lastIndexOf('.'));
    const same = found.find(
        other =>
            other.repair === repair &&
            JSON.stringify(other.guard) === JSON.stringify(guard) &&
            other.faults.every(id => id.slice(0, id.lastIndexOf('.')) === part),
    );
    if (same) same.faults.push(fault);
    else found.push({ faults: [fault], repair, guard });
}

function endRepair(faults: readonly string[] | undefined, repair: document.Repair): document.EndRepair {
    return faults ? { faults, ...repair } : repair;
}

function writeLeaves(writer: Writer, leaves: model.Leaves): document.Leaves | undefined {
    const guard = writeGuard(writer, leaves);
    if (leaves.gate) return made<document.LeavesGate>({ gate: writeId(writer, leaves.gate), guard });
    if (leaves.condition && leaves.value) {
        const condition = writeId(writer, leaves.condition);
        return made<document.LeavesCondition>({ condition, value: writeId(writer, leaves.value), guard });
    }
    report(writer, leaves, 'This `leaves` does not say what stays as it is.');
    return undefined;
}
