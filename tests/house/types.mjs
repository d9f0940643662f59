/** Checks the types of the whole repository: `npm run types`. */
import { runNode, tools } from './project.mjs';

process.exit(runNode(tools.typeScript, ['--build', 'tsconfig.json', ...process.argv.slice(2)]));
