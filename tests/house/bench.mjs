/** Measures speed on large invented workspaces: `npm run bench`. It reports, and fails only where a bench breaks. */
import { runNode, tools } from './project.mjs';

process.exit(runNode(tools.vitest, ['bench', '--run', ...process.argv.slice(2)]));
