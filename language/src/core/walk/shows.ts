// What a test shows with certain faults present: for each outcome, the worlds in which the technician may read it.

import type { UnitMakes, UnitOutcome, UnitTest } from '../meaning/unit.js';
import { type Effects, joinEffects, noEffects, shownEffects, visibleEffects } from './effects.js';
import { placesWithBuilds } from './flow-places.js';
import type { FlowSets } from './flow-sets.js';
import { allWorlds, noWorlds, type WorldSet } from './sets/world-sets.js';
import { drawOutcomes, joinShown, limitShown, type Shown, withoutAll } from './shown.js';
import { buildsWhere, type WalkSpace } from './space.js';

/** The answers of the tests of one unit; each is worked out once for the faults that are present. */
export class TestAnswers {
    private readonly known = new Map<string, Shown>();
    /** For each test, the faults that can make a difference to it; undefined for any. */
    private readonly relevant: (ReadonlySet<number> | undefined)[] = [];
    /** By the list of faults that are present and seen, then by test. */
    private readonly ofLists = new WeakMap<readonly number[], Shown[]>();

    constructor(
        readonly space: WalkSpace,
        readonly flows: FlowSets,
    ) {}

    /**
     * What a test shows of some faults. States go by the faults that are present: a test that remembers shows others too.
     * A fault that comes and goes may show or not, each time anew.
     */
    answer(test: UnitTest, faults: readonly number[], present: readonly number[] = faults): Shown {
        // A presence keeps its lists, and so the same list asks again and again.
        const byTest = this.ofLists.get(faults) ?? [];
        this.ofLists.set(faults, byTest);
        const before = present === faults ? byTest[test.number] : undefined;
        if (before) return before;
        const key = `${test.number}:${faults.join(',')}:${present.join(',')}`;
        let shown = this.known.get(key);
        if (!shown) {
            shown = this.withIntermittent(test, faults, present);
            this.known.set(key, shown);
        }
        if (present === faults) byTest[test.number] = shown;
        return shown;
    }

    private withIntermittent(test: UnitTest, faults: readonly number[], present: readonly number[]): Shown {
        const { sets, unit } = this.space;
        const steady = this.withExempt(test, faults, present);
        const coming = faults.filter(fault => (unit.faults[fault]?.intermittent.length ?? 0) > 0);
        if (coming.length === 0) return steady;
        // The worlds in which each of them need not show.
        const away = coming.map(fault => this.needNotShow(fault, present));
        let shown = steady;
        for (let chosen = 1; chosen < 1 << coming.length; chosen += 1) {
            const isAway = (index: number) => (chosen & (1 << index)) !== 0;
            const here = away.reduce<WorldSet>(
                (all, set, index) => (isAway(index) ? sets.and(all, set) : sets.without(all, set)),
                allWorlds,
            );
            if (here === noWorlds) continue;
            const without = faults.filter(fault => !coming.some((one, index) => one === fault && isAway(index)));
            shown = joinShown(shown, limitShown(this.withExempt(test, without, present), here, sets), sets);
        }
        // What keeps a test from saying anything does not come and go.
        return { ...shown, dead: steady.dead, unsaid: steady.unsaid };
    }

    private needNotShow(number: number, present: readonly number[]): WorldSet {
        const { sets, unit } = this.space;
        return (unit.faults[number]?.intermittent ?? []).reduce<WorldSet>((any, { guard, unless }) => {
            const provoked = unless ? this.flows.where(unless, present) : noWorlds;
            return sets.or(any, sets.without(buildsWhere(guard, this.space), provoked));
        }, noWorlds);
    }

    /** Divides the builds by which faults say themselves what the test shows, because those do not count in the flows. */
    private withExempt(test: UnitTest, faults: readonly number[], present: readonly number[]): Shown {
        const { sets } = this.space;
        const answering = faults.filter(fault => this.mattersTo(test, fault));
        let cases: { readonly here: WorldSet; readonly exempt: readonly number[] }[] = [
            { here: allWorlds, exempt: [] },
        ];
        for (const fault of answering) {
            const makes = this.makesOf(fault, test);
            if (makes.length === 0) continue;
            const saying = makes.reduce<WorldSet>(
                (any, { guard }) => sets.or(any, buildsWhere(guard, this.space)),
                noWorlds,
            );
            cases = cases.flatMap(({ here, exempt }) => [
                { here: sets.and(here, saying), exempt: [...exempt, fault] },
                { here: sets.without(here, saying), exempt },
            ]);
        }
        const [only, ...others] = cases.filter(({ here }) => here !== noWorlds);
        if (!only) return this.inCase(test, answering, [], present);
        if (others.length === 0) return this.inCase(test, answering, only.exempt, present);
        return [only, ...others]
            .map(({ here, exempt }) => limitShown(this.inCase(test, answering, exempt, present), here, sets))
            .reduce((one, other) => joinShown(one, other, sets));
    }

    private makesOf(fault: number, test: UnitTest): readonly UnitMakes[] {
        return (this.space.unit.faults[fault]?.makes ?? []).filter(one => one.test === test.number);
    }

    /** Whether a fault can make any difference to a test. */
    private mattersTo(test: UnitTest, fault: number): boolean {
        let relevant = this.relevant[test.number];
        if (!relevant) {
            relevant = this.relevantTo(test);
            this.relevant[test.number] = relevant;
        }
        return relevant.has(fault);
    }

    private relevantTo(test: UnitTest): ReadonlySet<number> {
        const { unit } = this.space;
        const found = new Set<number>(test.checks.map(({ fault }) => fault));
        for (const fault of unit.faults) if (fault.makes.some(one => one.test === test.number)) found.add(fault.number);
        const flows = [...test.flows, ...test.through.map(({ flow }) => flow)];
        if (test.across.length > 0) flows.push(...unit.flows.map(({ number }) => number));
        for (const flow of flows) for (const fault of this.flows.influence(flow)) found.add(fault);
        return found;
    }

    private inCase(
        test: UnitTest,
        faults: readonly number[],
        exempt: readonly number[],
        present: readonly number[],
    ): Shown {
        const { sets } = this.space;
        const counting = exempt.length === 0 ? faults : faults.filter(fault => !exempt.includes(fault));
        const available = test.entries.map(entry => this.available(entry, present));
        const options: WorldSet[] = test.outcomes.map(() => noWorlds);
        const add = (outcome: number, where: WorldSet) => {
            if (outcome >= 0) options[outcome] = sets.or(options[outcome] ?? noWorlds, where);
        };
        let guessed: WorldSet = noWorlds;
        if (test.identifies) {
            test.outcomes.forEach((name, outcome) => add(outcome, this.choiceIs(test, name)));
            return {
                outcomes: options,
                sure: options,
                guessed: options.map(() => noWorlds),
                nothing: withoutAll(options, sets),
                dead: noWorlds,
                unsaid: noWorlds,
            };
        }
        for (const fault of exempt) {
            for (const makes of this.makesOf(fault, test)) {
                let where = buildsWhere(makes.guard, this.space);
                if (makes.when) where = sets.and(where, this.flows.where(makes.when, present));
                if (makes.unless) where = sets.without(where, this.flows.where(makes.unless, present));
                for (const outcome of makes.outcomes) add(outcome, where);
            }
        }
        guessed = sets.or(guessed, this.addChecks(test, counting, available, add));
        const { effects, dead } = this.seen(test, counting, present);
        const normalWhen = unionWhere(
            test,
            available,
            sets,
            entry => entry.outcome === test.normal && entry.when !== undefined,
        );
        const felt = visibleEffects(effects, sets);
        felt.forEach((set, effect) => {
            const where = sets.without(set, sets.and(dead, normalWhen));
            if (where === noWorlds) return;
            guessed = sets.or(guessed, this.addEffect(test, effect, where, available, add));
        });
        const normalThere = unionWhere(test, available, sets, entry => entry.outcome === test.normal);
        const { outcomes, several } = drawOutcomes(test, options, this.space);
        const open = sets.and(guessed, several);
        return {
            outcomes,
            sure: outcomes.map(set => sets.without(set, open)),
            guessed: outcomes.map(set => sets.and(set, open)),
            nothing: test.normal < 0 ? withoutAll(outcomes, sets) : noWorlds,
            dead: sets.without(dead, normalWhen),
            unsaid: test.normal < 0 ? noWorlds : sets.not(normalThere),
        };
    }

    private available(entry: UnitOutcome, present: readonly number[]): WorldSet {
        const here = buildsWhere(entry.guard, this.space);
        return entry.when ? this.space.sets.and(here, this.flows.where(entry.when, present)) : here;
    }

    private choiceIs(test: UnitTest, name: string): WorldSet {
        const option = test.identifies;
        const variable = option && this.space.variables.options.get(option);
        if (!option || variable === undefined) return noWorlds;
        return this.space.sets.is(
            variable,
            option.choices.findIndex(choice => choice.name.text === name),
        );
    }

    /** Faults that the test looks at directly. Returns the worlds in which one of them leaves several outcomes. */
    private addChecks(
        test: UnitTest,
        faults: readonly number[],
        available: readonly WorldSet[],
        add: (outcome: number, where: WorldSet) => void,
    ): WorldSet {
        const { sets } = this.space;
        let guessed: WorldSet = noWorlds;
        for (const { fault, outcome, guard } of test.checks) {
            if (!faults.includes(fault)) continue;
            const here = buildsWhere(guard, this.space);
            if (outcome !== undefined) add(outcome, here);
            else {
                guessed = sets.or(
                    guessed,
                    this.addEach(test, here, available, entry => entry.outcome !== test.normal, add),
                );
            }
        }
        return guessed;
    }

    /** Outcomes that an effect shows. Returns the worlds in which it leaves several. */
    private addEffect(
        test: UnitTest,
        effect: number,
        where: WorldSet,
        available: readonly WorldSet[],
        add: (outcome: number, where: WorldSet) => void,
    ): WorldSet {
        const { sets } = this.space;
        const isAbnormal = (entry: UnitOutcome) => entry.outcome !== test.normal;
        let left = where;
        let guessed: WorldSet = noWorlds;
        for (const name of wordsFor(effect)) {
            const says = (entry: UnitOutcome) =>
                isAbnormal(entry) && (name === undefined ? entry.shows.length === 0 : entry.shows.includes(name));
            const said = sets.and(left, unionWhere(test, available, sets, says));
            if (said === noWorlds) continue;
            guessed = sets.or(guessed, this.addEach(test, said, available, says, add));
            left = sets.without(left, said);
        }
        return guessed;
    }

    private addEach(
        test: UnitTest,
        where: WorldSet,
        available: readonly WorldSet[],
        fits: (entry: UnitOutcome) => boolean,
        add: (outcome: number, where: WorldSet) => void,
    ): WorldSet {
        const { sets } = this.space;
        const byOutcome = new Map<number, WorldSet>();
        test.entries.forEach((entry, index) => {
            if (!fits(entry)) return;
            const here = sets.and(where, available[index] ?? noWorlds);
            byOutcome.set(entry.outcome, sets.or(byOutcome.get(entry.outcome) ?? noWorlds, here));
        });
        let once: WorldSet = noWorlds;
        let several: WorldSet = noWorlds;
        for (const [outcome, here] of byOutcome) {
            add(outcome, here);
            several = sets.or(several, sets.and(once, here));
            once = sets.or(once, here);
        }
        return several;
    }

    /** What the faults do where the test looks, and where nothing is carried whatever the faults. */
    private seen(
        test: UnitTest,
        faults: readonly number[],
        present: readonly number[],
    ): { effects: Effects; dead: WorldSet } {
        const { sets } = this.space;
        const guarded = (clauses: readonly { guard: UnitTest['guard'] }[]) =>
            clauses.reduce<WorldSet>((any, { guard }) => sets.or(any, buildsWhere(guard, this.space)), noWorlds);
        const across = guarded(test.across);
        const through = sets.without(guarded(test.through), across);
        const atPoints = sets.without(sets.not(across), through);
        let effects = noEffects;
        let dead: WorldSet = noWorlds;
        if (across !== noWorlds) effects = joinEffects(effects, this.seenAcross(test, faults), sets);
        if (through !== noWorlds) {
            const seen = this.seenThrough(test, faults, present);
            effects = joinEffects(effects, limit(seen.effects, through, this.space), sets);
            dead = sets.or(dead, sets.and(seen.dead, through));
        }
        if (this.flows.hasPoints(test.number) && atPoints !== noWorlds) {
            const seen = this.flows.atPoints(test.number, faults, present);
            effects = joinEffects(effects, limit(seen.effects, atPoints, this.space), sets);
            dead = sets.or(dead, sets.and(seen.dead, atPoints));
        }
        return { effects, dead };
    }

    private seenThrough(
        test: UnitTest,
        faults: readonly number[],
        present: readonly number[],
    ): { effects: Effects; dead: WorldSet } {
        const { sets } = this.space;
        let effects = noEffects;
        let there: WorldSet = noWorlds;
        let alive: WorldSet = noWorlds;
        for (const { flow, guard } of test.through) {
            const here = sets.and(buildsWhere(guard, this.space), this.flows.exists(flow));
            const behind = this.flows.behind(flow, faults, present);
            const felt = joinEffects(this.flows.effectsOf(flow, faults).anywhere, behind, sets);
            effects = joinEffects(effects, limit(felt, here, this.space), sets);
            there = sets.or(there, here);
            alive = sets.or(alive, sets.without(here, this.flows.deadEnd(flow, present)));
        }
        return { effects, dead: sets.without(there, alive) };
    }

    /** Between two places of a flow, both included; in the builds where one of each stands there in that order. */
    private seenAcross(test: UnitTest, faults: readonly number[]): Effects {
        const { sets, unit } = this.space;
        let effects = noEffects;
        for (const { from, to, guard } of test.across) {
            for (const flow of unit.flows) {
                const places = placesWithBuilds(flow.chain, this.space);
                const begun = places.map(() => noWorlds);
                const ending = places.map(() => noWorlds);
                let begin: WorldSet = noWorlds;
                places.forEach(({ place, exists }, index) => {
                    if (from.includes(place.declaration)) begin = sets.or(begin, exists);
                    begun[index] = begin;
                });
                let end: WorldSet = noWorlds;
                for (let index = places.length - 1; index >= 0; index -= 1) {
                    const last = places[index];
                    if (last && to.includes(last.place.declaration)) end = sets.or(end, last.exists);
                    ending[index] = end;
                }
                const here = sets.and(buildsWhere(guard, this.space), this.flows.exists(flow.number));
                const atPlaces = this.flows.atPlaces(flow.number, faults);
                places.forEach(({ place, exists }, index) => {
                    const between = sets.and(here, sets.and(begun[index] ?? noWorlds, ending[index] ?? noWorlds));
                    const felt = limit(atPlaces.get(place) ?? noEffects, sets.and(between, exists), this.space);
                    effects = joinEffects(effects, felt, sets);
                });
            }
        }
        return effects;
    }
}

/** The words in `shows` that an effect looks for, one after the other; undefined for outcomes that say no effect. */
function wordsFor(effect: number): readonly (UnitOutcome['shows'][number] | undefined)[] {
    const name = shownEffects[effect];
    if (name === 'loaded') return ['loaded', 'weakened', undefined];
    if (name === 'shorted') return ['shorted', 'stopped', undefined];
    return [name, undefined];
}

function limit(effects: Effects, within: WorldSet, { sets }: WalkSpace): Effects {
    return effects.map(set => sets.and(set, within));
}

function unionWhere(
    test: UnitTest,
    available: readonly WorldSet[],
    sets: WalkSpace['sets'],
    fits: (entry: UnitOutcome) => boolean,
): WorldSet {
    let union: WorldSet = noWorlds;
    test.entries.forEach((entry, index) => {
        if (fits(entry)) union = sets.or(union, available[index] ?? noWorlds);
    });
    return union;
}
