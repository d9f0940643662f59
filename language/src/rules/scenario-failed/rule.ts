// A scenario that does not end where it says, or takes longer.

import { defineRule } from '../../core/findings/rule.js';
import { scenarioFailure, scenarioMessages } from '../../core/questions/scenario-words.js';
import { playScenario, type ScenarioResult } from '../../core/questions/scenarios.js';

export default defineRule({
    code: 'scenario-failed',
    since: '0.1.0',
    severity: 'error',
    group: 'diagnosis',
    cost: 'slow',
    asks: 'walked',
    messages: scenarioMessages,
    check(model, file, report, signal) {
        for (const scenario of model.files.get(file)?.scenarios ?? []) {
            const result = playScenario(scenario, model, signal);
            if (!result || isToldElsewhere(result)) continue;
            const failure = scenarioFailure(result);
            if (!failure) continue;
            const { message, place, values, advice, counterexample } = failure;
            report(message, place, values, { ...(counterexample ? { counterexample } : {}), advice });
        }
    },
});

/** Where a world goes wrong another finding says why; the scenario only shows it once more. */
function isToldElsewhere({ outcome, isToldElsewhere: isTold, shown }: ScenarioResult): boolean {
    const ending = shown?.run.ending.sort;
    const hasNoEnd = ending !== undefined && ending !== 'end' && ending !== 'handed over';
    return (outcome === 'other end' && (isTold || hasNoEnd)) || (outcome === 'not in scope' && isTold);
}
