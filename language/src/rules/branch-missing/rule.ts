// Outcomes (or results) that some build can show and no branch takes.

import { makeCounterexample } from '../../core/findings/counterexample.js';
import type { Mend } from '../../core/findings/finding.js';
import { defineRule } from '../../core/findings/rule.js';
import type { Span } from '../../core/model/written.js';
import { missingBranches, type Question, questionsOf } from '../../core/questions/branches.js';
import { describeBuild } from '../../core/questions/builds.js';
import { listOf, quoteName } from '../../core/text/words.js';

export default defineRule({
    code: 'branch-missing',
    since: '0.1.0',
    severity: 'error',
    group: 'structure',
    cost: 'fast',
    messages: {
        missing: '{asked} can answer {names}, and no branch follows.',
    },
    check(model, file, report) {
        const fileModel = model.files.get(file);
        if (!fileModel) return;
        for (const question of questionsOf(fileModel, model)) {
            const missing = missingBranches(question, model);
            const first = missing[0];
            if (!first) continue;
            const { statement, step } = question;
            const names = missing.map(({ answer }) => answer.name);
            const asked = askedName(statement);
            report(
                'missing',
                placeOf(statement),
                { asked: quoteName(asked), names: listOf(names.map(quoteName), 'or') },
                {
                    counterexample: makeCounterexample({
                        build: describeBuild(first.build, first.asked),
                        path: [{ ...spanOf(statement), step: step.name.text, text: `${asked}: ${first.answer.name}` }],
                        end: 'no branch follows',
                    }),
                    related: missing.map(({ answer }) => ({
                        ...spanOf(answer.place),
                        text: `${quoteName(answer.name)} is declared here`,
                    })),
                    mends: branchMends(statement, names),
                    advice: `Add ${names.length === 1 ? 'a branch' : 'branches'} for ${listOf(names.map(quoteName), 'and')}.`,
                },
            );
        }
    },
});

function askedName(statement: Question): string {
    if (statement.sort === 'follow') return statement.procedure.text;
    const { owner, test } = statement.test;
    return test ? `${owner.text}.${test.text}` : owner.text;
}

function placeOf(statement: Question): Span {
    return statement.sort === 'follow' ? statement.procedure : statement.test;
}

function spanOf(place: Span): Span {
    return { file: place.file, start: place.start, end: place.end };
}

/** Adds all missing branches at once, or one for all of them; where they lead is for the writer to say. */
function branchMends(statement: Question, names: readonly string[]): Mend[] {
    const each = names.map(name => `${name} -> `).join('  ');
    if (names.length === 1) return [branchMend(statement, `Add a branch for \`${names.join('')}\``, each)];
    return [
        branchMend(statement, `Add the ${names.length} missing branches`, each),
        branchMend(statement, 'Add one branch for all others: `otherwise`', 'otherwise -> '),
    ];
}

/** Puts branches before the closing brace, where there is one, else behind what is written. */
function branchMend(statement: Question, title: string, branches: string): Mend {
    const { block, file } = statement;
    const last = statement.branches.at(-1);
    const isClosed = block && block.end - block.start > 1 && !(last && last.end >= block.end);
    const place = isClosed ? block.end - 1 : (block ?? statement).end;
    const text = block ? `  ${branches}` : ` { ${branches}}`;
    return { title, safety: 'placeholder', edits: [{ file, start: place, end: place, text }] };
}
