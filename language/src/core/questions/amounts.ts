// Numbers that cannot stand where they stand: their unit is not known, or the place takes only a time, a share or the like.

import { type Dimension, dimensions, sameDimensions } from '../quantities/dimensions.js';
import { coherentValue, parseQuantity, type Quantity } from '../quantities/quantity.js';
import type { Amount } from '../model/written.js';
import type { AmountPurpose } from './visit-clauses.js';

/** What is wrong with an amount. */
export type AmountProblem = { readonly amount: Amount } & (
    | { readonly sort: 'unreadable' }
    | { readonly sort: 'unknown-unit'; readonly unit: string }
    | {
          readonly sort: 'unit' | 'negative' | 'zero' | 'whole';
          readonly quantity: Quantity;
          readonly demand: AmountDemand;
      }
);

/** What a place takes. */
export interface AmountDemand {
    /** What the amount belongs to, in words. */
    readonly clause: string;
    /** What is wanted, in words. */
    readonly wanted: string;
    readonly example: string;
    readonly dimensions: readonly Dimension[];
    readonly limit?: 'above zero' | 'at most one';
}

const time = { wanted: 'a time', example: '5 min', dimensions: [dimensions.time] };
const share = { wanted: 'a share', example: '30 %', dimensions: [dimensions.ratio], limit: 'at most one' } as const;
const uses = 'a number of starts, operations or cycles';

const demands: Readonly<Record<Exclude<AmountPurpose, 'reading'>, AmountDemand>> = {
    takes: { ...time, clause: '`takes`' },
    costs: { clause: '`costs`', wanted: 'a sum of money', example: '48 EUR', dimensions: [dimensions.money] },
    within: { ...time, clause: '`within`' },
    wait: { ...time, clause: '`wait`' },
    after: { ...time, clause: '`after`' },
    'run-down': { ...time, clause: 'How long a hazard lasts' },
    duration: { ...time, clause: 'A duration' },
    share: { ...share, clause: '`share`' },
    mistaken: { ...share, clause: '`mistaken`' },
    rate: {
        clause: '`rate`',
        wanted: 'a number of faults',
        example: '2',
        dimensions: [dimensions.count, dimensions.ratio],
    },
    'rate per': {
        clause: 'The `per` of a rate',
        wanted: `a time or ${uses}`,
        example: '1e6 h',
        dimensions: [dimensions.time, dimensions.count],
        limit: 'above zero',
    },
    duty: { clause: '`duty`', wanted: uses, example: '12 starts', dimensions: [dimensions.count] },
    'duty per': { ...time, clause: 'The `per` of a duty', example: '1 h', limit: 'above zero' },
    stored: { clause: '`stored`', wanted: 'a capacitance', example: '470 µF', dimensions: [dimensions.capacitance] },
    through: { clause: '`through`', wanted: 'a resistance', example: '47 kΩ', dimensions: [dimensions.resistance] },
    category: {
        clause: 'The voltage of a `category`',
        wanted: 'a voltage',
        example: '600 V',
        dimensions: [dimensions.voltage],
    },
};

/** What is wrong with an amount for its purpose. A missing unit is no matter of this: the reading of the file tells it. */
export function amountProblem(amount: Amount, purpose: AmountPurpose): AmountProblem | undefined {
    if (amount.written === '') return undefined;
    const quantity = parseQuantity(amount.written);
    if (!quantity) return { sort: 'unreadable', amount };
    if (!quantity.unit && quantity.unitText !== '') return { sort: 'unknown-unit', amount, unit: quantity.unitText };
    if (purpose === 'reading') return undefined;
    const demand = demands[purpose];
    const sort = misfit(quantity, demand);
    return sort && { sort, amount, quantity, demand };
}

function misfit(quantity: Quantity, demand: AmountDemand): 'unit' | 'negative' | 'zero' | 'whole' | undefined {
    const { unit, number } = quantity;
    const isZero = number.digits === '0';
    if (unit && !demand.dimensions.some(dimension => sameDimensions(dimension, unit.dimension))) return 'unit';
    if (number.negative && !isZero) return 'negative';
    if (demand.limit === 'above zero' && isZero) return 'zero';
    if (demand.limit === 'at most one' && unit && (coherentValue(quantity)?.compare(1) ?? 0) > 0) return 'whole';
    return undefined;
}
