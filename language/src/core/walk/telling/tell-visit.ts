// Tells what is done at a station: first what has to be known to stay safe, then each action in its order.

import type { Gate, GateElement } from '../../model/gates.js';
import type { Do, Follow, Restore, Statement, UseGate } from '../../model/trees.js';
import type { UnitPart } from '../../meaning/unit.js';
import type { Cautions } from '../../questions/cautions.js';
import type { Visit } from '../go-through.js';
import { cautionsOfVisit, gateChangeLines, statementsOf, tellHazards } from './tell-cautions.js';
import {
    categoryLines,
    lineFor,
    nameOf,
    remarkLines,
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
    const cautions = cautionsOfVisit(visit, here);
    const own = statements.filter(statement => statement.sort === 'safety');
    return {
        begins: whatBegins(visit, before, here),
        step: nameOf(station.step),
        of: station.owner.name.text,
        safety: safetyWords([...own, ...statementsOf(cautions, here)], here),
        hazards: tellHazards(cautions, here),
        lines: statements.flatMap(statement => linesOf(statement, { ...visit, cautions }, here)),
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

/** A visit with what is met there. */
interface Warned extends Visit {
    readonly cautions: Cautions;
}

function linesOf(statement: Statement, visit: Warned, telling: Telling): readonly ToldLine[] {
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
        case 'read':
            return statement.tests.flatMap(test => {
                const title = titleOf(test.test ?? test.owner, model);
                return lineFor(
                    'read',
                    title,
                    statement.guard,
                    telling,
                    test.test ? `${test.owner.text}.${test.test.text}` : test.owner.text,
                );
            });
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

function useOfGate(statement: UseGate | Restore, { station, cautions }: Warned, telling: Telling): readonly ToldLine[] {
    const action = station.actions.find(({ written }) => written === statement);
    if (action?.sort !== 'gate' && action?.sort !== 'restore') return [];
    const isClosed = action.sort === 'gate';
    const title = titleOf(statement.gate, telling.model);
    const sort = isClosed ? 'gate' : 'end of gate';
    const line = lineFor(sort, title, statement.guard, telling, statement.gate.text);
    const gate = telling.all.unit.gates[action.gate]?.declaration;
    if (!gate || line.length === 0) return line;
    const changes = gateChangeLines(cautions, action.gate, isClosed, telling);
    return [...line, ...changes, ...gateLines(gate, isClosed, telling)];
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
    return [...wear, ...categoryLines(gate.instruments, telling), ...remarkLines(gate.remarks, telling), ...done];
}

function elementText({ text, duration }: GateElement): string {
    return withAmount(text.value, duration);
}
