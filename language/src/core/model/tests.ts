// Tests: what is observed or measured, with named outcomes; and the instruments and tables they use.

import type { FaultReference, InZone, Location, MeasurementCategory } from './equipment.js';
import type { Guarded, StateExpression } from './guards.js';
import type { Declared, Remarks } from './remarks.js';
import type { Amount, Name, Prose, Reference, Span, Word } from './written.js';

/** `coil-voltage`, or `k1.coil-voltage` where the part has the test from its kind. */
export interface TestReference extends Span {
    readonly owner: Reference;
    readonly test: Reference | undefined;
}

export interface Test extends Declared, Guarded, Remarks {
    readonly sort: 'test';
    readonly zones: readonly InZone[];
    /** The part that the test looks at, `at PART`. */
    readonly part: Reference | undefined;
    readonly methods: readonly Method[];
    readonly takes: readonly GuardedAmount[];
    readonly costs: readonly GuardedAmount[];
    readonly needs: readonly (Span & Guarded & { readonly states: readonly StateExpression[] })[];
    readonly checks: readonly Check[];
    readonly across: readonly (Span & Guarded & { readonly from: Reference; readonly to: Reference })[];
    readonly through: readonly (Span & Guarded & { readonly flow: Reference })[];
    readonly during: (Span & { readonly text: Prose; readonly duration: Amount | undefined }) | undefined;
    /** A displayed code that stays until it is cleared. */
    readonly remembers: Span | undefined;
    readonly locations: readonly Location[];
    /** In the order written; an outcome's name may stand several times with different guards or states. */
    readonly outcomes: readonly Outcome[];
}

export interface GuardedAmount extends Span, Guarded {
    readonly amount: Amount;
}

export type Method = Measure | Observe | Calculate | Identify;

export interface Measure extends Span, Guarded {
    readonly sort: 'measure';
    readonly quantity: Word;
    readonly modes: readonly Word[];
    readonly instrument: Reference | undefined;
}

export interface Observe extends Span {
    readonly sort: 'observe';
    readonly sense: Word | undefined;
}

export interface Calculate extends Span {
    readonly sort: 'calculate';
    readonly quantity: Word;
    readonly modes: readonly Word[];
    readonly expression: Calculation;
}

/** Asks which build it is; its outcomes are the choices of the option. */
export interface Identify extends Span {
    readonly sort: 'identify';
    readonly option: Reference;
    readonly sense: Word | undefined;
}

export interface Check extends Span, Guarded {
    readonly fault: FaultReference;
    readonly outcome: Reference | undefined;
}

export interface Outcome extends Span, Guarded {
    readonly sort: 'outcome';
    readonly name: Name;
    /** What the technician answers, for an observed test: `yes`, `no` or the author's words. */
    readonly answer: Prose | undefined;
    readonly bands: readonly Band[];
    readonly shows: readonly Word[];
    readonly when: StateExpression | undefined;
}

/** A range of readings as written; `core/quantities` turns it into exact ends. */
export type Band =
    | (Span & { readonly sort: 'otherwise' })
    | (Span & { readonly sort: 'limit'; readonly comparison: '<' | '<=' | '>' | '>='; readonly value: Amount })
    | (Span & {
          readonly sort: 'range';
          readonly from: Amount;
          readonly fromOpen: boolean;
          readonly to: Amount;
          readonly toOpen: boolean;
      })
    | (Span & { readonly sort: 'around'; readonly value: Amount; readonly tolerance: Amount | undefined })
    | (Span & {
          readonly sort: 'from-table';
          /** The table or the curve. */
          readonly table: Reference;
          readonly input: TestReference;
          readonly tolerance: Amount | undefined;
      });

export type Calculation =
    | (Span & {
          readonly sort: 'operation';
          readonly operator: '+' | '-' | '*' | '/';
          readonly left: Calculation;
          readonly right: Calculation;
      })
    | (Span & { readonly sort: 'constant'; readonly amount: Amount })
    | (Span & { readonly sort: 'call'; readonly function: Reference; readonly arguments: readonly Calculation[] })
    | (Span & { readonly sort: 'reading'; readonly test: TestReference });

export interface Instrument extends Declared, Remarks {
    readonly sort: 'instrument';
    readonly measures: readonly Measures[];
    readonly categories: readonly MeasurementCategory[];
}

export interface Measures extends Span {
    readonly quantity: Word;
    readonly modes: readonly Word[];
    readonly from: Amount | undefined;
    readonly to: Amount | undefined;
    readonly resolution: Amount | undefined;
    readonly accuracy: Amount | undefined;
    /** The second part of the accuracy: `0.5 % + 3 digits`. */
    readonly accuracyPlus: Amount | undefined;
}

export interface Table extends Declared {
    readonly sort: 'table';
    readonly input: { readonly quantity: Word; readonly modes: readonly Word[] };
    readonly output: { readonly quantity: Word; readonly modes: readonly Word[] };
    readonly interpolation: 'linear' | 'logarithmic';
    readonly rows: readonly (Span & { readonly input: Amount; readonly output: Amount })[];
}

/** How one quantity follows another by a published law, as a temperature sensor does; used like a table. */
export interface Curve extends Declared {
    readonly sort: 'curve';
    readonly follows: readonly Follows[];
    /** The inputs for which it holds, where they are fewer than those of its shape: `from -40 °C to 120 °C`. */
    readonly limits: readonly (Span & { readonly from: Amount; readonly to: Amount })[];
    readonly remarks: Remarks['remarks'];
}

/** The shape of a curve as written: `follows ntc 10 kΩ at 25 °C beta 3950 K`. */
export interface Follows extends Span {
    readonly shape: Word;
    /** The letter of a thermocouple, or the quantity that a current loop stands for. */
    readonly word: Word | undefined;
    readonly modes: readonly Word[];
    readonly values: readonly Amount[];
    readonly at: Amount | undefined;
    /** The second of two ends: `0 bar .. 10 bar`. */
    readonly last: Amount | undefined;
    readonly property: Word | undefined;
    readonly propertyValue: Amount | undefined;
}
