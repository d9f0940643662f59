// Options so tangled that the search for a build gave up.

import { defineRule, type Report } from '../../core/findings/rule.js';
import type { FileModel } from '../../core/model/file.js';
import type { Model } from '../../core/model/model.js';
import type { Span } from '../../core/model/written.js';
import { isUndecided, questionsOf } from '../../core/questions/branches.js';
import { hasBuild, undecidedChoices } from '../../core/questions/build-facts.js';
import { exitFactsOf } from '../../core/questions/exits.js';
import { guardFactsOf } from '../../core/questions/guards.js';
import { isUndecidedReading } from '../../core/readings/undecided.js';
import { readingsOf } from '../../core/readings/reading.js';
import { quoteName } from '../../core/text/words.js';

export default defineRule({
    code: 'undecided-builds',
    since: '0.1.0',
    severity: 'warning',
    group: 'builds',
    cost: 'fast',
    messages: {
        none: 'The options of {name} exclude each other in so many ways that it could not be decided whether any build is left.',
        place: 'It could not be decided in which builds this holds: the options exclude each other in too many ways.',
        more: 'It could not be decided in which builds this and {count} other places of this file hold: the options exclude each other in too many ways.',
    },
    check(model, file, report) {
        const fileModel = model.files.get(file);
        if (!fileModel) return;
        for (const equipment of fileModel.equipment) {
            if (hasBuild(equipment, model) !== 'undecided') continue;
            report('none', equipment.name, { name: quoteName(equipment.name.text) }, { advice });
        }
        reportPlaces(undecidedPlaces(fileModel, model), report);
    },
});

const advice =
    'Write fewer and simpler exclusions: one option whose choices are the builds that you make can stand for several. Nothing was said about what could not be decided.';

/** One finding for the file: the cause is the same for all places. */
function reportPlaces(places: readonly Span[], report: Report<'place' | 'more'>): void {
    const [first, ...others] = places;
    if (!first) return;
    const related = others.slice(0, 10).map(({ file, start, end }) => ({ file, start, end, text: 'and this' }));
    report(others.length === 0 ? 'place' : 'more', first, { count: others.length }, { related, advice });
}

function undecidedPlaces(file: FileModel, model: Model): Span[] {
    const places: Span[] = [
        ...file.equipment.flatMap(equipment => undecidedChoices(equipment, model).map(({ name }) => name)),
        ...guardFactsOf(file, model).undecided.map(({ guard }) => guard),
        ...exitFactsOf(file, model).undecided.map(({ name }) => name),
        ...readingsOf(file, model)
            .filter(isUndecidedReading)
            .map(({ test }) => test.name),
    ];
    for (const question of questionsOf(file, model)) {
        const { statement } = question;
        if (isUndecided(question, model)) {
            places.push(statement.sort === 'follow' ? statement.procedure : statement.test);
        }
    }
    return places.sort((one, other) => one.start - other.start);
}
