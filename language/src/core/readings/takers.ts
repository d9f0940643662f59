// Which outcomes take a reading: as a condition over builds and states, and for one of them plainly.

import type { ChoiceCondition } from '../builds/evaluate.js';
import { holdsCell } from './cells.js';
import { allOf, anyOf, isAlways, never, notOf } from './conditions.js';
import type { Choice, Option } from '../model/equipment.js';
import type { Entry, Reading } from './reading.js';
import { holdsFor, type Witness } from './search.js';

/** The entries of an outcome that are of a healthy unit and say what it reads. */
function isNormal({ name }: Entry): boolean {
    return name === 'normal';
}

/** Whether one of the entry's own bands holds the cell. */
export function bandsHold({ places }: Entry, cell: number): boolean {
    return places.some(place => holdsCell(place, cell));
}

/** Whether the cell lies below, or above, all bands of an entry, of which there is one at least. */
export function isBeside({ places, isUnclear }: Entry, cell: number, side: 'below' | 'above'): boolean {
    if (places.length === 0 || isUnclear) return false;
    return places.every(({ first, last }) => (side === 'below' ? cell < first : cell > last));
}

/** Where the cell lies below, or above, everything that a healthy unit reads. */
function besideNormal(reading: Reading, cell: number, side: 'below' | 'above'): ChoiceCondition {
    const normal = reading.entries.filter(entry => isNormal(entry) && saysReadings(entry));
    const beside = normal.filter(entry => isBeside(entry, cell, side));
    if (beside.length === 0) return never;
    const others = normal.filter(entry => !isBeside(entry, cell, side));
    return allOf([anyOf(beside.map(({ holds }) => holds)), ...others.map(({ holds }) => notOf(holds))]);
}

function saysReadings({ bands, isUnclear: hasUnclear }: Entry): boolean {
    return bands.length > 0 || hasUnclear;
}

/**
 * Whether nothing needs to be searched to see that some entry takes the cell wherever the test is asked and `normal` holds:
 * one that always holds, or the normal bands with `low` or `high` beside them.
 */
export function isSurelyTaken({ entries }: Reading, cell: number): boolean {
    if (entries.some(entry => isAlways(entry.holds) && (entry.rest === 'all' || bandsHold(entry, cell)))) return true;
    const normal = entries.filter(isNormal);
    const cases = casesOf(normal);
    const isTakenAround = (around: readonly Entry[]) =>
        sides.some(
            side =>
                around.every(entry => isBeside(entry, cell, side)) &&
                entries.some(entry => entry.rest === side && isAlways(entry.holds)),
        );
    if (cases) return cases.every(one => one.some(entry => bandsHold(entry, cell)) || isTakenAround(one));
    const others = normal.filter(entry => !bandsHold(entry, cell));
    return others.length === 0 || isTakenAround(others);
}

/** The normal bands of each choice, where all of them are for choices of one option: a unit has one choice, and the others do not hold. */
function casesOf(normal: readonly Entry[]): readonly (readonly Entry[])[] | undefined {
    const cases = new Map<Choice, Entry[]>();
    let option: Option | undefined;
    for (const entry of normal) {
        const { holds } = entry;
        if (holds.sort !== 'is' || (option && holds.option !== option)) return undefined;
        option = holds.option;
        const known = cases.get(holds.choice);
        if (known) known.push(entry);
        else cases.set(holds.choice, [entry]);
    }
    return [...cases.values()];
}

/**
 * Whether nothing needs to be searched to see that an entry takes one cell by `otherwise` wherever it takes another so: what it asks for
 * there is part of what it asks for here.
 */
export function takesTooByRest({ entries }: Reading, entry: Entry, taken: number, other: number): boolean {
    const { rest } = entry;
    if (!rest || bandsHold(entry, taken) || bandsHold(entry, other)) return false;
    if (rest === 'all' && entries.some(one => one.rest === 'below' || one.rest === 'above')) return false;
    return entries.every(one => {
        const counts = rest !== 'all' && isNormal(one) && saysReadings(one);
        const isBesideTaken = counts && isBeside(one, taken, rest);
        if (isBesideTaken && !isBeside(one, other, rest)) return false;
        return !bandsHold(one, other) || bandsHold(one, taken) || (counts && !isBesideTaken);
    });
}

const sides = ['below', 'above'] as const;

/** Whether nothing needs to be searched to see that an entry takes the cell wherever it holds, is asked, and `normal` holds. */
export function takesWhereverItHolds({ entries }: Reading, entry: Entry, cell: number): boolean {
    if (bandsHold(entry, cell)) return true;
    const { rest } = entry;
    if (!rest || entries.some(other => bandsHold(other, cell))) return false;
    const normal = entries.filter(isNormal);
    if (rest !== 'all') return normal.every(one => isBeside(one, cell, rest));
    return sides.every(
        side => !entries.some(other => other.rest === side) || !normal.some(one => isBeside(one, cell, side)),
    );
}

/** Where an entry takes the cell by a band of its own, or by `otherwise` as long as nothing else takes it. */
export function takesValue(reading: Reading, entry: Entry, cell: number): ChoiceCondition {
    if (bandsHold(entry, cell)) return entry.holds;
    if (!entry.rest) return anyOf([]);
    const banded = reading.entries.filter(other => bandsHold(other, cell)).map(({ holds }) => notOf(holds));
    if (entry.rest !== 'all') return allOf([entry.holds, besideNormal(reading, cell, entry.rest), ...banded]);
    const sided = reading.entries
        .filter(({ rest }) => rest === 'below' || rest === 'above')
        .map(other => notOf(takesRest(reading, other, cell)));
    return allOf([entry.holds, ...banded, ...sided]);
}

function takesRest(reading: Reading, { holds, rest }: Entry, cell: number): ChoiceCondition {
    return rest === 'below' || rest === 'above' ? allOf([holds, besideNormal(reading, cell, rest)]) : anyOf([]);
}

/** Where some entry takes the cell. */
export function isTaken(reading: Reading, cell: number): ChoiceCondition {
    const { entries } = reading;
    return anyOf([
        ...entries.filter(entry => bandsHold(entry, cell)).map(({ holds }) => holds),
        ...entries.map(entry => takesRest(reading, entry, cell)),
        ...entries.filter(({ rest }) => rest === 'all').map(({ holds }) => holds),
    ]);
}

/** Where an entry holds that has a band of which the interval is not known. */
export function isUnclear({ entries }: Reading): ChoiceCondition {
    return anyOf(entries.filter(entry => entry.isUnclear).map(({ holds }) => holds));
}

/** The entries that hold in one build and state. */
export function standingEntries({ entries }: Reading, witness: Witness): readonly Entry[] {
    return entries.filter(({ holds }) => holdsFor(holds, witness));
}

/** Of the entries that hold together, those that take a cell. */
export function takersAmong(standing: readonly Entry[], cell: number): readonly Entry[] {
    const banded = standing.filter(entry => bandsHold(entry, cell));
    if (banded.length > 0) return banded;
    const normal = standing.filter(entry => isNormal(entry) && saysReadings(entry));
    const isBesideAll = (side: 'below' | 'above') =>
        normal.length > 0 && normal.every(entry => isBeside(entry, cell, side));
    const sided = standing.filter(({ rest }) => (rest === 'below' || rest === 'above') && isBesideAll(rest));
    return sided.length > 0 ? sided : standing.filter(({ rest }) => rest === 'all');
}
