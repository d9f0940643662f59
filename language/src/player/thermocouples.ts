// The reference functions of thermocouples, as they are published; a test compares them with those that the verifier uses.

import type { ThermocoupleLaw } from '../document/types.js';

type ThermocoupleLetter = ThermocoupleLaw['letter'];

/** One stretch of a reference function: temperatures in °C, coefficients for millivolts, the constant first. */
export interface ReferencePiece {
    readonly from: number;
    readonly to: number;
    readonly coefficients: readonly number[];
    /** Type K above 0 °C: a₀·exp(a₁(t − a₂)²) is added. */
    readonly bump?: { readonly height: number; readonly rate: number; readonly center: number };
}

/**
 * The voltage of each type against a reference junction at 0 °C, in two stretches that meet.
 * NIST Monograph 175 and NIST Standard Reference Database 60 (ITS-90), the same functions as in IEC 60584-1 and ASTM E230.
 * Coefficients seen second-hand, in public copies of the database; checked against printed tables in `tests/player/laws.test.ts`.
 */
export const referenceFunctions: Readonly<Record<ThermocoupleLetter, readonly [ReferencePiece, ReferencePiece]>> = {
    E: [
        {
            from: -270,
            to: 0,
            coefficients: [
                0, 5.8665508708e-2, 4.5410977124e-5, -7.7998048686e-7, -2.5800160843e-8, -5.9452583057e-10,
                -9.3214058667e-12, -1.0287605534e-13, -8.0370123621e-16, -4.3979497391e-18, -1.6414776355e-20,
                -3.9673619516e-23, -5.5827328721e-26, -3.4657842013e-29,
            ],
        },
        {
            from: 0,
            to: 1000,
            coefficients: [
                0, 5.866550871e-2, 4.5032275582e-5, 2.8908407212e-8, -3.3056896652e-10, 6.502440327e-13,
                -1.9197495504e-16, -1.2536600497e-18, 2.1489217569e-21, -1.4388041782e-24, 3.5960899481e-28,
            ],
        },
    ],
    J: [
        {
            from: -210,
            to: 760,
            coefficients: [
                0, 5.0381187815e-2, 3.047583693e-5, -8.568106572e-8, 1.3228195295e-10, -1.7052958337e-13,
                2.0948090697e-16, -1.2538395336e-19, 1.5631725697e-23,
            ],
        },
        {
            from: 760,
            to: 1200,
            coefficients: [
                2.9645625681e2, -1.4976127786, 3.1787103924e-3, -3.1847686701e-6, 1.5720819004e-9, -3.0691369056e-13,
            ],
        },
    ],
    K: [
        {
            from: -270,
            to: 0,
            coefficients: [
                0, 3.9450128025e-2, 2.3622373598e-5, -3.2858906784e-7, -4.9904828777e-9, -6.7509059173e-11,
                -5.7410327428e-13, -3.1088872894e-15, -1.0451609365e-17, -1.9889266878e-20, -1.6322697486e-23,
            ],
        },
        {
            from: 0,
            to: 1372,
            coefficients: [
                -1.7600413686e-2, 3.8921204975e-2, 1.8558770032e-5, -9.9457592874e-8, 3.1840945719e-10,
                -5.6072844889e-13, 5.6075059059e-16, -3.2020720003e-19, 9.7151147152e-23, -1.2104721275e-26,
            ],
            bump: { height: 0.1185976, rate: -1.183432e-4, center: 126.9686 },
        },
    ],
    N: [
        {
            from: -270,
            to: 0,
            coefficients: [
                0, 2.6159105962e-2, 1.0957484228e-5, -9.3841111554e-8, -4.6412039759e-11, -2.6303357716e-12,
                -2.2653438003e-14, -7.6089300791e-17, -9.3419667835e-20,
            ],
        },
        {
            from: 0,
            to: 1300,
            coefficients: [
                0, 2.5929394601e-2, 1.571014188e-5, 4.3825627237e-8, -2.5261169794e-10, 6.4311819339e-13,
                -1.0063471519e-15, 9.9745338992e-19, -6.0863245607e-22, 2.0849229339e-25, -3.0682196151e-29,
            ],
        },
    ],
    T: [
        {
            from: -270,
            to: 0,
            coefficients: [
                0, 3.8748106364e-2, 4.4194434347e-5, 1.1844323105e-7, 2.0032973554e-8, 9.0138019559e-10,
                2.2651156593e-11, 3.6071154205e-13, 3.8493939883e-15, 2.8213521925e-17, 1.4251594779e-19,
                4.8768662286e-22, 1.079553927e-24, 1.3945027062e-27, 7.9795153927e-31,
            ],
        },
        {
            from: 0,
            to: 400,
            coefficients: [
                0, 3.8748106364e-2, 3.329222788e-5, 2.0618243404e-7, -2.1882256846e-9, 1.0996880928e-11,
                -3.0815758772e-14, 4.547913529e-17, -2.7512901673e-20,
            ],
        },
    ],
};
