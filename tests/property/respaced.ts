/** Cuts a text into texts, comments, blanks and the rest, without our lexer, and gives it other blanks. */
import fc from 'fast-check';

interface Stretch {
    readonly sort: 'text' | 'comment' | 'blank' | 'rest';
    readonly text: string;
}

/** A text with some of its blanks changed. */
export interface Respaced {
    readonly text: string;
    /** What fast-check prints of it: the changed blanks with what stands around them. */
    readonly [fc.toStringMethod]: () => string;
}

/** The comments of a text in their order, each line without the blanks around it. */
export function commentsIn(text: string): string[] {
    const comments = stretchesOf(text).filter(({ sort }) => sort === 'comment');
    return comments.map(comment =>
        comment.text
            .split(/\r\n|\r|\n/)
            .map(line => line.trim())
            .join('\n'),
    );
}

/** The same text with other blanks, line breaks and more comments; what stands there stays, and so does what is one word. */
export function respaced(text: string): fc.Arbitrary<Respaced> {
    const stretches = stretchesOf(text);
    const gaps = [...stretches.keys()].filter(index => stretches[index]?.sort === 'blank');
    const change = fc.tuple(fc.constantFrom(...gaps), fc.nat(numberOfPicks - 1));
    const changes = fc.array(change, { minLength: 1, maxLength: gaps.length, size: 'max' });
    return changes.map(some => {
        const picked = new Map(some.map(([gap, pick]) => [gap, gapAt(stretches, gap, pick)]));
        return {
            text: stretches.map(({ text: own }, index) => picked.get(index) ?? own).join(''),
            [fc.toStringMethod]: () => [...picked].map(([gap, blank]) => describe(stretches, gap, blank)).join(''),
        };
    });
}

function describe(stretches: readonly Stretch[], gap: number, blank: string): string {
    const [before = '', own = '', after = ''] = [gap - 1, gap, gap + 1].map(index => stretches[index]?.text);
    return `\n    between ${before} and ${after}: ${JSON.stringify(own)} becomes ${JSON.stringify(blank)}`;
}

function stretchesOf(text: string): Stretch[] {
    return Array.from(text.matchAll(pattern), ({ 0: all, groups = {} }) => {
        if (groups['text'] !== undefined) return { sort: 'text', text: all };
        if (groups['comment'] !== undefined) return { sort: 'comment', text: all };
        return { sort: groups['blank'] === undefined ? 'rest' : 'blank', text: all };
    });
}

const pattern =
    /(?<text>"""[\s\S]*?"""|"(?:\\.|[^"\\\r\n])*")|(?<comment>\/\/[^\r\n]*|\/\*[\s\S]*?\*\/)|(?<blank>\s+)|[^\s"/]+|./gu;

function gapAt(stretches: readonly Stretch[], index: number, pick: number): string {
    const gaps = gapsFor(stretches, index);
    return (gaps[pick % gaps.length] ?? ' ').replace('#', String(index));
}

function gapsFor(stretches: readonly Stretch[], index: number): readonly string[] {
    const before = stretches[index - 1];
    const after = stretches[index + 1];
    if (stretches[index]?.text.includes('\n')) return brokenGaps;
    // What follows a number on its line may be its unit, and then no line may end between them.
    if (before?.sort === 'rest' && /[0-9]$/.test(before.text)) return evenGaps;
    // A unit of two words has one blank in it.
    if (before?.text.endsWith('%') && /^(vol|RH|LEL)\b/i.test(after?.text ?? '')) return [' '];
    const tight = [before?.text.at(-1), after?.text.at(0)].some(sign => sign !== undefined && '{}(),'.includes(sign));
    return [...evenGaps, ...brokenGaps, ...(tight ? [''] : [])];
}

const evenGaps = [' ', '    ', '\t'];
const brokenGaps = ['\n', '\n\n\n\n', '\r\n', '\n          ', ' \t \n\t', ' // added #\n', '\n\n/* added #\n one */\n'];
const numberOfPicks = 220;
