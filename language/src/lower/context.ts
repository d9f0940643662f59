// What lowering carries along: the file, the count of its references, and what was found on the way.

import type { AstNode } from 'langium';
import type { Finding, Severity } from '../core/findings/finding.js';
import { type FindingExtras, makeFinding } from '../core/findings/rule.js';
import type { Declaration } from '../core/model/file.js';
import type { FileId, Span } from '../core/model/written.js';

/** The state of lowering one file; everything else about lowering is plain functions. */
export interface Lowering {
    readonly file: FileId;
    /** How many references there are so far: the number of the next one. */
    references: number;
    readonly findings: Finding[];
    /** The syntax node of each declaration; undefined where nobody asked for it. */
    readonly nodes: Map<Declaration, AstNode> | undefined;
}

/** The declaration itself, noted with its syntax node where somebody asked for that. */
export function declared<D extends Declaration>(context: Lowering, declaration: D, node: AstNode): D {
    context.nodes?.set(declaration, node);
    return declaration;
}

/** Reports one finding of lowering. */
export function report(
    context: Lowering,
    code: LoweringCode,
    message: string,
    place: Span,
    extras: FindingExtras & { readonly advice: string },
): void {
    context.findings.push(makeFinding(code, severities[code], message, place, extras));
}

const severities = {
    'said-twice': 'error',
    'amount-without-unit': 'error',
    'unclear-range': 'error',
    'mixed-joins': 'error',
    'method-missing': 'warning',
    'outcome-missing': 'error',
    'normal-missing': 'error',
    'step-goes-on': 'warning',
} as const satisfies Record<string, Severity>;

/** What lowering can find; each code has its page among the rules. */
export type LoweringCode = keyof typeof severities;
