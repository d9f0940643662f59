/** Random choices that are the same for the same seed, for things that are too large to be made of arbitraries. */

/** Draws one after the other. */
export interface Random {
    /** A whole number from `least` to `most`, both included. */
    readonly between: (least: number, most: number) => number;
    /** True with this chance, from 0 to 1. */
    readonly chance: (of: number) => boolean;
    /** One of a list that is not empty. */
    readonly pick: <T>(list: readonly T[]) => T;
    /** Some of a list, in its order: each with this chance. */
    readonly some: <T>(list: readonly T[], chance: number) => T[];
    /** So many results of a function, which is given 0, 1, 2 and so on. */
    readonly times: <T>(least: number, most: number, make: (index: number) => T) => T[];
}

/** Starts to draw. */
export function randomFrom(seed: number): Random {
    // The multiplier and the modulus are those of Lewis, Goodman and Miller (IBM Systems Journal 8, 1969), from memory.
    let state = 1 + (Math.abs(Math.trunc(seed)) % 2_147_483_645);
    const next = (): number => {
        state = (state * 16_807) % 2_147_483_647;
        return state / 2_147_483_647;
    };
    // Near seeds begin with near numbers; a few draws later they have nothing in common.
    for (let skipped = 0; skipped < 8; skipped++) next();
    const between = (least: number, most: number): number => least + Math.floor(next() * (most - least + 1));
    const chance = (of: number): boolean => next() < of;
    return {
        between,
        chance,
        pick: <T>(list: readonly T[]): T => {
            const index = between(0, list.length - 1);
            if (list.length === 0) throw new Error('There is nothing to pick from.');
            return list[index] as T;
        },
        some: (list, of) => list.filter(() => chance(of)),
        times: (least, most, make) => Array.from({ length: between(least, most) }, (_, index) => make(index)),
    };
}
