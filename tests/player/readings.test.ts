/** Readings: units, bands, expected values from tables and curves, and calculated tests. */
import { describe, expect, test } from 'vitest';
import { answer, type Session } from '../../language/src/player/index.js';
import { placeOf, played, stepScreen, walkedTrees } from './walks.js';

/** A tree with one measured test and whatever is read before; its ends are called as its outcomes are. */
function treeWith(declarations: string, step: string, ends: readonly string[], equipment = '') {
    const text = `${declarations}
equipment e "Invented" {
  ${equipment}
  part a "A" { replace "Fit a new one." takes 1 min fault f "F" rate 1 per 1e6 h }
  test seen "Is it right?" { checks a.f as wrong observe by eye takes 1 min normal yes wrong no }
  TESTS
}
tree x "X" of e {
  complaint seen wrong
  step s "S" { ${step} }
  ${ends.map(end => `refer ${end} "${end}" because "${end}"`).join('\n  ')}
}
`;
    return (tests: string) => {
        const [walked] = walkedTrees({ 'e.fault': text.replace('TESTS', tests) });
        if (!walked) throw new Error('The text has a tree.');
        return walked.tree;
    };
}

const reading = (value: number, unit: string) => ({ reading: value, unit });

function placeAfter(at: Session, value: number, unit: string): string {
    const next = answer(at, reading(value, unit));
    return next.session ? placeOf(next.session) : next.problem;
}

describe('bands', () => {
    const tree = treeWith('', 'test u { normal -> ok  low -> below  high -> above  absent -> none }', [
        'ok',
        'below',
        'above',
        'none',
    ])(
        'test u "U" { checks a.f as low measure voltage DC takes 1 min normal 21.6 V .. < 26.4 V absent < 0.5 V low otherwise high otherwise }',
    );
    test.each([
        [24, 'V', 'end ok'],
        [21.6, 'V', 'end ok'],
        [21_600, 'mV', 'end ok'],
        [21_599.999_999, 'mV', 'end below'],
        [0.0216, 'kV', 'end ok'],
        [26.4, 'V', 'end above'],
        [26_400, 'mV', 'end above'],
        [26_399.9, 'mV', 'end ok'],
        [0.5, 'V', 'end below'],
        [0.4999, 'V', 'end none'],
        [-24, 'V', 'end none'],
        [24, 'A', 'A reading in `A` cannot be compared with the limits of this test.'],
        [24, 'nonsense', 'A reading in `nonsense` cannot be compared with the limits of this test.'],
        [24, '__proto__', 'A reading in `__proto__` cannot be compared with the limits of this test.'],
        [Number.NaN, 'V', 'The reading is not a number.'],
        [Number.POSITIVE_INFINITY, 'V', 'The reading is not a number.'],
    ])('%d %s: %s', (value, unit, place) => {
        expect(placeAfter(played(tree, [], []), value, unit)).toBe(place);
    });
});

describe('temperatures', () => {
    const tree = treeWith('', 'test t { normal -> ok  low -> below }', ['ok', 'below'])(
        'test t "T" { checks a.f as low measure temperature takes 1 min normal >= 25 °C low otherwise }\n' +
            '  test spare "S" { checks a.f as low measure temperature takes 1 min normal >= 77 °F low otherwise }',
    );
    // 77 °F = 25 °C = 298.15 K: NIST SP 811 (2008), appendix B.8, from memory.
    test.each([
        [25, 'Cel', 'end ok'],
        [77, '[degF]', 'end ok'],
        [76.99, '[degF]', 'end below'],
        [298.15, 'K', 'end ok'],
        [298.149, 'K', 'end below'],
    ])('%d %s: %s', (value, unit, place) => {
        expect(placeAfter(played(tree, [], []), value, unit)).toBe(place);
    });
});

describe('bands by build and state', () => {
    const tree = treeWith(
        '',
        'do "Take it off." sets lead off  test u { normal -> ok  otherwise -> other }',
        ['ok', 'other'],
        'option v "V" { small "6 V" large "12 V" }\n  condition lead "Lead" { on off }',
    )(
        `test u "U" { checks a.f as wrong measure voltage DC takes 1 min
    normal 7 V when lead on for small
    normal 9 V when lead off for small
    normal 17 V when lead off for large
    wrong otherwise }`,
    );
    test.each([
        ['small', 9, 'end ok'],
        ['small', 7, 'end other'],
        ['small', 17, 'end other'],
        ['large', 17, 'end ok'],
    ])('%s: %d V leads to %s', (choice, value, place) => {
        expect(placeAfter(played(tree, [choice], ['done']), value, 'V')).toBe(place);
    });

    test('the option is asked for where the bands hang on it, not before', () => {
        const at = played(tree, [], []);
        expect(placeOf(at)).toBe('option v');
        expect(placeOf(played(tree, [], ['v.small', 'done', reading(9, 'V')]))).toBe('end ok');
    });
});

describe('a table in a band', () => {
    const tree = treeWith(
        `table sensor "S" from temperature to resistance logarithmic { 0 °C = 32 kΩ  25 °C = 10 kΩ  50 °C = 3.6 kΩ }`,
        'read t  test r { normal -> ok  wrong -> other }',
        ['ok', 'other'],
    )(`test t "T" { checks a.f as cold measure temperature takes 1 min normal >= 0 °C cold < 0 °C }
  test r "R" { checks a.f as wrong measure resistance takes 1 min normal sensor of t ± 5 % wrong otherwise }`);

    // √(32 kΩ × 10 kΩ) = 17 889 Ω halfway between two rows, since it is straight in the logarithm; ± 5 % is 16 994.1 Ω to 18 782.97 Ω. Recomputed.
    test.each([
        [12.5, 16_995, 'end ok'],
        [12.5, 18_782, 'end ok'],
        [12.5, 16_994, 'end other'],
        [12.5, 18_783, 'end other'],
        [25, 10_500, 'end ok'],
        [25, 10_500.1, 'end other'],
        [60, 3000, 'end other'],
    ])('at %d °C %d Ω leads to %s', (celsius, ohms, place) => {
        expect(placeAfter(played(tree, [], [reading(celsius, 'Cel')]), ohms, 'Ohm')).toBe(place);
    });

    test('the limits are told in the unit of the instrument or the bands, where there is one', () => {
        const { now } = stepScreen(played(tree, [], [reading(25, 'Cel')]));
        expect(now && 'test' in now && now.test.outcomes[0]?.bands[0]?.display).toBe('sensor of t ± 5 %');
    });

    test('without the reading of before the outcome is asked for', () => {
        expect(placeOf(played(tree, [], ['done', 'normal']))).toBe('end ok');
        expect(placeAfter(played(tree, [], ['done']), 10_000, 'Ohm')).toBe('end other');
    });
});

describe('calculated tests', () => {
    function placeWith(
        expression: string,
        quantity: string,
        tests: string,
        band: string,
        readings: readonly [number, string][],
        declarations = '',
    ): string {
        const names = readings.map((_, index) => `r${index + 1}`).join(', ');
        const tree = treeWith(declarations, `read ${names}  test c { normal -> ok  wrong -> other }`, ['ok', 'other'])(
            `${tests}\n  test c "C" { checks a.f as wrong calculate ${quantity} from ${expression} normal ${band} wrong otherwise }`,
        );
        return placeOf(
            played(
                tree,
                [],
                readings.map(([value, unit]) => reading(value, unit)),
            ),
        );
    }
    const measured = (count: number, quantity: string, unit: string): string =>
        Array.from(
            { length: count },
            (_, index) =>
                `test r${index + 1} "R" { checks a.f as low measure ${quantity} takes 1 min normal >= 0 ${unit} low otherwise }`,
        ).join('\n  ');

    test('a difference of temperatures', () => {
        const tests = measured(2, 'temperature', '°C');
        expect(
            placeWith('r1 - r2', 'temperature difference', tests, '>= 4 K', [
                [44, 'Cel'],
                [40, 'Cel'],
            ]),
        ).toBe('end ok');
        expect(
            placeWith('r1 - r2', 'temperature difference', tests, '>= 4 K', [
                [43.9, 'Cel'],
                [40, 'Cel'],
            ]),
        ).toBe('end other');
        expect(
            placeWith('r1 - 40 °C', 'temperature difference', measured(1, 'temperature', '°C'), '4 K', [[44, 'Cel']]),
        ).toBe('end ok');
        expect(placeWith('r1 + 5 °C', 'temperature', measured(1, 'temperature', '°C'), '49 °C', [[44, 'Cel']])).toBe(
            'end ok',
        );
    });

    test('power, and what is left of a division', () => {
        const tests = `test r1 "R" { checks a.f as low measure voltage DC takes 1 min normal >= 0 V low otherwise }
  test r2 "R" { checks a.f as low measure current DC takes 1 min normal >= 0 A low otherwise }`;
        expect(
            placeWith('r1 * r2', 'power', tests, '60 W', [
                [12, 'V'],
                [5, 'A'],
            ]),
        ).toBe('end ok');
        expect(
            placeWith('r1 / r2', 'resistance', tests, '2.4 Ω', [
                [12, 'V'],
                [5, 'A'],
            ]),
        ).toBe('end ok');
        // No value: the outcome is asked for.
        expect(
            placeWith('r1 / r2', 'resistance', tests, '2.4 Ω', [
                [12, 'V'],
                [0, 'A'],
            ]),
        ).toBe('step s');
    });

    // (10 + 11 + 12)/3 = 11, largest distance 1, unbalance 1/11 = 9.09 %. Recomputed.
    test.each([
        ['mean(r1, r2, r3)', 'current AC', '11 A'],
        ['largest(r1, r2, r3)', 'current AC', '12 A'],
        ['smallest(r1, r2, r3)', 'current AC', '10 A'],
        ['deviation(r1, r2, r3)', 'current AC', '1 A'],
        ['unbalance(r1, r2, r3)', 'ratio', '9.09 % .. 9.1 %'],
    ])('%s', (expression, quantity, band) => {
        const tests = measured(3, 'current AC', 'A');
        expect(
            placeWith(expression, quantity, tests, band, [
                [10, 'A'],
                [12, 'A'],
                [11, 'A'],
            ]),
        ).toBe('end ok');
    });

    test('a thermocouple whose terminals are warm', () => {
        const tests = `test r1 "R" { checks a.f as low measure voltage DC takes 1 min normal >= 0 mV low otherwise }
  test r2 "R" { checks a.f as low measure temperature takes 1 min normal >= 0 °C low otherwise }`;
        // Type K: 20.644 mV at 500 °C and 1.000 mV at 25 °C, NIST ITS-90, seen second-hand.
        expect(
            placeWith(
                'k(r1 + k(r2))',
                'temperature',
                tests,
                '499.9 °C .. 500.1 °C',
                [
                    [19.644, 'mV'],
                    [25, 'Cel'],
                ],
                'curve k "K" { follows thermocouple K }',
            ),
        ).toBe('end ok');
    });

    test('where a reading was noted elsewhere, the outcome is asked for', () => {
        const tree = treeWith('', 'read r1  test c { normal -> ok  wrong -> other }', ['ok', 'other'])(
            `${measured(1, 'current AC', 'A')}\n  test c "C" { checks a.f as wrong calculate current AC from r1 * 2\n    normal 2 A wrong otherwise }`,
        );
        const at = played(tree, [], ['done']);
        expect(placeOf(at)).toBe('step s');
        expect(placeOf(played(tree, [], ['done', 'wrong']))).toBe('end other');
        expect(placeAfter(at, 2, 'A')).toBe('end ok');
    });
});
