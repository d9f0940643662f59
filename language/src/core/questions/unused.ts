// Declarations that nothing uses, as far as the workspace is there to use them.

import type { Equipment, Kind, Part, Supply } from '../model/equipment.js';
import type { Declaration, FileModel } from '../model/file.js';
import type { Model } from '../model/model.js';
import type { Test, TestReference } from '../model/tests.js';
import type { End, Procedure, Statement, Tree } from '../model/trees.js';
import type { Reference } from '../model/written.js';
import { equipmentOf } from './answers.js';
import { clausesOf } from './clauses.js';
import { oncePerModel } from './remember.js';
import { takenNamesOf } from './taken-names.js';

/** A declaration that could be used and is not. */
export interface Unused {
    readonly declaration: Exclude<Declaration, { sort: 'subject' }>;
    /** Why it counts as unused. */
    readonly why: UnusedReason;
}

export type UnusedReason =
    /** No reference leads to it. */
    | 'not-named'
    /** An equipment without a tree; nothing in it is looked at. */
    | 'no-tree'
    /** Flows and faults may name the test, but no tree or procedure asks it. */
    | 'not-asked'
    /** No branch of its tree or procedure leads to it. */
    | 'not-led-to';

/**
 * What a file declares and nothing uses, in the order of the text.
 * Nothing in a workspace without trees, which holds material for other workspaces.
 */
export function unusedIn(file: FileModel, model: Model): Unused[] {
    const uses = usesOf(model);
    if (uses.equipment.size === 0) return [];
    const unused: Unused[] = [];
    for (const equipment of file.equipment) {
        if (!uses.equipment.has(equipment)) unused.push({ declaration: equipment, why: 'no-tree' });
        else unusedInEquipment(equipment, model, uses, unused);
    }
    if (uses.files.has(file)) {
        unusedParts(file.kinds, model, uses, unused);
        notNamed([...file.instruments, ...file.tables, ...file.curves], model, unused);
    }
    for (const procedure of file.procedures) {
        const equipment = equipmentOf(procedure, model);
        if (equipment && !uses.equipment.has(equipment)) continue;
        if (!model.isReferred(procedure)) unused.push({ declaration: procedure, why: 'not-named' });
    }
    for (const owner of [...file.trees, ...file.procedures]) notLedTo(owner, unused);
    const slips = nearSlips(model);
    // What cannot be named because its name is taken is told there.
    const unnamable = new Set<Declaration>(takenNamesOf(file, model).map(({ later }) => later));
    return unused
        .filter(({ declaration }) => declaration.name.text !== '' && !slips.has(declaration.name.text))
        .filter(({ declaration }) => !unnamable.has(declaration))
        .sort((one, other) => one.declaration.start - other.declaration.start);
}

function unusedInEquipment(equipment: Equipment, model: Model, uses: Uses, unused: Unused[]): void {
    notNamed(
        [
            ...equipment.hazards,
            ...equipment.zones,
            ...equipment.conditions,
            ...equipment.gates,
            ...equipment.instruments,
            ...equipment.tables,
            ...equipment.curves,
        ],
        model,
        unused,
    );
    unusedParts([...equipment.kinds, ...equipment.supplies, ...equipment.parts], model, uses, unused);
    notAsked(equipment.tests, uses, unused);
}

function notNamed(declarations: readonly Unused['declaration'][], model: Model, unused: Unused[]): void {
    for (const declaration of declarations) {
        if (!model.isReferred(declaration)) unused.push({ declaration, why: 'not-named' });
    }
}

/** Parts, supplies and kinds, and the tests of those that are used. */
function unusedParts(parts: readonly (Part | Supply | Kind)[], model: Model, uses: Uses, unused: Unused[]): void {
    for (const part of parts) {
        if (model.isReferred(part)) notAsked(part.tests, uses, unused);
        else unused.push({ declaration: part, why: 'not-named' });
    }
}

function notAsked(tests: readonly Test[], uses: Uses, unused: Unused[]): void {
    for (const test of tests) if (!uses.tests.has(test)) unused.push({ declaration: test, why: 'not-asked' });
}

/** Steps after the first, and ends, that nothing within their tree or procedure leads to. */
function notLedTo(owner: Tree | Procedure, unused: Unused[]): void {
    // Targets are looked up in the owner's own list, so their names say enough.
    const targets = new Set<string>();
    const lead = (reference: Reference): void => {
        targets.add(reference.text);
    };
    for (const { statements } of owner.steps) for (const statement of statements) leadOn(statement, lead);
    for (const handover of owner.cannot) lead(handover.target);
    if (owner.sort === 'tree') {
        for (const handover of [...owner.stillWrong, ...owner.disagree]) lead(handover.target);
        for (const end of [...owner.conclusions, ...owner.referrals]) {
            for (const handover of end.stillWrong) lead(handover.target);
        }
    }
    const [, ...later] = owner.steps;
    const ends: readonly (End | Procedure['results'][number])[] =
        owner.sort === 'tree' ? [...owner.conclusions, ...owner.referrals] : owner.results;
    for (const declaration of [...later, ...ends] as Unused['declaration'][]) {
        if (!targets.has(declaration.name.text)) unused.push({ declaration, why: 'not-led-to' });
    }
}

function leadOn(statement: Statement, lead: (reference: Reference) => void): void {
    switch (statement.sort) {
        case 'ask':
        case 'confirm':
        case 'follow':
            for (const { target } of statement.branches) lead(target);
            return;
        case 'go':
            lead(statement.target);
            return;
        case 'do':
            if (statement.cannot) lead(statement.cannot);
            return;
        default:
            return;
    }
}

/** What the trees of a workspace make use of. */
interface Uses {
    /** The equipment that some tree is of. */
    readonly equipment: ReadonlySet<Equipment>;
    /** The files that such equipment and the trees see. */
    readonly files: ReadonlySet<FileModel>;
    /** The tests that a tree or procedure asks, or that another test is calculated from. */
    readonly tests: ReadonlySet<Declaration>;
}

const usesOf = oncePerModel(findUses);

function findUses(model: Model): Uses {
    const equipment = new Set<Equipment>();
    const files = new Set<FileModel>();
    const tests = new Set<Declaration>();
    const ask = (reference: TestReference | undefined): void => {
        const target = reference && model.target(reference.test ?? reference.owner);
        if (target?.sort === 'test') tests.add(target);
    };
    for (const file of model.files.values()) {
        for (const tree of file.trees) {
            const of = equipmentOf(tree, model);
            if (of) equipment.add(of);
            for (const { test } of tree.complaints) ask(test);
        }
        if (file.trees.length > 0) for (const seen of model.visibleFiles(file.file)) files.add(seen);
        for (const owner of [...file.trees, ...file.procedures]) askedIn(owner, model, ask, tests);
        clausesOf(file, model).readings.forEach(ask);
    }
    return { equipment, files, tests };
}

function askedIn(
    owner: Tree | Procedure,
    model: Model,
    ask: (reference: TestReference | undefined) => void,
    tests: Set<Declaration>,
): void {
    for (const { statements } of owner.steps) {
        for (const statement of statements) {
            if (statement.sort === 'ask' || statement.sort === 'confirm') ask(statement.test);
            else if (statement.sort === 'read') statement.tests.forEach(ask);
            else if (statement.sort === 'follow') ask(statement.subject);
            else if (statement.sort === 'do') {
                // A displayed code that stays until it is cleared is a test that can be cleared.
                for (const { owner: cleared } of statement.clears) {
                    const target = model.target(cleared);
                    if (target?.sort === 'test') tests.add(target);
                }
            }
        }
    }
}

/** Names that a misspelt name most likely stands for: that slip is the finding, not that they are unused. */
const nearSlips = oncePerModel(findNearSlips);

function findNearSlips(model: Model): ReadonlySet<string> {
    const names = new Set<string>();
    for (const file of model.files.keys()) {
        for (const problem of model.problems(file)) {
            if (problem.sort === 'unknown') for (const name of problem.near) names.add(name);
        }
    }
    return names;
}
