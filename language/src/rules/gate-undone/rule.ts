// A hand or an instrument at a hazard that was under control before, and is so no longer.

import { defineRule } from '../../core/findings/rule.js';
import { controlAdvice, controlMends } from '../../core/questions/control-mends.js';
import { hazardPlaces } from '../../core/questions/hazards.js';
import { listOf, quoteName } from '../../core/text/words.js';

export default defineRule({
    code: 'gate-undone',
    since: '0.1.0',
    severity: 'error',
    group: 'safety',
    cost: 'slow',
    asks: 'walked',
    messages: {
        step: 'Whoever does this in zone {zone} meets {hazards}, which nothing has under control any longer.',
        repair: 'Whoever repairs {part} at {end} meets {hazards}, which nothing has under control any longer.',
    },
    check(model, file, report, signal) {
        for (const place of hazardPlaces(model, file, signal)) {
            if (!place.wasControlled) continue;
            const values = {
                hazards: listOf(
                    place.hazards.map(({ name }) => quoteName(name.text)),
                    'and',
                ),
                zone: quoteName(place.zone),
                part: quoteName(place.part ?? ''),
                end: quoteName(place.end?.name.text ?? ''),
            };
            report(place.end ? 'repair' : 'step', place.place, values, {
                ...(place.counterexample ? { counterexample: place.counterexample } : {}),
                advice: controlAdvice(place),
                mends: controlMends(place),
            });
        }
    },
});
