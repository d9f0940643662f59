// From the shape of a curve to its law.

import type { CurveProblem, CurveShape, PositiveAmount } from './curve-shape.js';
import type { Law } from './law.js';
import { platinumLaw } from './platinum.js';
import { zeroCelsius } from './polynomials.js';
import { withinReach } from './rounding.js';
import { loopLaw, metalLaw } from './straight.js';
import { tableLaw, tableProblem } from './table-law.js';
import { betaLaw, steinhartHartLaw } from './thermistor.js';
import { thermocoupleLaw } from './thermocouple.js';

type LawOrProblem = Law | CurveProblem;

const known = new WeakMap<CurveShape, LawOrProblem>();

/** The law that a shape stands for, or why there is none; made when first asked for, then kept. */
export function lawOf(shape: CurveShape): LawOrProblem {
    const made = known.get(shape) ?? makeLaw(shape);
    known.set(shape, made);
    return made;
}

/** True for a problem. */
export function isProblem<T extends object>(made: T | CurveProblem): made is CurveProblem {
    return 'problem' in made;
}

function makeLaw(shape: CurveShape): LawOrProblem {
    switch (shape.sort) {
        case 'platinum':
            return problemWith({ resistance: shape.atZero }) ?? platinumLaw(shape.atZero);
        case 'ntc': {
            const { resistance, temperature, beta } = shape;
            return (
                problemWith({ resistance, temperature, beta }) ??
                betaLaw(resistance, temperature, beta) ?? { problem: 'out-of-reach' }
            );
        }
        case 'steinhart-hart':
            return makeSteinhartHart(shape.a, shape.b, shape.c);
        case 'thermocouple':
            return thermocoupleLaw(shape.type);
        case 'metal':
            return makeMetal(shape.resistance, shape.temperature, shape.constant);
        case 'loop':
            return shape.low.equals(shape.high) ? { problem: 'same-ends' } : loopLaw(shape.low, shape.high);
        case 'table':
            return tableProblem(shape.rows, shape.interpolation) ?? tableLaw(shape.rows, shape.interpolation);
    }
}

function makeSteinhartHart(a: number, b: number, c: number): LawOrProblem {
    if (![a, b, c].every(withinReach)) {
        return { problem: 'out-of-reach' };
    }
    const law = steinhartHartLaw(a, b, c);
    return typeof law === 'string' ? { problem: law } : law;
}

function makeMetal(resistance: number, temperature: number, constant: number): LawOrProblem {
    const aboveNothing = temperature - zeroCelsius.valueOf() + constant;
    return (
        problemWith({ resistance, temperature: aboveNothing }) ??
        (withinReach(constant) ? metalLaw(resistance, temperature, constant) : { problem: 'out-of-reach' })
    );
}

function problemWith(amounts: Partial<Record<PositiveAmount, number>>): CurveProblem | undefined {
    for (const [amount, value] of Object.entries(amounts) as [PositiveAmount, number][]) {
        if (!(value > 0)) {
            return { problem: 'not-positive', amount };
        }
        if (!withinReach(value)) {
            return { problem: 'out-of-reach' };
        }
    }
    return undefined;
}
