// The findings of each document: worked out by the rules, kept while the text changes, and told to the client.

import { interruptAndCheck, type LangiumDocument, type URI } from 'langium';
import { CancellationToken, type Diagnostic } from 'vscode-languageserver';
import type { Finding } from '../core/findings/finding.js';
import type { Rule } from '../core/findings/rule.js';
import { verify } from '../core/findings/verify.js';
import type { HalfsplitSharedServices } from './fault-module.js';
import { moveFindings } from './moved-findings.js';
import { toDiagnostic } from './to-lsp.js';
import type { Located } from './workspaces.js';

/** How often a file is looked at again because other files were not known to be there or missing. */
const mostLooks = 3;

/** What was found in a file the last time that every rule was asked. */
interface Settled {
    readonly text: string;
    /** Findings of rules that are too slow to run at every keystroke. */
    readonly slow: readonly Finding[];
}

/** What the client was told last about a document. */
interface Published {
    readonly diagnostics: readonly Diagnostic[];
    readonly version: number | undefined;
}

export class Findings {
    private readonly settled = new Map<string, Settled>();
    private readonly published = new Map<string, Published>();
    private readonly slowCodes: ReadonlySet<string>;

    constructor(private readonly services: HalfsplitSharedServices) {
        this.slowCodes = slowCodesOf(services.halfsplit.rules);
    }

    /**
     * Looks for findings in a document and tells the client. `fast` asks only the rules that can keep up with typing
     * and keeps what the others had to say, moved along with the text.
     */
    async check(document: LangiumDocument, cost: 'fast' | 'slow', token = CancellationToken.None): Promise<void> {
        for (let look = 0; look < mostLooks; look += 1) {
            const located = this.services.halfsplit.Workspaces.read(document);
            const findings = located && this.findIn(located, cost, token);
            await interruptAndCheck(token);
            if (!located || !findings) return;
            const more = await located.workspace.lookForWanted();
            await interruptAndCheck(token);
            if (!more || look === mostLooks - 1) return this.publish(located, findings);
        }
    }

    /** Forgets a document and takes back what was told about it. */
    forget(uri: URI): void {
        const key = uri.toString();
        this.settled.delete(key);
        if (this.published.delete(key)) this.send(key, [], undefined);
    }

    private findIn(located: Located, cost: 'fast' | 'slow', token: CancellationToken): readonly Finding[] | undefined {
        const { workspace, file, source } = located;
        const signal = {
            get aborted(): boolean {
                return token.isCancellationRequested;
            },
        };
        const { rules } = this.services.halfsplit;
        const { settings } = workspace;
        const options = { rules, settings, signal, files: [file], cost };
        const findings = verify(workspace.links.model, source.findings, options)?.findings;
        return findings && this.withSettled(located, findings, cost);
    }

    private withSettled({ source }: Located, findings: readonly Finding[], cost: 'fast' | 'slow'): readonly Finding[] {
        const key = source.uri.toString();
        const text = source.text.getText();
        const fast = findings.filter(({ code }) => !this.slowCodes.has(code));
        const before = this.settled.get(key);
        const slow =
            cost === 'slow'
                ? findings.filter(({ code }) => this.slowCodes.has(code))
                : moveFindings(before?.slow ?? [], source.file, before?.text ?? text, text);
        this.settled.set(key, { text, slow });
        return [...fast, ...slow];
    }

    private publish({ workspace, source }: Located, findings: readonly Finding[]): void {
        const open = this.services.workspace.TextDocuments.get(source.uri);
        // Places in a text that has changed meanwhile would be wrong; the change itself brings the next answer.
        if (open && open.getText() !== source.text.getText()) return;
        // A workspace may reach beyond the folders that somebody looks at.
        if (!open && !this.services.workspace.WorkspaceManager.isInFolder(source.uri)) return this.forget(source.uri);
        const version = open?.version ?? 0;
        const diagnostics = findings.flatMap(finding => toDiagnostic(finding, version, workspace.textOf) ?? []);
        const key = source.uri.toString();
        const before = this.published.get(key);
        const now = { diagnostics, version: open?.version };
        // Most checks of a pause find what was found while typing.
        if (before && JSON.stringify(before) === JSON.stringify(now)) return;
        this.published.set(key, now);
        this.send(key, diagnostics, now.version);
    }

    private send(uri: string, diagnostics: Diagnostic[], version: number | undefined): void {
        const { Connection } = this.services.lsp;
        void Connection?.sendDiagnostics({ uri, diagnostics, ...(version === undefined ? {} : { version }) });
    }
}

function slowCodesOf(rules: readonly Rule[]): ReadonlySet<string> {
    const codes = rules.filter(({ cost }) => cost === 'slow').map(({ code }) => code);
    // An acceptance can only be idle once every rule has spoken.
    return new Set([...codes, 'idle-acceptance']);
}
