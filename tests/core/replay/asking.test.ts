/** Questions of a step: where answers lead, what they need, and what keeps a test from saying anything. */
import { describe, expect, test } from 'vitest';
import { runsOf, type SmallWorld, wholeRunsOf } from './replays.js';

const box = (members: string, tree: string) =>
    `equipment box { ${members} } tree t of box { complaint lamp absent ${tree} }`;
const lamp = 'test lamp { observe normal yes absent no shows stopped }';

test('each answer leads where its branch says', () => {
    const text = box(
        `part a { fault f } part b { fault f } flow line: a -> [meter] -> b -> [lamp] ${lamp}
        test meter { observe normal yes absent no shows stopped }`,
        `step look { test lamp { normal -> none absent -> deeper } } step deeper { test meter { normal -> was-b absent -> was-a } }
        conclude was-a { a.f } conclude was-b { b.f } refer none`,
    );
    expect(runsOf(text)).toEqual(['look(normal) > none right']);
    expect(runsOf(text, { fault: 'a.f' })).toEqual(['look(absent) > deeper(absent) > was-a right']);
    expect(runsOf(text, { fault: 'b.f' })).toEqual(['look(absent) > deeper(normal) > was-b right']);
});

describe('an answer leads', () => {
    const members = `option size { small large } part a { fault f fault g { makes lamp dim } } flow line: a -> [lamp]
        test lamp { observe normal yes absent no shows stopped dim "d" }`;
    const text = (statement: string) =>
        box(
            members,
            `complaint lamp dim ${statement} conclude one { a } conclude two { a } refer none disagree -> none`,
        );
    const end = (branches: string, fault: string, world: SmallWorld = {}) =>
        runsOf(text(`step look { test lamp { ${branches} } }`), { fault: `a.${fault}`, ...world })[0];

    test('by the first branch that names it and that the build has', () => {
        const branches = 'normal -> none absent -> two for large absent, dim -> one';
        expect(end(branches, 'f', { build: ['small'] })).toBe('look(absent) > one right');
        expect(end(branches, 'f', { build: ['large'] })).toBe('look(absent) > two right');
        expect(end(branches, 'g', { build: ['large'] })).toBe('look(dim) > one right');
    });

    test('else by `otherwise`', () => {
        const branches = 'normal -> none absent -> one for large otherwise -> two';
        expect(end(branches, 'f', { build: ['large'] })).toBe('look(absent) > one right');
        expect(end(branches, 'f', { build: ['small'] })).toBe('look(absent) > two right');
        expect(end(branches, 'g')).toBe('look(dim) > two right');
    });

    test('nowhere where no branch is left', () => {
        expect(end('normal -> none dim -> one', 'f')).toBe('look(absent) > stranded');
    });

    test('never by what is said for a test that cannot be read', () => {
        expect(end('normal -> none dim -> one cannot be read -> two', 'f')).toBe('look(absent) > stranded');
    });

    test('from a short `confirm` to its end, or where the tree sends who disagrees', () => {
        const short = text('step look { confirm lamp absent -> one }');
        expect(runsOf(short, { fault: 'a.f' })).toEqual(['look(absent) > one right']);
        expect(runsOf(short, { fault: 'a.g' })).toEqual(['look(dim) > none wrong']);
        expect(runsOf(short)).toEqual(['look(normal) > none right']);
    });

    test('from a long `confirm` by its branches', () => {
        const long = text('step look { confirm lamp { absent -> one normal -> two } }');
        expect(runsOf(long, { fault: 'a.f' })).toEqual(['look(absent) > one right']);
        expect(runsOf(long, { fault: 'a.g' })).toEqual(['look(dim) > stranded']);
    });
});

test('an open answer is marked, and counts for the whole run', () => {
    const text = box(
        'part a { fault f { makes lamp absent } } test lamp { checks a.f observe normal yes absent no } test odd { checks a.f observe normal yes one "o" two "t" }',
        'step look { test odd { normal -> done one, two -> more } } step more { test lamp { otherwise -> done } } refer done { a.f }',
    );
    expect(runsOf(text, { fault: 'a.f', draws: { odd: 1 } })).toEqual(['look(two?) > more(absent) > done right']);
    expect(wholeRunsOf(text, { fault: 'a.f' }).map(run => run.guessed)).toEqual([true]);
    expect(wholeRunsOf(text).map(run => run.guessed)).toEqual([false]);
    expect(wholeRunsOf(text, { fault: 'a.f' })[0]?.visits[1]?.key).toBe('c:|g:|s:|p:0|x:|m:|r:0|q:1');
    expect(wholeRunsOf(text, { fault: 'a.f' })[0]?.visits[0]?.steps).toMatchObject([
        { sort: 'asked', outcome: 1, opts: [1, 2], guessed: true },
    ]);
});

describe('a need', () => {
    const text = (needs: string, asked = 'lamp') =>
        box(
            `option size { small large } hazard mains { electrical } supply s carries mains zone inside { exposes mains }
            condition knob { off on full } condition lid { shut open } gate off { controls mains } part a { fault f }
            flow line: s -> a -> [lamp]
            test lamp in inside { observe ${needs} normal yes absent no shows stopped }
            test reading { measure resistance needs knob full normal < 1 Ω high otherwise }
            test derived { calculate resistance from reading + more needs lid open normal < 1 Ω high otherwise }
            test more { measure resistance normal < 1 Ω high otherwise needs not lid shut }
            test told { observe normal yes when knob on other no }`,
            `step look { test ${asked} { normal -> again otherwise -> again } } step again { test told { normal, other -> done } }
            refer done`,
        );

    test('that is met is not told', () => {
        expect(runsOf(text('needs knob off, not lid open, line flowing'))).toEqual([
            'look(normal) > again(nothing said, normal) > done right',
        ]);
    });

    test('that is not met is told, and then made to hold', () => {
        expect(runsOf(text('needs knob on, lid open and knob off'))).toEqual([
            'look(needs knob on, needs lid open and knob off, normal) > again(nothing said, normal) > done right',
        ]);
        expect(runsOf(text('needs lid open and knob on'))).toEqual([
            'look(needs lid open and knob on, normal) > again(normal) > done right',
        ]);
    });

    test('for a hazard or a flow is told and cannot be made to hold', () => {
        expect(runsOf(text('needs mains isolated'))).toEqual([
            'look(needs mains isolated, normal) > again(nothing said, normal) > done right',
        ]);
        expect(runsOf(text('needs isolated'))[0]).toContain('look(needs isolated, normal)');
        expect(runsOf(text('needs line flowing'), { fault: 'a.f' })[0]).toContain('look(needs line flowing, absent)');
    });

    test('counts only in the builds that it is for', () => {
        const some = text('needs knob on for small');
        expect(runsOf(some, { build: ['small'] })[0]).toContain('needs knob on');
        expect(runsOf(some, { build: ['large'] })[0]).not.toContain('needs');
    });

    test('of a derived reading comes before that of the readings in it', () => {
        expect(runsOf(text('', 'derived'))).toEqual([
            'look(needs lid open, needs reading taken, needs more taken, normal) > again(nothing said, normal) > done right',
        ]);
    });
});

describe('a test is asked without energy', () => {
    const text = (outcomes: string) =>
        box(
            `hazard mains { electrical } supply s carries mains condition knob { off on } gate off { controls mains }
            part a { fault f } flow line: s -> a when knob on -> [lamp]
            test lamp { observe ${outcomes} }`,
            `step cut { gate off test lamp { normal -> done absent -> done } } refer done { a.f }`,
        );

    test('and that is told', () => {
        expect(runsOf(text('normal yes absent no shows stopped'))[0]).toContain('cut(no energy, normal)');
    });

    test('which is right where it says what is normal then', () => {
        expect(runsOf(text('normal yes when knob off absent no shows stopped'))[0]).toBe('cut(normal) > done wrong');
    });

    test('while nothing says what is normal', () => {
        const there = text('normal yes when knob on absent no shows stopped');
        expect(runsOf(there)[0]).toBe('cut(no energy, nothing said, normal) > done wrong');
    });

    test('with no need for any where it asks which build it is', () => {
        const which = `equipment box { option size { small large } hazard mains { electrical } gate off { controls mains }
            flow line: mains -> [which] test which { identify size } ${lamp} }
            tree t of box { complaint lamp absent step cut { gate off test which { small, large -> done } } refer done }`;
        expect(runsOf(which)).toEqual(['cut(small) > done right']);
    });
});

test('a test that the build does not have ends the way', () => {
    const text = box(
        `option size { small large } ${lamp} test more for small { observe normal yes absent no }`,
        'step look { test more { normal, absent -> done } } refer done',
    );
    expect(runsOf(text, { build: ['small'] })).toEqual(['look(normal) > done right']);
    expect(runsOf(text, { build: ['large'] })).toEqual(['look > missing for ask']);
});

describe('a fault that comes and goes', () => {
    const text = box(
        `condition lead { straight bent } part a { fault f comes and goes unless lead bent { makes lamp absent } } ${lamp}`,
        `step look { test lamp { normal -> bend absent -> again } }
        step again { test lamp { normal -> bend absent -> bad } }
        step bend { do "Bend it." sets lead bent test lamp { normal -> none absent -> bad } }
        conclude bad { a.f } refer none`,
    );

    test('goes every way, each time anew', () => {
        expect(runsOf(text, { fault: 'a.f' })).toEqual([
            'look(absent) > again(absent) > bad right',
            'look(absent) > again(normal) > bend(absent) > bad right',
            'look(normal) > bend(absent) > bad right',
        ]);
    });

    test('is cut after so many runs', () => {
        expect(runsOf(text, { fault: 'a.f' }, { mostRuns: 2 })).toEqual([
            'look(absent) > again(absent) > bad right',
            'look(absent) > again(normal) > bend(absent) > bad right',
            'look > cut',
        ]);
    });

    test('may go round and round', () => {
        const round = box(
            `part a { fault f comes and goes { makes lamp absent } } ${lamp}`,
            'step look { test lamp { normal -> look absent -> bad } } conclude bad { a.f }',
        );
        expect(runsOf(round, { fault: 'a.f' })).toEqual([
            'look(absent) > bad right',
            'look(normal) > again look: loop',
        ]);
    });

    test('is prepared for once, whichever way it shows', () => {
        const once = box(
            `condition knob { off on } part a { fault f comes and goes { makes lamp absent } }
            test lamp { observe takes 2 min needs knob on normal yes absent no }`,
            'step look { test lamp { normal -> none absent -> bad } } conclude bad { a.f } refer none',
        );
        expect(runsOf(once, { fault: 'a.f' })).toEqual([
            'look(needs knob on, absent) > bad right',
            'look(needs knob on, normal) > none wrong',
        ]);
        expect(wholeRunsOf(once, { fault: 'a.f' }).map(run => run.time)).toEqual([120_000, 120_000]);
    });
});
