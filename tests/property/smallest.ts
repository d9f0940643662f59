/** Makes a text that fails smaller, so that a person can read why. */

/** What is left of a text when no line, and no block in braces, can be taken out without the failure going away. */
export function smallestText(text: string, fails: (text: string) => boolean): string {
    let lines = text.split('\n');
    const tryWithout = (start: number, count: number): boolean => {
        const fewer = [...lines.slice(0, start), ...lines.slice(start + count)];
        if (count === 0 || !fails(fewer.join('\n'))) return false;
        lines = fewer;
        return true;
    };
    for (let again = true; again;) {
        again = false;
        for (let index = lines.length - 1; index >= 0; index--) {
            again = tryWithout(index, 1) || tryWithout(index, blockAt(index, lines)) || again;
        }
    }
    return lines.join('\n');
}

/** How many lines the block has that begins in a line; 0 where none does. */
function blockAt(index: number, lines: readonly string[]): number {
    let depth = 0;
    for (let end = index; end < lines.length; end++) {
        const line = lines[end] ?? '';
        depth += line.split('{').length - line.split('}').length;
        if (end === index && depth <= 0) return 0;
        if (depth <= 0) return end - index + 1;
    }
    return 0;
}
