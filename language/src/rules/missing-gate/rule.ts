// A hand or an instrument at a hazard that no gate has under control.

import { defineRule } from '../../core/findings/rule.js';
import { hazardPlaces } from '../../core/questions/hazards.js';
import { controlAdvice, controlMends } from '../../core/questions/control-mends.js';
import { listOf, quoteName } from '../../core/text/words.js';

export default defineRule({
    code: 'missing-gate',
    since: '0.1.0',
    severity: 'error',
    group: 'safety',
    cost: 'slow',
    asks: 'walked',
    messages: {
        step: 'Whoever does this in zone {zone} meets {hazards}, which nothing has under control.',
        reading: 'Whoever reads this in zone {zone} meets {hazards}, which nothing has under control.',
        repair: 'Whoever repairs {part} at {end} meets {hazards}, which nothing has under control.',
    },
    check(model, file, report, signal) {
        for (const place of hazardPlaces(model, file, signal)) {
            if (place.wasControlled) continue;
            const values = {
                hazards: listOf(
                    place.hazards.map(({ name }) => quoteName(name.text)),
                    'and',
                ),
                zone: quoteName(place.zone),
                part: quoteName(place.part ?? ''),
                end: quoteName(place.end?.name.text ?? ''),
            };
            const isReading = place.statement?.sort === 'read';
            report(place.end ? 'repair' : isReading ? 'reading' : 'step', place.place, values, {
                ...(place.counterexample ? { counterexample: place.counterexample } : {}),
                advice: controlAdvice(place),
                mends: controlMends(place),
            });
        }
    },
});
