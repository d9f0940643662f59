/** The order of a gate's elements, by each of the named orders. */
import { describe, expect, test } from 'vitest';
import { findingsIn, found } from './found.js';

const hazards = 'option size { small large } hazard mains { electrical 230 V AC } hazard air { pressure 6 bar gauge }';
const gate = (elements: string) => `equipment e { ${hazards} gate g { controls mains, air ${elements} } }`;
const misplaced = (elements: string, order = 'osha-1910-147') =>
    found('gate-order', gate(elements), `{ "lockoutOrder": "${order}" }`);

const usual = 'prepare "P" shut-down "S" isolate "I" lock "L" release "R" prove "P"';
const releaseFirst = 'prepare "P" shut-down "S" isolate "I" release "R" lock "L" prove "P"';

describe('the order of 29 CFR 1910.147', () => {
    test('is kept', () => {
        expect(misplaced(`${usual} restore "R"`)).toEqual([]);
    });

    test('has the lock before stored energy goes', () => {
        expect(misplaced(releaseFirst)).toEqual([
            'lock: This `lock` comes too late: by 29 CFR 1910.147 it comes before `release`.',
        ]);
    });

    test('says of one that is far off only that, and not that all others are', () => {
        expect(misplaced('prove "P" prepare "P" shut-down "S" isolate "I" lock "L" release "R"')).toEqual([
            'prove: This `prove` comes too early: by 29 CFR 1910.147 it comes after `prepare`, `shut-down`, `isolate`, `lock` and `release`.',
        ]);
        expect(misplaced('shut-down "S" isolate "I" lock "L" release "R" prove "P" prepare "P"')).toEqual([
            'prepare: This `prepare` comes too late: by 29 CFR 1910.147 it comes before `shut-down`, `isolate`, `lock`, `release` and `prove`.',
        ]);
    });

    test('says of two that are out of place each', () => {
        expect(misplaced('prove "P" prepare "P" lock "L" isolate "I" release "R"')).toEqual([
            'prove: This `prove` comes too early: by 29 CFR 1910.147 it comes after `prepare`, `lock`, `isolate` and `release`.',
            'isolate: This `isolate` comes too late: by 29 CFR 1910.147 it comes before `lock`.',
        ]);
    });

    test('holds for each hazard by itself', () => {
        const airFirst = 'isolate air "I" lock air "L" release air "R" prove air "P"';
        expect(misplaced(`prepare "P" ${airFirst} isolate mains "I" lock mains "L" prove mains "P"`)).toEqual([]);
        expect(misplaced('prove mains "P" lock air "L" isolate mains "I"')).toEqual([
            'isolate: This `isolate` comes too late: by 29 CFR 1910.147 it comes before `prove`.',
        ]);
        // People are told before anything is done, whatever it is for.
        expect(misplaced('isolate air "I" prepare mains "P"')).toHaveLength(1);
    });

    test('lets a shield stand anywhere, and earths only after the proof', () => {
        expect(misplaced('shield mains "S" isolate "I" prove mains "P" earth mains "E"')).toEqual([]);
        expect(misplaced('isolate "I" earth mains "E" prove mains "P"')).toEqual([
            'prove: This `prove` comes too late: by 29 CFR 1910.147 it comes before `earth`.',
        ]);
    });

    test('has restore last', () => {
        expect(misplaced('isolate "I" restore "R" lock "L"')).toEqual([
            'lock: This `lock` comes too late: by 29 CFR 1910.147 it comes before `restore`.',
        ]);
    });
});

describe('another order', () => {
    test('of NFPA 70E has stored energy go before the lock', () => {
        expect(misplaced(releaseFirst, 'nfpa-70e')).toEqual([]);
        expect(misplaced(usual, 'nfpa-70e')).toEqual([
            'release: This `release` comes too late: by NFPA 70E it comes before `lock`.',
        ]);
    });

    test('of EN 50110-1 leaves that open, and shields electrical hazards last', () => {
        expect(misplaced(usual, 'en-50110-1')).toEqual([]);
        expect(misplaced(releaseFirst, 'en-50110-1')).toEqual([]);
        expect(misplaced('isolate "I" shield mains "S" prove mains "P"', 'en-50110-1')).toEqual([
            'prove: This `prove` comes too late: by EN 50110-1 it comes before `shield`.',
        ]);
        expect(misplaced('isolate "I" shield air "S" prove air "P"', 'en-50110-1')).toEqual([]);
    });
});

test('elements that no build has both of have no order', () => {
    expect(misplaced('prove "P" for small isolate "I" for large')).toEqual([]);
    expect(misplaced('prove "P" for small isolate "I"')).toEqual([
        'isolate: This `isolate` comes too late: by 29 CFR 1910.147 it comes before `prove`. [small]',
    ]);
});

test('a permit has no order, and neither has an element with an unknown name', () => {
    const text = `equipment e { ${hazards} gate g { permits measuring mains prove "P" prepare "P" } }`;
    expect(found('gate-order', text)).toEqual([]);
    expect(misplaced('prove nothing "P" isolate nothing "I"')).toEqual([]);
});

test('the advice says where it goes, and the others are shown', () => {
    const [finding] = findingsIn('gate-order', gate('isolate mains "I" prove mains "P" lock mains "L"'));
    expect(finding?.advice).toBe('Move it before `prove mains`.');
    expect(finding?.related.map(({ text }) => text)).toEqual(['`prove` stands here']);
});
