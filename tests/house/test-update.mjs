/** Rewrites golden files and snapshots with what the code gives now: `npm run test:update`. Read the difference. */
import { runNode, tools } from './project.mjs';

process.exit(runNode(tools.vitest, ['run', ...process.argv.slice(2), '--update'], { UPDATE_GOLDEN: '1' }));
