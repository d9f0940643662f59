/** Detached signatures against published examples and another implementation; and that nothing can be changed unseen. */
import { createHash, createPrivateKey, createPublicKey, generateKeyPairSync, sign, verify } from 'node:crypto';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
    checkDetached,
    isKeyPart,
    keyThumbprint,
    type PrivateKey,
    signDetached,
    signWithHeader,
} from '../../language/src/document/signature.js';

// RFC 8037 appendix A.1 and A.2, seen second-hand. The values that were worked out with it agree, so no digit is wrong.
const key: PrivateKey = {
    kty: 'OKP',
    crv: 'Ed25519',
    d: 'nWGxne_9WmC6hEr0kuwsxERJxWl7MmkZcDusAxyuf2A',
    x: '11qYAYKxCrfVS_7TyWQHOg7hcvPapiMlrwIaaPcHURo',
};
const { d: _, ...publicKey } = key;
const other = generateKeyPairSync('ed25519').publicKey.export({ format: 'jwk' });
const otherKey = { ...publicKey, x: other.x ?? '' };

describe('the examples of RFC 8037', () => {
    test('the thumbprint of the key (appendix A.3)', async () => {
        expect(await keyThumbprint(key)).toBe('kPrK_qmxVWaYVA9wwBF6Iuo3vVzz7TxHCTwXBygrS4k');
    });

    // Appendix A.4, seen second-hand, without its payload, as RFC 7515 appendix F has it.
    const detached =
        'eyJhbGciOiJFZERTQSJ9..hgyY0il_MGCjP0JzlnLWG1PPOt7-09PGcvMg3AIbQR6dWbhijcNR4ki4iylGjg5BhVsPt9g7sVvpAr_MuM0KAg';

    test('the signature of the text (appendix A.4)', async () => {
        expect(await signWithHeader({ alg: 'EdDSA' }, 'Example of Ed25519 signing', key)).toBe(detached);
    });

    test('the check of it (appendix A.5)', async () => {
        expect(await checkDetached(detached, 'Example of Ed25519 signing', publicKey)).toEqual({
            sort: 'valid',
            kid: undefined,
        });
        expect(await checkDetached(detached, 'Example of Ed25519 Signing', publicKey)).toEqual({
            sort: 'changed',
            kid: undefined,
        });
    });
});

test('the header has the sort of the signature and the name of the key, and nothing else', async () => {
    const [header, payload] = (await signDetached('{}', key)).split('.');
    expect(payload).toBe('');
    expect(Buffer.from(header ?? '', 'base64url').toString()).toBe(
        '{"alg":"EdDSA","kid":"kPrK_qmxVWaYVA9wwBF6Iuo3vVzz7TxHCTwXBygrS4k"}',
    );
});

describe('as another implementation has it', () => {
    const texts = fc.string({ unit: 'binary', maxLength: 300 });

    test('a signature is the one that Node itself makes and accepts', async () => {
        const secret = createPrivateKey({ key: { ...key }, format: 'jwk' });
        await fc.assert(
            fc.asyncProperty(texts, async text => {
                const [header, , signature] = (await signDetached(text, key)).split('.');
                const input = Buffer.from(`${header}.${Buffer.from(text).toString('base64url')}`);
                expect(signature).toBe(sign(null, input, secret).toString('base64url'));
                const bytes = Buffer.from(signature ?? '', 'base64url');
                expect(verify(null, input, createPublicKey(secret), bytes)).toBe(true);
            }),
            { numRuns: 30 },
        );
    });

    test('a thumbprint is the digest of the three members in their order', async () => {
        const json = `{"crv":"Ed25519","kty":"OKP","x":"${otherKey.x}"}`;
        expect(await keyThumbprint(otherKey)).toBe(createHash('sha256').update(json).digest('base64url'));
    });

    test('a long text is signed as a short one is', async () => {
        const text = 'ä€𝄞'.repeat(100_000);
        expect((await checkDetached(await signDetached(text, key), text, publicKey)).sort).toBe('valid');
    });
});

test('no sign of a signature can be another one', async () => {
    const jws = await signDetached('{"a":1}', key);
    const signs = [...'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_.=+/ \n\u0000é'];
    const last = jws.length - 1;
    for (let place = 0; place < jws.length; place += place > last - 4 ? 1 : 5) {
        for (const sign of signs) {
            if (sign === jws[place]) continue;
            const changed = jws.slice(0, place) + sign + jws.slice(place + 1);
            const { sort } = await checkDetached(changed, '{"a":1}', publicKey);
            expect([sort, changed]).not.toEqual(['valid', changed]);
        }
    }
});

test.each(['', '\n', '=', '.', 'A'])('nothing can be added behind a signature: %j', async more => {
    const jws = await signDetached('{}', key);
    expect((await checkDetached(jws + more, '{}', publicKey)).sort).toBe(more === '' ? 'valid' : 'damaged');
});

test('a signature of another key is told by its name', async () => {
    const jws = await signDetached('{}', key);
    expect(await checkDetached(jws, '{}', otherKey)).toEqual({ sort: 'other key', kid: await keyThumbprint(key) });
    expect(await checkDetached(jws, '{} ', otherKey)).toMatchObject({ sort: 'other key' });
    expect(await checkDetached(jws, '{} ', publicKey)).toMatchObject({ sort: 'changed' });
});

test('a key may be named in another way, where it fits', async () => {
    const jws = await signWithHeader({ alg: 'EdDSA', kid: 'workshop' }, '{}', key);
    expect(await checkDetached(jws, '{}', publicKey)).toEqual({ sort: 'valid', kid: 'workshop' });
});

describe('a header that is not ours', () => {
    test.each([
        [{ alg: 'none' }, 'It is not of the sort `EdDSA`.'],
        [{ alg: 'HS256' }, 'It is not of the sort `EdDSA`.'],
        [{ alg: 'eddsa' }, 'It is not of the sort `EdDSA`.'],
        [{}, 'It is not of the sort `EdDSA`.'],
        // RFC 7797 and RFC 7515 section 4.1.11.
        [{ alg: 'EdDSA', b64: false, crit: ['b64'] }, 'It asks for extensions that are not known here.'],
        [{ alg: 'EdDSA', b64: false }, 'It asks for extensions that are not known here.'],
        [{ alg: 'EdDSA', crit: [] }, 'It asks for extensions that are not known here.'],
        [{ alg: 'EdDSA', kid: 1 }, 'What it names as its key is no text.'],
        [[], 'Its first part cannot be read.'],
        [null, 'Its first part cannot be read.'],
        ['EdDSA', 'Its first part cannot be read.'],
    ])('%j is refused', async (header, why) => {
        // The signature itself is right, so that only the header can be the reason.
        const jws = await signWithHeader(header as unknown as Record<string, string>, '{}', key);
        expect(await checkDetached(jws, '{}', publicKey)).toEqual({ sort: 'damaged', why });
    });

    test.each(['', '.', '..', 'a', 'a.b', 'e30..', '!..A', 'e30.e30.A', `e30..${'A'.repeat(86)}`, '\u0000', '....'])(
        '%j is no signature',
        async jws => {
            expect((await checkDetached(jws, '{}', publicKey)).sort).toBe('damaged');
        },
    );

    test('no text at all is a signature, and none is too odd', async () => {
        await fc.assert(
            fc.asyncProperty(fc.string({ unit: 'binary' }), async jws => {
                expect((await checkDetached(jws, '{}', publicKey)).sort).toBe('damaged');
            }),
            { numRuns: 200 },
        );
    });
});

test('a key that is no point of the curve has signed nothing', async () => {
    const jws = await signDetached('{}', key);
    for (const x of ['A'.repeat(43), `${'_'.repeat(42)}8`, `${'A'.repeat(42)}E`]) {
        expect(isKeyPart(x)).toBe(true);
        expect((await checkDetached(jws, '{}', { ...publicKey, x })).sort).not.toBe('valid');
    }
});

test.each(['', 'A'.repeat(42), 'A'.repeat(44), `${'A'.repeat(42)}B`, `${'A'.repeat(42)}=`, 7, null, undefined])(
    '%j is no half of a key',
    text => {
        expect(isKeyPart(text)).toBe(false);
    },
);
