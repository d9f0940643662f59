/** Bands of readings: gaps, overlaps, what is out of range, too coarse or impossible, and how each is mended. */
import { describe, expect, test } from 'vitest';
import { check, checkMend } from '../support/check.js';

const codes = ['reading-gap', 'reading-overlap', 'out-of-range', 'too-coarse', 'impossible-reading'];

function found(text: string): string[] {
    return check(text, { cost: 'fast' })
        .filter(line => codes.some(code => line.startsWith(code)))
        .map(line => line.replace(/ at [\d:-]+: /, ': '));
}

/** A test of a voltage between -10 V and 40 V in steps of 0.1 V. */
function volts(...bands: readonly string[]): string {
    return within('voltage DC', '-10 V .. 40 V resolution 0.1 V', bands);
}

function within(quantity: string, measures: string, bands: readonly string[]): string {
    const instrument = `instrument meter { measures ${quantity} ${measures} }`;
    return `${instrument} equipment e { test t { measure ${quantity} with meter\n${bands.join('\n')}\n} }`;
}

describe('a gap', () => {
    test('of one reading is closed on the side of what is normal', () => {
        const text = (normal: string) => volts(`normal ${normal}`, 'high > 5 V');
        expect(found(text('< 5 V'))).toEqual(['reading-gap: No outcome of `t` takes the reading `5 V`.']);
        expect(checkMend(text('< 5<|> V'), 'Let `normal` take 5 V too')).toBe(text('<= 5 V'));
        expect(checkMend(text('<|>0 V .. < 5 V or < 0 V'), 'Let `normal` take 5 V too')).toBe(
            text('0 V .. 5 V or < 0 V'),
        );
    });

    test('beside a tolerance is closed by the other band', () => {
        const text = (normal: string, high: string) => volts(`normal ${normal}`, `high ${high}`, 'low < 3 V');
        expect(checkMend(text('4 V<|> ± 1 V', '> 6 V'), 'Let `high` go down to 5 V')).toBe(text('4 V ± 1 V', '> 5 V'));
    });

    test('between two steps of the instrument is none', () => {
        expect(found(volts('normal <= 4.9 V', 'high >= 5 V'))).toEqual([]);
        expect(found(volts('normal <= 4.8 V', 'high >= 5 V'))).toEqual([
            'reading-gap: No outcome of `t` takes `> 4.8 V .. < 5 V`: where the reading is `4.9 V`, nobody knows what it means.',
        ]);
    });

    test('is closed by letting a band go further', () => {
        const text = (normal: string, high: string) => volts(`normal ${normal}`, `high ${high}`);
        const title = 'Let `high` go down to 4 V';
        expect(checkMend(text('<= <|>4 V', '>= 5 V'), title)).toBe(text('<= 4 V', '> 4 V'));
        expect(checkMend(text('<= <|>4 V', '5 V .. 40 V'), title)).toBe(text('<= 4 V', '> 4 V .. 40 V'));
    });

    test('at the end of the range is closed by a band without end, or by one more outcome', () => {
        const open = (low: string) => volts('normal >= 4 V', `low ${low}`);
        expect(checkMend(open('<|>1 V .. < 4 V'), 'Let `low` take all readings below')).toBe(open('< 4 V'));
        const text = (more: string) => volts('normal 4 V .. 5 V', `low otherwise${more}`);
        expect(checkMend(volts('normal 4 V .. 5<|> V', 'low otherwise'), 'Add the outcome `high` for them')).toBe(
            text('  high otherwise'),
        );
    });

    test('is there without an instrument as far as the quantity can be', () => {
        const text = (quantity: string, bands: string) => `equipment e { test t { measure ${quantity} ${bands} } }`;
        expect(found(text('resistance', 'normal 0 Ω .. 4 Ω high > 4 Ω'))).toEqual([]);
        expect(found(text('voltage AC', 'normal 0 V .. 4 V high > 4 V'))).toEqual([]);
        expect(found(text('voltage DC', 'normal 0 V .. 4 V high > 4 V'))).toEqual([
            'reading-gap: No outcome of `t` takes `< 0 V`: where the reading is `-0.5 V`, nobody knows what it means.',
        ]);
    });

    test('in a state that says nothing of a healthy unit is none', () => {
        const text = (needs: string) =>
            `equipment e { condition key { off on } test t { measure resistance ${needs} normal < 4 Ω when key on high > 4 Ω } }`;
        expect(found(text(''))).toEqual(['reading-gap: No outcome of `t` takes the reading `4 Ω`.']);
        expect(found(text('needs key off'))).toEqual([]);
    });

    test('between two normal bands is taken by neither `low` nor `high`', () => {
        expect(found(volts('normal 1 V .. 2 V or 3 V .. 4 V', 'low otherwise', 'high otherwise'))).toEqual([
            'reading-gap: No outcome of `t` takes `> 2 V .. < 3 V`: where the reading is `2.5 V`, nobody knows what it means.',
        ]);
    });

    test('is told as one where no outcome has a band, and not of what is half written', () => {
        const text = (outcomes: string) => `equipment e { test t { measure resistance ${outcomes} } }`;
        expect(found(text('normal yes absent no'))).toEqual([
            'reading-gap: `t` measures, and no outcome says which readings are meant.',
        ]);
        expect(found(text('normal absent < 3 Ω'))).toEqual([]);
        expect(found(text('normal <'))).toEqual([]);
        expect(found('equipment e { test { measure resistance normal < 3 Ω } }')).toEqual([]);
    });

    test('is not looked for where a band hangs on another reading, or is a finding by itself', () => {
        expect(found(volts('normal 4 V .. 5 A', 'high > 5 V'))).toEqual([]);
        expect(found(volts('normal 4 V .. 5 Vlot', 'high > 5 V'))).toEqual([]);
    });
});

describe('an overlap', () => {
    test('of one reading is left to what is normal', () => {
        const text = (high: string) => volts('normal 4 V ± 1 V', 'low < 3 V', `high ${high}`);
        expect(found(text('>= 5 V'))).toEqual([
            'reading-overlap: `high` and `normal` of `t` both take the reading `5 V`.',
        ]);
        expect(checkMend(text('<|>>= 5 V'), 'Let `high` begin above 5 V')).toBe(text('> 5 V'));
        expect(checkMend(text('<|>5 V .. 40 V'), 'Let `high` begin above 5 V')).toBe(text('> 5 V .. 40 V'));
    });

    test('of a stretch is cut where the other band ends', () => {
        const text = (low: string) => volts('normal >= 3 V', `low ${low}`);
        expect(found(text('< 4 V'))).toEqual([
            'reading-overlap: `low` and `normal` of `t` both take `3 V .. < 4 V`, for example `3.5 V`.',
        ]);
        expect(checkMend(text('<|>< 4 V'), 'Let `low` end below 3 V')).toBe(text('< 3 V'));
    });

    test('of two bands of one outcome is none', () => {
        expect(found(volts('normal 3 V .. 5 V or 4 V .. 6 V', 'low otherwise', 'high otherwise'))).toEqual([]);
    });

    test('in no build is none', () => {
        const text = (guard: string) =>
            `equipment e { option size { small large } test t { measure resistance normal <= 4 Ω for small normal <= 5 Ω for large high > 4 Ω${guard} high > 5 Ω for large } }`;
        expect(found(text(' for small'))).toEqual([]);
        expect(found(text(''))).toEqual([
            'reading-overlap: `high` and `normal` of `t` both take `> 4 Ω .. 5 Ω`, for example `5 Ω`.',
        ]);
    });

    test('of two outcomes that take what is left is told once', () => {
        expect(found(volts('normal < 3 V', 'open otherwise', 'worn otherwise'))).toEqual([
            'reading-overlap: `worn` and `open` of `t` both take what the other outcomes leave, for example `3 V`.',
        ]);
    });

    test('is no matter of names, but `low` and `high` say a side', () => {
        expect(found(volts('normal < 3 V', 'low >= 3 V'))).toEqual([
            'reading-overlap: `low` means below what a healthy unit reads; here `>= 3 V` of `t` lies above `< 3 V`.',
        ]);
        expect(found(volts('normal > 3 V', 'high <= 3 V'))).toEqual([
            'reading-overlap: `high` means above what a healthy unit reads; here `<= 3 V` of `t` lies below `> 3 V`.',
        ]);
        expect(found(volts('normal < 3 V', 'open >= 3 V'))).toEqual([]);
    });
});

describe('what is out of range', () => {
    test('is a band, or one of its ends, that the instrument cannot show', () => {
        expect(found(volts('normal < 50 V'))).toEqual([
            'out-of-range: `normal` of `t` goes up to `50 V`, and `meter` shows no more than `40 V`.',
        ]);
        expect(found(volts('normal >= 5 V', 'low -20 V .. < 5 V'))).toEqual([
            'out-of-range: `low` of `t` goes down to `-20 V`, and `meter` shows no less than `-10 V`.',
        ]);
        expect(found(volts('normal <= 40 V', 'high > 50 V'))).toEqual([
            'out-of-range: `high` of `t` can never be read: `meter` shows `-10 V .. 40 V`, and nothing of `> 50 V`.',
        ]);
    });

    test('is not what is shown as over range, nor the half of a tolerance below zero', () => {
        expect(found(volts('normal <= 40 V', 'open > 40 V'))).toEqual([]);
        expect(found(within('voltage DC', '0 V .. 40 V', ['normal 0 V ± 0.5 V', 'live > 0.5 V']))).toEqual([]);
    });

    test('is an outcome for which the others leave nothing', () => {
        expect(found(volts('normal >= 5 V', 'dead < 5 V', 'low otherwise'))).toEqual([
            'out-of-range: `low` of `t` can never be read: the other outcomes take all that `meter` shows.',
        ]);
        const without = 'equipment e { test t { measure resistance normal >= 0 Ω low otherwise } }';
        expect(found(without)).toEqual([
            'out-of-range: `low` of `t` can never be read: the other outcomes take every reading there can be.',
        ]);
    });
});

describe('what is too coarse', () => {
    const meter = (accuracy: string, ...bands: readonly string[]) =>
        within('voltage DC', `0 V .. 40 V resolution 0.1 V accuracy ${accuracy}`, bands);

    test('is a band that the guard bands swallow', () => {
        expect(found(meter('0.6 V', 'normal 4 V ± 0.5 V', 'low otherwise', 'high otherwise'))).toEqual([
            'too-coarse: `meter` cannot tell `normal` of `t` from `low` or `high`: `3.5 V .. 4.5 V` is `1 V` wide, and a reading may be off by `0.6 V` to either side.',
        ]);
        expect(found(meter('0.6 V', 'normal >= 0.5 V', 'dead otherwise'))).toEqual([
            'too-coarse: `meter` cannot tell `dead` of `t` from `normal`: `0 V .. < 0.5 V` is `0.5 V` wide, and a reading may be off by `0.6 V` to either side.',
        ]);
    });

    test('is what `otherwise` takes between two bands', () => {
        expect(found(meter('1 %', 'normal 10 V .. 20 V', 'absent < 9.9 V', 'low otherwise', 'high otherwise'))).toEqual(
            [
                'too-coarse: `meter` cannot tell `low` of `t` from `absent` or `normal`: `9.9 V .. < 10 V` is `0.1 V` wide, and a reading may be off by `0.1 V` to either side.',
            ],
        );
    });

    test('is a band between two steps', () => {
        expect(found(meter('0 V', 'normal 4.02 V .. 4.08 V', 'wrong otherwise'))).toEqual([
            'too-coarse: `meter` never shows `normal` of `t`: it reads in steps of `0.1 V`, and none lies in `4.02 V .. 4.08 V`.',
        ]);
    });

    test('is not judged where nothing says how right the instrument is', () => {
        expect(found(volts('normal 4 V ± 0.1 V', 'wrong otherwise'))).toEqual([]);
    });

    test('counts bands of one outcome that touch as one', () => {
        const bands = ['normal 4 V .. < 4.2 V or 4.2 V .. 6 V', 'low otherwise', 'high otherwise'];
        expect(found(meter('0.2 V', ...bands))).toEqual([]);
    });

    test('takes the share of the number as it is written', () => {
        const text = (accuracy: string) =>
            within('temperature', `0 °C .. 100 °C accuracy ${accuracy}`, [
                'normal 20 °C ± 1 K',
                'low otherwise',
                'high otherwise',
            ]);
        // One percent of 21 °C is 0.21 K, not 2.9 K.
        expect(found(text('1 %'))).toEqual([]);
        expect(found(text('3 K'))).toEqual([
            'too-coarse: `meter` cannot tell `normal` of `t` from `low` or `high`: `19 °C .. 21 °C` is `2 °C` wide, and a reading may be off by `3 °C` to either side.',
        ]);
    });
});

describe('an impossible reading', () => {
    test.each([
        ['temperature', '-273.15 °C', '-273.16 °C', 'nothing is colder than absolute zero, -273.15 °C'],
        ['temperature', '-459.67 °F', '-459.68 °F', 'nothing is colder than absolute zero, -273.15 °C'],
        ['pressure absolute', '0 bar', '-0.01 bar', 'an absolute pressure begins at a vacuum, which is zero'],
        ['pressure gauge', '-1 bar', '-1.2 bar', 'nothing is emptier than a vacuum, about 1 bar below the air'],
        ['voltage AC', '0 V', '-1 V', 'an instrument shows how large an AC voltage is, without a sign'],
        ['resistance', '0 Ω', '-1 Ω', 'there is no resistance below zero'],
        ['humidity', '100 % RH', '101 % RH', 'humidity is at most 100 %'],
        ['concentration', '100 % vol', '101 % vol', 'concentration is at most 100 %'],
    ])('of %s: %s can be, and %s cannot', (quantity, possible, impossible, reason) => {
        // SI Brochure and NIST SP 811, from memory: absolute zero is -273.15 °C and -459.67 °F.
        const text = (value: string) =>
            `equipment e { test t { measure ${quantity} normal ${value} wrong otherwise } }`;
        const [kind] = quantity.split(' ');
        expect(found(text(possible))).toEqual([]);
        expect(found(text(impossible))[0]).toMatch(/^impossible-reading: /);
        expect(found(text(impossible))[0]).toContain(`No ${kind ?? ''} lies in \`${impossible}\`: ${reason}.`);
    });

    test('is none where a difference is meant', () => {
        expect(
            found('equipment e { test t { measure temperature difference normal < -300 K wrong otherwise } }'),
        ).toEqual([]);
        expect(found('equipment e { test t { measure voltage AC difference normal < -3 V wrong otherwise } }')).toEqual(
            [],
        );
    });

    test('stands in ranges, tables and curves too', () => {
        expect(
            found('table c from temperature to resistance { -280 °C = 1 Ω\n 20 °C = -2 Ω }').map(line =>
                line.slice(0, 60),
            ),
        ).toEqual([
            'impossible-reading: There is no temperature of `-280 °C`: nothing is col'.slice(0, 60),
            'impossible-reading: There is no resistance of `-2 Ω`: there is no resist'.slice(0, 60),
        ]);
        expect(found('curve c { follows platinum 100 Ω from -300 °C to 100 °C }')).toEqual([
            'impossible-reading: There is no temperature of `-300 °C`: nothing is colder than absolute zero, -273.15 °C.',
        ]);
        expect(found('curve c { follows loop pressure absolute -1 bar .. 9 bar }')).toEqual([
            'impossible-reading: There is no pressure of `-1 bar`: an absolute pressure begins at a vacuum, which is zero.',
        ]);
        expect(found('instrument m { measures voltage DC 20 V .. 0 V resolution 0 V accuracy -1 % }')).toEqual([
            'impossible-reading: No reading lies in `20 V .. 0 V`: the second value must be larger than the first.',
            'impossible-reading: A resolution must be above zero: it is the smallest step that the instrument shows.',
            'impossible-reading: An accuracy cannot be below zero, as `-1 %` is.',
        ]);
    });

    test('is mended by swapping ends and taking signs out', () => {
        const text = (band: string) => volts(`normal ${band}`, 'wrong otherwise');
        expect(checkMend(text('<|>5 V .. 4 V'), 'Swap the two ends')).toBe(text('4 V .. 5 V'));
        expect(checkMend(text('5 V ± <|>-1 V'), 'Take the sign out')).toBe(text('5 V ± 1 V'));
    });
});
