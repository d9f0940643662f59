// Finds values for variables so that every clause has a literal that holds, or shows that there are none.
//
// A clause is a list of literals; literal 2v says that variable v is true, 2v + 1 that it is false. The search decides a
// variable, follows what must be so then, and learns a clause from each contradiction (Marques-Silva and Sakallah, IEEE
// Transactions on Computers 48, 1999); each clause is watched at two of its literals only (Moskewicz and others, Design
// Automation Conference, 2001).

export type Literal = number;

/** `unknown`: the search met more contradictions than it was allowed. */
export type Solved = 'yes' | 'no' | 'unknown';

const [unassigned, isTrue, isFalse] = [0, 1, 2];

/** Words of a clause before its literals: how many there are, and the next clause that is watched at the first, and at the second. */
const header = 3;

/** After so many contradictions, times the Luby sequence, the search begins anew with what it has learned. */
const restartAfter = 64;

/** One search after the other; the memory of the one before is used again. */
export class ClauseSolver {
    /** How much was done in all searches so far: literals followed. */
    steps = 0;
    private variables = 0;
    /** By literal, so that no sign has to be looked at. */
    private values = new Uint8Array(64);
    private watched = new Int32Array(64);
    /** By variable. */
    private levels = new Int32Array(32);
    private reasons = new Int32Array(32);
    private phases = new Uint8Array(32);
    private seen = new Uint8Array(32);
    /** Variables in the order in which they last took part in a contradiction: a list, and when each was moved to its end. */
    private before = new Int32Array(32);
    private after = new Int32Array(32);
    private moved = new Int32Array(32);
    private last = -1;
    private moves = 0;
    private nextToDecide = -1;
    /** Clauses one after the other; 0 is none. */
    private clauses = new Int32Array(1 << 12);
    private used = 1;
    private readonly trail: Literal[] = [];
    private readonly decisions: number[] = [];
    private followed = 0;
    private contradictory = false;

    /** Begins a search over so many variables, with no clauses. Those of a higher number are decided first. */
    begin(variables: number): void {
        this.variables = variables;
        if (this.levels.length < variables) this.grow(variables);
        this.values.fill(unassigned, 0, 2 * variables);
        this.watched.fill(0, 0, 2 * variables);
        this.seen.fill(0, 0, variables);
        for (let variable = 0; variable < variables; variable += 1) {
            this.before[variable] = variable - 1;
            this.after[variable] = variable + 1 < variables ? variable + 1 : -1;
            this.moved[variable] = variable;
        }
        this.last = this.nextToDecide = variables - 1;
        this.moves = variables;
        this.used = 1;
        this.trail.length = this.decisions.length = this.followed = 0;
        this.contradictory = false;
    }

    private grow(variables: number): void {
        const size = Math.max(variables, 2 * this.levels.length);
        this.values = new Uint8Array(2 * size);
        this.watched = new Int32Array(2 * size);
        this.levels = new Int32Array(size);
        this.reasons = new Int32Array(size);
        this.phases = new Uint8Array(size);
        this.seen = new Uint8Array(size);
        this.before = new Int32Array(size);
        this.after = new Int32Array(size);
        this.moved = new Int32Array(size);
    }

    /** The value that is tried first when the variable is decided. */
    prefer(variable: number, value: boolean): void {
        this.phases[variable] = value ? isTrue : isFalse;
    }

    /** A clause of one, two or three literals, of different variables. */
    add(first: Literal, second?: Literal, third?: Literal): void {
        if (second === undefined) {
            if (this.values[first] === isFalse) this.contradictory = true;
            else if (this.values[first] === unassigned) this.assign(first, 0);
            return;
        }
        this.room(header + 3);
        const clause = this.used;
        this.clauses[clause + header] = first;
        this.clauses[clause + header + 1] = second;
        if (third !== undefined) this.clauses[clause + header + 2] = third;
        this.enter(clause, third === undefined ? 2 : 3);
    }

    /** Whether all clauses can hold. */
    solve(mostContradictions: number): Solved {
        let contradictions = 0;
        let round = 1;
        let left = restartAfter * luby(round);
        while (!this.contradictory) {
            const conflict = this.follow();
            if (conflict === 0) {
                if (left <= 0) {
                    round += 1;
                    left = restartAfter * luby(round);
                    this.takeBack(0);
                } else if (!this.decide()) {
                    return 'yes';
                }
                continue;
            }
            if (this.decisions.length === 0) break;
            contradictions += 1;
            left -= 1;
            if (contradictions > mostContradictions) return 'unknown';
            this.learn(conflict);
        }
        return 'no';
    }

    /** The value of a variable after a search that has found one for each. */
    isTrue(variable: number): boolean {
        return this.values[2 * variable] === isTrue;
    }

    private room(words: number): void {
        if (this.used + words <= this.clauses.length) return;
        const more = new Int32Array(Math.max(2 * this.clauses.length, this.used + words));
        more.set(this.clauses);
        this.clauses = more;
    }

    /** Watches a clause whose literals lie behind its header, at the first two of them. */
    private enter(clause: number, length: number): void {
        const { clauses, watched } = this;
        clauses[clause] = length;
        for (const place of [0, 1]) {
            const literal = clauses[clause + header + place] as number;
            clauses[clause + 1 + place] = watched[literal] as number;
            watched[literal] = clause;
        }
        this.used = clause + header + length;
    }

    private assign(literal: Literal, reason: number): void {
        this.values[literal] = isTrue;
        this.values[literal ^ 1] = isFalse;
        const variable = literal >> 1;
        this.levels[variable] = this.decisions.length;
        this.reasons[variable] = reason;
        this.trail.push(literal);
    }

    /** Follows what is so to what must be so then; the clause that cannot hold any more, or 0. */
    private follow(): number {
        const { trail, values, clauses, watched } = this;
        while (this.followed < trail.length) {
            const gone = (trail[this.followed] as number) ^ 1;
            this.followed += 1;
            this.steps += 1;
            let clause = watched[gone] as number;
            let kept = 0;
            while (clause !== 0) {
                const first = clause + header;
                const place = clauses[first] === gone ? 0 : 1;
                const next = clauses[clause + 1 + place] as number;
                const other = clauses[first + 1 - place] as number;
                const found = values[other] === isTrue ? -1 : this.findUnbroken(clause);
                if (found > 0) {
                    const literal = clauses[found] as number;
                    clauses[found] = gone;
                    clauses[first + place] = literal;
                    clauses[clause + 1 + place] = watched[literal] as number;
                    watched[literal] = clause;
                } else {
                    clauses[clause + 1 + place] = kept;
                    kept = clause;
                    if (found === 0 && values[other] === isFalse) {
                        watched[gone] = this.joinChains(next, kept, gone);
                        return clause;
                    }
                    if (found === 0) this.assign(other, clause);
                }
                clause = next;
            }
            watched[gone] = kept;
        }
        return 0;
    }

    /** Where a clause has a literal besides the two watched ones that may hold; 0 where it has none. */
    private findUnbroken(clause: number): number {
        const { clauses, values } = this;
        const end = clause + header + (clauses[clause] as number);
        for (let index = clause + header + 2; index < end; index += 1) {
            if (values[clauses[index] as number] !== isFalse) return index;
        }
        return 0;
    }

    /** Puts the clauses that were not looked at before those that were. */
    private joinChains(rest: number, kept: number, literal: Literal): number {
        if (rest === 0) return kept;
        const { clauses } = this;
        let clause = rest;
        for (;;) {
            const link = clause + 1 + (clauses[clause + header] === literal ? 0 : 1);
            const next = clauses[link] as number;
            if (next === 0) {
                clauses[link] = kept;
                return rest;
            }
            clause = next;
        }
    }

    /** Tries a value for the variable that took part in a contradiction last; false where each has one. */
    private decide(): boolean {
        const { values, before } = this;
        let variable = this.nextToDecide;
        while (variable >= 0 && values[2 * variable] !== unassigned) variable = before[variable] as number;
        this.nextToDecide = variable;
        if (variable < 0) return false;
        this.decisions.push(this.trail.length);
        this.assign(2 * variable + (this.phases[variable] === isTrue ? 0 : 1), 0);
        return true;
    }

    private takeBack(level: number): void {
        const { trail, values, phases, moved, decisions } = this;
        if (decisions.length <= level) return;
        const start = decisions[level] as number;
        for (let index = trail.length - 1; index >= start; index -= 1) {
            const literal = trail[index] as number;
            const variable = literal >> 1;
            values[literal] = values[literal ^ 1] = unassigned;
            phases[variable] = (literal & 1) === 0 ? isTrue : isFalse;
            if (this.nextToDecide < 0 || (moved[variable] as number) > (moved[this.nextToDecide] as number)) {
                this.nextToDecide = variable;
            }
        }
        trail.length = start;
        decisions.length = level;
        this.followed = start;
    }

    /** Learns the clause that follows from a contradiction, goes back to where it says something new, and follows that. */
    private learn(conflict: number): void {
        const { clauses, trail, levels, reasons, seen } = this;
        const learned: Literal[] = [0];
        const touched: number[] = [];
        const level = this.decisions.length;
        let open = 0;
        let index = trail.length - 1;
        let reason = conflict;
        let literal = -1;
        do {
            const end = reason + header + (clauses[reason] as number);
            for (let place = reason + header; place < end; place += 1) {
                const other = clauses[place] as number;
                const variable = other >> 1;
                if (other === literal || seen[variable] === 1 || levels[variable] === 0) continue;
                seen[variable] = 1;
                touched.push(variable);
                if (levels[variable] === level) open += 1;
                else learned.push(other);
            }
            while (seen[(trail[index] as number) >> 1] === 0) index -= 1;
            literal = trail[index] as number;
            index -= 1;
            reason = reasons[literal >> 1] as number;
            open -= 1;
        } while (open > 0);
        learned[0] = literal ^ 1;
        for (const variable of touched) seen[variable] = 0;
        this.moveToEnd(touched);
        this.jumpAndAdd(learned);
    }

    private jumpAndAdd(learned: Literal[]): void {
        const { levels } = this;
        let highest = 1;
        for (let index = 2; index < learned.length; index += 1) {
            if (this.levelOf(learned[index]) > this.levelOf(learned[highest])) highest = index;
        }
        const [literal = 0] = learned;
        if (learned.length === 1) {
            this.takeBack(0);
            this.assign(literal, 0);
            return;
        }
        // The second one watched is the last that was decided before.
        [learned[1], learned[highest]] = [learned[highest] as number, learned[1] as number];
        this.takeBack(levels[learned[1] >> 1] as number);
        this.room(header + learned.length);
        const clause = this.used;
        this.clauses.set(learned, clause + header);
        this.enter(clause, learned.length);
        this.assign(literal, clause);
    }

    private levelOf(literal: Literal | undefined): number {
        return this.levels[(literal ?? 0) >> 1] as number;
    }

    private moveToEnd(touched: number[]): void {
        const { before, after, moved } = this;
        touched.sort((one, other) => (moved[one] as number) - (moved[other] as number));
        for (const variable of touched) {
            this.moves += 1;
            moved[variable] = this.moves;
            if (variable === this.last) continue;
            const [previous, next] = [before[variable] as number, after[variable] as number];
            if (previous >= 0) after[previous] = next;
            before[next] = previous;
            before[variable] = this.last;
            after[this.last] = variable;
            after[variable] = -1;
            this.last = variable;
        }
        this.nextToDecide = this.last;
    }
}

/** 1 1 2 1 1 2 4 1 1 2 1 1 2 4 8 … (Luby, Sinclair and Zuckerman, Information Processing Letters 47, 1993). */
function luby(index: number): number {
    let length = 1;
    let power = 0;
    while (length < index) {
        length = 2 * length + 1;
        power += 1;
    }
    let place = index;
    while (length !== place) {
        length = (length - 1) / 2;
        power -= 1;
        if (place > length) place -= length;
    }
    return 2 ** power;
}
