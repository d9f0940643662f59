/**
 * Lays out all our sources in the one way that the tests check, and mends what the linter can mend by itself:
 * `npm run format [-- FILE...]`. What the linter cannot mend is shown.
 */
import { runNode, tools } from './project.mjs';

const files = process.argv.slice(2);
const chosen = files.length > 0 ? files : ['.'];
const linted = runNode(tools.eslint, ['--fix', '--no-warn-ignored', ...chosen]);
const laidOut = runNode(tools.prettier, ['--write', '--log-level=warn', '--ignore-unknown', ...chosen]);
process.exit(linted || laidOut);
