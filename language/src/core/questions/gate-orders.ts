// Elements of a gate that stand where the order of lockouts does not have them.

import { bothOf, type Resolving } from '../meaning/resolving.js';
import type { Unit, UnitGate } from '../meaning/unit.js';
import type { Equipment } from '../model/equipment.js';
import type { Gate, GateElement } from '../model/gates.js';
import type { Model } from '../model/model.js';
import { type LockoutOrder, rankOf } from '../safety/lockout-orders.js';
import { isOfEnergy } from './energies.js';
import { elementsOf, type ResolvedElement } from './gate-elements.js';
import { someBuild, unitOf } from './units.js';

/** An element that comes too early or too late, with those that it should stand behind or before. */
export interface Misplaced {
    readonly gate: Gate;
    readonly element: GateElement;
    readonly comes: 'too early' | 'too late';
    /** In the order written. */
    readonly others: readonly GateElement[];
    readonly build: readonly string[];
}

/** The misplaced elements of the gates that control something. Permits have no order. */
export function misplacedElements(equipment: Equipment, model: Model, order: LockoutOrder): Misplaced[] {
    if (!equipment.gates.some(({ controls }) => controls.length > 0)) return [];
    const { unit, names } = unitOf(equipment, model);
    return unit.gates.flatMap(gate => (gate.controls.length > 0 ? misplacedIn(gate, unit, names, order) : []));
}

interface Ranked {
    readonly element: ResolvedElement;
    readonly rank: number;
    /** The hazards whose order it must keep; undefined for all. */
    readonly hazards: ReadonlySet<number> | undefined;
}

/** Two elements that stand in the wrong order, and a build that has both. */
interface Conflict {
    readonly earlier: Ranked;
    readonly later: Ranked;
    readonly build: readonly string[];
}

function misplacedIn(gate: UnitGate, unit: Unit, names: Resolving, order: LockoutOrder): Misplaced[] {
    const ranked = elementsOf(gate.declaration, names).flatMap(element => rankedIn(element, unit, order));
    const conflicts = ranked.flatMap((earlier, index) =>
        ranked.slice(index + 1).flatMap(later => {
            if (earlier.rank <= later.rank || !sharesHazard(earlier, later)) return [];
            const guards = [bothOf(gate.guard, earlier.element.guard, later.element.guard)];
            const build = someBuild(unit.equipment, names.model, guards);
            return build ? [{ earlier, later, build }] : [];
        }),
    );
    return explain(conflicts, gate.declaration);
}

function rankedIn(element: ResolvedElement, unit: Unit, order: LockoutOrder): Ranked[] {
    const sort = element.written.element;
    const rank = rankOf(order, sort);
    if (rank === undefined || element.isUnclear) return [];
    if (isForWholeGate(element)) return [{ element, rank, hazards: undefined }];
    const isElectrical = (number: number) => {
        const hazard = unit.hazards[number];
        return hazard !== undefined && isOfEnergy(hazard.declaration, 'electrical');
    };
    const kept = order.electricalOnly.includes(sort) ? element.hazards.filter(isElectrical) : element.hazards;
    return kept.length > 0 ? [{ element, rank, hazards: new Set(kept) }] : [];
}

/** People are told, the machine is stopped and the gate is opened for all hazards at once. */
function isForWholeGate({ written }: ResolvedElement): boolean {
    return written.hazards.length === 0 || ['prepare', 'shut-down', 'restore'].includes(written.element);
}

/** Each hazard has its own order: one may be proved before another is isolated. */
function sharesHazard({ hazards: one }: Ranked, { hazards: other }: Ranked): boolean {
    return !one || !other || [...one].some(hazard => other.has(hazard));
}

/**
 * As few elements as explain all conflicts: the one in most of them first, of two alike the later one.
 * Taking an element for misplaced settles its conflicts, so that one that is far off is told once.
 */
function explain(conflicts: readonly Conflict[], gate: Gate): Misplaced[] {
    const found: Misplaced[] = [];
    let left = conflicts;
    while (left.length > 0) {
        const worst = mostConflicting(left);
        const own = left.filter(({ earlier, later }) => earlier === worst || later === worst);
        left = left.filter(conflict => !own.includes(conflict));
        const comes = own.some(({ earlier }) => earlier === worst) ? 'too early' : 'too late';
        const others = own
            .filter(({ earlier }) => (comes === 'too early' ? earlier === worst : earlier !== worst))
            .map(({ earlier, later }) => (earlier === worst ? later : earlier).element.written);
        found.push({ gate, element: worst.element.written, comes, others, build: own[0]?.build ?? [] });
    }
    return found.sort((one, other) => one.element.start - other.element.start);
}

function mostConflicting(conflicts: readonly Conflict[]): Ranked {
    const counts = new Map<Ranked, number>();
    for (const { earlier, later } of conflicts) {
        for (const one of [earlier, later]) counts.set(one, (counts.get(one) ?? 0) + 1);
    }
    const [first] = [...counts].sort(
        ([one, few], [other, many]) => many - few || other.element.written.start - one.element.written.start,
    );
    // There is a conflict, so there is one that is in it.
    return (first as [Ranked, number])[0];
}
