// The workspace's settings, as far as they change what findings say.

import { type SafetyLimits, safetyLimitSets } from '../safety/limit-sets.js';
import { type LockoutOrder, lockoutOrders } from '../safety/lockout-orders.js';
import type { Severity } from './finding.js';

/** The name of the settings file; the folder that holds it is the workspace. */
export const settingsFile = 'halfsplit.json';

export interface Settings {
    /** Severity by code; `off` turns a rule off. A rule whose own severity is `error` stays an error. */
    readonly severities: Readonly<Record<string, Severity | 'off'>>;
    /** The language of the texts, a BCP 47 tag. */
    readonly locale: string;
    /** How many parts a conclusion may replace before it is called ambiguous. */
    readonly mostPartsAtEnd: number;
    /** Whether two faults at once are looked at. */
    readonly doubleFaults: boolean;
    /** How many times larger than the uncertainty of the instrument the tolerance of an outcome must be; 1 or more. */
    readonly testUncertaintyRatio: number;
    /** Above which voltage, energy, temperature and pressure something can hurt: a named set, or stricter. */
    readonly safetyLimits: SafetyLimits;
    /** In which order the elements of a gate stand. */
    readonly lockoutOrder: LockoutOrder;
}

export const defaultSettings: Settings = {
    severities: {},
    locale: 'en',
    mostPartsAtEnd: 3,
    doubleFaults: false,
    testUncertaintyRatio: 4,
    safetyLimits: safetyLimitSets[0],
    lockoutOrder: lockoutOrders[0],
};
