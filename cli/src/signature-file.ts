// Where the signature of a document stands: beside it, with another ending.

/** The name of the signature of a document: `NAME.jws` beside `NAME.json`. */
export function signatureFileOf(document: string): string {
    return `${document.replace(/\.json$/i, '')}.jws`;
}
