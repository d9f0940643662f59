/** Signing what is exported: the signature beside the document, every form of key, and that no key is ever shown. */
import { createPublicKey, generateKeyPairSync, verify } from 'node:crypto';
import { mkdirSync, statSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import canonicalize from 'canonicalize';
import { describe, expect, test } from 'vitest';
import {
    asPem,
    privateJwk,
    privatePem,
    publicJwk,
    publicPem,
    publishedKey,
    publishedThumbprint,
    secrets,
} from './keys.js';
import { cleanFiles, listAll, makeFolder, type Ran, read, run, silent } from './support.js';

const loud = silent.replaceAll('silent', 'loud').replace('does not ring', 'does not stop');

describe('a signature', () => {
    test('stands beside its document, and holds for the canonical form of it', async () => {
        const folder = makeFolder({ ...cleanFiles, 'key.pem': privatePem });
        const { status, messages } = await run(['export', 'silent', '--sign', 'key.pem'], { folder });
        expect(messages).toBe(
            `Wrote \`silent.json\`.\nWrote \`silent.jws\`.\nSigned with the key ${publishedThumbprint}.\n`,
        );
        expect(status).toBe(0);
        const [header = '', payload, signature = ''] = read(folder, 'silent.jws').split('.');
        expect(payload).toBe('');
        // Put together and checked without any of our own code: another library for RFC 8785, and Node's own Ed25519.
        const canonical = canonicalize(JSON.parse(read(folder, 'silent.json'))) ?? '';
        const input = Buffer.from(`${header}.${Buffer.from(canonical).toString('base64url')}`);
        expect(verify(null, input, createPublicKey(publicPem), Buffer.from(signature, 'base64url'))).toBe(true);
        expect(
            verify(
                null,
                Buffer.concat([input, Buffer.from('A')]),
                createPublicKey(publicPem),
                Buffer.from(signature, 'base64url'),
            ),
        ).toBe(false);
        expect(JSON.parse(Buffer.from(header, 'base64url').toString())).toEqual({
            alg: 'EdDSA',
            kid: publishedThumbprint,
        });
    });

    test('is the same for the pretty and the canonical form, each time, and for each form of the key', async () => {
        const folder = makeFolder({ ...cleanFiles, 'key.pem': privatePem, 'key.jwk': `\n${privateJwk}\n` });
        const environment = { PEM: privatePem, JWK: privateJwk };
        const signatures = [];
        for (const words of [
            ['key.pem'],
            ['key.jwk'],
            ['env:PEM'],
            ['env:JWK', '--canonical'],
            [join(folder, 'key.pem'), '--pretty'],
        ]) {
            await run(['export', 'silent', '--sign', ...words], { folder, environment });
            signatures.push(read(folder, 'silent.jws'));
        }
        expect(new Set(signatures).size).toBe(1);
    });

    test('goes where its document goes', async () => {
        const folder = makeFolder({ ...cleanFiles, 'loud.fault': loud, 'key.pem': privatePem });
        await run(['export', '--out', 'out', '--sign', 'key.pem'], { folder });
        expect(listAll(join(folder, 'out'))).toEqual(['loud.json', 'loud.jws', 'silent.json', 'silent.jws']);
        await run(['export', 'loud', '--out', 'one/Mine.JSON', '--sign', 'key.pem'], { folder });
        expect(listAll(join(folder, 'one'))).toEqual(['Mine.JSON', 'Mine.jws']);
        expect(read(folder, 'one/Mine.jws')).toBe(read(folder, 'out/loud.jws'));
    });

    test('has no place on standard output', async () => {
        const folder = makeFolder({ ...cleanFiles, 'key.pem': privatePem });
        const { status, output, messages } = await run(['export', 'silent', '--out', '-', '--sign', 'key.pem'], {
            folder,
        });
        expect(messages).toContain('`--sign` does not go with `--out -`');
        expect([status, output]).toEqual([2, '']);
    });

    test('that cannot be written is an error', async () => {
        const folder = makeFolder({ ...cleanFiles, 'key.pem': privatePem, 'silent.jws/inner': '' });
        const { status, messages } = await run(['export', 'silent', '--sign', 'key.pem'], { folder });
        expect(messages).toContain('`silent.jws` cannot be written.');
        expect(status).toBe(2);
    });

    test('that may not fit any more is told of', async () => {
        const folder = makeFolder({ ...cleanFiles, 'silent.jws': 'old' });
        const { status, messages } = await run(['export', 'silent'], { folder });
        expect(messages).toBe(
            'Wrote `silent.json`.\n`silent.jws` was there before and need not fit any more: `--sign` makes a new one.\n',
        );
        expect(status).toBe(0);
        expect(read(folder, 'silent.jws')).toBe('old');
    });

    test('is not made while errors stand', async () => {
        const folder = makeFolder({
            ...cleanFiles,
            'silent.fault': silent.replace('-> no-fault', '-> nothing'),
            'key.pem': privatePem,
        });
        expect((await run(['export', 'silent', '--sign', 'key.pem'], { folder })).status).toBe(1);
        expect(listAll(folder)).not.toContain('silent.jws');
    });
});

describe('a key that cannot sign is refused, and nothing of it is shown', () => {
    const { privateKey: curve } = generateKeyPairSync('ec', { namedCurve: 'P-256' });
    const { privateKey: exchange } = generateKeyPairSync('x25519');
    const locked = generateKeyPairSync('ed25519').privateKey.export({
        type: 'pkcs8',
        format: 'pem',
        cipher: 'aes-256-cbc',
        passphrase: 'secret',
    });
    const jwk = (change: object) => JSON.stringify({ ...publishedKey, ...change });

    test.each([
        ['nothing', '', 'It is empty.'],
        ['only space', ' \n', 'It is empty.'],
        ['another text', `the key is ${publishedKey.d}`, 'It is neither a JWK nor PEM.'],
        ['the bare secret', publishedKey.d, 'It is neither a JWK nor PEM.'],
        ['bytes', '\u0000\u0001\u0002', 'It is neither a JWK nor PEM.'],
        ['a damaged JWK', privateJwk.slice(0, -1), 'It begins like a JWK, but is no JSON object.'],
        ['a JWK with a comment', `{/*${publishedKey.d}*/}`, 'It begins like a JWK, but is no JSON object.'],
        ['a set of keys', `{"keys":[${privateJwk}]}`, 'It is a set of keys, and one key is needed.'],
        ['a public JWK', publicJwk, 'It is a public key, and only a private key can sign.'],
        ['a public PEM', publicPem, 'It is a public key, and only a private key can sign.'],
        [
            'another curve',
            JSON.stringify(curve.export({ format: 'jwk' })),
            'It is a key of another sort: signatures are made with Ed25519.',
        ],
        ['another curve in PEM', asPem(curve), 'It is a key of another sort: signatures are made with Ed25519.'],
        ['a key for exchanges', asPem(exchange), 'It is a key of another sort: signatures are made with Ed25519.'],
        ['a short secret', jwk({ d: publishedKey.d.slice(2) }), 'Its `d` is not 32 bytes in base64url.'],
        ['a secret of another type', jwk({ d: { a: publishedKey.d } }), 'Its `d` is not 32 bytes in base64url.'],
        ['a padded public half', jwk({ x: `${publishedKey.x}=` }), 'Its `x` is not 32 bytes in base64url.'],
        ['no public half', jwk({ x: undefined }), 'Its `x` is not 32 bytes in base64url.'],
        ['halves of two keys', jwk({ x: 'A'.repeat(43) }), 'Its `x` does not belong to its `d`.'],
        ['a key for encryption', jwk({ use: 'enc' }), 'says that it is for something else.'],
        ['a key that may only verify', jwk({ key_ops: ['verify'] }), 'says that it is for something else.'],
        ['a locked key', String(locked), 'It is protected by a password, which is not asked for here.'],
        ['two keys', privatePem + privatePem, 'It holds several things in PEM, and one key is needed.'],
        ['another sort of PEM', privatePem.replaceAll('PRIVATE', 'OPENSSH PRIVATE'), 'It is PEM of another sort'],
        ['a damaged PEM', privatePem.replace('MC4C', 'MC4D'), 'It is damaged.'],
        ['a PEM without an end', privatePem.split('-----END')[0] ?? '', 'It is damaged.'],
        ['a public key that says it is private', publicPem.replaceAll('PUBLIC', 'PRIVATE'), 'It is damaged.'],
    ])('%s', async (_, text, why) => {
        const folder = makeFolder({ ...cleanFiles, 'key.pem': text });
        const ran = await run(['export', 'silent', '--sign', 'key.pem'], { folder });
        expect(ran.messages).toMatch(/^halfsplit: The key of `--sign` cannot be used\. /);
        expect(ran.messages).toContain(why);
        expectRefused(ran, folder);
        const fromEnvironment = await run(['export', 'silent', '--sign', 'env:KEY'], {
            folder,
            environment: { KEY: text },
        });
        expect(fromEnvironment).toEqual(ran);
    });

    test('a file that is none', async () => {
        const folder = makeFolder({ ...cleanFiles, 'large.pem': privatePem + '\n'.repeat(1024 * 1024) });
        mkdirSync(join(folder, 'folder.pem'));
        symlinkSync('round.pem', join(folder, 'round.pem'));
        const messages = [];
        for (const name of ['none.pem', 'folder.pem', 'large.pem', 'round.pem', '']) {
            const ran = await run(['export', 'silent', `--sign=${name}`], { folder });
            expectRefused(ran, folder);
            messages.push(ran.messages.split('\n')[0]);
        }
        expect(messages).toEqual([
            'halfsplit: The key file of `--sign` cannot be read. There is no such file.',
            'halfsplit: The key file of `--sign` cannot be read. This is a folder, and a file is needed.',
            'halfsplit: The key file of `--sign` cannot be read. This file has 1.0 MB; more than 1 MB is not read.',
            'halfsplit: The key file of `--sign` cannot be read. Its links lead in a circle.',
            'halfsplit: `--sign` needs a value: `--sign KEY`.',
        ]);
    });

    test('the key itself where its path belongs', async () => {
        const folder = makeFolder(cleanFiles);
        const typed = [privateJwk, privatePem, publishedKey.d, `env:${publishedKey.d}`, `./${publishedKey.d}`];
        for (const written of typed) {
            expectRefused(await run(['export', 'silent', '--sign', written], { folder }), folder);
            expectRefused(await run(['export', 'silent', `--sign=${written}`], { folder }), folder);
            expectRefused(await run(['export', 'silent', `--sing=${written}`], { folder }), folder);
        }
    });

    test('the key itself, taken apart by a shell at its spaces', async () => {
        const folder = makeFolder(cleanFiles);
        const [first = '', ...others] = privatePem.trim().split(/\s+/);
        for (const words of [
            [`--sign=${first}`, ...others],
            ['--sign', first, ...others],
            ['--sign', ...others],
        ]) {
            expectRefused(await run(['export', ...words], { folder }), folder);
            const verifying = words.map(word => word.replace('--sign', '--key'));
            expectRefused(await run(['verify', ...verifying], { folder }), folder);
        }
    });

    test.each(['NONE', '', 'constructor', '__proto__'])('a variable that is not set: %s', async name => {
        const folder = makeFolder(cleanFiles);
        const ran = await run(['export', 'silent', '--sign', `env:${name}`], { folder });
        expect(ran.messages).toContain('The variable of the environment that `--sign` names is not set.');
        expectRefused(ran, folder);
    });

    function expectRefused(ran: Ran, folder: string): void {
        expect(ran.status).toBe(2);
        expect(ran.output).toBe('');
        for (const secret of secrets) expect(ran.messages).not.toContain(secret);
        expect(listAll(folder).filter(name => /\.(json|jws)$/.test(name))).toEqual(['halfsplit.json']);
    }
});

test('no key gets into what is written', async () => {
    const folder = makeFolder({ ...cleanFiles, 'key.pem': privatePem });
    await run(['export', 'silent', '--sign', 'key.pem'], { folder });
    for (const secret of secrets) {
        expect(read(folder, 'silent.json')).not.toContain(secret);
        expect(read(folder, 'silent.jws')).not.toContain(secret);
    }
    expect(secrets.length).toBe(2);
});

test('a key may be reached through a link, because it is named', async () => {
    const keys = makeFolder({ 'key.pem': privatePem });
    const folder = makeFolder(cleanFiles);
    symlinkSync(join(keys, 'key.pem'), join(folder, 'key.pem'));
    expect((await run(['export', 'silent', '--sign', 'key.pem'], { folder })).status).toBe(0);
    expect(statSync(join(folder, 'silent.jws')).isFile()).toBe(true);
});
