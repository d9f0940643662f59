// How a value is meant beside its dimension: a temperature or a difference of two, AC or DC, gauge or absolute; and what sums make of it.

import { type Dimension, dimensionInWords, dimensions, sameDimensions } from '../quantities/dimensions.js';
import type { QuantityKind } from '../quantities/quantity-kinds.js';
import { withArticle } from '../text/words.js';

/**
 * How a value is meant. A `point` is a place on a scale that does not begin at nothing: a temperature, a level in dBm.
 * For a voltage or a current, an effective value is `AC rms`; for all that has no such distinction it is `plain`.
 */
export type Nature = 'plain' | 'point' | 'difference' | 'gauge' | 'absolute' | 'DC' | 'DC peak' | 'AC rms' | 'AC peak';

/** What is known of a value. */
export interface ValueType {
    readonly dimension: Dimension;
    /** How it can be meant: a number that is written may be meant in several ways. Differences come first. Never empty. */
    readonly natures: readonly Nature[];
}

/** Which of the three distinctions a dimension has. */
export type Distinction = 'form' | 'reference' | 'difference';

const temperatures: readonly Nature[] = ['difference', 'point'];
const pressures: readonly Nature[] = ['difference', 'gauge', 'absolute'];
const electrical: readonly Nature[] = ['DC', 'AC rms', 'AC peak', 'DC peak'];
const plain: readonly Nature[] = ['plain'];
const point: readonly Nature[] = ['point'];
const logarithmic = [dimensions.powerLevel, dimensions.voltageLevel, dimensions.soundLevel, dimensions.soundLevelC];

/** Every way in which a value of this dimension can be meant. */
export function naturesOf(dimension: Dimension): readonly Nature[] {
    if (sameDimensions(dimension, dimensions.temperature)) return temperatures;
    if (sameDimensions(dimension, dimensions.pressure)) return pressures;
    if (isElectrical(dimension)) return electrical;
    return isLogarithmic(dimension) ? point : plain;
}

/** True for a voltage and for a current. */
export function isElectrical(dimension: Dimension): boolean {
    return sameDimensions(dimension, dimensions.voltage) || sameDimensions(dimension, dimensions.current);
}

/** True for a level in decibels above something: the difference of two is a ratio of levels (`dB`). */
export function isLogarithmic(dimension: Dimension): boolean {
    return logarithmic.some(one => sameDimensions(one, dimension));
}

/** What the words beside a quantity leave: all natures where the word that is needed is missing, which is a finding by itself. */
export function meantBy(dimension: Dimension, modes: readonly string[]): readonly Nature[] {
    const all = naturesOf(dimension);
    if (all === temperatures) return [modes.includes('difference') ? 'difference' : 'point'];
    if (all === pressures) {
        const said = all.filter(nature => modes.includes(nature));
        return said.length > 0 ? said : all;
    }
    if (all !== electrical) return all;
    const forms = ['DC', 'AC'].filter(form => modes.includes(form));
    const isPeak = modes.includes('peak');
    const said = electrical.filter(
        nature => (forms.length === 0 || forms.includes(nature.slice(0, 2))) && nature.endsWith('peak') === isPeak,
    );
    return said.length > 0 ? said : all;
}

/** The distinction that a dimension has; undefined where its values are all meant alike. */
export function distinctionOf(dimension: Dimension): Distinction | undefined {
    const all = naturesOf(dimension);
    if (all === temperatures || all === point) return 'difference';
    if (all === pressures) return 'reference';
    return all === electrical ? 'form' : undefined;
}

/** The natures that both can be. */
export function common(one: readonly Nature[], other: readonly Nature[]): readonly Nature[] {
    return one.filter(nature => other.includes(nature));
}

/**
 * What a sum or a difference of two natures is; undefined where there is none. Both are of one dimension.
 * Two points cannot be added, and nothing can be taken from a point but a point or a difference. A gauge pressure and an absolute one
 * add up to an absolute one, because the absolute one is then the air's.
 */
export function sumOf(operator: '+' | '-', left: Nature, right: Nature): Nature | undefined {
    if (operator === '+') {
        if (left === 'difference' || right === 'difference') return left === 'difference' ? right : left;
        if (left === right) return left === 'point' ? undefined : left;
        return isPressure(left) && isPressure(right) ? 'absolute' : undefined;
    }
    if (left === right) return isPressure(left) || left === 'point' ? 'difference' : left;
    return right === 'difference' ? left : undefined;
}

function isPressure(nature: Nature): boolean {
    return nature === 'gauge' || nature === 'absolute';
}

/** All that a sum can be, each once; empty where there is no lawful one. */
export function sums(operator: '+' | '-', left: readonly Nature[], right: readonly Nature[]): readonly Nature[] {
    const found = left.flatMap(one => right.flatMap(other => sumOf(operator, one, other) ?? []));
    return [...new Set(found)].sort((one, other) => Number(other === 'difference') - Number(one === 'difference'));
}

/** What the distance between two values of these natures is. */
export function distances(natures: readonly Nature[]): readonly Nature[] {
    return sums('-', natures, natures).length === 0
        ? natures
        : [...new Set(natures.flatMap(one => sumOf('-', one, one) ?? []))];
}

/** The words that say this beside a quantity; empty for a temperature. */
export function modesFor(nature: Nature): string {
    switch (nature) {
        case 'plain':
        case 'point':
            return '';
        case 'AC rms':
            return 'AC';
        default:
            return nature;
    }
}

/** A value in words: `a temperature difference`, `an absolute pressure`, `a DC voltage`, `a plain number`. */
export function typeInWords({ dimension, natures }: ValueType): string {
    const noun = nounOf(dimension);
    const [nature, ...others] = natures;
    if (others.length > 0 || nature === undefined) return articled(noun);
    switch (nature) {
        case 'difference':
            return `a ${noun} difference`;
        case 'gauge':
            return `a gauge ${noun}`;
        case 'absolute':
            return `an absolute ${noun}`;
        case 'DC':
            return `a DC ${noun}`;
        case 'AC rms':
            return `an AC ${noun}`;
        case 'DC peak':
        case 'AC peak':
            return `a peak value of ${nature === 'AC peak' ? 'an AC' : 'a DC'} ${noun}`;
        default:
            return articled(noun);
    }
}

function nounOf(dimension: Dimension): string {
    if (sameDimensions(dimension, dimensions.ratio)) return 'a plain number';
    if (sameDimensions(dimension, dimensions.current)) return 'current';
    return dimensionInWords(dimension) ?? 'something that has no name in the trade';
}

const uncountable = new Set(['money', 'charge', 'power', 'area']);

function articled(noun: string): string {
    return /^an? |^something/.test(noun) || uncountable.has(noun) ? noun : withArticle(noun);
}

/** The quantity and its words as they are written: `pressure gauge`. */
export function quantityWords({ name }: QuantityKind, modes: readonly string[]): string {
    return [name, ...modes].join(' ');
}
