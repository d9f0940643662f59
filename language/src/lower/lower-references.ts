// Lowers references of two names: a fault of a part, a test of a part. The dot decides what the first name may be.

import type * as ast from '../generated/ast.js';
import type { FaultReference } from '../core/model/equipment.js';
import type { TestReference } from '../core/model/tests.js';
import type { GuardedFault } from '../core/model/trees.js';
import type { ReferenceRole } from '../core/model/written.js';
import type { Lowering } from './context.js';
import { lowerGuard } from './lower-guards.js';
import { lowerReference } from './lower-written.js';
import { endOf, hasDot, type Place, pointAround, startOf } from './spans.js';

/** `contactor.coil-open`, or one name alone; `owner` is what must have it, for the place of a missing one. */
export function lowerFaultReference(
    context: Lowering,
    node: ast.FaultReference | undefined,
    owner: Place,
): FaultReference {
    if (!node) {
        const missing = lowerReference(context, undefined, 'fault', owner);
        return { file: context.file, start: missing.start, end: missing.end, owner: missing, fault: undefined };
    }
    const place = node.$cstNode ?? pointAround(node);
    const dotted = node.fault !== undefined || hasDot(place);
    const first = lowerReference(context, node.owner, dotted ? 'part' : 'fault', place);
    const fault = dotted ? lowerReference(context, node.fault, 'fault-of-part', place) : undefined;
    return { file: context.file, start: first.start, end: (fault ?? first).end, owner: first, fault };
}

/** A fault of a list that may be limited to some builds. */
export function lowerGuardedFault(context: Lowering, node: ast.GuardedFault): GuardedFault {
    const place = node.$cstNode ?? pointAround(node);
    return {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        fault: lowerFaultReference(context, node.fault, place),
        guard: lowerGuard(context, node.guard),
    };
}

/** The faults of a list. */
export function lowerFaultReferences(
    context: Lowering,
    nodes: readonly ast.FaultReference[] | undefined,
    owner: Place,
): readonly FaultReference[] {
    return (nodes ?? []).map(node => lowerFaultReference(context, node, owner));
}

/** `coil-voltage` or `k1.coil-voltage`; `alone` is the role of a name without a dot. */
export function lowerTestReference(
    context: Lowering,
    node: ast.TestReference | undefined,
    owner: Place,
    alone: ReferenceRole = 'test',
): TestReference {
    if (!node) {
        const missing = lowerReference(context, undefined, alone, owner);
        return { file: context.file, start: missing.start, end: missing.end, owner: missing, test: undefined };
    }
    const place = node.$cstNode ?? pointAround(node);
    const dotted = node.test !== undefined || hasDot(place);
    const first = lowerReference(context, node.owner, dotted ? 'part' : alone, place);
    const test = dotted ? lowerReference(context, node.test, 'test-of-part', place) : undefined;
    return { file: context.file, start: first.start, end: (test ?? first).end, owner: first, test };
}
