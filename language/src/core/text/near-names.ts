// Finds the names that a mistyped name most likely stands for.

/**
 * At most three of the candidates that are a slip or two away from the name, the nearest first; none when nothing is near.
 * Upper and lower case do not count. A slip is a letter too many, missing, wrong, or changed places with its neighbor.
 * The name itself, where it is among the candidates, is left out. Repeated candidates count once.
 */
export function nearNames(name: string, candidates: Iterable<string>): readonly string[] {
    const wanted = name.toLowerCase();
    const limit = slipsAllowed(wanted.length);
    const letters = letterSet(wanted);
    const near: { readonly candidate: string; readonly distance: number }[] = [];
    for (const candidate of new Set(candidates)) {
        if (candidate === name || Math.abs(candidate.length - name.length) > limit) {
            continue;
        }
        const lowered = candidate.toLowerCase();
        // One slip changes at most two letters of the set, so most candidates are dismissed without being compared.
        if (bitCount(letters ^ letterSet(lowered)) > 2 * limit) {
            continue;
        }
        const distance = slipsBetween(wanted, lowered, limit);
        if (distance <= limit) {
            near.push({ candidate, distance });
        }
    }
    near.sort((a, b) => a.distance - b.distance || compareText(a.candidate, b.candidate));
    return near.slice(0, mostNames).map(({ candidate }) => candidate);
}

/**
 * The number of slips between two texts (restricted Damerau-Levenshtein distance, in UTF-16 units).
 * Distances above `limit` are not worked out: the answer is then `limit + 1`.
 */
export function slipsBetween(a: string, b: string, limit: number): number {
    if (Math.abs(a.length - b.length) > limit) {
        return limit + 1;
    }
    let beforePrevious: number[] = [];
    let previous = Array.from({ length: b.length + 1 }, (_, column) => column);
    for (let row = 1; row <= a.length; row += 1) {
        const current = [row];
        let least = row;
        for (let column = 1; column <= b.length; column += 1) {
            const same = a.charCodeAt(row - 1) === b.charCodeAt(column - 1);
            let cost = Math.min(
                at(previous, column) + 1,
                at(current, column - 1) + 1,
                at(previous, column - 1) + (same ? 0 : 1),
            );
            if (isSwap(a, row, b, column)) {
                cost = Math.min(cost, at(beforePrevious, column - 2) + 1);
            }
            current.push(cost);
            least = Math.min(least, cost);
        }
        // A later row can be lower than this one only through a swap from the row before it.
        if (least > limit && Math.min(...previous) >= limit) {
            return limit + 1;
        }
        beforePrevious = previous;
        previous = current;
    }
    return Math.min(at(previous, b.length), limit + 1);
}

const mostNames = 3;
const mostSlips = 3;

// A third of the letters may be wrong; in a name of one letter none may, or every other letter would be near.
function slipsAllowed(length: number): number {
    return Math.min(mostSlips, Math.floor((length + 1) / 3));
}

function isSwap(a: string, row: number, b: string, column: number): boolean {
    return (
        row > 1 &&
        column > 1 &&
        a.charCodeAt(row - 1) === b.charCodeAt(column - 2) &&
        a.charCodeAt(row - 2) === b.charCodeAt(column - 1)
    );
}

function at(row: readonly number[], column: number): number {
    return row[column] ?? Number.POSITIVE_INFINITY;
}

// Letters share bits when their codes are equal modulo 32; a shared bit only makes the filter let more through.
function letterSet(text: string): number {
    let set = 0;
    for (let index = 0; index < text.length; index += 1) {
        set |= 1 << (text.charCodeAt(index) & 31);
    }
    return set;
}

function bitCount(bits: number): number {
    let count = 0;
    for (let rest = bits >>> 0; rest !== 0; rest &= rest - 1) {
        count += 1;
    }
    return count;
}

function compareText(a: string, b: string): number {
    if (a === b) {
        return 0;
    }
    return a < b ? -1 : 1;
}
