// Where the model leaves open which outcome a test shows, and how many ways there are to go on.

import type { Unit, UnitTest } from './unit.js';

/**
 * For each test, how many draws there are: 1 where it has one abnormal outcome or none, else a number that every possible
 * count of outcomes divides, so that each of them is drawn equally often. Several may remain by what one fault does, or
 * because two faults at once each show something of their own.
 */
export function drawSizes(unit: Unit): readonly number[] {
    return unit.tests.map(test => {
        const most = test.identifies ? 1 : abnormalOutcomes(test);
        return commonMultiples[Math.min(most, commonMultiples.length - 1)] ?? 1;
    });
}

/** The least common multiple of 1 to n, by n; beyond the last the draws are nearly even. */
const commonMultiples = [1, 1, 2, 6, 12, 60];

function abnormalOutcomes(test: UnitTest): number {
    return test.outcomes.length - (test.normal < 0 ? 0 : 1);
}
