/** Where the finder of dead code starts: what is run, and not only imported. */
import type { KnipConfig } from 'knip';
import languageManifest from './language/package.json' with { type: 'json' };

export default {
    ignoreExportsUsedInFile: true,
    workspaces: {
        '.': {
            entry: [
                'tests/**/*.test.ts',
                'tests/perf/*.bench.mjs',
                // These are bundled before they are run.
                'tests/perf/bare-parse.ts',
                'tests/perf/readings-work.ts',
                'tests/perf/walk-work.ts',
                'tests/house/work-out-parser-tables.ts',
                'tests/house/*.mjs',
                'tests/hosts/run.mjs',
                'tests/hosts/vscode-suite/index.ts',
                'dependency-cruiser.config.mjs',
            ],
            project: ['tests/**/*.{ts,mjs}', '*.config.{ts,mjs}'],
            // It belongs to the system; a test makes a pipe with it.
            ignoreBinaries: ['mkfifo'],
            ignoreDependencies: [
                // Both are started by their files: see tests/house/project.mjs.
                '@typescript/native',
                'langium-cli',
                // The editor itself provides it.
                'vscode',
                // The tests may use what the code under test uses.
                ...Object.keys(languageManifest.dependencies),
            ],
        },
        language: {
            entry: [
                'src/index.ts',
                'src/player/index.ts',
                'src/server/main-*.ts',
                'src/object-group-by.ts',
                'src/protocol/*.ts',
                'bin/*.cjs',
            ],
            project: ['src/**/*.ts', '!src/generated/**'],
        },
        cli: { entry: ['src/main.ts', 'bin/*.cjs'], project: ['src/**/*.ts'] },
        extension: {
            entry: ['src/extension.ts', 'src/extension-web.ts', 'src/webview/main.ts'],
            project: ['src/**/*.ts'],
        },
    },
} satisfies KnipConfig;
