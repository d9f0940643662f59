// Looks for values of the variables with which formulas hold, near the cases that are known, and adds them to the cases.
//
// Only values in which the basis holds count. Of the basis only that is looked at which has to do with the formulas.

import { ClauseSolver, type Literal, type Solved } from './clause-solver.js';
import type { FormulaNodes } from './formula-nodes.js';
import type { Case, Samples } from './samples.js';

export class FormulaSearch {
    private readonly solver = new ClauseSolver();
    /** Formulas that hold at all times, and which of them ask about a variable. */
    private basis: readonly Literal[] = [];
    private readonly basisOf = new Map<number, Literal[]>();
    private readonly placeOf: number[] = [];

    constructor(
        private readonly nodes: FormulaNodes,
        private readonly samples: Samples,
        private readonly mostSteps: number,
    ) {}

    /** From now on these hold at all times. */
    setBasis(literals: readonly Literal[]): void {
        this.basis = literals;
        for (const literal of literals) {
            for (const node of this.nodes.below([literal])) {
                if (this.nodes.isVariable(node)) this.basisOf.set(node, [...this.besides(node), literal]);
            }
        }
    }

    /** Looks for values with which one literal of each clause holds. A clause has one or two literals. */
    find(clauses: readonly (readonly Literal[])[], mostContradictions: number): Solved {
        const { solver, nodes, samples } = this;
        if (solver.steps > this.mostSteps) return 'unknown';
        const below = nodes.below(clauses.flat(), variable => this.besides(variable));
        const near = this.nearby(clauses[0]?.[0] ?? 0);
        this.state(below, node => samples.holdsIn(node, near));
        for (const [first = 0, second] of clauses) {
            solver.add(this.local(first), second === undefined ? undefined : this.local(second));
        }
        const solved = solver.solve(mostContradictions);
        if (solved === 'yes') this.addCase(below, near);
        return solved;
    }

    /** Draws the cases anew, at random among those in which these literals hold; false where none is found. */
    drawCases(literals: readonly Literal[], random: () => boolean, mostContradictions: number): boolean {
        const { nodes, samples, solver } = this;
        const below = nodes.below([...this.basis, ...literals], variable => this.besides(variable));
        // Those that are decided first stand last: the variables, so that they and not the formulas are drawn.
        below.sort((one, other) => Number(nodes.isVariable(one)) - Number(nodes.isVariable(other)) || one - other);
        for (const drawn of samples.drawn()) {
            this.state(below, random);
            for (const literal of literals) solver.add(this.local(literal));
            if (solver.solve(mostContradictions) !== 'yes') return false;
            const found = this.foundIn(below);
            samples.fill(drawn, nodes, node => found.get(node) ?? random());
        }
        return true;
    }

    private besides(variable: number): readonly Literal[] {
        return this.basisOf.get(variable) ?? [];
    }

    /** Begins a search about these nodes, with what the basis says of them. */
    private state(below: readonly number[], prefer: (node: number) => boolean): void {
        const { solver, nodes, placeOf } = this;
        solver.begin(below.length);
        below.forEach((node, place) => {
            placeOf[node] = place;
        });
        const based = new Set<Literal>();
        below.forEach((node, place) => {
            solver.prefer(place, prefer(node));
            if (nodes.isVariable(node)) {
                for (const literal of this.besides(node)) based.add(literal);
                return;
            }
            const [a, b] = [this.local(nodes.left[node] as number), this.local(nodes.right[node] as number)];
            solver.add(2 * place + 1, a);
            solver.add(2 * place + 1, b);
            solver.add(2 * place, a ^ 1, b ^ 1);
        });
        for (const literal of based) solver.add(this.local(literal));
    }

    private local(literal: Literal): Literal {
        return 2 * (this.placeOf[literal >> 1] ?? 0) + (literal & 1);
    }

    /** A case in which the formula or one part of it holds, else any. */
    private nearby(literal: Literal): Case {
        const { nodes, samples } = this;
        const node = literal >> 1;
        const parts = (literal & 1) === 1 || nodes.isVariable(node) ? [] : [nodes.left[node], nodes.right[node]];
        for (const one of [literal, ...parts]) {
            const found = samples.find(one ?? 0);
            if (found) return found;
        }
        return { word: 0, bit: 0 };
    }

    /** Variables that the search has not looked at stay as they are in a case that is near. */
    private addCase(below: readonly number[], near: Case): void {
        const { samples, nodes } = this;
        const found = this.foundIn(below);
        samples.fill(samples.place(), nodes, node => found.get(node) ?? samples.holdsIn(node, near));
    }

    private foundIn(below: readonly number[]): Map<number, boolean> {
        return new Map(below.map((node, place) => [node, this.solver.isTrue(place)]));
    }
}
