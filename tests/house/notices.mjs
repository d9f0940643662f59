/** Collects the licenses of the packages that a bundle holds, since a copy of each has to go with it. */
import { readdirSync, readFileSync } from 'node:fs';
import { basename, join, relative } from 'node:path';
import { root, writeText } from './project.mjs';

/** The only licenses that what ships may have. */
export const allowedLicenses = ['MIT', 'ISC', 'BSD-2-Clause', 'BSD-3-Clause', 'Apache-2.0'];

/**
 * Writes FOLDER/BUNDLE.txt with the license text of every package that is in the bundle.
 *
 * @param {string} folder where the text goes
 * @param {string} bundle the bundle's path
 * @param {import('esbuild').Metafile} metafile what esbuild says of the bundle
 * @returns {number} how many packages the bundle holds
 */
export function writeNotices(folder, bundle, metafile) {
    const inputs = Object.values(metafile.outputs).flatMap(output => Object.entries(output.inputs));
    const folders = new Set(
        inputs
            .filter(([, { bytesInOutput }]) => bytesInOutput > 0)
            .map(([path]) => toPackageFolder(path))
            .filter(path => path !== undefined),
    );
    const texts = [...folders].sort().map(describe);
    const head = `${basename(bundle)} holds the packages below, each under its own license.\n`;
    writeText(join(relative(root, folder), `${basename(bundle)}.txt`), [head, ...texts].join('\n---\n\n'));
    return folders.size;
}

/**
 * @param {string} input a file in a bundle, relative to the top folder
 * @returns {string | undefined} the folder of the installed package it is from, or nothing where it is ours
 */
function toPackageFolder(input) {
    return /^.*node_modules\/(?:@[^/]+\/)?[^/]+/.exec(input)?.[0];
}

/** @param {string} folder a package's folder, relative to the top folder */
function describe(folder) {
    const { name, version, license } = JSON.parse(readFileSync(join(root, folder, 'package.json'), 'utf8'));
    if (!allowedLicenses.includes(license)) {
        throw new Error(`${name} ${version} is under ${license}, which may not ship with Halfsplit.`);
    }
    const files = readdirSync(join(root, folder)).filter(file => /^(licen[cs]e|notice)/i.test(file));
    const texts = files.map(file => readFileSync(join(root, folder, file), 'utf8').trim());
    return `${name} ${version} (${license})\n\n${texts.join('\n\n')}\n`;
}
