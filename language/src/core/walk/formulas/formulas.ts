// Formulas over variables that are true or false, each kept once as far as that is seen at little cost.
//
// Every formula is a variable or the joint of two literals: formulas or the opposite of such (an and-inverter graph). What is
// alike in all cases that are tried out is proved to be alike, or a case is found in which it differs (Mishchenko,
// Chatterjee, Jiang and Brayton, "FRAIGs", Berkeley 2005). So a formula that never holds is known to be none as soon as it
// is made. All this counts only those values of the variables with which the basis holds.

import type { Literal } from './clause-solver.js';
import { FormulaNodes } from './formula-nodes.js';
import { FormulaSearch } from './formula-search.js';
import { JoinTable } from './join-table.js';
import { Samples } from './samples.js';

export type { Literal } from './clause-solver.js';

export const never: Literal = 0;
export const always: Literal = 1;

export interface FormulaLimits {
    /** How many formulas there may be. */
    readonly mostNodes: number;
    /** How much all proofs may do together; what is asked beyond it stays open. */
    readonly mostSteps: number;
}

/** A proof that something never holds is given up after so many contradictions; one that two are alike, much earlier. */
const contradictionsOfNever = 20_000;
const contradictionsOfAlike = 5_000;

/** Of the formulas that are alike in all cases so many are looked at more closely. */
const mostTries = 3;

export class Formulas {
    readonly nodes: FormulaNodes;
    /** How often it stayed open whether a formula ever holds; such a one is kept as if it did. */
    openCount = 0;
    private readonly samples = new Samples();
    private readonly search: FormulaSearch;
    /** What two literals have been joined to. */
    private readonly joined = new JoinTable();
    /** Formulas that may be alike: a chain for each key. */
    private readonly firstAlike = new Map<number, number>();
    private readonly nextAlike: number[] = [];
    private readonly entered: number[] = [];
    private seed = 1;
    private isLimited = false;
    /** Whether two formulas that no case has together ever hold together. */
    private readonly meeting = new Map<number, boolean>();

    constructor({ mostNodes, mostSteps }: FormulaLimits) {
        this.nodes = new FormulaNodes(mostNodes);
        this.search = new FormulaSearch(this.nodes, this.samples, mostSteps);
    }

    /** A new variable, of one of the kinds 1, 2, 4, … All are to be made before any formula is. */
    variable(kind: number): Literal {
        const node = this.nodes.add(-1, -1, kind);
        this.samples.fit(node);
        return 2 * node;
    }

    /**
     * Lets only those values count with which all these hold. To be called once, before any formula is made that is used for
     * something else.
     */
    limitTo(basis: readonly Literal[]): void {
        this.search.setBasis(basis);
        this.drawFrom([]);
        this.isLimited = true;
        this.joined.clear();
        for (let node = 1; node < this.nodes.count; node += 1) if (this.nodes.isVariable(node)) this.enterAlike(node);
    }

    /** Tries formulas out in cases in which these hold, from now on; false where no such cases are found. */
    drawFrom(literals: readonly Literal[]): boolean {
        const asked = literals.filter(literal => literal !== always);
        if (asked.includes(never)) return false;
        if (!this.search.drawCases(asked, () => this.random(), contradictionsOfNever)) return false;
        this.enterAllAgain();
        return true;
    }

    /** The joint of some formulas, without a look at what it may be alike. Joints of many that hardly ever hold take long else. */
    joinPlainly(literals: readonly Literal[]): Literal {
        const { nodes, samples } = this;
        return literals.reduce((all, literal) => {
            if (all === always || literal === never) return literal;
            if (literal === always || all === never) return all;
            const node = nodes.add(
                all,
                literal,
                (nodes.kinds[all >> 1] as number) | (nodes.kinds[literal >> 1] as number),
            );
            samples.fit(node);
            samples.join(node, all, literal);
            return 2 * node;
        }, always);
    }

    /** Whether two formulas ever hold together; makes none. Where that stays open, it is counted and they may. */
    meet(one: Literal, other: Literal): boolean {
        if (this.samples.find(one, other)) return true;
        const key = Math.min(one, other) * 2 ** 26 + Math.max(one, other);
        let meet = this.meeting.get(key);
        if (meet === undefined) {
            const found = this.search.find([[one], [other]], contradictionsOfNever);
            if (found === 'unknown') this.openCount += 1;
            meet = found !== 'no';
            this.meeting.set(key, meet);
        }
        return meet;
    }

    private random(): boolean {
        this.seed = (Math.imul(this.seed, 1_103_515_245) + 12_345) | 0;
        return ((this.seed >>> 16) & 1) === 1;
    }

    /** Whether a formula asks about a variable of these kinds. */
    asks(literal: Literal, kinds: number): boolean {
        return ((this.nodes.kinds[literal >> 1] as number) & kinds) !== 0;
    }

    or(one: Literal, other: Literal): Literal {
        return this.and(one ^ 1, other ^ 1) ^ 1;
    }

    /** Both or none. */
    same(one: Literal, other: Literal): Literal {
        return this.or(this.and(one, other), this.and(one ^ 1, other ^ 1));
    }

    /** `yes` where the condition holds, else `no`. */
    choose(condition: Literal, yes: Literal, no: Literal): Literal {
        return yes === no ? yes : this.or(this.and(condition, yes), this.and(condition ^ 1, no));
    }

    and(one: Literal, other: Literal): Literal {
        const [a, b] = one < other ? [one, other] : [other, one];
        if (a === never || a === (b ^ 1)) return never;
        if (a === always || a === b) return b;
        const simple = this.simplify(a, b) ?? this.simplify(b, a);
        if (simple !== undefined) return simple;
        const known = this.joined.find(a, b);
        if (known >= 0) return known;
        const { nodes, samples } = this;
        const node = nodes.add(a, b, (nodes.kinds[a >> 1] as number) | (nodes.kinds[b >> 1] as number));
        samples.fit(node);
        samples.join(node, a, b);
        const result = this.isLimited ? this.settle(node) : 2 * node;
        if (result !== 2 * node) nodes.dropLast();
        this.joined.enter(a, b, result);
        return result;
    }

    /** What follows where one literal is a part of the other. */
    private simplify(one: Literal, other: Literal): Literal | undefined {
        const left = this.nodes.left[other >> 1] as number;
        const right = this.nodes.right[other >> 1] as number;
        if (left < 0) return undefined;
        const isOpposite = (other & 1) === 1;
        if (left === one || right === one) return isOpposite ? this.and(one, (left === one ? right : left) ^ 1) : other;
        if (left === (one ^ 1) || right === (one ^ 1)) return isOpposite ? one : never;
        return undefined;
    }

    /** The literal that stands for a new node: none where it never holds, an earlier one that is alike, or its own. */
    private settle(node: number): Literal {
        const { samples, search } = this;
        if (samples.isNever(node)) {
            const found = search.find([[2 * node]], contradictionsOfNever);
            if (found === 'no') return never;
            if (found === 'unknown') {
                this.openCount += 1;
                return 2 * node;
            }
        }
        if (samples.takeIn()) this.enterAllAgain();
        let tries = 0;
        let other = this.firstAlike.get(samples.keyOf(node)) ?? 0;
        for (; other > 0 && tries < mostTries; other = this.nextAlike[other] ?? 0) {
            const sign = samples.compare(node, other);
            if (sign < 0) continue;
            const differing = [
                [2 * node, 2 * other + sign],
                [2 * node + 1, 2 * other + 1 - sign],
            ];
            if (search.find(differing, contradictionsOfAlike) === 'no') return 2 * other + sign;
            tries += 1;
        }
        this.enterAlike(node);
        return 2 * node;
    }

    /** The chains grow long where many formulas hold in no case that was drawn. */
    private enterAllAgain(): void {
        this.firstAlike.clear();
        for (const node of this.entered.splice(0)) this.enterAlike(node);
    }

    private enterAlike(node: number): void {
        this.entered.push(node);
        const key = this.samples.keyOf(node);
        this.nextAlike[node] = this.firstAlike.get(key) ?? 0;
        this.firstAlike.set(key, node);
    }
}
