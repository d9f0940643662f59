// What the readers of single settings share: reporting at a place, names that do not exist, values of a kind.

import type { FileId } from '../model/written.js';
import type { JsonObject, JsonStretch, JsonTree } from '../text/json-tree.js';
import { nearNames } from '../text/near-names.js';
import { listOf, quoteName } from '../text/words.js';
import type { Mend } from './finding.js';
import type { FindingExtras, Rule } from './rule.js';

export interface Reading {
    readonly rules: ReadonlyMap<string, Rule>;
    readonly report: (place: JsonStretch, message: string, extras?: FindingExtras) => void;
    readonly file: FileId;
}

/** The properties, each name once: a second one of the same name is reported. */
export function singleProperties(reading: Reading, object: JsonObject): JsonObject['properties'] {
    const seen = new Set<string>();
    return object.properties.filter(({ name, ...place }) => {
        if (seen.has(name)) {
            reading.report(namePlace(place), `${quoteName(name)} is set twice.`, { advice: 'Take one of them out.' });
            return false;
        }
        seen.add(name);
        return true;
    });
}

/** Reports a name that is not among the known ones, with those like it. `wanted` is what it should be the name of. */
export function reportName(
    reading: Reading,
    wanted: string,
    name: string,
    known: readonly string[],
    place: JsonStretch,
): void {
    const near = nearNames(name, known);
    const mends: Mend[] = near.map(other => ({
        title: `Write \`${other}\``,
        safety: 'suggestion',
        edits: [{ file: reading.file, ...place, text: JSON.stringify(other) }],
    }));
    reading.report(place, `There is no ${wanted} called ${quoteName(name)}.`, {
        advice: adviceOnName(wanted, near, known),
        mends,
    });
}

function adviceOnName(wanted: string, near: readonly string[], known: readonly string[]): string {
    const names = listOf(near.map(quoteName), 'and');
    if (near.length === 1) return `There is a ${wanted} with a similar name: ${names}.`;
    if (near.length > 1) return `There are names like it: ${names}.`;
    if (wanted === 'finding') return '`halfsplit explain` lists the codes of all findings.';
    const all = listOf(known.map(quoteName), 'and');
    return wanted === 'setting' ? `There are the settings ${all}.` : `The names are ${all}.`;
}

/** One of several things by its name; the first where the value is no such name, which is reported. */
export function readNamed<T extends { readonly name: string }>(
    reading: Reading,
    setting: string,
    wanted: string,
    known: readonly [T, ...T[]],
    value: JsonTree,
): T {
    const name = value.sort === 'scalar' ? value.value : undefined;
    const found = known.find(one => one.name === name);
    if (found) return found;
    const names = known.map(one => one.name);
    if (typeof name === 'string') reportName(reading, wanted, name, names, value);
    else {
        const words = listOf(
            names.map(one => `\`"${one}"\``),
            'or',
        );
        reading.report(value, `${quoteName(setting)} must be the name of a ${wanted}: ${words}.`);
    }
    return known[0];
}

export function namePlace(place: { readonly nameStart: number; readonly nameEnd: number }): JsonStretch {
    return { start: place.nameStart, end: place.nameEnd };
}
