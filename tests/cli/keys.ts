/** Keys for tests, and invented for them only, except the one that RFC 8037 publishes. */
import { createPrivateKey, createPublicKey, generateKeyPairSync, type KeyObject } from 'node:crypto';

/** RFC 8037 appendix A.1, seen second-hand. */
export const publishedKey = {
    kty: 'OKP',
    crv: 'Ed25519',
    d: 'nWGxne_9WmC6hEr0kuwsxERJxWl7MmkZcDusAxyuf2A',
    x: '11qYAYKxCrfVS_7TyWQHOg7hcvPapiMlrwIaaPcHURo',
} as const;

/** RFC 8037 appendix A.3. */
export const publishedThumbprint = 'kPrK_qmxVWaYVA9wwBF6Iuo3vVzz7TxHCTwXBygrS4k';

const secret = createPrivateKey({ key: { ...publishedKey }, format: 'jwk' });
const { d: _, ...shared } = publishedKey;

export const privateJwk = JSON.stringify(publishedKey);
export const privatePem = asPem(secret);
export const publicJwk = JSON.stringify(shared);
export const publicPem = asPem(createPublicKey(secret));
export const otherPublicPem = asPem(generateKeyPairSync('ed25519').publicKey);

/** Texts that hold the secret of the published key; none of them may ever be shown. */
export const secrets = [publishedKey.d, ...privatePem.split('\n').filter(line => /^[A-Za-z0-9+/=]{20,}$/.test(line))];

export function asPem(key: KeyObject): string {
    const type = key.type === 'private' ? 'pkcs8' : 'spki';
    return key.export({ type, format: 'pem' }).toString();
}
