/** The worlds of a unit, and the text for each state. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { drawSizes } from '../../../language/src/core/meaning/draws.js';
import { worldsOf } from '../../../language/src/core/replay/replay.js';
import { type State, stateKey } from '../../../language/src/core/replay/state.js';
import { buildsOf } from '../../../language/src/core/replay/world.js';
import { enumerateBuilds, smallBuilds, writeEquipment } from '../../support/small-builds.js';
import { readUnit } from './replays.js';

const lines = (text: string): string[] => {
    const { unit } = readUnit(text);
    return [...worldsOf(unit)].map(({ build, arrival, draws }) => {
        const choices = [...build.values()].map(({ name }) => name.text).join(' ');
        return `${choices}: ${arrival.map(fault => unit.faults[fault]?.name ?? '').join()} ${draws.join('')}`;
    });
};

test('are every build that is made, healthy and with each fault that it has, with every draw', () => {
    const text = `equipment box { option size { small large } option plug for large { round flat }
        exclude large with round part a { fault f fault g for large } test first { observe normal yes odd "o" strange "s" }
        test look { checks a.f observe normal yes one "o" two "t" } }`;
    expect(drawSizes(readUnit(text).unit)).toEqual([2, 2]);
    expect(lines(text)).toEqual([
        ...['', 'a.f'].flatMap(fault => ['00', '01', '10', '11'].map(draws => `small: ${fault} ${draws}`)),
        ...['', 'a.f', 'a.g'].flatMap(fault => ['00', '01', '10', '11'].map(draws => `large flat: ${fault} ${draws}`)),
    ]);
});

test('are one for an equipment with nothing in it', () => {
    expect(lines('equipment box { }')).toEqual([':  ']);
});

test('have exactly the builds that trying all combinations finds', () => {
    fc.assert(
        fc.property(smallBuilds, builds => {
            const { unit } = readUnit(writeEquipment(builds));
            const found = [...buildsOf(unit.space)].map(build =>
                [...build.values()]
                    .map(({ name }) => name.text)
                    .sort()
                    .join(' '),
            );
            expect(new Set(found).size).toBe(found.length);
            expect([...found].sort()).toEqual(
                enumerateBuilds(builds)
                    .map(build => [...build].sort().join(' '))
                    .sort(),
            );
        }),
        { numRuns: 300, seed: 7 },
    );
});

const state: State = {
    conditions: [0, 1, -1],
    closed: new Set([2, 0]),
    safe: new Set([1]),
    present: new Set([7, 3]),
    cleared: new Map([
        [11, 0],
        [9, 60_000],
    ]),
    memory: new Map([
        [5, new Set<number>()],
        [4, new Set([7, 3])],
    ]),
    readings: new Map([
        [6, 2],
        [2, 1],
    ]),
    replaced: [false],
    guessed: false,
};

test('the text of a state says everything, in one order', () => {
    expect(stateKey(state)).toBe('c:0,1,-1|g:0,2|s:1|p:3,7|x:9@60000,11@0|m:4=3,7;5=|r:0|n:2=1,6=2|q:0');
    expect(stateKey({ ...state, present: new Set([3, 7]), closed: new Set([0, 2]) })).toBe(stateKey(state));
});

test('the text of a state differs wherever the state does', () => {
    const others: State[] = [
        { ...state, conditions: [0, 0, -1] },
        { ...state, closed: new Set([2]) },
        { ...state, safe: new Set() },
        { ...state, present: new Set([3]) },
        { ...state, cleared: new Map([[9, 60_000]]) },
        { ...state, memory: new Map([[4, new Set([7, 3])]]) },
        { ...state, replaced: [true] },
        { ...state, guessed: true },
    ];
    expect(new Set([state, ...others].map(stateKey)).size).toBe(others.length + 1);
    expect(stateKey({ ...state, replaced: [] })).toBe(stateKey(state));
    expect(stateKey({ ...state, replaced: [false, true] })).toContain('|r:0,1|');
});
