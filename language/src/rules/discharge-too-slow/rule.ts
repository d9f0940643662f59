// A stored charge that lasts longer than is said, or of which nothing is said.

import { exampleOfBuild } from '../../core/findings/counterexample.js';
import type { Mend } from '../../core/findings/finding.js';
import { defineRule } from '../../core/findings/rule.js';
import type { Span } from '../../core/model/written.js';
import { type SlowDischarge, slowDischarges } from '../../core/questions/discharges.js';
import { quoteName } from '../../core/text/words.js';

export default defineRule({
    code: 'discharge-too-slow',
    since: '0.1.0',
    severity: 'error',
    group: 'safety',
    cost: 'fast',
    messages: {
        said: 'The charge of {hazard} ({energy}) needs {needed} to fall from {from} to {to}, longer than {time}.',
        waited: 'The charge of {hazard} ({energy}) needs {needed} to fall from {from} to {to}, and somebody waits {time} only.',
        unsaid: 'The charge of {hazard} ({energy}) needs {needed} to fall from {from} to {to}, and nobody waits for it.',
    },
    check(model, file, report, _signal, settings) {
        for (const equipment of model.files.get(file)?.equipment ?? []) {
            for (const slow of slowDischarges(equipment, model, settings.safetyLimits)) {
                const { hazard, sort, place, time, build, stored } = slow;
                const values = {
                    hazard: quoteName(hazard.name.text),
                    energy: `${round(slow.energy, 'near')} J`,
                    needed: timeText(slow.needed),
                    from: `${round(slow.from, 'near')} V`,
                    to: `${round(slow.to, 'near')} V`,
                    time: time?.written ?? '',
                };
                const example = exampleOfBuild(build, `\`${hazard.name.text}\` lasts ${timeText(slow.needed)}`);
                const isElsewhere = time !== undefined && place === stored;
                report(sort, spanOf(place), values, {
                    ...(example ? { counterexample: example } : {}),
                    related: [
                        ...(place === stored
                            ? []
                            : [{ ...spanOf(stored), text: 'what is stored, and what empties it' }]),
                        ...(isElsewhere ? [{ ...spanOf(time), text: 'somebody waits here' }] : []),
                    ],
                    advice: adviceFor(slow),
                    mends: mendsFor(slow),
                });
            }
        }
    },
});

function adviceFor({ sort, needed, mostOhms }: SlowDischarge): string {
    const time = timeText(needed);
    if (sort === 'unsaid') return `Write \`discharges in ${time}\` or longer, and let the gates wait so long.`;
    const smaller = mostOhms === undefined ? '' : `, or fit at most ${ohmsText(mostOhms)}`;
    return `Let it be ${time} or longer${smaller}. What the maker says comes first.`;
}

function mendsFor({ sort, time, needed, place, stored }: SlowDischarge): Mend[] {
    const text = timeText(needed);
    if (sort === 'unsaid') {
        const edits = [{ file: stored.file, start: stored.end, end: stored.end, text: `\n    discharges in ${text}` }];
        return [{ title: `Add \`discharges in ${text}\``, safety: 'suggestion', edits }];
    }
    if (!time || time.file !== place.file) return [];
    return [{ title: `Write \`${text}\``, safety: 'suggestion', edits: [{ ...spanOf(time), text }] }];
}

/** Seconds, and minutes from ten minutes on; rounded up, so that the time that is told is long enough. */
function timeText(seconds: number): string {
    return seconds >= 600 ? `${round(seconds / 60, 'up')} min` : `${round(seconds, 'up')} s`;
}

/** Rounded down, so that what is told is small enough. */
function ohmsText(ohms: number): string {
    if (ohms >= 1e6) return `${round(ohms / 1e6, 'down')} MΩ`;
    return ohms >= 1e3 ? `${round(ohms / 1e3, 'down')} kΩ` : `${round(ohms, 'down')} Ω`;
}

/** Three digits. */
function round(value: number, way: 'near' | 'up' | 'down'): string {
    if (value === 0) return '0';
    const step = 10 ** (Math.floor(Math.log10(value)) - 2);
    const steps = value / step;
    // What is short of a whole step by the noise of the arithmetic alone is that step.
    const whole = { near: Math.round(steps), up: Math.ceil(steps - 1e-6), down: Math.floor(steps + 1e-6) }[way];
    return String(Number((whole * step).toPrecision(4)));
}

function spanOf({ file, start, end }: Span): Span {
    return { file, start, end };
}
