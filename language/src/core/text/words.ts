// Small parts of sentences for messages: lists, counted nouns and quoted names.

/** `a`, `a and b`, `a, b and c`; with `most`, the rest is counted: `a, b and 4 more`. An empty list gives an empty text. */
export function listOf(items: readonly string[], word: 'and' | 'or', most = Number.POSITIVE_INFINITY): string {
    const shown = items.length > most ? [...items.slice(0, most), `${items.length - most} more`] : items;
    if (shown.length <= 1) {
        return shown[0] ?? '';
    }
    return `${shown.slice(0, -1).join(', ')} ${word} ${shown[shown.length - 1] ?? ''}`;
}

/** A count and its noun: `1 part`, `2 parts`, `0 parts`; give the plural where it is not made with an s. */
export function plural(count: number, one: string, many = `${one}s`): string {
    return `${count} ${count === 1 ? one : many}`;
}

/** Things that lead to each other: `a → b → c`; of a long chain the middle is counted: `a → b → 7 more → c`. */
export function chainOf(items: readonly string[], most = 8): string {
    const shown =
        items.length > most
            ? [...items.slice(0, most - 2), `${items.length - most + 1} more`, ...items.slice(-1)]
            : items;
    return shown.join(' → ');
}

/** A noun with its article: `a part`, `an option`. */
export function withArticle(noun: string): string {
    return `${/^[aeiou]/i.test(noun) ? 'an' : 'a'} ${noun}`;
}

/**
 * A name between backticks for a message. Line breaks, control characters and marks that turn the writing direction are shown as codes,
 * so that an authored name can neither break the message nor pose as another; a name above 80 characters is cut with `…`.
 */
export function quoteName(name: string): string {
    const visible = cut(name).replace(
        hidden,
        character => `\\u{${(character.codePointAt(0) ?? 0).toString(16).toUpperCase()}}`,
    );
    if (!visible.includes('`')) {
        return `\`${visible}\``;
    }
    // A longer fence than any inside keeps the name whole where the message is shown as Markdown.
    const longestRun = Math.max(...(visible.match(/`+/g) ?? []).map(run => run.length));
    const fence = '`'.repeat(longestRun + 1);
    return `${fence} ${visible} ${fence}`;
}

const longestName = 80;

// Control and format characters, line and paragraph separators, and halves of characters that stand alone.
const hidden = /[\p{Cc}\p{Cf}\u2028\u2029\p{Cs}]/gu;

function cut(name: string): string {
    if (name.length <= longestName) {
        return name;
    }
    const characters = [...name];
    return characters.length <= longestName ? name : `${characters.slice(0, longestName - 1).join('')}…`;
}
