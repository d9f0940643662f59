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
    const steps = facts.path.map(({ step, text }) => (text === '' ? `step \`${step}\`` : `step \`${step}\`, ${text}`));
    return {
        build: facts.build,
        fault: facts.fault,
        path: facts.path,
        sentence: `${who.join(', ')}: ${[...steps, facts.end].join('; ')}`,
    };
}

/** A build in which something is so that no path leads to; undefined where it is so in every build. */
export function exampleOfBuild(build: readonly string[], end: string): Counterexample | undefined {
    return build.length === 0 ? undefined : makeCounterexample({ build, path: [], end });
}
