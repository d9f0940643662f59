/** The orders in which files can be given. */
import fc from 'fast-check';

/** A file's path and its text. */
export type GivenFile = readonly [file: string, text: string];

/** The same files in any order; fast-check prints only their names. */
export function anyOrder(files: readonly GivenFile[]): fc.Arbitrary<readonly GivenFile[]> {
    return fc
        .shuffledSubarray([...files], { minLength: files.length })
        .map(order => Object.assign(order, { [fc.toStringMethod]: () => order.map(([file]) => file).join(', ') }));
}
