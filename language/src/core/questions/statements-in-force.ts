// Which safety statements somebody has read who comes to an action: those of the step before it, of its gates, tests, parts and
// zones, of the tree and of the equipment, and those of the hazard itself.

import { guardOf, hazardNamed } from '../meaning/resolving.js';
import type { Action, Station } from '../meaning/route.js';
import type { InBuilds, UnitGate } from '../meaning/unit.js';
import type { SafetyStatement } from '../model/remarks.js';
import type { Statement } from '../model/trees.js';
import type { WalkedTree } from './walks.js';
import type { ResolvedUnit } from './units.js';

/** A statement about a hazard, with the builds that it is for. */
export interface InForce {
    readonly statement: SafetyStatement;
    readonly guard: InBuilds;
}

/** Where statements stand, and which hazards those mean that name none. */
interface Holder {
    readonly safety: readonly SafetyStatement[];
    readonly means: (hazard: number) => boolean;
}

const everything = () => true;
const nothing = () => false;

/** The statements about a hazard that are read before an action. A notice is about damage to things, and is none of them. */
export function statementsInForce(
    hazard: number,
    station: Station,
    action: Action,
    walked: WalkedTree,
    { unit, names }: ResolvedUnit,
): InForce[] {
    const { route } = walked;
    const calls = station.calls.flatMap(number => route.stations[number] ?? []);
    const zones = unit.zones.filter(({ exposures }) => exposures.some(one => one.hazard === hazard));
    const holders: Holder[] = [
        { safety: before(action.written, station.step.statements), means: everything },
        ...calls.map(call => ({ safety: beforeFollow(call), means: everything })),
        ...gatesAt(station, action, unit.gates).map(gate => ({
            safety: gate.declaration.safety,
            means: (one: number) => [...gate.controls, ...gate.permits].some(({ hazard: of }) => of === one),
        })),
        ...atAction(action, unit).map(({ safety }) => ({ safety, means: everything })),
        ...zones.map(({ declaration: { safety } }) => ({ safety, means: everything })),
        ...[station, ...calls].map(({ owner: { safety } }) => ({ safety, means: nothing })),
        { safety: route.tree.safety, means: nothing },
        { safety: unit.equipment.safety, means: nothing },
        { safety: unit.hazards[hazard]?.declaration.safety ?? [], means: everything },
    ];
    return holders.flatMap(({ safety, means }) =>
        safety
            .filter(({ level, hazard: named }) => {
                if (level === 'notice') return false;
                return named ? hazardNamed(named, names) === hazard : means(hazard);
            })
            .map(statement => ({ statement, guard: guardOf(statement.guard, names) })),
    );
}

function before(statement: unknown, statements: readonly Statement[]): SafetyStatement[] {
    const index = statements.findIndex(one => one === statement);
    return statements.slice(0, Math.max(index, 0)).filter(one => one.sort === 'safety');
}

function beforeFollow({ step: { statements } }: Station): SafetyStatement[] {
    return before(
        statements.find(({ sort }) => sort === 'follow'),
        statements,
    );
}

/** The gates that the step has closed when it comes to the action, and the one that is closed or restored. */
function gatesAt({ actions }: Station, action: Action, gates: readonly UnitGate[]): UnitGate[] {
    const used = actions.slice(0, actions.indexOf(action) + 1);
    const numbers = used.flatMap(one =>
        one.sort === 'gate' || (one === action && one.sort === 'restore') ? [one.gate] : [],
    );
    return [...new Set(numbers)].flatMap(number => gates[number] ?? []);
}

/** What an action is about: its test, and the parts at which it is done. */
function atAction(
    action: Action,
    { tests, parts }: ResolvedUnit['unit'],
): { readonly safety: readonly SafetyStatement[] }[] {
    if (action.sort === 'ask' || action.sort === 'read') {
        const test = tests[action.test];
        const part = parts[test?.part ?? -1];
        return [...(test ? [test.declaration] : []), ...(part ? [part.declaration] : [])];
    }
    if (action.sort !== 'do') return [];
    const touched = [...action.replaces, ...action.uses, ...(action.at === undefined ? [] : [action.at])];
    return touched.flatMap(part => parts[part]?.declaration ?? []);
}
