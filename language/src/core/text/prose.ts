// Turns a text as it is written in a file, with its quotes, into what it says.

/**
 * The value of a text token: `"one line"`, or several lines between three quotes.
 * Of several lines the common indentation is taken away, and so are blanks at the ends of lines,
 * an empty first line and an empty last one; lines end in `\n`.
 * `\"`, `\\`, `\n` and `\t` stand for a quote, a backslash, a new line and a tab; any other backslash stands for itself.
 * A text without its closing quotes has the value of what is there.
 */
export function textValue(written: string): string {
    if (!written.startsWith('"""')) {
        return unescape(written.slice(1, isClosed(written) ? -1 : undefined));
    }
    return unescape(textLines(written).join('\n'));
}

/**
 * The lines of a text between three quotes, dedented but with its escapes as written;
 * the first line is what stands behind the opening quotes, left out where nothing does.
 */
export function textLines(written: string): readonly string[] {
    const closed = written.length >= 6 && written.endsWith('"""');
    const [first = '', ...others] = written.slice(3, closed ? -3 : undefined).split(lineEnd);
    const rest = others.map(line => line.trimEnd());
    if (rest.at(-1) === '') {
        rest.pop();
    }
    const indentation = commonIndentation(rest);
    const lines = rest.map(line => line.slice(indentation.length));
    return first.trim() === '' && others.length > 0 ? lines : [first.trim(), ...lines];
}

/** The blanks that all lines begin with; lines without any other character do not count. */
export function commonIndentation(lines: readonly string[]): string {
    let common: string | undefined;
    for (const line of lines) {
        if (line.trim() === '') {
            continue;
        }
        const own = /^\s*/.exec(line)?.[0] ?? '';
        common = common === undefined ? own : sharedStart(common, own);
    }
    return common ?? '';
}

const lineEnd = /\r\n|\r|\n/;

// Texts between other quotes are a finding of their own; their value is what the writer meant.
const quote = /["“”„«»‘’'`]$/;

// A closing quote is one that no backslash escapes.
function isClosed(written: string): boolean {
    let backslashes = 0;
    while (written.charAt(written.length - 2 - backslashes) === '\\') {
        backslashes += 1;
    }
    return written.length > 1 && backslashes % 2 === 0 && quote.test(written);
}

function unescape(text: string): string {
    return text.includes('\\')
        ? text.replace(/\\([\s\S])/g, (whole, sign: string) => escapes.get(sign) ?? whole)
        : text;
}

const escapes: ReadonlyMap<string, string> = new Map([
    ['"', '"'],
    ['\\', '\\'],
    ['n', '\n'],
    ['t', '\t'],
]);

function sharedStart(a: string, b: string): string {
    let length = 0;
    while (length < a.length && a[length] === b[length]) {
        length += 1;
    }
    return a.slice(0, length);
}
