/** Missing and double branches, and steps without an exit, agree with looking at every build one by one. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { doubleBranches, missingBranches, questionsOf } from '../../language/src/core/questions/branches.js';
import { exitFactsOf } from '../../language/src/core/questions/exits.js';
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

interface SmallBranch {
    /** Empty for `otherwise`. */
    readonly outcomes: readonly string[];
    readonly guard: Guard | undefined;
}

/** A tree of one step with one test, every guard of which may be there or not. */
interface SmallQuestion {
    readonly builds: SmallBuilds;
    readonly test: Guard | undefined;
    readonly tree: Guard | undefined;
    readonly step: Guard | undefined;
    readonly statement: Guard | undefined;
    /** The outcomes; a name may stand several times. */
    readonly outcomes: readonly { readonly name: string; readonly guard: Guard | undefined }[];
    readonly branches: readonly SmallBranch[];
}

const outcomeNames = ['normal', 'low', 'high'];
const runs = { numRuns: 600 };

const smallQuestion: fc.Arbitrary<SmallQuestion> = smallBuilds.chain(builds => {
    const guard = fc.option(guardOver(choicesOf(builds)), { nil: undefined, freq: 2 });
    const seldom = fc.option(guardOver(choicesOf(builds)), { nil: undefined, freq: 2 });
    const names = fc.constantFrom(...outcomeNames);
    return fc.record({
        builds: fc.constant(builds),
        test: seldom,
        tree: seldom,
        step: seldom,
        statement: seldom,
        outcomes: fc.array(fc.record({ name: names, guard }), { minLength: 1, maxLength: 4 }),
        branches: fc.array(fc.record({ outcomes: fc.uniqueArray(names, { maxLength: 2 }), guard }), {
            maxLength: 5,
        }),
    });
});

describe('the branches of a test', () => {
    test('are missing exactly for the outcomes that some build shows and no branch takes there', () => {
        fc.assert(
            fc.property(smallQuestion, question => {
                const { model, placed } = read(question);
                const missing = placed ? missingBranches(placed, model) : [];
                const expected = outcomeNames.filter(name =>
                    buildsAt(question).some(
                        build => shows(question, name, build) && takenBy(question, name, build).length === 0,
                    ),
                );
                expect(missing.map(({ answer }) => answer.name).sort()).toEqual(expected.sort());
                for (const { answer, build } of missing) {
                    const shown = new Set([...build.values()].map(choice => choice.name.text));
                    expect(buildsAt(question)).toContainEqual(shown);
                    expect(takenBy(question, answer.name, shown)).toEqual([]);
                }
            }),
            runs,
        );
    });

    test('clash exactly where some build that shows the outcome has an earlier branch that takes it too', () => {
        fc.assert(
            fc.property(smallQuestion, question => {
                const { model, placed } = read(question);
                const isDeclared = (name: string) => question.outcomes.some(outcome => outcome.name === name);
                const expected = [...outcomeNames, 'otherwise'].flatMap(name =>
                    question.branches.flatMap((branch, index) => {
                        const clashes = buildsAt(question).some(build => {
                            const takers = naming(question, name, build);
                            const isShown = !isDeclared(name) || shows(question, name, build);
                            return isShown && takers.includes(branch) && takers[0] !== branch;
                        });
                        return clashes ? [`${name} ${index}`] : [];
                    }),
                );
                const doubles = placed ? doubleBranches(placed, model) : [];
                const found = doubles.map(({ name, second }) => {
                    return `${name} ${placed?.statement.branches.indexOf(second)}`;
                });
                expect(found.sort()).toEqual(expected.sort());
            }),
            runs,
        );
    });
});

describe('a step', () => {
    test('is without exit exactly where some build that has it has none of its exits', () => {
        const smallStep = smallBuilds.chain(builds => {
            const guard = guardOver(choicesOf(builds));
            const seldom = fc.option(guard, { nil: undefined, freq: 2 });
            return fc.record({
                builds: fc.constant(builds),
                tree: seldom,
                step: seldom,
                exits: fc.array(guard, { minLength: 1, maxLength: 4 }),
            });
        });
        fc.assert(
            fc.property(smallStep, ({ builds, tree, step, exits }) => {
                const gos = exits.map(guard => `    go end${writeFor(guard)}`);
                const text = [
                    writeEquipment(builds),
                    `tree t of machine${writeFor(tree)} {`,
                    `  step s${writeFor(step)} {`,
                    ...gos,
                    '  }',
                    '  refer end because "it ends"',
                    '}',
                ].join('\n');
                const { model } = readTexts({ [onlyFile]: text });
                const file = model.files.get(onlyFile);
                if (!file) throw new Error('There is no file.');
                const expected = enumerateBuilds(builds).some(
                    build => holds(tree, build) && holds(step, build) && !exits.some(exit => holds(exit, build)),
                );
                expect(exitFactsOf(file, model).endless).toHaveLength(expected ? 1 : 0);
            }),
            runs,
        );
    });
});

/** The builds that come to the test and have it. */
function buildsAt({ builds, test: ofTest, tree, step, statement }: SmallQuestion): Build[] {
    return enumerateBuilds(builds).filter(build => [ofTest, tree, step, statement].every(guard => holds(guard, build)));
}

function shows({ outcomes }: SmallQuestion, name: string, build: Build): boolean {
    return outcomes.some(outcome => outcome.name === name && holds(outcome.guard, build));
}

/** The branches of this build that name an outcome, or that say `otherwise`. */
function naming({ branches }: SmallQuestion, name: string, build: Build): SmallBranch[] {
    return branches.filter(({ outcomes, guard }) => {
        const names = name === 'otherwise' ? outcomes.length === 0 : outcomes.includes(name);
        return names && holds(guard, build);
    });
}

/** The branches of this build that an outcome can go: those that name it, else those that say `otherwise`. */
function takenBy(question: SmallQuestion, name: string, build: Build): SmallBranch[] {
    const named = naming(question, name, build);
    return named.length > 0 ? named : naming(question, 'otherwise', build);
}

function read(question: SmallQuestion) {
    const { builds, outcomes, branches } = question;
    const text = [
        writeEquipment(builds, [
            `test look${writeFor(question.test)} {`,
            '  observe by eye',
            ...outcomes.map(({ name, guard }, index) => `  ${name} "answer ${index}"${writeFor(guard)}`),
            '}',
        ]),
        `tree t of machine${writeFor(question.tree)} {`,
        `  step s${writeFor(question.step)} {`,
        `    test look${writeFor(question.statement)} {`,
        ...branches.map(branch => `      ${branch.outcomes.join(', ') || 'otherwise'} -> end${writeFor(branch.guard)}`),
        '    }',
        '  }',
        '  refer end because "it ends"',
        '}',
    ].join('\n');
    const { model } = readTexts({ [onlyFile]: text });
    const file = model.files.get(onlyFile);
    if (!file) throw new Error('There is no file.');
    // A question that is plainly right is not among them.
    return { model, placed: questionsOf(file, model)[0] };
}
