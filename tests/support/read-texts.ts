/** Reads and verifies texts as a workspace, for the tests of rules: texts in, findings out. */
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Finding } from '../../language/src/core/findings/finding.js';
import { defaultSettings, type Settings } from '../../language/src/core/findings/settings.js';
import { type Verdict, verify } from '../../language/src/core/findings/verify.js';
import { resolvePath } from '../../language/src/core/linking/paths.js';
import { rules } from '../../language/src/rules/index.js';
import { readWorkspace, type Workspace } from '../../language/src/workspace/read-workspace.js';
import { root } from '../house/project.mjs';

/** Files by path; a file that is no source only counts as being there. */
export type Texts = Readonly<Record<string, string>>;

export interface ReadTextsOptions {
    /** `fast` asks only the rules that speak as you type. */
    readonly cost?: 'fast' | 'slow';
    /** Whether files that the texts do not hold are taken from this repository, as a page's examples may do. */
    readonly repository?: boolean;
    /** The settings of the workspace; what every workspace begins with where they are absent. */
    readonly settings?: Settings;
}

/** The workspace that the texts make. */
export function readTexts(texts: Texts, options: ReadTextsOptions = {}): Workspace {
    const all = new Map(Object.entries(texts));
    if (options.repository) addUsedFiles(all);
    const sources = [...all].filter(([file]) => isSource(file)).map(([file, text]) => ({ file, text }));
    return readWorkspace(sources, {
        presence: path => (all.has(path) || (options.repository && isInRepository(path)) ? 'present' : 'missing'),
    });
}

/** What all rules say of the workspace. */
export function verifyTexts(texts: Texts, options: ReadTextsOptions = {}): Verdict {
    const { model, findings } = readTexts(texts, options);
    const files = Object.keys(texts).filter(isSource);
    const { cost = 'slow', settings = defaultSettings } = options;
    const verdict = verify(model, findings, {
        rules,
        settings,
        signal: { aborted: false },
        cost,
        files,
    });
    if (!verdict) throw new Error('Nobody asked for the verification to stop, and still it did.');
    return verdict;
}

/** The findings of the texts, without those of files that were taken from this repository. */
export function findingsOf(texts: Texts, options: ReadTextsOptions = {}): readonly Finding[] {
    return verifyTexts(texts, options).findings.filter(({ file }) => file in texts);
}

function isSource(file: string): boolean {
    return file.endsWith('.fault');
}

function isInRepository(path: string): boolean {
    return existsSync(join(root, path));
}

/** Adds what the texts use and the repository has, and what that uses in turn. */
function addUsedFiles(all: Map<string, string>): void {
    // The loop also visits what it adds.
    for (const [file, text] of all) {
        for (const [, path = ''] of text.matchAll(/^\s*uses\s+"([^"]*)"/gm)) {
            const used = resolvePath(file, path);
            if (used !== undefined && isSource(used) && !all.has(used) && isInRepository(used)) {
                all.set(used, readFileSync(join(root, used), 'utf8'));
            }
        }
    }
}
