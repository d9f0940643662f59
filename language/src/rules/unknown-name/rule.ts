// Names that lead nowhere: nothing of that sort is declared where the name is looked for.

import { defineRule, type FindingExtras } from '../../core/findings/rule.js';
import type { Mend } from '../../core/findings/finding.js';
import { relativePath } from '../../core/linking/paths.js';
import type { LinkProblem } from '../../core/linking/problem.js';
import type { FileModel } from '../../core/model/file.js';
import type { FileId } from '../../core/model/written.js';
import { nounFor } from '../../core/model/declaration-words.js';
import { listOf, withArticle } from '../../core/text/words.js';

export default defineRule({
    code: 'unknown-name',
    since: '0.1.0',
    severity: 'error',
    group: 'names',
    cost: 'fast',
    messages: {
        unknown: 'There is no {wanted} called `{name}`.',
        unknownWithin: 'There is no {wanted} called `{name}` in {within}.',
        elsewhere: 'The {wanted} `{name}` stands in `{path}`, which this file does not use.',
        instead: '`{name}` is {sort}; {wanted} is needed here.',
    },
    check(model, file, report) {
        const fileModel = model.files.get(file);
        for (const problem of model.problems(file)) {
            if (problem.sort !== 'unknown' || !fileModel) continue;
            const values = { wanted: problem.wanted, name: problem.reference.text, within: problem.within };
            const elsewhere = problem.elsewhere[0];
            if (elsewhere !== undefined) {
                const path = relativePath(file, elsewhere);
                report(
                    'elsewhere',
                    problem.reference,
                    { ...values, path },
                    usesMends(fileModel, file, problem.elsewhere),
                );
            } else if (problem.instead) {
                const sort = withArticle(nounFor(problem.instead));
                const wanted = withArticle(problem.wanted);
                report('instead', problem.reference, { ...values, sort, wanted }, nearMends(problem));
            } else {
                report(
                    problem.within === '' ? 'unknown' : 'unknownWithin',
                    problem.reference,
                    values,
                    nearMends(problem),
                );
            }
        }
    },
});

/** The names like it, as a sentence and as one mend each. */
function nearMends(problem: Extract<LinkProblem, { sort: 'unknown' }>): FindingExtras {
    if (problem.near.length === 0) {
        return { advice: `Declare ${withArticle(problem.wanted)} of that name, or name one that there is.` };
    }
    const names = problem.near.map(name => `\`${name}\``);
    const advice =
        names.length === 1
            ? `There is ${withArticle(problem.wanted)} with a similar name: ${names[0]}.`
            : `There are names like it: ${listOf(names, 'and')}.`;
    const mends: Mend[] = problem.near.map(name => ({
        title: `Write \`${name}\``,
        safety: 'suggestion',
        edits: [
            { file: problem.reference.file, start: problem.reference.start, end: problem.reference.end, text: name },
        ],
    }));
    return { advice, mends };
}

/** Adds the missing `uses` line, after those that are there. */
function usesMends(fileModel: FileModel, file: FileId, elsewhere: readonly FileId[]): FindingExtras {
    const last = fileModel.uses.at(-1);
    const place = last?.end ?? 0;
    const mends: Mend[] = elsewhere.slice(0, 3).map(other => {
        const line = `uses "${relativePath(file, other)}"`;
        return {
            title: `Add \`${line}\``,
            safety: 'safe',
            edits: [{ file, start: place, end: place, text: last ? `\n${line}` : `${line}\n\n` }],
        };
    });
    return { advice: `Add \`uses "${relativePath(file, elsewhere[0] ?? '')}"\` at the top of this file.`, mends };
}
