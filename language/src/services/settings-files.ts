// The settings files of the workspaces: read when the folders are, and again when one changes.

import { TextDocument, type URI, UriUtils } from 'langium';
import { readSettings } from '../core/findings/read-settings.js';
import { defaultSettings, settingsFile } from '../core/findings/settings.js';
import type { EditorWorkspace } from './editor-workspace.js';
import type { HalfsplitSharedServices } from './fault-module.js';
import { presenceOf } from './files.js';
import { toDiagnostic } from './to-lsp.js';

export class SettingsFiles {
    constructor(private readonly services: HalfsplitSharedServices) {}

    /** Reads the settings of every workspace. */
    async readAll(): Promise<void> {
        for (const workspace of this.services.halfsplit.Workspaces.all()) await this.read(workspace);
    }

    isSettingsFile(uri: URI): boolean {
        return UriUtils.basename(uri) === settingsFile;
    }

    private async read(workspace: EditorWorkspace): Promise<void> {
        const uri = UriUtils.joinPath(workspace.root, settingsFile);
        const text = await this.textOf(workspace.root);
        const { rules } = this.services.halfsplit;
        const { settings, findings } =
            text === undefined ? { settings: defaultSettings, findings: [] } : readSettings(text, settingsFile, rules);
        const told = workspace.settingsFindings.length > 0;
        workspace.settings = settings;
        workspace.settingsFindings = findings;
        workspace.links.invalidate();
        if (findings.length === 0 && !told) return;
        const address = uri.toString();
        const document = TextDocument.create(address, 'json', 0, text ?? '');
        const diagnostics = findings.flatMap(
            finding => toDiagnostic(finding, 0, () => ({ uri: address, text: document })) ?? [],
        );
        void this.services.lsp.Connection?.sendDiagnostics({ uri: address, diagnostics });
    }

    private async textOf(root: URI): Promise<string | undefined> {
        const { FileSystemProvider } = this.services.workspace;
        try {
            const presence = await presenceOf(root, settingsFile, FileSystemProvider);
            return presence === 'present'
                ? await FileSystemProvider.readFile(UriUtils.joinPath(root, settingsFile))
                : undefined;
        } catch {
            return undefined;
        }
    }
}
