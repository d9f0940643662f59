/** Where the search for a build gives up, the writer is told so, once for each cause. */
import { expect, test } from 'vitest';
import { check } from '../support/check.js';
import { type Guard, type SmallBuilds, writeEquipment } from '../support/small-builds.js';

test('an equipment whose options are too tangled is told at its name, and so is its tree; nothing else is said', () => {
    const text = [
        writeEquipment(makeTangle()),
        'tree dark of machine {',
        '  complaint light absent',
        '  step look { test light for yes-1 { normal -> end } }',
        '  refer end because "it ends"',
        '}',
    ].join('\n');
    const withTest = text.replace('\n}\ntree', '\n  test light { observe by eye normal yes absent no }\n}\ntree');
    expect(check(withTest).filter(line => !line.startsWith('unused'))).toEqual([
        'undecided-builds at 1:11-1:18: The options of `machine` exclude each other in so many ways that it could not be decided whether any build is left.',
        // The first is a warning, which can be turned off; that nothing was verified is an error.
        'undecided-walk at 1056:6-1056:10: Tree `dark` could not be verified: its builds and states differ in too many ways.',
    ]);
});

test('a guard that is too hard to decide is told where it stands, where the equipment itself is plain', () => {
    const armed: Guard = { is: 'armed' };
    const { options, exclusions } = makeTangle();
    const builds: SmallBuilds = {
        options: [{ name: 'arming', choices: ['disarmed', 'armed'], guard: undefined }, ...options],
        exclusions: exclusions.map(terms => [...terms, armed]),
    };
    const text = writeEquipment(builds, ['part lamp for armed', 'part bell for armed']);
    const lines = text.split('\n');
    const place = (name: string) => {
        const index = lines.findIndex(line => line.includes(name));
        const column = (lines[index]?.lastIndexOf('armed') ?? 0) + 1;
        return `${index + 1}:${column}-${index + 1}:${column + 'armed'.length}`;
    };
    expect(check(text)).toEqual([
        // The choice itself is the first of the three places; the two guards are the others.
        `undecided-builds at ${place('{ disarmed armed }')}: It could not be decided in which builds this and 2 other places of this file hold: the options exclude each other in too many ways.`,
    ]);
});

test('a test whose bands are too hard to decide is told at its name', () => {
    const armed: Guard = { is: 'armed' };
    const { options, exclusions } = makeTangle();
    const builds: SmallBuilds = {
        options: [{ name: 'arming', choices: ['disarmed', 'armed'], guard: undefined }, ...options],
        exclusions: exclusions.map(terms => [...terms, armed]),
    };
    const text = writeEquipment(builds, [
        'condition key { off on }',
        'test t for armed { measure resistance normal < 3 Ω when key on high > 3 Ω }',
    ]);
    const told = check(text).filter(line => /^(reading|undecided)/.test(line));
    expect(told).toHaveLength(1);
    expect(told[0]).toMatch(/^undecided-builds at .* and 2 other places of this file hold/);
});

/** Two hundred options of two choices, with as many exclusions as make it hardest to tell whether a build is left. */
function makeTangle(): SmallBuilds {
    // A ratio of 4.26 exclusions of three choices to options is the hardest: Mitchell, Selman and Levesque (AAAI 1992), from memory.
    const [optionCount, exclusionCount] = [200, 852];
    let state = 7;
    const draw = (below: number) => {
        state = (state * 16807) % 2147483647;
        return state % below;
    };
    const options = Array.from({ length: optionCount }, (_, index) => ({
        name: `option-${index}`,
        choices: [`yes-${index}`, `no-${index}`],
        guard: undefined,
    }));
    const pick = (): Guard => ({ is: `${draw(2) === 0 ? 'yes' : 'no'}-${draw(optionCount)}` });
    return { options, exclusions: Array.from({ length: exclusionCount }, () => [pick(), pick(), pick()]) };
}
