// Starts the program in this process.

import { processIo } from './process-io.js';
import { runProgram } from './program.js';

// The exit status is set and the process left to end by itself, so that everything that was written gets out.
void runProgram(process.argv.slice(2), processIo()).then(status => {
    process.exitCode = status;
});
