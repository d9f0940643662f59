/** What the tests of the house share: a new folder with planted files, removed after the test. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { onTestFinished } from 'vitest';

/** Writes the files, by path and text, into a new folder, and gives the folder's path. */
export function plant(files: Readonly<Record<string, string>>): string {
    const folder = mkdtempSync(join(tmpdir(), 'halfsplit-tidy-'));
    onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
    for (const [path, text] of Object.entries(files)) {
        const file = join(folder, path);
        mkdirSync(dirname(file), { recursive: true });
        writeFileSync(file, text);
    }
    return folder;
}
