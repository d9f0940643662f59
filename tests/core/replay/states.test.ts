/** What holds in a state: conditions, gates, waits, bypasses, flows that carry something and flows that are dead. */
import { describe, expect, test } from 'vitest';
import { shown, type SmallState } from './replays.js';

const box = (members: string) => `equipment box { ${members} }`;

/** A box in which the fault `probe.f` makes the test `probe` show `yes` just where the state holds. */
const probe = (state: string, members: string) =>
    box(
        `part probing { fault f { makes probe held when ${state} } } test probe { observe normal no held yes } ${members}`,
    );

function holds(state: string, members: string, small: SmallState = {}, build: string[] = [], more: string[] = []) {
    return shown(probe(state, members), 'probe', { build, fault: ['probing.f', ...more] }, small) === 'held';
}

describe('a condition', () => {
    const members = 'option size { small large } condition knob { off on } condition lever for small { up down }';

    test('is found at its first value', () => {
        expect([holds('knob off', members), holds('knob on', members)]).toEqual([true, false]);
    });

    test('has the value that it is set to', () => {
        expect(holds('knob on', members, { set: ['knob on'] })).toBe(true);
    });

    test('that the build does not have has no value', () => {
        expect(holds('lever up', members, {}, ['small'])).toBe(true);
        expect([holds('lever up', members, {}, ['large']), holds('lever down', members, {}, ['large'])]).toEqual([
            false,
            false,
        ]);
    });

    test('joins with others', () => {
        const set = ['knob on'];
        expect(holds('knob on and lever up', members, { set })).toBe(true);
        expect(holds('knob on and lever down', members, { set })).toBe(false);
        expect(holds('knob off or lever up', members, { set })).toBe(true);
        expect(holds('knob off or lever down', members, { set })).toBe(false);
        expect(holds('not knob off', members, { set })).toBe(true);
        expect(holds('not (knob on or lever down)', members, { set })).toBe(false);
    });
});

describe('a hazard is isolated', () => {
    const members = `option size { small large } hazard mains { electrical } hazard steam for small { thermal }
        supply spur carries mains
        gate lockout { controls mains for small, steam } gate other { controls spur } gate live { permits measuring mains }`;

    test('while a gate that controls it is closed, in the builds where it does', () => {
        expect(holds('mains isolated', members)).toBe(false);
        expect(holds('mains isolated', members, { closed: ['lockout'] }, ['small'])).toBe(true);
        expect(holds('mains isolated', members, { closed: ['lockout'] }, ['large'])).toBe(false);
    });

    test('through the supply that carries it', () => {
        expect(holds('mains isolated', members, { closed: ['other'] })).toBe(true);
        expect(holds('spur isolated', members, { closed: ['other'] })).toBe(true);
    });

    test('once a wait has made it safe', () => {
        expect(holds('mains isolated', members, { safe: ['mains'] })).toBe(true);
    });

    test('where the build does not have it', () => {
        expect(holds('steam isolated', members, {}, ['large'])).toBe(true);
    });
});

describe('zones are isolated', () => {
    const members = `option size { small large } hazard mains { electrical } hazard wheel { mechanical }
        hazard steam for small { thermal } condition lid { shut open }
        zone one { exposes wheel while lid open, mains for large, steam } zone two for large { exposes wheel }
        zone three for small { exposes mains }
        gate stop { controls wheel } gate off { controls mains }
        part a { in one in two for large in three for small or large fault f { makes look bad when isolated } }
        test look { observe normal yes bad no }`;
    const isolated = (build: string, state: SmallState) =>
        shown(box(members), 'look', { build: [build], fault: 'a.f' }, state) === 'bad';

    test('when all is under control that they expose in this state and build', () => {
        expect(isolated('small', {})).toBe(false);
        expect(isolated('small', { safe: ['steam'] })).toBe(false);
        expect(isolated('small', { closed: ['off'] })).toBe(false);
        expect(isolated('small', { safe: ['steam', 'mains'] })).toBe(true);
        expect(isolated('small', { safe: ['steam', 'mains'], set: ['lid open'] })).toBe(false);
        expect(isolated('small', { safe: ['steam', 'wheel'], closed: ['off'], set: ['lid open'] })).toBe(true);
        expect(isolated('large', { closed: ['stop'] })).toBe(false);
        expect(isolated('large', { closed: ['stop', 'off'] })).toBe(true);
        expect(isolated('large', { closed: ['off'] })).toBe(false);
    });
});

describe('a flow is flowing', () => {
    const members = `option size { small large } condition knob { on off } hazard mains { electrical }
        condition bridge { out fitted bypasses b } supply s carries mains
        part a { fault stop fault weak weakens fault short shorts } part b { fault stop } part c
        flow line for small: s -> a -> b when knob on -> c flow whole when knob on: a flow empty for large: c
        gate off { controls mains }`;
    const flowing = (state: SmallState = {}, ...faults: string[]) =>
        holds('line flowing', members, state, ['small'], faults);

    test('unless something has stopped or shorted it', () => {
        expect(flowing()).toBe(true);
        expect([flowing({}, 'a.stop'), flowing({}, 'a.short'), flowing({}, 'a.weak')]).toEqual([false, false, true]);
    });

    test('only for what is present', () => {
        expect(flowing({ gone: ['a.stop'] }, 'a.stop')).toBe(true);
    });

    test('while its states hold', () => {
        expect(flowing({ set: ['knob off'] })).toBe(false);
        expect(holds('whole flowing', members, { set: ['knob off'] })).toBe(false);
        expect(holds('whole flowing', members)).toBe(true);
    });

    test('past what is bypassed', () => {
        expect(flowing({ set: ['knob off', 'bridge fitted'] })).toBe(true);
        expect(flowing({ set: ['bridge fitted'] }, 'b.stop')).toBe(true);
    });

    test('while its supply is not isolated', () => {
        expect(flowing({ closed: ['off'] })).toBe(false);
    });

    test('only where it exists', () => {
        expect(holds('line flowing', members, {}, ['large'])).toBe(false);
        expect(holds('empty flowing', members, {}, ['large'])).toBe(true);
    });

    test('also where it is asked about within itself', () => {
        const circle = 'part a flow one when two flowing: a flow two when one flowing: a';
        expect(holds('one flowing', circle)).toBe(true);
    });
});

/** A box in which a healthy unit shows `normal`, or `off` where the point of the test is dead. */
describe('a test at a dead point', () => {
    const off = (flows: string, state: SmallState = {}, faults: string[] = [], build: string[] = []) =>
        shown(
            box(`option size { small large } hazard mains { electrical } hazard gas for large { gas }
                condition knob { on off } condition bridge { out fitted bypasses a }
                supply s carries mains supply t carries gas gate lockout { controls mains, gas for large }
                part a { fault f } part b { fault f } ${flows}
                test look { observe normal yes when knob off normal yes when knob on absent no shows stopped }`),
            'look',
            { build, fault: faults },
            state,
        );

    test('shows no fault where it says what is normal in just that state', () => {
        const flow = 'flow line: a -> b when knob on -> [look]';
        expect(off(flow, {}, ['a.f'])).toBe('absent');
        expect(off(flow, { set: ['knob off'] }, ['a.f'])).toBe('normal');
    });

    test('shows what it shows where it does not say that', () => {
        const text = box(`condition knob { on off } part a { fault f } flow line when knob on: a -> [look]
            test look { observe normal yes absent no shows stopped }`);
        expect(shown(text, 'look', { fault: 'a.f' }, { set: ['knob off'] })).toBe('absent');
    });

    const cases: readonly [string, string, SmallState, string[], boolean][] = [
        ['its flow does not carry anything', 'flow line when knob on: a -> [look]', { set: ['knob off'] }, [], true],
        ['its hazard is held', 'flow line: mains -> a -> [look]', { closed: ['lockout'] }, [], true],
        ['its supply is held', 'flow line: s -> a -> [look]', { closed: ['lockout'] }, [], true],
        ['its supply is held in this build', 'flow line: t -> a -> [look]', { closed: ['lockout'] }, ['large'], true],
        [
            'its supply is not held in this build',
            'flow line: t -> a -> [look]',
            { closed: ['lockout'] },
            ['small'],
            false,
        ],
        ['its supply is only safe', 'flow line: s -> a -> [look]', { safe: ['mains'] }, [], false],
        [
            'a flow that it goes on from is dead',
            'flow first: s flow line: first -> a -> [look]',
            { closed: ['lockout'] },
            [],
            true,
        ],
        [
            'a place is fed by a flow that is dead',
            'flow first: s feeds a in line flow line: a -> [look]',
            { closed: ['lockout'] },
            [],
            true,
        ],
        [
            'a place is fed by a dead flow, but bypassed',
            'flow first: s feeds a in line flow line: a -> b -> [look]',
            { closed: ['lockout'], set: ['bridge fitted'] },
            [],
            false,
        ],
        [
            'a place is fed by a flow that the build does not have',
            'flow first for large: s feeds a in line flow line: a -> [look]',
            { closed: ['lockout'] },
            ['small'],
            false,
        ],
        [
            'a place has no energy that the build does not have',
            'flow line: s for large -> a -> [look]',
            { closed: ['lockout'] },
            ['small'],
            false,
        ],
        ['one of two branches is dead', 'flow line: (s or a) -> b -> [look]', { closed: ['lockout'] }, [], false],
        ['one of two is dead that share', 'flow line: (s with a) -> b -> [look]', { closed: ['lockout'] }, [], false],
        [
            'one of two is dead and both are needed',
            'flow line: (s and a) -> b -> [look]',
            { closed: ['lockout'] },
            [],
            true,
        ],
        ['both of two branches are dead', 'flow line: (s or mains) -> a -> [look]', { closed: ['lockout'] }, [], true],
        [
            'the only branch that the build has is dead',
            'flow line: (s or a for large) -> b -> [look]',
            { closed: ['lockout'] },
            ['small'],
            true,
        ],
        ['its branch is dead', 'flow line: a -> (s -> [look] or b)', { closed: ['lockout'] }, [], true],
        ['its branch is alive', 'flow line: a -> (s or b -> [look])', { closed: ['lockout'] }, [], false],
        ['it stands before the dead place', 'flow line: a -> [look] -> s', { closed: ['lockout'] }, [], false],
        [
            'one of its two flows is dead',
            'flow line: s -> a -> [look] flow more: a -> [look]',
            { closed: ['lockout'] },
            [],
            false,
        ],
        [
            'both of its flows are dead',
            'flow line: s -> a -> [look] flow more: mains -> [look]',
            { closed: ['lockout'] },
            [],
            true,
        ],
    ];

    // The fault of `a` (or of `b`, where `a` cannot show) gives `absent` exactly where the point is not dead.
    test.each(cases)('is found where %s', (_, flow, state, build, dead) => {
        const faults = flow.includes('-> b -> [look]') || flow.includes('b -> [look]') ? ['b.f'] : ['a.f'];
        const knob = state.set ?? [];
        const shownThere = off(flow, { ...state, set: knob }, faults, build);
        expect(shownThere).toBe(dead ? 'normal' : 'absent');
    });

    test('through flows counts as dead only where all of them are, and across a stretch never', () => {
        const outcomes = 'normal yes when knob on absent no shows stopped';
        const members = (clauses: string) =>
            box(`option size { small large } hazard mains { electrical } supply s carries mains condition knob { on off } gate lockout { controls mains }
                part a { fault f } part b flow line: s -> a flow more: b test look { ${clauses} observe ${outcomes} }`);
        const seen = (clauses: string) => shown(members(clauses), 'look', { fault: 'a.f' }, { closed: ['lockout'] });
        expect(seen('through line')).toBe('normal');
        expect(seen('through line through more for small')).toBe('absent');
        expect(seen('across s to a')).toBe('absent');
    });
});

test('a bypassed part passes on whatever its faults and whatever feeds it', () => {
    const text = box(`condition bridge { out fitted bypasses a, b } part a { fault f } part b part c { fault f }
        flow control: c feeds b in line flow line: a -> b -> [look] test look { observe normal yes absent no shows stopped }`);
    expect(shown(text, 'look', { fault: 'a.f' })).toBe('absent');
    expect(shown(text, 'look', { fault: 'a.f' }, { set: ['bridge fitted'] })).toBe('normal');
    expect(shown(text, 'look', { fault: 'c.f' })).toBe('absent');
    expect(shown(text, 'look', { fault: 'c.f' }, { set: ['bridge fitted'] })).toBe('normal');
});
