// The shape of a row in the tables of units, and the publications that the factors come from.

import type { Dimension } from './dimensions.js';
import type { QuantityName } from './quantity-kinds.js';

/** One unit as the tables give it, before its prefixes are put before it. */
export interface UnitRow {
    /** The spelling that is shown. */
    readonly symbol: string;
    /** Other spellings that are read. */
    readonly also?: readonly string[];
    /** The name in words, in the singular. */
    readonly name: string;
    readonly ucum: string;
    /** Size in the coherent SI unit: an exact decimal, or a quotient of two (`5/9`). */
    readonly factor: string;
    /** What is added to the number before it is multiplied, for a scale that does not begin at absolute zero. */
    readonly offset?: string;
    /** SI prefixes that the trade uses with this unit, separated by spaces. */
    readonly prefixes?: string;
    /** For a unit whose dimension fits more: the only quantities it is used for. */
    readonly usedFor?: readonly QuantityName[];
    /** For a name with more than one meaning: which one is meant, and what else it could be. */
    readonly note?: string;
    /** Where the factor comes from, when it is not where the group's come from. */
    readonly source?: string;
    /** True when the factor is rounded, because no fraction gives it exactly. */
    readonly rounded?: true;
}

/** Units of one dimension. */
export interface UnitGroup {
    readonly dimension: Dimension;
    readonly source: string;
    readonly rows: readonly UnitRow[];
}

export const siBrochure = 'SI Brochure, 9th edition, section 2.3 and tables 2 to 8, from memory';
export const nistB8 = 'NIST SP 811 (2008), appendix B.8, seen second-hand in a public copy';
export const nistB9 = 'NIST SP 811 (2008), appendix B.9, from memory';
export const iec80000 = 'IEC 80000-13 and ISO 80000, from memory';
export const plainCount = 'a number of things; no conversion';
