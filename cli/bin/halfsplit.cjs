#!/usr/bin/env node
// Starts the bundled command line, and lets Node keep the compiled code between runs where it can.
'use strict';

const { existsSync } = require('node:fs');
const nodeModule = require('node:module');
const { homedir } = require('node:os');
const { isAbsolute, join } = require('node:path');

const bundle = join(__dirname, '..', 'dist', 'halfsplit.cjs');
if (existsSync(bundle)) {
    keepCompiledCode();
    require(bundle);
} else {
    console.error('The command line has not been built yet: run `npm run build` first.');
    process.exitCode = 2;
}

// It only saves time, so nothing is said where it cannot be done.
function keepCompiledCode() {
    const { enableCompileCache, constants } = nodeModule;
    if (enableCompileCache === undefined || process.env.NODE_COMPILE_CACHE !== undefined) {
        // Old versions of Node cannot do it, and who has named a folder for it has switched it on already.
        return;
    }
    const folder = cacheFolder();
    const result = folder === undefined ? undefined : enableCompileCache(join(folder, 'halfsplit'));
    if (result === undefined || result.status === constants.compileCacheStatus.FAILED) {
        // Node then chooses a folder among those for temporary files.
        enableCompileCache();
    }
}

// The user's own folder for what can be made again, where the system has one.
function cacheFolder() {
    try {
        const own = {
            darwin: join(homedir(), 'Library', 'Caches'),
            win32: process.env.LOCALAPPDATA,
        }[process.platform];
        return [own, process.env.XDG_CACHE_HOME, join(homedir(), '.cache')].find(
            folder => folder !== undefined && isAbsolute(folder),
        );
    } catch {
        // Not every account has a home folder.
        return undefined;
    }
}
