// How many columns a text takes on a screen, and text broken into lines of a given width.

/**
 * The number of terminal columns that the text takes: two for wide East Asian characters and emoji,
 * none for combining marks, control and format characters, and for what a joiner adds to an emoji.
 */
export function displayWidth(text: string): number {
    if (narrow.test(text)) {
        return text.length;
    }
    return characterCells(text).reduce((sum, cell) => sum + cell.width, 0);
}

/**
 * The text broken at spaces into lines of at most `width` columns; line breaks in the text are kept.
 * A word that is too long for a line is broken between characters, and wide characters (which are written without spaces) may be too.
 * The result has at least one line; a width below 1 counts as 1. Only a single character can be wider than its line.
 */
export function wrap(text: string, width: number): readonly string[] {
    const columns = Math.max(1, Math.floor(width));
    return text.split(/\r\n|\r|\n/).flatMap(line => wrapLine(line, columns));
}

interface Cell {
    /** One character with the marks that stand on it. */
    readonly text: string;
    readonly width: number;
}

const narrow = /^[\x20-\x7E]*$/;
const unseen = /^[\p{M}\p{Cc}\p{Cf}]$/u;
const emoji = /^\p{Emoji_Presentation}$/u;
const joiner = '\u200D';
const emojiStyle = '\uFE0F';

// First and last code points of blocks that are two columns wide: Unicode Standard Annex 11, classes W and F, from memory.
const wideBlocks: readonly (readonly [number, number])[] = [
    [0x1100, 0x115f],
    [0x2e80, 0x303e],
    [0x3041, 0x33ff],
    [0x3400, 0x4dbf],
    [0x4e00, 0x9fff],
    [0xa000, 0xa4cf],
    [0xa960, 0xa97f],
    [0xac00, 0xd7a3],
    [0xf900, 0xfaff],
    [0xfe30, 0xfe6f],
    [0xff01, 0xff60],
    [0xffe0, 0xffe6],
    [0x1f200, 0x1f2ff],
    [0x20000, 0x3fffd],
];

function wrapLine(line: string, columns: number): string[] {
    const lines: string[] = [];
    let current = '';
    let used = 0;
    const breakLine = (): void => {
        lines.push(current);
        current = '';
        used = 0;
    };
    for (const word of line.split(/[ \t]+/).filter(part => part !== '')) {
        const pieces = unbreakablePieces(word, columns);
        pieces.forEach((piece, index) => {
            const space = index === 0 && current !== '' ? 1 : 0;
            if (current !== '' && used + space + piece.width > columns) {
                breakLine();
            } else if (space === 1) {
                current += ' ';
                used += 1;
            }
            current += piece.text;
            used += piece.width;
        });
    }
    lines.push(current);
    return lines;
}

// A run of narrow characters stays whole if it fits on a line. Wide characters may be parted from their neighbors,
// but closing punctuation stays with what it closes.
function unbreakablePieces(word: string, columns: number): readonly Cell[] {
    const pieces: { text: string; width: number; wide: boolean }[] = [];
    for (const { text, width } of characterCells(word)) {
        const last = pieces[pieces.length - 1];
        const wide = width > 1;
        if (last !== undefined && ((!wide && !last.wide) || closing.test(text))) {
            last.text += text;
            last.width += width;
        } else {
            pieces.push({ text, width, wide });
        }
    }
    return pieces.flatMap(piece => (piece.width > columns ? characterCells(piece.text) : [piece]));
}

const closing = /^[\p{Pe}\p{Pf}\p{Po}]/u;

function characterCells(text: string): Cell[] {
    const cells: { text: string; width: number }[] = [];
    let joined = false;
    for (const character of text) {
        const last = cells[cells.length - 1];
        if (last !== undefined && (joined || unseen.test(character))) {
            last.text += character;
            last.width = character === emojiStyle && last.width === 1 ? 2 : last.width;
            joined = character === joiner;
            continue;
        }
        cells.push({ text: character, width: characterWidth(character) });
        joined = false;
    }
    return cells;
}

function characterWidth(character: string): number {
    if (unseen.test(character)) {
        return 0;
    }
    const code = character.codePointAt(0) ?? 0;
    const wide = emoji.test(character) || wideBlocks.some(([first, last]) => code >= first && code <= last);
    return wide ? 2 : 1;
}
