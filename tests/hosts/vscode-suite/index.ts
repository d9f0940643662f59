// Runs every mocha test beside it inside the extension host; the editor calls `run` and reports what it answers.
import { readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Mocha from 'mocha';

interface TestResult {
    readonly title: string;
    readonly passed: boolean;
    readonly milliseconds: number;
    readonly message: string;
}

/**
 * Runs the tests and writes one result a test, as JSON, into the file that `HALFSPLIT_MOCHA_RESULTS` names.
 * Rejects where a test fails, which gives the editor's own exit status.
 */
export async function run(): Promise<void> {
    const mocha = new Mocha({
        ui: 'tdd',
        timeout: 30_000,
        reporter: 'spec',
        color: false,
        forbidOnly: true,
        forbidPending: true,
    });
    for (const name of readdirSync(__dirname).filter(name => name.endsWith('.test.cjs'))) {
        mocha.addFile(join(__dirname, name));
    }
    const results: TestResult[] = [];
    const failures = await new Promise<number>(settle => {
        mocha
            .run(settle)
            .on('pass', test => results.push(describe(test, true, '')))
            .on('fail', (test, error: Error) => results.push(describe(test, false, error.stack ?? error.message)));
    });
    writeFileSync(process.env['HALFSPLIT_MOCHA_RESULTS'] ?? '', JSON.stringify(results));
    if (failures > 0) {
        throw new Error(`${failures} of ${results.length} tests failed`);
    }
}

// A hook that fails is told of as if it were a test, and has no duration.
function describe(test: Mocha.Test, passed: boolean, message: string): TestResult {
    return { title: test.fullTitle(), passed, milliseconds: test.duration ?? 0, message };
}
