// Lowers hazards with their energies, and the zones that expose them.

import type * as ast from '../generated/ast.js';
import type {
    Energy,
    Exposure,
    Hazard,
    Location,
    MeasurementCategory,
    RunDown,
    StoredCharge,
    Zone,
} from '../core/model/equipment.js';
import type { Guarded } from '../core/model/guards.js';
import type { Span } from '../core/model/written.js';
import { expectUnit } from './amount-units.js';
import { declared, type Lowering } from './context.js';
import { lowerCategory, lowerLocation } from './lower-clauses.js';
import { lowerGuard, lowerState } from './lower-guards.js';
import { addRemark, type GatheredRemarks, noRemarks } from './lower-remarks.js';
import {
    all,
    lowerAmount,
    lowerName,
    lowerOptionalAmount,
    lowerProse,
    lowerReference,
    lowerWord,
    lowerWords,
    packed,
} from './lower-written.js';
import { expectOncePerBuild, expectOncePerSort } from './said-twice.js';
import { endOf, firstWord, keywordAt, pointAround, startOf } from './spans.js';

/** An energy that can hurt. */
export function lowerHazard(context: Lowering, node: ast.Hazard): Hazard {
    const place = node.$cstNode ?? pointAround(node);
    let gathered: GatheredRemarks | undefined;
    const energies: Energy[] = [];
    const runDowns: RunDown[] = [];
    const stored: StoredCharge[] = [];
    const startsByItself: (Span & Guarded)[] = [];
    for (const member of all(node.members)) {
        switch (member.$type) {
            case 'Energy':
                energies.push(lowerEnergy(context, member));
                break;
            case 'RunDown':
                runDowns.push(lowerRunDown(context, member));
                break;
            case 'Stored':
                stored.push(lowerStored(context, member));
                break;
            case 'SelfStart':
                startsByItself.push(lowerSelfStart(context, member));
                break;
            default:
                gathered = addRemark(context, gathered, member);
        }
    }
    expectOncePerSort(context, runDowns, ({ manner }) => manner);
    expectOncePerBuild(context, startsByItself, 'starts by itself');
    const { remarks, safety, acceptances } = gathered ?? noRemarks;
    const hazard: Hazard = {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        sort: 'hazard',
        name: lowerName(context, place, node.name),
        title: lowerProse(context, place, 'title', node.title),
        guard: lowerGuard(context, node.guard),
        energies: packed(energies),
        runDowns: packed(runDowns),
        stored: packed(stored),
        startsByItself: packed(startsByItself),
        remarks,
        safety,
        acceptances,
    };
    return declared(context, hazard, node);
}

function lowerEnergy(context: Lowering, node: ast.Energy): Energy {
    const place = node.$cstNode ?? pointAround(node);
    const levels = all(node.levels).map(level => lowerLevel(context, level));
    const kind = lowerWord(context, place, 'kind', node.kind);
    for (const level of levels) {
        expectUnit(context, level.amount, `\`${kind.text}\``, unitsOfEnergies[kind.text] ?? 'V');
    }
    // Levels that are measured in different ways, AC beside DC, are different levels.
    expectOncePerSort(context, levels, ({ modes }) => [kind, ...modes].map(({ text }) => text).join(' '));
    return { file: context.file, start: startOf(place), end: endOf(place), kind, levels };
}

function lowerLevel(context: Lowering, node: ast.Level): Energy['levels'][number] {
    const place = node.$cstNode ?? pointAround(node);
    return {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        amount: lowerAmount(context, place, 'amount', node.amount),
        modes: lowerWords(context, place, 'modes', node.modes),
        guard: lowerGuard(context, node.guard),
    };
}

function lowerSelfStart(context: Lowering, node: ast.SelfStart): Hazard['startsByItself'][number] {
    const place = node.$cstNode ?? pointAround(node);
    return { file: context.file, start: startOf(place), end: endOf(place), guard: lowerGuard(context, node.guard) };
}

/** A unit for the example in a finding. */
const unitsOfEnergies: Readonly<Partial<Record<string, string>>> = {
    electrical: 'V',
    mechanical: 'rpm',
    thermal: '°C',
    pressure: 'bar',
    gravity: 'kg',
    gas: 'mbar',
};

function lowerRunDown(context: Lowering, node: ast.RunDown): RunDown {
    const place = node.$cstNode ?? pointAround(node);
    const amount = lowerAmount(context, place, 'amount', node.amount);
    const keyword = keywordAt(firstWord(place));
    const manner = keyword === 'cools' || keyword === 'discharges' || keyword === 'settles' ? keyword : 'runs down';
    expectUnit(context, amount, `\`${manner} in\``, 's');
    return {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        manner,
        amount,
        guard: lowerGuard(context, node.guard),
    };
}

function lowerStored(context: Lowering, node: ast.Stored): StoredCharge {
    const place = node.$cstNode ?? pointAround(node);
    const amount = lowerAmount(context, place, 'amount', node.amount);
    const through = lowerOptionalAmount(context, place, 'through', node.through);
    expectUnit(context, amount, '`stored`', 'µF');
    expectUnit(context, through, '`through`', 'kΩ');
    return {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        amount,
        through,
        guard: lowerGuard(context, node.guard),
    };
}

/** A place that exposes hazards. */
export function lowerZone(context: Lowering, node: ast.Zone): Zone {
    const place = node.$cstNode ?? pointAround(node);
    let gathered: GatheredRemarks | undefined;
    const exposures: Exposure[] = [];
    const categories: MeasurementCategory[] = [];
    const locations: Location[] = [];
    for (const member of all(node.members)) {
        switch (member.$type) {
            case 'Exposes':
                for (const exposure of all(member.exposures)) exposures.push(lowerExposure(context, exposure));
                break;
            case 'Category':
                categories.push(lowerCategory(context, member));
                break;
            case 'Location':
                locations.push(lowerLocation(context, member));
                break;
            default:
                gathered = addRemark(context, gathered, member);
        }
    }
    expectOncePerBuild(context, categories, 'category');
    expectOncePerBuild(context, locations, 'location');
    const { remarks, safety, acceptances } = gathered ?? noRemarks;
    const zone: Zone = {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        sort: 'zone',
        name: lowerName(context, place, node.name),
        title: lowerProse(context, place, 'title', node.title),
        guard: lowerGuard(context, node.guard),
        exposures: packed(exposures),
        categories: packed(categories),
        locations: packed(locations),
        remarks,
        safety,
        acceptances,
    };
    return declared(context, zone, node);
}

function lowerExposure(context: Lowering, node: ast.Exposure): Exposure {
    const place = node.$cstNode ?? pointAround(node);
    return {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        hazard: lowerReference(context, node.hazard, 'energy', place),
        while: lowerState(context, node.state),
        guard: lowerGuard(context, node.guard),
    };
}
