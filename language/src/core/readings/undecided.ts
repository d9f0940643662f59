// Tests of which it could not be decided whether their bands take every reading once.

import { gapsOf } from './gaps.js';
import { overlapsOf } from './overlaps.js';
import type { Reading } from './reading.js';

/** Whether a search over the builds and states of a reading was given up. */
export function isUndecidedReading(reading: Reading): boolean {
    gapsOf(reading);
    overlapsOf(reading);
    return reading.search.gaveUp();
}
