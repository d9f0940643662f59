// What the tests in the extension host share: the files of the workspace, places found by their text, patient waiting.
import { deepStrictEqual } from 'node:assert';
import * as vscode from 'vscode';

const patienceMilliseconds = 15_000;
const pauseMilliseconds = 50;

/** Opens a file of the test's workspace in an editor. */
export async function open(name: string): Promise<vscode.TextEditor> {
    const document = await vscode.workspace.openTextDocument(fileOfWorkspace(name));
    return vscode.window.showTextDocument(document);
}

/** Closes every editor and throws away what the test has written, so that the next test finds the files as they were. */
export async function closeWithoutSaving(): Promise<void> {
    // The editor changes files of its own at times, such as its settings; those are none of the test's business.
    const changed = vscode.workspace.textDocuments.filter(
        ({ isDirty, languageId }) => isDirty && languageId === 'fault',
    );
    for (const document of changed) {
        await vscode.window.showTextDocument(document);
        await vscode.commands.executeCommand('workbench.action.files.revert');
    }
    await vscode.commands.executeCommand('workbench.action.closeAllEditors');
}

/** The address of a file of the test's workspace. */
export function fileOfWorkspace(name: string): vscode.Uri {
    const [folder] = vscode.workspace.workspaceFolders ?? [];
    if (folder === undefined) {
        throw new Error('the test has no workspace folder');
    }
    return vscode.Uri.joinPath(folder.uri, name);
}

/** The range of `text` where it stands for the first time after `before` has. */
export function rangeOf(document: vscode.TextDocument, text: string, before = ''): vscode.Range {
    const whole = document.getText();
    const start = whole.indexOf(text, whole.indexOf(before) + before.length);
    if (start < 0) {
        throw new Error(`\`${text}\` does not stand in ${document.uri.path}`);
    }
    return new vscode.Range(document.positionAt(start), document.positionAt(start + text.length));
}

/** A place inside a word, as a cursor would stand. */
export function placeIn(document: vscode.TextDocument, word: string, before = ''): vscode.Position {
    return rangeOf(document, word, before).start.translate(0, 1);
}

/** Replaces text in an editor, as typing does. */
export async function replace(editor: vscode.TextEditor, range: vscode.Range, text: string): Promise<void> {
    if (!(await editor.edit(edit => edit.replace(range, text)))) {
        throw new Error('the editor refused the edit');
    }
}

/** Asks until the answer is good, for the editor works in its own time. Fails with the last answer otherwise. */
export async function eventually<T>(
    awaited: string,
    ask: () => T | Thenable<T>,
    isGood: (answer: T) => boolean,
): Promise<T> {
    const deadline = Date.now() + patienceMilliseconds;
    for (;;) {
        const answer = await ask();
        if (isGood(answer)) {
            return answer;
        }
        if (Date.now() > deadline) {
            throw new Error(`waited in vain for ${awaited}; the last answer was ${JSON.stringify(answer)}`);
        }
        await new Promise(settle => setTimeout(settle, pauseMilliseconds));
    }
}

/** Asserts places, whatever order they come in, each told as `file: its line` with the place in angle brackets. */
export async function assertPlaces(locations: readonly vscode.Location[], expected: readonly string[]): Promise<void> {
    const told = await Promise.all(
        locations.map(async ({ uri, range: { start, end } }) => {
            const document = await vscode.workspace.openTextDocument(uri);
            const line = document.lineAt(start.line).text;
            const marked = `${line.slice(0, start.character)}<${document.getText(new vscode.Range(start, end))}>`;
            const rest = start.line === end.line ? line.slice(end.character) : '';
            return `${vscode.workspace.asRelativePath(uri)}: ${(marked + rest).trim()}`;
        }),
    );
    deepStrictEqual(told.sort(), [...expected].sort());
}
