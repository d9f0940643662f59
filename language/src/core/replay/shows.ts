// What a test shows in one world and state, and what keeps it from saying anything.

import type { PartialBuild } from '../builds/evaluate.js';
import type { ShownEffect, StateCondition, Unit, UnitOutcome, UnitTest } from '../meaning/unit.js';
import { affected, isDead } from './affected.js';
import { type Effects, type Situation, situationOf, viewOf } from './situation.js';
import { sorted, type State } from './state.js';
import { holds, holdsIfSaid } from './standing.js';
import { completeBuild, exists, type World } from './world.js';

/** One answer that a test can give. */
export interface Shown {
    /** The number of the outcome, -1 where the test has none to show. */
    readonly outcome: number;
    /** Whether the model leaves open which outcome one effect or one check gives. */
    readonly guessed: boolean;
    /** All outcomes that were possible, of which the world has drawn one. */
    readonly opts: readonly number[];
}

/** What a test shows in a state: one answer, or two where a fault that comes and goes may show or not. */
export function showsIn(unit: Unit, test: number, world: World, state: State): readonly Shown[] {
    const declared = unit.tests[test];
    if (!declared) return [];
    const situation = situationOf(unit, completeBuild(unit, world.build), state);
    const faults = (declared.remembers ? state.memory.get(test) : undefined) ?? state.present;
    const first = answerOf(declared, faults, world, situation);
    const staying = faultsThatStay(faults, situation);
    if (staying.size === faults.size) return [first];
    const second = answerOf(declared, staying, world, situation);
    return second.outcome === first.outcome && second.guessed === first.guessed ? [first] : [first, second];
}

/** The faults without those that come and go, except where they surely show. */
function faultsThatStay(faults: ReadonlySet<number>, situation: Situation): ReadonlySet<number> {
    const { unit, build } = situation;
    const mayGo = (fault: number): boolean =>
        (unit.faults[fault]?.intermittent ?? []).some(
            ({ guard, unless }) => exists(guard, build) && !(unless && holds(unless, situation)),
        );
    return new Set([...faults].filter(fault => !mayGo(fault)));
}

function answerOf(test: UnitTest, faults: ReadonlySet<number>, world: World, situation: Situation): Shown {
    if (test.identifies) {
        const choice = world.build.get(test.identifies);
        const outcome = choice ? test.outcomes.indexOf(choice.name.text) : -1;
        return { outcome, guessed: false, opts: outcome < 0 ? [] : [outcome] };
    }
    const { said, single } = possibleOutcomes(test, faults, situation);
    const opts = optionsOf(test, [...said, ...single.flat()]);
    const guessed = opts.length > 1 && single.some(one => one.filter(outcome => opts.includes(outcome)).length > 1);
    const fixed = world.reads?.get(test.number);
    if (fixed !== undefined && opts.includes(fixed)) return { outcome: fixed, guessed, opts };
    return { outcome: opts[(world.draws[test.number] ?? 0) % opts.length] ?? -1, guessed, opts };
}

/** Each outcome once, `normal` only where there is no other. */
function optionsOf({ normal }: UnitTest, outcomes: readonly number[]): readonly number[] {
    const abnormal = sorted(new Set(outcomes)).filter(outcome => outcome !== normal);
    if (abnormal.length > 0) return abnormal;
    return normal < 0 ? [] : [normal];
}

interface Possible {
    /** What is said outright, by `makes` and by `checks … as`. */
    readonly said: readonly number[];
    /** What each single check without `as`, and each single effect, may show. */
    readonly single: readonly (readonly number[])[];
}

function possibleOutcomes(test: UnitTest, faults: ReadonlySet<number>, situation: Situation): Possible {
    const { said, exempt } = madeOutcomes(test, faults, situation);
    const others = exempt.size === 0 ? faults : new Set([...faults].filter(fault => !exempt.has(fault)));
    const available = availableEntries(test, situation);
    const abnormal = available.filter(({ outcome }) => outcome !== test.normal);
    const single: (readonly number[])[] = [];
    for (const check of test.checks) {
        if (!others.has(check.fault) || !exists(check.guard, situation.build)) continue;
        if (check.outcome === undefined) single.push(outcomesOf(abnormal));
        else if (check.outcome >= 0) said.push(check.outcome);
    }
    const { effects, dead } = affected(test, viewOf(situation, others));
    if (!(dead && hasNormalForState(test, available))) {
        for (const effect of strongest(effects)) single.push(outcomesShowing(effect, abnormal));
    }
    return { said, single };
}

/** What `makes` says of the faults, and the faults of which it says something: nothing else counts for them. */
function madeOutcomes(
    test: UnitTest,
    faults: ReadonlySet<number>,
    situation: Situation,
): { readonly said: number[]; readonly exempt: ReadonlySet<number> } {
    const said: number[] = [];
    const exempt = new Set<number>();
    for (const fault of faults) {
        for (const makes of situation.unit.faults[fault]?.makes ?? []) {
            if (makes.test !== test.number || !exists(makes.guard, situation.build)) continue;
            exempt.add(fault);
            if (!holdsIfSaid(makes.when, situation) || (makes.unless && holds(makes.unless, situation))) continue;
            said.push(...makes.outcomes.filter(outcome => outcome >= 0));
        }
    }
    return { said, exempt };
}

/** What has stopped hides what is only weak, loaded or raised. */
function strongest(effects: Effects): Effects {
    const stops = [...effects].filter(effect => effect === 'stopped' || effect === 'shorted');
    return stops.length > 0 ? new Set(stops) : effects;
}

/** The outcomes that say an effect; a near effect serves where none does, then the outcomes that say no effect at all. */
function outcomesShowing(effect: ShownEffect, abnormal: readonly UnitOutcome[]): readonly number[] {
    const serving: readonly ShownEffect[] =
        effect === 'loaded' ? ['loaded', 'weakened'] : effect === 'shorted' ? ['shorted', 'stopped'] : [effect];
    for (const one of serving) {
        const showing = abnormal.filter(({ shows }) => shows.includes(one));
        if (showing.length > 0) return outcomesOf(showing);
    }
    return outcomesOf(abnormal.filter(({ shows }) => shows.length === 0));
}

function outcomesOf(entries: readonly UnitOutcome[]): readonly number[] {
    return [...new Set(entries.map(({ outcome }) => outcome))];
}

function availableEntries(test: UnitTest, situation: Situation): readonly UnitOutcome[] {
    return test.entries.filter(({ guard, when }) => exists(guard, situation.build) && holdsIfSaid(when, situation));
}

/** Whether the test says what is normal in just this state. */
function hasNormalForState(test: UnitTest, available: readonly UnitOutcome[]): boolean {
    return available.some(({ outcome, when }) => outcome === test.normal && when !== undefined);
}

/** What keeps a test from saying anything in a state. */
export function silenceOf(test: UnitTest, situation: Situation): readonly ('no energy' | 'nothing said')[] {
    if (test.identifies) return [];
    const available = availableEntries(test, situation);
    const found: ('no energy' | 'nothing said')[] = [];
    if (isDead(test, situation) && !hasNormalForState(test, available)) found.push('no energy');
    const isNormal = ({ outcome }: UnitOutcome): boolean => outcome === test.normal;
    if (test.entries.some(isNormal) && !available.some(isNormal)) found.push('nothing said');
    return found;
}

/** What must be so before a test is asked; only what the build has. */
export function needsOf(test: UnitTest, build: PartialBuild): readonly StateCondition[] {
    return test.needs.filter(({ guard }) => exists(guard, build)).map(({ state }) => state);
}

/** What was so when somebody complained of an outcome: the needs of the test, and of those that it is worked out from. */
export function needsOfComplaint(test: UnitTest, unit: Unit, build: PartialBuild): readonly StateCondition[] {
    const readings = test.readings.flatMap(number => unit.tests[number] ?? []);
    const tests = [test, ...readings.filter(({ guard }) => exists(guard, build))];
    return tests.flatMap(one => needsOf(one, build)).filter(({ sort }) => sort !== 'taken');
}
