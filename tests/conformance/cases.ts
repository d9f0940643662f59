/** The cases of the conformance vectors: small texts, and what is to be seen on the way, written down by hand. */
import type { Case } from './case-parts.js';
import { buildsCases } from './cases-builds.js';
import { calculationsCases } from './cases-calculations.js';
import { conditionsCases } from './cases-conditions.js';
import { endsCases } from './cases-ends.js';
import { readingsCases } from './cases-readings.js';
import { refusedCases } from './cases-refused.js';
import { stepsCases } from './cases-steps.js';
import { tablesCases } from './cases-tables.js';

export type { Case, Stop } from './case-parts.js';

export const conformanceCases: readonly Case[] = [
    ...stepsCases,
    ...buildsCases,
    ...conditionsCases,
    ...endsCases,
    ...readingsCases,
    ...tablesCases,
    ...calculationsCases,
    ...refusedCases,
];
