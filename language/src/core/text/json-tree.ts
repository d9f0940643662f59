// Reads JSON into values that know where they were written, so that a mistake in it can be shown at its place.

/** A value of JSON with its stretch of the text, in UTF-16 offsets. */
export type JsonTree = JsonObject | JsonArray | JsonScalar;

export interface JsonObject extends JsonStretch {
    readonly sort: 'object';
    /** In the order written; a name that is written twice is here twice. */
    readonly properties: readonly JsonProperty[];
}

export interface JsonArray extends JsonStretch {
    readonly sort: 'array';
    readonly items: readonly JsonTree[];
}

export interface JsonScalar extends JsonStretch {
    readonly sort: 'scalar';
    readonly value: string | number | boolean | null;
}

export interface JsonProperty extends JsonStretch {
    readonly name: string;
    readonly nameStart: number;
    readonly nameEnd: number;
    readonly value: JsonTree;
}

export interface JsonStretch {
    readonly start: number;
    readonly end: number;
}

/** What is no JSON in a text, and where. */
export interface JsonProblem extends JsonStretch {
    readonly sort: 'problem';
    /** One sentence. */
    readonly message: string;
}

/** Reads a text that holds one value of JSON (RFC 8259); a byte order mark at its beginning is passed over. Never throws. */
export function readJson(text: string): JsonTree | JsonProblem {
    const reader: Reader = { text, offset: text.startsWith('\uFEFF') ? 1 : 0, depth: 0 };
    const value = readValue(reader);
    if (value.sort === 'problem') return value;
    skipSpace(reader);
    return reader.offset === text.length ? value : problem(reader, 'Nothing may follow the closing brace.');
}

interface Reader {
    readonly text: string;
    offset: number;
    depth: number;
}

/** Deeper nesting is refused, so that no text can exhaust the stack. */
const deepestNesting = 64;

const scalarPattern = /(?:-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?|true|false|null)(?![\w.+-])/y;
const textPattern = /"(?:[^"\\\u0000-\u001f]|\\(?:["\\/bfnrt]|u[\dA-Fa-f]{4}))*"/y;

function readValue(reader: Reader): JsonTree | JsonProblem {
    skipSpace(reader);
    const { text, offset: start } = reader;
    const first = text[start];
    if (first === '{' || first === '[') {
        if (reader.depth >= deepestNesting) return problem(reader, 'The brackets stand too deep inside each other.');
        reader.depth += 1;
        const value = first === '{' ? readObject(reader) : readArray(reader);
        reader.depth -= 1;
        return value;
    }
    const written = match(reader, first === '"' ? textPattern : scalarPattern);
    if (written === undefined) return problem(reader, whyNoValue(first));
    const value = JSON.parse(written) as JsonScalar['value'];
    return { sort: 'scalar', value, start, end: reader.offset };
}

function readObject(reader: Reader): JsonObject | JsonProblem {
    const start = reader.offset;
    const properties: JsonProperty[] = [];
    reader.offset += 1;
    if (passOver(reader, '}')) return { sort: 'object', properties, start, end: reader.offset };
    do {
        skipSpace(reader);
        const nameStart = reader.offset;
        const written = match(reader, textPattern);
        if (written === undefined) return problem(reader, 'A name in double quotes is expected here.');
        const nameEnd = reader.offset;
        if (!passOver(reader, ':')) return problem(reader, 'A colon is expected here.');
        const value = readValue(reader);
        if (value.sort === 'problem') return value;
        const name = JSON.parse(written) as string;
        properties.push({ name, nameStart, nameEnd, value, start: nameStart, end: value.end });
    } while (passOver(reader, ','));
    if (!passOver(reader, '}')) return problem(reader, 'A comma or a closing brace is expected here.');
    return { sort: 'object', properties, start, end: reader.offset };
}

function readArray(reader: Reader): JsonArray | JsonProblem {
    const start = reader.offset;
    const items: JsonTree[] = [];
    reader.offset += 1;
    if (passOver(reader, ']')) return { sort: 'array', items, start, end: reader.offset };
    do {
        const item = readValue(reader);
        if (item.sort === 'problem') return item;
        items.push(item);
    } while (passOver(reader, ','));
    if (!passOver(reader, ']')) return problem(reader, 'A comma or a closing bracket is expected here.');
    return { sort: 'array', items, start, end: reader.offset };
}

function whyNoValue(first: string | undefined): string {
    if (first === undefined) return 'The text ends before a value.';
    if (first === '"') return 'This text has no closing quotation mark, or a character that JSON does not allow.';
    if (first === "'") return 'JSON needs double quotation marks.';
    if (first === '/') return 'JSON has no comments.';
    return 'A value is expected here: an object, a text in double quotes, a number, `true`, `false` or `null`.';
}

function problem(reader: Reader, message: string): JsonProblem {
    const end = Math.min(reader.offset + 1, reader.text.length);
    return { sort: 'problem', message, start: Math.min(reader.offset, end), end };
}

function passOver(reader: Reader, sign: string): boolean {
    skipSpace(reader);
    if (reader.text[reader.offset] !== sign) return false;
    reader.offset += 1;
    return true;
}

function skipSpace(reader: Reader): void {
    match(reader, /[ \t\r\n]*/y);
}

function match(reader: Reader, pattern: RegExp): string | undefined {
    pattern.lastIndex = reader.offset;
    const found = pattern.exec(reader.text)?.[0];
    if (found !== undefined) reader.offset += found.length;
    return found;
}
