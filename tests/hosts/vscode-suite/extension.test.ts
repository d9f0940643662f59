// What a writer meets in the editor: findings that come and go, and the ways to get about in trees.
import { deepStrictEqual, ok, strictEqual } from 'node:assert';
import * as vscode from 'vscode';
import {
    assertPlaces,
    closeWithoutSaving,
    eventually,
    fileOfWorkspace,
    open,
    placeIn,
    rangeOf,
    replace,
} from './support.js';

const extensionId = 'halfsplit.halfsplit-vscode';

suite('The extension', () => {
    teardown(closeWithoutSaving);

    test('wakes up when a .fault file is opened', async () => {
        const { document } = await open('no-light.fault');
        strictEqual(document.languageId, 'fault');
        const extension = vscode.extensions.getExtension(extensionId);
        ok(extension, `there is no extension ${extensionId}`);
        await eventually('the extension to be active', () => extension.isActive, Boolean);
    });

    test('reports a misspelt name, and takes the finding back when it is mended', async () => {
        const editor = await open('misspelt.fault');
        const { document } = editor;
        const misspelt = rangeOf(document, 'socket-voltge');
        const [finding] = await eventually(
            'the finding',
            () => errorsOf(document),
            found => found.length > 0,
        );
        ok(finding);
        deepStrictEqual([codeOf(finding), document.getText(finding.range)], ['unknown-name', 'socket-voltge']);
        ok(/`socket-voltage`/.test(finding.message), finding.message);
        ok(finding.range.isEqual(misspelt));
        await replace(editor, misspelt, 'socket-voltage');
        await eventually(
            'the finding to go',
            () => errorsOf(document),
            found => found.length === 0,
        );
    });

    test('reports no error in files without one', async () => {
        const tree = await open('no-light.fault');
        const misspelt = await open('misspelt.fault');
        await replace(misspelt, rangeOf(misspelt.document, 'tree', '\n\n'), 'trees');
        await eventually(
            'a finding in the other file',
            () => errorsOf(misspelt.document),
            found => found.length > 0,
        );
        deepStrictEqual(errorsOf(tree.document), []);
        deepStrictEqual(vscode.languages.getDiagnostics(fileOfWorkspace('reading-lamp.fault')), []);
    });

    test('goes to the definition of a test in another file', async () => {
        const { document } = await open('no-light.fault');
        const locations = await eventually('the definition', () => definitions(document, 'socket-voltage'), isNotEmpty);
        await assertPlaces(locations, ['reading-lamp.fault: test <socket-voltage> "Voltage at the lamp socket" {']);
    });

    test('lists every reference to a test, in all files', async () => {
        const { document } = await open('no-light.fault');
        const ask = () =>
            vscode.commands.executeCommand<vscode.Location[]>(
                'vscode.executeReferenceProvider',
                document.uri,
                placeIn(document, 'light', 'complaint '),
            );
        const locations = await eventually('the references', ask, isNotEmpty);
        await assertPlaces(locations, [
            'misspelt.fault: complaint <light> dark, dim',
            'misspelt.fault: test <light> { normal -> nothing-found   dark, dim -> at-socket }',
            'no-light.fault: complaint <light> dark, dim',
            'no-light.fault: test <light> { normal -> nothing-found   dark, dim -> at-socket }',
            'reading-lamp.fault: flow power: charger -> cord -> [socket-voltage] -> lamp -> [<light>]',
            'reading-lamp.fault: test <light> "Does the lamp give light?" {',
        ]);
    });

    test('renames a conclusion wherever it stands', async () => {
        const { document } = await open('no-light.fault');
        const edit = await vscode.commands.executeCommand<vscode.WorkspaceEdit>(
            'vscode.executeDocumentRenameProvider',
            document.uri,
            placeIn(document, 'bad-cord'),
            'worn-cord',
        );
        ok(await vscode.workspace.applyEdit(edit));
        strictEqual(document.getText().split('worn-cord').length - 1, 2);
        ok(!document.getText().includes('bad-cord'));
    });

    test('outlines a tree: its steps and its ends', async () => {
        const { document } = await open('no-light.fault');
        const ask = () =>
            vscode.commands.executeCommand<vscode.DocumentSymbol[]>(
                'vscode.executeDocumentSymbolProvider',
                document.uri,
            );
        const symbols = await eventually('the outline', ask, isNotEmpty);
        deepStrictEqual(
            symbols.map(symbol => symbol.name),
            ['no-light'],
        );
        deepStrictEqual(
            symbols[0]?.children.map(child => child.name),
            ['look', 'at-socket', 'bad-lamp', 'bad-cord', 'nothing-found'],
        );
    });

    test('completes the names of tests', async () => {
        const { document } = await open('no-light.fault');
        const ask = () =>
            vscode.commands.executeCommand<vscode.CompletionList>(
                'vscode.executeCompletionItemProvider',
                document.uri,
                rangeOf(document, 'socket-voltage').start,
            );
        const isGood = (list: vscode.CompletionList): boolean => {
            const labels = list.items.map(item => (typeof item.label === 'string' ? item.label : item.label.label));
            return labels.includes('light') && labels.includes('socket-voltage');
        };
        await eventually('both tests of the lamp to be offered', ask, isGood);
    });
});

function definitions(document: vscode.TextDocument, word: string): Thenable<vscode.Location[]> {
    const ask = vscode.commands.executeCommand<(vscode.Location | vscode.LocationLink)[]>(
        'vscode.executeDefinitionProvider',
        document.uri,
        placeIn(document, word),
    );
    return ask.then(found =>
        found.map(place =>
            'targetUri' in place
                ? new vscode.Location(place.targetUri, place.targetSelectionRange ?? place.targetRange)
                : place,
        ),
    );
}

function errorsOf(document: vscode.TextDocument): vscode.Diagnostic[] {
    const diagnostics = vscode.languages.getDiagnostics(document.uri);
    return diagnostics.filter(({ severity }) => severity === vscode.DiagnosticSeverity.Error);
}

function codeOf({ code }: vscode.Diagnostic): unknown {
    return typeof code === 'object' ? code.value : code;
}

function isNotEmpty(found: readonly unknown[] | undefined): boolean {
    return found !== undefined && found.length > 0;
}
