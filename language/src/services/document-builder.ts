// Rebuilds documents after a change: the changed ones first, then those that see them, with our findings as the last step.

import { type AstNode, type BuildOptions, DefaultDocumentBuilder, type LangiumDocument, type URI } from 'langium';
import type { CancellationToken } from 'vscode-languageserver';
import type { HalfsplitSharedServices } from './fault-module.js';

export class FaultDocumentBuilder extends DefaultDocumentBuilder {
    /** Addresses of documents whose findings may have changed although their own text has not. */
    private readonly stale = new Set<string>();
    private changed: ReadonlySet<string> = new Set();

    constructor(private readonly services: HalfsplitSharedServices) {
        super(services);
        services.halfsplit.Workspaces.onSourceChange(({ workspace, file }, { seers, seen }) => {
            for (const seer of seers) this.stale.add(workspace.uriOf(seer).toString());
            const due = [file, ...seers, ...seen].map(affected => workspace.uriOf(affected));
            services.halfsplit.SettledChecks.add(due);
        });
    }

    override async update(changed: URI[], deleted: URI[], token?: CancellationToken): Promise<void> {
        const { SettledChecks, SourceLoader } = this.services.halfsplit;
        SettledChecks.postpone();
        await SourceLoader.load(changed);
        this.changed = new Set(changed.map(String));
        await super.update(changed, deleted, token);
        // What a disk had to say is only known now, and with it which other files it matters to.
        if (this.isStale()) await super.update([], [], token);
        SettledChecks.schedule();
    }

    override async build<T extends AstNode>(
        documents: LangiumDocument<T>[],
        options?: BuildOptions,
        token?: CancellationToken,
    ): Promise<void> {
        await super.build(documents, options, token);
        this.services.halfsplit.SettledChecks.schedule();
    }

    protected override shouldRelink(document: LangiumDocument): boolean {
        return this.stale.has(document.uri.toString());
    }

    /** What the writer is working on comes first. */
    protected override sortDocuments(documents: LangiumDocument[]): LangiumDocument[] {
        const rank = ({ uri }: LangiumDocument): number => {
            if (this.changed.has(uri.toString())) return 0;
            return this.textDocuments?.get(uri) ? 1 : 2;
        };
        return documents.sort((one, other) => rank(one) - rank(other));
    }

    private isStale(): boolean {
        return this.langiumDocuments.all.some(document => this.shouldRelink(document));
    }

    protected override cleanUpDeleted(document: LangiumDocument): void {
        super.cleanUpDeleted(document);
        this.services.halfsplit.Findings.forget(document.uri);
    }

    protected override async validate(document: LangiumDocument, token: CancellationToken): Promise<void> {
        // Taken off the list first, so that a change that comes in between puts it back.
        this.stale.delete(document.uri.toString());
        await this.services.halfsplit.Findings.check(document, 'fast', token);
    }
}
