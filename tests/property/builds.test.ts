/**
 * The search for a build agrees with trying all combinations, and with a general solver for logic problems:
 * logic-solver, which is MiniSat (Eén and Sörensson, SAT 2003) under another surface.
 */
import { createRequire } from 'node:module';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type ChoiceCondition, evaluate } from '../../language/src/core/builds/evaluate.js';
import { type BuildSearch, buildSpaceOf, findBuild } from '../../language/src/core/builds/find-build.js';
import type { Choice, Option } from '../../language/src/core/model/equipment.js';
import { guardText } from '../../language/src/core/model/guard-words.js';
import { conditionOf } from '../../language/src/core/questions/answers.js';
import { deadChoices, hasBuild } from '../../language/src/core/questions/build-facts.js';
import { guardFactsOf } from '../../language/src/core/questions/guards.js';
import { onlyFile } from '../support/check.js';
import { readTexts } from '../support/read-texts.js';
import {
    type Build,
    choicesOf,
    enumerateBuilds,
    type Guard,
    guardOver,
    holds,
    type SmallBuilds,
    smallBuilds,
    writeEquipment,
    writeFor,
} from '../support/small-builds.js';

const withWanted = smallBuilds.chain(builds =>
    fc.record({ builds: fc.constant(builds), wanted: guardOver(choicesOf(builds)) }),
);
const runs = { numRuns: 600 };

describe('the search for a build', () => {
    test('finds one exactly where trying all combinations does, and it is one of them', () => {
        fc.assert(
            fc.property(withWanted, ({ builds, wanted }) => {
                const possible = enumerateBuilds(builds).filter(build => holds(wanted, build));
                const search = searchFor(builds, wanted);
                expect(search.sort).toBe(possible.length > 0 ? 'found' : 'none');
                if (search.sort === 'found') expect(possible).toContainEqual(toBuild(search));
            }),
            runs,
        );
    });

    test('finds one exactly where a general solver does', () => {
        fc.assert(
            fc.property(withWanted, ({ builds, wanted }) => {
                expect(searchFor(builds, wanted).sort).toBe(solve(builds, wanted) ? 'found' : 'none');
            }),
            // The solver starts anew for each, which takes its time.
            { numRuns: 150 },
        );
    });

    test('agrees with a general solver on many options with many exclusions, where it decides', () => {
        const sorts = new Set<string>();
        for (let seed = 1; seed <= 12; seed++) {
            const builds = makeTangle(26, 110, seed);
            const search = searchFor(builds);
            sorts.add(search.sort);
            expect(search.sort).toBe(solve(builds) ? 'found' : 'none');
        }
        expect([...sorts].sort()).toEqual(['found', 'none']);
    });

    test('gives up on far too many, in good time', { timeout: 5000 }, () => {
        const sorts = Array.from({ length: 5 }, (_, index) => searchFor(makeTangle(150, 639, index + 1)).sort);
        expect(sorts).toContain('undecided');
    });
});

describe('the questions about builds', () => {
    test('find the choices that no build has', () => {
        fc.assert(
            fc.property(smallBuilds, builds => {
                const possible = enumerateBuilds(builds);
                const { model, equipment } = read(builds);
                expect(hasBuild(equipment, model)).toBe(possible.length > 0 ? 'yes' : 'no');
                const alive = builds.options.filter(
                    ({ guard }) => !guard || possible.some(build => holds(guard, build)),
                );
                const expected = alive
                    .flatMap(({ choices }) => choices)
                    .filter(choice => possible.length > 0 && !possible.some(build => build.has(choice)));
                const found = deadChoices(equipment, model).map(({ choice }) => choice.name.text);
                expect(found.sort()).toEqual(expected.sort());
            }),
            runs,
        );
    });

    test('find the guards that hold in no build, and not those within another such guard', () => {
        const nested = smallBuilds.chain(builds => {
            const guard = fc.option(guardOver(choicesOf(builds)), { nil: undefined });
            return fc.record({ builds: fc.constant(builds), part: guard, fault: guard, rate: guard });
        });
        fc.assert(
            fc.property(nested, ({ builds, part, fault, rate }) => {
                const line = `part p${writeFor(part)} { fault f${writeFor(fault)} { rate 1 per 1e6 h${writeFor(rate)} } }`;
                const { model, file } = read(builds, [line]);
                const possible = enumerateBuilds(builds);
                const count = (...guards: readonly (Guard | undefined)[]) =>
                    possible.filter(build => guards.every(guard => holds(guard, build))).length;
                const expected = [
                    ...builds.options.map(({ guard }) => guard !== undefined && count() > 0 && count(guard) === 0),
                    part !== undefined && count() > 0 && count(part) === 0,
                    fault !== undefined && count(part) > 0 && count(part, fault) === 0,
                    rate !== undefined && count(part, fault) > 0 && count(part, fault, rate) === 0,
                ].filter(Boolean).length;
                expect(guardFactsOf(file, model).impossible).toHaveLength(expected);
            }),
            runs,
        );
    });
});

test('a guard that is shown in a message means what was written', () => {
    fc.assert(
        fc.property(withWanted, ({ builds, wanted }) => {
            const written = read(builds, [`part wanted${writeFor(wanted)}`]).equipment.parts[0]?.guard;
            const shown = written ? guardText(written) : '';
            const { model, equipment } = read(builds, [`part wanted for ${shown}`]);
            const guard = equipment.parts[0]?.guard;
            const condition = guard && conditionOf(guard, model, equipment);
            for (const build of enumerateBuilds(builds)) {
                const known = new Map<Option, Choice | 'absent'>();
                for (const option of equipment.options) {
                    known.set(option, option.choices.find(choice => build.has(choice.name.text)) ?? 'absent');
                }
                expect(condition && evaluate(condition, known)).toBe(holds(wanted, build));
            }
        }),
        runs,
    );
});

function read(builds: SmallBuilds, more: readonly string[] = []) {
    const { model, findings } = readTexts({ [onlyFile]: writeEquipment(builds, more) });
    expect(findings).toEqual([]);
    const file = model.files.get(onlyFile);
    const equipment = file?.equipment[0];
    if (!file || !equipment) throw new Error('The text has no equipment.');
    return { model, file, equipment };
}

function searchFor(builds: SmallBuilds, wanted?: Guard): BuildSearch {
    const { model, equipment } = read(builds, wanted ? [`part wanted${writeFor(wanted)}`] : []);
    const space = buildSpaceOf(equipment, reference => model.target(reference));
    const guard = equipment.parts[0]?.guard;
    const conditions: ChoiceCondition[] = [];
    if (guard) {
        const condition = conditionOf(guard, model, equipment);
        if (!condition) throw new Error('The guard has an unknown name.');
        conditions.push(condition);
    }
    return findBuild(space, conditions);
}

function toBuild({ build }: { readonly build: ReadonlyMap<Option, Choice> }): Build {
    return new Set([...build.values()].map(choice => choice.name.text));
}

/** Options of two choices, and exclusions of three choices each, the same for the same seed. */
function makeTangle(optionCount: number, exclusionCount: number, seed: number): SmallBuilds {
    let state = seed;
    // The multiplier and the modulus are those of Lewis, Goodman and Miller (IBM Systems Journal 8, 1969), from memory.
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

/** The little of the solver that is used here. */
interface Solver {
    require(formula: unknown): void;
    solve(): unknown;
}
interface Logic {
    readonly Solver: new () => Solver;
    not(operand: unknown): unknown;
    and(operands: readonly unknown[]): unknown;
    or(operands: readonly unknown[]): unknown;
    equiv(one: unknown, other: unknown): unknown;
    exactlyOne(operands: readonly unknown[]): unknown;
    atMostOne(operands: readonly unknown[]): unknown;
}
const require = createRequire(import.meta.url);
const logic = require('logic-solver') as Logic;

/** Whether the general solver finds a build. */
function solve({ options, exclusions }: SmallBuilds, wanted?: Guard): boolean {
    const solver = new logic.Solver();
    for (const { choices, guard } of options) {
        solver.require(guard ? logic.atMostOne(choices) : logic.exactlyOne(choices));
        if (guard) solver.require(logic.equiv(toFormula(guard), logic.or(choices)));
    }
    for (const terms of exclusions) solver.require(logic.not(logic.and(terms.map(toFormula))));
    if (wanted) solver.require(toFormula(wanted));
    return solver.solve() !== null;
}

function toFormula(guard: Guard): unknown {
    if ('is' in guard) return guard.is;
    if ('not' in guard) return logic.not(toFormula(guard.not));
    return 'all' in guard ? logic.and(guard.all.map(toFormula)) : logic.or(guard.any.map(toFormula));
}
