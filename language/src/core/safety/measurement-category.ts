// Measurement categories (IEC 61010-2-030): which instrument may be used where.

/** What an instrument is marked with, or a place asks for; volts, rms or DC. */
export interface Category {
    /** 2, 3 or 4; 1 is the former category I. Undefined where the word is no category. */
    readonly rank: number | undefined;
    /** Undefined where none is written. */
    readonly voltage: number | undefined;
}

/** The rank of a category by its name: II socket outlets, III the fixed installation, IV the source of the installation. */
export function categoryRank(name: string): number | undefined {
    const rank = ['I', 'II', 'III', 'IV'].indexOf(name.toUpperCase());
    return rank < 0 ? undefined : rank + 1;
}

/**
 * Whether a mark is enough: its category is the one asked for or a higher one, and its voltage is the one asked for or more.
 * A mark without a voltage says nothing of how far it holds, so it is enough only where no voltage is asked for.
 */
export function serves(mark: Category, asked: Category): boolean {
    if (mark.rank === undefined || asked.rank === undefined || mark.rank < asked.rank) return false;
    return asked.voltage === undefined || (mark.voltage !== undefined && mark.voltage >= asked.voltage);
}
