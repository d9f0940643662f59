/**
 * Who can come to each step and end, who finds no way on, and who is led to what is not there: the walk finds the same as Z3
 * (de Moura and Bjørner, TACAS 2008), as the package z3-solver brings it, when the tree is written as formulas over options.
 */
import fc from 'fast-check';
import { beforeAll, expect, test } from 'vitest';
import { type Bool, type Context, init, type Solver } from 'z3-solver';
import type { Option } from '../../language/src/core/model/equipment.js';
import type { Crowd } from '../../language/src/core/walk/changes.js';
import { noWorlds, type WorldSet } from '../../language/src/core/walk/sets/world-sets.js';
import { isPossible, pickWorld, type WalkSpace } from '../../language/src/core/walk/space.js';
import type { RouteWalk } from '../../language/src/core/walk/walk-route.js';
import {
    choicesOf,
    type Guard,
    guardOver,
    type SmallBuilds,
    smallBuilds,
    writeEquipment,
    writeFor,
} from '../support/small-builds.js';
import { walkOf } from '../support/walk-texts.js';
import { runs } from './runs.js';

/** A way on: by a `go`, by the answer which choice a unit has, or by any other answer. */
interface SmallWay {
    readonly choice: string | undefined;
    readonly guard: Guard | undefined;
    /** The number of a later step, or of an end behind the steps. */
    readonly to: number;
}

interface SmallStep {
    readonly guard: Guard | undefined;
    /** The option that is asked for; undefined where a `go` leads on. */
    readonly asks: string | undefined;
    readonly ways: readonly SmallWay[];
}

/** A tree in which every way leads to a later step or an end. */
interface SmallTree {
    readonly builds: SmallBuilds;
    readonly guard: Guard | undefined;
    readonly steps: readonly SmallStep[];
    readonly ends: readonly (Guard | undefined)[];
}

let z3: Awaited<ReturnType<typeof init>>;
beforeAll(async () => {
    z3 = await init();
});

test('the walk leads to every place just those builds that a general solver finds', { timeout: 120_000 }, async () => {
    // One for all: each takes memory that is not given back before the process ends.
    const z = z3.Context('trees');
    const met = new Map<string, number>();
    await fc.assert(
        fc.asyncProperty(smallTree, async tree => {
            const walk = walkOf(write(tree));
            const solver = solverFor(tree.builds, z);
            for (const { name, formula } of formulasOf(tree, z)) {
                const found = await solve(formula, tree.builds, solver, z);
                const walked = setAt(name, walk);
                const { space } = walk.around;
                expect(isPossible(walked, space), `${name} in\n${write(tree)}`).toBe(found !== undefined);
                if (!found) continue;
                met.set(kindOf(name), (met.get(kindOf(name)) ?? 0) + 1);
                // Each has a unit of its own choice, and the other agrees that it is one.
                expect(space.sets.has(walked, valuesOf(found, space)), name).toBe(true);
                const picked = pickWorld(walked, space)?.build.values() ?? [];
                const chosen = [...picked].map(choice => choice.name.text);
                expect(await solve(formula, tree.builds, solver, z, new Set(chosen)), name).toBeDefined();
            }
        }),
        runs(200),
    );
    for (const kind of ['step', 'end', 'stranded at', 'missing step', 'missing end']) {
        expect(met.get(kind) ?? 0, kind).toBeGreaterThan(10);
    }
});

const smallTree: fc.Arbitrary<SmallTree> = smallBuilds.chain(builds => {
    const guard = guardOver(choicesOf(builds));
    const never = fc.constant(undefined);
    const seldom = fc.oneof({ arbitrary: never, weight: 3 }, { arbitrary: guard, weight: 1 });
    const often = fc.oneof({ arbitrary: never, weight: 1 }, { arbitrary: guard, weight: 2 });
    const stepOf = (number: number, last: number): fc.Arbitrary<SmallStep> => {
        const to = fc.integer({ min: number + 1, max: last });
        const going = fc.record({ choice: never, guard: often, to });
        const goingSome = fc.record({ choice: never, guard, to });
        const goes = fc
            .tuple(fc.array(goingSome, { maxLength: 2 }), going)
            .map(([some, last]) => ({ asks: undefined, ways: [...some, last] }));
        const asks = fc.constantFrom(...builds.options).chain(({ name, choices }) => {
            const branch = fc.record({ choice: fc.constantFrom(...choices), guard: seldom, to });
            const otherwise = fc.array(going, { maxLength: 1 });
            return fc
                .tuple(fc.uniqueArray(branch, { selector: one => one.choice, minLength: 1 }), otherwise)
                .map(([branches, others]) => ({ asks: name, ways: [...branches, ...others] }));
        });
        return fc.tuple(seldom, fc.oneof(goes, asks)).map(([own, rest]) => ({ guard: own, ...rest }));
    };
    return fc.integer({ min: 1, max: 8 }).chain(count =>
        fc.record({
            builds: fc.constant(builds),
            guard: seldom,
            steps: fc.tuple(...Array.from({ length: count }, (_, number) => stepOf(number, count + 1))),
            ends: fc.tuple(seldom, seldom),
        }),
    );
});

function write({ builds, guard, steps, ends }: SmallTree): string {
    const target = (to: number) => (to < steps.length ? `step-${to}` : `end-${to - steps.length}`);
    const plates = builds.options.map(({ name }) => `test plate-${name} { identify ${name} by eye }`);
    return [
        writeEquipment(builds, plates),
        `tree t of machine${writeFor(guard)} {`,
        ...steps.flatMap((step, number) => [
            `  step step-${number}${writeFor(step.guard)} {`,
            ...(step.asks === undefined ? [] : [`    test plate-${step.asks} {`]),
            ...step.ways.map(way => {
                const word = step.asks === undefined ? 'go' : `${way.choice ?? 'otherwise'} ->`;
                return `      ${word} ${target(way.to)}${writeFor(way.guard)}`;
            }),
            ...(step.asks === undefined ? [] : ['    }']),
            '  }',
        ]),
        ...ends.map((end, number) => `  refer end-${number} because "it ends"${writeFor(end)}`),
        '}',
    ].join('\n');
}

type Formula = Bool<'trees'>;

interface Placed {
    /** `step 3`, `stranded at 3`, `missing step 3`, `end 0`, `missing end 0`. */
    readonly name: string;
    /** The builds that come there. */
    readonly formula: Formula;
}

/** Who comes where: each step is reached by those who take a way to it and whose build has it. */
function formulasOf({ guard, steps, ends }: SmallTree, z: Context<'trees'>): Placed[] {
    const arriving: Formula[] = [...steps, ...ends].map(() => z.Bool.val(false));
    arriving[0] = toFormula(guard, z);
    const placed: Placed[] = [];
    [...steps.map(step => step.guard), ...ends].forEach((own, number) => {
        const isStep = number < steps.length;
        const name = isStep ? `step ${number}` : `end ${number - steps.length}`;
        const coming = arriving[number] ?? z.Bool.val(false);
        const exists = toFormula(own, z);
        const here = z.And(coming, exists);
        placed.push({ name, formula: here }, { name: `missing ${name}`, formula: z.And(coming, z.Not(exists)) });
        let left: Formula = here;
        for (const way of steps[number]?.ways ?? []) {
            const isChosen = way.choice === undefined ? z.Bool.val(true) : z.Bool.const(way.choice);
            const taking = z.And(left, isChosen, toFormula(way.guard, z));
            arriving[way.to] = z.Or(arriving[way.to] ?? z.Bool.val(false), taking);
            left = z.And(left, z.Not(taking));
        }
        if (isStep) placed.push({ name: `stranded at ${number}`, formula: left });
    });
    return placed;
}

function toFormula(guard: Guard | undefined, z: Context<'trees'>): Formula {
    if (!guard) return z.Bool.val(true);
    if ('is' in guard) return z.Bool.const(guard.is);
    if ('not' in guard) return z.Not(toFormula(guard.not, z));
    if ('all' in guard) return z.And(...guard.all.map(one => toFormula(one, z)));
    return z.Or(...guard.any.map(one => toFormula(one, z)));
}

/** A solver that knows which builds are made. */
function solverFor({ options, exclusions }: SmallBuilds, z: Context<'trees'>): Solver<'trees'> {
    const solver = new z.Solver();
    for (const { choices, guard } of options) {
        const variables = choices.map(choice => z.Bool.const(choice));
        const [first, ...others] = variables;
        if (first) solver.add(z.AtMost([first, ...others], 1));
        solver.add(z.Or(...variables).eq(toFormula(guard, z)));
    }
    for (const terms of exclusions) solver.add(z.Not(z.And(...terms.map(term => toFormula(term, z)))));
    return solver;
}

/** The choices of a build that is made and fulfills a formula: of any, or of the one with just these choices. */
async function solve(
    formula: Formula,
    builds: SmallBuilds,
    solver: Solver<'trees'>,
    z: Context<'trees'>,
    wanted?: ReadonlySet<string>,
): Promise<ReadonlySet<string> | undefined> {
    solver.push();
    solver.add(formula);
    for (const choice of wanted ? choicesOf(builds) : []) {
        solver.add(z.Bool.const(choice).eq(z.Bool.val(wanted?.has(choice) ?? false)));
    }
    const isFound = (await solver.check()) === 'sat';
    const model = isFound ? solver.model() : undefined;
    const chosen = choicesOf(builds).filter(choice => model && z.isTrue(model.eval(z.Bool.const(choice), true)));
    solver.pop();
    return isFound ? new Set(chosen) : undefined;
}

function kindOf(name: string): string {
    return name.replace(/ \d+$/, '');
}

/** Who comes to a place in the walk. */
function setAt(name: string, walk: RouteWalk): WorldSet {
    const { sets } = walk.around.space;
    const number = Number(/\d+$/.exec(name)?.[0]);
    const all = (list: Iterable<WorldSet>) => [...list].reduce((any, set) => sets.or(any, set), noWorlds);
    const meetings = (fits: (meeting: RouteWalk['meetings'][number]) => boolean) =>
        all(walk.meetings.filter(fits).map(({ set }: Crowd) => set));
    switch (kindOf(name)) {
        case 'step':
            return all(walk.stations[number]?.values() ?? []);
        case 'end':
            return all(walk.ends[number]?.values() ?? []);
        case 'stranded at':
            return meetings(({ sort, station }) => sort === 'stranded' && station === number);
        case 'missing step':
            return meetings(({ sort, station, end }) => sort === 'missing' && end === undefined && station === number);
        default:
            return meetings(({ sort, end }) => sort === 'missing' && end === number);
    }
}

/** The values of all variables in a build, as a unit is found. */
function valuesOf(choices: ReadonlySet<string>, { sets, variables }: WalkSpace): number[] {
    const values = sets.sizes.map(() => 0);
    for (const [option, variable] of variables.options) values[variable] = valueOf(option, choices);
    return values;
}

/** The number of the choice; behind the last one where the build lacks the option. */
function valueOf({ choices }: Option, chosen: ReadonlySet<string>): number {
    const index = choices.findIndex(({ name }) => chosen.has(name.text));
    return index < 0 ? choices.length : index;
}
