/** Sets held as formulas have the same worlds as sets held as diagrams, whatever was done with both. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { VariableKind } from '../../language/src/core/walk/formulas/variables.js';
import { allWorlds, noWorlds, type WorldSet, WorldSets } from '../../language/src/core/walk/sets/world-sets.js';
import { FormulaSets } from '../../language/src/core/walk/without-diagrams.js';
import { runs } from './runs.js';

const limits = { mostNodes: 100_000, mostSteps: 10_000_000 };

/** One thing that is done with sets made before; numbers are taken as often as fits. */
interface Step {
    readonly sort: 'is' | 'and' | 'or' | 'without' | 'not' | 'forget' | 'assign' | 'given';
    readonly one: number;
    readonly other: number;
    readonly variable: number;
    readonly value: number;
}

interface Case {
    readonly sizes: readonly number[];
    readonly kinds: readonly VariableKind[];
    readonly steps: readonly Step[];
}

const step: fc.Arbitrary<Step> = fc.record({
    sort: fc.constantFrom('is', 'and', 'and', 'or', 'or', 'without', 'not', 'forget', 'assign', 'assign', 'given'),
    one: fc.nat(99),
    other: fc.nat(99),
    variable: fc.nat(99),
    value: fc.nat(99),
});

const kind = fc.constantFrom<VariableKind>('build', 'build', 'state', 'state', 'draw');

const cases: fc.Arbitrary<Case> = fc
    .constantFrom([2, 2, 2], [2, 3, 2, 2], [4, 2, 3], [1, 2, 5, 2], [2, 2, 2, 2, 2])
    .chain(sizes =>
        fc.record({
            sizes: fc.constant(sizes),
            kinds: fc.tuple(...sizes.map(() => kind)),
            steps: fc.array(step, { minLength: 1, maxLength: 30 }),
        }),
    );

describe('a set held as a formula', () => {
    test('has the worlds that it has as a diagram', () => {
        fc.assert(
            fc.property(cases, given => {
                for (const { sets, diagram, formulas, formula } of make(given)) {
                    const worlds = [...sets.worlds(diagram)];
                    expect([...formulas.worlds(formula)]).toEqual(worlds);
                    expect(formula === noWorlds).toBe(worlds.length === 0);
                    expect(formulas.count(formula)).toBe(BigInt(worlds.length));
                    expect(formulas.pick(formula)).toEqual(worlds[0]);
                    expect(formulas.openCount).toBe(0);
                }
            }),
            runs(1500),
        );
    });

    test('meets others exactly where the diagrams do, whatever cases are tried out', () => {
        fc.assert(
            fc.property(cases, fc.nat(99), fc.nat(99), (given, one, other) => {
                const all = make(given);
                const first = all[one % all.length];
                const second = all[other % all.length];
                if (!first || !second) return;
                const { sets, formulas } = first;
                const begun = formulas.begin([first.formula]);
                expect(begun === undefined).toBe(first.diagram === noWorlds);
                const meet = sets.meets(first.diagram, second.diagram);
                expect(formulas.meets(first.formula, second.formula)).toBe(meet);
                if (begun !== undefined) expect(formulas.meets(second.formula, begun)).toBe(meet);
                const three = all.slice(0, 3);
                expect(formulas.allMeet(three.map(({ formula }) => formula))).toBe(
                    sets.allMeet(three.map(({ diagram }) => diagram)),
                );
                expect(formulas.pickInAll([second.formula, first.formula])).toEqual(
                    sets.pickInAll([second.diagram, first.diagram]),
                );
            }),
            runs(800),
        );
    });

    test('asks about all that it depends on, and names what its first world has for it to lie there', () => {
        fc.assert(
            fc.property(cases, given => {
                for (const { sets, diagram, formulas, formula } of make(given)) {
                    const asked = formulas.variablesOf(formula);
                    for (const variable of sets.variablesOf(diagram)) expect(asked).toContain(variable);
                    const world = sets.pick(diagram);
                    if (!world) continue;
                    // Whatever the others are, these are enough.
                    const enough = formulas
                        .variablesOfFirst(formula)
                        .reduce((all, variable) => sets.and(all, sets.is(variable, world[variable] ?? 0)), allWorlds);
                    expect(sets.without(enough, diagram)).toBe(noWorlds);
                }
            }),
            runs(600),
        );
    });

    test('is kept where no proof may be made that it is empty, and that is counted', () => {
        const sets = new FormulaSets([2, 2, 2], ['build', 'build', 'build'], { ...limits, mostSteps: -1 });
        const [a, b, c] = [0, 1, 2].map(variable => sets.is(variable, 1));
        if (a === undefined || b === undefined || c === undefined) throw new Error('There are three variables.');
        const tangled = [sets.or(a, b), sets.or(sets.not(a), c), sets.or(sets.not(b), c), sets.not(c)];
        expect(tangled.reduce((all, one) => sets.and(all, one))).not.toBe(noWorlds);
        expect(sets.openCount).toBe(1);
    });
});

/** Every set of a case, as a diagram and as a formula. */
function make({ sizes, kinds, steps }: Case) {
    const sets = new WorldSets(sizes);
    const formulas = new FormulaSets(sizes, kinds, limits);
    const diagrams: WorldSet[] = [noWorlds, allWorlds];
    const made: WorldSet[] = [noWorlds, allWorlds];
    for (const one of steps) {
        diagrams.push(apply(sets, diagrams, one));
        made.push(apply(formulas, made, one));
    }
    return diagrams.map((diagram, index) => ({ sets, diagram, formulas, formula: made[index] ?? noWorlds }));
}

function apply(
    sets: WorldSets | FormulaSets,
    made: readonly WorldSet[],
    { sort, one, other, variable, value }: Step,
): WorldSet {
    // What came later is taken more often, so that the sets get larger.
    const first = made.at(-1 - (one % Math.min(one + 1, made.length))) ?? noWorlds;
    const second = made[other % made.length] ?? noWorlds;
    const number = variable % sets.sizes.length;
    const size = sets.sizes[number] ?? 1;
    switch (sort) {
        case 'is':
            return sets.is(number, value % size);
        case 'and':
        case 'or':
        case 'without':
            return sets[sort](first, second);
        case 'not':
            return sets.not(first);
        case 'forget':
            return sets.forget(first, [number, other % sets.sizes.length]);
        case 'assign':
        case 'given':
            return sets[sort](first, number, value % size);
    }
}
