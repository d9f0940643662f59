/**
 * Sets of worlds agree with lists of worlds spelled out, in every operation, and with a general solver for logic problems
 * in what they count.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { allWorlds, noWorlds, type WorldSet, WorldSets } from '../../language/src/core/walk/sets/world-sets.js';
import { logic, type LogicFormula } from '../support/logic-solver.js';
import { runs } from './runs.js';

/** How a set is made; the same is done with diagrams, with lists of worlds, and partly with the solver. */
type Formula =
    | { readonly sort: 'oneOf'; readonly variable: number; readonly values: readonly number[] }
    | { readonly sort: 'and' | 'or' | 'without'; readonly one: Formula; readonly other: Formula }
    | { readonly sort: 'not'; readonly one: Formula }
    | { readonly sort: 'forget'; readonly one: Formula; readonly variables: readonly number[] }
    | {
          readonly sort: 'assign' | 'given';
          readonly one: Formula;
          readonly variable: number;
          readonly value: number;
      };

interface Case {
    readonly sizes: readonly number[];
    readonly formulas: readonly Formula[];
}

describe('a set of worlds', () => {
    test('has exactly the worlds that a list has, whatever was done with both', () => {
        fc.assert(
            fc.property(cases(1, 'all'), ({ sizes, formulas }) => {
                const sets = new WorldSets(sizes);
                const set = build(sets, formulas[0]);
                const list = twin(sizes, formulas[0]);
                expect(listOf(sets, set)).toEqual(spellOut(sizes).filter(world => list.has(world)));
                expect(sets.count(set)).toBe(BigInt(list.size));
                expect(sets.pick(set)?.toString()).toBe(spellOut(sizes).find(world => list.has(world)));
                for (const world of spellOut(sizes)) expect(sets.has(set, read(world))).toBe(list.has(world));
                expect(sets.variablesOf(set)).toEqual(variablesThatMatter(sizes, list));
            }),
            runs(1500),
        );
    });

    test('has the same number as another exactly if both have the same worlds', () => {
        fc.assert(
            fc.property(cases(2, 'all'), ({ sizes, formulas: [one, other] }) => {
                const sets = new WorldSets(sizes);
                const [list, otherList] = [twin(sizes, one), twin(sizes, other)];
                const set = build(sets, one);
                expect(set === build(sets, other)).toBe([...list].sort().join() === [...otherList].sort().join());
                // World by world it becomes the same.
                const spelled = [...list].map(world =>
                    read(world).reduce((all, value, variable) => sets.and(all, sets.is(variable, value)), allWorlds),
                );
                expect(spelled.reduce((all, world) => sets.or(all, world), noWorlds)).toBe(set);
            }),
            runs(600),
        );
    });

    test('weighs the sum of what its worlds weigh', () => {
        const weighed = cases(1, 'all').chain(given =>
            fc.tuple(
                fc.constant(given),
                fc.tuple(...given.sizes.map(size => fc.array(weight, { minLength: size, maxLength: size }))),
            ),
        );
        fc.assert(
            fc.property(weighed, ([{ sizes, formulas }, weights]) => {
                const sets = new WorldSets(sizes);
                const expected = [...twin(sizes, formulas[0])]
                    .map(world => read(world).reduce((all, value, index) => all * (weights[index]?.[value] ?? 0), 1))
                    .reduce((sum, each) => sum + each, 0);
                const found = sets.weigh(build(sets, formulas[0]), weights);
                expect(Math.abs(found - expected)).toBeLessThanOrEqual(1e-12 * expected);
            }),
            runs(600),
        );
    });

    test('meets others exactly where their lists have a world in common, and the first such world is found', () => {
        fc.assert(
            fc.property(
                fc.integer({ min: 0, max: 5 }).chain(count => cases(count, 'all')),
                ({ sizes, formulas }) => {
                    const sets = new WorldSets(sizes);
                    const lists = formulas.map(formula => twin(sizes, formula));
                    const made = formulas.map(formula => build(sets, formula));
                    const before = sets.nodeCount;
                    const common = spellOut(sizes).find(world => lists.every(list => list.has(world)));
                    expect(sets.allMeet(made)).toBe(common !== undefined);
                    expect(sets.pickInAll(made)?.toString()).toBe(common);
                    for (const [index, list] of lists.entries()) {
                        const meets = [...list].some(world => lists[0]?.has(world));
                        expect(sets.meets(made[0] ?? noWorlds, made[index] ?? noWorlds)).toBe(meets);
                    }
                    expect(sets.nodeCount).toBe(before);
                },
            ),
            runs(1000),
        );
    });

    test('has its worlds also after other operations broke the budget', () => {
        const step = fc.record({ sort: fc.constantFrom('and', 'or', 'without'), one: fc.nat(99), other: fc.nat(99) });
        const attempts = fc.record({
            sizes: fc.constantFrom([2, 2, 2, 2, 2, 2], [3, 2, 3, 2], [2, 4, 2, 3]),
            mostNodes: fc.integer({ min: 12, max: 40 }),
            steps: fc.array(step, { minLength: 20, maxLength: 60 }),
        });
        let broken = 0;
        fc.assert(
            fc.property(attempts, ({ sizes, mostNodes, steps }) => {
                const sets = new WorldSets(sizes, { mostNodes });
                const made: Made[] = sizes.flatMap((size, variable) =>
                    valuesBelow(size).map(value => makeBoth(sets, { sort: 'oneOf', variable, values: [value] })),
                );
                for (const { sort, one, other } of steps) {
                    // What came later is taken more often, so that the sets get larger.
                    const [a, b] = [made.at(-1 - (one % Math.min(one + 1, made.length))), made[other % made.length]];
                    if (!a || !b) continue;
                    try {
                        made.push({ set: sets[sort](a.set, b.set), list: combine(sort, a.list, b.list) });
                    } catch (error) {
                        expect(error).toHaveProperty('name', 'TooManyNodes');
                        broken++;
                    }
                    expect(sets.nodeCount).toBeLessThanOrEqual(mostNodes);
                }
                for (const { set, list } of made) expect(listOf(sets, set)).toEqual([...list].sort(inOrderOf(sizes)));
            }),
            runs(600),
        );
        expect(broken).toBeGreaterThan(1000);
    });
});

test('a general solver finds as many worlds', () => {
    fc.assert(
        fc.property(cases(2, 'plain'), ({ sizes, formulas }) => {
            const sets = new WorldSets(sizes);
            const made = formulas.map(formula => build(sets, formula));
            const solver = new logic.Solver();
            for (const [variable, size] of sizes.entries()) {
                solver.require(logic.exactlyOne(valuesBelow(size).map(value => `${variable}=${value}`)));
            }
            for (const formula of formulas) solver.require(toLogic(formula));
            let solutions = 0;
            for (let solution = solver.solve(); solution; solution = solver.solve()) {
                if (solutions === 0) expect(sets.allMeet(made)).toBe(true);
                solutions++;
                solver.forbid(solution.getFormula());
            }
            expect(sets.allMeet(made)).toBe(solutions > 0);
            expect(sets.count(made.reduce((all, set) => sets.and(all, set), allWorlds))).toBe(BigInt(solutions));
        }),
        // The solver starts anew for each, which takes its time.
        runs(150),
    );
});

interface Made {
    readonly set: WorldSet;
    readonly list: ReadonlySet<string>;
}

const weight = fc.oneof(fc.constantFrom(0, 1, 0.5, 3), fc.double({ min: 1e-9, max: 10, noNaN: true }));

/** Small variables and formulas over them; plain ones are those that every logic knows. */
function cases(formulaCount: number, kind: 'plain' | 'all'): fc.Arbitrary<Case> {
    return fc.array(fc.constantFrom(1, 2, 2, 2, 3, 4), { minLength: 1, maxLength: 5 }).chain(sizes =>
        fc.record({
            sizes: fc.constant(sizes),
            formulas: fc.array(formulaOver(sizes, kind), { minLength: formulaCount, maxLength: formulaCount }),
        }),
    );
}

function formulaOver(sizes: readonly number[], kind: 'plain' | 'all'): fc.Arbitrary<Formula> {
    const variable = fc.nat(sizes.length - 1);
    const place = variable.chain(of => fc.record({ variable: fc.constant(of), value: fc.nat((sizes[of] ?? 1) - 1) }));
    const leaf = variable.chain(of =>
        fc.record({
            sort: fc.constant('oneOf' as const),
            variable: fc.constant(of),
            values: fc.subarray(valuesBelow(sizes[of] ?? 1)),
        }),
    );
    return fc.letrec<{ formula: Formula }>(tie => {
        const one = tie('formula');
        const pair = fc.record({ sort: fc.constantFrom('and', 'or', 'without'), one, other: one });
        const not = fc.record({ sort: fc.constant('not' as const), one });
        const forget = fc.record({
            sort: fc.constant('forget' as const),
            one,
            variables: fc.array(variable, { maxLength: 3 }),
        });
        const change = fc
            .tuple(fc.constantFrom('assign' as const, 'given' as const), one, place)
            .map(([sort, of, at]): Formula => ({ sort, one: of, ...at }));
        const more = kind === 'plain' ? [pair, pair, not] : [pair, pair, pair, not, forget, change];
        return { formula: fc.oneof({ maxDepth: 5, depthSize: 'medium' }, leaf, ...more) };
    }).formula;
}

function build(sets: WorldSets, formula: Formula | undefined): WorldSet {
    if (!formula) throw new Error('There is no such formula.');
    switch (formula.sort) {
        case 'oneOf': {
            const [first, ...more] = formula.values;
            return first === undefined || more.length > 0
                ? sets.oneOf(formula.variable, formula.values)
                : sets.is(formula.variable, first);
        }
        case 'and':
        case 'or':
        case 'without':
            return sets[formula.sort](build(sets, formula.one), build(sets, formula.other));
        case 'not':
            return sets.not(build(sets, formula.one));
        case 'forget':
            return sets.forget(build(sets, formula.one), formula.variables);
        case 'assign':
        case 'given':
            return sets[formula.sort](build(sets, formula.one), formula.variable, formula.value);
    }
}

/** The worlds of a formula as they are written: the values with commas between them. */
function twin(sizes: readonly number[], formula: Formula | undefined): Set<string> {
    if (!formula) throw new Error('There is no such formula.');
    const every = spellOut(sizes);
    if (formula.sort === 'oneOf') {
        return new Set(every.filter(world => formula.values.includes(read(world)[formula.variable] ?? -1)));
    }
    const one = twin(sizes, formula.one);
    switch (formula.sort) {
        case 'and':
        case 'or':
        case 'without':
            return combine(formula.sort, one, twin(sizes, formula.other));
        case 'not':
            return new Set(every.filter(world => !one.has(world)));
        case 'forget': {
            const blank = (world: string) =>
                read(world)
                    .map((value, variable) => (formula.variables.includes(variable) ? '?' : value))
                    .join();
            const known = new Set([...one].map(blank));
            return new Set(every.filter(world => known.has(blank(world))));
        }
        case 'assign':
            return new Set([...one].map(world => read(world).with(formula.variable, formula.value).join()));
        case 'given':
            return new Set(every.filter(world => one.has(read(world).with(formula.variable, formula.value).join())));
    }
}

function combine(sort: 'and' | 'or' | 'without', one: ReadonlySet<string>, other: ReadonlySet<string>): Set<string> {
    if (sort === 'or') return new Set([...one, ...other]);
    return new Set([...one].filter(world => other.has(world) === (sort === 'and')));
}

function makeBoth(sets: WorldSets, formula: Formula): Made {
    return { set: build(sets, formula), list: twin(sets.sizes, formula) };
}

function listOf(sets: WorldSets, set: WorldSet): string[] {
    return [...sets.worlds(set)].map(String);
}

function toLogic(formula: Formula): LogicFormula {
    switch (formula.sort) {
        case 'oneOf':
            return logic.or(formula.values.map(value => `${formula.variable}=${value}`));
        case 'and':
            return logic.and([toLogic(formula.one), toLogic(formula.other)]);
        case 'or':
            return logic.or([toLogic(formula.one), toLogic(formula.other)]);
        case 'without':
            return logic.and([toLogic(formula.one), logic.not(toLogic(formula.other))]);
        case 'not':
            return logic.not(toLogic(formula.one));
        default:
            throw new Error(`The solver knows nothing of ${formula.sort}.`);
    }
}

/** The variables that decide, in some world, whether it is in the list. */
function variablesThatMatter(sizes: readonly number[], list: ReadonlySet<string>): number[] {
    return [...sizes.keys()].filter(variable =>
        spellOut(sizes).some(world =>
            valuesBelow(sizes[variable] ?? 1).some(
                value => list.has(world) !== list.has(read(world).with(variable, value).join()),
            ),
        ),
    );
}

/** Every world, in the order of variables and values. */
function spellOut(sizes: readonly number[]): string[] {
    return sizes
        .reduce<number[][]>(
            (worlds, size) => worlds.flatMap(world => valuesBelow(size).map(value => [...world, value])),
            [[]],
        )
        .map(String);
}

function inOrderOf(sizes: readonly number[]): (one: string, other: string) => number {
    const every = spellOut(sizes);
    return (one, other) => every.indexOf(one) - every.indexOf(other);
}

function read(world: string): number[] {
    return world.split(',').map(Number);
}

function valuesBelow(count: number): number[] {
    return Array.from({ length: count }, (_, value) => value);
}
