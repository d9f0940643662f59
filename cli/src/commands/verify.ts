// The verb `verify`: checks that exported documents are what somebody has signed.

import { listOf, loadKeyParts, plural, safetyNotice, wrap } from 'halfsplit-language';
import { colorsFor } from '../colors.js';
import { type Command, Refusal, type Words } from '../command.js';
import { nothingFound, somethingFound, wrongUse } from '../exit-status.js';
import { readPublicKey } from '../files/read-key.js';
import type { Io } from '../io.js';
import { type CheckedDocument, checkDocument } from '../verifying/check-document.js';
import { programName, programVersion } from '../version.js';
import { visible } from '../visible.js';

export const verify: Command = {
    name: 'verify',
    summary: 'checks that exported documents are what somebody has signed',
    usage: ['halfsplit verify FILE… --key PUBLIC [--signature FILE] [--format text|json]'],
    help: [
        'A FILE is a document that `halfsplit export --sign` wrote; its signature stands beside it, as `NAME.jws` beside `NAME.json`.',
        'The signature holds for the canonical form (RFC 8785) of the document, so it does not matter whether a document is pretty or canonical. Any other change shows.',
        'A signature tells who stands for the document, and that nothing in it was changed. It does not tell that the tree is right.',
        'The exit status is 1 when a document is not what was signed, and 2 when something cannot be opened.',
    ],
    examples: [
        ['halfsplit verify no-airflow.json --key public.pem', 'checks one document'],
        ['halfsplit verify out/*.json --key env:SIGNING_KEY_PUBLIC', 'checks several, with a key from the environment'],
    ],
    options: {
        key: {
            value: 'PUBLIC',
            summary: 'the Ed25519 public key of who signed: a file with a JWK or PEM, or env:NAME',
        },
        signature: { value: 'FILE', summary: 'the signature, where it does not stand beside the document' },
        format: {
            value: 'FORMAT',
            values: ['text', 'json'],
            summary: 'how to report: text for people (the default), json for programs',
        },
    },
    mostOperands: Number.POSITIVE_INFINITY,
    run: runVerify,
};

async function runVerify(words: Words, io: Io): Promise<number> {
    const files = words.operands;
    const seeHelp = '`halfsplit verify --help` explains the verb.';
    if (files.length === 0) throw new Refusal('`verify` needs the path of a document.', seeHelp);
    const written = words.value('key');
    if (written === undefined) throw new Refusal('`verify` needs the public key: `--key PUBLIC`.', seeHelp);
    const signature = words.value('signature');
    if (signature !== undefined && files.length > 1) {
        throw new Refusal(`\`--signature\` is for one document. There are ${files.length}.`, 'Check them one by one.');
    }
    const key = await readPublicKey(written, io);
    const checked: CheckedDocument[] = [];
    for (const file of files) checked.push(await checkDocument(file, signature, key, io));
    const { keyThumbprint } = await loadKeyParts();
    const report: VerifyReport = { key: await keyThumbprint(key), documents: checked, status: statusOf(checked) };
    io.output.write(words.value('format') === 'json' ? jsonText(report) : reportText(report, io));
    return report.status;
}

interface VerifyReport {
    /** The thumbprint of the key. */
    readonly key: string;
    readonly documents: readonly CheckedDocument[];
    readonly status: number;
}

function statusOf(checked: readonly CheckedDocument[]): number {
    if (checked.some(({ result }) => result === 'not opened')) return wrongUse;
    return checked.every(({ result }) => result === 'verified') ? nothingFound : somethingFound;
}

const widest = 100;
const narrowest = 40;

function reportText({ key, documents }: VerifyReport, io: Io): string {
    const { strong, error } = colorsFor(io.output, io);
    const width = Math.max(narrowest, Math.min(widest, io.output.columns ?? widest));
    const indented = (text: string | undefined) =>
        text === undefined ? [] : wrap(visible(text), width - 2).map(line => `  ${line}`);
    const blocks = documents.map(one => {
        const isVerified = one.result === 'verified';
        const head = `${strong(visible(one.file))}   ${isVerified ? one.result : error(one.result)}`;
        return [head, ...indented(isVerified ? whatIsSigned(one) : one.why), ...indented(one.advice)].join('\n');
    });
    const good = documents.filter(({ result }) => result === 'verified').length;
    const sum = `${good} of ${plural(documents.length, 'document', 'documents')} verified with the key ${key}.`;
    return `${[...blocks, wrap(sum, width).join('\n'), wrap(safetyNotice(), width).join('\n')].join('\n\n')}\n`;
}

function whatIsSigned({ signed, sha256 }: CheckedDocument): string {
    const digest = `SHA-256 of its canonical form: ${sha256 ?? ''}.`;
    if (!signed) return `It is of a later version of the format, so its contents were not looked at. ${digest}`;
    const { tree, build, tool, time } = signed;
    const builds = build === undefined ? 'for all its builds' : `for the build with ${listOf(build, 'and')}`;
    const when = time === undefined ? '' : `, at ${time}`;
    return `The tree \`${tree}\` ${builds}, exported by ${tool}${when}. ${digest}`;
}

/** It changes when a reader of an earlier version would no longer understand the report. */
const verifyVersion = 1;

function jsonText({ key, documents, status }: VerifyReport): string {
    const count = (test: (one: CheckedDocument) => boolean) => documents.filter(test).length;
    const verified = count(({ result }) => result === 'verified');
    const notOpened = count(({ result }) => result === 'not opened');
    const report = {
        formatVersion: verifyVersion,
        tool: { name: programName, version: programVersion },
        safety: safetyNotice(),
        key,
        summary: {
            documents: documents.length,
            verified,
            failed: documents.length - verified - notOpened,
            notOpened,
            exitStatus: status,
        },
        documents: documents.map(documentToJson),
    };
    return `${JSON.stringify(report, null, 2)}\n`;
}

function documentToJson({ file, signature, result, why, advice, sha256, kid, signed }: CheckedDocument) {
    return {
        file,
        signature,
        result,
        why: why ?? null,
        advice: advice ?? null,
        sha256: sha256 ?? null,
        kid: kid ?? null,
        tree: signed?.tree ?? null,
        build: signed?.build ?? null,
        exportedBy: signed?.tool ?? null,
        time: signed?.time ?? null,
    };
}
