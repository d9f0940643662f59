// Puts a statement or a clause beside others, in the layout in which those are written.
//
// Rules see no text. Whether a block stands on one line shows in how near its parts stand to each other: more than the braces
// and spaces of one line is a new line.

import type { Edit } from '../findings/finding.js';
import type { Referral, Statement, Step } from '../model/trees.js';

/** A statement of a step in front of another of its statements. */
export function insertBefore(statement: Statement, { name, title, guard, statements }: Step, text: string): Edit {
    const { file, start } = statement;
    const before = statements[statements.indexOf(statement) - 1];
    const heading = Math.max(name.end, title?.end ?? 0, guard?.end ?? 0);
    const isOnLine = before ? start - before.end <= '  '.length : start - heading <= ' { '.length;
    return { file, start, end: start, text: `${text}${isOnLine ? '  ' : '\n    '}` };
}

/** A clause of a referral behind all that it says already, in braces of its own where it has none. */
export function insertInReferral(end: Referral, text: string): Edit {
    const { file, name, title, guard, reason, faults, repairs, unconfirmed, stillWrong, remarks, safety } = end;
    const heading = Math.max(name.end, title?.end ?? 0, reason?.end ?? 0, guard?.end ?? 0);
    if (end.end === heading) return { file, start: heading, end: heading, text: ` {\n    ${text}\n  }` };
    const members = [...faults, ...repairs, ...unconfirmed, ...end.leaves, ...stillWrong, ...remarks, ...safety];
    const last = Math.max(...[...members, ...end.acceptances].map(member => member.end), 0);
    // Braces with nothing in them.
    if (last === 0) return { file, start: end.end - 1, end: end.end - 1, text: `\n    ${text}\n  ` };
    const isOnLine = end.end - last <= ' }'.length;
    return { file, start: last, end: last, text: `${isOnLine ? '  ' : '\n    '}${text}` };
}
