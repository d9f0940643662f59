// A `for` that holds in no build.

import { defineRule } from '../../core/findings/rule.js';
import { guardText } from '../../core/model/guard-words.js';
import { guardFactsOf } from '../../core/questions/guards.js';
import { listOf, quoteName } from '../../core/text/words.js';

export default defineRule({
    code: 'impossible-guard',
    since: '0.1.0',
    severity: 'warning',
    group: 'builds',
    cost: 'fast',
    messages: {
        nowhere: 'No build is {guard}.',
        here: 'No build that comes here is {guard}: what stands around it is for {around}.',
    },
    check(model, file, report) {
        const fileModel = model.files.get(file);
        if (!fileModel) return;
        for (const { guard, around } of guardFactsOf(fileModel, model).impossible) {
            const text = quoteName(guardText(guard));
            if (around.length === 0) {
                report(
                    'nowhere',
                    guard,
                    { guard: text },
                    { advice: 'Name other choices, or take out what this `for` belongs to.' },
                );
                continue;
            }
            const outer = listOf(
                around.map(one => quoteName(guardText(one))),
                'and',
            );
            report(
                'here',
                guard,
                { guard: text, around: outer },
                {
                    related: around.map(({ start, end }) => ({ file, start, end, text: 'the `for` around it' })),
                    advice: 'Name other choices, or take out what this `for` belongs to.',
                },
            );
        }
    },
});
