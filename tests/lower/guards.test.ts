/** Checks guards and states as expression trees, and that a guard belongs to the clause that it follows. */
import { expect, test } from 'vitest';
import type { ChoiceExpression, StateExpression } from '../../language/src/core/model/guards.js';
import { lower, lowerWhole } from '../support/lower.js';

/** A guard in words with every pair of brackets written out. */
function guardWords(guard: ChoiceExpression | undefined): string {
    if (!guard) return 'all';
    if (guard.sort === 'choice') return [guard.choice, guard.member].flatMap(name => name?.text ?? []).join('.');
    if (guard.sort === 'not') return `not ${guardWords(guard.operand)}`;
    return `(${guard.operands.map(guardWords).join(guard.sort === 'all' ? ' and ' : ' or ')})`;
}

function stateWords(state: StateExpression | undefined): string {
    if (!state) return 'always';
    if (state.sort === 'state') {
        return [state.subject?.text, state.is === 'value' ? `= ${state.value?.text ?? ''}` : state.is].join(' ').trim();
    }
    if (state.sort === 'not') return `not ${stateWords(state.operand)}`;
    return `(${state.operands.map(stateWords).join(state.sort === 'all' ? ' and ' : ' or ')})`;
}

const guardOf = (guard: string) => {
    const part = lower(`equipment e { part p for ${guard} }`).model.equipment[0]?.parts[0];
    return guardWords(part?.guard);
};

const stateOf = (state: string) => {
    const needs = lower(`equipment e { test t { needs ${state} } }`).model.equipment[0]?.tests[0]?.needs[0];
    return needs?.states.map(stateWords).join(', ');
};

test.each([
    ['a', 'a'],
    ['o.a', 'o.a'],
    ['not a', 'not a'],
    ['a or b or c', '(a or b or c)'],
    ['a or b and c', '(a or (b and c))'],
    ['(a or b) and c', '((a or b) and c)'],
    ['not (a and b)', 'not (a and b)'],
    ['((a))', 'a'],
])('the guard `%s` is read as %s', (written, words) => {
    expect(guardOf(written)).toBe(words);
});

test.each([
    ['lid open', 'lid = open'],
    ['isolated', 'isolated'],
    ['mains isolated, power flowing', 'mains isolated, power flowing'],
    ['lid open or not (fan on and mains isolated)', '(lid = open or not (fan = on and mains isolated))'],
])('the state `%s` is read as %s', (written, words) => {
    expect(stateOf(written)).toBe(words);
});

test.each([
    ['a or', 'a'],
    ['a and not', 'a'],
    ['', 'all'],
])('what is missing of the half-written guard `%s` is left out', (written, words) => {
    expect(guardOf(written)).toBe(words);
});

test('a state without its value keeps an empty one to be filled in', () => {
    expect(stateOf('lid')).toBe('lid =');
});

test('the place of a guard in brackets has both brackets', () => {
    const text = 'equipment e { part p for (a or b) }';
    const guard = lowerWhole(text).model.equipment[0]?.parts[0]?.guard;
    expect(text.slice(guard?.start, guard?.end)).toBe('(a or b)');
});

test('a guard behind a heading belongs to the whole, one within braces to its clause', () => {
    const text =
        'equipment e { part p for a { location "left" for b  location "right"  fault f rate 1 per 1e6 h for c } }';
    const part = lowerWhole(text).model.equipment[0]?.parts[0];
    expect([
        guardWords(part?.guard),
        ...(part?.locations.map(({ guard }) => guardWords(guard)) ?? []),
        ...(part?.faults.flatMap(({ guard, rates }) => [guard, ...rates.map(rate => rate.guard)]).map(guardWords) ??
            []),
    ]).toEqual(['a', 'b', 'all', 'c', 'all']);
});

test('a zone in a heading holds for all builds', () => {
    const part = lowerWhole('equipment e { part p in z for a { in y for b } }').model.equipment[0]?.parts[0];
    expect(part?.zones.map(({ zone, guard }) => `${zone.text} for ${guardWords(guard)}`)).toEqual([
        'z for all',
        'y for b',
    ]);
});

test('a place in a flow has its own guard and state', () => {
    const text = 'equipment e { flow f: p as q when lid shut for a -> (r for b or s) for (a or b) }';
    const elements = lowerWhole(text).model.equipment[0]?.flows[0]?.chain.elements ?? [];
    const [place, group] = elements;
    if (place?.sort !== 'place' || group?.sort !== 'group') throw new Error('The flow has other elements.');
    expect([place.member.text, place.name.text, stateWords(place.when), guardWords(place.guard)]).toEqual([
        'p',
        'q',
        'lid = shut',
        'a',
    ]);
    expect([group.joins.map(({ text: join }) => join), guardWords(group.guard)]).toEqual([['or'], '(a or b)']);
});
