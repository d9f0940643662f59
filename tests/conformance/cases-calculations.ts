/** Cases: calculated tests. */
import { celsius, flat, lamp, listCases, reading, type Stop } from './case-parts.js';

const { cases, add } = listCases();

function calculatedCase(
    name: string,
    about: string,
    expression: string,
    quantity: string,
    band: string,
    inputs: readonly (readonly [string, string])[],
    values: readonly (readonly [readonly (readonly [number, string])[], boolean])[],
    top = '',
): void {
    const names = inputs.map((_, index) => `r${index + 1}`);
    const text = lamp({
        top,
        equipment: `${inputs.map(([kind, unit], index) => `test r${index + 1} "R" { checks cell.flat as low measure ${kind} takes 1 min normal >= -300 ${unit} low otherwise }`).join('\n  ')}
  test worked "Worked out" { checks cell.flat as wrong calculate ${quantity} from ${expression}\n normal ${band} wrong otherwise }`,
        steps: `step look "Look" { read ${names.join(', ')}  test worked { normal -> fine  wrong -> bad-cell } }`,
    });
    const stops = values.flatMap(([numbers, isRight]): Stop[] => [
        ...numbers.map(([value, unit], index): Stop => [
            reading(value, unit),
            index + 1 < numbers.length ? `look: read ${names[index + 1] ?? ''}` : isRight ? 'refer fine' : flat,
        ]),
        ...numbers.map((_, index): Stop => [{ back: true }, `look: read ${names[numbers.length - 1 - index] ?? ''}`]),
    ]);
    add(name, about, text, 'look: read r1', stops);
}
const amperes = ['current AC', 'A'] as const;
calculatedCase(
    'calculate-difference',
    'A difference of two temperatures.',
    'r1 - r2',
    'temperature difference',
    '>= 4 K',
    [celsius, celsius],
    [
        [
            [
                [44, 'Cel'],
                [40, 'Cel'],
            ],
            true,
        ],
        [
            [
                [43.9, 'Cel'],
                [40, 'Cel'],
            ],
            false,
        ],
    ],
);
calculatedCase(
    'calculate-constant-point',
    'A written temperature that is one.',
    'r1 - 40 °C',
    'temperature difference',
    '4 K',
    [celsius],
    [
        [[[44, 'Cel']], true],
        [[[45, 'Cel']], false],
    ],
);
calculatedCase(
    'calculate-constant-difference',
    'A written temperature that is a difference.',
    'r1 + 5 °C',
    'temperature',
    '49 °C',
    [celsius],
    [[[[44, 'Cel']], true]],
);
calculatedCase(
    'calculate-product',
    'Voltage times current.',
    'r1 * r2',
    'power',
    '60 W',
    [
        ['voltage DC', 'V'],
        ['current DC', 'A'],
    ],
    [
        [
            [
                [12, 'V'],
                [5, 'A'],
            ],
            true,
        ],
        [
            [
                [12, 'V'],
                [5001, 'mA'],
            ],
            false,
        ],
    ],
);
calculatedCase(
    'calculate-brackets',
    'Brackets and a plain number.',
    '(r1 + r2) * 2 - r1 / 2',
    'current AC',
    '7 A',
    [amperes, amperes],
    [
        [
            [
                [2, 'A'],
                [2, 'A'],
            ],
            true,
        ],
    ],
);
for (const [name, band] of [
    ['mean', '11 A'],
    ['largest', '12 A'],
    ['smallest', '10 A'],
    ['deviation', '1 A'],
    ['unbalance', '9.09 % .. 9.1 %'],
] as const) {
    // (10 + 11 + 12)/3 = 11; the largest distance is 1, which is 1/11 = 9.0909 % of it. Recomputed.
    calculatedCase(
        `calculate-${name}`,
        `The function \`${name}\`.`,
        `${name}(r1, r2, r3)`,
        name === 'unbalance' ? 'ratio' : 'current AC',
        band,
        [amperes, amperes, amperes],
        [
            [
                [
                    [10, 'A'],
                    [12, 'A'],
                    [11, 'A'],
                ],
                true,
            ],
        ],
    );
}
// Type K: 20.644 mV at 500 °C, 1.000 mV at 25 °C; NIST ITS-90, seen second-hand.
calculatedCase(
    'calculate-thermocouple',
    'A curve read both ways in one calculation.',
    'k(r1 + k(r2))',
    'temperature',
    '499.9 °C .. 500.1 °C',
    [['voltage DC', 'mV'], celsius],
    [
        [
            [
                [19.644, 'mV'],
                [25, 'Cel'],
            ],
            true,
        ],
    ],
    'curve k "K" { follows thermocouple K }',
);
add(
    'calculate-asked',
    'Where a reading has no number the outcome is asked for.',
    lamp({
        equipment:
            'test r1 "R" { checks cell.flat as low measure current AC takes 1 min normal >= 1 A low otherwise }\n test worked "Worked out" { checks cell.flat as wrong calculate current AC from r1 * 2\n normal 2 A wrong otherwise }',
        steps: 'step look "Look" { read r1  test worked { normal -> fine  wrong -> bad-cell } }',
    }),
    'look: read r1',
    [
        ['done', 'look: test worked (normal, wrong)'],
        [reading(2, 'A'), 'refer fine'],
        [{ back: true }, 'look: test worked (normal, wrong)'],
        ['wrong', flat],
    ],
);
add(
    'calculate-no-value',
    'Where a division has no value the outcome is asked for.',
    lamp({
        equipment:
            'test r1 "R" { checks cell.flat as low measure current AC takes 1 min normal >= 0 A low otherwise }\n test worked "Worked out" { checks cell.flat as wrong calculate ratio from r1 / r1\n normal 1 ratio wrong otherwise }',
        steps: 'step look "Look" { test r1 { normal -> more  low -> ask } }\n step more "More" { test worked { normal -> fine  wrong -> bad-cell } }',
    }),
    'look: test r1 (normal, low)',
    [
        [reading(0, 'A'), 'more: test worked (normal, wrong)'],
        [{ back: true }, 'look: test r1 (normal, low)'],
        [reading(2, 'A'), 'refer fine'],
    ],
);

export const calculationsCases = cases;
