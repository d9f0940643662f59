// Pairs of faults that end at a repair of neither; looked at only where the workspace asks for it.

import { defineRule } from '../../core/findings/rule.js';
import { counterexampleOf } from '../../core/questions/counterexamples.js';
import { pickExample, walkedTrees } from '../../core/questions/walks.js';
import { listOf, plural, quoteName } from '../../core/text/words.js';
import { walkPairs } from '../../core/walk/pairs.js';

export default defineRule({
    code: 'double-fault',
    since: '0.1.0',
    severity: 'information',
    group: 'diagnosis',
    cost: 'slow',
    asks: 'walked',
    messages: {
        pairs: 'Of {all} of faults that bring this complaint, {wrong} at a conclusion that names neither: {examples}.',
    },
    check(model, file, report, signal, settings) {
        const fileModel = model.files.get(file);
        if (!fileModel || !settings.doubleFaults) return;
        for (const walked of walkedTrees(fileModel, model, signal)) {
            const walkedPairs = walkPairs(walked.walk, signal);
            const [first] = walkedPairs?.wrong ?? [];
            if (!walkedPairs || !first) continue;
            const { faults } = walked.all.unit;
            const pairs = new Map(
                walkedPairs.wrong.map(({ crowd }) => {
                    const names = crowd.presence.arrival.map(fault => quoteName(faults[fault]?.name ?? ''));
                    return [names.join(), names.join(' with ')];
                }),
            );
            const example = pickExample([first.crowd], walked.walk);
            const end = walked.route.ends[first.end]?.written.name.text ?? '';
            const goal = { sort: 'end', end: first.end } as const;
            const counterexample = example && counterexampleOf(example, goal, walked, `ends at ${quoteName(end)}`);
            const values = {
                all: plural(walkedPairs.pairs, 'pair'),
                wrong: `${pairs.size} ${pairs.size === 1 ? 'ends' : 'end'}`,
                examples: listOf([...pairs.values()], 'and', 3),
            };
            report('pairs', walked.tree.name, values, {
                ...(counterexample ? { counterexample } : {}),
                advice: 'Confirm before the repair that the part is bad, or accept that the first repair of such a pair is in vain.',
            });
        }
    },
});
