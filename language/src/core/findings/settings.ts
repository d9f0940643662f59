// The workspace's settings, as far as they change what findings say.

import type { Severity } from './finding.js';

/** The name of the settings file; the folder that holds it is the workspace. */
export const settingsFile = 'halfsplit.json';

export interface Settings {
    /** Severity by code; `off` turns a rule off. A rule whose own severity is `error` stays an error. */
    readonly severities: Readonly<Record<string, Severity | 'off'>>;
    /** The language of the texts, a BCP 47 tag. */
    readonly locale: string;
}

export const defaultSettings: Settings = { severities: {}, locale: 'en' };
