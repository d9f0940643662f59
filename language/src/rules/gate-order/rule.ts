// Elements of a gate in another order than the named one asks for.

import { exampleOfBuild } from '../../core/findings/counterexample.js';
import { defineRule } from '../../core/findings/rule.js';
import type { GateElement } from '../../core/model/gates.js';
import type { Span } from '../../core/model/written.js';
import { misplacedElements } from '../../core/questions/gate-orders.js';
import { listOf } from '../../core/text/words.js';

export default defineRule({
    code: 'gate-order',
    since: '0.1.0',
    severity: 'error',
    group: 'safety',
    cost: 'fast',
    messages: {
        early: 'This `{element}` comes too early: by {order} it comes after {others}.',
        late: 'This `{element}` comes too late: by {order} it comes before {others}.',
    },
    check(model, file, report, _signal, settings) {
        const { lockoutOrder } = settings;
        for (const equipment of model.files.get(file)?.equipment ?? []) {
            for (const { element, comes, others, build } of misplacedElements(equipment, model, lockoutOrder)) {
                const words = [...new Set(others.map(other => `\`${other.element}\``))];
                const values = { element: element.element, order: lockoutOrder.title, others: listOf(words, 'and') };
                const example = exampleOfBuild(build, `\`${element.element}\` comes ${comes}`);
                const isEarly = comes === 'too early';
                const target = isEarly ? others.at(-1) : others[0];
                report(isEarly ? 'early' : 'late', keywordOf(element), values, {
                    ...(example ? { counterexample: example } : {}),
                    related: others.map(other => ({ ...keywordOf(other), text: `\`${other.element}\` stands here` })),
                    advice: `Move it ${isEarly ? 'behind' : 'before'} ${target ? wordsFor(target) : 'the others'}.`,
                });
            }
        }
    },
});

function keywordOf({ file, start, element }: GateElement): Span {
    return { file, start, end: start + element.length };
}

function wordsFor({ element, hazards }: GateElement): string {
    return `\`${[element, hazards.map(({ text }) => text).join(', ')].join(' ').trim()}\``;
}
