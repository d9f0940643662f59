/** Every text of the extension's manifest that a person sees can be translated, and no translation is left over. */
import { expect, test } from 'vitest';
import { readText } from '../house/project.mjs';

// The properties of a manifest, at any depth, whose strings an editor shows.
const shownProperties = new Set([
    'title',
    'shortTitle',
    'displayName',
    'description',
    'markdownDescription',
    'enumDescriptions',
    'enumItemLabels',
    'markdownEnumDescriptions',
    'deprecationMessage',
    'markdownDeprecationMessage',
    'patternErrorMessage',
    'label',
    'contents',
    'detail',
    'altText',
    'contextualTitle',
]);

test('every text of the manifest that a person sees has a translation key', () => {
    const manifest = JSON.parse(readText('extension/package.json')) as Record<string, unknown>;
    const translations = JSON.parse(readText('extension/package.nls.json')) as Record<string, string>;
    const shown = collectShown(manifest);
    const keys = shown.map(({ text }) => /^%(.+)%$/.exec(text)?.[1]);
    expect(shown.length).toBeGreaterThanOrEqual(2);
    expect(shown.filter((_, index) => keys[index] === undefined).map(({ place, text }) => `${place}: ${text}`)).toEqual(
        [],
    );
    expect(keys.filter(key => key !== undefined && !translations[key])).toEqual([]);
    expect(
        Object.keys(translations).filter(key => !keys.includes(key)),
        'translations that nothing uses',
    ).toEqual([]);
});

test('a text without a translation key is noticed', () => {
    const shown = collectShown({
        contributes: { commands: [{ command: 'a.b', title: 'Plain', category: 'Halfsplit' }] },
    });
    expect(shown.map(({ place }) => place)).toEqual([
        'contributes.commands.0.title',
        'contributes.commands.0.category',
    ]);
});

interface Shown {
    readonly place: string;
    readonly text: string;
}

function collectShown(value: unknown, path: readonly string[] = []): Shown[] {
    if (typeof value === 'string') {
        return isShown(path) ? [{ place: path.join('.'), text: value }] : [];
    }
    if (typeof value !== 'object' || value === null) {
        return [];
    }
    return Object.entries(value).flatMap(([key, inner]) => collectShown(inner, [...path, key]));
}

function isShown(path: readonly string[]): boolean {
    // The place of a string within a list says nothing.
    const names = path.filter(name => !/^\d+$/.test(name));
    const name = names.at(-1) ?? '';
    if (path.length === 1) {
        return name === 'displayName' || name === 'description';
    }
    if (names[0] !== 'contributes') {
        return false;
    }
    // A setting may itself be called `title`: then its name is followed by what describes it.
    return (
        shownProperties.has(name) ||
        (name === 'category' && names[1] === 'commands') ||
        (name === 'name' && names[1] === 'views')
    );
}
