// Readings that are noted: when they are good for a test that is worked out from them, and when not any more.

import { describe, expect, test } from 'vitest';
import { runsOf } from './replays.js';

/** A tree of one step whose last question is worked out from two readings. */
function box(before: string): string {
    return `equipment box {
        condition knob { off on }
        condition lid { shut open }
        part a { fault f weakens }
        part b { fault f weakens }
        flow line when knob on: a -> [first] -> b -> [second, lamp]
        test lamp { observe normal yes absent no }
        test first { measure voltage DC normal > 1 V low otherwise shows weakened }
        test second { measure voltage DC normal > 1 V low otherwise shows weakened }
        test plain { measure temperature normal > 1 °C low otherwise }
        test lost { calculate voltage DC from first - second normal < 1 V high otherwise }
        test both { calculate ratio from plain / first normal < 1 % high otherwise } }
        tree t of box { complaint lamp absent
            step start { do "x" sets knob on ${before} test lost { normal, high -> done } }
            refer done }`;
}

const unread = (before: string, ...tests: string[]) =>
    test(`${before === '' ? 'nothing' : before}: ${tests.length === 0 ? 'all are good' : `${tests.join(', ')} not`}`, () => {
        const needs = tests.map(one => `needs ${one} taken, `).join('');
        expect(runsOf(box(before))).toEqual([`start(${needs}normal) > done right`]);
    });

describe('a test that is worked out from two readings', () => {
    unread('', 'first', 'second');
    unread('read first', 'second');
    unread('read first, second');
    unread('read first read second');
});

describe('a condition on which the flow of both hangs', () => {
    // Both were taken in the same state, whatever is set afterwards.
    unread('read first, second do "x" sets knob off do "x" sets knob on');
    unread('read first do "x" sets knob off do "x" sets knob on read second', 'first');
    unread('read first do "x" sets knob off do "x" sets knob on read second read first');
    // Setting what is so already changes nothing.
    unread('read first do "x" sets knob on read second');
});

describe('another condition', () => {
    unread('read first do "x" sets lid open read second');
});

describe('a repair', () => {
    unread('read first, second do "x" replaces a');
    unread('read first do "x" replaces a read second', 'first');
    unread('read first do "x" clears a.f read second', 'first');
    unread('read first do "x" clears a.f read second read first');
});

describe('a reading that no setting changes', () => {
    const text = (before: string) => box(`${before} test both { normal, high -> done }`);

    test('leaves one of before as it is', () => {
        const before = 'read first do "x" sets knob off read plain';
        expect(runsOf(text(before))[0]).toBeDefined();
        expect(runsOf(text(before))[0]).not.toContain('taken');
    });

    test('is none of before when something has been repaired', () => {
        expect(runsOf(text('read first do "x" replaces a read plain'))[0]).toContain('needs first taken');
    });
});

test('asking a test notes its reading', () => {
    const text = box('test first { normal -> next low -> next } }\n step next { read second');
    expect(runsOf(text)).toEqual(['start(normal) > next(normal) > done right']);
});
