// Tells what is done at a station: first what has to be known to stay safe, then each action in its order.

import type { Gate, GateElement } from '../../model/gates.js';
import type { SafetyStatement } from '../../model/remarks.js';
import type { Do, Follow, Restore, Statement, UseGate } from '../../model/trees.js';
import type { DoAction } from '../../meaning/route.js';
import type { UnitPart } from '../../meaning/unit.js';
import type { Visit } from '../go-through.js';
import {
    lineFor,
    nameOf,
    remarkLines,
    safetyInZones,
    safetyWords,
    type Telling,
    titleOf,
    withAmount,
} from './words.js';
import type { ToldLine, ToldOwner, ToldVisit } from './told.js';

/** A station with what begins there. `before` is the station before it, undefined at the start. */
export function tellVisit(visit: Visit, before: Visit | undefined, telling: Omit<Telling, 'crowds'>): ToldVisit {
    const { station, crowds } = visit;
    const here: Telling = { ...telling, crowds };
    const statements = statementsDone(visit);
    const safety = statements.flatMap(statement => safetyOf(statement, visit, here));
    return {
        begins: whatBegins(visit, before, here),
        step: nameOf(station.step),
        of: station.owner.name.text,
        safety: safetyWords(safety, here),
        lines: statements.flatMap(statement => linesOf(statement, visit, here)),
    };
}

/** The statements of a step up to the one by which the station is left. */
function statementsDone({ station, last }: Visit): readonly Statement[] {
    const { statements } = station.step;
    const index = last ? statements.findIndex(statement => statement === last.written) : -1;
    return index < 0 ? statements : statements.slice(0, index + 1);
}

function whatBegins(visit: Visit, before: Visit | undefined, telling: Telling): readonly ToldOwner[] {
    const { station, tree } = visit;
    const { equipment } = telling.all.unit;
    const begins: ToldOwner[] = [];
    const add = (sort: ToldOwner['sort'], declared: Gate | typeof equipment | typeof station.owner) => {
        const safety = safetyWords(declared.safety, telling);
        begins.push({ sort, ...nameOf(declared), safety, lines: remarkLines(declared.remarks, telling) });
    };
    if (!before) add('equipment', equipment);
    if (before?.tree !== tree) add('tree', tree);
    const isEntered = station.calls.length > (before?.tree === tree ? before.station.calls.length : 0);
    if (station.owner.sort === 'procedure' && isEntered) add('procedure', station.owner);
    return begins;
}

/** What the technician has to know before a statement is done. */
function safetyOf(statement: Statement, visit: Visit, telling: Telling): readonly SafetyStatement[] {
    const { unit } = telling.all;
    const action = visit.station.actions.find(({ written }) => written === statement);
    if (statement.sort === 'safety') return [statement];
    switch (action?.sort) {
        case 'do': {
            const parts = partsIn(action, telling);
            const own = action.zone === undefined ? [] : [{ zone: action.zone, guard: undefined }];
            const zones = own.length > 0 ? own : parts.flatMap(part => part.zones);
            return [...parts.flatMap(({ declaration }) => declaration.safety), ...safetyInZones(zones, telling)];
        }
        case 'ask': {
            const test = unit.tests[action.test];
            const part = unit.parts[test?.part ?? -1];
            return [
                ...(part?.declaration.safety ?? []),
                ...(test?.declaration.safety ?? []),
                ...safetyInZones(test?.zones ?? [], telling),
            ];
        }
        case 'gate':
            return unit.gates[action.gate]?.declaration.safety ?? [];
        default:
            return [];
    }
}

function partsIn({ at, replaces }: DoAction, { all }: Telling): readonly UnitPart[] {
    const numbers = new Set([...(at === undefined ? [] : [at]), ...replaces]);
    return [...numbers].map(number => all.unit.parts[number]).filter(part => part !== undefined);
}

function linesOf(statement: Statement, visit: Visit, telling: Telling): readonly ToldLine[] {
    const { model } = telling;
    switch (statement.sort) {
        case 'do':
            return doLines(statement, visit, telling);
        case 'wait': {
            const until = statement.hazard ? `, until this is safe: ${titleOf(statement.hazard, model)}` : '';
            const why = statement.text ? `. ${statement.text.value}` : '';
            return lineFor('wait', `${statement.amount.written}${until}${why}`, statement.guard, telling);
        }
        case 'gate-used':
        case 'restore':
            return useOfGate(statement, visit, telling);
        case 'follow': {
            const title = titleOf(statement.procedure, model);
            return lineFor('follow', title, statement.guard, telling, nameOfFollowed(statement));
        }
        case 'continue': {
            const title = titleOf(statement.tree, model);
            return lineFor('continue with', title, statement.guard, telling, statement.tree.text);
        }
        case 'note':
        case 'picture':
        case 'see':
            return remarkLines([statement], telling);
        default:
            return [];
    }
}

function doLines(statement: Do, { station }: Visit, telling: Telling): readonly ToldLine[] {
    const done = lineFor('do', statement.text.value, statement.guard, telling);
    if (done.length === 0) return [];
    const action = station.actions.find(({ written }) => written === statement);
    const at = action?.sort === 'do' && action.at !== undefined ? telling.all.unit.parts[action.at] : undefined;
    const zone = statement.in && titleOf(statement.in, telling.model);
    return [
        ...done,
        ...(at ? whereIs(at, telling) : []),
        ...(zone === undefined ? [] : lineFor('where', zone, undefined, telling)),
    ];
}

function nameOfFollowed({ procedure, subject }: Follow): string {
    if (!subject) return procedure.text;
    const { owner, test } = subject;
    return `${procedure.text} with ${owner.text}${test ? `.${test.text}` : ''}`;
}

function useOfGate(statement: UseGate | Restore, { station }: Visit, telling: Telling): readonly ToldLine[] {
    const action = station.actions.find(({ written }) => written === statement);
    if (action?.sort !== 'gate' && action?.sort !== 'restore') return [];
    const isClosed = action.sort === 'gate';
    const title = titleOf(statement.gate, telling.model);
    const sort = isClosed ? 'gate' : 'end of gate';
    const line = lineFor(sort, title, statement.guard, telling, statement.gate.text);
    const gate = telling.all.unit.gates[action.gate]?.declaration;
    return gate && line.length > 0 ? [...line, ...gateLines(gate, isClosed, telling)] : line;
}

/** Where a part is. */
export function whereIs(part: UnitPart, telling: Telling): readonly ToldLine[] {
    const { title } = nameOf(part.declaration);
    const { locations } = part.declaration;
    if (locations.length === 0) return title === '' ? [] : lineFor('where', title, undefined, telling);
    return locations.flatMap(({ text, guard }) =>
        lineFor('where', title === '' ? text.value : `${title}, ${text.value}`, guard, telling),
    );
}

/** What is done to close a gate, or to end it. */
function gateLines(gate: Gate, isClosed: boolean, telling: Telling): readonly ToldLine[] {
    const elements = gate.elements.filter(({ element }) => (element === 'restore') !== isClosed);
    const done = elements.flatMap(element => lineFor(element.element, elementText(element), element.guard, telling));
    if (!isClosed) return done;
    const wear = gate.wear.flatMap(({ text, guard }) => lineFor('wear', text.value, guard, telling));
    return [...wear, ...remarkLines(gate.remarks, telling), ...done];
}

function elementText({ text, duration }: GateElement): string {
    return withAmount(text.value, duration);
}
