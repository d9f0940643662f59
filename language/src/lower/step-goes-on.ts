// Finds statements of a step that nobody can reach, because the step has left before them.

import type { Statement } from '../core/model/trees.js';
import { type Lowering, report } from './context.js';

/** Reports the first thing to do behind a statement that leaves the step for all builds. */
export function reportStepGoesOn(context: Lowering, statements: readonly Statement[]): void {
    const leaving = statements.findIndex(leaves);
    if (leaving < 0) return;
    const left = statements[leaving];
    const after = statements.slice(leaving + 1).find(isAction);
    if (!left || !after) return;
    const words = wordsOf[left.sort];
    report(
        context,
        'step-goes-on',
        `This can never be reached: the step ends with the \`${words}\` before it.`,
        after,
        {
            related: [{ file: left.file, start: left.start, end: left.end, text: `\`${words}\` leaves the step` }],
            advice: `Move it before the \`${words}\`, or into a step of its own that a branch leads to.`,
            unnecessary: true,
        },
    );
}

// A test or procedure without branches is half written or goes on by itself; what it lacks is another finding.
function leaves(statement: Statement): boolean {
    if (statement.guard) return false;
    switch (statement.sort) {
        case 'go':
        case 'continue':
            return true;
        case 'confirm':
            return statement.block !== undefined || statement.branches.length > 0;
        case 'ask':
        case 'follow':
            return statement.block !== undefined;
        default:
            return false;
    }
}

// Notes, pictures, pointers and safety statements are about the step as a whole and may stand at its end.
function isAction(statement: Statement): boolean {
    return statement.sort in wordsOf;
}

const wordsOf: Readonly<Partial<Record<Statement['sort'], string>>> = {
    do: 'do',
    wait: 'wait',
    'gate-used': 'gate',
    restore: 'restore',
    read: 'read',
    ask: 'test',
    confirm: 'confirm',
    follow: 'follow',
    go: 'go',
    continue: 'continue with',
};
