// The law that a `follows` clause names, with its amounts, or what is missing, too much or of the wrong sort.

import Fraction from 'fraction.js';

import { isCurveProblem, makeCurve } from '../curves/curve.js';
import type { CurveProblem, CurveShape, ThermocoupleType } from '../curves/curve-shape.js';
import type { Curve, Follows } from '../model/tests.js';
import type { Amount, Span } from '../model/written.js';
import { type Dimension, dimensionInWords, dimensions, sameDimensions } from '../quantities/dimensions.js';
import { displayInterval } from '../quantities/interval-words.js';
import { contains, type Interval } from '../quantities/intervals.js';
import { coherentValue, parseQuantity } from '../quantities/quantity.js';
import { quantityKinds } from '../quantities/quantity-kinds.js';
import { findUnit } from '../quantities/unit-spellings.js';
import { nearNames } from '../text/near-names.js';
import { listOf, quoteName } from '../text/words.js';
import { type CurveFault, type CurveSides, makeSide, type ReadCurve, sideOf, valueOn } from './curve-sides.js';

/** The words for laws, as they stand behind `follows`. */
export const shapeWords = ['platinum', 'ntc', 'steinhart-hart', 'thermocouple', 'copper', 'aluminum', 'loop'] as const;

type ShapeWord = (typeof shapeWords)[number];

const thermocouples: readonly ThermocoupleType[] = ['E', 'J', 'K', 'N', 'T'];

/** What a law looks like when it is written. */
const examples: Readonly<Record<ShapeWord, string>> = {
    platinum: 'follows platinum 100 Ω',
    ntc: 'follows ntc 10 kΩ at 25 °C beta 3950 K',
    'steinhart-hart': 'follows steinhart-hart 1.129148e-3 2.34125e-4 8.76741e-8',
    thermocouple: 'follows thermocouple K',
    copper: 'follows copper 12.4 Ω at 20 °C',
    aluminum: 'follows aluminum 12.4 Ω at 20 °C',
    loop: 'follows loop pressure gauge 0 bar .. 10 bar',
};

/** A curve of the model, with its law and its sides, or what is wrong with it. */
export function readFollows(curve: Curve): ReadCurve {
    const [follows, second] = curve.follows;
    const [, moreLimits] = curve.limits;
    const name = curve.name.text;
    const faults: CurveFault[] = [];
    if (!follows) {
        const advice = `Write what it follows, for example \`${examples.platinum}\`.`;
        return {
            sides: undefined,
            law: undefined,
            faults: [{ place: curve.name, sort: 'nothing', words: { name }, advice }],
        };
    }
    if (second) {
        faults.push({
            place: second,
            sort: 'several',
            words: { name },
            advice: 'Write a curve of its own for each law.',
        });
    }
    if (moreLimits) {
        faults.push({ place: moreLimits, sort: 'limited-twice', words: { name }, advice: 'Leave one of the two.' });
    }
    const word = shapeWords.find(shape => shape === follows.shape.text);
    if (!word) return { sides: undefined, law: undefined, faults: [...faults, ...unknownShape(follows)] };
    const taken = takeShape(word, follows);
    const sides = sidesOf(word, follows);
    const all = [...faults, ...taken.faults];
    if (!taken.shape || !sides || all.length > 0) return { sides, law: undefined, faults: all };
    return withLimits(curve, follows, { word, shape: taken.shape, sides });
}

interface KnownShape {
    readonly word: ShapeWord;
    readonly shape: CurveShape;
    readonly sides: CurveSides;
}

function withLimits(curve: Curve, follows: Follows, { word, shape, sides }: KnownShape): ReadCurve {
    const whole = makeCurve(shape);
    if (isCurveProblem(whole)) return { sides, law: undefined, faults: [lawFault(word, follows, whole)] };
    const [limits] = curve.limits;
    if (!limits) return { sides, law: whole, faults: [] };
    const ends = [limits.from, limits.to];
    const faults = ends.flatMap(end => limitFaults(end, sides, whole.domain));
    const [from, to] = ends.map(end => valueOn(sides.input, end));
    // A range that ends before it begins is told by itself.
    if (faults.length > 0 || !from || !to || from.compare(to) >= 0) return { sides, law: undefined, faults };
    const within: Interval = { low: { value: from, closed: true }, high: { value: to, closed: true } };
    const made = makeCurve(shape, within);
    return { sides, law: isCurveProblem(made) ? undefined : made, faults: [] };
}

function limitFaults(end: Amount, { input }: CurveSides, domain: Interval): CurveFault[] {
    const quantity = parseQuantity(end.written);
    if (!quantity || (!quantity.unit && quantity.unitText !== '')) return [];
    const value = valueOn(input, end);
    if (!value) return [wrongAmount(end, 'limits', input.type.dimension, `${input.kind.usualUnit}`)];
    // A temperature that there cannot be is told by itself.
    const isImpossible = input.kind.name === 'temperature' && value.compare(0) < 0;
    if (contains(domain, value) || isImpossible) return [];
    const unit = quantity.unit ?? findUnit(input.kind.usualUnit);
    const words = { end: end.written, domain: displayInterval(domain, { unit }) };
    return [{ place: end, sort: 'beyond-law', words, advice: 'Limit the curve to where its law holds.' }];
}

/** A shape, as far as it could be read, and what is wrong with it. */
interface TakenShape {
    readonly shape: CurveShape | undefined;
    readonly faults: readonly CurveFault[];
}

function takeShape(word: ShapeWord, follows: Follows): TakenShape {
    const take = new Take(word, follows);
    const shape = shapeFrom(word, follows, take);
    return {
        shape: take.faults.length > 0 ? undefined : shape,
        faults: [...take.faults, ...take.tooMuch()].slice(0, 1),
    };
}

function shapeFrom(word: ShapeWord, follows: Follows, take: Take): CurveShape | undefined {
    switch (word) {
        case 'platinum': {
            const atZero = take.value(0, 'a resistance', dimensions.resistance, '100 Ω');
            return atZero && { sort: 'platinum', atZero: atZero.valueOf() };
        }
        case 'ntc': {
            const pair = take.pair();
            const beta = take.property('beta', '3950 K');
            return pair && beta && { sort: 'ntc', ...pair, beta: beta.valueOf() };
        }
        case 'steinhart-hart': {
            const [a, b, c] = [0, 1, 2].map(at =>
                take.value(at, 'three plain numbers', dimensions.ratio, '1.129148e-3'),
            );
            return a && b && c && { sort: 'steinhart-hart', a: a.valueOf(), b: b.valueOf(), c: c.valueOf() };
        }
        case 'thermocouple': {
            const type = take.thermocouple();
            return type && { sort: 'thermocouple', type };
        }
        case 'copper':
            return windingFrom(follows, take, '234.5');
        case 'aluminum':
            return windingFrom(follows, take, '225');
        case 'loop': {
            const [low, high] = take.ends();
            return low && high && { sort: 'loop', low, high };
        }
    }
}

function windingFrom(follows: Follows, take: Take, usual: string): CurveShape | undefined {
    const pair = take.pair();
    const constant = follows.property ? take.property('constant', '235 K') : new Fraction(usual);
    return pair && constant && { sort: 'metal', ...pair, constant: constant.valueOf() };
}

function sidesOf(word: ShapeWord, follows: Follows): CurveSides | undefined {
    const side = (name: string, modes: readonly string[]) => {
        const kind = quantityKinds.get(name);
        return kind && makeSide(kind, modes, []);
    };
    if (word !== 'loop') {
        const input = side('temperature', []);
        const output = word === 'thermocouple' ? side('voltage', ['DC']) : side('resistance', []);
        return input && output && { input, output };
    }
    const { word: quantity, modes, values, last } = follows;
    const input = quantity && sideOf({ quantity, modes }, [...values, ...(last ? [last] : [])]);
    const output = side('current', ['DC']);
    return input && output && { input, output };
}

/** Takes the pieces of a clause one by one, and notes what is missing, of the wrong sort or left over. */
class Take {
    readonly faults: CurveFault[] = [];
    private readonly used = new Set<Span>();

    constructor(
        private readonly word: ShapeWord,
        private readonly follows: Follows,
    ) {}

    /** The amount at this place of the list. */
    value(at: number, wanted: string, dimension: Dimension, example: string): Fraction | undefined {
        return this.amount(this.follows.values[at], wanted, { dimension, example, asDifference: false });
    }

    /** A resistance, and the temperature at which it has it. */
    pair(): { readonly resistance: number; readonly temperature: number } | undefined {
        const resistance = this.value(0, 'a resistance', dimensions.resistance, '10 kΩ');
        const at = { dimension: dimensions.temperature, example: '25 °C', asDifference: false };
        const temperature = this.amount(this.follows.at, 'the temperature of that resistance behind `at`', at);
        return resistance && temperature && { resistance: resistance.valueOf(), temperature: temperature.valueOf() };
    }

    /** The amount behind a word such as `beta`, in kelvins. */
    property(name: string, example: string): Fraction | undefined {
        const { property, propertyValue } = this.follows;
        if (!property) return this.lack(`\`${name} ${example}\``);
        this.used.add(property);
        if (property.text !== name) {
            const words = { what: 'property', word: property.text, law: this.word };
            const near = nearNames(property.text, [name]);
            this.note({ place: property, sort: 'unknown', words, advice: `Write \`${name} ${example}\`.`, near });
            return undefined;
        }
        const kelvins = { dimension: dimensions.temperature, example, asDifference: true };
        return this.amount(propertyValue, `a temperature behind \`${name}\``, kelvins);
    }

    /** The letter of a thermocouple. */
    thermocouple(): ThermocoupleType | undefined {
        const { word } = this.follows;
        const letters = listOf(thermocouples, 'and');
        if (!word) return this.lack('the letter of the thermocouple');
        this.used.add(word);
        const type = thermocouples.find(letter => letter === word.text);
        if (type) return type;
        const near = thermocouples.filter(letter => letter === word.text.toUpperCase());
        const words = { what: 'type of thermocouple', word: word.text, law: this.word };
        this.note({
            place: word,
            sort: 'unknown',
            words,
            advice: `Types ${letters} are known; for another, write its table.`,
            near,
        });
        return undefined;
    }

    /** The inputs at the two ends of a loop. */
    ends(): readonly [Fraction | undefined, Fraction | undefined] {
        const { word, modes, values, last } = this.follows;
        const quantity = word && quantityKinds.get(word.text);
        if (!word) return [this.lack('the quantity that the loop stands for'), undefined];
        for (const one of [word, ...modes]) this.used.add(one);
        if (!quantity) {
            const words = { what: 'quantity', word: word.text, law: this.word };
            const near = nearNames(word.text, quantityKinds.keys());
            const advice = 'Write a quantity, for example `pressure gauge` or `temperature`.';
            this.note({ place: word, sort: 'unknown', words, advice, near });
            return [undefined, undefined];
        }
        const side = sideOf({ quantity: word, modes }, [...values, ...(last ? [last] : [])]);
        const example = `0 ${quantity.usualUnit}`;
        const wanted = {
            dimension: side?.type.dimension ?? {},
            example,
            asDifference: side?.modes.includes('difference') ?? false,
        };
        const low = this.amount(values[0], 'the values at 4 mA and at 20 mA', wanted);
        return low ? [low, this.amount(last, 'the values at 4 mA and at 20 mA', wanted)] : [undefined, undefined];
    }

    /** What the law does not take. */
    tooMuch(): CurveFault[] {
        const { word, modes, values, at, last, property, propertyValue } = this.follows;
        if (property && this.used.has(property) && propertyValue) this.used.add(propertyValue);
        const left = [word, ...modes, ...values, at, last, property, propertyValue].filter(
            one => one && !this.used.has(one),
        );
        const [first] = left;
        if (!first || this.faults.length > 0) return [];
        const written = 'written' in first ? first.written : first.text;
        const words = { law: this.word, written };
        return [
            { place: first, sort: 'unexpected', words, advice: `It is written like this: \`${examples[this.word]}\`.` },
        ];
    }

    private amount(
        amount: Amount | undefined,
        wanted: string,
        { dimension, example, asDifference }: { dimension: Dimension; example: string; asDifference: boolean },
    ): Fraction | undefined {
        if (!amount || amount.written === '') return this.lack(wanted);
        this.used.add(amount);
        const quantity = parseQuantity(amount.written);
        // What cannot be read is told by itself; it is noted here so that no law is made of the rest.
        if (!quantity || (!quantity.unit && quantity.unitText !== '')) return undefined;
        if (sameDimensions(quantity.unit?.dimension ?? dimensions.ratio, dimension)) {
            return coherentValue(quantity, asDifference);
        }
        this.note(wrongAmount(amount, this.word, dimension, example));
        return undefined;
    }

    private lack(wanted: string): undefined {
        const words = { law: this.word, wanted };
        this.note({
            place: this.follows,
            sort: 'lacking',
            words,
            advice: `Write it like this: \`${examples[this.word]}\`.`,
        });
        return undefined;
    }

    private note(fault: CurveFault): void {
        this.faults.push(fault);
    }
}

function wrongAmount(amount: Amount, of: string, dimension: Dimension, example: string): CurveFault {
    const wanted = sameDimensions(dimension, dimensions.ratio)
        ? 'plain numbers'
        : (dimensionInWords(dimension) ?? 'another unit');
    const words = { of, written: amount.written, wanted };
    return { place: amount, sort: 'wrong-amount', words, advice: `Write ${wanted}, for example \`${example}\`.` };
}

function unknownShape({ shape }: Follows): CurveFault[] {
    if (shape.text === '') return [];
    const near = nearNames(shape.text, shapeWords);
    const laws = listOf(shapeWords.map(quoteName), 'and');
    const words = { what: 'law', word: shape.text, law: 'follows' };
    return [
        { place: shape, sort: 'unknown', words, advice: `There are ${laws}; for anything else, write a table.`, near },
    ];
}

function lawFault(word: ShapeWord, follows: Follows, problem: CurveProblem): CurveFault {
    const { values, at, last, propertyValue } = follows;
    const example = `It is written like this: \`${examples[word]}\`.`;
    switch (problem.problem) {
        case 'not-positive': {
            const amount = { resistance: values[0], temperature: at, beta: propertyValue }[problem.amount];
            const words = { written: amount?.written ?? '' };
            return { place: amount ?? follows, sort: 'not-positive', words, advice: example };
        }
        case 'not-falling':
            return {
                place: follows,
                sort: 'not-falling',
                words: {},
                advice: 'Look at the powers of ten of the three numbers.',
            };
        case 'same-ends':
            return {
                place: last ?? follows,
                sort: 'same-ends',
                words: { written: last?.written ?? '' },
                advice: example,
            };
        default:
            return {
                place: follows,
                sort: 'out-of-reach',
                words: {},
                advice: 'Look at the powers of ten of the amounts.',
            };
    }
}
