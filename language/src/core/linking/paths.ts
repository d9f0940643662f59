// Paths as the author writes them, made relative to the workspace; pure text, no file system.

import type { FileId } from '../model/written.js';

/**
 * The file that `written` names when `from` says it, relative to the workspace.
 * Undefined when the path leaves the workspace, is absolute, names a drive or a scheme, or is empty.
 */
export function resolvePath(from: FileId, written: string): FileId | undefined {
    const path = written.replaceAll('\\', '/').trim();
    if (path === '' || path.startsWith('/') || /^[A-Za-z][A-Za-z0-9+.-]*:/.test(path) || path.includes('\0')) {
        return undefined;
    }
    const parts = from.split('/').slice(0, -1);
    for (const part of path.split('/')) {
        if (part === '..') {
            if (parts.length === 0) return undefined;
            parts.pop();
        } else if (part !== '.' && part !== '') {
            parts.push(part);
        }
    }
    return parts.length === 0 ? undefined : parts.join('/');
}

/** How `from` would write the path of `to`. */
export function relativePath(from: FileId, to: FileId): string {
    const start = from.split('/').slice(0, -1);
    const end = to.split('/');
    let shared = 0;
    while (shared < start.length && shared < end.length - 1 && start[shared] === end[shared]) shared++;
    return [...start.slice(shared).map(() => '..'), ...end.slice(shared)].join('/');
}
