/** Pairs of faults: which are looked at, and what is said of those that lead to a repair of neither. */
import { expect, test } from 'vitest';
import { defaultSettings } from '../../language/src/core/findings/settings.js';
import { findingsOf } from '../support/read-texts.js';

/** An invented row of bells that one hammer rings: where several are silent, the hammer is taken to be broken. */
function bells(names: readonly string[], more = ''): string {
    const parts = names.map(name => `part ${name} "${name}" { fault cracked "Cracked" }`);
    const tests = names.map(
        name =>
            `test ${name}-rings "Does it ring?" { checks ${name}.cracked as absent, hammer.broken as absent observe by ear normal yes absent no }`,
    );
    const [one = '', two = '', ...others] = names;
    const steps = [
        `step ask-${one} { test ${one}-rings { normal -> ask-${two}  absent -> both } }`,
        `step both { test ${two}-rings { normal -> ${one}-cracked  absent -> broken-hammer } }`,
        ...[two, ...others].map((name, index, all) => {
            const next = all[index + 1];
            const to = next === undefined ? 'no-fault' : `ask-${next}`;
            return `step ask-${name} { test ${name}-rings { normal -> ${to}  absent -> ${name}-cracked } }`;
        }),
    ];
    return [
        `equipment carillon "Carillon" { part hammer "Hammer" { fault broken "Broken" } ${parts.join(' ')} ${more} ${tests.join(' ')} }`,
        `tree silent "A bell is silent" of carillon {`,
        ...names.map(name => `complaint ${name}-rings absent`),
        ...steps,
        ...names.map(name => `conclude ${name}-cracked { ${name}.cracked }`),
        'conclude broken-hammer { hammer.broken }',
        'refer no-fault because "all bells ring"',
        '}',
    ].join('\n');
}

function told(text: string, doubleFaults = true): string[] {
    const settings = { ...defaultSettings, doubleFaults };
    return findingsOf({ 'example.fault': text }, { settings })
        .filter(({ code }) => code === 'double-fault')
        .map(({ severity, message }) => `${severity}: ${message}`);
}

test('nothing is said unless the workspace asks for it', () => {
    expect(told(bells(['alto', 'bass']), false)).toEqual([]);
});

test('a pair that ends at neither of its faults is counted among those that bring the complaint', () => {
    // The hammer with either bell ends at the hammer, which is one of the two.
    expect(told(bells(['alto', 'bass']))).toEqual([
        'information: Of 3 pairs of faults that bring this complaint, 1 ends at a conclusion that names neither: `alto.cracked` with `bass.cracked`.',
    ]);
});

test('a fault and what it causes are no pair', () => {
    const caused = bells(['alto', 'bass']).replace(
        'part bass "bass" { fault cracked "Cracked" }',
        'part bass "bass" { fault cracked "Cracked" { causes alto.cracked } }',
    );
    expect(told(caused)).toEqual([]);
});

test('a fault that brings the complaint only beside another one makes a pair with it, and one that never comes alone does not', () => {
    const text = bells(['alto', 'bass'], 'part rope "Rope" { fault worn "Worn" fault cut "Cut" only when caused }');
    expect(told(text)).toEqual([
        'information: Of 6 pairs of faults that bring this complaint, 1 ends at a conclusion that names neither: `alto.cracked` with `bass.cracked`.',
    ]);
});

test('of many pairs the first are named', () => {
    const wrong = bells(['alto', 'bass', 'cello', 'drone']).replaceAll(/-> \w+-cracked\b/g, '-> broken-hammer');
    expect(told(wrong)).toEqual([
        'information: Of 10 pairs of faults that bring this complaint, 6 end at a conclusion that names neither: `alto.cracked` with `bass.cracked`, `alto.cracked` with `cello.cracked`, `alto.cracked` with `drone.cracked` and 3 more.',
    ]);
});
