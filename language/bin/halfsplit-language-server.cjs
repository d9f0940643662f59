#!/usr/bin/env node
// Starts the bundled language server on standard input and output, for any editor that speaks its protocol.
'use strict';

const { existsSync } = require('node:fs');
const { join } = require('node:path');
const nodeModule = require('node:module');

const bundle = join(__dirname, '..', 'dist', 'server', 'main-node.cjs');
if (!process.argv.slice(2).some(word => /^--(stdio|node-ipc|socket|pipe)/.test(word))) {
    process.argv.push('--stdio');
}
if (existsSync(bundle)) {
    nodeModule.enableCompileCache?.();
    require(bundle);
} else {
    console.error('The language server has not been built yet: run `npm run build` first.');
    process.exitCode = 2;
}
