#!/usr/bin/env node
// Starts the bundled command line, and lets Node keep the compiled code between runs where it can.
'use strict';

const { existsSync } = require('node:fs');
const { join } = require('node:path');
const nodeModule = require('node:module');

const bundle = join(__dirname, '..', 'dist', 'halfsplit.cjs');
if (existsSync(bundle)) {
    nodeModule.enableCompileCache?.();
    require(bundle);
} else {
    console.error('The command line has not been built yet: run `npm run build` first.');
    process.exitCode = 2;
}
