// Writes references to tests and faults as ids, and resolves whole parts and kinds into faults.

import type { Fault, FaultReference, Kind, Part, Supply } from '../../core/model/equipment.js';
import type { Declaration } from '../../core/model/file.js';
import type { Reference } from '../../core/model/written.js';
import type { Test, TestReference } from '../../core/model/tests.js';
import { find, type PartWithKind, report, writeId, type Writer } from './writer.js';

/** What a fault reference names: some faults, everything that `it` can have, or a code that is remembered. */
export interface NamedFaults {
    readonly faults: readonly NamedFault[];
    /** `it`, where a procedure means every fault of what it is about. */
    readonly wholeSubject: string | undefined;
    /** The test whose remembered code is meant. */
    readonly code: string | undefined;
}

export interface NamedFault {
    readonly id: string;
    /** Undefined for a fault of `it`, which only the call of the procedure makes known. */
    readonly declared: { readonly fault: Fault; readonly owner: PartWithKind } | undefined;
}

/** A part with its kind. */
export function withKind(writer: Writer, part: Part | Supply): PartWithKind {
    const target = part.sort === 'part' && part.kind ? find(writer, part.kind) : undefined;
    return { part, kind: target?.sort === 'kind' ? target : undefined };
}

/** What a part has itself, then what it has from its kind under names that it does not use itself. */
export function ownedFaults({ part, kind }: PartWithKind): readonly Fault[] {
    return mergeByName(part.faults, kind?.faults ?? []);
}

export function ownedTests({ part, kind }: PartWithKind): readonly Test[] {
    return mergeByName(part.tests, kind?.tests ?? []);
}

export function faultId(owner: PartWithKind, fault: Fault): string {
    return `${owner.part.name.text}.${fault.name.text}`;
}

export function writeTestId(writer: Writer, { owner, test }: TestReference): string {
    if (test) {
        find(writer, test);
        return `${writeId(writer, owner)}.${test.text}`;
    }
    const target = find(writer, owner);
    const within = writer.within;
    const isOwn = within && target?.sort === 'test' && ownedTests(within).includes(target);
    return isOwn ? `${within.part.name.text}.${owner.text}` : owner.text;
}

/** The faults that a reference names; a part alone means all of its faults. */
export function writeFaults(writer: Writer, { owner, fault }: FaultReference): NamedFaults {
    const target = find(writer, owner);
    if (!target) return noFaults;
    if (fault) return oneFault(namedFault(writer, owner, target, fault));
    switch (target.sort) {
        case 'part':
        case 'supply': {
            const part = withKind(writer, target);
            const faults = ownedFaults(part).map(each => ({
                id: faultId(part, each),
                declared: { fault: each, owner: part },
            }));
            return { ...noFaults, faults };
        }
        case 'fault':
            return writer.within
                ? oneFault({
                      id: faultId(writer.within, target),
                      declared: { fault: target, owner: writer.within },
                  })
                : noFaults;
        case 'subject':
            return { ...noFaults, wholeSubject: owner.text };
        case 'test':
            return { ...noFaults, code: writeTestId(writer, { ...owner, owner, test: undefined }) };
        default:
            report(writer, owner, `\`${owner.text}\` is neither a part nor a fault.`);
            return noFaults;
    }
}

/** The ids of faults, where nothing but faults can stand. */
export function writeFaultIds(writer: Writer, reference: FaultReference): readonly string[] {
    const { faults, wholeSubject, code } = writeFaults(writer, reference);
    if (wholeSubject !== undefined || code !== undefined) {
        report(writer, reference, `\`${reference.owner.text}\` must name a part or a fault here.`);
    }
    return faults.map(fault => fault.id);
}

const noFaults: NamedFaults = { faults: [], wholeSubject: undefined, code: undefined };

function oneFault(fault: NamedFault): NamedFaults {
    return { ...noFaults, faults: [fault] };
}

function namedFault(writer: Writer, owner: Reference, target: Declaration, fault: Reference): NamedFault {
    const id = `${owner.text}.${fault.text}`;
    const declared = find(writer, fault);
    if (declared?.sort !== 'fault' || (target.sort !== 'part' && target.sort !== 'supply')) {
        return { id, declared: undefined };
    }
    return { id, declared: { fault: declared, owner: withKind(writer, target) } };
}

function mergeByName<T extends Kind['faults'][number] | Test>(
    own: readonly T[],
    inherited: readonly T[],
): readonly T[] {
    const names = new Set(own.map(each => each.name.text));
    return [...own, ...inherited.filter(each => !names.has(each.name.text))];
}
