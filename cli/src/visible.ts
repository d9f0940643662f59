// Makes text fit to be shown on a terminal: nothing in it can move the cursor, change colors or turn the direction of writing.

// Control characters, format characters (but not the joiners inside emoji and scripts), separators, and halves of pairs.
const hidden = /[\p{Cc}\p{Cs}\u00AD\u061C\u180E\u200B\u200E\u200F\u2028-\u202E\u2060-\u206F\uFEFF\uFFF9-\uFFFB]/gu;

/** The text with every character that is not to be seen written as a code, such as `\u{1B}`. */
export function visible(text: string): string {
    return text.replace(hidden, character => `\\u{${(character.codePointAt(0) ?? 0).toString(16).toUpperCase()}}`);
}

/** The text with a stand-in of one column for each character that is not to be seen; its length stays the same. */
export function visibleInPlace(text: string): string {
    return text.replace(hidden, '\uFFFD');
}
