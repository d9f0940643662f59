/** Runs programs as processes of their own, taking turns, and compares how long they take and how much memory. */
import { spawnSync } from 'node:child_process';
import { readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { buildFolder, root, writeText } from '../house/project.mjs';

/**
 * @typedef {object} Program
 * @property {string} name how the table calls it
 * @property {readonly string[]} words what follows `node`
 */

/**
 * @typedef {object} Measured
 * @property {number} milliseconds the median of how long it took, from start to end
 * @property {number} megabytes the median of the most memory that was in use at once (maximum resident set)
 */

/**
 * Runs each program a few times in turn, so that what else the machine does meets all of them.
 * A first round is not counted: it fills the caches. Memory is measured in rounds of its own, which add to the time.
 *
 * @param {readonly Program[]} programs
 * @param {number} rounds
 * @returns {readonly Measured[]} in the order of the programs
 */
export function measureInTurn(programs, rounds) {
    inTurn(programs, 1, timeOf);
    const times = inTurn(programs, rounds, timeOf);
    const memory = inTurn(programs, Math.min(rounds, 3), memoryOf);
    return programs.map((_, index) => ({
        milliseconds: median(times[index] ?? []),
        megabytes: median(memory[index] ?? []),
    }));
}

/**
 * @param {readonly Program[]} programs
 * @param {number} rounds
 * @param {(program: Program) => number} measure
 * @returns {number[][]} what was measured, by program
 */
function inTurn(programs, rounds, measure) {
    /** @type {number[][]} */
    const results = programs.map(() => []);
    for (let round = 0; round < rounds; round += 1) {
        programs.forEach((program, index) => results[index]?.push(measure(program)));
    }
    return results;
}

/** The folder that benchmarks write to. */
export const benchFolder = join(buildFolder, 'bench');

/** @param {Program} program */
function timeOf(program) {
    const started = process.hrtime.bigint();
    run(program);
    return Number(process.hrtime.bigint() - started) / 1e6;
}

/** @param {Program} program */
function memoryOf(program) {
    const note = join(benchFolder, `memory-${process.pid}.txt`);
    run(program, ['--require', join(root, 'tests/perf/note-memory.cjs')], { HALFSPLIT_BENCH_MEMORY: note });
    const kilobytes = Number(readFileSync(note, 'utf8'));
    rmSync(note);
    return kilobytes / 1024;
}

/**
 * @param {Program} program
 * @param {readonly string[]} options
 * @param {Readonly<Record<string, string>>} environment
 */
function run({ name, words }, options = [], environment = {}) {
    const { status, stdout, stderr } = spawnSync(process.execPath, [...options, ...words], {
        cwd: benchFolder,
        encoding: 'utf8',
        env: { ...process.env, ...environment },
    });
    if (status !== 0) {
        throw new Error(`${name} ended with status ${status}:\n${stdout}${stderr}`);
    }
}

/** @param {readonly number[]} numbers */
export function median(numbers) {
    const sorted = [...numbers].sort((a, b) => a - b);
    const middle = sorted.length >> 1;
    const upper = sorted[middle] ?? 0;
    return sorted.length % 2 === 1 ? upper : (upper + (sorted[middle - 1] ?? 0)) / 2;
}

/**
 * Writes a workspace for a benchmark.
 *
 * @param {string} name the folder's name
 * @param {readonly import('./generate-workspace.js').GeneratedFile[]} files
 * @returns {string} the folder
 */
export function writeWorkspace(name, files) {
    const folder = join(benchFolder, name);
    rmSync(folder, { recursive: true, force: true });
    for (const { path, text } of files) {
        writeText(join('.build', 'bench', name, path), text);
    }
    return folder;
}

/**
 * Shows rows of text in columns; the first row is the heading.
 *
 * @param {readonly (readonly string[])[]} rows
 */
export function showTable(rows) {
    const widths = (rows[0] ?? []).map((_, column) => Math.max(...rows.map(row => row[column]?.length ?? 0)));
    for (const row of rows) {
        console.log(
            row
                .map((cell, column) =>
                    column === 0 ? cell.padEnd(widths[0] ?? 0) : cell.padStart(widths[column] ?? 0),
                )
                .join('   '),
        );
    }
}
