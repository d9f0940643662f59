// Detached signatures of documents: a JWS without its payload (RFC 7515, appendix F), made with Ed25519 (RFC 8037).
//
// It uses only what Node and browsers share (Web Cryptography), so that a reader can check what we have signed.

/** A public key as a JWK (RFC 8037): `x` is the key in base64url. */
export interface PublicKey {
    readonly kty: 'OKP';
    readonly crv: 'Ed25519';
    readonly x: string;
}

/** A private key as a JWK; `d` is the secret and must never be shown to anybody. */
export interface PrivateKey extends PublicKey {
    readonly d: string;
}

export type SignatureCheck =
    /** The holder of the key has signed this payload. */
    | { readonly sort: 'valid'; readonly kid: string | undefined }
    /** The signature names another key. */
    | { readonly sort: 'other key'; readonly kid: string }
    /** The payload is not what was signed, or the signature is not what was made, or another key was used that it does not name. */
    | { readonly sort: 'changed'; readonly kid: string | undefined }
    /** This is no signature of the sort that is made here; `why` is one sentence. */
    | { readonly sort: 'damaged'; readonly why: string }
    /** What the program runs on does not know Ed25519. */
    | { readonly sort: 'not supported' };

/** The name of a key: its thumbprint (RFC 7638) with SHA-256, in base64url. */
export async function keyThumbprint({ crv, kty, x }: PublicKey): Promise<string> {
    // The members that RFC 8037 names, in the order of their names.
    return toBase64url(await crypto.subtle.digest('SHA-256', toBytes(JSON.stringify({ crv, kty, x }))));
}

/** Whether a text is 32 bytes in base64url, as both halves of a key are. */
export function isKeyPart(text: unknown): text is string {
    return typeof text === 'string' && fromBase64url(text)?.length === keyBytes;
}

/** Signs a text, which is canonical JSON where it is a document; the header names the key by its thumbprint. */
export async function signDetached(payload: string, key: PrivateKey): Promise<string> {
    return signWithHeader({ alg: algorithm, kid: await keyThumbprint(key) }, payload, key);
}

/**
 * Signs a text under a header of one's own.
 *
 * Throws a DOMException where the two halves of the key do not belong together, or Ed25519 is not supported.
 */
export async function signWithHeader(
    header: Readonly<Record<string, string>>,
    payload: string,
    { kty, crv, x, d }: PrivateKey,
): Promise<string> {
    const protectedHeader = toBase64url(toBytes(JSON.stringify(header)));
    const key = await crypto.subtle.importKey('jwk', { kty, crv, x, d }, crv, false, ['sign']);
    const signature = await crypto.subtle.sign(crv, key, signingInput(protectedHeader, payload));
    return `${protectedHeader}..${toBase64url(signature)}`;
}

/** Checks a detached signature against a text and the key of who is said to have signed it. Never throws. */
export async function checkDetached(jws: string, payload: string, key: PublicKey): Promise<SignatureCheck> {
    const read = readDetached(jws);
    if (read.why !== undefined) return { sort: 'damaged', why: read.why };
    const { protectedHeader, signature, kid } = read;
    let isValid: boolean;
    try {
        const { kty, crv, x } = key;
        const imported = await crypto.subtle.importKey('jwk', { kty, crv, x }, crv, false, ['verify']);
        isValid = await crypto.subtle.verify(crv, imported, signature, signingInput(protectedHeader, payload));
    } catch (problem) {
        if (problem instanceof DOMException && problem.name === 'NotSupportedError') return { sort: 'not supported' };
        // A key that is no point of the curve has signed nothing.
        isValid = false;
    }
    if (isValid) return { sort: 'valid', kid };
    if (kid !== undefined && kid !== (await keyThumbprint(key))) return { sort: 'other key', kid };
    return { sort: 'changed', kid };
}

const algorithm = 'EdDSA';
const keyBytes = 32;
const signatureBytes = 64;

type DetachedParts =
    | {
          readonly protectedHeader: string;
          readonly signature: Uint8Array<ArrayBuffer>;
          readonly kid: string | undefined;
          readonly why?: undefined;
      }
    | { readonly why: string };

function readDetached(jws: string): DetachedParts {
    const [protectedHeader, payload, signed, ...others] = jws.split('.');
    if (!protectedHeader || payload === undefined || signed === undefined || others.length > 0) {
        return { why: 'A signature has three parts with dots between them, of which the second is empty.' };
    }
    if (payload !== '') return { why: 'It carries a text of its own; a signature beside a document has none.' };
    const header = readHeader(protectedHeader);
    if (header === undefined) return { why: 'Its first part cannot be read.' };
    if (header['alg'] !== algorithm) return { why: 'It is not of the sort `EdDSA`.' };
    // Both change what is signed, and nobody may pass over them (RFC 7515 section 4.1.11, RFC 7797).
    if ('crit' in header || 'b64' in header) return { why: 'It asks for extensions that are not known here.' };
    const signature = fromBase64url(signed);
    if (signature?.length !== signatureBytes) return { why: 'Its last part is not 64 bytes in base64url.' };
    const kid = header['kid'];
    if (kid !== undefined && typeof kid !== 'string') return { why: 'What it names as its key is no text.' };
    return { protectedHeader, signature, kid };
}

function readHeader(encoded: string): Readonly<Record<string, unknown>> | undefined {
    const bytes = fromBase64url(encoded);
    if (!bytes) return undefined;
    try {
        const header: unknown = JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes));
        return typeof header === 'object' && header !== null && !Array.isArray(header)
            ? (header as Record<string, unknown>)
            : undefined;
    } catch {
        return undefined;
    }
}

function signingInput(protectedHeader: string, payload: string): Uint8Array<ArrayBuffer> {
    return toBytes(`${protectedHeader}.${toBase64url(toBytes(payload))}`);
}

function toBytes(text: string): Uint8Array<ArrayBuffer> {
    return new TextEncoder().encode(text);
}

/** Base64url without padding (RFC 7515, appendix C). */
function toBase64url(data: ArrayBuffer | Uint8Array): string {
    const bytes = new Uint8Array(data);
    // More than some ten thousand arguments at once can be too many for a call.
    const most = 0x8000;
    let binary = '';
    for (let start = 0; start < bytes.length; start += most) {
        binary += String.fromCharCode(...bytes.subarray(start, start + most));
    }
    return btoa(binary).replaceAll('+', '-').replaceAll('/', '_').replaceAll('=', '');
}

/** The bytes; undefined for what `toBase64url` would not have written, so that each signature has one spelling. */
function fromBase64url(text: string): Uint8Array<ArrayBuffer> | undefined {
    if (!/^[A-Za-z0-9_-]*$/.test(text) || text.length % 4 === 1) return undefined;
    const binary = atob(text.replaceAll('-', '+').replaceAll('_', '/'));
    const bytes = Uint8Array.from(binary, sign => sign.charCodeAt(0));
    return toBase64url(bytes) === text ? bytes : undefined;
}
