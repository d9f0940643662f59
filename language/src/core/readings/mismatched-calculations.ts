// What does not fit in a calculation, in what comes out of it, and in bands that a table or a curve gives.

import type { Mend } from '../findings/finding.js';
import type { Model } from '../model/model.js';
import type { Band, Calculate, Calculation, Curve, Table, Test } from '../model/tests.js';
import type { Span } from '../model/written.js';
import { type Dimension, sameDimensions } from '../quantities/dimensions.js';
import { type QuantityKind, quantityKinds } from '../quantities/quantity-kinds.js';
import { quoteName } from '../text/words.js';
import { calculationOf, type CalculationProblem, lookUp } from './calculation.js';
import type { CurveSides } from './curve-sides.js';
import { aboutTypes, type Mismatch, modeMend, placeOf } from './mismatch.js';
import { common, distinctionOf, isLogarithmic, meantBy, typeInWords, type ValueType } from './natures.js';
import { measuredAs, readingType, testOf } from './reading-types.js';

/** A table or a curve that is used in a way in which it gives nothing certain. */
export interface UnclearUse {
    readonly place: Span;
    readonly sort: 'two-ways' | 'arguments';
    readonly curve: Curve | Table;
}

type Found = { readonly mismatches: readonly Mismatch[]; readonly uses: readonly UnclearUse[] };

/** What does not fit in the calculations of a test, and in its bands that a table or a curve gives. */
export function mismatchedCalculations(test: Test, model: Model): Found {
    if (!hasCalculations(test)) return nothingFound;
    const found = test.methods.flatMap(method => (method.sort === 'calculate' ? [inCalculation(method, model)] : []));
    const inBands = test.outcomes.flatMap(({ bands }) => bands.flatMap(band => inBand(band, test, model)));
    return {
        mismatches: [...found.flatMap(({ mismatches }) => mismatches), ...inBands.filter(one => 'about' in one)],
        uses: [...found.flatMap(({ uses }) => uses), ...inBands.filter(one => 'curve' in one)],
    };
}

const nothingFound: Found = { mismatches: [], uses: [] };

/** Whether something is worked out in a test, or a band of it. */
function hasCalculations({ methods, outcomes }: Test): boolean {
    return (
        methods.some(({ sort }) => sort === 'calculate') ||
        outcomes.some(({ bands }) => bands.some(({ sort }) => sort === 'from-table'))
    );
}

function inCalculation(method: Calculate, model: Model): Found {
    const { type, problems } = calculationOf(method, model);
    const result = type ? wrongResult(method, type) : undefined;
    return {
        mismatches: [...problems.flatMap(problem => mismatchFor(problem) ?? []), ...(result ? [result] : [])],
        uses: problems.flatMap(problem =>
            problem.sort === 'two-ways' || problem.sort === 'arguments'
                ? [{ place: placeOf(problem.part), sort: problem.sort, curve: problem.curve }]
                : [],
        ),
    };
}

const none = { related: [], mends: [] };

function mismatchFor(problem: CalculationProblem): Mismatch | undefined {
    const place = placeOf(problem.part);
    switch (problem.sort) {
        case 'sides': {
            const { left, right, operator } = problem;
            const words = { left: typeInWords(left), right: typeInWords(right), done: doneWith[operator] };
            const mends = meanMend(problem);
            return {
                ...none,
                about: aboutTypes(left, right),
                sort: 'sides',
                place,
                words,
                advice: sidesAdvice(problem),
                mends,
            };
        }
        case 'factor': {
            const { factor, operator } = problem;
            const words = { factor: typeInWords(factor), done: doneWith[operator] };
            const advice = isLogarithmic(factor.dimension)
                ? 'A level is a logarithm; add and subtract levels, or take the difference of two first.'
                : 'Take the difference of two temperatures first, or `mean` for a mean.';
            return { ...none, about: 'difference', sort: 'factor', place, words, advice };
        }
        case 'argument':
            return wrongArgument(placeOf(argumentOf(problem.part)), problem.curve, problem.sides, problem.argument);
        case 'no-reading': {
            const words = { test: quoteName(problem.test.name.text) };
            return {
                ...none,
                about: 'unit',
                sort: 'no-reading',
                place,
                words,
                advice: 'Calculate with tests that measure something.',
            };
        }
        default:
            return undefined;
    }
}

const doneWith: Readonly<Record<Extract<CalculationProblem, { operator: unknown }>['operator'], string>> = {
    '+': 'added',
    '-': 'subtracted',
    '*': 'multiplied',
    '/': 'divided',
    mean: 'put into one mean',
    largest: 'compared',
    smallest: 'compared',
    deviation: 'compared',
    unbalance: 'set against their mean',
};

function argumentOf(part: Calculation): Calculation {
    return part.sort === 'call' ? (part.arguments[0] ?? part) : part;
}

function sidesAdvice({ left, right, operator }: Extract<CalculationProblem, { readonly sort: 'sides' }>): string {
    switch (aboutTypes(left, right)) {
        case 'unit':
            return 'Look at what each side measures, and put brackets where products come first.';
        case 'form':
            return 'Use readings that are taken alike: both AC or both DC, both effective or both peak values.';
        case 'reference':
            return 'Use readings that are taken alike; a gauge pressure plus the pressure of the air is an absolute one.';
        case 'difference':
            return operator === '+'
                ? 'For a mean write `mean(…, …)`; only a difference can be added to a temperature or a level.'
                : 'Take the difference from the temperature or the level, not the other way round.';
    }
}

/** Of two readings that cannot be added the mean may be meant. */
function meanMend(problem: Extract<CalculationProblem, { readonly sort: 'sides' }>): Mend[] {
    const { part, operator, left, right } = problem;
    if (operator !== '+' || part.sort !== 'operation' || aboutTypes(left, right) !== 'difference') return [];
    const [first, second] = [part.left, part.right].map(side => (side.sort === 'reading' ? nameIn(side) : undefined));
    if (!first || !second) return [];
    const text = `mean(${first}, ${second})`;
    return [{ title: `Write ${quoteName(text)}`, safety: 'suggestion', edits: [{ ...placeOf(part), text }] }];
}

function nameIn({ test: { owner, test } }: Extract<Calculation, { readonly sort: 'reading' }>): string {
    return test ? `${owner.text}.${test.text}` : owner.text;
}

function wrongArgument(
    place: Span,
    curve: Curve | Table,
    { input, output }: CurveSides,
    argument: ValueType,
): Mismatch {
    const near = [input.type, output.type].find(side => sameDimensions(side.dimension, argument.dimension));
    const about = near ? aboutTypes(near, argument) : 'unit';
    const words = {
        curve: quoteName(curve.name.text),
        input: typeInWords(input.type),
        output: typeInWords(output.type),
        argument: typeInWords(argument),
    };
    const advice = near
        ? `Give it ${typeInWords(near)}, or declare the ${curve.sort} for ${typeInWords(argument)}.`
        : `Give it ${typeInWords(input.type)} or ${typeInWords(output.type)}.`;
    const related = [{ ...placeOf(curve.name), text: `this is the ${curve.sort}` }];
    return { about, sort: 'argument', place, words, advice, mends: [], related };
}

function wrongResult(method: Calculate, type: ValueType): Mismatch | undefined {
    const kind = quantityKinds.get(method.quantity.text);
    if (!kind) return undefined;
    const modes = method.modes.map(({ text }) => text);
    const place = placeOf(method.quantity);
    const isOne = isOfKind(type.dimension, kind);
    const about = distinctionOf(type.dimension);
    if (isOne && (!about || common(type.natures, meantBy(type.dimension, modes)).length > 0)) return undefined;
    const result = typeInWords(type);
    if (!isOne || !about) {
        const mends = kindsOf(type.dimension).map((one): Mend => {
            const edits = [
                { ...place, end: method.modes.at(-1)?.end ?? method.quantity.end, text: quantityText(one, type) },
            ];
            return { title: `Write ${quoteName(quantityText(one, type))}`, safety: 'suggestion', edits };
        });
        mends.unshift(...shareMend(method, kind));
        const words = { result, quantity: quoteName(kind.name) };
        const advice = 'Name the quantity that comes out, or look at the calculation: perhaps a factor is missing.';
        return { ...none, about: 'unit', sort: 'result', place, words, advice, mends };
    }
    const words = { result, quantity: quoteName([kind.name, ...modes].join(' ')) };
    const advice = 'Write what comes out, or look at the calculation.';
    return {
        ...none,
        about,
        sort: 'result',
        place,
        words,
        advice,
        mends: type.natures.map(nature => modeMend(method, nature)),
    };
}

/** For `deviation` where a ratio is wanted: the share of the mean is `unbalance`. */
function shareMend({ expression }: Calculate, { name }: QuantityKind): Mend[] {
    if (name !== 'ratio' || expression.sort !== 'call' || expression.function.text !== 'deviation') return [];
    const edits = [{ ...placeOf(expression.function), text: 'unbalance' }];
    return [{ title: 'Write `unbalance`', safety: 'suggestion', edits }];
}

// A number of things is a plain number where it is a factor: counts for each second are a frequency.
function isOfKind(dimension: Dimension, { dimensions: own }: QuantityKind): boolean {
    if (own.some(one => sameDimensions(one, dimension))) return true;
    const { count: _, ...plain } = dimension;
    return own.some(one => sameDimensions(one, plain));
}

/** The first of the quantities of this dimension, as the trade names them. */
function kindsOf(dimension: Dimension): readonly QuantityKind[] {
    return [...quantityKinds.values()]
        .filter(({ dimensions: [first] }) => first && sameDimensions(first, dimension))
        .slice(0, 2);
}

function quantityText({ name }: QuantityKind, { natures }: ValueType): string {
    const [nature, ...others] = natures;
    const words =
        nature && others.length === 0
            ? modeMend({ quantity: { file: '', start: 0, end: 0, text: name }, modes: [] }, nature)
            : undefined;
    return words?.edits[0]?.text ?? name;
}

function inBand(band: Band, test: Test, model: Model): (Mismatch | UnclearUse)[] {
    if (band.sort !== 'from-table') return [];
    const curve = model.target(band.table);
    const given = testOf(band.input, model);
    if (!given || !curve || (curve.sort !== 'table' && curve.sort !== 'curve')) return [];
    const type = readingType(given, model);
    if (!type) return [];
    const found = lookUp(curve, type);
    if (found.sort === 'unclear') return [];
    if (found.sort === 'two-ways') return [{ place: placeOf(band.table), sort: 'two-ways', curve }];
    if (found.sort === 'argument') return [wrongArgument(placeOf(band.input), curve, found.sides, type)];
    const { output } = found;
    const read = measuredAs(test, model);
    if (read.length === 0 || read.some(one => !one.type)) return [];
    const types = read.flatMap(one => one.type ?? []);
    const alike = types.filter(one => sameDimensions(one.dimension, output.dimension));
    if (alike.some(one => common(one.natures, output.natures).length > 0)) return [];
    const [wanted] = alike.length > 0 ? alike : types;
    if (!wanted) return [];
    const words = {
        curve: quoteName(curve.name.text),
        output: typeInWords(output),
        test: quoteName(test.name.text),
        wanted: typeInWords(wanted),
    };
    const related = [{ ...placeOf(curve.name), text: `this is the ${curve.sort}` }];
    const advice = 'Look at what the table or the curve turns into what, and at what both tests measure.';
    return [
        { about: aboutTypes(wanted, output), sort: 'band', place: placeOf(band), words, advice, mends: [], related },
    ];
}
