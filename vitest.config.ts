/** How the tests are run: every `*.test.ts` under tests, except the suites for real editors and browsers. */
import { defineConfig } from 'vitest/config';

// Our own packages are tested from their sources, never from something built earlier. `import` and `default` always
// hold; naming them or `module` here would make Node mix the two forms that the protocol's packages come in.
const conditions = ['halfsplit-source', 'node'];

export default defineConfig({
    resolve: { conditions },
    ssr: { resolve: { conditions } },
    test: {
        include: ['tests/**/*.test.ts'],
        exclude: ['tests/hosts/**'],
        allowOnly: false,
        testTimeout: 20_000,
        hookTimeout: 60_000,
    },
});
