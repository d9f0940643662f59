// Sets of worlds as formulas, for guards that divide the builds in too many ways for diagrams.
//
// A diagram tells for each set all its worlds at once, and some sets have no small one. A formula is small whatever it says;
// what is hard is only to tell whether it ever holds, and that is searched for when a set is made. The operations are those
// of `WorldSets`, so that the same walk works with either.
//
// What never changes of a world (its build, its draws) decides nearly always what its state is at a place. A set is
// therefore a formula for which worlds it has, and for each bit of the state a formula that gives it, or none where the
// state may be either.

import { always, Formulas, type FormulaLimits, type Literal, never } from './formulas/formulas.js';
import { FormulaChanges } from './formulas/formula-changes.js';
import { free, StateVectors } from './formulas/state-vectors.js';
import { bitsFor, codeIs, kindBits, type Variable, type VariableKind } from './formulas/variables.js';
import { type Division, TooManyNodes, type WorldSet } from './sets/world-sets.js';
import type { WorldSetOperations } from './world-set-operations.js';

/** More worlds than this are not counted. */
const mostCounted = 100_000n;

/** A set: the worlds for which the formula holds and whose state is as the vector says. */
interface FormulaSet {
    readonly care: Literal;
    readonly vector: number;
}

export class FormulaSets implements WorldSetOperations {
    readonly sizes: readonly number[];
    private readonly formulas: Formulas;
    private readonly vectors: StateVectors;
    private readonly variables: readonly Variable[];
    /** The variable of each bit of the state. */
    private readonly stateBits: readonly Literal[];
    private readonly records: FormulaSet[] = [];
    private readonly numbers = new Map<number, WorldSet>();
    private readonly changes: FormulaChanges;

    constructor(sizes: readonly number[], kinds: readonly VariableKind[], limits: FormulaLimits) {
        this.sizes = [...sizes];
        this.formulas = new Formulas(limits);
        const stateBits: Literal[] = [];
        this.variables = sizes.map((size, index): Variable => {
            const kind = kinds[index] ?? 'build';
            const bits = Array.from({ length: bitsFor(size) }, () => this.formulas.variable(kindBits[kind]));
            const first = stateBits.length;
            if (kind === 'state') stateBits.push(...bits);
            return { size, kind, bits, first };
        });
        this.stateBits = stateBits;
        this.vectors = new StateVectors(stateBits.length);
        this.changes = new FormulaChanges(this.formulas, this.vectors, stateBits);
        this.numberOf({ care: never, vector: 0 });
        this.numberOf({ care: always, vector: 0 });
        // Numbers in binary can be larger than a variable has values.
        const valid = this.variables.flatMap(({ size, bits }) =>
            Array.from(
                { length: 2 ** bits.length - size },
                (_, beyond) => codeIs(bits, size + beyond, this.formulas) ^ 1,
            ),
        );
        this.formulas.limitTo(valid);
    }

    /**
     * The worlds that lie in all of these sets. They are those that will be asked about most, so that from now on cases of
     * them are tried out first; undefined where none are found.
     */
    begin(sets: readonly WorldSet[]): WorldSet | undefined {
        const literals = sets.map(set => this.relation(this.record(set)));
        if (!this.formulas.drawFrom(literals)) return undefined;
        return this.predicate(this.formulas.joinPlainly(literals));
    }

    get nodeCount(): number {
        return this.formulas.nodes.count;
    }

    /** How often it stayed open whether a set has a world; such a set is kept as if it had. */
    get openCount(): number {
        return this.formulas.openCount;
    }

    is(variable: number, value: number): WorldSet {
        return this.predicate(codeIs(this.variable(variable).bits, value, this.formulas));
    }

    oneOf(variable: number, values: readonly number[]): WorldSet {
        const { bits } = this.variable(variable);
        return this.predicate(
            values.reduce((any, value) => this.formulas.or(any, codeIs(bits, value, this.formulas)), never),
        );
    }

    and(a: WorldSet, b: WorldSet): WorldSet {
        if (a === 0 || b === 1 || a === b) return a;
        if (b === 0 || a === 1) return b;
        const [one, other] = [this.record(a), this.record(b)];
        if (one.vector === 0 && other.vector !== 0) return this.within(other, one);
        return this.within(one, other);
    }

    /** The worlds of the first that are in the second too; bits that only the second fixes are fixed then. */
    private within(one: FormulaSet, other: FormulaSet): WorldSet {
        const { formulas, vectors } = this;
        const [own, given] = [vectors.at(one.vector), vectors.at(other.vector)];
        let { care, vector } = one;
        let condition = this.changes.substitute(other.care, one.vector);
        given.forEach((value, bit) => {
            if (value === free) return;
            const known = own[bit] as Literal;
            if (known !== free) condition = formulas.and(condition, formulas.same(known, value));
            else vector = vectors.with(vector, bit, value);
        });
        if (vector !== one.vector) {
            [care, condition] = [this.changes.substitute(care, vector), this.changes.substitute(condition, vector)];
        }
        return this.numberOf({ care: formulas.and(care, condition), vector });
    }

    or(a: WorldSet, b: WorldSet): WorldSet {
        if (a === b || b === 0 || a === 1) return a;
        if (a === 0 || b === 1) return b;
        const [one, other] = [this.record(a), this.record(b)];
        const { formulas, vectors } = this;
        if (one.vector === other.vector) {
            return this.numberOf({ care: formulas.or(one.care, other.care), vector: one.vector });
        }
        const [ofOne, ofOther] = [vectors.at(one.vector), vectors.at(other.vector)];
        const differing = ofOne.flatMap((value, bit) => (value === ofOther[bit] ? [] : [bit]));
        const isFunction = this.areFunctions(one, other, differing);
        const joined = ofOne.map((value, bit) => {
            if (value === ofOther[bit]) return value;
            return isFunction ? formulas.choose(one.care, value, ofOther[bit] as Literal) : free;
        });
        const care = isFunction
            ? formulas.or(one.care, other.care)
            : formulas.or(this.relation(one, differing), this.relation(other, differing));
        return this.numberOf({ care, vector: vectors.of(joined) });
    }

    /** Whether a world that lies in both has the same state in both, so that either may give it. */
    private areFunctions(one: FormulaSet, other: FormulaSet, differing: readonly number[]): boolean {
        const { formulas, vectors } = this;
        if ([one, other].some(({ care }) => formulas.asks(care, kindBits.state))) return false;
        const [ofOne, ofOther] = [vectors.at(one.vector), vectors.at(other.vector)];
        const both = formulas.and(one.care, other.care);
        return differing.every(bit => {
            const [value, otherValue] = [ofOne[bit] as Literal, ofOther[bit] as Literal];
            if (value === free || otherValue === free) return false;
            return formulas.and(both, formulas.same(value, otherValue) ^ 1) === never;
        });
    }

    without(a: WorldSet, b: WorldSet): WorldSet {
        if (a === 0 || b === 1 || a === b) return 0;
        if (b === 0) return a;
        const { care, vector } = this.record(a);
        const excluded = this.changes.substitute(this.relation(this.record(b)), vector);
        return this.numberOf({ care: this.formulas.and(care, excluded ^ 1), vector });
    }

    divide(a: WorldSet, within: WorldSet): Division {
        const inside = this.and(a, within);
        return { inside, outside: inside === a ? 0 : this.without(a, within) };
    }

    not(a: WorldSet): WorldSet {
        return this.without(1, a);
    }

    meets(a: WorldSet, b: WorldSet): boolean {
        if (a === 0 || b === 0) return false;
        const [one, other] = [this.record(a), this.record(b)];
        const isOfState = other.vector !== 0 || this.formulas.asks(other.care, kindBits.state);
        return isOfState ? this.and(a, b) !== 0 : this.formulas.meet(one.care, other.care);
    }

    allMeet(sets: readonly WorldSet[]): boolean {
        const [first = 1, ...others] = sets;
        const last = others.pop() ?? 1;
        return this.meets(
            others.reduce((all, set) => this.and(all, set), first),
            last,
        );
    }

    forget(a: WorldSet, variables: readonly number[]): WorldSet {
        if (a <= 1) return a;
        const forgotten = variables.map(variable => this.variable(variable));
        const freed = forgotten.flatMap(({ kind, bits, first }) =>
            kind === 'state' ? bits.map((_, index) => first + index) : [],
        );
        const bits = forgotten.flatMap(variable => variable.bits);
        const { care, vector } = this.withFree(this.record(a), freed, bits);
        return this.numberOf({ care: this.changes.exists(care, forgotten), vector });
    }

    /** The set with nothing said of some bits of the state; those that depend on any of these variables go into the formula. */
    private withFree({ care, vector }: FormulaSet, freed: readonly number[], bits: readonly Literal[]): FormulaSet {
        const { vectors, formulas } = this;
        let rest = vector;
        for (const bit of freed) rest = vectors.with(rest, bit, free);
        const changing = bits.filter(bit => !this.stateBits.includes(bit));
        if (changing.length === 0 || rest === 0) return { care, vector: rest };
        const kinds = changing.reduce((any, bit) => any | (formulas.nodes.kinds[bit >> 1] as number), 0);
        const depending = vectors.at(rest).flatMap((value, bit) => {
            return value > always && formulas.asks(value, kinds) ? [bit] : [];
        });
        const relation = this.relation({ care, vector: rest }, depending);
        for (const bit of depending) rest = vectors.with(rest, bit, free);
        return { care: relation, vector: rest };
    }

    assign(a: WorldSet, variable: number, value: number): WorldSet {
        if (a === 0) return a;
        const changed = this.variable(variable);
        const { kind, bits, first } = changed;
        if (kind !== 'state') return this.and(this.forget(a, [variable]), this.is(variable, value));
        const record = this.record(a);
        let { vector } = record;
        bits.forEach((_, index) => {
            vector = this.vectors.with(vector, first + index, (value >> index) & 1);
        });
        return this.numberOf({ care: this.changes.exists(record.care, [changed]), vector });
    }

    given(a: WorldSet, variable: number, value: number): WorldSet {
        if (a <= 1) return a;
        const fixed = this.variable(variable);
        const { bits, kind, first } = fixed;
        const freed = kind === 'state' ? bits.map((_, index) => first + index) : [];
        const record = this.record(a);
        const opened = this.withFree({ care: this.relation(record, freed), vector: record.vector }, freed, bits);
        return this.numberOf({ care: this.changes.fix(opened.care, fixed, value), vector: opened.vector });
    }

    /**
     * How many worlds the set has. They are gone through one by one.
     *
     * @throws TooManyNodes where there are many.
     */
    count(a: WorldSet): bigint {
        let count = 0n;
        for (const world of this.worlds(a)) {
            if (world.length === this.sizes.length) count += 1n;
            if (count > mostCounted) throw new TooManyNodes(`There are more than ${mostCounted} worlds.`);
        }
        return count;
    }

    /** @throws TooManyNodes always: nobody knows how many worlds a formula has. */
    weigh(): number {
        throw new TooManyNodes('The worlds of a formula are not weighed.');
    }

    /** The first world in the order of variables and values; undefined where there is none, or none was found. */
    pick(a: WorldSet): number[] | undefined {
        let left = a;
        const world: number[] = [];
        for (const [variable, size] of this.sizes.entries()) {
            let value = 0;
            let here: WorldSet = 0;
            for (; value < size && here === 0; value += 1) here = this.and(left, this.is(variable, value));
            if (here === 0) return undefined;
            world.push(value - 1);
            left = here;
        }
        return this.has(a, world) ? world : undefined;
    }

    pickInAll(sets: readonly WorldSet[]): number[] | undefined {
        return this.pick(sets.reduce((all, set) => this.and(all, set), 1));
    }

    has(a: WorldSet, world: readonly number[]): boolean {
        const relation = this.relation(this.record(a));
        return this.evaluate(relation, world)(relation) === 1;
    }

    /** The values in a world of all literals that decide whether one holds. */
    private evaluate(literal: Literal, world: readonly number[]): (literal: Literal) => number {
        const { nodes } = this.formulas;
        const values = new Map<number, number>();
        this.variables.forEach(({ bits }, variable) => {
            bits.forEach((bit, index) => values.set(bit >> 1, ((world[variable] ?? 0) >> index) & 1));
        });
        const valueOf = (one: Literal) => (values.get(one >> 1) ?? 0) ^ (one & 1);
        for (const node of nodes.below([literal])) {
            const [left, right] = [nodes.left[node] as number, nodes.right[node] as number];
            if (left >= 0) values.set(node, valueOf(left) & valueOf(right));
        }
        return valueOf;
    }

    *worlds(a: WorldSet): IterableIterator<number[]> {
        yield* this.worldsFrom(a, []);
    }

    private *worldsFrom(left: WorldSet, world: readonly number[]): IterableIterator<number[]> {
        const size = this.sizes[world.length];
        if (size === undefined) {
            yield [...world];
            return;
        }
        for (let value = 0; value < size; value += 1) {
            const here = this.and(left, this.is(world.length, value));
            if (here !== 0) yield* this.worldsFrom(here, [...world, value]);
        }
    }

    /** The variables that the formulas of the set ask about, in their order; it need not depend on all of them. */
    variablesOf(a: WorldSet): number[] {
        const asked = new Set(this.formulas.nodes.below([this.relation(this.record(a))]));
        return this.variables.flatMap(({ bits }, variable) =>
            bits.some(bit => asked.has(bit >> 1)) ? [variable] : [],
        );
    }

    /** Variables whose values in the first world are enough for it to lie in the set; none where no world was found. */
    variablesOfFirst(a: WorldSet): number[] {
        const world = this.pick(a);
        if (!world) return [];
        const { nodes } = this.formulas;
        const relation = this.relation(this.record(a));
        const valueOf = this.evaluate(relation, world);
        const enough = new Set<number>();
        const open = [relation];
        for (let literal = open.pop(); literal !== undefined; literal = open.pop()) {
            const node = literal >> 1;
            const [left, right] = [nodes.left[node] as number, nodes.right[node] as number];
            if (enough.has(node)) continue;
            enough.add(node);
            if (left < 0) continue;
            // For a joint that does not hold, one part that does not is enough: one that counts already, or the simpler one.
            const broken = [left, right].filter(part => valueOf(part) === 0).sort((one, other) => one - other);
            const [simplest] = broken;
            if (simplest === undefined) open.push(left, right);
            else if (!broken.some(part => enough.has(part >> 1))) open.push(simplest);
        }
        return this.variables.flatMap(({ bits }, variable) =>
            bits.some(bit => enough.has(bit >> 1)) ? [variable] : [],
        );
    }

    private variable(variable: number): Variable {
        const found = this.variables[variable];
        if (!found) throw new RangeError(`There is no variable ${variable}.`);
        return found;
    }

    private record(set: WorldSet): FormulaSet {
        return this.records[set] as FormulaSet;
    }

    private predicate(care: Literal): WorldSet {
        return this.numberOf({ care, vector: 0 });
    }

    private numberOf({ care, vector }: FormulaSet): WorldSet {
        if (care === never && this.records.length > 0) return 0;
        const key = vector * 2 ** 32 + care;
        let number = this.numbers.get(key);
        if (number === undefined) {
            number = this.records.push({ care, vector }) - 1;
            this.numbers.set(key, number);
        }
        return number;
    }

    /** One formula for a set, or one that has some bits of the state in it. */
    private relation({ care, vector }: FormulaSet, bits?: readonly number[]): Literal {
        const { formulas, vectors } = this;
        if (vector === 0) return care;
        const values = vectors.at(vector);
        const included = bits ?? values.map((_, bit) => bit);
        return included.reduce((relation, bit) => {
            const value = values[bit] as Literal;
            if (value === free) return relation;
            return formulas.and(relation, formulas.same(this.stateBits[bit] as Literal, value));
        }, care);
    }
}
