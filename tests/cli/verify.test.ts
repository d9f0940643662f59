/** The verb `verify`: what was signed is told from what was not, and bad input is told as what it is. */
import { createHash } from 'node:crypto';
import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import canonicalize from 'canonicalize';
import { describe, expect, test } from 'vitest';
import type { TreeDocument } from '../../language/src/document/types.js';
import { otherPublicPem, privateJwk, privatePem, publicJwk, publicPem, publishedThumbprint, secrets } from './keys.js';
import { cleanFiles, makeFolder, type Ran, read, run, silent, verdict } from './support.js';

const source = makeSource();

/** What `export` writes of the door bell: `silent.json` and `silent.jws`. */
async function makeSource(): Promise<Readonly<Record<string, string>>> {
    const folder = mkdtempSync(join(tmpdir(), 'halfsplit-verify-'));
    for (const [path, text] of Object.entries({ ...cleanFiles, 'key.pem': privatePem })) {
        writeFileSync(join(folder, path), text);
    }
    await run(['export', 'silent', '--sign', 'key.pem', '--time', '2026-01-31T09:30:00Z'], { folder });
    const files = { 'silent.json': read(folder, 'silent.json'), 'silent.jws': read(folder, 'silent.jws') };
    rmSync(folder, { recursive: true });
    return { ...files, 'public.pem': publicPem, 'other.pem': otherPublicPem };
}

interface Row {
    readonly file: string;
    readonly result: string;
    readonly why: string | null;
    readonly [property: string]: unknown;
}

async function verifyRow(words: readonly string[], folder: string): Promise<Row & { readonly status: number }> {
    const ran = await run(['verify', ...words, '--format', 'json'], { folder });
    const report = JSON.parse(ran.output) as { readonly documents: readonly [Row]; readonly summary: object };
    return { ...report.documents[0], status: ran.status };
}

async function signedFolder(changes: Readonly<Record<string, string | Uint8Array>> = {}): Promise<string> {
    return makeFolder({ ...(await source), ...changes });
}

describe('a document that is what was signed', () => {
    test('is verified, as text', async () => {
        const folder = await signedFolder();
        const digest = createHash('sha256')
            .update(canonicalize(JSON.parse(read(folder, 'silent.json'))) ?? '')
            .digest('hex');
        expect(await run(['verify', 'silent.json', '--key', 'public.pem'], { folder })).toEqual({
            status: 0,
            output: verdict(
                'silent.json   verified',
                '  The tree `silent` for all its builds, exported by halfsplit 0.1.0, at 2026-01-31T09:30:00Z.',
                `  SHA-256 of its canonical form: ${digest}.`,
                '',
                `1 of 1 document verified with the key ${publishedThumbprint}.`,
            ),
            messages: '',
        });
    });

    test('is verified, for programs', async () => {
        const folder = await signedFolder();
        const { output } = await run(['verify', 'silent.json', '--key', 'public.pem', '--format', 'json'], { folder });
        expect(JSON.parse(output)).toEqual({
            formatVersion: 1,
            tool: { name: 'halfsplit', version: '0.1.0' },
            safety: expect.stringContaining('Verification is an aid') as unknown,
            key: publishedThumbprint,
            summary: { documents: 1, verified: 1, failed: 0, notOpened: 0, exitStatus: 0 },
            documents: [
                {
                    file: 'silent.json',
                    signature: 'silent.jws',
                    result: 'verified',
                    why: null,
                    advice: null,
                    sha256: expect.stringMatching(/^[0-9a-f]{64}$/) as unknown,
                    kid: publishedThumbprint,
                    tree: 'silent',
                    build: null,
                    exportedBy: 'halfsplit 0.1.0',
                    time: '2026-01-31T09:30:00Z',
                },
            ],
        });
    });

    test('may stand in another layout, in another folder, with its signature elsewhere', async () => {
        const { 'silent.json': json = '', 'silent.jws': jws = '' } = await source;
        const files = { 'a/one.json': JSON.stringify(JSON.parse(json)), 'b/other': jws, 'public.jwk': publicJwk };
        const folder = await signedFolder(files);
        const row = await verifyRow(['a/one.json', '--signature', 'b/other', '--key', 'public.jwk'], folder);
        expect(row).toMatchObject({ result: 'verified', signature: 'b/other', status: 0 });
        const crossed = await signedFolder({ 'silent.json': json.replaceAll('\n', '\r\n') });
        expect(await verifyRow(['silent.json', '--key', 'public.pem'], crossed)).toMatchObject({ status: 0 });
    });

    test('is verified with a key from the environment', async () => {
        const folder = await signedFolder();
        for (const KEY of [publicPem, publicJwk]) {
            const ran = await run(['verify', 'silent.json', '--key', 'env:KEY'], { folder, environment: { KEY } });
            expect(ran.status).toBe(0);
        }
    });

    test('keeps properties in any order', async () => {
        const { 'silent.json': json = '' } = await source;
        const turned = Object.fromEntries(Object.entries(JSON.parse(json) as object).reverse());
        const folder = await signedFolder({ 'silent.json': JSON.stringify(turned) });
        expect(await verifyRow(['silent.json', '--key', 'public.pem'], folder)).toMatchObject({ result: 'verified' });
    });
});

describe('a change', () => {
    test('of any byte is seen, except of the space between values', async () => {
        const { 'silent.json': json = '' } = await source;
        const folder = await signedFolder();
        const meant = canonicalize(JSON.parse(json));
        let tried = 0;
        let unseen = 0;
        for (let place = 0; place < json.length; place += 97) {
            for (const sign of ['0', 'a', ' ', '"']) {
                const changed = json.slice(0, place) + sign + json.slice(place + 1);
                if (changed === json) continue;
                writeFileSync(join(folder, 'silent.json'), changed);
                const { status, result } = await verifyRow(['silent.json', '--key', 'public.pem'], folder);
                const isSame = meaningOf(changed) === meant;
                expect([place, sign, result, status]).toEqual([
                    place,
                    sign,
                    isSame ? 'verified' : expect.stringMatching(/^(changed|no document)$/),
                    isSame ? 0 : 1,
                ]);
                tried += 1;
                if (isSame) unseen += 1;
            }
        }
        expect(tried).toBeGreaterThan(200);
        expect(unseen).toBeLessThan(tried / 4);
    });

    test('of what the document says is told as one', async () => {
        const { 'silent.json': json = '' } = await source;
        const folder = await signedFolder({ 'silent.json': json.replace('Fit a new battery.', 'Fit an old battery.') });
        const { status, output } = await run(['verify', 'silent.json', '--key', 'public.pem'], { folder });
        expect(output).toBe(
            verdict(
                'silent.json   changed',
                '  The document was changed after it was signed, or its signature was.',
                '  Do not use it; take it again from where it was signed.',
                '',
                `0 of 1 document verified with the key ${publishedThumbprint}.`,
            ),
        );
        expect(status).toBe(1);
    });

    test('behind a second property of the same name is seen', async () => {
        const { 'silent.json': json = '' } = await source;
        const twice = json.replace('"tree": {', '"tree": { "id": "another",');
        expect(canonicalize(JSON.parse(twice))).toBe(canonicalize(JSON.parse(json)));
        const folder = await signedFolder({ 'silent.json': twice });
        expect(await verifyRow(['silent.json', '--key', 'public.pem'], folder)).toMatchObject({
            result: 'no document',
            why: 'A name stands twice in one object.',
            status: 1,
        });
    });

    test('of the signature is told', async () => {
        const { 'silent.jws': jws = '' } = await source;
        const [header, , signature = ''] = jws.split('.');
        const turned = signature.startsWith('A') ? `B${signature.slice(1)}` : `A${signature.slice(1)}`;
        const results = [];
        for (const changed of [
            `${header}..${turned}`,
            `${header}..${signature.slice(1)}`,
            `${jws}\n`,
            '',
            '{}',
            '\u0000',
        ]) {
            const folder = await signedFolder({ 'silent.jws': changed });
            const { result, status } = await verifyRow(['silent.json', '--key', 'public.pem'], folder);
            results.push(`${result} ${status}`);
        }
        expect(results).toEqual(['changed 1', ...Array<string>(5).fill('damaged signature 1')]);
    });

    test('of the key is told', async () => {
        const folder = await signedFolder();
        const row = await verifyRow(['silent.json', '--key', 'other.pem'], folder);
        expect(row).toMatchObject({ result: 'other key', kid: publishedThumbprint, tree: null, status: 1 });
    });

    test('of the version of the format is told', async () => {
        const { 'silent.json': json = '' } = await source;
        const folder = await signedFolder({
            'silent.json': json.replace('"formatVersion": "1.0"', '"formatVersion": "2.0"'),
        });
        expect(await verifyRow(['silent.json', '--key', 'public.pem'], folder)).toMatchObject({
            result: 'no document',
            why: 'It is of version `2.0` of the format, which this program does not know.',
            status: 1,
        });
    });
});

describe('what is no signed document', () => {
    test('is told as what it is', async () => {
        const outside = makeFolder(await source);
        const folder = await signedFolder({
            'empty.json': '',
            'large.json': `"${'a'.repeat(15 * 1024 * 1024)}"`,
            'list.json': '[]',
            'source.json': silent,
            'unsigned.json': (await source)['silent.json'] ?? '',
        });
        mkdirSync(join(folder, 'folder.json'));
        symlinkSync(join(outside, 'silent.json'), join(folder, 'link.json'));
        symlinkSync('silent.json', join(folder, 'inner.json'));
        symlinkSync('silent.jws', join(folder, 'inner.jws'));
        symlinkSync(join(outside, 'silent.jws'), join(folder, 'unsigned.jws'));
        symlinkSync('round.json', join(folder, 'round.json'));
        const rows: string[] = [];
        const names = ['none', 'empty', 'large', 'list', 'source', 'folder', 'link', 'inner', 'unsigned', 'round'];
        for (const name of names) {
            const { result, why, status } = await verifyRow([`${name}.json`, '--key', 'public.pem'], folder);
            rows.push(`${name}: ${status} ${result}. ${why ?? ''}`);
        }
        expect(rows).toEqual([
            'none: 2 not opened. The document cannot be read. There is no such file.',
            'empty: 1 no document. This file is empty.',
            'large: 2 not opened. The document cannot be read. This file has 15.0 MB; more than 15 MB is not read.',
            'list: 1 no document. This is no object.',
            'source: 1 no document. This is no JSON in UTF-8 that everybody reads alike.',
            'folder: 2 not opened. The document cannot be read. This is a folder, and a file is needed.',
            'link: 2 not opened. The document cannot be read. This link leads out of its folder, so it is not followed.',
            'inner: 0 verified. ',
            'unsigned: 2 not opened. Its signature cannot be read. This link leads out of its folder, so it is not followed.',
            'round: 2 not opened. The document cannot be read. Its links lead in a circle.',
        ]);
    });

    test('has no signature beside it', async () => {
        const folder = await signedFolder();
        rmSync(join(folder, 'silent.jws'));
        expect(await verifyRow(['silent.json', '--key', 'public.pem'], folder)).toMatchObject({
            result: 'not opened',
            why: 'Its signature cannot be read. There is no such file.',
            advice: 'Name the file of the signature with `--signature`.',
            status: 2,
        });
    });

    test('does not hide others: every document has its line', async () => {
        const { 'silent.json': json = '', 'silent.jws': jws = '' } = await source;
        const folder = await signedFolder({ 'bad.json': json.replace('battery', 'bottery'), 'bad.jws': jws });
        const words = ['silent.json', 'bad.json', 'none.json', '--key', 'public.pem'];
        const { status, output } = await run(['verify', ...words], { folder });
        expect(output).toContain('silent.json   verified\n');
        expect(output).toContain('bad.json   ');
        expect(output).toContain('none.json   not opened\n');
        expect(output).toContain('1 of 3 documents verified');
        expect(status).toBe(2);
        expect((await run(['verify', ...words.filter(word => word !== 'none.json')], { folder })).status).toBe(1);
    });

    test('may be called anything: nothing in a name reaches the terminal', async () => {
        const folder = await signedFolder();
        const { output } = await run(['verify', '\u001B[31mred.json', '--key', 'public.pem'], { folder });
        expect(output).not.toContain('\u001B');
        expect(output).toContain(String.raw`\u{1B}[31mred.json   not opened`);
    });
});

describe('wrong use', () => {
    const isRefused = (ran: Ran) => {
        expect(ran.status).toBe(2);
        expect(ran.output).toBe('');
        for (const secret of secrets) expect(ran.messages).not.toContain(secret);
        return ran.messages.split('\n')[0];
    };

    test('is told', async () => {
        const folder = await signedFolder({ 'key.pem': privatePem });
        const messages = [];
        for (const words of [
            [],
            ['silent.json'],
            ['silent.json', 'other.json', '--signature', 'silent.jws', '--key', 'public.pem'],
            ['silent.json', '--key', 'none.pem'],
            ['silent.json', '--key', 'silent.jws'],
            ['silent.json', '--key', 'silent.json'],
            ['silent.json', '--key', 'key.pem'],
            ['silent.json', '--key', 'env:KEY'],
            ['silent.json', '--key', privateJwk],
        ]) {
            messages.push(isRefused(await run(['verify', ...words], { folder, environment: { KEY: privateJwk } })));
        }
        expect(messages).toEqual([
            'halfsplit: `verify` needs the path of a document.',
            'halfsplit: `verify` needs the public key: `--key PUBLIC`.',
            'halfsplit: `--signature` is for one document. There are 2.',
            'halfsplit: The key file of `--key` cannot be read. There is no such file.',
            'halfsplit: The key of `--key` cannot be used. It is neither a JWK nor PEM.',
            'halfsplit: The key of `--key` cannot be used. It is a key of another sort: signatures are made with Ed25519.',
            'halfsplit: The key of `--key` is a private key. Signatures are checked with the public key.',
            'halfsplit: The key of `--key` is a private key. Signatures are checked with the public key.',
            'halfsplit: The key file of `--key` cannot be read. There is no such file.',
        ]);
    });
});

test('a document of a later version 1.x is verified without a look at its contents', async () => {
    const { signDetached } = await import('../../language/src/document/signature.js');
    const document = JSON.parse((await source)['silent.json'] ?? '') as TreeDocument;
    const later = { ...document, formatVersion: '1.7', tree: undefined, news: [1] };
    const key = JSON.parse(privateJwk) as Parameters<typeof signDetached>[1];
    const jws = await signDetached(canonicalize(later) ?? '', key);
    const folder = await signedFolder({ 'silent.json': JSON.stringify(later), 'silent.jws': jws });
    const { status, output } = await run(['verify', 'silent.json', '--key', 'public.pem'], { folder });
    expect(output.replace(/\s+/g, ' ')).toContain(
        'silent.json verified It is of a later version of the format, so its contents were not looked at.',
    );
    expect(status).toBe(0);
});

function meaningOf(text: string): string | undefined {
    try {
        return canonicalize(JSON.parse(text));
    } catch {
        return undefined;
    }
}
