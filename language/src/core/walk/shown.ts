// How a test answers, as sets of worlds: answers limited and joined, and the draw where the model leaves several outcomes.

import type { UnitTest } from '../meaning/unit.js';
import { allWorlds, noWorlds, type WorldSet } from './sets/world-sets.js';
import type { WalkSpace } from './space.js';

/** How a test answers. */
export interface Shown {
    /** By outcome number. They overlap only where a fault comes and goes; draws keep the others apart. */
    readonly outcomes: readonly WorldSet[];
    /** By outcome number: the worlds in which it rests on no choice that the source leaves. */
    readonly sure: readonly WorldSet[];
    /** By outcome number: the worlds in which it does. Both, where a fault comes and goes. */
    readonly guessed: readonly WorldSet[];
    /** Worlds in which nothing is shown: the build lacks the option that is asked for, or no outcome says what is normal. */
    readonly nothing: WorldSet;
    /** Worlds in which nothing flows at the test, and no outcome is meant for that. */
    readonly dead: WorldSet;
    /** Worlds in which no outcome says what a healthy unit shows. */
    readonly unsaid: WorldSet;
}

/** Takes one of the outcomes that remain: normal where none does, else the one that the world's draw says. */
export function drawOutcomes(
    test: UnitTest,
    options: readonly WorldSet[],
    { sets, variables }: WalkSpace,
): { outcomes: readonly WorldSet[]; several: WorldSet } {
    const abnormal = options.reduce<WorldSet>(
        (any, set, outcome) => (outcome === test.normal ? any : sets.or(any, set)),
        noWorlds,
    );
    const outcomes = [...options];
    if (test.normal >= 0) outcomes[test.normal] = sets.not(abnormal);
    const size = variables.drawSizes[test.number] ?? 1;
    if (size === 1) return { outcomes, several: noWorlds };
    // ranks[r] and counts[k]: the worlds in which r outcomes stood before this one, and k remain in all.
    let counts: WorldSet[] = [allWorlds];
    const ranks: WorldSet[][] = [];
    options.forEach((set, outcome) => {
        ranks.push(counts);
        if (outcome === test.normal) return;
        counts = [...counts, noWorlds].map((count, index) =>
            sets.or(sets.without(count, set), sets.and(index > 0 ? (counts[index - 1] ?? noWorlds) : noWorlds, set)),
        );
    });
    const several = counts.slice(2).reduce<WorldSet>((any, set) => sets.or(any, set), noWorlds);
    if (several === noWorlds) return { outcomes, several };
    const draw = variables.draws[test.number] ?? -1;
    const drawn = outcomes.map((set, outcome) => {
        if (outcome === test.normal || set === noWorlds) return set;
        let shown = sets.without(set, several);
        for (let count = 2; count < counts.length; count += 1) {
            const here = sets.and(set, counts[count] ?? noWorlds);
            if (here === noWorlds) continue;
            (ranks[outcome] ?? []).forEach((before, rank) => {
                const values = Array.from({ length: size }, (_, value) => value).filter(
                    value => value % count === rank,
                );
                shown = sets.or(shown, sets.and(sets.and(here, before), sets.oneOf(draw, values)));
            });
        }
        return shown;
    });
    return { outcomes: drawn, several };
}

/** The worlds that are in none of the sets. */
export function withoutAll(list: readonly WorldSet[], sets: WalkSpace['sets']): WorldSet {
    return list.reduce<WorldSet>((left, set) => sets.without(left, set), allWorlds);
}

/** An answer in some worlds only. */
export function limitShown(shown: Shown, within: WorldSet, sets: WalkSpace['sets']): Shown {
    return {
        outcomes: shown.outcomes.map(set => sets.and(set, within)),
        sure: shown.sure.map(set => sets.and(set, within)),
        guessed: shown.guessed.map(set => sets.and(set, within)),
        nothing: sets.and(shown.nothing, within),
        dead: sets.and(shown.dead, within),
        unsaid: sets.and(shown.unsaid, within),
    };
}

/** Two answers, each in its own worlds; or both, where a fault comes and goes. */
export function joinShown(one: Shown, other: Shown, sets: WalkSpace['sets']): Shown {
    const join = (some: readonly WorldSet[], more: readonly WorldSet[]) =>
        some.map((set, outcome) => sets.or(set, more[outcome] ?? noWorlds));
    return {
        outcomes: join(one.outcomes, other.outcomes),
        sure: join(one.sure, other.sure),
        guessed: join(one.guessed, other.guessed),
        nothing: sets.or(one.nothing, other.nothing),
        dead: sets.or(one.dead, other.dead),
        unsaid: sets.or(one.unsaid, other.unsaid),
    };
}
