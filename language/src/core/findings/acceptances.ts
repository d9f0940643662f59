// Which findings the author has accepted: each acceptance holds for the declaration or step that it stands in.

import type { Equipment, PartLike } from '../model/equipment.js';
import type { FileModel } from '../model/file.js';
import type { Acceptance } from '../model/remarks.js';
import type { Procedure, Tree } from '../model/trees.js';
import type { Span } from '../model/written.js';

/** An acceptance, and the stretch of the file that it holds for. */
export interface AcceptedStretch extends Span {
    readonly acceptance: Acceptance;
}

/** All acceptances of a file, with the stretches that they hold for. */
export function acceptancesOf(file: FileModel): AcceptedStretch[] {
    const found: AcceptedStretch[] = [];
    const take = (owner: Span & { readonly acceptances: readonly Acceptance[] }): void => {
        for (const acceptance of owner.acceptances) {
            found.push({ file: file.file, start: owner.start, end: owner.end, acceptance });
        }
    };
    take({ file: file.file, start: 0, end: file.length, acceptances: file.acceptances });
    for (const equipment of file.equipment) takeFromEquipment(equipment, take);
    for (const kind of file.kinds) takeFromPart(kind, take);
    for (const instrument of file.instruments) take(instrument);
    for (const owner of [...file.trees, ...file.procedures]) takeFromTree(owner, take);
    for (const scenario of file.scenarios) take(scenario);
    return found;
}

type Take = (owner: Span & { readonly acceptances: readonly Acceptance[] }) => void;

function takeFromEquipment(equipment: Equipment, take: Take): void {
    take(equipment);
    for (const part of [...equipment.kinds, ...equipment.parts, ...equipment.supplies]) takeFromPart(part, take);
    for (const owner of [
        ...equipment.tests,
        ...equipment.gates,
        ...equipment.hazards,
        ...equipment.zones,
        ...equipment.instruments,
    ]) {
        take(owner);
    }
}

function takeFromPart(part: PartLike, take: Take): void {
    take(part);
    for (const fault of part.faults) take(fault);
    for (const test of part.tests) take(test);
}

function takeFromTree(owner: Tree | Procedure, take: Take): void {
    take(owner);
    for (const step of owner.steps) take(step);
    if (owner.sort === 'tree') for (const end of [...owner.conclusions, ...owner.referrals]) take(end);
}
