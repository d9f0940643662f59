/** What a fault that loads or shorts its flow shows at the points before it. */
import { describe, expect, test } from 'vitest';
import { shown } from './replays.js';

const box = (members: string) => `equipment box { ${members} }`;
const meter = (name: string) => `test ${name} { observe normal yes absent no shows stopped low "l" shows weakened
    sagging "s" shows loaded gone "g" shows shorted }`;
const kinds = 'fault out fault load loads fault short shorts';

describe('a fault that loads or shorts', () => {
    const text = box(`option size { small large } condition bridge { out fitted bypasses c } condition knob { on off }
        supply s { fault low weakens } part fuse { protects line for small fault out } part a { ${kinds} } part c { ${kinds} }
        flow line: s -> [first] -> fuse -> [second] -> a -> [third] -> c when knob on -> [fourth]
        ${['first', 'second', 'third', 'fourth'].map(meter).join(' ')}`);
    const seen = (fault: string, build = 'large', set: string[] = []) =>
        ['first', 'second', 'third', 'fourth']
            .map(name => shown(text, name, { build: [build], fault }, { set }))
            .join(' ');

    test('shows before it, back to the supply', () => {
        expect(seen('c.short')).toBe('gone gone gone gone');
        expect(seen('a.load')).toBe('sagging sagging sagging sagging');
    });

    test('shows no further back than a part that protects the flow, in the builds where it does', () => {
        expect(seen('c.short', 'small')).toBe('normal gone gone gone');
    });

    test('is not there for one that only stops', () => {
        expect(seen('c.out')).toBe('normal normal normal absent');
    });

    test('shows nothing while its place does not pass on', () => {
        // Behind the place the flow is dead then.
        expect(seen('c.short', 'large', ['knob off'])).toBe('normal normal normal gone');
        expect(seen('a.short', 'large', ['knob off'])).toBe('gone gone gone gone');
    });

    test('shows nothing while it is bypassed', () => {
        expect(seen('c.short', 'large', ['bridge fitted'])).toBe('normal normal normal normal');
    });

    test('comes through a place that is bypassed, even where its state does not hold', () => {
        const behind = box(`condition bridge { fitted bypasses a  out } condition knob { on off } part a { ${kinds} }
            part c { ${kinds} } flow line: [first] -> a when knob off -> c -> [last] ${meter('first')} ${meter('last')}`);
        expect(shown(behind, 'first', { fault: 'c.short' })).toBe('gone');
        expect(shown(behind, 'first', { fault: 'c.short' }, { set: ['bridge out'] })).toBe('normal');
    });
});

test('a fault shows no further back than a hazard or a supply in the middle of a flow', () => {
    const text = box(`hazard mains { electrical } supply s part c { ${kinds} }
        flow one: [early] -> mains -> [late] -> c flow two: [near] -> s -> [far] -> c
        ${['early', 'late', 'near', 'far'].map(meter).join(' ')}`);
    const seen = (name: string) => shown(text, name, { fault: 'c.short' });
    expect([seen('early'), seen('late'), seen('near'), seen('far')]).toEqual(['normal', 'gone', 'normal', 'gone']);
});

test('what loads one branch shows in the others only before they part', () => {
    const text = box(`part s part a { ${kinds} } part b { ${kinds} }
        flow line: s -> [before] -> (a -> [in-a] and b -> [in-b]) -> [end]
        ${['before', 'in-a', 'in-b', 'end'].map(meter).join(' ')}`);
    const seen = (name: string) => shown(text, name, { fault: 'a.short' });
    expect(['before', 'in-a', 'in-b', 'end'].map(seen)).toEqual(['gone', 'gone', 'normal', 'gone']);
});

test('what loads a flow behind branches shows in all of them', () => {
    const text = box(`option size { small large } part s part a part b part c { ${kinds} } part d
        flow line: s -> [before] -> (a -> [in-a] or [in-b] -> b) -> (d for small) -> c
        ${['before', 'in-a', 'in-b'].map(meter).join(' ')}`);
    const seen = (name: string) => shown(text, name, { build: ['large'], fault: 'c.short' });
    expect(['before', 'in-a', 'in-b'].map(seen)).toEqual(['gone', 'gone', 'gone']);
});

test('what loads the only branch of a build shows before the branches', () => {
    const text = box(`option size { small large } part s part a { ${kinds} } part b
        flow line: s -> [before] -> (a -> [in-a] or b for small) -> [end] ${['before', 'in-a', 'end'].map(meter).join(' ')}`);
    const seen = (name: string) => shown(text, name, { build: ['large'], fault: 'a.short' });
    expect(['before', 'in-a', 'end'].map(seen)).toEqual(['gone', 'gone', 'gone']);
});

test('what the build lacks is passed by on the way back', () => {
    const text = box(`option size { small large } part s part fuse { protects line } part c { ${kinds} }
        flow line: s -> [before] -> fuse for small -> c flow more for small: before-it -> c flow before-it: s -> [other]
        ${['before', 'other'].map(meter).join(' ')}`);
    const seen = (build: string) =>
        ['before', 'other'].map(name => shown(text, name, { build: [build], fault: 'c.short' }));
    expect(seen('small')).toEqual(['normal', 'gone']);
    expect(seen('large')).toEqual(['gone', 'normal']);
});

describe('what loads a flow that goes on from another', () => {
    const text = (place = 'main') =>
        box(`option size { small large } condition knob { on off } part s part fuse { protects main } part c { ${kinds} }
            flow main: s -> [first] -> fuse -> [second] flow branch: ${place} -> [third] -> c flow last: branch -> c
            ${['first', 'second', 'third'].map(meter).join(' ')}`);
    const seen = (place?: string, build = 'small', set: string[] = []) =>
        ['first', 'second', 'third']
            .map(name => shown(text(place), name, { build: [build], fault: 'c.short' }, { set }))
            .join(' ');

    test('shows in the other from its end, back to what protects that', () => {
        expect(seen()).toBe('normal gone gone');
    });

    test('shows nothing there while the place does not pass on', () => {
        expect(seen('main when knob on', 'small', ['knob off'])).toBe('normal normal gone');
    });

    test('shows nothing there in builds without the place', () => {
        expect(seen('main for small', 'large')).toBe('normal normal gone');
    });

    test('comes to an end where flows go on from each other in a circle', () => {
        const circle = box(`part a part c { ${kinds} } flow one: two -> [first] -> a flow two: one -> c
            ${meter('first')}`);
        expect(shown(circle, 'first', { fault: 'c.short' })).toBe('gone');
    });
});

test('what is fed is not felt in the flow that feeds it', () => {
    const text =
        box(`part coil part k { ${kinds} } flow control: coil -> [before] feeds k in power flow power: k -> [end]
        ${meter('before')} ${meter('end')}`);
    expect(shown(text, 'before', { fault: 'k.short' })).toBe('normal');
});
