// The two ways in which a document becomes text: canonical JSON (RFC 8785) for digests and signatures, and a form for people.

/**
 * Canonical JSON as RFC 8785 defines it: no space, properties sorted by the UTF-16 units of their names, numbers and
 * texts as ECMAScript writes them. Equal data gives equal text, so that a digest of it means something.
 *
 * Throws a TypeError on what I-JSON (RFC 7493) cannot hold: a number that is not finite, half of a surrogate pair,
 * anything that is no plain data. Properties that are undefined count as left out. A document that the writer made holds none of these.
 */
export function canonicalJson(value: unknown): string {
    switch (typeof value) {
        case 'boolean':
            return String(value);
        case 'number':
            if (!Number.isFinite(value)) throw new TypeError(`JSON cannot hold the number ${value}.`);
            return JSON.stringify(value);
        case 'string':
            if (halfPair.test(value)) throw new TypeError('JSON for others cannot hold half of a surrogate pair.');
            return JSON.stringify(value);
        case 'object':
            return value === null ? 'null' : canonicalObject(value);
        default:
            throw new TypeError(`JSON cannot hold a ${typeof value}.`);
    }
}

/** JSON for people: two spaces, properties in the order of the schema, and a line feed at the end. */
export function prettyJson(value: object): string {
    return `${JSON.stringify(value, null, 2)}\n`;
}

/**
 * SHA-256 of the UTF-8 bytes of the canonical JSON, in lower-case hexadecimal.
 * It is the same for the pretty form of the same document, once that has been read as JSON.
 */
export async function canonicalSha256(value: unknown): Promise<string> {
    return sha256(canonicalJson(value));
}

/** SHA-256 of bytes, or of the UTF-8 bytes of a text, in lower-case hexadecimal. */
export async function sha256(data: string | Uint8Array<ArrayBuffer>): Promise<string> {
    const bytes = typeof data === 'string' ? new TextEncoder().encode(data) : data;
    const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));
    return Array.from(digest, byte => byte.toString(16).padStart(2, '0')).join('');
}

const halfPair = /[\uD800-\uDBFF](?![\uDC00-\uDFFF])|(?<![\uD800-\uDBFF])[\uDC00-\uDFFF]/;

function canonicalObject(value: object): string {
    if (Array.isArray(value)) return `[${Array.from(value, canonicalJson).join(',')}]`;
    const prototype: unknown = Object.getPrototypeOf(value);
    if (prototype !== Object.prototype && prototype !== null) throw new TypeError('JSON can hold only plain data.');
    const properties = Object.entries(value).filter(([, property]) => property !== undefined);
    // Comparing texts with < compares their UTF-16 units, which is the order that the RFC asks for.
    properties.sort(([a], [b]) => (a < b ? -1 : Number(a > b)));
    return `{${properties.map(([name, property]) => `${canonicalJson(name)}:${canonicalJson(property)}`).join(',')}}`;
}
