/** The search for values agrees with a general solver; that is logic-solver, which is MiniSat (Eén and Sörensson, SAT 2003). */
import { describe, expect, test } from 'vitest';
import { ClauseSolver, type Literal } from '../../../../language/src/core/walk/formulas/clause-solver.js';
import { logic } from '../../../support/logic-solver.js';

type Clause = readonly [Literal, Literal | undefined, Literal | undefined];

describe('the search for values', () => {
    test('finds some exactly where a general solver does, one search after the other', () => {
        const random = makeRandom(1);
        const solver = new ClauseSolver();
        const counts = { yes: 0, no: 0, unknown: 0 };
        for (let round = 0; round < 1500; round += 1) {
            const variables = 3 + random(40);
            const clauses = makeClauses(variables, Math.floor(variables * (2 + random(30) / 10)), random);
            const solved = solve(solver, variables, clauses, 100_000);
            counts[solved] += 1;
            expect(solved, `round ${round}`).toBe(isSatisfiable(clauses) ? 'yes' : 'no');
            if (solved === 'yes') {
                for (const clause of clauses) expect(clause.some(literal => holds(solver, literal))).toBe(true);
            }
        }
        expect(counts.yes).toBeGreaterThan(150);
        expect(counts.no).toBeGreaterThan(300);
    });

    test('agrees with the general solver where clauses are as hard as they get', () => {
        const random = makeRandom(2);
        const solver = new ClauseSolver();
        for (let round = 0; round < 12; round += 1) {
            // With 4.26 clauses of three literals a variable it is hardest to tell: Mitchell, Selman and Levesque (AAAI 1992), from memory.
            const clauses = Array.from({ length: 426 }, () => makeClause(100, 3, random));
            expect(solve(solver, 100, clauses, 1_000_000)).toBe(isSatisfiable(clauses) ? 'yes' : 'no');
        }
    });

    test('tries the value first that is preferred', () => {
        const solver = new ClauseSolver();
        solver.begin(4);
        for (const [variable, value] of [true, false, true, false].entries()) solver.prefer(variable, value);
        solver.add(0, 2);
        expect(solver.solve(10)).toBe('yes');
        expect([0, 1, 2, 3].map(variable => solver.isTrue(variable))).toEqual([true, false, true, false]);
    });

    test('gives up after as many contradictions as it is allowed', () => {
        const random = makeRandom(3);
        const clauses = Array.from({ length: 426 }, () => makeClause(100, 3, random));
        expect(solve(new ClauseSolver(), 100, clauses, 3)).toBe('unknown');
    });

    test('sees at once that a literal and its opposite cannot both hold', () => {
        expect(
            solve(
                new ClauseSolver(),
                1,
                [
                    [0, undefined, undefined],
                    [1, undefined, undefined],
                ],
                0,
            ),
        ).toBe('no');
    });
});

function solve(solver: ClauseSolver, variables: number, clauses: readonly Clause[], most: number) {
    solver.begin(variables);
    for (const clause of clauses) solver.add(...clause);
    return solver.solve(most);
}

function holds(solver: ClauseSolver, literal: Literal | undefined): boolean {
    return literal !== undefined && solver.isTrue(literal >> 1) === ((literal & 1) === 0);
}

function isSatisfiable(clauses: readonly Clause[]): boolean {
    const solver = new logic.Solver();
    const named = (literal: Literal) => `${(literal & 1) === 1 ? '-' : ''}v${literal >> 1}`;
    for (const clause of clauses) solver.require(logic.or(clause.filter(literal => literal !== undefined).map(named)));
    return solver.solve() !== null;
}

type Random = (below: number) => number;

function makeRandom(seed: number): Random {
    let state = seed;
    return below => {
        state = (Math.imul(state, 1_103_515_245) + 12_345) & 0x7fff_ffff;
        return (state >>> 8) % below;
    };
}

function makeClauses(variables: number, count: number, random: Random): Clause[] {
    return Array.from({ length: count }, () => makeClause(variables, [1, 2, 3, 3, 3, 3, 2, 3][random(8)] ?? 3, random));
}

function makeClause(variables: number, length: number, random: Random): Clause {
    const named = new Set<number>();
    while (named.size < length) named.add(random(variables));
    const [first = 0, second, third] = [...named].map(variable => 2 * variable + random(2));
    return [first, second, third];
}
