// The readings that a calculated test can have, and how far one may be off: from the ranges and accuracies of the readings it is worked
// out from.
//
// This is the seam for `rangeOf` in `range-of.ts`, where a calculated reading is `unknown`: `rangeOfCalculation(method, model)` gives an
// enclosure of all that can come out. That a band lies outside it is sure (`out-of-range`, `impossible-reading`). That something inside it
// can come out is sure only where `isTight` is true; a gap in the rest may be no gap. Where `mayLackValue` is true there are readings for
// which nothing comes out, as outside the rows of a table. How far such a reading may be off says `calculated-accuracy.ts`.

import type { Model } from '../model/model.js';
import type { Calculate, Test } from '../model/tests.js';
import { hullOfIntervals } from '../quantities/interval-arithmetic.js';
import type { Interval } from '../quantities/intervals.js';
import { sameDimensions } from '../quantities/dimensions.js';
import { quantityKinds } from '../quantities/quantity-kinds.js';
import { oncePerModel } from '../questions/remember.js';
import { calculationOf } from './calculation.js';
import { type Enclosure, enclose } from './enclosures.js';
import { type MeasuringRange, servingRanges } from './measuring-ranges.js';
import { planOf } from './plans.js';
import { possibleReadings } from './possible.js';
import { instrumentOf, type MeasuredAs, measuredAs } from './reading-types.js';

/** All that a calculated test can read, in the coherent SI unit; undefined where something is unknown or does not fit. */
export function rangeOfCalculation(method: Calculate, model: Model): Enclosure | undefined {
    const known = rangesOfModel(model);
    const entry = known.get(method) ?? { range: findRange(method, model) };
    known.set(method, entry);
    return entry.range;
}

const rangesOfModel = oncePerModel(() => new WeakMap<Calculate, { readonly range: Enclosure | undefined }>());

function findRange(method: Calculate, model: Model): Enclosure | undefined {
    const plan = fitsQuantity(method, model) ? planOf(method, model) : undefined;
    return plan && enclose(plan, test => rangeOfTest(test, model));
}

/** Whether the result is of the quantity that is written; where it is not, that is a finding by itself. */
function fitsQuantity(method: Calculate, model: Model): boolean {
    const { type } = calculationOf(method, model);
    const kind = quantityKinds.get(method.quantity.text);
    return type !== undefined && (kind?.dimensions.some(one => sameDimensions(one, type.dimension)) ?? false);
}

/** The readings of a measured test: what its instruments show, or what its quantity can be. */
export function rangeOfTest(test: Test, model: Model): Enclosure {
    const intervals = measuredAs(test, model).flatMap((read): readonly Interval[] => {
        const ranges = rangesFor(read, model);
        if (ranges.length > 0) return ranges.map(({ interval }) => interval);
        const { method, kind, modes, type } = read;
        return [method.sort === 'calculate' ? {} : possibleReadings(kind, modes, type?.dimension).interval];
    });
    return { interval: hullOfIntervals(intervals) ?? {}, isTight: intervals.length === 1, mayLackValue: false };
}

/** The ranges of the instrument of a measurement that serve for it; none where no instrument is named, or it does not say. */
export function rangesFor({ method, kind, modes }: MeasuredAs, model: Model): readonly MeasuringRange[] {
    const instrument = method.sort === 'measure' ? instrumentOf(method, model) : undefined;
    return instrument ? servingRanges(instrument, kind, modes) : [];
}
