/** What actions do on the way: settings, clearing, replacing, waiting, gates, and faults that come back. */
import { describe, expect, test } from 'vitest';
import { runsOf, type SmallWorld, wholeRunsOf } from './replays.js';

const lamp = 'test lamp { observe normal yes absent no shows stopped }';

/** A tree whose first step does something; the state after it is what counts. */
const box = (members: string, statements: string, more = '') =>
    `equipment box { ${members} ${members.includes('test lamp') ? '' : lamp} }
    tree t of box { complaint lamp absent step first { ${statements} go second } step second { go done } ${more} refer done }`;

/** The state after the first step. */
function stateAfter(text: string, world: SmallWorld = {}): string {
    const key = wholeRunsOf(text, world)[0]?.visits[1]?.key;
    if (key === undefined) throw new Error(`The world has not come to the second step: ${runsOf(text, world).join()}`);
    return key;
}

const minutes = (text: string, world: SmallWorld = {}) => (wholeRunsOf(text, world)[0]?.time ?? 0) / 60_000;

describe('`do`', () => {
    const conditions = 'option size { small large } condition knob { off on } condition lever for small { up down }';

    test('sets conditions, as far as the build has them', () => {
        const text = box(conditions, 'do "x" sets knob on and lever down');
        expect(stateAfter(text, { build: ['small'] })).toMatch(/^c:1,1\|/);
        expect(stateAfter(text, { build: ['large'] })).toMatch(/^c:1,-1\|/);
    });

    test('is left out in builds that it is not for', () => {
        const text = box(conditions, 'do "x" sets knob on for small');
        expect(stateAfter(text, { build: ['large'] })).toMatch(/^c:0,-1\|/);
    });

    test('clears faults and replaces parts, those of other parts stay', () => {
        const members = `part a { fault f { causes a.g, b.f } fault g } part b { fault f } flow line: a -> b -> [lamp]`;
        expect(stateAfter(box(members, ''), { fault: 'a.f' })).toMatch(/\|p:0,1,2\|x:\|.*\|r:0\|/);
        expect(stateAfter(box(members, 'do "x" clears a.f'), { fault: 'a.f' })).toMatch(/\|p:1,2\|x:\|.*\|r:0\|/);
        expect(stateAfter(box(members, 'do "x" replaces a'), { fault: 'a.f' })).toMatch(/\|p:2\|x:\|.*\|r:1\|/);
        expect(stateAfter(box(members, 'do "x" replaces b'), { fault: 'b.f' })).toMatch(/\|p:\|x:\|.*\|r:1\|/);
    });

    test('does not replace the part of the fault at arrival by replacing another', () => {
        const members = 'part a { fault f { causes b.f after 1 h } } part b { fault f } flow line: a -> [lamp]';
        expect(stateAfter(box(members, 'do "x" replaces b'), { fault: 'a.f' })).toMatch(/\|p:0\|x:1@0\|.*\|r:0\|/);
        expect(stateAfter(box(members, 'do "x" replaces a'))).toMatch(/\|p:\|x:\|.*\|r:0\|/);
    });

    test('keeps for two faults apart whose part has been replaced', () => {
        const members = 'part a { fault f } part b { fault f } flow line: a -> b -> [lamp]';
        expect(stateAfter(box(members, 'do "x" replaces b'), { fault: ['a.f', 'b.f'] })).toMatch(/\|p:0\|.*\|r:0,1\|/);
    });

    test('counts its time', () => {
        expect(minutes(box('', 'do "x" takes 3 min do "y" takes 30 s'))).toBe(3.5);
    });
});

describe('what needs a faulty part', () => {
    const members = 'option size { small large } part a { fault f } part b { fault f } flow line: a -> b -> [lamp]';
    const text = (clauses: string, more = '') =>
        box(members, `do "x" using a ${clauses}`, `step other { go done } ${more}`);

    test('is done while the part has no fault', () => {
        expect(runsOf(text('cannot be done -> other'), { fault: 'b.f' })).toEqual(['first > second > done wrong']);
    });

    test('cannot be done with one, and leads where the action says', () => {
        expect(runsOf(text('cannot be done -> other'), { fault: 'a.f' })).toEqual([
            'first(cannot be done) > other > done wrong',
        ]);
    });

    test('leads where the tree says, in the first that the build has', () => {
        const ways = 'cannot be done -> second for small cannot be done -> other';
        expect(runsOf(text('', ways), { build: ['large'], fault: 'a.f' })[0]).toBe(
            'first(cannot be done) > other > done wrong',
        );
        expect(runsOf(text('', ways), { build: ['small'], fault: 'a.f' })[0]).toBe(
            'first(cannot be done) > second > done wrong',
        );
    });

    test('leads nowhere where nothing is said', () => {
        expect(runsOf(text(''), { fault: 'a.f' })).toEqual(['first(cannot be done) > stranded']);
    });

    test('is done after the fault has been put right', () => {
        const right = box(members, 'do "y" clears a.f do "x" using a');
        expect(runsOf(right, { fault: 'a.f' })).toEqual(['first > second > done wrong']);
    });
});

describe('a test that remembers', () => {
    const members = `part a { fault f { causes b.f after 1 min } } part b { fault f } flow line: a -> [lamp]
        test code { checks a.f as E1, b.f as E2 observe remembers until cleared normal "n" E1 "e" E2 "f" }`;
    const after = (statements: string) => stateAfter(box(members, statements), { fault: 'a.f' });

    test('forgets nothing that has been put right', () => {
        expect(after('do "x" clears a.f, b.f')).toContain('|p:|x:|m:0=0,1|');
    });

    test('forgets what is no longer there once it is cleared', () => {
        expect(after('do "x" clears b.f do "y" clears code')).toContain('|p:0|x:1@0|m:0=0|');
        expect(after('do "x" clears b.f, code')).toContain('|p:0|x:1@0|m:0=0|');
    });

    test('remembers what comes back', () => {
        expect(after('do "x" clears b.f do "y" clears code wait 1 min')).toContain('|p:0,1|x:|m:0=0,1|');
    });
});

describe('what a fault causes comes back', () => {
    const members = (causes: string, more = '') => `option size { small large } hazard mains { electrical }
        condition knob { on off } supply s carries mains gate lockout { controls mains }
        part cause { fault f { ${causes} } fault g { causes effect.f after 10 min } } part effect { fault f } ${more}
        flow line: s -> cause when knob on -> effect -> [lamp]`;
    const after = (causes: string, statements: string, world: SmallWorld = { fault: 'cause.f' }, more = '') =>
        /\|p:([^|]*)\|x:([^|]*)\|/
            .exec(stateAfter(box(members(causes, more), statements), world))
            ?.slice(1)
            .join(' / ');
    const cleared = 'do "clear" clears effect.f';

    test('once its cause has run for the time', () => {
        expect(after('causes effect.f after 2 min', `${cleared} takes 30 s wait 60 s`)).toBe('0 / 2@90000');
        expect(after('causes effect.f after 2 min', `${cleared} takes 30 s wait 90 s`)).toBe('0,2 / ');
    });

    test('while a test is asked too, before it shows', () => {
        const text = `equipment box { ${members('causes effect.f after 2 min')}
            test lamp { observe takes 2 min normal yes absent no shows stopped } }
            tree t of box { complaint lamp absent step first { ${cleared} do "x" clears cause.f test lamp { normal -> done absent -> done } } refer done }`;
        const stays = text.replace('do "x" clears cause.f', '');
        expect(runsOf(text, { fault: 'cause.f' })).toEqual(['first(normal) > done wrong']);
        expect(wholeRunsOf(stays, { fault: 'cause.f' })[0]?.ending).toMatchObject({ present: [0, 2] });
    });

    test('at once where no time is given', () => {
        expect(after('causes effect.f', cleared)).toBe('0,2 / ');
    });

    test('only while its cause is there', () => {
        expect(after('causes effect.f after 2 min', `${cleared} do "x" clears cause.f wait 1 h`)).toBe(' / ');
    });

    test('only in the builds that it is for', () => {
        const world = { build: ['large'], fault: ['cause.f', 'effect.f'] };
        expect(after('causes effect.f for small after 2 min', `${cleared} wait 1 h`, world)).toBe('0 / ');
    });

    test('only while the cause has energy and its states hold', () => {
        const causes = 'causes effect.f after 2 min';
        expect(after(causes, `gate lockout ${cleared} takes 5 min wait 1 h`)).toBe('0 / 2@0');
        expect(after(causes, `gate lockout ${cleared} takes 5 min restore lockout wait 1 min`)).toBe('0 / 2@60000');
        expect(after(causes, `do "x" sets knob off ${cleared} wait 1 h do "x" sets knob on wait 1 min`)).toBe(
            '0 / 2@60000',
        );
    });

    test('on another flow of its cause too', () => {
        expect(
            after(
                'causes effect.f after 2 min',
                `gate lockout ${cleared} wait 1 h`,
                { fault: 'cause.f' },
                'flow more: cause',
            ),
        ).toBe('0,2 / ');
    });

    test('wherever its cause stands on no flow of the build', () => {
        const apart = `equipment box { option size { small large } hazard mains { electrical } gate lockout { controls mains }
            part cause { fault f { causes effect.f after 2 min } } part effect { fault f } flow line: mains -> effect -> [lamp]
            flow more for small: mains -> cause ${lamp} }
            tree t of box { complaint lamp absent step first { gate lockout ${cleared} wait 1 h go second } step second { go done } refer done }`;
        expect(stateAfter(apart, { build: ['small'], fault: 'cause.f' })).toContain('|p:0|x:1@0|');
        expect(stateAfter(apart, { build: ['large'], fault: 'cause.f' })).toContain('|p:0,1|x:|');
    });

    test('by the quickest of its causes that run', () => {
        const both: SmallWorld = { fault: ['cause.f', 'cause.g'] };
        expect(after('causes effect.f after 2 min', `${cleared} wait 2 min`, both)).toBe('0,1,2 / ');
        expect(after('causes effect.f after 2 min', `${cleared} do "x" clears cause.f wait 9 min`, both)).toBe(
            '1 / 2@540000',
        );
        expect(after('causes effect.f after 2 min', `${cleared} do "x" clears cause.f wait 10 min`, both)).toBe(
            '1,2 / ',
        );
    });

    test('with nothing counted while a gate is closed or restored', () => {
        const gated = members('causes effect.f after 2 min').replace(
            'gate lockout { controls mains }',
            'gate lockout { controls mains } gate live { permits measuring mains takes 5 min }',
        );
        expect(stateAfter(box(gated, `${cleared} gate live`), { fault: 'cause.f' })).toContain('|p:0|x:2@0|');
    });
});

describe('`wait`', () => {
    const members = `option size { small large } hazard heat { thermal 80 °C cools in 30 min } hazard steam for small { thermal }
        gate lockout { controls heat for small } gate other { controls steam }`;

    test('makes its hazard safe, where the build has it', () => {
        const text = box(members, 'wait 30 min until heat safe wait 1 min until steam safe');
        expect(stateAfter(text, { build: ['small'] })).toContain('|s:0,1|');
        expect(stateAfter(text, { build: ['large'] })).toContain('|s:0|');
        expect(minutes(text)).toBe(31);
    });

    test('is undone for the hazards of a gate that is restored, in the builds where it controls them', () => {
        const text = box(members, 'wait 30 min until heat safe wait 1 min until steam safe restore lockout');
        expect(stateAfter(text, { build: ['small'] })).toContain('|s:1|');
        expect(stateAfter(text, { build: ['large'] })).toContain('|s:0|');
    });
});

describe('a gate', () => {
    const members = `option size { small large } hazard mains { electrical } hazard heat { thermal }
        condition knob { off on } condition lid { shut open }
        gate lockout { controls mains
            prepare "Tell." takes 2 min
            shut-down "Off." sets knob off takes 1 min
            release "Wait." 30 s
            isolate mains "Pull." takes 4 min for small
            isolate mains "Open." sets lid open for large
            restore "Plug." takes 3 min
            restore "Lid." sets lid shut takes 1 min for large
            takes 10 min for small takes 20 min }
        gate live { permits measuring mains prepare "Put on gloves." sets lid open takes 2 min }
        gate some for small { controls heat shut-down "x" sets lid open takes 1 min }`;
    const on = 'do "x" sets knob on';

    test('that controls stays closed, with what its elements set in this build', () => {
        const text = box(members, `${on} gate lockout`);
        expect(stateAfter(text, { build: ['small'] })).toMatch(/^c:0,0\|g:0\|/);
        expect(stateAfter(text, { build: ['large'] })).toMatch(/^c:0,1\|g:0\|/);
    });

    test('takes the time of its elements, and its own where it says one', () => {
        expect(minutes(box(members, 'gate lockout'), { build: ['small'] })).toBe(2 + 1 + 0.5 + 4 + 10);
        expect(minutes(box(members, 'gate lockout'), { build: ['large'] })).toBe(2 + 1 + 0.5 + 20);
    });

    test('is restored with what that sets and takes', () => {
        const text = box(members, `gate lockout ${on} restore lockout`);
        expect(stateAfter(text, { build: ['large'] })).toMatch(/^c:1,0\|g:\|/);
        expect(minutes(box(members, 'restore lockout'), { build: ['small'] })).toBe(3);
        expect(minutes(box(members, 'restore lockout'), { build: ['large'] })).toBe(4);
    });

    test('that only permits is never closed', () => {
        expect(stateAfter(box(members, 'gate live'))).toMatch(/^c:0,1\|g:\|/);
        expect(minutes(box(members, 'gate live'))).toBe(2);
    });

    test('that the build does not have is left alone', () => {
        const text = box(members, 'gate some');
        expect(stateAfter(text, { build: ['small'] })).toMatch(/^c:0,1\|g:2\|/);
        expect(stateAfter(text, { build: ['large'] })).toMatch(/^c:0,0\|g:\|/);
        expect(minutes(text, { build: ['large'] })).toBe(0);
    });
});

test('reading takes the time of each reading, asking only that of the test', () => {
    const text = `equipment box { option size { small large } ${lamp}
        test first { measure resistance takes 2 min for small takes 3 min normal < 1 Ω high otherwise }
        test second { measure resistance takes 5 min normal < 1 Ω high otherwise }
        test third for small { measure resistance takes 7 min normal < 1 Ω high otherwise }
        test whole { calculate resistance from first - (second + third) takes 1 min normal < 1 Ω high otherwise } }
        tree t of box { complaint lamp absent
            step first { read first, second, third test whole { normal, high -> done } } refer done }`;
    expect(minutes(text, { build: ['small'] })).toBe(1 + 2 + 5 + 7);
    expect(minutes(text, { build: ['large'] })).toBe(1 + 3 + 5);
});

describe('what the build lacks', () => {
    const members = `option size { small large } zone inside for small condition knob for small { off on }
        hazard mains { electrical } part a for small { fault f } part b { fault f fault g for small }
        gate lockout for small { controls mains } test code for small { observe remembers until cleared normal "n" E1 "e" }
        flow line: b -> [lamp]`;

    test.each([
        'gate lockout',
        'restore lockout',
        'do "x" replaces a',
        'do "x" using a',
        'do "x" at a',
        'do "x" in inside',
        'do "x" sets knob on',
        'do "x" clears code',
        'do "x" clears a',
        'do "x" clears b.g',
    ])('is told, and the way goes on: %s', statement => {
        const text = box(members, statement);
        expect(runsOf(text, { build: ['small'] })).toEqual(['first > second > done right']);
        expect(runsOf(text, { build: ['large'] })).toEqual(['first(missing) > second > done right']);
    });

    test('is not told where some of the faults that are cleared are of other builds', () => {
        expect(runsOf(box(members, 'do "x" clears b'), { build: ['large'] })).toEqual(['first > second > done right']);
    });
});
