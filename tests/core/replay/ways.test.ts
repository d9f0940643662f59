/** How the ways through a tree lead on and end: steps, procedures, other trees, and ends that are right or wrong. */
import { describe, expect, test } from 'vitest';
import { routeOf, readUnit, runsOf, wholeRunsOf } from './replays.js';

const lamp = 'test lamp { observe normal yes absent no shows stopped }';
const box = (members: string, tree: string, more = '') =>
    `equipment box { ${members} ${lamp} } ${more} tree t of box { complaint lamp absent ${tree} }`;
const two = 'part a { fault f fault g } part b { fault f } flow line: a -> b -> [lamp]';

describe('a way', () => {
    const sizes = 'option size { small large }';

    test('leads by `go`, in the builds that it is for', () => {
        const text = box(sizes, 'step one { go two for small go done } step two { go done } refer done');
        expect(runsOf(text, { build: ['small'] })).toEqual(['one > two > done right']);
        expect(runsOf(text, { build: ['large'] })).toEqual(['one > done right']);
    });

    test('is stranded where a step leads nowhere', () => {
        const text = box(sizes, 'step one { go two for small } step two { do "x" } refer done');
        expect(runsOf(text, { build: ['small'] })).toEqual(['one > two > stranded']);
        expect(runsOf(text, { build: ['large'] })).toEqual(['one > stranded']);
    });

    test('ends at a step or an end that the build does not have', () => {
        const text = box(sizes, 'step one { go two } step two for small { go done } refer done for large');
        expect(runsOf(text, { build: ['small'] })).toEqual(['one > two > missing done']);
        expect(runsOf(text, { build: ['large'] })).toEqual(['one > missing two']);
    });

    test('ends at once where the first step is missing', () => {
        expect(runsOf(box(sizes, 'step one for small { go done } refer done'), { build: ['large'] })).toEqual([
            'missing one',
        ]);
        expect(runsOf(box(sizes, 'refer done'))).toEqual(['missing tree']);
    });

    test('is endless where it comes to a step again with nothing changed', () => {
        const text = box(
            `condition knob { off on } ${two}`,
            'step one { go two } step two { do "x" sets knob on go one } refer done',
        );
        expect(runsOf(text)).toEqual(['one > two > one > two > again one: loop']);
        const again = box(two, 'step one { test lamp { normal -> done absent -> one } } refer done');
        expect(runsOf(again, { fault: 'a.f' })).toEqual(['one(absent) > again one: loop']);
    });

    test('is cut where it goes on without end', () => {
        const text = box(
            'part a { fault f { causes b.f after 1000000 h } } part b { fault f } flow line: a -> b -> [lamp]',
            'step one { do "x" clears b.f takes 1 s go one } refer done',
        );
        const [run] = wholeRunsOf(text, { fault: 'a.f' });
        expect(run?.ending).toEqual({ sort: 'cut' });
    });
});

describe('an end is right', () => {
    const tree = (end: string, statements = '') => box(two, `step one { ${statements} go done } ${end}`);
    const right = (end: string, fault: string | string[], statements?: string) =>
        runsOf(tree(end, statements), { fault })[0]?.endsWith('done right');

    test('if it names the fault, alone or with others', () => {
        expect(right('conclude done { a.f }', 'a.f')).toBe(true);
        expect(right('conclude done { a.g, b }', 'a.f')).toBe(false);
        expect(right('conclude done { a }', 'a.f')).toBe(true);
        expect(right('refer done { a.f }', 'a.f')).toBe(true);
        expect(right('refer done', 'a.f')).toBe(false);
    });

    test('if it names the fault that came, though it has been cleared', () => {
        expect(right('conclude done { a.f }', 'a.f', 'do "x" clears a.f')).toBe(true);
        expect(right('conclude done { a.g }', 'a.f', 'do "x" clears a.f')).toBe(false);
    });

    test('if it names the part that has been replaced', () => {
        expect(right('conclude done { a.g }', 'a.f', 'do "x" replaces a')).toBe(true);
        expect(right('conclude done { b.f }', 'a.f', 'do "x" replaces a')).toBe(false);
        expect(right('conclude done { b.f }', 'a.f', 'do "x" replaces b')).toBe(false);
    });

    test('if it names both of two', () => {
        expect(right('conclude done { a.f, b.f }', ['a.f', 'b.f'])).toBe(true);
        expect(right('conclude done { a.f }', ['a.f', 'b.f'])).toBe(false);
        expect(right('conclude done { a.f, b.f }', ['a.f', 'b.f'], 'do "x" replaces b')).toBe(true);
        expect(right('conclude done { a.f }', ['a.f', 'b.f'], 'do "x" clears b.f')).toBe(false);
    });

    test('if it names what the fault has caused, as long as that is there', () => {
        const caused = (end: string, statements = '') =>
            runsOf(
                box(
                    'part a { fault f { causes b.f after 1 h } } part b { fault f } flow line: a -> b -> [lamp]',
                    `step one { ${statements} go done } ${end}`,
                ),
                { fault: 'a.f' },
            )[0]?.endsWith('done right');
        expect(caused('conclude done { a.f, b.f }')).toBe(true);
        expect(caused('conclude done { a.f }')).toBe(false);
        expect(caused('conclude done { b.f }')).toBe(false);
        expect(caused('conclude done { a.f }', 'do "x" clears b.f')).toBe(true);
        expect(caused('conclude done { a.f }', 'do "x" clears b.f wait 1 h')).toBe(false);
    });

    test('in the builds in which it names the fault', () => {
        const some = box(
            'option size { small large } part a { fault f fault g for small } flow line: a -> [lamp]',
            'step one { do "x" replaces a go done } conclude done { a.f for small, a.g }',
        );
        expect(runsOf(some, { build: ['small'], fault: 'a.f' })).toEqual(['one > done right']);
        expect(runsOf(some, { build: ['large'], fault: 'a.f' })).toEqual(['one > done wrong']);
    });

    test('for a healthy unit if it is a referral that names nothing', () => {
        expect(right('refer done', [])).toBe(true);
        expect(right('refer done { a.f }', [])).toBe(false);
        expect(right('conclude done { a.f }', [])).toBe(false);
    });

    test('and tells what is present, and whether the fault that came is named', () => {
        const ending = (end: string, statements: string) =>
            wholeRunsOf(tree(end, statements), { fault: 'a.f' })[0]?.ending;
        expect(ending('conclude done { a.f }', '')).toEqual({
            sort: 'end',
            end: 0,
            right: true,
            named: true,
            present: [0],
        });
        expect(ending('conclude done { a.g }', 'do "x" replaces a')).toMatchObject({
            right: true,
            named: false,
            present: [],
        });
        expect(wholeRunsOf(tree('refer done'))[0]?.ending).toMatchObject({ right: true, named: false });
        expect(wholeRunsOf(tree('refer done { a.f }'), { fault: ['a.f', 'b.f'] })[0]?.ending).toMatchObject({
            named: false,
            present: [0, 2],
        });
    });
});

describe('a procedure', () => {
    const kinds = `kind relay { fault f fault g test coil { checks f as bad, g as worse observe normal yes bad no worse "w" } }`;
    const members = 'part a is relay part b is relay flow line: a -> b -> [lamp]';
    const check = `procedure check of box about relay { step look { test it.coil { normal -> good bad -> poor worse -> awful } }
        result good result poor result awful }`;
    const ends = 'conclude bad-a { a } conclude bad-b { b } refer none';

    test('is gone through where it is followed, and goes on by its result', () => {
        const text = box(
            members,
            `step one { follow check with a { good -> next otherwise -> bad-a } }
            step next { follow check with b { good -> none poor, awful -> bad-b } } ${ends}`,
            `${kinds} ${check}`,
        );
        expect(runsOf(text)).toEqual(['one > one/look(normal) > next > next/look(normal) > none right']);
        expect(runsOf(text, { fault: 'a.f' })).toEqual(['one > one/look(bad) > bad-a right']);
        expect(runsOf(text, { fault: 'a.g' })).toEqual(['one > one/look(worse) > bad-a right']);
        expect(runsOf(text, { fault: 'b.g' })).toEqual([
            'one > one/look(normal) > next > next/look(worse) > bad-b right',
        ]);
    });

    test('has the first branch for its result that the build has, or none', () => {
        const text = box(
            `option size { small large } ${members}`,
            `step one { follow check with a { good -> none poor -> bad-b for small poor -> bad-a } } ${ends}`,
            `${kinds} ${check}`,
        );
        expect(runsOf(text, { build: ['small'], fault: 'a.f' })).toEqual(['one > one/look(bad) > bad-b wrong']);
        expect(runsOf(text, { build: ['large'], fault: 'a.f' })).toEqual(['one > one/look(bad) > bad-a right']);
        expect(runsOf(text, { fault: 'a.g' })).toEqual(['one > one/look(worse) > stranded']);
    });

    test('may follow another, and hand its result on', () => {
        const outer = `procedure both of box { step first { follow check with a { good -> second otherwise -> faulty } }
            step second { follow check with b { good -> yes-all otherwise -> faulty } } result yes-all result faulty }`;
        const text = box(
            members,
            `step one { follow both { yes-all -> none faulty -> bad } } conclude bad { a, b } refer none`,
            `${kinds} ${check} ${outer}`,
        );
        expect(runsOf(text, { fault: 'b.f' })).toEqual([
            'one > one/first > one/first/look(normal) > one/second > one/second/look(bad) > bad right',
        ]);
        expect(
            wholeRunsOf(text, { fault: 'b.f' })[0]
                ?.visits.at(-1)
                ?.steps.map(({ sort }) => sort),
        ).toEqual(['asked', 'left', 'left']);
    });

    test('about a part acts at it; about a test asks it', () => {
        const text = box(
            members,
            `step one { follow swap with a { ready -> two } } step two { follow once with lamp { right -> bad-a wrong -> bad-b } } ${ends}`,
            `${kinds} procedure swap of box about part { step fit { do "x" at it replaces it go ready } result ready }
            procedure once of box about test { step ask-it { test it { normal -> right otherwise -> wrong } } result right result wrong }`,
        );
        expect(runsOf(text, { fault: 'a.f' })).toEqual(['one > one/fit > two > two/ask-it(normal) > bad-a right']);
        expect(runsOf(text, { fault: 'b.f' })).toEqual(['one > one/fit > two > two/ask-it(absent) > bad-b right']);
    });

    test('that the build does not have ends the way', () => {
        const text = box(
            `option size { small large } ${members}`,
            `step one { follow check with a { otherwise -> bad-a } } ${ends}`,
            `${kinds} ${check.replace('about relay', 'about relay for small')}`,
        );
        expect(runsOf(text, { build: ['small'] })).toEqual(['one > one/look(normal) > bad-a wrong']);
        expect(runsOf(text, { build: ['large'] })).toEqual(['one > missing for follow']);
    });

    test('that leads back to itself is stranded there', () => {
        const text = box(
            members,
            `step one { follow circle { ok -> none } } ${ends}`,
            `${kinds} procedure circle of box { step again { follow circle { ok -> ok } } result ok }`,
        );
        expect(runsOf(text)).toEqual(['one > one/again > stranded']);
    });

    test('leaves to its tree what it does not say itself', () => {
        const tree = `step one { follow work { ready -> none } } step out { go bad-a } cannot be done -> out disagree -> bad-b ${ends}`;
        const work = (more = '') => `procedure work of box { step act { do "x" using a confirm lamp normal -> ready }
            step stop { go ready } result ready ${more} }`;
        expect(runsOf(box(members, tree, `${kinds} ${work()}`), { fault: 'a.f' })).toEqual([
            'one > one/act(cannot be done) > out > bad-a right',
        ]);
        expect(runsOf(box(members, tree, `${kinds} ${work('cannot be done -> stop')}`), { fault: 'a.f' })).toEqual([
            'one > one/act(cannot be done) > one/stop > none wrong',
        ]);
        expect(runsOf(box(members, tree, `${kinds} ${work()}`), { fault: 'b.f' })).toEqual([
            'one > one/act(absent) > bad-b right',
        ]);
    });
});

describe('`continue with`', () => {
    const text = `equipment box { option size { small large } condition knob { off on } hazard mains { electrical }
        gate lockout { controls mains } ${two} ${lamp} }
        tree t of box { complaint lamp absent step one { do "x" sets knob on takes 2 min gate lockout continue with other } }
        tree other of box for small { complaint lamp absent step two { go done } conclude done { a } }`;

    test('hands over to the other tree, as everything is', () => {
        const [run] = wholeRunsOf(text, { build: ['small'], fault: 'a.f', tree: 't' });
        expect(run?.ending).toMatchObject({
            sort: 'handed over',
            tree: { name: { text: 'other' } },
            state: { conditions: [1], closed: new Set([0]), present: new Set([0]) },
        });
        expect(runsOf(text, { build: ['small'], fault: 'a.f', tree: 't' })).toEqual(['one > handed over to other']);
    });

    test('ends the way where the other tree is not for the build', () => {
        expect(runsOf(text, { build: ['large'], fault: 'a.f', tree: 't' })).toEqual(['one > missing for leave']);
    });

    test('goes on there, whether the world shows its complaint or not', () => {
        const { ending } = wholeRunsOf(text, { build: ['small'], tree: 't' })[0] ?? {};
        if (ending?.sort !== 'handed over') throw new Error('The world has not been handed over.');
        const world = { build: ['small'], fault: 'b.f', tree: 'other' };
        expect(runsOf(text, world, { start: ending.state })).toEqual(['two > done wrong']);
        expect(wholeRunsOf(text, world, { start: ending.state })[0]?.visits[0]?.key).toBe(
            'c:1|g:0|s:|p:|x:|m:|r:0|q:0',
        );
        expect(runsOf(text, { ...world, build: ['large'] }, { start: ending.state })).toEqual(['missing tree']);
    });
});

test('the happenings of a step are told in their order', () => {
    const text = box(
        `hazard mains { electrical } gate lockout { controls mains } ${two}`,
        `step one { note "x" do "x" gate lockout wait 1 min restore lockout test lamp { normal -> two absent -> done } }
        step two { go done } refer done`,
    );
    const [run] = wholeRunsOf(text);
    expect(run?.visits.map(({ steps }) => steps.map(({ sort }) => sort))).toEqual([
        ['did', 'gate', 'waited', 'restored', 'asked'],
        ['left'],
    ]);
    const route = routeOf(readUnit(text));
    const exits = run?.visits.flatMap(({ steps }) => steps.flatMap(step => ('exit' in step ? [step.exit] : [])));
    expect(exits?.map(exit => route.exits[exit ?? -1]?.to.sort)).toEqual(['station', 'end']);
});
