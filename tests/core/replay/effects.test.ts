/** What a test at a point of a flow shows: effects along the flow, side by side, and through flows that feed others. */
import { describe, expect, test } from 'vitest';
import { shown, type SmallState, type SmallWorld } from './replays.js';

const box = (members: string) => `equipment box { ${members} }`;
const parts = (names: string, faults = 'fault out stops fault low weakens') =>
    names
        .split(' ')
        .map(name => `part ${name} { ${faults} }`)
        .join(' ');
const lamp = (name: string) => `test ${name} { observe normal yes absent no shows stopped dim "dim" shows weakened }`;

describe('a fault shows', () => {
    const text = box(`${parts('a b')} flow line: a -> [early] -> b -> [late] ${lamp('early')} ${lamp('late')}`);

    test.each([
        ['early', 'a.out', 'absent'],
        ['late', 'a.out', 'absent'],
        ['late', 'a.low', 'dim'],
        ['early', 'b.out', 'normal'],
        ['late', 'b.out', 'absent'],
    ])('downstream of its place only: %s with %s is %s', (name, fault, outcome) => {
        expect(shown(text, name, { fault })).toBe(outcome);
    });

    test('nothing in a healthy unit', () => {
        expect(shown(text, 'late')).toBe('normal');
    });

    test('not once it is gone', () => {
        expect(shown(text, 'late', { fault: 'a.out' }, { gone: ['a.out'] })).toBe('normal');
    });

    test('once, where what has stopped hides what is weak', () => {
        expect(shown(text, 'late', { fault: ['a.low', 'b.out'] })).toBe('absent');
    });
});

describe('the effect of a fault', () => {
    const meter = `test meter { observe normal yes absent no shows stopped low "l" shows weakened high "h" shows raised
        sagging "s" shows loaded gone "g" shows shorted }`;
    const text = box(`part a { fault silent fault stop stops fault weak weakens fault raise raises fault load loads
        fault short shorts } flow line: a -> [meter] ${meter}`);

    test.each([
        ['silent', 'absent'],
        ['stop', 'absent'],
        ['weak', 'low'],
        ['raise', 'high'],
        ['load', 'sagging'],
        ['short', 'gone'],
    ])('%s gives the outcome that says it: %s', (fault, outcome) => {
        expect(shown(text, 'meter', { fault: `a.${fault}` })).toBe(outcome);
    });

    test('differs by build, and is to stop where no build is named', () => {
        const differing =
            box(`option size { small large huge } part a { fault f { weakens for small raises for large } }
            flow line: a -> [meter] ${meter}`);
        const inBuild = (build: string) => shown(differing, 'meter', { build: [build], fault: 'a.f' });
        expect(['small', 'large', 'huge'].map(inBuild)).toEqual(['low', 'high', 'absent']);
    });

    test('can be two at once', () => {
        const both = box(`option size { small large } option color { red }
            part a { fault f { weakens for small raises for red } } flow line: a -> [meter] ${meter}`);
        expect(shown(both, 'meter', { fault: 'a.f' })).toBe('low|high');
    });
});

describe('where no outcome says the effect', () => {
    const one = (outcomes: string) =>
        box(`part a { fault stop stops fault weak weakens fault raise raises fault load loads fault short shorts }
            flow line: a -> [meter] test meter { observe normal yes ${outcomes} }`);

    test('weakened serves for loaded', () => {
        expect(
            shown(one('absent no shows stopped low "l" shows weakened other "o"'), 'meter', { fault: 'a.load' }),
        ).toBe('low');
    });

    test('stopped serves for shorted', () => {
        expect(shown(one('absent no shows stopped other "o"'), 'meter', { fault: 'a.short' })).toBe('absent');
    });

    test.each(['stop', 'weak', 'raise', 'load', 'short'])('those that say none serve for %s', fault => {
        expect(shown(one('other "o"'), 'meter', { fault: `a.${fault}` })).toBe('other');
    });

    test('and several say none, each is possible and the model leaves it open', () => {
        expect(shown(one('absent no shows stopped odd "o" strange "s"'), 'meter', { fault: 'a.weak' })).toBe(
            'odd|strange?',
        );
    });

    test('nor says none, the test is blind', () => {
        expect(shown(one('absent no shows stopped'), 'meter', { fault: 'a.weak' })).toBe('normal');
    });

    test('an outcome that the build does not have says nothing', () => {
        const text = box(`option size { small large } part a { fault f weakens } flow line: a -> [meter]
            test meter { observe normal yes low "l" shows weakened for small other "o" } `);
        expect(shown(text, 'meter', { build: ['small'], fault: 'a.f' })).toBe('low');
        expect(shown(text, 'meter', { build: ['large'], fault: 'a.f' })).toBe('other');
    });

    test('an outcome says its effect only in its state', () => {
        const text = box(`condition knob { off on } part a { fault f weakens } flow line: a -> [meter]
            test meter { observe normal yes low "l" shows weakened when knob on other "o" } `);
        expect(shown(text, 'meter', { fault: 'a.f' })).toBe('other');
        expect(shown(text, 'meter', { fault: 'a.f' }, { set: ['knob on'] })).toBe('low');
    });
});

describe('a test on two flows', () => {
    const text = box(`condition knob { off on } ${parts('a b')} flow one: a -> [both] flow two when knob on: b -> [both]
        ${lamp('both')}`);

    test('sees what happens in either', () => {
        expect(shown(text, 'both', { fault: 'a.out' }, { set: ['knob on'] })).toBe('absent');
        expect(shown(text, 'both', { fault: 'b.low' }, { set: ['knob on'] })).toBe('dim');
    });

    test('sees nothing of the one that is dead while the other has energy', () => {
        expect(shown(text, 'both', { fault: 'a.out' })).toBe('absent');
        expect(shown(text, 'both', { fault: 'b.out' })).toBe('normal');
    });

    test('sees both where both are dead', () => {
        const dead = text.replace('flow one:', 'flow one when knob on:');
        expect(shown(dead, 'both', { fault: 'b.out' })).toBe('absent');
    });
});

test('a test on no flow shows no fault that it does not check', () => {
    expect(shown(box(`${parts('a')} ${lamp('apart')}`), 'apart', { fault: 'a.out' })).toBe('normal');
});

test('a fault belongs to the places that it names, by label or by flow, in the builds where it does', () => {
    const text = box(`option size { small large }
        part a { fault label at here fault whole at two fault free fault mixed { at here for small } }
        flow one: a as here -> [first] -> a -> [second] flow two: a -> [third]
        ${lamp('first')} ${lamp('second')} ${lamp('third')}`);
    const seen = (fault: string, build = 'small') =>
        ['first', 'second', 'third'].map(name => shown(text, name, { build: [build], fault: `a.${fault}` })).join(' ');
    expect(seen('label')).toBe('absent absent normal');
    expect(seen('whole')).toBe('normal normal absent');
    expect(seen('free')).toBe('absent absent absent');
    expect(seen('mixed')).toBe('absent absent normal');
    expect(seen('mixed', 'large')).toBe('absent absent absent');
});

test('what the build lacks is passed by: places, points, groups and flows', () => {
    const text = box(`option size { small large } ${parts('a b c d')}
        flow line: a for small -> b for large -> (c -> [within]) for small -> [end] flow more for small: d -> [end]
        ${lamp('end')} ${lamp('within')}`);
    const seen = (build: string) =>
        ['a', 'b', 'c', 'd'].map(part => shown(text, 'end', { build: [build], fault: `${part}.out` })).join(' ');
    expect(seen('small')).toBe('absent normal absent absent');
    expect(seen('large')).toBe('normal absent normal normal');
    expect(shown(text, 'within', { build: ['small'], fault: 'a.out' })).toBe('absent');
    expect(shown(text, 'within', { build: ['large'], fault: 'b.out' })).toBe('normal');
});

test('a flow goes on in another', () => {
    const text = box(
        `${parts('a b')} flow one: a -> [near] flow two: one -> b -> [far] ${lamp('near')} ${lamp('far')}`,
    );
    expect(shown(text, 'far', { fault: 'a.low' })).toBe('dim');
    expect(shown(text, 'far', { fault: 'b.out' })).toBe('absent');
    expect(shown(text, 'near', { fault: 'b.out' })).toBe('normal');
});

describe('a flow that feeds a place of another', () => {
    const kinds = 'fault out stops fault low weakens fault high raises fault load loads fault short shorts';
    const text = (feeds = 'feeds k in power') =>
        box(`option size { small large } ${parts('coil', kinds)} ${parts('feed k', 'fault out')}
            flow control: coil -> [before] ${feeds} flow power: feed -> [early] -> k -> [late]
            ${lamp('early')} ${lamp('before')}
            test late { observe normal yes absent no shows stopped low "l" shows weakened high "h" shows raised
                sagging "s" shows loaded gone "g" shows shorted }`);

    test.each([
        ['out', 'absent'],
        ['short', 'absent'],
        ['low', 'low'],
        ['load', 'low'],
        ['high', 'high'],
    ])('passes on what reaches it: %s shows as %s', (fault, outcome) => {
        expect(shown(text(), 'late', { fault: `coil.${fault}` })).toBe(outcome);
    });

    test('shows only behind the fed place', () => {
        expect(shown(text(), 'early', { fault: 'coil.out' })).toBe('normal');
    });

    test('does not feel what happens in the flow that it feeds', () => {
        expect(shown(text(), 'before', { fault: 'k.out' })).toBe('normal');
    });

    test('feeds only in the builds that it names', () => {
        const some = text('feeds k in power for small');
        expect(shown(some, 'late', { build: ['small'], fault: 'coil.out' })).toBe('absent');
        expect(shown(some, 'late', { build: ['large'], fault: 'coil.out' })).toBe('normal');
    });

    test('feeds nothing where it does not exist itself', () => {
        const some = text().replace('flow control:', 'flow control for small:');
        expect(shown(some, 'late', { build: ['large'], fault: 'coil.out' })).toBe('normal');
    });

    test('gives nothing where it is met within itself', () => {
        const circle = box(`${parts('a b c')} flow one: a -> [point] -> c feeds b in two flow two: b feeds a in one
            ${lamp('point')}`);
        expect(shown(circle, 'point', { fault: 'a.out' })).toBe('absent');
        expect(shown(circle, 'point', { fault: 'b.low' })).toBe('dim');
        expect(shown(circle, 'point', { fault: 'c.out' })).toBe('normal');
    });
});

test('what a circle cuts short in one flow is looked at anew from another', () => {
    const text =
        box(`${parts('a b c d')} flow one: a -> [point] -> c feeds b in two flow two: b feeds a in one, d in three
        flow three: d -> [point] ${lamp('point')}`);
    // In the first flow nothing comes round to the point; the third gets what the second has from the first.
    expect(shown(text, 'point', { fault: 'c.out' })).toBe('absent');
});

describe('branches side by side', () => {
    const all = 'fault out stops fault low weakens fault short shorts fault high raises';
    const meter = (name: string) => `test ${name} { observe normal yes absent no shows stopped low "l" shows weakened
        gone "g" shows shorted high "h" shows raised }`;
    const text = (join: string) =>
        box(`${parts('before a b', all)} flow line: before -> (a -> [in-a] ${join} b -> [in-b]) -> [end]
            ${meter('end')} ${meter('in-a')} ${meter('in-b')}`);
    const end = (join: string, ...fault: string[]) => shown(text(join), 'end', { fault });

    test.each([
        ['and', ['a.out'], 'absent'],
        ['and', ['a.low', 'b.high'], 'low|high'],
        ['or', ['a.out'], 'normal'],
        ['or', ['a.low'], 'normal'],
        ['or', ['a.out', 'b.low'], 'low'],
        ['or', ['a.low', 'b.low'], 'low'],
        ['or', ['a.low', 'b.high'], 'low|high'],
        ['or', ['a.out', 'b.short'], 'absent|gone'],
        ['or', ['a.out', 'b.out'], 'absent'],
        ['with', ['a.low'], 'low'],
        ['with', ['a.out'], 'low'],
        ['with', ['a.high'], 'high'],
        ['with', ['a.out', 'b.high'], 'low|high'],
        ['with', ['a.out', 'b.out'], 'absent'],
        ['with', ['a.short', 'b.out'], 'absent|gone'],
    ])('joined by `%s` give with %j: %s', (join, faults, outcome) => {
        expect(end(join, ...faults)).toBe(outcome);
    });

    test('a point in one sees what comes before, and what is in its own branch', () => {
        expect(shown(text('or'), 'in-a', { fault: 'before.low' })).toBe('low');
        expect(shown(text('or'), 'in-a', { fault: 'a.out' })).toBe('absent');
        expect(shown(text('or'), 'in-b', { fault: 'a.out' })).toBe('normal');
    });

    test('do not make good what comes before them', () => {
        expect(end('or', 'before.out')).toBe('absent');
    });

    const some = box(`option size { small large } ${parts('a b c')}
        flow line: (a or b for small -> [in-b]) -> (c for small or [wire]) -> [end]
        ${lamp('end')} ${lamp('in-b')} ${lamp('wire')}`);

    test('that hold nothing in a build are left out', () => {
        expect(shown(some, 'end', { build: ['small'], fault: 'a.out' })).toBe('normal');
        expect(shown(some, 'end', { build: ['large'], fault: 'a.out' })).toBe('absent');
        expect(shown(some, 'end', { build: ['small'], fault: 'c.out' })).toBe('absent');
    });

    test('that are left out still have their points', () => {
        expect(shown(some, 'in-b', { build: ['large'], fault: 'a.out' })).toBe('normal');
        expect(shown(some, 'wire', { build: ['large'], fault: 'a.out' })).toBe('absent');
    });

    test('may hold branches themselves', () => {
        const nested = box(`${parts('a b c')} flow line: ((a or b) and c) -> [end] ${lamp('end')}`);
        expect(shown(nested, 'end', { fault: 'a.out' })).toBe('normal');
        expect(shown(nested, 'end', { fault: ['a.out', 'b.out'] })).toBe('absent');
        expect(shown(nested, 'end', { fault: 'c.low' })).toBe('dim');
    });
});

describe('a test across a stretch', () => {
    const drop = 'test drop { across b to c observe normal yes high no shows stopped, weakened }';
    const text = box(`option size { small large } condition bridge { out fitted bypasses b } ${parts('a b c d feed')}
        flow line: a -> b -> c -> d -> [end] flow other: feed feeds c in line ${lamp('end')} ${drop}`);
    const seen = (fault: string, world: SmallWorld = {}, state: SmallState = {}) =>
        shown(text, 'drop', { ...world, fault }, state);

    test('sees what lies between its ends, these included', () => {
        expect(['a', 'b', 'c', 'd'].map(part => seen(`${part}.low`))).toEqual(['normal', 'high', 'high', 'normal']);
    });

    test('sees what is fed into it', () => {
        expect(seen('feed.out')).toBe('high');
    });

    test('sees nothing of a part that is bypassed', () => {
        expect(seen('b.out', {}, { set: ['bridge fitted'] })).toBe('normal');
    });

    test('begins at the first of its places and ends at the last, over branches too', () => {
        const long = box(`${parts('a b c d')} flow line: (a or b) -> c -> a as again -> d -> [end] ${lamp('end')}
            test drop { across a to again observe normal yes high no shows stopped, weakened }`);
        expect(['a', 'b', 'c', 'd'].map(part => shown(long, 'drop', { fault: `${part}.low` }))).toEqual([
            'high',
            'high',
            'high',
            'normal',
        ]);
    });

    test('sees nothing where its end stands before its start', () => {
        const back = text.replace('across b to c', 'across c to b');
        expect(shown(back, 'drop', { fault: 'b.low' })).toBe('normal');
    });

    test('sees nothing in a build that lacks one of its ends', () => {
        const some = box(`option size { small large } ${parts('a b c')} flow line: a for small -> b -> c for small
            test drop { across a to b observe normal yes high no shows stopped, weakened }
            test more { across b to c observe normal yes high no shows stopped, weakened }`);
        const both = (build: string) =>
            ['drop', 'more'].map(name => shown(some, name, { build: [build], fault: 'b.out' }));
        expect(both('small')).toEqual(['high', 'high']);
        expect(both('large')).toEqual(['normal', 'normal']);
    });

    test('counts only in the builds that it names; elsewhere the points of the test count', () => {
        const some = box(`option size { small large } ${parts('a b')} flow line: a -> b -> [drop]
            test drop { across b to b for small observe normal yes high no shows stopped, weakened }`);
        expect(shown(some, 'drop', { build: ['small'], fault: 'a.out' })).toBe('normal');
        expect(shown(some, 'drop', { build: ['large'], fault: 'a.out' })).toBe('high');
    });
});

describe('a test through flows', () => {
    const current = 'observe normal yes none no shows stopped some "s" shows weakened much "m" shows shorted';
    const text = box(`option size { small large } ${parts('a b c d feed')} part e { fault short shorts }
        flow line: a -> b -> (c or d) -> [end] flow fed: feed feeds b in line flow more: line -> e
        test amps { through line for small through more for large ${current} } ${lamp('end')}`);
    const seen = (fault: string, build = 'small') => shown(text, 'amps', { build: [build], fault });

    test('sees a fault anywhere in it, in a branch too', () => {
        expect(['a.low', 'b.out', 'c.out', 'd.low'].map(fault => seen(fault))).toEqual([
            'some',
            'none',
            'none',
            'some',
        ]);
    });

    test('sees what is fed into it', () => {
        expect(seen('feed.out')).toBe('none');
    });

    test('sees what loads it from a flow that goes on from it', () => {
        expect(seen('e.short')).toBe('much');
    });

    test('sees the flow that it goes on from', () => {
        expect(seen('a.out', 'large')).toBe('none');
        expect(seen('e.short', 'large')).toBe('much');
    });

    test('goes before its points, and a flow that the build lacks is passed by', () => {
        const some = box(`option size { small large } ${parts('a b')} flow line for small: a flow other: b -> [amps]
            test amps { through line ${current} }`);
        expect(shown(some, 'amps', { build: ['small'], fault: 'b.out' })).toBe('normal');
        expect(shown(some, 'amps', { build: ['large'], fault: 'a.out' })).toBe('normal');
    });
});
