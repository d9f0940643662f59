// How a gap between bands is closed: by an end that includes its limit, by a band that goes further, or by one more outcome.

import type { Edit, Mend } from '../findings/finding.js';
import type { Outcome } from '../model/tests.js';
import { contains, type End, isPoint } from '../quantities/intervals.js';
import { edgeEdit, moveEdit, type Side, unlimitedEdit, writtenValue } from './band-edits.js';
import type { Gap, GapStretch, Neighbor } from './gaps.js';
import type { Reading } from './reading.js';
import { allOf } from './conditions.js';

/** The mends of a gap, the best first. Only one that gives a single reading to one side is safe. */
export function gapMends({ reading, stretches }: Gap): Mend[] {
    const [stretch] = stretches;
    if (!stretch) return [];
    const sides = sidesOf(stretch);
    if (stretches.length === 1 && isPoint(stretch.interval)) return closingMends(reading, sides);
    const extended = stretches.length === 1 ? extensionMends(reading, stretch, sides) : [];
    return [...extended, ...outcomeMends(reading, stretches)];
}

/** The band beside a point that nothing takes whose end the mend closes; the finding stands there. */
export function closedBand(reading: Reading, stretch: GapStretch): Neighbor | undefined {
    return closable(sidesOf(stretch)).find(({ neighbor }) => neighbor && reading)?.neighbor;
}

interface Beside {
    readonly neighbor: Neighbor | undefined;
    /** The end of the neighbor that faces the gap. */
    readonly side: Side;
    /** Where the gap ends on the other side. */
    readonly far: End | undefined;
}

function sidesOf({ interval, below, above }: GapStretch): Beside[] {
    return [
        { neighbor: below, side: 'high', far: interval.high },
        { neighbor: above, side: 'low', far: interval.low },
    ];
}

/** The limit belongs to what a healthy unit may show, as tolerance limits do (JCGM 106, 3.3.5, from memory). */
function closable(sides: readonly Beside[]): Beside[] {
    return sides
        .filter(({ neighbor, side }) => neighbor && edgeEdit(neighbor.band, side, true))
        .sort((one, other) => Number(isNormal(other.neighbor)) - Number(isNormal(one.neighbor)));
}

function isNormal(neighbor: Neighbor | undefined): boolean {
    return neighbor?.entry.name === 'normal';
}

function closingMends(reading: Reading, sides: readonly Beside[]): Mend[] {
    return closable(sides).flatMap(({ neighbor, side }, index): Mend[] => {
        const edit = neighbor && edgeEdit(neighbor.band, side, true);
        const value = neighbor?.band.interval[side]?.value;
        const written = value && writtenValue(value, reading.shown);
        if (!neighbor || !edit || !value || written === undefined) return [];
        const { name, holds } = neighbor.entry;
        const isTakenElsewhere = reading.entries.some(
            entry =>
                entry.name !== name &&
                entry.bands.some(({ interval }) => contains(interval, value)) &&
                reading.search.find(allOf([holds, entry.holds])) !== undefined,
        );
        const safety = index === 0 && !isTakenElsewhere ? 'safe' : 'suggestion';
        return [{ title: `Let \`${neighbor.entry.name}\` take ${written} too`, safety, edits: [edit] }];
    });
}

function extensionMends(reading: Reading, stretch: GapStretch, sides: readonly Beside[]): Mend[] {
    const abnormal = [...sides].sort((one, other) => Number(isNormal(one.neighbor)) - Number(isNormal(other.neighbor)));
    return abnormal.flatMap(({ neighbor, side, far }): Mend[] => {
        if (!neighbor) return [];
        const { name } = neighbor.entry;
        const other = side === 'high' ? stretch.above : stretch.below;
        if (!other) {
            const edit = isNormal(neighbor) ? undefined : unlimitedEdit(neighbor.band, side);
            const words = side === 'high' ? 'above' : 'below';
            return edit ? [suggestion(`Let \`${name}\` take all readings ${words}`, edit)] : [];
        }
        const value = far && writtenValue(far.value, reading.shown);
        const edit = far && value !== undefined && moveEdit(neighbor.band, side, { value, isClosed: far.closed });
        const words = side === 'high' ? 'go up' : 'go down';
        return edit ? [suggestion(`Let \`${name}\` ${words} to ${value}`, edit)] : [];
    });
}

/** One more outcome, where what nothing takes lies on one side of the normal band. */
function outcomeMends({ test, entries }: Reading, stretches: readonly GapStretch[]): Mend[] {
    const last = test.outcomes.at(-1);
    const names = new Set(entries.map(({ name }) => name));
    const name = nameForRest(stretches);
    if (!last || !name || names.has(name)) return [];
    const text = `${name} otherwise`;
    const edit = { file: last.file, start: last.end, end: last.end, text: `${breakBefore(test.outcomes)}${text}` };
    return [{ title: `Add the outcome \`${name}\` for them`, safety: 'suggestion', edits: [edit] }];
}

function nameForRest(stretches: readonly GapStretch[]): string | undefined {
    const isLow = stretches.every(({ below, above }) => !below && isNormal(above));
    if (isLow) return 'low';
    return stretches.every(({ below, above }) => !above && isNormal(below)) ? 'high' : undefined;
}

/** The outcome before stands on the same line, or on a line of its own, as the others do. */
function breakBefore(outcomes: readonly Outcome[]): string {
    const [before, last] = outcomes.slice(-2);
    if (!before || !last || last.start - before.end <= '  '.length) return '  ';
    return `\n${' '.repeat(Math.max(4, Math.min(last.start - before.end - 1, 12)))}`;
}

function suggestion(title: string, edit: Edit): Mend {
    return { title, safety: 'suggestion', edits: [edit] };
}
