// What is done when typing pauses: every rule is asked about every file that the latest changes can matter to.

import { interruptAndCheck, type URI } from 'langium';
import type { CancellationToken } from 'vscode-languageserver';
import type { HalfsplitSharedServices } from './fault-module.js';

/** How long nothing must have been typed, in milliseconds. */
const pause = 300;

export class SettledChecks {
    /** The documents that are still to be looked at. */
    private readonly due = new Map<string, URI>();
    private timer: ReturnType<typeof setTimeout> | undefined;

    constructor(private readonly services: HalfsplitSharedServices) {}

    /** Notes documents that are to be looked at in the next pause. */
    add(uris: Iterable<URI>): void {
        for (const uri of uris) this.due.set(uri.toString(), uri);
    }

    /** Puts the checks off, because something is changing. */
    postpone(): void {
        clearTimeout(this.timer);
        this.timer = undefined;
    }

    /** Looks once nothing has happened for a while; `all` is for changes that can matter to every document. */
    schedule(all = false): void {
        if (all) this.add(this.services.workspace.LangiumDocuments.all.map(({ uri }) => uri));
        this.postpone();
        if (this.due.size === 0) return;
        this.timer = setTimeout(() => this.run(), pause);
    }

    /** Resolves once nothing is left to be looked at; for tests. */
    async finish(): Promise<void> {
        this.postpone();
        await this.services.workspace.WorkspaceLock.write(token => this.checkDue(token));
    }

    private run(): void {
        this.timer = undefined;
        this.finish().catch((problem: unknown) => this.services.halfsplit.Log.failure('Checking', problem));
    }

    private async checkDue(token: CancellationToken): Promise<void> {
        const { TextDocuments, LangiumDocuments } = this.services.workspace;
        const isOpen = (uri: URI): boolean => TextDocuments.get(uri) !== undefined;
        const order = [...this.due.values()].sort((one, other) => Number(isOpen(other)) - Number(isOpen(one)));
        for (const uri of order) {
            await interruptAndCheck(token);
            const document = LangiumDocuments.getDocument(uri);
            if (document) await this.services.halfsplit.Findings.check(document, 'slow', token);
            this.due.delete(uri.toString());
        }
    }
}
