// Tells an end: what it names and which of that is still possible, how it is repaired, and what else is said there.

import type { Leaves } from '../../model/trees.js';
import type { RouteEnd } from '../../meaning/route.js';
import type { UnitRepair } from '../../meaning/unit.js';
import { repairsAt } from '../../questions/cautions.js';
import type { Position } from '../go-through.js';
import { type Arrival, suspectsOf } from '../ruled-out.js';
import { cautionsOfEnd, statementsOf, tellHazards } from './tell-cautions.js';
import { tellPlace } from './tell-question.js';
import {
    faultName,
    isIn,
    lineFor,
    nameOf,
    remarkLines,
    safetyWords,
    type Telling,
    titleOf,
    whereFor,
} from './words.js';
import type { ToldEnd, ToldLine, ToldPlace, ToldRepair } from './told.js';

/** The end that a position has come to. */
export function tellEnd(end: RouteEnd, position: Position, telling: Telling): ToldEnd {
    const { written } = end;
    const { unit } = telling.all;
    const suspects = new Set(suspectsOf(position).map(({ fault }) => fault?.number));
    const named = [...new Set(end.names.filter(({ guard }) => isIn(guard, telling)).map(({ fault }) => fault))];
    const faults = named
        .map(number => unit.faults[number])
        .filter(fault => fault !== undefined)
        .filter(({ guard }) => isIn(guard, telling));
    const unnamed: Arrival[] = unit.faults.filter(({ number }) => suspects.has(number) && !named.includes(number));
    // A healthy unit may come to any referral, but to no repair.
    if (written.sort === 'conclusion' && suspects.has(undefined)) unnamed.push(undefined);
    const repairs = repairsOf(end, named, telling);
    const cautions = cautionsOfEnd(end, position.route, telling);
    return {
        sort: written.sort,
        ...nameOf(written),
        reason: written.sort === 'referral' ? written.reason?.value : undefined,
        inOrder: written.sort === 'conclusion' && written.inOrder,
        faults: faults.map(fault => ({ ...faultName(fault, telling), isPossible: suspects.has(fault.number) })),
        unnamed: unnamed.map(fault => faultName(fault, telling)),
        safety: safetyWords([...written.safety, ...statementsOf(cautions, telling)], telling),
        hazards: tellHazards(cautions, telling),
        repairs: repairs.flatMap(repair => tellRepair(repair, telling)),
        lines: [...remarkLines(written.remarks, telling), ...endLines(end, telling)],
        stillWrong: stillWrong(end, position, telling),
    };
}

/** The repairs that are done for what an end names. */
function repairsOf(end: RouteEnd, named: readonly number[], telling: Telling): readonly UnitRepair[] {
    const { unit } = telling.all;
    const there = named.filter(number => isIn(unit.faults[number]?.guard, telling));
    return [...new Set([...end.repairs, ...there.flatMap(number => repairsAt(end, number, unit))])];
}

function tellRepair({ declaration }: UnitRepair, telling: Telling): readonly ToldRepair[] {
    const { isThere, only } = whereFor(declaration.guard, telling);
    if (!isThere) return [];
    const { action, text, takes, costs, gates } = declaration;
    const under = gates.map(gate => titleOf(gate, telling.model));
    return [{ action, text: text.value, takes: takes?.written, costs: costs?.written, under, only }];
}

function endLines({ written }: RouteEnd, telling: Telling): readonly ToldLine[] {
    return [
        ...written.leaves.flatMap(leaves => lineFor('may stay', leavesWords(leaves, telling), leaves.guard, telling)),
        ...written.unconfirmed.flatMap(({ reason, guard }) => lineFor('not confirmed', reason.value, guard, telling)),
    ];
}

function leavesWords({ gate, condition, value }: Leaves, { model }: Telling): string {
    if (gate) return `the gate ${titleOf(gate, model)} closed`;
    return condition && value ? `${titleOf(condition, model)} ${titleOf(value, model)}` : '';
}

/** Where the end says, else where the tree says, else the first step. */
function stillWrong(end: RouteEnd, { route }: Position, telling: Telling): readonly ToldPlace[] {
    if (end.written.sort !== 'conclusion') return [];
    const ways = end.stillWrong.length > 0 ? end.stillWrong : route.stillWrong;
    const places = ways.flatMap(({ to, guard }) => {
        if (!isIn(guard, telling) || to.sort === 'nowhere' || to.sort === 'result') return [];
        return [tellPlace(to, { route })];
    });
    return places.length > 0 ? places : [tellPlace({ sort: 'station', station: 0 }, { route })];
}
