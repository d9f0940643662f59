// What a gate lacks to keep somebody safe: elements for the hazards that it controls, protection for what it permits.

import { guardText } from '../model/guard-words.js';
import { guardOf, noneOf, type Resolving } from '../meaning/resolving.js';
import type { InBuilds, Unit, UnitGate } from '../meaning/unit.js';
import type { Equipment } from '../model/equipment.js';
import type { Gate, GateElementSort } from '../model/gates.js';
import type { Model } from '../model/model.js';
import type { SafetyLimits } from '../safety/limit-sets.js';
import { hasEnergyWord, isOfEnergy, levelsOf } from './energies.js';
import {
    type Controlled,
    controlledBy,
    elementsOf,
    guardsOfElements,
    isFor,
    permittedBy,
    type ResolvedElement,
    suppliesOf,
} from './gate-elements.js';
import { someBuild, unitOf } from './units.js';

/** Something that a gate lacks in some build. */
export interface GateLack {
    readonly gate: Gate;
    /** An element; `protection`: what a gate that only permits needs; `category`: of the instruments that it permits. */
    readonly sort: Exclude<GateElementSort, 'earth' | 'shield' | 'block'> | 'protection' | 'category';
    /** The names of the hazards for which it lacks, in the order written. */
    readonly hazards: readonly string[];
    /** A build in which it lacks, for the first of them. */
    readonly build: readonly string[];
    /** The `for` that all of them have, as it is written; the element needs it too. */
    readonly only: string | undefined;
}

/** What the gates of an equipment lack; one for each gate and sort. */
export function gateLacks(equipment: Equipment, model: Model, limits: SafetyLimits): GateLack[] {
    if (equipment.gates.length === 0) return [];
    const { unit, names } = unitOf(equipment, model);
    return unit.gates.flatMap(gate => {
        const asked: Asked = { gate, unit, names, model, limits, elements: elementsOf(gate.declaration, names) };
        return [...elementLacks(asked), ...permitLacks(asked)];
    });
}

interface Asked {
    readonly gate: UnitGate;
    readonly unit: Unit;
    readonly names: Resolving;
    readonly model: Model;
    readonly limits: SafetyLimits;
    readonly elements: readonly ResolvedElement[];
}

/** Where something is lacking: in builds in which all of these hold. Undefined where it is not needed. */
type Missing = readonly InBuilds[] | undefined;

type ElementSort = Exclude<GateLack['sort'], 'protection' | 'category'>;

const elementSorts: readonly ElementSort[] = ['prepare', 'shut-down', 'isolate', 'lock', 'release', 'prove', 'restore'];

function elementLacks(asked: Asked): GateLack[] {
    const controlled = controlledBy(asked.gate, asked.unit, asked.names);
    return elementSorts.flatMap(sort => lackFor(sort, controlled, asked, one => missing(sort, one, controlled, asked)));
}

/** The one lack of a sort, for all hazards that it concerns. */
function lackFor(
    sort: GateLack['sort'],
    hazards: readonly Controlled[],
    { gate, unit, model }: Asked,
    missingFor: (one: Controlled) => Missing,
): GateLack[] {
    const lacking = hazards.flatMap(one => {
        const missed = missingFor(one);
        const build = missed && someBuild(unit.equipment, model, [one.guard, ...missed]);
        return build ? [{ one, build }] : [];
    });
    const [first] = lacking;
    if (!first) return [];
    const only = new Set(lacking.map(({ one: { written } }) => written.guard && guardText(written.guard)));
    return [
        {
            gate: gate.declaration,
            sort,
            hazards: [...new Set(lacking.map(({ one }) => one.hazard.declaration.name.text))],
            build: first.build,
            only: only.size === 1 ? [...only][0] : undefined,
        },
    ];
}

function missing(sort: ElementSort, one: Controlled, all: readonly Controlled[], asked: Asked): Missing {
    const { elements } = asked;
    const { number } = one.hazard;
    switch (sort) {
        case 'shut-down':
            return isMoving(one) ? [noneOf(guardsOfElements(elements, ['shut-down']))] : undefined;
        case 'isolate':
        case 'lock':
            return missingCut(sort, one, asked);
        case 'release':
            return missingRelease(one, asked);
        case 'prove': {
            // A proof that names no hazard is one for a gate that controls only one.
            const proves = (element: ResolvedElement) =>
                element.written.hazards.length > 0 ? isFor(element, number) : all.length === 1;
            return [noneOf(guardsOfElements(elements, ['prove'], proves))];
        }
        case 'restore':
            return [noneOf(guardsOfElements(elements, ['restore']))];
        default:
            return [noneOf(guardsOfElements(elements, ['prepare'], element => isFor(element, number)))];
    }
}

/** What turns or moves, or may begin to. */
function isMoving({ hazard: { declaration } }: Controlled): boolean {
    return (
        hasEnergyWord(declaration, ['mechanical']) ||
        declaration.startsByItself.length > 0 ||
        declaration.runDowns.some(({ manner }) => manner === 'runs down')
    );
}

/**
 * Voltage, gas, and what a supply brings have a source of their own, and it must be cut off and locked. What moves, is hot or
 * under pressure, and what a capacitor holds, gets its energy through another source, so that it is enough to cut that one off.
 * For all else, as for what can fall or a dust, holding, shielding or letting go will do as well.
 */
function missingCut(sort: 'isolate' | 'lock', one: Controlled, asked: Asked): Missing {
    const { elements } = asked;
    const { number } = one.hazard;
    if (hasOwnSource(one, asked)) {
        return [noneOf(guardsOfElements(elements, [sort], element => isFor(element, number)))];
    }
    const any = guardsOfElements(elements, [sort]);
    if (isDriven(one)) return [noneOf(any)];
    const held = guardsOfElements(elements, ['block', 'shield', 'release'], element => isFor(element, number));
    return [noneOf([...any, ...held])];
}

function hasOwnSource({ hazard }: Controlled, { unit }: Asked): boolean {
    const { declaration } = hazard;
    if (suppliesOf(hazard, unit).length > 0) return true;
    return hasEnergyWord(declaration, ['electrical', 'gas']) && declaration.stored.length === 0;
}

function isDriven({ hazard: { declaration } }: Controlled): boolean {
    return hasEnergyWord(declaration, ['mechanical', 'thermal', 'pressure']) || declaration.stored.length > 0;
}

/** What runs down, is stored, can fall or is under pressure stays dangerous after its source is off. */
function missingRelease(one: Controlled, { elements, names }: Asked): Missing {
    const { declaration, number } = one.hazard;
    const stays = hasEnergyWord(declaration, ['gravity', 'pressure']);
    const lasting = [...declaration.runDowns, ...declaration.stored].map(({ guard }) => guardOf(guard, names));
    if (!stays && lasting.length === 0) return undefined;
    const sorts: readonly GateElementSort[] = stays ? ['release', 'block', 'shield'] : ['release'];
    const released = noneOf(guardsOfElements(elements, sorts, element => isFor(element, number)));
    return stays ? [released] : [anyOf(lasting), released];
}

/** Builds in which one of these holds. */
function anyOf(guards: readonly InBuilds[]): InBuilds {
    const operands = guards.filter(guard => guard !== undefined);
    return operands.length < guards.length ? undefined : { sort: 'any', operands };
}

function permitLacks(asked: Asked): GateLack[] {
    const { gate, unit, names, elements, limits } = asked;
    const permitted = permittedBy(gate, unit, names);
    const worn = [...gate.declaration.wear].map(({ guard }) => guardOf(guard, names));
    const protection = noneOf([...worn, ...guardsOfElements(elements, ['prepare'])]);
    const categories = noneOf(gate.declaration.instruments.map(({ guard }) => guardOf(guard, names)));
    const measured = permitted.filter(
        ({ activity, hazard }) => activity === 'measuring' && isOfEnergy(hazard.declaration, 'electrical'),
    );
    return [
        // A gate that controls as well has a `prepare`, or is told that it has none.
        ...(gate.controls.length > 0 ? [] : lackFor('protection', permitted, asked, () => [protection])),
        ...lackFor('category', measured, asked, ({ hazard }) => {
            const live = levelsOf(hazard, names, limits).filter(
                ({ above, energy }) => above && energy === 'electrical',
            );
            return live.length === 0 ? undefined : [anyOf(live.map(({ guard }) => guard)), categories];
        }),
    ];
}
