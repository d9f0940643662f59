// Reads the keys of signatures: a JWK (RFC 8037) or PEM, in a file or in a variable of the environment.
//
// Nothing of what is read, and nothing of where it was said to be, goes into a message: somebody may have written the key
// itself where its path belongs.

import { resolve } from 'node:path';
import { loadKeyParts, type PrivateKey, type PublicKey } from 'halfsplit-language';
import { Refusal } from '../command.js';
import type { Io } from '../io.js';
import { readWholeFile } from './read-file.js';

/** Reads a private key for signing. `written` is what stands behind `--sign`. */
export async function readPrivateKey(written: string, io: Io): Promise<PrivateKey> {
    const key = await readKey(written, { option: '--sign', io });
    if (key.d === undefined) {
        throw wrongKey('--sign', 'It is a public key, and only a private key can sign.');
    }
    return { kty: key.kty, crv: key.crv, x: key.x, d: key.d };
}

/** Reads a public key for checking signatures. `written` is what stands behind `--key`. */
export async function readPublicKey(written: string, io: Io): Promise<PublicKey> {
    const key = await readKey(written, { option: '--key', io });
    if (key.d !== undefined) {
        throw new Refusal(
            'The key of `--key` is a private key. Signatures are checked with the public key.',
            'Keep the private key to yourself, and give out the public key that belongs to it.',
        );
    }
    return { kty: key.kty, crv: key.crv, x: key.x };
}

interface Asked {
    readonly option: '--sign' | '--key';
    readonly io: Io;
}

type Key = PublicKey & { readonly d: string | undefined };

const mostKeyBytes = 1024 * 1024;
const environmentPrefix = 'env:';

async function readKey(written: string, asked: Asked): Promise<Key> {
    const text = keyText(written, asked).trim();
    if (text === '') throw wrongKey(asked.option, 'It is empty.');
    if (text.startsWith('{')) return readJwk(text, asked);
    if (text.includes('-----BEGIN ')) return readPem(text, asked);
    throw wrongKey(asked.option, 'It is neither a JWK nor PEM.');
}

function keyText(written: string, { option, io }: Asked): string {
    if (written.startsWith(environmentPrefix)) {
        const name = written.slice(environmentPrefix.length);
        const text = Object.hasOwn(io.environment, name) ? io.environment[name] : undefined;
        if (text === undefined) {
            throw new Refusal(
                `The variable of the environment that \`${option}\` names is not set.`,
                whatKeyIs(option),
            );
        }
        return text;
    }
    const read = readWholeFile(resolve(io.folder, written), mostKeyBytes);
    if (read.sort === 'read') return new TextDecoder().decode(read.bytes);
    throw new Refusal(`The key file of \`${option}\` cannot be read. ${read.message}`, whatKeyIs(option));
}

async function readJwk(text: string, asked: Asked): Promise<Key> {
    const { option } = asked;
    const jwk = parseObject(text);
    if (!jwk) throw wrongKey(option, 'It begins like a JWK, but is no JSON object.');
    if ('keys' in jwk) throw wrongKey(option, 'It is a set of keys, and one key is needed.');
    if (jwk['kty'] !== 'OKP' || jwk['crv'] !== 'Ed25519') throw otherSort(option);
    const { isKeyPart } = await loadKeyParts();
    const { x, d } = jwk;
    if (!isKeyPart(x)) throw wrongKey(option, 'Its `x` is not 32 bytes in base64url.');
    if (d !== undefined && !isKeyPart(d)) throw wrongKey(option, 'Its `d` is not 32 bytes in base64url.');
    if (!isForSignatures(jwk, d === undefined ? 'verify' : 'sign')) {
        throw wrongKey(option, 'Its `use`, `key_ops` or `alg` says that it is for something else.');
    }
    const key: Key = { kty: 'OKP', crv: 'Ed25519', x, d };
    if (d !== undefined && publicHalf(d, x) !== x) {
        throw wrongKey(option, 'Its `x` does not belong to its `d`.');
    }
    return key;
}

/** What RFC 7517 lets a key say of its use. */
function isForSignatures(jwk: Readonly<Record<string, unknown>>, operation: 'sign' | 'verify'): boolean {
    const { use, alg, key_ops: operations } = jwk;
    return (
        (use === undefined || use === 'sig') &&
        (alg === undefined || alg === 'EdDSA' || alg === 'Ed25519') &&
        (operations === undefined || (Array.isArray(operations) && operations.includes(operation)))
    );
}

/** The public key that belongs to a private key; Node works it out and does not look at the `x` that it is given. */
function publicHalf(d: string, x: string): string | undefined {
    const { createPrivateKey } = process.getBuiltinModule('node:crypto');
    try {
        const jwk = { kty: 'OKP', crv: 'Ed25519', d, x };
        return createPrivateKey({ key: jwk, format: 'jwk' }).export({ format: 'jwk' }).x;
    } catch {
        return undefined;
    }
}

function readPem(text: string, { option }: Asked): Key {
    const labels = [...text.matchAll(/-----BEGIN ([A-Z0-9 ]+)-----/g)].map(([, label]) => label);
    const [label, second] = labels;
    if (second !== undefined) throw wrongKey(option, 'It holds several things in PEM, and one key is needed.');
    if (label === 'ENCRYPTED PRIVATE KEY') {
        throw wrongKey(option, 'It is protected by a password, which is not asked for here.');
    }
    if (label !== 'PRIVATE KEY' && label !== 'PUBLIC KEY') {
        throw wrongKey(option, 'It is PEM of another sort than PKCS #8 (private keys) and SPKI (public keys).');
    }
    const { createPrivateKey, createPublicKey } = process.getBuiltinModule('node:crypto');
    let jwk: Readonly<Record<string, unknown>>;
    try {
        const key = label === 'PRIVATE KEY' ? createPrivateKey(text) : createPublicKey(text);
        if (key.asymmetricKeyType !== 'ed25519') throw otherSort(option);
        jwk = { ...key.export({ format: 'jwk' }) };
    } catch (problem) {
        // What the library says of a mistake is for programmers.
        throw problem instanceof Refusal ? problem : wrongKey(option, 'It is damaged.');
    }
    const { x, d } = jwk;
    if (typeof x !== 'string') throw wrongKey(option, 'It is damaged.');
    return { kty: 'OKP', crv: 'Ed25519', x, d: typeof d === 'string' ? d : undefined };
}

function parseObject(text: string): Readonly<Record<string, unknown>> | undefined {
    try {
        const value: unknown = JSON.parse(text);
        return typeof value === 'object' && value !== null ? (value as Record<string, unknown>) : undefined;
    } catch {
        // What the parser says of a mistake holds some of the text, and so some of the key.
        return undefined;
    }
}

function otherSort(option: Asked['option']): Refusal {
    return wrongKey(option, 'It is a key of another sort: signatures are made with Ed25519.');
}

function wrongKey(option: Asked['option'], why: string): Refusal {
    return new Refusal(`The key of \`${option}\` cannot be used. ${why}`, whatKeyIs(option));
}

function whatKeyIs(option: Asked['option']): string {
    const sort = option === '--sign' ? 'private key as a JWK or as PEM (PKCS #8)' : 'public key as a JWK or as PEM';
    return `\`${option}\` takes the path of a file that holds an Ed25519 ${sort}, or \`env:NAME\` for a variable of the environment.`;
}
