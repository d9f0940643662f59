/** What a test shows beside its flows: makes, checks, draws, faults that come and go, remembered ones, and identify. */
import { describe, expect, test } from 'vitest';
import { showsIn } from '../../../language/src/core/replay/shows.js';
import { readUnit, shown, type SmallState, stateOf, worldOf } from './replays.js';

const box = (members: string) => `equipment box { ${members} }`;

describe('`makes`', () => {
    const text = box(`option size { small large } condition knob { off on } condition lid { shut open }
        part a { fault plain { makes lamp odd } fault either { makes lamp odd or dim } fault none { makes lamp normal }
            fault sometimes { makes lamp odd when knob on } fault rarely { makes lamp odd unless knob on }
            fault some { makes lamp odd for small } fault two { makes lamp odd when knob on makes lamp dim unless lid open }
            fault apart { makes other strange } }
        part b { fault stop }
        flow line: a -> [early] -> b -> [lamp] -> a
        test early { observe normal yes absent no shows stopped }
        test lamp { checks a.plain as dim observe normal yes absent no shows stopped odd "odd" dim "dim" }
        test other { observe normal yes strange no }`);
    const seen = (fault: string, set: string[] = [], build = 'small') =>
        shown(text, 'lamp', { build: [build], fault: `a.${fault}` }, { set });

    test('replaces what flows and checks say of its fault', () => {
        expect(seen('plain')).toBe('odd');
        expect(seen('none')).toBe('normal');
    });

    test('leaves other tests of the fault alone', () => {
        expect(shown(text, 'early', { fault: 'a.plain' })).toBe('absent');
    });

    test('reaches a test on no flow', () => {
        expect(shown(text, 'other', { fault: 'a.apart' })).toBe('strange');
        expect(seen('apart')).toBe('absent');
    });

    test('may show either of two; that is said, not left open', () => {
        expect(seen('either')).toBe('odd|dim');
    });

    test('shows nothing where its state does not hold', () => {
        expect(seen('sometimes')).toBe('normal');
        expect(seen('sometimes', ['knob on'])).toBe('odd');
        expect(seen('rarely')).toBe('odd');
        expect(seen('rarely', ['knob on'])).toBe('normal');
    });

    test('counts only in its builds', () => {
        expect(seen('some', [], 'large')).toBe('absent');
    });

    test('adds up, where several hold', () => {
        expect(seen('two')).toBe('dim');
        expect(seen('two', ['knob on'])).toBe('odd|dim');
        expect(seen('two', ['lid open'])).toBe('normal');
    });

    test('leaves other faults what they show', () => {
        expect(shown(text, 'lamp', { fault: ['a.none', 'b.stop'] })).toBe('absent');
        expect(shown(text, 'lamp', { fault: ['a.plain', 'b.stop'] })).toBe('absent|odd');
    });
});

describe('`checks`', () => {
    const text = box(`option size { small large } condition knob { off on }
        part a { fault one fault two fault three }
        test look { checks a.one as bad, a.two, a.three as worse for small checks a.one as worse for large
            observe normal yes bad "b" worse "w" when knob on worst "x" for small }`);

    test('with `as` gives that outcome, even where its state does not hold', () => {
        expect(shown(text, 'look', { fault: 'a.one' })).toBe('bad');
        expect(shown(text, 'look', { fault: 'a.three' })).toBe('worse');
    });

    test('without `as` may give any abnormal outcome that there is, and the model leaves that open', () => {
        expect(shown(text, 'look', { fault: 'a.two' })).toBe('bad|worst?');
        expect(shown(text, 'look', { fault: 'a.two' }, { set: ['knob on'] })).toBe('bad|worse|worst?');
        expect(shown(text, 'look', { build: ['large'], fault: 'a.two' })).toBe('bad');
    });

    test('and `makes` may give the outcome that is written first', () => {
        const first = box(
            `part a { fault f fault g { makes look bad } } test look { checks a.f as bad observe bad no normal yes }`,
        );
        expect(['a.f', 'a.g'].map(fault => shown(first, 'look', { fault }))).toEqual(['bad', 'bad']);
        expect(shown(first, 'look')).toBe('normal');
    });

    test('of one fault add up', () => {
        expect(shown(text, 'look', { build: ['large'], fault: 'a.one' })).toBe('bad|worse');
    });

    test('count only in their builds', () => {
        expect(shown(text, 'look', { build: ['large'], fault: 'a.three' })).toBe('normal');
    });

    test('of a part are those of all its faults', () => {
        const whole = box('part a { fault one fault two } test look { checks a as bad observe normal yes bad no }');
        expect(['one', 'two'].map(fault => shown(whole, 'look', { fault: `a.${fault}` }))).toEqual(['bad', 'bad']);
    });

    test('are added to what the flows say', () => {
        const both = box(`part a { fault f } flow line: a -> [look]
            test look { checks a.f as odd observe normal yes absent no shows stopped odd "o" }`);
        expect(shown(both, 'look', { fault: 'a.f' })).toBe('absent|odd');
    });

    test('as `normal` gives way to whatever else is shown', () => {
        const both = box(`part a { fault f fault g } flow line: a -> [look]
            test look { checks a.f as normal observe normal yes absent no shows stopped }
            test apart { checks a.g as normal observe normal yes absent no }`);
        expect(shown(both, 'look', { fault: 'a.f' })).toBe('absent');
        expect(shown(both, 'apart', { fault: 'a.g' })).toBe('normal');
    });
});

describe('where several outcomes are possible', () => {
    const text = box(`part a { fault f { makes look low or high or odd } }
        test look { observe normal yes low "l" high "h" odd "o" }`);
    const drawn = (draw: number, reads?: string) => {
        const all = readUnit(text);
        const world = worldOf(all, {
            fault: 'a.f',
            draws: { look: draw },
            ...(reads ? { reads: { look: reads } } : {}),
        });
        const [answer] = showsIn(all.unit, 0, world, stateOf(all, world, {}));
        return all.unit.tests[0]?.outcomes[answer?.outcome ?? -1];
    };

    test('the draw of the world takes one, round and round', () => {
        expect([0, 1, 2, 3, 4, 5].map(draw => drawn(draw))).toEqual(['low', 'high', 'odd', 'low', 'high', 'odd']);
    });

    test('what a scenario reads goes before the draw, if it is possible', () => {
        expect(drawn(0, 'odd')).toBe('odd');
        expect(drawn(1, 'normal')).toBe('high');
    });
});

describe('a fault that comes and goes', () => {
    const text = box(`option size { small large } condition lead { straight bent }
        part a { fault loose comes and goes fault bad { comes and goes unless lead bent } fault some { comes and goes for small }
            fault steady fault hidden comes and goes }
        test look { checks a.loose as bad, a.bad as bad, a.some as bad, a.steady as worse observe normal yes bad "b" worse "w" }`);

    test('may show or not', () => {
        expect(shown(text, 'look', { fault: 'a.loose' })).toBe('bad / normal');
    });

    test('surely shows in the state that says so', () => {
        expect(shown(text, 'look', { fault: 'a.bad' })).toBe('bad / normal');
        expect(shown(text, 'look', { fault: 'a.bad' }, { set: ['lead bent'] })).toBe('bad');
    });

    test('does so only in the builds that it names', () => {
        expect(shown(text, 'look', { build: ['large'], fault: 'a.some' })).toBe('bad');
    });

    test('leaves steady faults what they show', () => {
        expect(shown(text, 'look', { fault: ['a.loose', 'a.steady'] })).toBe('bad|worse / worse');
    });

    test('gives one answer where it makes no difference', () => {
        expect(shown(text, 'look', { fault: 'a.hidden' })).toBe('normal');
    });
});

test('a test that remembers shows what it remembers, whatever is present', () => {
    const text =
        box(`part a { fault f } test code { checks a.f as E1 observe remembers until cleared normal "n" E1 "e" }
        test look { checks a.f as bad observe normal yes bad no }`);
    const gone: SmallState = { gone: ['a.f'] };
    expect([shown(text, 'code', { fault: 'a.f' }, gone), shown(text, 'look', { fault: 'a.f' }, gone)]).toEqual([
        'E1',
        'normal',
    ]);
});

test('a test that identifies shows the choice of the build, whatever is wrong', () => {
    const text = box(`option cells { round flat } option plug for flat { straight angled } part a { fault f }
        flow line: a -> [which] test which { identify cells } test plug-look { identify plug }`);
    expect(shown(text, 'which', { build: ['flat'], fault: 'a.f' })).toBe('flat');
    expect(shown(text, 'plug-look', { build: ['angled'] })).toBe('angled');
    expect(shown(text, 'plug-look', { build: ['round'] })).toBe('');
});

test("a part shows its own word on a fault of its kind, and the kind's on the rest", () => {
    const text = `kind relay { fault open { makes look bad } fault stuck test look { checks stuck as bad observe normal yes bad no worse "w" } }
        equipment box { part k1 is relay part k2 is relay { fault open { makes look worse } } }`;
    const seen = (name: string, fault: string) => shown(text, name, { fault });
    expect([seen('k1.look', 'k1.open'), seen('k2.look', 'k2.open'), seen('k2.look', 'k2.stuck')]).toEqual([
        'bad',
        'worse',
        'bad',
    ]);
    expect(seen('k1.look', 'k2.open')).toBe('normal');
});
