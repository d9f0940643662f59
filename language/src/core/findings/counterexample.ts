// Makes counterexamples, with the sentence that reads them aloud.

import type { Counterexample, RelatedPlace } from './finding.js';

export interface CounterexampleFacts {
    readonly build: readonly string[];
    readonly fault?: string;
    readonly path: readonly (RelatedPlace & { readonly step: string })[];
    /** What happens at the end of the path: `no branch follows`. */
    readonly end: string;
}

/** A counterexample; its sentence names the build, the fault, the steps and the end. */
export function makeCounterexample(facts: CounterexampleFacts): Counterexample {
    const who = [facts.build.length === 0 ? 'any unit' : `a unit with ${facts.build.join(', ')}`];
    if (facts.fault !== undefined) who.push(facts.fault);
    const steps = facts.path.map(({ step, text }) => `step \`${step}\`, ${text}`);
    return {
        build: facts.build,
        fault: facts.fault,
        path: facts.path,
        sentence: `${who.join(', ')}: ${[...steps, facts.end].join('; ')}`,
    };
}
