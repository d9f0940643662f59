// Takes the place of Langium's index: what it would keep is in our own models and links already.

import {
    type AstNodeDescription,
    type IndexManager,
    type LangiumDocument,
    type ReferenceDescription,
    type Stream,
    stream,
    type URI,
} from 'langium';
import type { Workspaces } from './workspaces.js';

export class FaultIndexManager implements IndexManager {
    constructor(private readonly workspaces: Workspaces) {}

    /** Langium's step between parsing and linking: the file is lowered here. */
    async updateContent(document: LangiumDocument): Promise<void> {
        this.workspaces.read(document);
    }

    remove(uri: URI): void {
        this.workspaces.remove(uri);
    }

    // A file that is read again replaces its old model then; until that, the old one serves.
    removeContent(): void {}

    // Links are dropped by the change itself, see workspace-links.ts.
    removeReferences(): void {}

    async updateReferences(): Promise<void> {}

    /** Which files are affected is known to the document builder. */
    isAffected(): boolean {
        return false;
    }

    allElements(): Stream<AstNodeDescription> {
        return stream();
    }

    findAllReferences(): Stream<ReferenceDescription> {
        return stream();
    }
}
