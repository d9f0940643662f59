/** What the linter asks of our sources, beside what the type check and the formatter ask. */
import typescriptEslint from 'typescript-eslint';
import { areas } from './tests/house/import-directions.mjs';

// What only a browser or a process has; the pure parts run in both and may use neither.
const hostGlobals = [
    'window',
    'document',
    'self',
    'process',
    'Buffer',
    'console',
    'fetch',
    'setTimeout',
    'setInterval',
];

export default typescriptEslint.config(
    {
        ignores: [
            '**/node_modules/**',
            '**/dist/**',
            'out/**',
            '.build/**',
            'language/src/generated/**',
            'language/src/rules/index.ts',
        ],
    },
    { linterOptions: { reportUnusedDisableDirectives: 'error' } },
    {
        files: ['**/*.{ts,mts,js,mjs,cjs}'],
        rules: {
            eqeqeq: ['error', 'always'],
            'no-var': 'error',
            'prefer-const': 'error',
            'object-shorthand': 'error',
            'prefer-template': 'error',
            'no-else-return': 'error',
            'no-self-compare': 'error',
            'no-unreachable-loop': 'error',
            'no-constant-binary-expression': 'error',
            'no-template-curly-in-string': 'error',
            'no-duplicate-imports': 'off',
            'no-eval': 'error',
            'no-implied-eval': 'error',
            'no-new-func': 'error',
            curly: ['error', 'multi-line'],
            complexity: ['error', 20],
        },
    },
    {
        files: ['**/*.{ts,mts}'],
        extends: [typescriptEslint.configs.recommendedTypeChecked],
        languageOptions: { parserOptions: { projectService: true, tsconfigRootDir: import.meta.dirname } },
        rules: {
            '@typescript-eslint/no-explicit-any': 'error',
            '@typescript-eslint/no-floating-promises': 'error',
            '@typescript-eslint/no-non-null-assertion': 'error',
            '@typescript-eslint/no-deprecated': 'error',
            '@typescript-eslint/no-import-type-side-effects': 'error',
            '@typescript-eslint/consistent-type-imports': ['error', { fixStyle: 'inline-type-imports' }],
            '@typescript-eslint/consistent-type-exports': 'error',
            '@typescript-eslint/switch-exhaustiveness-check': [
                'error',
                { considerDefaultExhaustiveForUnions: true, requireDefaultForNonUnion: false },
            ],
            '@typescript-eslint/no-unused-vars': [
                'error',
                { args: 'all', argsIgnorePattern: '^_', caughtErrors: 'all', ignoreRestSiblings: true },
            ],
            '@typescript-eslint/restrict-template-expressions': ['error', { allowNumber: true }],
            // Tests and callbacks are often async because their type says so.
            '@typescript-eslint/require-await': 'off',
        },
    },
    {
        files: ['{language,cli,extension}/src/**/*.ts'],
        rules: {
            'max-lines-per-function': ['error', { max: 70, skipBlankLines: true, skipComments: true }],
        },
    },
    {
        files: ['language/src/**/*.ts'],
        ignores: ['language/src/server/**', 'language/src/services/**'],
        rules: {
            'no-restricted-globals': ['error', ...hostGlobals],
            'no-restricted-properties': [
                'error',
                { object: 'Math', property: 'random', message: 'The same input always gives the same output.' },
                { object: 'Date', property: 'now', message: 'Nothing here reads a clock.' },
            ],
        },
    },
    // Of two entries that fit a file the later one counts, so an area inside another one comes after it.
    ...areas.toReversed().map(toConfiguration),
);

/**
 * @param {import('./tests/house/import-directions.mjs').Area} area
 * @returns {import('typescript-eslint').ConfigWithExtends}
 */
function toConfiguration(area) {
    return {
        files: [area.path.endsWith('/') ? `${area.path}**/*.ts` : area.path],
        rules: { 'no-restricted-imports': ['error', { patterns: restrictedImports(area) }] },
    };
}

/**
 * Gives the import patterns that an area may not use. The resolved imports are checked by a test of their own; this
 * shows a wrong import in the editor at once.
 *
 * @param {import('./tests/house/import-directions.mjs').Area} area
 */
function restrictedImports(area) {
    const message = `${area.path} may not import this; see tests/house/import-directions.mjs.`;
    const allowed = [...area.packages.map(name => `${name}(/|$)`), ...(area.node ? ['node:'] : [])];
    const ownPackage = area.may.some(path => path.endsWith('index.ts')) ? ['halfsplit-language$'] : [];
    const ownProtocol = area.may.some(path => path.endsWith('protocol/')) ? ['halfsplit-language/protocol/'] : [];
    const words = [...allowed, ...ownPackage, ...ownProtocol].map(word => word.replaceAll('.', '\\.'));
    const forbiddenFolders = areas
        .filter(other => other !== area && other.path.startsWith('language/src/') && other.path.endsWith('/'))
        .filter(other => !area.may.includes(other.path) && !(area.mayTypes ?? []).includes(other.path))
        .map(other => other.path.slice('language/src/'.length, -1));
    return [
        { regex: words.length === 0 ? '^[^.]' : `^(?!\\.|${words.join('|')})`, message },
        ...(area.path.startsWith('language/src/')
            ? [{ regex: `^(\\.\\./)+(${forbiddenFolders.join('|')})/`, message }]
            : []),
    ];
}
