// A walk as JSON for programs, described in the README of this package.

import { safetyNotice, type ToldPosition, type Tree } from 'halfsplit-language';
import { programName, programVersion } from '../version.js';

/** It changes when a reader of an earlier version would no longer understand the walk. */
const walkVersion = 1;

/** The walk as JSON with a line feed at the end. What is not there is null. */
export function walkJson(tree: Tree, build: readonly string[], positions: readonly ToldPosition[]): string {
    const walk = {
        formatVersion: walkVersion,
        tool: { name: programName, version: programVersion },
        safety: safetyNotice(),
        tree: { name: tree.name.text, title: tree.title?.value ?? '', file: tree.file },
        build,
        positions,
    };
    return `${JSON.stringify(walk, (_, value: unknown) => (value === undefined ? null : value), 2)}\n`;
}
