/** Counts what the test runners wrote down, so that nothing skipped, crashed or empty can pass for well. */

/** @typedef {{ passed: number, failed: number, notes: string[] }} Tally */

/**
 * Counts a step that is no test: it adds nothing when it is well, and one failure when it is not.
 *
 * @param {string} what the step, as it stands in a sentence
 * @param {number} status its exit status
 * @returns {Tally}
 */
export function tallyStep(what, status) {
    return status === 0
        ? { passed: 0, failed: 0, notes: [] }
        : { passed: 0, failed: 1, notes: [`Failed: ${what} (see above).`] };
}

/**
 * Counts the results that vitest's JSON reporter wrote.
 *
 * @param {any} results the parsed file, or nothing where there is none
 * @param {number} status the exit status of vitest
 * @returns {Tally}
 */
export function tallyVitest(results, status) {
    if (results === undefined) {
        return { passed: 0, failed: 1, notes: ['Failed: vitest stopped before it wrote its results.'] };
    }
    /** @type {Tally} */
    const tally = { passed: 0, failed: 0, notes: [] };
    for (const file of results.testResults) {
        const failedBefore = tally.failed;
        for (const test of file.assertionResults) {
            if (test.status === 'passed') {
                tally.passed += 1;
            } else {
                tally.failed += 1;
                tally.notes.push(`${test.status === 'failed' ? 'Failed' : 'Skipped, so failed'}: ${test.fullName}`);
            }
        }
        // A file that cannot be loaded has no tests of its own to fail.
        if (file.status === 'failed' && tally.failed === failedBefore) {
            tally.failed += 1;
            tally.notes.push(`Failed: ${file.name} could not be run.`);
        }
    }
    return addCrash(tally, 'vitest', status);
}

/**
 * Counts the results that the suites for real editors and browsers wrote.
 *
 * @param {any} results the parsed file, or nothing where there is none
 * @param {number} status the exit status of the script that ran them
 * @returns {Tally}
 */
export function tallyHosts(results, status) {
    if (results === undefined) {
        return { passed: 0, failed: 1, notes: ['Failed: the editor tests stopped before they wrote their results.'] };
    }
    const { passed, failed, skipped = 0, failures = [] } = results;
    const notes = failures.map(
        (/** @type {{ suite: string, title: string }} */ { suite, title }) => `Failed: ${suite}: ${title}`,
    );
    if (skipped > 0) {
        notes.push(`Skipped, so failed: ${skipped} of the editor tests.`);
    }
    return addCrash({ passed, failed: failed + skipped, notes }, 'the editor tests', status);
}

/**
 * Adds up several tallies.
 *
 * @param {readonly Tally[]} tallies
 * @returns {Tally}
 */
export function sumTallies(tallies) {
    return {
        passed: tallies.reduce((sum, { passed }) => sum + passed, 0),
        failed: tallies.reduce((sum, { failed }) => sum + failed, 0),
        notes: tallies.flatMap(({ notes }) => notes),
    };
}

/**
 * A runner that ends badly with nothing counted as failed has failed for a reason of its own.
 *
 * @param {Tally} tally
 * @param {string} what
 * @param {number} status
 * @returns {Tally}
 */
function addCrash({ passed, failed, notes }, what, status) {
    if (failed > 0) {
        return { passed, failed, notes };
    }
    if (status !== 0) {
        return { passed, failed: 1, notes: [...notes, `Failed: ${what} ended with status ${status}.`] };
    }
    if (passed === 0) {
        return { passed, failed: 1, notes: [...notes, `Failed: ${what} ran no test.`] };
    }
    return { passed, failed, notes };
}
