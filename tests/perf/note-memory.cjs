/** Loaded before a program that is measured: notes at its end how much memory it has used at most, in kilobytes. */
'use strict';

const { writeFileSync } = require('node:fs');

process.on('exit', () => {
    writeFileSync(process.env.HALFSPLIT_BENCH_MEMORY ?? '', String(process.resourceUsage().maxRSS));
});
