// Bands that are too narrow for the instrument: how far a reading may be off against how wide the band is.
//
// The tolerance of an outcome is half the width of its band. The uncertainty is what the accuracy gives at a limit where the band meets
// that of another outcome; the maker's accuracy is taken for the expanded uncertainty (95 %). Their ratio is the test uncertainty ratio:
// the span of the tolerance against that of the uncertainty (ANSI/NCSL Z540.3, from memory), which asks for 4 to 1.
// That says nothing of a band that meets another on one side only and goes as far as the instrument shows on the other. There all that
// a reading may deviate lies to one side, and the tolerance is the whole width. This is our own choice.
// With a guard band as wide as the uncertainty inside each limit (ILAC-G8, JCGM 106, from memory), nothing is left of a band that is
// narrower than its two guard bands: no reading is then sure to belong to it.

import Fraction from 'fraction.js';

import type { ChoiceCondition } from '../builds/evaluate.js';
import { compareExactly, nearestFloat } from '../quantities/exact-order.js';
import { contains, type End, type Interval, intersection } from '../quantities/intervals.js';
import { wholeRange } from './beyond-range.js';
import { type CellPlace, holdsCell, stretchOf } from './cells.js';
import { allOf, anyOf, isNever, notOf } from './conditions.js';
import type { Neighbor } from './gaps.js';
import { type MeasuringRange, smallestUncertainty, uncertaintyNear } from './measuring-ranges.js';
import { nothingIfAlike } from './once-per-reading.js';
import type { Entry, Reading } from './reading.js';
import { holdsReading } from './reading-cells.js';
import type { Witness } from './search.js';
import { standingEntries, takersAmong, takesTooByRest, takesValue } from './takers.js';

/** A band that the instrument cannot tell well enough from the bands beside it. Values are in the coherent SI unit. */
export interface TooNarrow {
    readonly reading: Reading;
    readonly entry: Entry;
    /** The band; undefined for what `otherwise` takes. */
    readonly band: Neighbor['band'] | undefined;
    readonly run: Run;
    /** Half of the width of the band; all of it where it meets another outcome on one side only. */
    readonly tolerance: Fraction;
    /** The largest uncertainty at a limit to another outcome. */
    readonly uncertainty: Fraction;
    readonly ratio: Fraction;
    /** The guard bands leave nothing of it: no reading tells this outcome for certain. */
    readonly isSwallowed: boolean;
    readonly witness: Witness;
}

/** The readings that one outcome takes side by side, in one build and state, as far as the instrument shows. */
export interface Run {
    readonly interval: Interval;
    /** The outcomes that follow below and above; undefined where the instrument shows no more. */
    readonly below: string | undefined;
    readonly above: string | undefined;
}

/** A band that lies between two steps of the instrument, which so never shows it. */
export interface BetweenSteps {
    readonly reading: Reading;
    readonly taker: Neighbor;
    readonly step: Fraction;
    readonly witness: Witness;
}

/** The bands that the instrument jumps over, because its steps are too coarse. */
export const bandsBetweenSteps = nothingIfAlike(findBetweenSteps);

function findBetweenSteps(reading: Reading): readonly BetweenSteps[] {
    const { range } = reading;
    if (range.sort !== 'shown') return [];
    return reading.entries.flatMap(entry =>
        entry.bands.flatMap((band, index) => {
            const place = entry.places[index];
            if (!place || holdsReading(reading, place)) return [];
            const near = range.ranges.filter(({ interval }) => intersection(interval, band.interval));
            const step = near[0]?.step;
            const witness = step && reading.search.find(entry.holds);
            return witness ? [{ reading, taker: { entry, band }, step: step.size, witness }] : [];
        }),
    );
}

/** The bands whose ratio is below the one that is wanted; each outcome as it stands in the text is told once. */
export const narrowBands = nothingIfAlike(findNarrow);

function findNarrow(reading: Reading, wanted: number): readonly TooNarrow[] {
    const { range } = reading;
    if (range.sort !== 'shown') return [];
    const scale: Scale = { reading, ranges: range.ranges, cells: reading.cells.inRange, wanted };
    const told = new Set<Entry>();
    return [...ownBands(scale), ...restBands(scale)]
        .filter(({ entry }) => !told.has(entry) && told.add(entry))
        .sort((one, other) => one.entry.outcome.start - other.entry.outcome.start);
}

interface Scale {
    readonly reading: Reading;
    readonly ranges: readonly MeasuringRange[];
    /** The cells that the instrument covers, whatever its steps. */
    readonly cells: readonly number[];
    readonly wanted: number;
}

function ownBands(scale: Scale): TooNarrow[] {
    const { reading, ranges, cells } = scale;
    return reading.entries.flatMap(entry =>
        entry.bands.flatMap((band, index) => {
            const place = entry.places[index];
            const shown = intersection(band.interval, wholeRange(ranges));
            // A band that is wide enough by itself is so beside whatever it stands.
            if (!place || !shown || !judge(scale, { interval: shown, below: 'any', above: 'any' })) return [];
            const start = cells.findIndex(cell => holdsCell(place, cell));
            const sides = limitsOf(scale, entry, place);
            for (const limited of [allOf(sides), ...sides]) {
                const witness = reading.search.find(allOf([entry.holds, limited]));
                const found = witness && judgedRun(scale, { entry, band, start }, witness);
                if (found) return [found];
            }
            return [];
        }),
    );
}

/** For each end of a band: where another outcome, or none, takes what lies just beyond it. */
function limitsOf({ reading, cells }: Scale, entry: Entry, place: CellPlace): ChoiceCondition[] {
    const inside = cells.map((cell, index) => (holdsCell(place, cell) ? index : -1)).filter(index => index >= 0);
    const [first = 0] = inside;
    const last = inside.at(-1) ?? first;
    return [cells[first - 1], cells[last + 1]].flatMap(beyond => {
        if (beyond === undefined) return [];
        const alike = reading.entries.filter(({ name }) => name === entry.name);
        return [notOf(anyOf(alike.map(other => takesValue(reading, other, beyond))))];
    });
}

/** What `otherwise` takes between two bands, or between a band and the end of the range. */
function restBands(scale: Scale): TooNarrow[] {
    const { reading, cells } = scale;
    const rest = reading.entries.filter(entry => entry.rest);
    if (rest.length === 0) return [];
    const edges = edgesOf(scale);
    const narrow = cells.map((_, start) => (edges.below[start] ? narrowEnds(scale, edges, start) : []));
    return rest.flatMap(entry => {
        const takes = (index: number) => takesValue(reading, entry, cells[index] ?? 0);
        // Where it takes the next cell too, whatever the build, what it takes neither begins nor ends there.
        const goesOn = (from: number, to: number) => {
            const [taken, next] = [cells[from], cells[to]];
            return taken !== undefined && next !== undefined && takesTooByRest(reading, entry, taken, next);
        };
        for (const [start, all] of narrow.entries()) {
            if (all.length === 0 || goesOn(start, start - 1)) continue;
            const ends = all.filter(end => !goesOn(end, end + 1));
            const found = restBand(scale, entry, start, ends, takes);
            if (found) return [found];
        }
        return [];
    });
}

/** Of each cell, whether some band, or the range, ends between it and the one below, or the one above. */
interface Edges {
    readonly below: readonly boolean[];
    readonly above: readonly boolean[];
}

function edgesOf({ reading, cells }: Scale): Edges {
    const places = reading.entries.flatMap(entry => entry.places);
    const isEdge = (outer: number | undefined, inner: number) =>
        outer === undefined || places.some(place => holdsCell(place, outer) && !holdsCell(place, inner));
    return {
        below: cells.map((cell, index) => isEdge(cells[index - 1], cell)),
        above: cells.map((cell, index) => isEdge(cells[index + 1], cell)),
    };
}

/** Where something that begins at one cell can end so that it is too narrow. What is wide enough by itself stays so with more beside it. */
function narrowEnds(scale: Scale, { above }: Edges, start: number): readonly number[] {
    const { reading, cells } = scale;
    const ends: number[] = [];
    for (let end = start; end < cells.length; end += 1) {
        const interval = stretchOf(reading.cells, cells[start] ?? 0, cells[end]);
        if (!judge(scale, { interval, below: 'any', above: 'any' })) return ends;
        if (above[end]) ends.push(end);
    }
    return ends;
}

/** The narrow band that an entry takes from one cell on, where there is one; `takes` says where it takes each cell. */
function restBand(
    scale: Scale,
    entry: Entry,
    start: number,
    ends: readonly number[],
    takes: (index: number) => ChoiceCondition,
): TooNarrow | undefined {
    const taken: ChoiceCondition[] = [];
    for (const end of ends) {
        while (start + taken.length <= end) {
            const condition = takes(start + taken.length);
            if (isNever(condition)) return undefined;
            taken.push(condition);
        }
        const witness = scale.reading.search.find(allOf(taken));
        const narrow = witness && judgedRun(scale, { entry, band: undefined, start }, witness);
        if (narrow) return narrow;
    }
    return undefined;
}

/** What an entry takes around a cell in one build and state, where it is too narrow. */
function judgedRun(
    scale: Scale,
    {
        entry,
        band,
        start,
    }: { readonly entry: Entry; readonly band: Neighbor['band'] | undefined; readonly start: number },
    witness: Witness,
): TooNarrow | undefined {
    const { reading, cells } = scale;
    const standing = standingEntries(reading, witness);
    const nameAt = (index: number) => {
        const cell = cells[index];
        return cell === undefined ? undefined : takersAmong(standing, cell)[0]?.name;
    };
    if (nameAt(start) !== entry.name) return undefined;
    let [first, last] = [start, start];
    while (nameAt(first - 1) === entry.name) first -= 1;
    while (nameAt(last + 1) === entry.name) last += 1;
    const [lowest, highest] = [cells[first], cells[last]];
    if (lowest === undefined || highest === undefined) return undefined;
    const run = {
        interval: stretchOf(reading.cells, lowest, highest),
        below: nameAt(first - 1),
        above: nameAt(last + 1),
    };
    // What no step of the instrument lies in is never read, and is another finding.
    const isRead = holdsReading(reading, { first: lowest, last: highest });
    const judged = isRead ? judge(scale, run) : undefined;
    return judged && { reading, entry, band, run, witness, ...judged };
}

type Judged = Pick<TooNarrow, 'tolerance' | 'uncertainty' | 'ratio' | 'isSwallowed'>;

/** The ratio where it is too small; undefined where it is large enough, or nothing says how right the instrument is. */
function judge({ ranges, wanted }: Scale, { interval, below, above }: Run): Judged | undefined {
    const { low, high } = interval;
    if (!low || !high) return undefined;
    const limits = [...(below ? [low] : []), ...(above ? [high] : [])];
    if (isWideForCertain({ ranges, wanted }, { low, high, limits })) return undefined;
    const sizes = limits.map(({ value }) => smallestUncertainty(ranges, value)).filter(size => size !== undefined);
    const [first, ...others] = sizes;
    if (!first) return undefined;
    const uncertainty = others.reduce((most, size) => (compareExactly(size, most) > 0 ? size : most), first);
    const guarded = others.reduce((sum, size) => sum.add(size), first);
    if (uncertainty.compare(0) <= 0) return undefined;
    const width = high.value.sub(low.value);
    const tolerance = limits.length > 1 ? width.div(2n) : width;
    const ratio = tolerance.div(uncertainty);
    if (ratio.compare(wanted) >= 0) return undefined;
    return { tolerance, uncertainty, ratio, isSwallowed: width.compare(guarded) < 0 };
}

interface Limited {
    readonly low: End;
    readonly high: End;
    readonly limits: readonly End[];
}

/** Whether floating point numbers tell, with much to spare, that the ratio is large enough, or that no accuracy is known. */
function isWideForCertain(
    { ranges, wanted }: Pick<Scale, 'ranges' | 'wanted'>,
    { low, high, limits }: Limited,
): boolean {
    const [from, to] = [nearestFloat(low.value), nearestFloat(high.value)];
    const tolerance = (to - from) / (limits.length > 1 ? 2 : 1);
    const spare = 1e-9 * (Math.abs(from) + Math.abs(to));
    let most = 0;
    for (const { value } of limits) {
        let least = Number.POSITIVE_INFINITY;
        for (const range of ranges) {
            const size = contains(range.interval, value) ? uncertaintyNear(range, nearestFloat(value)) : undefined;
            if (size !== undefined && !Number.isFinite(size)) return false;
            if (size !== undefined && size < least) least = size;
        }
        // At a limit where nothing is known of the accuracy, the other limit decides.
        if (least < Number.POSITIVE_INFINITY && least > most) most = least;
    }
    return tolerance > wanted * most * (1 + 1e-9) + spare;
}

/** The true values that can be behind a reading, as far as the accuracy says. */
export function trueValues({ ranges }: { readonly ranges: readonly MeasuringRange[] }, value: Fraction): Interval {
    const size = smallestUncertainty(ranges, value) ?? new Fraction(0n);
    return { low: { value: value.sub(size), closed: true }, high: { value: value.add(size), closed: true } };
}

/** The middle of a run. */
export function middleOf({ interval }: Run): Fraction {
    const [low = new Fraction(0n), high = low] = [interval.low?.value, interval.high?.value];
    return low.add(high).div(2n);
}
