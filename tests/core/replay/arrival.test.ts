/** Who comes with the complaint of a tree, and in what state. */
import { describe, expect, test } from 'vitest';
import { arrives } from '../../../language/src/core/replay/replay.js';
import { readUnit, routeOf, runsOf, type SmallWorld, wholeRunsOf, worldOf } from './replays.js';

const tree = (complaint: string, heading = '') =>
    `tree t of box ${heading} { ${complaint} step first { go done } refer done }`;
const box = (members: string, complaint: string, heading = '') =>
    `equipment box { ${members} } ${tree(complaint, heading)}`;
const lamp = 'test lamp { observe normal yes absent no shows stopped dim "dim" shows weakened }';

const comes = (text: string, world: SmallWorld) => arrives(routeOf(readUnit(text)), worldOf(readUnit(text), world));

describe('with a complaint comes', () => {
    const text = box(
        `option size { small large } part a { fault out fault low weakens fault extra for small fault late only when caused
            fault sometimes { only when caused for small } } part b { fault behind }
        flow line: a -> [lamp] -> b ${lamp}`,
        'complaint lamp absent',
    );

    test('the healthy unit, because a complaint can be mistaken', () => {
        expect(comes(text, {})).toBe(true);
    });

    test('a fault that shows it', () => {
        expect(['a.out', 'a.low', 'b.behind'].map(fault => comes(text, { fault }))).toEqual([true, false, false]);
    });

    test('no fault that the build does not have', () => {
        expect(['small', 'large'].map(size => comes(text, { build: [size], fault: 'a.extra' }))).toEqual([true, false]);
    });

    test('no fault that comes only when caused', () => {
        expect(comes(text, { fault: 'a.late' })).toBe(false);
        expect(['small', 'large'].map(size => comes(text, { build: [size], fault: 'a.sometimes' }))).toEqual([
            false,
            true,
        ]);
    });

    test('a pair of faults of which one shows it, but none that cannot be', () => {
        expect(comes(text, { fault: ['a.low', 'b.behind'] })).toBe(false);
        expect(comes(text, { fault: ['a.out', 'b.behind'] })).toBe(true);
        expect(comes(text, { fault: ['a.out', 'a.late'] })).toBe(false);
    });

    test('nobody in a build that the tree is not for', () => {
        const some = text.replace('of box', 'of box for small');
        expect(['small', 'large'].map(size => comes(some, { build: [size] }))).toEqual([true, false]);
        expect(runsOf(some, { build: ['large'], fault: 'a.out' })).toEqual([]);
    });

    test('who shows any of its outcomes, or another complaint', () => {
        const outcomes = text.replace('complaint lamp absent', 'complaint lamp absent, dim');
        const several = text.replace('complaint lamp absent', 'complaint lamp absent complaint lamp dim');
        expect([comes(outcomes, { fault: 'a.low' }), comes(several, { fault: 'a.low' })]).toEqual([true, true]);
    });

    test('who shows it in this build', () => {
        const some = text.replace('complaint lamp absent', 'complaint lamp absent for small');
        expect(['small', 'large'].map(size => comes(some, { build: [size], fault: 'a.out' }))).toEqual([true, false]);
        const without = text.replace('test lamp {', 'test lamp for small {');
        expect(['small', 'large'].map(size => comes(without, { build: [size], fault: 'a.out' }))).toEqual([
            true,
            false,
        ]);
    });
});

test('a fault comes that causes one which shows the complaint, over others too', () => {
    const text = box(
        `option size { small large } part a { fault first { causes a.second for small } fault second { causes b.third }
            fault none { makes lamp normal } } part b { fault third at line } flow line: b -> [lamp] ${lamp}`,
        'complaint lamp absent',
    );
    expect(comes(text, { build: ['small'], fault: 'a.first' })).toBe(true);
    expect(comes(text, { build: ['large'], fault: 'a.first' })).toBe(false);
    expect(wholeRunsOf(text, { fault: 'a.first' })[0]?.visits[0]?.key).toBe('c:|g:|s:|p:0,1,3|x:|m:|r:0|q:0');
});

test('a caused fault that the build does not have is not caused', () => {
    const text = box(
        `option size { small large } part a { fault first { causes b.third } } part b for small { fault third }
        flow line: b -> [lamp] ${lamp}`,
        'complaint lamp absent',
    );
    expect(comes(text, { build: ['small'], fault: 'a.first' })).toBe(true);
    expect(comes(text, { build: ['large'], fault: 'a.first' })).toBe(false);
});

test('a fault that comes only when caused may come beside what causes it', () => {
    const text = box(
        `part a { fault first { causes a.second } fault second { only when caused } fault apart } flow line: a -> [lamp] ${lamp}`,
        'complaint lamp absent',
    );
    expect(comes(text, { fault: ['a.first', 'a.second'] })).toBe(true);
    expect(comes(text, { fault: ['a.second', 'a.first'] })).toBe(true);
    expect(comes(text, { fault: ['a.apart', 'a.second'] })).toBe(false);
});

describe('the complaint is looked at', () => {
    const members = (
        needs: string,
    ) => `condition knob { off on full } condition lid { shut open } condition lever { up down }
        part a { fault f { makes lamp absent when knob on and lid open } fault g { makes lamp absent when knob full }
            fault h { makes lamp absent when lever down } }
        test lamp { observe ${needs} normal yes absent no }`;
    const comesWith = (needs: string, when = '', fault = 'a.f') =>
        comes(box(members(needs), `complaint lamp absent${when === '' ? '' : ` when ${when}`}`), { fault });

    test('as the unit is found, where nothing else is said', () => {
        expect(comesWith('')).toBe(false);
    });

    test('with the needs of its test met', () => {
        expect([comesWith('needs knob on'), comesWith('needs knob on, lid open')]).toEqual([false, true]);
    });

    test('in the state of its `when`, unless its test needs another', () => {
        expect(comesWith('needs lid open', 'knob on')).toBe(true);
        expect(comesWith('', 'knob on and lid open')).toBe(true);
        expect(comesWith('needs knob off', 'knob on and lid open')).toBe(false);
    });

    test('with the first of several states set, unless one holds already', () => {
        expect(comesWith('needs lid open', 'knob on or knob full')).toBe(true);
        expect(comesWith('', 'knob full or knob on', 'a.g')).toBe(true);
        expect(comesWith('', 'knob full or knob off', 'a.g')).toBe(false);
    });

    test('with another value where one must not be, and only there', () => {
        expect(comesWith('needs not knob on', 'knob full', 'a.g')).toBe(true);
        expect(comesWith('needs not lever up', '', 'a.h')).toBe(true);
        expect(comesWith('needs not lever down', '', 'a.h')).toBe(false);
        expect(comesWith('needs lid open, not knob off')).toBe(true);
        expect(comesWith('needs not knob on', 'knob on and lid open')).toBe(false);
    });

    test('with the needs of the readings that its test is worked out from', () => {
        const text = box(
            `condition knob { off on } part a { fault f { makes ratio-of high when knob on } }
            test first { measure resistance normal < 1 Ω high otherwise }
            test second { measure resistance needs knob on normal < 1 Ω high otherwise }
            test ratio-of { calculate resistance from first - second normal < 1 Ω high otherwise }`,
            'complaint ratio-of high',
        );
        expect(comes(text, { fault: 'a.f' })).toBe(true);
    });

    test('with no energy missed, and with gates open', () => {
        const text = box(
            `hazard mains { electrical } supply s carries mains part a { fault f } gate off { controls mains }
            flow line: s -> a -> [lamp] test lamp { observe needs mains isolated normal yes absent no shows stopped }`,
            'complaint lamp absent',
        );
        expect(comes(text, { fault: 'a.f' })).toBe(true);
    });
});

test('afterwards everything is as it is found, and a test that remembers knows the faults', () => {
    const text = box(
        `option size { small large } condition knob { off on } condition lever for large { up down }
        part a { fault f { causes a.g } fault g } flow line: a -> [lamp]
        test lamp { observe needs knob on normal yes absent no shows stopped }
        test code { checks a.f as E1 observe remembers until cleared normal "n" E1 "e" }
        test more for large { checks a.f as E1 observe remembers until cleared normal "n" E1 "e" }`,
        'complaint lamp absent',
    );
    const key = (size: string, fault: string[]) =>
        wholeRunsOf(text, { build: [size], fault })[0]?.visits.map(visit => visit.key);
    expect(key('small', ['a.f'])).toEqual(['c:0,-1|g:|s:|p:0,1|x:|m:1=0,1;2=0,1|r:0|q:0']);
    expect(key('large', [])).toEqual(['c:0,0|g:|s:|p:|x:|m:1=;2=|r:0|q:0']);
});

test('only the draws come that show the complaint', () => {
    const text = box(
        'part a { fault f { makes lamp absent or dim } } test lamp { observe normal yes absent no dim "d" }',
        'complaint lamp dim',
    );
    expect([0, 1].map(draw => comes(text, { fault: 'a.f', draws: { lamp: draw } }))).toEqual([false, true]);
    expect(comes(text, { fault: 'a.f', reads: { lamp: 'dim' } })).toBe(true);
});

test('a fault that comes and goes comes if it can show the complaint', () => {
    const text = box(
        'part a { fault f comes and goes { makes lamp absent } } test lamp { observe normal yes absent no }',
        'complaint lamp absent',
    );
    expect(comes(text, { fault: 'a.f' })).toBe(true);
});
