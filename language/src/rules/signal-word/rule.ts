// A signal word that says more or less than the hazard does.

import { exampleOfBuild } from '../../core/findings/counterexample.js';
import { defineRule } from '../../core/findings/rule.js';
import { unfitWords } from '../../core/questions/signal-words.js';
import { quoteName } from '../../core/text/words.js';

export default defineRule({
    code: 'signal-word',
    since: '0.1.0',
    severity: 'warning',
    group: 'safety',
    cost: 'fast',
    messages: {
        things: 'This `notice` is about {hazard}, which can hurt somebody: a notice is for damage to things.',
        low: 'This `caution` is about {hazard} ({what}), which can kill or maim: a caution is for slight injuries.',
        high: 'This `danger` is about {hazard}, whose levels are all too low to kill or maim.',
    },
    check(model, file, report, _signal, settings) {
        const fileModel = model.files.get(file);
        if (!fileModel) return;
        for (const { about, why, what, fitting, build } of unfitWords(fileModel, model, settings.safetyLimits)) {
            const { statement, hazard } = about;
            const place = { file, start: statement.start, end: statement.start + statement.level.length };
            const example = exampleOfBuild(build, `\`${statement.level}\` about \`${hazard.declaration.name.text}\``);
            report(
                why,
                place,
                { hazard: quoteName(hazard.declaration.name.text), what },
                {
                    ...(example ? { counterexample: example } : {}),
                    related: [{ ...nameOf(hazard.declaration.name), text: 'the hazard is declared here' }],
                    advice: advice[why],
                    mends: fitting.map(word => ({
                        title: `Write \`${word}\``,
                        safety: 'suggestion',
                        edits: [{ ...place, text: word }],
                    })),
                },
            );
        }
    },
});

const advice = {
    things: 'Write `caution`, `warning` or `danger`, by how badly somebody could be hurt.',
    low: 'Write `warning` where somebody could be killed or badly hurt, `danger` where that is sure.',
    high: 'Write `caution` or `warning`, so that a `danger` still means one; or give the hazard its right level.',
} as const;

function nameOf({ file, start, end }: { readonly file: string; readonly start: number; readonly end: number }) {
    return { file, start, end };
}
