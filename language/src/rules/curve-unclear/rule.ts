// Curves and tables that are no law, or that are used where they give nothing certain.

import type { Mend } from '../../core/findings/finding.js';
import { defineRule } from '../../core/findings/rule.js';
import type { Span } from '../../core/model/written.js';
import type { CurveFault } from '../../core/readings/curve-sides.js';
import { readCurve } from '../../core/readings/curves.js';
import { mismatchesOf } from '../../core/readings/mismatches.js';
import { quoteName } from '../../core/text/words.js';

export default defineRule({
    code: 'curve-unclear',
    since: '0.1.0',
    severity: 'error',
    group: 'readings',
    cost: 'fast',
    messages: {
        nothing: '{name} does not say what it follows.',
        several: '{name} follows more than one law.',
        'limited-twice': '{name} is limited twice.',
        unknown: 'There is no {what} {word}.',
        lacking: '{law} needs {wanted}.',
        unexpected: '{law} takes no {written}.',
        'wrong-amount': '{written} is no {wanted}, which {of} needs here.',
        'not-positive': '{written} must be above zero.',
        'not-falling': 'With these three numbers the resistance does not fall as it gets warmer.',
        'out-of-reach': 'The values that this gives are too large or too small to work with.',
        'same-ends': 'The loop stands for {written} at 4 mA and at 20 mA.',
        'beyond-law': '{end} lies beyond the law, which holds for {domain}.',
        'too-few-rows': '{name} has less than two rows.',
        'row-order': '{input} is out of order behind {before}.',
        'repeated-input': '{input} stands in the table before, as {first}.',
        'output-not-positive': '{output} has no logarithm, and the table is `logarithmic`.',
        'two-ways': '{name} gives some values twice, so that it cannot be read this way.',
        arguments: '{name} takes one value.',
    },
    check(model, file, report) {
        const fileModel = model.files.get(file);
        if (!fileModel) return;
        for (const place of [fileModel, ...fileModel.equipment]) {
            for (const curve of [...place.tables, ...place.curves]) {
                for (const fault of readCurve(curve).faults) {
                    // What is half written is told by the reading of the file.
                    if (isNothing(fault.place)) continue;
                    report(fault.sort, spanOf(fault.place), quoted(fault), {
                        advice: fault.advice,
                        mends: mendsFor(fault),
                    });
                }
            }
        }
        for (const { place, sort, curve } of mismatchesOf(fileModel, model).uses) {
            const related = [{ ...spanOf(curve.name), text: `this is the ${curve.sort}` }];
            report(sort, place, { name: quoteName(curve.name.text) }, { advice: useAdvice[sort], related });
        }
    },
});

const useAdvice = {
    'two-ways': 'Use it with a value of what stands on its left, or take out the part where it turns back.',
    arguments: 'Give it the one reading that it looks up.',
} as const;

function isNothing({ start, end }: Span): boolean {
    return start === end;
}

function spanOf({ file, start, end }: Span): Span {
    return { file, start, end };
}

/** What the author wrote stands between backticks; what we say does not. */
const ownWords: ReadonlySet<string> = new Set(['what', 'wanted']);

function quoted({ words }: CurveFault): Record<string, string> {
    return Object.fromEntries(
        Object.entries(words).map(([name, text]) => [name, ownWords.has(name) ? text : quoteName(text)]),
    );
}

function mendsFor({ place, near = [] }: CurveFault): Mend[] {
    return near.map(word => ({
        title: `Write \`${word}\``,
        safety: 'suggestion',
        edits: [{ ...spanOf(place), text: word }],
    }));
}
