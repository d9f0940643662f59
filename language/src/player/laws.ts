// What tables and curves give for a value, and which value they give it for: by the laws that the document names.
//
// All in units of the SI. What is computed with logarithms, powers or a search is good for 12 significant digits, and rounded to them.

import type { Curve, Law, Quantity, Table } from '../document/types.js';
import { add, compare, divide, multiply, type Rational, rational, rounded, subtract, toNumber } from './rational.js';
import { referenceFunctions, type ReferencePiece } from './thermocouples.js';
import type { Tree } from './tree.js';
import { coherentQuantity } from './units.js';

/** One quantity from another, over a stretch of inputs. */
interface Relation {
    readonly low: number;
    readonly high: number;
    /** The output for an input within the stretch; undefined where it cannot be computed. */
    readonly forward: (input: Rational) => Rational | undefined;
    /** The input that gives an output. */
    readonly backward: (output: Rational) => Rational | undefined;
}

/** 0 °C in kelvins: SI brochure (9th edition), 2.3.1, from memory. */
const zeroCelsius = 273.15;

/** What a table or a curve gives for a value; undefined where it gives none. */
export function lookUp(
    declared: Table | Curve,
    argument: Rational,
    isBackward: boolean,
    tree: Tree,
): Rational | undefined {
    if ('rows' in declared) return lookUpInTable(declared, argument, isBackward, tree);
    const relation = relationOf(declared.law, tree);
    const result = isBackward ? relation.backward(argument) : relation.forward(argument);
    const input = isBackward ? result : argument;
    return result && input && isWithin(input, relation, declared, tree) ? result : undefined;
}

/** Whether an input is one that the law and the limits of the curve cover; the last digits of a computed one do not count. */
function isWithin(input: Rational, { low, high }: Relation, { from, to }: Curve, tree: Tree): boolean {
    const ends = [from, to].map(end => end && coherentQuantity(end, false, tree).value);
    const isAbove = (end: Rational): boolean => compare(input, subtract(end, slack)) >= 0;
    const isBelow = (end: Rational): boolean => compare(input, add(end, slack)) <= 0;
    return (
        (!Number.isFinite(low) || isAbove(rational(low))) &&
        (!Number.isFinite(high) || isBelow(rational(high))) &&
        (!ends[0] || isAbove(ends[0])) &&
        (!ends[1] || isBelow(ends[1]))
    );
}

const slack = rational(1e-9);

function relationOf(law: Law, tree: Tree): Relation {
    const value = (quantity: Quantity): number => toNumber(coherentQuantity(quantity, false, tree).value);
    switch (law.law) {
        case 'platinum':
            return platinum(coherentQuantity(law.atZero, false, tree).value);
        case 'ntc':
            return thermistor(
                value(law.resistance),
                value(law.temperature),
                toNumber(coherentQuantity(law.beta, true, tree).value),
            );
        case 'steinhart-hart':
            return steinhartHart(law.a.value, law.b.value, law.c.value);
        case 'thermocouple':
            return thermocouple(...referenceFunctions[law.letter]);
        case 'winding':
            return winding(
                coherentQuantity(law.resistance, false, tree).value,
                coherentQuantity(law.temperature, false, tree).value,
                rational(law.constant.value),
            );
        case 'loop':
            return loop(coherentQuantity(law.low, false, tree).value, coherentQuantity(law.high, false, tree).value);
    }
}

// IEC 60751: R(t) = R₀(1 + At + Bt²), and + C(t − 100 °C)t³ below 0 °C. Coefficients seen second-hand.
const platinumAbove = [1, 3.9083e-3, -5.775e-7].map(rational);
const platinumBelow = [1, 3.9083e-3, -5.775e-7, 4.183e-10, -4.183e-12].map(rational);

function platinum(atZero: Rational): Relation {
    const ratio = (celsius: Rational): Rational =>
        (celsius.n < 0n ? platinumBelow : platinumAbove).reduceRight(
            (sum, part) => add(multiply(sum, celsius), part),
            nothing,
        );
    return {
        low: 73.15,
        high: 1123.15,
        forward: input => multiply(atZero, ratio(subtract(input, rational(zeroCelsius)))),
        backward: output => {
            const wanted = divide(output, atZero);
            return (
                wanted &&
                search(-200, 850, celsius => toNumber(ratio(rational(celsius))), toNumber(wanted), zeroCelsius)
            );
        },
    };
}

const nothing = rational(0);

/** The input, plus `shift`, at which a rising function reaches a value; undefined where it does not between these. */
function search(
    low: number,
    high: number,
    rising: (input: number) => number,
    wanted: number,
    shift: number,
): Rational | undefined {
    const slackOfEnd = Math.abs(wanted) * 1e-12;
    if (!(rising(low) <= wanted + slackOfEnd && rising(high) >= wanted - slackOfEnd)) return undefined;
    let [below, above] = [low, high];
    for (let middle = (below + above) / 2; below < middle && middle < above; middle = (below + above) / 2) {
        if (rising(middle) < wanted) below = middle;
        else above = middle;
    }
    return rounded(above + shift);
}

function thermistor(resistance: number, temperature: number, beta: number): Relation {
    return {
        low: 73.15,
        high: 1273.15,
        forward: input => rounded(resistance * Math.exp(beta * (1 / toNumber(input) - 1 / temperature))),
        backward: output => rounded(1 / (1 / temperature + Math.log(toNumber(output) / resistance) / beta)),
    };
}

// J. S. Steinhart and S. R. Hart, Deep-Sea Research 15, 1968, 497; from memory.
function steinhartHart(a: number, b: number, c: number): Relation {
    const largest = c < 0 ? 0.95 * Math.sqrt(b / (-3 * c)) : 1e3;
    const rise = (logarithm: number): number => b * logarithm + c * logarithm ** 3;
    const [low, high] = [a + rise(largest), a - rise(largest)];
    return {
        low: Math.max(73.15, 1 / low),
        high: high > 0 ? Math.min(1273.15, 1 / high) : 1273.15,
        forward: input => {
            const logarithm = search(-largest, largest, rise, 1 / toNumber(input) - a, 0);
            return logarithm && rounded(Math.exp(toNumber(logarithm)));
        },
        backward: output => rounded(1 / (a + rise(Math.log(toNumber(output))))),
    };
}

function thermocouple(cold: ReferencePiece, warm: ReferencePiece): Relation {
    const volts = (celsius: number): number => millivolts(celsius <= cold.to ? cold : warm, celsius) / 1000;
    return {
        low: cold.from + zeroCelsius,
        high: warm.to + zeroCelsius,
        forward: input => rounded(volts(toNumber(subtract(input, rational(zeroCelsius))))),
        backward: output => search(cold.from, warm.to, volts, toNumber(output), zeroCelsius),
    };
}

function millivolts({ coefficients, bump }: ReferencePiece, celsius: number): number {
    // The parts of the polynomials near -270 °C are far larger than their sum, so this is done without rounding.
    const t = rational(celsius);
    const sum = coefficients.reduceRight((value, part) => add(multiply(value, t), rational(part)), nothing);
    return toNumber(sum) + (bump ? bump.height * Math.exp(bump.rate * (celsius - bump.center) ** 2) : 0);
}

function winding(resistance: Rational, temperature: Rational, constant: Rational): Relation {
    const fromNothing = (kelvins: Rational): Rational => add(subtract(kelvins, rational(zeroCelsius)), constant);
    const slope = divide(resistance, fromNothing(temperature));
    return {
        low: Math.max(173.15, zeroCelsius - toNumber(constant)),
        high: 773.15,
        forward: input => slope && multiply(fromNothing(input), slope),
        backward: output => {
            const counted = slope && divide(output, slope);
            return counted && add(subtract(counted, constant), rational(zeroCelsius));
        },
    };
}

// 4 mA to 20 mA: IEC 60381-1, from memory. Currents below 3.8 mA and above 20.5 mA stand for no value: NAMUR NE 43, seen second-hand.
function loop(low: Rational, high: Rational): Relation {
    const span = subtract(high, low);
    const current = (input: Rational): Rational | undefined => {
        const share = divide(subtract(input, low), span);
        return share && add(rational(0.004), multiply(share, rational(0.016)));
    };
    const isValue = (amperes: Rational): boolean =>
        compare(amperes, rational(0.0038)) >= 0 && compare(amperes, rational(0.0205)) <= 0;
    return {
        low: -Infinity,
        high: Infinity,
        forward: input => {
            const amperes = current(input);
            return amperes && isValue(amperes) ? amperes : undefined;
        },
        backward: output => {
            if (!isValue(output)) return undefined;
            const share = divide(subtract(output, rational(0.004)), rational(0.016));
            return share && add(low, multiply(share, span));
        },
    };
}

interface Row {
    readonly input: Rational;
    readonly output: Rational;
}

function lookUpInTable(table: Table, argument: Rational, isBackward: boolean, tree: Tree): Rational | undefined {
    const inputIsDifference = table.input.modes?.includes('difference') ?? false;
    const outputIsDifference = table.output.modes?.includes('difference') ?? false;
    const rows = table.rows.map(row => ({
        input: coherentQuantity(row.input, inputIsDifference, tree).value,
        output: coherentQuantity(row.output, outputIsDifference, tree).value,
    }));
    const side = isBackward ? 'output' : 'input';
    const index = rows.findIndex((row, at) => {
        const before = rows[at - 1];
        return before !== undefined && liesBetween(argument, before[side], row[side]);
    });
    const [first, second] = [rows[index - 1], rows[index]];
    if (!first || !second) return undefined;
    return table.interpolation === 'linear'
        ? linear(first, second, argument, isBackward)
        : logarithmic(first, second, argument, isBackward);
}

function liesBetween(value: Rational, one: Rational, other: Rational): boolean {
    return compare(value, one) * compare(value, other) <= 0;
}

function linear(first: Row, second: Row, argument: Rational, isBackward: boolean): Rational | undefined {
    const [from, to] = isBackward ? (['output', 'input'] as const) : (['input', 'output'] as const);
    const share = divide(subtract(argument, first[from]), subtract(second[from], first[from]));
    return share && add(first[to], multiply(share, subtract(second[to], first[to])));
}

/** A straight line of the logarithm of the output. */
function logarithmic(first: Row, second: Row, argument: Rational, isBackward: boolean): Rational | undefined {
    const [low, high] = [toNumber(first.output), toNumber(second.output)];
    if (!(low > 0 && high > 0)) return undefined;
    const whole = Math.log(high / low);
    if (isBackward) {
        const share = Math.log(toNumber(argument) / low) / whole;
        const [from, to] = [toNumber(first.input), toNumber(second.input)];
        return rounded(from + share * (to - from));
    }
    const share = divide(subtract(argument, first.input), subtract(second.input, first.input));
    return share && rounded(low * Math.exp(toNumber(share) * whole));
}
