// The language server as a process of its own: on standard input and output, or on the channel that an editor opens.

import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { startServer } from '../services/start.js';
import { NodeFiles } from './node-files.js';

const connection = createConnection(ProposedFeatures.all);

// What one request leaves behind must not end the server for all others.
process.on('unhandledRejection', problem => {
    connection.console.error(`A failure that nothing caught: ${String(problem)}`);
});

startServer({ connection, fileSystemProvider: () => new NodeFiles() });
