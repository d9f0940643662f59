/** The orders of lockouts against the published ones, each as a table. */
import { describe, expect, test } from 'vitest';
import { lockoutOrders, rankOf } from '../../../language/src/core/safety/lockout-orders.js';
import type { GateElementSort } from '../../../language/src/core/model/gates.js';

const named = (name: string) => lockoutOrders.find(one => one.name === name) ?? lockoutOrders[0];

/** Whether each element comes before the next one. */
const isOrdered = (name: string, elements: readonly GateElementSort[]) => {
    const ranks = elements.map(element => rankOf(named(name), element) ?? Number.NaN);
    return ranks.every((rank, index) => index === 0 || (ranks[index - 1] ?? 0) < rank);
};

describe('the order of 29 CFR 1910.147', () => {
    // Paragraph (d), order and wording seen second-hand, the numbers from memory.
    const published: readonly (readonly [paragraph: string, element: GateElementSort])[] = [
        ['(d)(1) preparation for shutdown', 'prepare'],
        ['(d)(2) machine or equipment shutdown', 'shut-down'],
        ['(d)(3) machine or equipment isolation', 'isolate'],
        ['(d)(4) lockout or tagout device application', 'lock'],
        ['(d)(5) stored energy', 'release'],
        ['(d)(6) verification of isolation', 'prove'],
        ['(e) release from lockout or tagout', 'restore'],
    ];

    test('is the one that holds where nothing is chosen', () => {
        expect(lockoutOrders[0].name).toBe('osha-1910-147');
        expect(lockoutOrders[0].title).toBe('29 CFR 1910.147');
    });

    test('has its elements as the paragraphs stand', () => {
        expect(published.map(([, element]) => rankOf(lockoutOrders[0], element))).not.toContain(undefined);
        expect(
            isOrdered(
                'osha-1910-147',
                published.map(([, element]) => element),
            ),
        ).toBe(true);
    });

    test('takes holding up for stored energy, which is relieved, disconnected or restrained there', () => {
        expect(rankOf(lockoutOrders[0], 'block')).toBe(rankOf(lockoutOrders[0], 'release'));
    });
});

test('the order of NFPA 70E lets stored energy go before the lock, and earths after the test', () => {
    // Article 120.5, the order seen second-hand: sources, disconnects, stored energy, lock and tag, test, earth.
    expect(isOrdered('nfpa-70e', ['isolate', 'release', 'lock', 'prove', 'earth'])).toBe(true);
});

test('the order of EN 50110-1 is that of its five rules', () => {
    // Clause 6.2, seen second-hand that there are five; the rules from memory: disconnect, secure against reconnection,
    // verify absence of voltage, earth and short-circuit, protect against adjacent live parts.
    expect(isOrdered('en-50110-1', ['isolate', 'lock', 'prove', 'earth', 'shield'])).toBe(true);
    const order = named('en-50110-1');
    expect(rankOf(order, 'release')).toBe(rankOf(order, 'lock'));
});

test('no order earths before it proves, or opens before all else is done', () => {
    for (const order of lockoutOrders) {
        expect(isOrdered(order.name, ['prove', 'earth', 'restore'])).toBe(true);
        expect(order.groups.at(-1)).toEqual(['restore']);
        expect(order.groups.flat()).toHaveLength(new Set(order.groups.flat()).size);
        expect(order.electricalOnly).toContain('earth');
    }
});

test('an element that an order does not name may stand anywhere', () => {
    expect(rankOf(named('osha-1910-147'), 'shield')).toBe(undefined);
});
