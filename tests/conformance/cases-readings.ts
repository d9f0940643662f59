/** Cases: readings and their bands. */
import { flat, lamp, listCases, option, reading, type Stop, switched, voltage } from './case-parts.js';

const { cases, add } = listCases();

const volts = (bands: string): string =>
    lamp({
        equipment: voltage(bands),
        steps: 'step look "Look" { test volts { normal -> fine  low -> bad-cell  otherwise -> ask } }',
    });
const asked = (outcomes: string): string => `look: test volts (${outcomes})`;
const bands: readonly (readonly [string, string, string, readonly (readonly [number, string, string])[]])[] = [
    [
        'at-least',
        'normal >= 3 V low otherwise',
        'normal, low',
        [
            [3, 'V', 'refer fine'],
            [2.999, 'V', flat],
            [3000, 'mV', 'refer fine'],
            [-3, 'V', flat],
        ],
    ],
    [
        'open-ends',
        'normal > 3 V low <= 3 V',
        'normal, low',
        [
            [3, 'V', flat],
            [3.001, 'V', 'refer fine'],
        ],
    ],
    [
        'range',
        'normal 21.6 V .. < 26.4 V low otherwise high otherwise',
        'normal, low, high',
        [
            [21.6, 'V', 'refer fine'],
            [26.4, 'V', 'refer ask'],
            [21.5, 'V', flat],
            [0.0216, 'kV', 'refer fine'],
        ],
    ],
    [
        'tolerance',
        'normal 24 V ± 10 % low otherwise other otherwise',
        'normal, low, other',
        [
            [21.6, 'V', 'refer fine'],
            [26.4, 'V', 'refer fine'],
            [26.41, 'V', 'refer ask'],
            [21, 'V', flat],
        ],
    ],
    [
        'several',
        'normal 1 V .. 2 V or 4 V .. 5 V low otherwise high otherwise',
        'normal, low, high',
        [
            [3, 'V', 'no'],
            [0, 'V', flat],
            [6, 'V', 'refer ask'],
            [4, 'V', 'refer fine'],
        ],
    ],
    [
        'between-normal',
        'normal 1 V .. 2 V or 4 V .. 5 V low otherwise rest otherwise',
        'normal, low, rest',
        [
            [3, 'V', 'refer ask'],
            [0, 'V', flat],
        ],
    ],
    [
        'plain-value',
        'normal 0 V low < 0 V high > 0 V',
        'normal, low, high',
        [
            [0, 'V', 'refer fine'],
            [-0.001, 'V', flat],
        ],
    ],
];
for (const [name, written, outcomes, readings] of bands) {
    const stops = readings.flatMap(([value, unit, screen]): Stop[] =>
        screen === 'no'
            ? [[reading(value, unit), screen]]
            : [
                  [reading(value, unit), screen],
                  [{ back: true }, asked(outcomes)],
              ],
    );
    add(`band-${name}`, `Readings with the bands \`${written}\`.`, volts(written), asked(outcomes), stops);
}
add(
    'band-unit',
    'A unit of something else, and one that is not known.',
    volts('normal >= 3 V low otherwise'),
    asked('normal, low'),
    [
        [reading(3, 'A'), 'no'],
        [reading(3, 'furlong'), 'no'],
        ['low', flat],
    ],
);
add(
    'band-by-state',
    'The band of the state in which the test is made.',
    lamp({
        equipment: `${switched}\n ${voltage('normal >= 3 V when knob on normal <= 1 V when knob off low otherwise high otherwise')}`,
        steps: 'step look "Look" { test volts { normal -> more  low -> bad-cell  high -> ask } }\n step more "More" { do "Turn it on." sets knob on  test volts { normal -> fine  low -> bad-cell  high -> ask } }',
    }),
    asked('normal, low, high'),
    [
        [reading(3, 'V'), 'refer ask'],
        [{ back: true }, asked('normal, low, high')],
        [reading(1, 'V'), 'more: do'],
        ['done', 'more: test volts (normal, low, high)'],
        [reading(1, 'V'), `${flat}; set back knob`],
    ],
);
add(
    'band-by-build',
    'The band of the build.',
    lamp({
        equipment: `${option}\n ${voltage('normal >= 3 V for small normal >= 6 V for large low otherwise')}`,
        steps: 'step look "Look" { test volts { normal -> fine  low -> bad-cell } }',
    }),
    asked('normal, low'),
    [[reading(5, 'V'), flat]],
    { build: ['size.large'] },
);
// 77 °F = 25 °C = 298.15 K: NIST SP 811 (2008), appendix B.8, from memory.
add(
    'band-temperature',
    'A temperature in the scales that the document uses.',
    lamp({
        equipment:
            'test warmth "Warmth" { checks cell.flat as low measure temperature takes 1 min normal >= 25 °C low otherwise }\n test other "Other" { checks cell.flat as low measure temperature takes 1 min normal >= 77 °F low otherwise }',
        steps: 'step look "Look" { test warmth { normal -> fine  low -> bad-cell } }',
    }),
    'look: test warmth (normal, low)',
    [
        [reading(77, '[degF]'), 'refer fine'],
        [{ back: true }, 'look: test warmth (normal, low)'],
        [reading(76.9, '[degF]'), flat],
        [{ back: true }, 'look: test warmth (normal, low)'],
        [reading(298.15, 'K'), 'refer fine'],
        [{ back: true }, 'look: test warmth (normal, low)'],
        [reading(298.1, 'K'), flat],
    ],
);

export const readingsCases = cases;
