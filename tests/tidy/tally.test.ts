/** The closing line of `npm test` counts everything that is not well as failed. */
import { expect, test } from 'vitest';
import { sumTallies, tallyHosts, tallyStep, tallyVitest } from '../house/tally.mjs';

const file = (...statuses: string[]) => ({
    name: 'a.test.ts',
    status: statuses.includes('failed') ? 'failed' : 'passed',
    assertionResults: statuses.map(status => ({ status, fullName: `a ${status} test` })),
});

test('counts passed and failed tests', () => {
    expect(tallyVitest({ testResults: [file('passed', 'failed'), file('passed')] }, 1)).toEqual({
        passed: 2,
        failed: 1,
        notes: ['Failed: a failed test'],
    });
});

test.each(['pending', 'skipped', 'todo', 'disabled'])('counts a test that is %s as failed', status => {
    expect(tallyVitest({ testResults: [file('passed', status)] }, 0)).toMatchObject({ passed: 1, failed: 1 });
});

test('counts a file that could not be loaded as failed', () => {
    const broken = { name: 'broken.test.ts', status: 'failed', assertionResults: [] };
    expect(tallyVitest({ testResults: [file('passed'), broken] }, 1)).toMatchObject({ passed: 1, failed: 1 });
});

test('counts a runner that ends badly, writes nothing or runs nothing as failed', () => {
    expect(tallyVitest({ testResults: [file('passed')] }, 1)).toMatchObject({ passed: 1, failed: 1 });
    expect(tallyVitest(undefined, 0)).toMatchObject({ passed: 0, failed: 1 });
    expect(tallyVitest({ testResults: [] }, 0)).toMatchObject({ passed: 0, failed: 1 });
    expect(tallyHosts(undefined, 0)).toMatchObject({ passed: 0, failed: 1 });
    expect(tallyHosts({ passed: 0, failed: 0 }, 0)).toMatchObject({ passed: 0, failed: 1 });
    expect(tallyHosts({ passed: 3, failed: 0 }, 2)).toMatchObject({ passed: 3, failed: 1 });
});

test('counts the tests in editors, and names those that failed', () => {
    const results = { passed: 4, failed: 1, skipped: 1, failures: [{ suite: 'vsix', title: 'shows it' }] };
    expect(tallyHosts(results, 1)).toEqual({
        passed: 4,
        failed: 2,
        notes: ['Failed: vsix: shows it', 'Skipped, so failed: 1 of the editor tests.'],
    });
});

test('a step that is no test adds a failure and never a pass', () => {
    const sum = sumTallies([tallyStep('the type check', 0), tallyStep('generated files', 1)]);
    expect(sum).toEqual({ passed: 0, failed: 1, notes: ['Failed: generated files (see above).'] });
});
