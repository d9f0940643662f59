/** What ships runs on the user's own Node, which may be older than the one that the tests run on. */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { beforeAll, expect, test } from 'vitest';
import { root, runNode } from '../house/project.mjs';
import { startSession } from '../services/session.js';
import { privateJwk, privatePem, publicPem, publishedThumbprint } from './keys.js';
import { cleanFiles, makeFolder, verdict } from './support.js';

// Scripts put the project's own Node in front of the path; what stands behind it is the user's.
const folders = (process.env['PATH'] ?? '').split(delimiter).filter(folder => !folder.includes('node_modules'));
const names = process.platform === 'win32' ? ['node.exe'] : ['node'];
const ownNode = folders.flatMap(folder => names.map(name => join(folder, name))).find(path => existsSync(path));

beforeAll(() => {
    expect(runNode('tests/house/build.mjs', ['cli', 'server'])).toBe(0);
}, 120_000);

function findOwnNode(): string {
    if (ownNode === undefined) throw new Error('There is no Node on the path but the one that the project installs.');
    return ownNode;
}

/** Checks on the user's own Node and gives what is said. */
function check(path: string, input = '') {
    const words = [join(root, 'cli/bin/halfsplit.cjs'), 'check', path];
    return spawnSync(findOwnNode(), words, { cwd: root, encoding: 'utf8', input, timeout: 60_000 });
}

test('the command line checks the example and a file with slips', () => {
    const clean = check('examples/dust-extractor');
    expect([clean.stdout, clean.stderr, clean.status]).toEqual([verdict('7 files: nothing found.'), '', 0]);
    const slip = check('-', 'equipment lamp { part bulb { falt open } }\n');
    expect([slip.status, slip.stderr]).toEqual([1, '']);
    expect(slip.stdout).toContain('unexpected-text');
});

test('the command line signs a document and verifies it, without a warning of Node', () => {
    const folder = makeFolder({ ...cleanFiles, 'key.pem': privatePem, 'key.jwk': privateJwk, 'public.pem': publicPem });
    const runOwn = (...words: readonly string[]) =>
        spawnSync(findOwnNode(), [join(root, 'cli/bin/halfsplit.cjs'), ...words], {
            cwd: folder,
            encoding: 'utf8',
            timeout: 60_000,
        });
    for (const key of ['key.pem', 'key.jwk']) {
        const { status, stderr } = runOwn('export', 'silent', '--sign', key);
        expect(stderr).toBe(
            `Wrote \`silent.json\`.\nWrote \`silent.jws\`.\nSigned with the key ${publishedThumbprint}.\n`,
        );
        expect(status).toBe(0);
        expect(runOwn('verify', 'silent.json', '--key', 'public.pem')).toMatchObject({ status: 0, stderr: '' });
    }
});

test('the language server finds a slip and ends', async () => {
    const session = startSession(root, findOwnNode());
    await session.request('initialize', { processId: process.pid, rootUri: null, capabilities: {} });
    session.notify('initialized', {});
    session.write('slip.fault', 1, 'equipment lamp { part bulb { falt open } }\n');
    const told = await session.diagnostics('slip.fault', ({ diagnostics }) => diagnostics.length > 0);
    expect(told.diagnostics[0]?.code).toBe('unexpected-text');
    await session.request('shutdown');
    session.notify('exit');
    expect(await session.exited).toBe(0);
    expect(session.errorOutput()).toBe('');
});
