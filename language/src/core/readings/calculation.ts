// What a calculation works out: the type of each of its parts, and the calculation as it is then carried out.
//
// `calculationOf` types the expression by the rules of `natures.ts`: it says what comes out and what does not fit. A number that is
// written may be meant in several ways (5 °C is a temperature or a difference); what it is added to, and what is asked for, decide.
// A table or a curve is read in the direction that its argument's side has.
//
// The seam for the readings of a calculated test: `rangeOfCalculation` in `calculated-ranges.ts`.

import type Fraction from 'fraction.js';

import type { Curve as LawCurve } from '../curves/curve-shape.js';
import type { Model } from '../model/model.js';
import type { Calculate, Calculation, Curve, Table, Test } from '../model/tests.js';
import { type Dimension, dimensions, sameDimensions } from '../quantities/dimensions.js';
import { coherentValue, parseQuantity } from '../quantities/quantity.js';
import { oncePerModel } from '../questions/remember.js';
import type { CurveSides } from './curve-sides.js';
import { readCurve } from './curves.js';
import {
    common,
    distances,
    isElectrical,
    isLogarithmic,
    type Nature,
    naturesOf,
    sums,
    type ValueType,
} from './natures.js';
import { productDimension } from './products.js';
import { hasReadings, readingType, testOf } from './reading-types.js';

/** The functions that need no declaration. */
export type FunctionName = 'mean' | 'largest' | 'smallest' | 'deviation' | 'unbalance';

const functionNames: readonly string[] = ['mean', 'largest', 'smallest', 'deviation', 'unbalance'];

/** A calculation as it is carried out, over values in the coherent SI unit. */
export type Plan =
    | { readonly sort: 'constant'; readonly value: Fraction }
    | { readonly sort: 'reading'; readonly test: Test }
    | {
          readonly sort: 'operation';
          readonly operator: '+' | '-' | '*' | '/';
          readonly left: Plan;
          readonly right: Plan;
      }
    | { readonly sort: 'function'; readonly name: FunctionName; readonly arguments: readonly Plan[] }
    | { readonly sort: 'curve'; readonly law: LawCurve; readonly direction: Direction; readonly argument: Plan };

/** `forward` from what stands on the left of a table, `backward` from what stands on the right. */
export type Direction = 'forward' | 'backward';

/** Something in a calculation that does not fit. */
export type CalculationProblem = { readonly part: Calculation } &
    /** Two values that cannot be added, taken from each other or compared. */
    (
        | {
              readonly sort: 'sides';
              readonly operator: '+' | '-' | FunctionName;
              readonly left: ValueType;
              readonly right: ValueType;
          }
        /** A temperature, or a level, that is multiplied or divided. */
        | { readonly sort: 'factor'; readonly operator: '*' | '/' | 'unbalance'; readonly factor: ValueType }
        /** A table or a curve that is given something else than what stands on its sides. */
        | {
              readonly sort: 'argument';
              readonly curve: Curve | Table;
              readonly sides: CurveSides;
              readonly argument: ValueType;
          }
        /** A table or a curve that is given several values. */
        | { readonly sort: 'arguments'; readonly curve: Curve | Table }
        /** A table or a curve that gives one value for several others and is read from those. */
        | { readonly sort: 'two-ways'; readonly curve: Curve | Table }
        /** A test without readings. */
        | { readonly sort: 'no-reading'; readonly test: Test }
    );

/** A calculation with its type. */
export interface TypedCalculation {
    /** Undefined where something is unknown, or does not fit. */
    readonly type: ValueType | undefined;
    readonly problems: readonly CalculationProblem[];
    /** The calculation for one of its natures; undefined where that is none, or a law is unclear. */
    readonly planAs: (nature: Nature) => Plan | undefined;
}

const rememberedBy = oncePerModel(() => new WeakMap<Calculate, TypedCalculation>());

/** The calculation of a test, typed once for each model. */
export function calculationOf(method: Calculate, model: Model): TypedCalculation {
    const remembered = rememberedBy(model);
    const known = remembered.get(method) ?? typeCalculation(method.expression, model);
    remembered.set(method, known);
    return known;
}

/** Types an expression. */
export function typeCalculation(expression: Calculation, model: Model): TypedCalculation {
    const problems: CalculationProblem[] = [];
    const typed = typeOf(expression, { model, note: problem => problems.push(problem) });
    return { type: typed?.type, problems, planAs: nature => typed?.planAs(nature) };
}

interface Typed {
    readonly type: ValueType;
    /** Made of written numbers alone. */
    readonly isConstant: boolean;
    readonly planAs: (nature: Nature) => Plan | undefined;
}

interface Typing {
    readonly model: Model;
    readonly note: (problem: CalculationProblem) => void;
}

function typeOf(part: Calculation, typing: Typing): Typed | undefined {
    switch (part.sort) {
        case 'constant':
            return typeOfConstant(part);
        case 'reading':
            return typeOfReading(part, typing);
        case 'call':
            return functionNames.includes(part.function.text) && !typing.model.target(part.function)
                ? typeOfFunction(part, part.function.text as FunctionName, typing)
                : typeOfLookUp(part, typing);
        case 'operation': {
            const [left, right] = [typeOf(part.left, typing), typeOf(part.right, typing)];
            if (!left || !right) return undefined;
            return part.operator === '+' || part.operator === '-'
                ? typeOfSum(part, part.operator, { left, right }, typing)
                : typeOfProduct(part, part.operator, { left, right }, typing);
        }
    }
}

type Part<Sort extends Calculation['sort']> = Extract<Calculation, { readonly sort: Sort }>;

// An amount that cannot be read is told by itself.
function typeOfConstant({ amount }: Part<'constant'>): Typed | undefined {
    const quantity = parseQuantity(amount.written);
    if (!quantity || (!quantity.unit && quantity.unitText !== '')) return undefined;
    const dimension = quantity.unit?.dimension ?? dimensions.ratio;
    return {
        type: { dimension, natures: naturesOf(dimension) },
        isConstant: true,
        planAs: nature => {
            const value = coherentValue(quantity, nature === 'difference');
            return value && { sort: 'constant', value };
        },
    };
}

function typeOfReading(part: Part<'reading'>, { model, note }: Typing): Typed | undefined {
    const test = testOf(part.test, model);
    if (!test) return undefined;
    if (!hasReadings(test)) {
        note({ part, sort: 'no-reading', test });
        return undefined;
    }
    const type = readingType(test, model);
    return type && { type, isConstant: false, planAs: () => ({ sort: 'reading', test }) };
}

interface Sides {
    readonly left: Typed;
    readonly right: Typed;
}

function typeOfSum(
    part: Part<'operation'>,
    operator: '+' | '-',
    { left, right }: Sides,
    { note }: Typing,
): Typed | undefined {
    const dimension = sumDimension(operator, left.type.dimension, right.type.dimension);
    const natures = dimension && naturesOfSum(operator, left.type, right.type);
    if (!dimension || !natures || natures.length === 0) {
        note({ part, sort: 'sides', operator, left: left.type, right: right.type });
        return undefined;
    }
    return {
        type: { dimension, natures },
        isConstant: left.isConstant && right.isConstant,
        planAs: wanted => {
            for (const one of left.type.natures) {
                for (const other of right.type.natures) {
                    if (
                        !naturesOfSum(
                            operator,
                            { ...left.type, natures: [one] },
                            { ...right.type, natures: [other] },
                        ).includes(wanted)
                    ) {
                        continue;
                    }
                    const [first, second] = [left.planAs(one), right.planAs(other)];
                    return first && second && { sort: 'operation', operator, left: first, right: second };
                }
            }
            return undefined;
        },
    };
}

// The distance of two levels in dBm is in dB, and dB may be added to a level.
function sumDimension(operator: '+' | '-', left: Dimension, right: Dimension): Dimension | undefined {
    if (isLogarithmic(left)) {
        if (sameDimensions(left, right)) return operator === '-' ? dimensions.level : undefined;
        return sameDimensions(right, dimensions.level) ? left : undefined;
    }
    if (isLogarithmic(right)) return operator === '+' && sameDimensions(left, dimensions.level) ? right : undefined;
    return sameDimensions(left, right) ? left : undefined;
}

function naturesOfSum(operator: '+' | '-', left: ValueType, right: ValueType): readonly Nature[] {
    if (!isLogarithmic(left.dimension) && !isLogarithmic(right.dimension)) {
        return sums(operator, left.natures, right.natures);
    }
    return sameDimensions(left.dimension, right.dimension) ? ['plain'] : ['point'];
}

function typeOfProduct(
    part: Part<'operation'>,
    operator: '*' | '/',
    sides: Sides,
    { note }: Typing,
): Typed | undefined {
    const factors = [sides.left, sides.right].map(asFactor);
    const [left, right] = factors;
    const wrong = [sides.left, sides.right].find((_, index) => factors[index] === undefined);
    if (wrong) note({ part, sort: 'factor', operator, factor: wrong.type });
    if (!left || !right) return undefined;
    const dimension = productDimension(operator, left.typed.type.dimension, right.typed.type.dimension);
    return {
        type: { dimension, natures: naturesOfProduct(dimension, left.typed, right.typed) },
        isConstant: left.typed.isConstant && right.typed.isConstant,
        planAs: () => {
            const [first, second] = [left.typed.planAs(left.nature), right.typed.planAs(right.nature)];
            return first && second && { sort: 'operation', operator, left: first, right: second };
        },
    };
}

interface Factor {
    readonly typed: Typed;
    readonly nature: Nature;
}

// A temperature counts from absolute zero and a level is a logarithm: a multiple of what is read means nothing.
function asFactor(typed: Typed): Factor | undefined {
    const nature = typed.type.natures.find(one => one !== 'point');
    return nature && { typed, nature };
}

/**
 * How a product or a quotient is meant. A plain number may turn one form into another, as 1.414 makes a peak value of an effective one,
 * so that all is open where one is written.
 */
function naturesOfProduct(dimension: Dimension, left: Typed, right: Typed): readonly Nature[] {
    const all = naturesOf(dimension);
    if (sameDimensions(dimension, dimensions.temperature)) return ['difference'];
    const isOpen = [left, right].some(
        ({ isConstant, type }) => isConstant && sameDimensions(type.dimension, dimensions.ratio),
    );
    if (isOpen && isElectrical(dimension)) return all;
    const kept = [left, right].filter(({ type }) =>
        isElectrical(dimension) ? isElectrical(type.dimension) : sameDimensions(type.dimension, dimension),
    );
    const natures = kept.reduce((left_, { type }) => common(left_, type.natures), all);
    return natures.length > 0 ? natures : all;
}

function typeOfFunction(part: Part<'call'>, name: FunctionName, typing: Typing): Typed | undefined {
    const values = part.arguments.map(argument => typeOf(argument, typing));
    const known = values.filter(value => value !== undefined);
    const [first, ...others] = known;
    if (!first || known.length < values.length) return undefined;
    let natures = first.type.natures;
    for (const { type } of others) {
        const shared = sameDimensions(first.type.dimension, type.dimension) ? common(natures, type.natures) : [];
        if (shared.length === 0) {
            typing.note({ part, sort: 'sides', operator: name, left: { ...first.type, natures }, right: type });
            return undefined;
        }
        natures = shared;
    }
    const type = { dimension: first.type.dimension, natures };
    if (name === 'unbalance' && !natures.some(nature => nature !== 'point')) {
        typing.note({ part, sort: 'factor', operator: name, factor: type });
        return undefined;
    }
    return {
        type: typeOfResult(name, type),
        isConstant: known.every(({ isConstant }) => isConstant),
        planAs: nature => {
            const given =
                name === 'deviation' || name === 'unbalance'
                    ? (natures.find(one => one !== 'point') ?? 'point')
                    : nature;
            const plans = known.map(value => value.planAs(given)).filter(plan => plan !== undefined);
            return plans.length < known.length ? undefined : { sort: 'function', name, arguments: plans };
        },
    };
}

function typeOfResult(name: FunctionName, type: ValueType): ValueType {
    if (name === 'unbalance') return { dimension: dimensions.ratio, natures: ['plain'] };
    if (name !== 'deviation') return type;
    return isLogarithmic(type.dimension)
        ? { dimension: dimensions.level, natures: ['plain'] }
        : { ...type, natures: distances(type.natures) };
}

function typeOfLookUp(part: Part<'call'>, typing: Typing): Typed | undefined {
    const curve = typing.model.target(part.function);
    const [argument, second] = part.arguments;
    const given = argument && typeOf(argument, typing);
    if (!curve || (curve.sort !== 'table' && curve.sort !== 'curve')) return undefined;
    if (second) typing.note({ part, sort: 'arguments', curve });
    if (!given || second) return undefined;
    const looked = lookUp(curve, given.type);
    if (looked.sort !== 'read') {
        if (looked.sort === 'argument') {
            typing.note({ part, sort: 'argument', curve, sides: looked.sides, argument: given.type });
        }
        if (looked.sort === 'two-ways') typing.note({ part, sort: 'two-ways', curve });
        return undefined;
    }
    const { law, direction, nature, output } = looked;
    return {
        type: output,
        isConstant: false,
        planAs: () => {
            const plan = given.planAs(nature);
            return law && plan && { sort: 'curve', law, direction, argument: plan };
        },
    };
}

/** How a table or a curve is read for a value of some type. */
export type LookUp =
    | { readonly sort: 'unclear' }
    | { readonly sort: 'argument'; readonly sides: CurveSides }
    | { readonly sort: 'two-ways' }
    | {
          readonly sort: 'read';
          readonly direction: Direction;
          /** How the argument is meant. */
          readonly nature: Nature;
          readonly output: ValueType;
          /** Undefined where the law is unclear, which is a finding by itself. */
          readonly law: LawCurve | undefined;
      };

/** Which way a table or a curve is read for a value of this type: from the side that the value is of, first of all from the left. */
export function lookUp(curve: Curve | Table, argument: ValueType): LookUp {
    const { sides, law } = readCurve(curve);
    if (!sides) return { sort: 'unclear' };
    const { input, output } = sides;
    const forward = sharedNature(argument, input.type);
    if (forward) return { sort: 'read', direction: 'forward', nature: forward, output: output.type, law };
    const backward = sharedNature(argument, output.type);
    if (!backward) return { sort: 'argument', sides };
    if (law?.course === 'neither') return { sort: 'two-ways' };
    return { sort: 'read', direction: 'backward', nature: backward, output: input.type, law };
}

function sharedNature(one: ValueType, other: ValueType): Nature | undefined {
    return sameDimensions(one.dimension, other.dimension) ? common(one.natures, other.natures)[0] : undefined;
}
