// Writes one tree of the linked model as the document that field apps read.

import { namesOfEquipment } from '../../core/linking/names.js';
import type { Model } from '../../core/model/model.js';
import type { Tree } from '../../core/model/trees.js';
import { safetyNotices } from '../../core/safety/notice.js';
import { localePattern } from '../schema/values.js';
import { formatName, formatVersion } from '../schema/tree-document.js';
import type { Tool, TreeDocument } from '../types.js';
import { writeCautions } from './cautions.js';
import { writeEquipment } from './equipment.js';
import { findSharedThings } from './shared-things.js';
import { writeProcedure, writeTree } from './trees.js';
import { writeUnits } from './units.js';
import { type Digests, isTime, type Verified, writePictures, writeVerification } from './verification.js';
import { made, report, some, type Writer, type WritingProblem } from './writer.js';

export interface WritingOptions {
    /** The program that verified the tree. */
    readonly tool: Tool;
    /** SHA-256 of every file that the tree's file sees, and of the settings and of pictures where they are known. */
    readonly digests: Digests;
    /** What was done and found before; left out where a document is written without it. */
    readonly verified?: Verified;
    /** When it is written (RFC 3339, UTC); left out where nobody wants to say. */
    readonly time?: string;
    /** The locale that the author writes in (BCP 47); English where it is left out. */
    readonly locale?: string;
}

export type WrittenTree =
    | { readonly document: TreeDocument; readonly problems: readonly [] }
    /** What stands in the way of a document. Verification finds the same, so a tree without errors has none. */
    | { readonly document: undefined; readonly problems: readonly WritingProblem[] };

/**
 * Writes a tree with all of its equipment: self-contained, with kinds resolved into their parts.
 * The same model gives the same document, whatever the order of its files. It never throws on what an author wrote.
 */
export function writeTreeDocument(model: Model, tree: Tree, options: WritingOptions): WrittenTree {
    const equipment = model.target(tree.equipment);
    if (equipment?.sort !== 'equipment') {
        const { file, start, end } = tree.equipment;
        const message = `\`${tree.name.text}\` does not say of which equipment it is.`;
        return { document: undefined, problems: [{ file, start, end, message }] };
    }
    const shared = findSharedThings(model, equipment, tree);
    const locale = options.locale ?? 'en';
    const writer: Writer = {
        model,
        equipment,
        optionOfChoice: namesOfEquipment(equipment).optionOfChoice,
        locale,
        sharedIds: shared.ids,
        cautions: new Map(),
        within: undefined,
        pictures: new Set(),
        problems: [],
    };
    if (!localePattern.test(locale)) {
        report(writer, tree, `\`${locale}\` is no locale; a locale is a language such as \`en\`.`);
    }
    if (options.time !== undefined && !isTime(options.time)) {
        report(writer, tree, `\`${options.time}\` is no time; a time is in UTC, such as \`2026-01-31T09:30:00Z\`.`);
    }
    const writtenEquipment = writeEquipment(writer, shared);
    const warning: Writer = { ...writer, cautions: writeCautions(writer, tree) };
    const writtenTree = writeTree(warning, tree);
    const procedures = shared.procedures.map(procedure => writeProcedure(warning, procedure));
    const document = made<TreeDocument>({
        format: formatName,
        formatVersion,
        locales: [locale],
        safetyNotice: { ...safetyNotices },
        build: undefined,
        equipment: writtenEquipment,
        tree: writtenTree,
        procedures,
        units: some(writeUnits([writtenEquipment, writtenTree, procedures])),
        pictures: writePictures(writer.pictures, options.digests),
        verification: writeVerification(writer, tree, shared, {
            tool: options.tool,
            digests: options.digests,
            verified: options.verified,
            time: options.time,
        }),
        extensions: undefined,
    });
    const { problems } = writer;
    return problems.length === 0 ? { document, problems: [] } : { document: undefined, problems };
}
