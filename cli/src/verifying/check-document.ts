// Checks an exported document against the signature beside it.

import { resolve } from 'node:path';
import {
    checkSignature,
    type PublicKey,
    readTreeDocument,
    sha256OfText,
    type SignatureCheck,
    type TreeDocument,
} from 'halfsplit-language';
import { readNear } from '../files/read-near.js';
import type { Io } from '../io.js';
import { mostBytes } from '../open-workspace.js';
import { signatureFileOf } from '../signature-file.js';

/** What can be said of a document. */
export type VerifyResult =
    | 'verified'
    /** The document or its signature is not what was signed. */
    | 'changed'
    | 'other key'
    | 'damaged signature'
    /** The file holds no document, or one of a version that is not known here. */
    | 'no document'
    /** The file or its signature cannot be opened, or the signatures cannot be checked on this computer. */
    | 'not opened';

export interface CheckedDocument {
    /** As the person who called the program has written it. */
    readonly file: string;
    readonly signature: string;
    readonly result: VerifyResult;
    /** One sentence; undefined where it is verified. */
    readonly why: string | undefined;
    readonly advice: string | undefined;
    /** SHA-256 of the canonical form, in hexadecimal; undefined where there is no document. */
    readonly sha256: string | undefined;
    /** The key that the signature names, as it names it. */
    readonly kid: string | undefined;
    /** What the document says of itself; undefined unless it is verified, and for a later version 1.x of the format. */
    readonly signed: Signed | undefined;
}

export interface Signed {
    readonly tree: string;
    /** The choices of the build that it was cut down to; undefined where it is for all builds. */
    readonly build: readonly string[] | undefined;
    readonly tool: string;
    readonly time: string | undefined;
}

const mostSignatureBytes = 1024 * 1024;

/** Checks one document. `signature` is the path of its signature where it does not stand beside it. */
export async function checkDocument(
    file: string,
    signature: string | undefined,
    key: PublicKey,
    io: Io,
): Promise<CheckedDocument> {
    const beside = signature ?? signatureFileOf(file);
    const about: About = { file, signature: beside, sha256: undefined };
    const read = readNear(resolve(io.folder, file), mostBytes);
    if (read.sort === 'unreadable') return failed(about, 'not opened', `The document cannot be read. ${read.message}`);
    const reading = await readTreeDocument(read.bytes);
    if (reading.sort === 'no document') return failed(about, 'no document', reading.why);
    if (reading.sort === 'other version') {
        const why = `It is of version \`${reading.version}\` of the format, which this program does not know.`;
        return failed(about, 'no document', why, 'Take a newer version of the program.');
    }
    const { document, canonical } = reading;
    const known: About = { ...about, sha256: await sha256OfText(canonical) };
    const readSignature = readNear(resolve(io.folder, beside), mostSignatureBytes);
    if (readSignature.sort === 'unreadable') {
        const why = `Its signature cannot be read. ${readSignature.message}`;
        const advice = signature === undefined ? 'Name the file of the signature with `--signature`.' : undefined;
        return failed(known, 'not opened', why, advice);
    }
    const check = await checkSignature(new TextDecoder().decode(readSignature.bytes), canonical, key);
    if (check.sort !== 'valid') return refused(known, check);
    const signed = document && whatIsSigned(document);
    return { ...known, result: 'verified', why: undefined, advice: undefined, kid: check.kid, signed };
}

function whatIsSigned({ tree, build, verification: { tool, time } }: TreeDocument): Signed {
    return { tree: tree.id, build, tool: `${tool.name} ${tool.version}`, time };
}

type About = Pick<CheckedDocument, 'file' | 'signature' | 'sha256'>;

function refused(about: About, check: Exclude<SignatureCheck, { readonly sort: 'valid' }>): CheckedDocument {
    switch (check.sort) {
        case 'other key': {
            const why = 'It was signed with another key than the one of `--key`.';
            const advice = 'Take the public key of whoever signed it, if you trust it.';
            return { ...failed(about, 'other key', why, advice), kid: check.kid };
        }
        case 'changed': {
            const why =
                check.kid === undefined
                    ? 'The document was changed after it was signed, or its signature was, or it was signed with another key.'
                    : 'The document was changed after it was signed, or its signature was.';
            const advice = 'Do not use it; take it again from where it was signed.';
            return { ...failed(about, 'changed', why, advice), kid: check.kid };
        }
        case 'damaged':
            return failed(
                about,
                'damaged signature',
                `The signature is damaged. ${check.why}`,
                'Take the signature again from where the document was signed.',
            );
        case 'not supported':
            return failed(about, 'not opened', 'This Node cannot check signatures with Ed25519.', 'Take a newer Node.');
    }
}

function failed(about: About, result: VerifyResult, why: string, advice?: string): CheckedDocument {
    return { ...about, result, why, advice, kid: undefined, signed: undefined };
}
