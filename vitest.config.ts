/** How the tests are run: every `*.test.ts` under tests, except the suites for real editors and browsers. */
import { defineConfig } from 'vitest/config';

// Our own packages are tested from their sources, never from something built earlier.
const conditions = ['halfsplit-source', 'module', 'node', 'import', 'default'];

export default defineConfig({
    resolve: { conditions },
    ssr: { resolve: { conditions } },
    test: {
        include: ['tests/**/*.test.ts'],
        exclude: ['tests/hosts/**'],
        benchmark: { include: ['tests/**/*.bench.ts'] },
        allowOnly: false,
        testTimeout: 20_000,
        hookTimeout: 60_000,
    },
});
