// Turns the syntax tree of a file into the core model. The model keeps nothing of the tree, so the tree can be dropped.

import type { AstNode } from 'langium';
import type { Finding } from '../core/findings/finding.js';
import type { Equipment, Kind } from '../core/model/equipment.js';
import type { Declaration, FileModel, Scenario, Uses } from '../core/model/file.js';
import type { Acceptance } from '../core/model/remarks.js';
import type { Curve, Instrument, Table } from '../core/model/tests.js';
import type { Procedure, Tree } from '../core/model/trees.js';
import type { FileId } from '../core/model/written.js';
import type * as ast from '../generated/ast.js';
import type { Lowering } from './context.js';
import { lowerEquipment } from './lower-equipment.js';
import { lowerCurve } from './lower-curves.js';
import { lowerInstrument, lowerTable } from './lower-instruments.js';
import { lowerKind } from './lower-parts.js';
import { lowerAcceptance } from './lower-remarks.js';
import { lowerScenario } from './lower-scenarios.js';
import { lowerProcedure, lowerTree } from './lower-trees.js';
import { all, lowerText } from './lower-written.js';
import { endOf, pointAround, startOf } from './spans.js';

export interface LoweringOptions {
    /** Whether to note the syntax node of each declaration; the notes keep the syntax tree alive. */
    readonly nodes?: boolean;
}

export interface Lowered {
    readonly model: FileModel;
    /** What is wrong with the file by itself, in no particular order. */
    readonly findings: readonly Finding[];
    /** The syntax node of each declaration, where the options asked for it. */
    readonly nodes: ReadonlyMap<Declaration, AstNode> | undefined;
}

/**
 * The model of one file. Any part of the tree may be missing, as in a half-written file: a missing name is empty,
 * a missing reference has an empty text, and both have a place. It never throws.
 */
export function lowerFile(root: ast.File, file: FileId, options: LoweringOptions = {}): Lowered {
    const lowering = startLowering(file, options);
    for (const declaration of all(root.declarations)) lowering.add(declaration);
    return lowering.finish(root);
}

/** The lowering of one file whose declarations come one by one. */
export interface FileLowering {
    /** Takes the next declaration, in the order of the file. */
    readonly add: (declaration: ast.Declaration) => void;
    /** The model of all that was added and of what else the file has. Its own declarations are not looked at. */
    readonly finish: (root: ast.File) => Lowered;
}

/** Starts the model of a file. */
export function startLowering(file: FileId, options: LoweringOptions = {}): FileLowering {
    const nodes = options.nodes ? new Map<Declaration, AstNode>() : undefined;
    const context: Lowering = { file, references: 0, findings: [], nodes };
    const lists = emptyLists();
    return {
        add: declaration => addDeclaration(context, lists, declaration),
        finish: root => {
            const uses = all(root.uses).map(node => lowerUses(context, node));
            const length = root.$cstNode?.root.fullText.length ?? 0;
            const model: FileModel = { file, length, uses, ...lists, referenceCount: context.references };
            return { model, findings: context.findings, nodes };
        },
    };
}

interface Lists {
    readonly equipment: Equipment[];
    readonly kinds: Kind[];
    readonly instruments: Instrument[];
    readonly tables: Table[];
    readonly curves: Curve[];
    readonly trees: Tree[];
    readonly procedures: Procedure[];
    readonly scenarios: Scenario[];
    readonly acceptances: Acceptance[];
}

function emptyLists(): Lists {
    return {
        equipment: [],
        kinds: [],
        instruments: [],
        tables: [],
        curves: [],
        trees: [],
        procedures: [],
        scenarios: [],
        acceptances: [],
    };
}

function addDeclaration(context: Lowering, lists: Lists, node: ast.Declaration): void {
    switch (node.$type) {
        case 'Equipment':
            lists.equipment.push(lowerEquipment(context, node));
            return;
        case 'Kind':
            lists.kinds.push(lowerKind(context, node));
            return;
        case 'Instrument':
            lists.instruments.push(lowerInstrument(context, node));
            return;
        case 'Table':
            lists.tables.push(lowerTable(context, node));
            return;
        case 'Curve':
            lists.curves.push(lowerCurve(context, node));
            return;
        case 'Tree':
            lists.trees.push(lowerTree(context, node));
            return;
        case 'Procedure':
            lists.procedures.push(lowerProcedure(context, node));
            return;
        case 'Scenario':
            lists.scenarios.push(lowerScenario(context, node));
            return;
        case 'Accept':
            lists.acceptances.push(lowerAcceptance(context, node));
            return;
        default:
            return;
    }
}

function lowerUses(context: Lowering, node: ast.Uses): Uses {
    const place = node.$cstNode ?? pointAround(node);
    return {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        path: lowerText(context, place, 'path', node.path),
    };
}
