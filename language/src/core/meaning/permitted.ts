// What a gate permits beside hazards that are not under control: some tests, never work with the hands.

import type { UnitTest } from './unit.js';

/** Senses that need no hand at what is looked at. */
const fromAside: readonly string[] = ['eye', 'ear', 'nose'];

/** Whether a permitted activity is what a test does: `measuring`, or `looking` where it is only looked, listened or smelled. */
export function permitsTest(activity: string, { measures, declaration }: UnitTest): boolean {
    if (activity === 'measuring') return measures;
    if (activity !== 'looking') return false;
    const { methods } = declaration;
    return (
        methods.length > 0 &&
        methods.every(method => method.sort === 'observe' && fromAside.includes(method.sense?.text ?? ''))
    );
}
