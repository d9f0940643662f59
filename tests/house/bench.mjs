/**
 * Measures speed and memory on invented workspaces: `npm run bench [-- NAME [OPTION...]]`, where NAME is that of a file
 * tests/perf/NAME.bench.mjs. It reports; the status is 1 only where a benchmark breaks.
 */
import { listFiles, runNode } from './project.mjs';

const [wanted, ...options] = process.argv.slice(2);
const names = listFiles('tests/perf').flatMap(path => /^tests\/perf\/(.*)\.bench\.mjs$/.exec(path)?.[1] ?? []);
if (wanted !== undefined && !names.includes(wanted)) {
    console.error(`There is no benchmark ${wanted}; there are ${names.join(', ')}.`);
    process.exit(2);
}
const statuses = names
    .filter(name => wanted === undefined || name === wanted)
    .map(name => runNode(`tests/perf/${name}.bench.mjs`, options));
process.exit(statuses.some(status => status !== 0) ? 1 : 0);
