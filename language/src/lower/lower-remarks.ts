// Lowers what may stand beside any declaration or step: notes, pictures, references, safety statements, acceptances.

import type * as ast from '../generated/ast.js';
import type { Acceptance, Note, Picture, Pointer, Remarks, SafetyStatement } from '../core/model/remarks.js';
import type { Lowering } from './context.js';
import { lowerGuard } from './lower-guards.js';
import { lowerOptionalReference, lowerProse, lowerText, lowerWord, none } from './lower-written.js';
import { endOf, pointAround, startOf } from './spans.js';

/** A syntax node that is a remark of some sort. */
export type RemarkNode = ast.Note | ast.Picture | ast.Reference | ast.SafetyStatement | ast.Accept;

/** Remarks while they are gathered. */
export interface GatheredRemarks extends Remarks {
    readonly remarks: (Note | Picture | Pointer)[];
    readonly safety: SafetyStatement[];
    readonly acceptances: Acceptance[];
}

/** The remarks of a declaration that has none, as most have. */
export const noRemarks: Remarks = { remarks: none, safety: none, acceptances: none };

/** Adds one remark to those of its declaration; `gathered` is undefined before the first. Other nodes are passed over. */
export function addRemark(
    context: Lowering,
    gathered: GatheredRemarks | undefined,
    node: RemarkNode,
): GatheredRemarks | undefined {
    const all = gathered ?? { remarks: [], safety: [], acceptances: [] };
    switch (node.$type) {
        case 'SafetyStatement':
            all.safety.push(lowerSafetyStatement(context, node));
            return all;
        case 'Accept':
            all.acceptances.push(lowerAcceptance(context, node));
            return all;
        case 'Note':
        case 'Picture':
        case 'Reference':
            all.remarks.push(lowerRemark(context, node));
            return all;
        default:
            return gathered;
    }
}

/** A note, a picture or a pointer to another document. */
export function lowerRemark(context: Lowering, node: ast.Note | ast.Picture | ast.Reference): Note | Picture | Pointer {
    const place = node.$cstNode ?? pointAround(node);
    const { file } = context;
    const start = startOf(place);
    const end = endOf(place);
    const guard = lowerGuard(context, node.guard);
    switch (node.$type) {
        case 'Note':
            return { file, start, end, sort: 'note', guard, text: lowerText(context, place, 'text', node.text) };
        case 'Picture':
            return {
                file,
                start,
                end,
                sort: 'picture',
                guard,
                path: lowerText(context, place, 'path', node.path),
                alternative: lowerProse(context, place, 'alternative', node.alternative),
            };
        case 'Reference':
            return {
                file,
                start,
                end,
                sort: 'see',
                guard,
                text: lowerText(context, place, 'text', node.text),
                link: lowerProse(context, place, 'link', node.link),
            };
    }
}

/** A safety statement with its signal word. */
export function lowerSafetyStatement(context: Lowering, node: ast.SafetyStatement): SafetyStatement {
    const place = node.$cstNode ?? pointAround(node);
    return {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        sort: 'safety',
        level: node.level,
        hazard: lowerOptionalReference(context, node.hazard, 'energy', place),
        text: lowerText(context, place, 'text', node.text),
        guard: lowerGuard(context, node.guard),
    };
}

/** A finding that the author lets stand, with the reason. */
export function lowerAcceptance(context: Lowering, node: ast.Accept): Acceptance {
    const place = node.$cstNode ?? pointAround(node);
    return {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        sort: 'accept',
        code: lowerWord(context, place, 'code', node.code),
        reason: lowerProse(context, place, 'reason', node.reason),
    };
}
