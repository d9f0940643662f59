/** How often a property is tried, and with which seed: always the same one, unless the environment names another. */
import type { Parameters } from 'fast-check';

/** Set `PROPERTY_SEED` to another whole number to try other cases than everybody does. */
const seed = Number(process.env['PROPERTY_SEED'] ?? 20_260_131);

/** The settings of fast-check for so many cases. A failure prints the seed, the path and the smallest case. */
export function runs<T>(count: number): Parameters<T> & { readonly seed: number } {
    return { seed, numRuns: count };
}
