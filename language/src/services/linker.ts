// Lets Langium's references lead where our own linker says, by the place of each reference in its file.

import {
    type AstNode,
    type AstNodeDescription,
    type AstNodeDescriptionProvider,
    AstUtils,
    DefaultLinker,
    DocumentState,
    type LangiumCoreServices,
    type LinkingError,
    type LocalSymbols,
    MultiMap,
    type ReferenceInfo,
    type ScopeComputation,
} from 'langium';
import type { Declaration } from '../core/model/file.js';
import { nameOf } from '../core/linking/names.js';
import type { LinkedFile } from './workspace-links.js';
import type { Workspaces } from './workspaces.js';

/** Langium's linker without any scope of its own: it resolves a reference when somebody follows it. */
export class FaultLinker extends DefaultLinker {
    private readonly descriptions: AstNodeDescriptionProvider;
    private readonly targetsByPlace = new WeakMap<LinkedFile, ReadonlyMap<number, Declaration>>();

    constructor(
        services: LangiumCoreServices,
        private readonly workspaces: Workspaces,
    ) {
        super(services);
        this.descriptions = services.workspace.AstNodeDescriptionProvider;
    }

    // Nothing is linked ahead: our links are complete by themselves.
    override async link(): Promise<void> {}

    override getCandidate(info: ReferenceInfo): AstNodeDescription | LinkingError {
        const node = this.findTarget(info);
        if (!node) return this.createLinkingError(info);
        return this.descriptions.createDescription(node, info.reference.$refText);
    }

    private findTarget({ container, reference }: ReferenceInfo): AstNode | undefined {
        const document = AstUtils.findRootNode(container).$document;
        const place = reference.$refNode;
        const located = document && document.state >= DocumentState.Parsed ? this.workspaces.read(document) : undefined;
        if (!located || !place) return undefined;
        const { workspace, file } = located;
        const links = workspace.links.links(file);
        const target = links && this.placesOf(links).get(place.offset);
        return target && workspace.get(target.file)?.nodes.get(target);
    }

    private placesOf(links: LinkedFile): ReadonlyMap<number, Declaration> {
        let places = this.targetsByPlace.get(links);
        if (!places) {
            places = mapPlaces(links);
            this.targetsByPlace.set(links, places);
        }
        return places;
    }
}

function mapPlaces({ references, targets }: LinkedFile): Map<number, Declaration> {
    const places = new Map<number, Declaration>();
    for (const { text, start, number } of references) {
        const target = targets[number];
        if (text !== '' && target && nameOf(target) === text) places.set(start, target);
    }
    return places;
}

/** Collects nothing: names are looked up in our own hashed lists. */
export class FaultScopeComputation implements ScopeComputation {
    async collectExportedSymbols(): Promise<AstNodeDescription[]> {
        return [];
    }

    async collectLocalSymbols(): Promise<LocalSymbols> {
        return new MultiMap<AstNode, AstNodeDescription>();
    }
}
