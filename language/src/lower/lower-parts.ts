// Lowers parts, supplies and kinds with their faults and repairs.

import type * as ast from '../generated/ast.js';
import type { Fault, InZone, Kind, Location, Part, PartLike, Repair, Supply } from '../core/model/equipment.js';
import type { Test } from '../core/model/tests.js';
import { declared, type Lowering } from './context.js';
import { headingZones, lowerInZone, lowerLocation } from './lower-clauses.js';
import { lowerFault, lowerRepair } from './lower-faults.js';
import { lowerGuard } from './lower-guards.js';
import { addRemark, type GatheredRemarks, noRemarks } from './lower-remarks.js';
import { lowerTest } from './lower-tests.js';
import { all, lowerName, lowerOptionalReference, lowerProse, lowerReferences, packed } from './lower-written.js';
import { expectOncePerBuild } from './said-twice.js';
import { endOf, pointAround, startOf } from './spans.js';

/** What can be replaced or put right. */
export function lowerPart(context: Lowering, node: ast.Part): Part {
    const place = node.$cstNode ?? pointAround(node);
    const kind = lowerOptionalReference(context, node.kind, 'kind', place);
    return declared(
        context,
        { ...lowerPartLike(context, node, headingZones(context, node)), sort: 'part', kind },
        node,
    );
}

/** What comes from outside the product. */
export function lowerSupply(context: Lowering, node: ast.Supply): Supply {
    const place = node.$cstNode ?? pointAround(node);
    const carries = lowerOptionalReference(context, node.carries, 'energy', place);
    const supply: Supply = {
        ...lowerPartLike(context, node, headingZones(context, node)),
        sort: 'supply',
        carries,
    };
    return declared(context, supply, node);
}

/** A family of parts. */
export function lowerKind(context: Lowering, node: ast.Kind): Kind {
    return declared(context, { ...lowerPartLike(context, node, []), sort: 'kind' }, node);
}

function lowerPartLike(context: Lowering, node: ast.Part | ast.Supply | ast.Kind, zones: InZone[]): PartLike {
    const place = node.$cstNode ?? pointAround(node);
    const guard = lowerGuard(context, node.guard);
    let gathered: GatheredRemarks | undefined;
    const faults: Fault[] = [];
    const repairs: Repair[] = [];
    const protects: PartLike['protects'][number][] = [];
    const locations: Location[] = [];
    const tests: Test[] = [];
    for (const member of all(node.members)) {
        switch (member.$type) {
            case 'Fault':
                faults.push(lowerFault(context, member));
                break;
            case 'Repair':
                repairs.push(lowerRepair(context, member));
                break;
            case 'Protects':
                protects.push(lowerProtects(context, member));
                break;
            case 'Location':
                locations.push(lowerLocation(context, member));
                break;
            case 'InZone':
                zones.push(lowerInZone(context, member));
                break;
            case 'Test':
                tests.push(lowerTest(context, member));
                break;
            default:
                gathered = addRemark(context, gathered, member);
        }
    }
    expectOncePerBuild(context, zones, 'in');
    expectOncePerBuild(context, locations, 'location');
    const { remarks, safety, acceptances } = gathered ?? noRemarks;
    return {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        name: lowerName(context, place, node.name),
        title: lowerProse(context, place, 'title', node.title),
        guard,
        faults: packed(faults),
        repairs: packed(repairs),
        protects: packed(protects),
        locations: packed(locations),
        zones: packed(zones),
        tests: packed(tests),
        remarks,
        safety,
        acceptances,
    };
}

function lowerProtects(context: Lowering, node: ast.Protects): PartLike['protects'][number] {
    const place = node.$cstNode ?? pointAround(node);
    return {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        flows: lowerReferences(context, node.flows, 'flow', place),
        guard: lowerGuard(context, node.guard),
    };
}
