/** Says where two values differ first, in a line or two: whole models and documents are too long to read. */

/** Fails where the two differ, and says where. */
export function expectSame(expected: unknown, found: unknown): void {
    const difference = differenceOf(expected, found);
    if (difference !== undefined) throw new Error(difference);
}

/** The first lines in which the two differ, written as JSON; undefined where they are equal. */
export function differenceOf(expected: unknown, found: unknown): string | undefined {
    const [lines, others] = [expected, found].map(value => (JSON.stringify(value, null, 1) ?? 'nothing').split('\n'));
    if (!lines || !others) return undefined;
    const index = lines.findIndex((line, number) => line !== others[number]);
    if (index < 0 && lines.length === others.length) return undefined;
    const place = index < 0 ? lines.length : index;
    const around = (some: readonly string[]): string =>
        some
            .slice(Math.max(0, place - linesBefore), place + 2)
            .map(line => line.trim().slice(0, longestShown))
            .join(' ');
    return `expected ${around(lines)}\n   found ${around(others)}`;
}

const linesBefore = 6;
const longestShown = 200;
