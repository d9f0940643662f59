// A technician who comes back to a step with nothing changed.

import { defineRule } from '../../core/findings/rule.js';
import { counterexampleOf } from '../../core/questions/counterexamples.js';
import { guessExtras } from '../../core/questions/report-ends.js';
import { pickExample, walkedTrees } from '../../core/questions/walks.js';
import { quoteName } from '../../core/text/words.js';

export default defineRule({
    code: 'endless-loop',
    since: '0.1.0',
    severity: 'error',
    group: 'structure',
    cost: 'slow',
    asks: 'walked',
    messages: {
        loop: 'The way leads back to step {name} with nothing changed, and so round and round without end.',
    },
    check(model, file, report, signal) {
        const fileModel = model.files.get(file);
        if (!fileModel) return;
        for (const walked of walkedTrees(fileModel, model, signal)) {
            const { walk, route } = walked;
            const stations = new Set(walk.loops.map(loop => loop.station));
            for (const number of stations) {
                const station = route.stations[number];
                const example = pickExample(
                    walk.loops.filter(loop => loop.station === number),
                    walk,
                );
                if (!station || !example) continue;
                const goal = { sort: 'loop', station: number } as const;
                const counterexample = counterexampleOf(example, goal, walked, 'and so on, without end');
                const place = station.owner === walked.tree ? station.step.name : walked.tree.name;
                report(
                    'loop',
                    place,
                    { name: quoteName(station.step.name.text) },
                    {
                        ...(counterexample ? { counterexample } : {}),
                        ...guessExtras(example),
                        advice: 'Lead one of the steps of the circle elsewhere, or say what is changed on the way: `clears`, `replaces`, `sets`.',
                    },
                );
            }
        }
    },
});
