// Flows with what stands at their places.

import type { Chain, ChainElement, Flow, Place } from '../model/equipment.js';
import type { Declaration } from '../model/file.js';
import { bothOf, guardOf, noneOf, type Resolving, stateOf, testNamed } from './resolving.js';
import type { FaultOfPart } from './resolve-parts.js';
import type { InBuilds, Limited, UnitChain, UnitElementOfFlow, UnitFlow, UnitPart, UnitPlace } from './unit.js';

/** What flows are made of. */
export interface FlowMaterial {
    readonly names: Resolving;
    readonly parts: readonly UnitPart[];
    /** By the fault's number. */
    readonly faults: readonly FaultOfPart[];
}

/** One flow of the unit. */
export function resolveFlow(number: number, declaration: Flow, material: FlowMaterial): UnitFlow {
    const { names } = material;
    return {
        number,
        declaration,
        guard: guardOf(declaration.guard, names),
        when: stateOf(declaration.when, names),
        chain: resolveChain(declaration.chain, number, material),
        fedBy: names.equipment.flows.flatMap(from =>
            from.feeds.flatMap(({ part, flow, guard }) => {
                const fed = names.model.target(part);
                const into = names.model.target(flow);
                if (into !== declaration || (fed?.sort !== 'part' && fed?.sort !== 'supply')) return [];
                return [
                    {
                        from: names.flows.get(from) ?? 0,
                        part: names.parts.get(fed) ?? 0,
                        guard: bothOf(guardOf(from.guard, names), guardOf(guard, names)),
                    },
                ];
            }),
        ),
    };
}

function resolveChain(chain: Chain, flow: number, material: FlowMaterial): UnitChain {
    return chain.elements.map(element => resolveElement(element, flow, material));
}

function resolveElement(element: ChainElement, flow: number, material: FlowMaterial): UnitElementOfFlow {
    const { names } = material;
    const guard = guardOf(element.guard, names);
    if (element.sort === 'place') return resolvePlace(element, flow, material);
    if (element.sort === 'test-point') {
        const tests = element.tests
            .map(reference => testNamed(reference, names, {}))
            .filter(test => test !== undefined);
        return { sort: 'point', guard, tests };
    }
    const join = element.joins[0]?.text;
    return {
        sort: 'group',
        guard,
        join: join === 'with' || join === 'and' ? join : 'or',
        chains: element.chains.map(chain => resolveChain(chain, flow, material)),
    };
}

/** A place exists in the builds of what stands there and of its own guard. */
function resolvePlace(declaration: Place, flow: number, material: FlowMaterial): UnitPlace {
    const { names, parts } = material;
    const member = names.model.target(declaration.member);
    const part = member?.sort === 'part' || member?.sort === 'supply' ? names.parts.get(member) : undefined;
    const hazard = member?.sort === 'hazard' ? names.hazards.get(member) : undefined;
    const other = member?.sort === 'flow' ? names.flows.get(member) : undefined;
    const isSource = hazard !== undefined || member?.sort === 'supply';
    const protects = part === undefined ? [] : (parts[part]?.protects ?? []);
    return {
        sort: 'place',
        declaration,
        guard: bothOf(guardOfMember(member, names), guardOf(declaration.guard, names)),
        when: stateOf(declaration.when, names),
        part,
        hazard,
        flow: other,
        faults: part === undefined ? [] : faultsAt(declaration, flow, parts[part], material),
        barrier: isSource
            ? [{ guard: undefined }]
            : protects.filter(clause => clause.flow === flow).map((clause): Limited => ({ guard: clause.guard })),
    };
}

/** The builds that have what stands at a place. */
function guardOfMember(member: Declaration | undefined, names: Resolving): InBuilds {
    const isGuarded =
        member?.sort === 'part' || member?.sort === 'supply' || member?.sort === 'hazard' || member?.sort === 'flow';
    return isGuarded ? guardOf(member.guard, names) : undefined;
}

/** The faults of the part that belong to a place: those that name it or its flow, and those that name no place. */
function faultsAt(
    place: Place,
    flow: number,
    part: UnitPart | undefined,
    { names, faults }: FlowMaterial,
): (Limited & { readonly fault: number })[] {
    return (part?.faults ?? []).flatMap(fault => {
        const said = faults[fault];
        const clauses = said ? (said.own.places.length > 0 || !said.ofKind ? said.own.places : said.ofKind.places) : [];
        const here: InBuilds[] = [];
        const anywhere: InBuilds[] = [];
        for (const clause of clauses) {
            const guard = guardOf(clause.guard, names);
            anywhere.push(guard);
            const isNamed = clause.places.some(reference => {
                const target = names.model.target(reference);
                return target === place || (target?.sort === 'flow' && names.flows.get(target) === flow);
            });
            if (isNamed) here.push(guard);
        }
        // In builds where nothing is said the fault belongs to every place of its part.
        if (anywhere.length > 0 && anywhere.includes(undefined)) return here.map(guard => ({ fault, guard }));
        return [...here, noneOf(anywhere)].map(guard => ({ fault, guard }));
    });
}
