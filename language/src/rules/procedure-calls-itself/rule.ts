// Procedures that follow each other in a circle, so that nobody gets out of them.

import { defineRule } from '../../core/findings/rule.js';
import type { Model } from '../../core/model/model.js';
import type { Follow, Procedure } from '../../core/model/trees.js';
import { findCircles, type Link } from '../../core/questions/circles.js';
import { oncePerModel } from '../../core/questions/remember.js';
import { chainOf, quoteName } from '../../core/text/words.js';

export default defineRule({
    code: 'procedure-calls-itself',
    since: '0.1.0',
    severity: 'error',
    group: 'structure',
    cost: 'fast',
    messages: {
        itself: 'Procedure {name} follows itself.',
        circle: 'Procedure {name} comes back to itself: {chain}.',
    },
    check(model, file, report) {
        for (const circle of circlesOf(model)) {
            const [first, ...others] = circle;
            if (first?.from.file !== file) continue;
            const names = [...circle.map(link => link.from), first.from].map(({ name }) => quoteName(name.text));
            report(
                others.length === 0 ? 'itself' : 'circle',
                first.by.procedure,
                { name: quoteName(first.from.name.text), chain: chainOf(names) },
                {
                    related: others.map(({ by, to }) => ({
                        file: by.file,
                        start: by.procedure.start,
                        end: by.procedure.end,
                        text: `follows ${quoteName(to.name.text)}`,
                    })),
                    advice: 'End the procedure with a result, and let the tree that follows it decide what to do next.',
                },
            );
        }
    },
});

const circlesOf = oncePerModel((model: Model) => {
    const procedures = [...model.files.values()].flatMap(file => file.procedures);
    const links = new Map(procedures.map(from => [from, linksFrom(from, model)]));
    return findCircles(procedures, procedure => links.get(procedure) ?? []);
});

function linksFrom(from: Procedure, model: Model): Link<Procedure, Follow>[] {
    return from.steps.flatMap(({ statements }) =>
        statements.flatMap(by => {
            const to = by.sort === 'follow' ? model.target(by.procedure) : undefined;
            return by.sort === 'follow' && to?.sort === 'procedure' ? [{ from, by, to }] : [];
        }),
    );
}
