/** The extension's manifest: what it brings is there, nothing runs that need not, and nothing asks for trust. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { readText, root } from '../house/project.mjs';

interface Manifest {
    readonly main: string;
    readonly icon: string;
    readonly files: readonly string[];
    readonly activationEvents: readonly string[];
    readonly capabilities: { readonly untrustedWorkspaces: { readonly supported: unknown } };
    readonly dependencies?: object;
    readonly scripts?: object;
    readonly contributes: {
        readonly languages: readonly [
            {
                id: string;
                aliases: string[];
                extensions: string[];
                configuration: string;
                icon: Record<string, string>;
            },
        ];
        readonly grammars: readonly [{ language: string; scopeName: string; path: string }];
        readonly configuration: { readonly properties: Readonly<Record<string, { scope?: string }>> };
    };
}

const manifest = JSON.parse(readText('extension/package.json')) as Manifest;
const [language] = manifest.contributes.languages;
const [grammar] = manifest.contributes.grammars;

test('it is the extension of one language, for files that end in .fault', () => {
    expect(language).toMatchObject({ id: 'fault', extensions: ['.fault'] });
    expect(language.aliases[0]).toBe('Halfsplit');
    expect(grammar).toMatchObject({ language: 'fault', scopeName: 'source.fault' });
});

test('every file that it names is there and goes into the package', () => {
    const named = [language.configuration, ...Object.values(language.icon), grammar.path, manifest.icon];
    for (const file of [...named.map(name => name.replace(/^\.\//, '')), 'README.md', 'CHANGELOG.md', 'LICENSE']) {
        expect(existsSync(join(root, 'extension', file)), file).toBe(true);
        const packed = manifest.files.some(pattern => pattern === file || pattern === file.replace(/[^/]+$/, '*'));
        expect(packed, `${file} is packed`).toBe(true);
    }
});

test('it wakes up with its language alone, and its program is a bundle', () => {
    expect(manifest.activationEvents).toEqual([]);
    expect(manifest.main).toBe('./dist/extension.cjs');
    expect(manifest.dependencies).toBeUndefined();
    expect(manifest.scripts).toBeUndefined();
});

test('it works in a workspace that is not trusted', () => {
    expect(manifest.capabilities.untrustedWorkspaces.supported).toBe(true);
});

test('its settings are few, and all its own', () => {
    expect(Object.keys(manifest.contributes.configuration.properties)).toEqual(['halfsplit.trace.server']);
});

test('its pictures for the language are drawings without scripts or links', () => {
    for (const file of Object.values(language.icon)) {
        const drawing = readText(join('extension', file));
        expect(drawing).toMatch(/^<svg xmlns="http:\/\/www\.w3\.org\/2000\/svg"/);
        expect(drawing).not.toMatch(/<script|href|url\(/);
    }
});

test('nothing in its sources asks the network or measures its users', () => {
    const sources = ['extension/src/extension.ts', 'extension/src/client.ts'].map(readText).join('\n');
    expect(sources).not.toMatch(/https?:|fetch\(|telemetry|XMLHttpRequest/i);
});

const configuration = JSON.parse(readText('extension/language-configuration.json')) as {
    readonly wordPattern: { readonly pattern: string; readonly flags: string };
    readonly indentationRules: { readonly increaseIndentPattern: string; readonly decreaseIndentPattern: string };
    readonly autoClosingPairs: readonly { readonly open: string }[];
};

test('a word is a whole name with its hyphens', () => {
    const { pattern, flags } = configuration.wordPattern;
    const words = 'step at-once { test k1.coil-2 { größe -> a_b } }'.match(new RegExp(pattern, `${flags}g`));
    expect(words).toEqual(['step', 'at-once', 'test', 'k1', 'coil-2', 'größe', 'a_b']);
});

test.each([
    ['step a {', true],
    ['step a "Title {not}" {', true],
    ['part k1 "x" in box { // comment', true],
    ['test light { normal -> a }', false],
    ['test light { normal -> a', true],
    ['do "open {"', false],
    ['// step a {', false],
    ['}', false],
])('after `%s` the next line is indented: %s', (line, indented) => {
    expect(new RegExp(configuration.indentationRules.increaseIndentPattern).test(line)).toBe(indented);
});

test('a line that closes a block goes back, and quotes close by themselves', () => {
    expect(new RegExp(configuration.indentationRules.decreaseIndentPattern).test('  }')).toBe(true);
    expect(configuration.autoClosingPairs.map(({ open }) => open)).toEqual(
        expect.arrayContaining(['{', '(', '[', '"', '"""']),
    );
});
