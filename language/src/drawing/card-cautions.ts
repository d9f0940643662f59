// What the cards of a tree say for safety: statements with their signal words, the hazards that are met, what gates do.

import { makeRoute } from '../core/meaning/make-route.js';
import type { Route, Station } from '../core/meaning/route.js';
import { guardText } from '../core/model/guard-words.js';
import type { Model } from '../core/model/model.js';
import type { SafetyStatement } from '../core/model/remarks.js';
import type { End, Statement, Step, Tree } from '../core/model/trees.js';
import {
    gateChangeWords,
    type GateChangeWords,
    hazardGroups,
    onlyWords,
    signalWords,
    titleWords,
} from '../core/questions/caution-words.js';
import { type Cautions, cautionsAt, cautionsAtEnd } from '../core/questions/cautions.js';
import { type HeldOnWays, heldOnWays, nothingHeld } from '../core/questions/held-hazards.js';
import { unitOf } from '../core/questions/units.js';
import type { CardLine, Mark } from './card-lines.js';

/** What to write on the cards of one tree. */
export interface CardCautions {
    /** Before anything is done: statements, the gravest first, then hazards. `own` are the statements of the step or end itself. */
    readonly before: (card: Step | End, own: readonly SafetyStatement[]) => readonly CardLine[];
    /** What the gate of a statement does, and what gates do in a procedure that is followed. */
    readonly gates: (step: Step, statement: Statement) => readonly CardLine[];
}

/** The cautions of a tree; where its equipment is unknown, only what is written at the steps and ends. */
export function cautionsOfCards(tree: Tree, model: Model): CardCautions {
    const equipment = model.target(tree.equipment);
    if (equipment?.sort !== 'equipment') {
        return { before: (_, own) => statementLines(own.map(written), model), gates: () => [] };
    }
    const { unit, names } = unitOf(equipment, model);
    const route = makeRoute(tree, unit, names);
    const held = heldOnWays(route);
    const stations = stationsOfCards(route);
    const cautionsOf = (card: Step | End): readonly Cautions[] => {
        const end = route.ends.find(one => one.written === card);
        if (end) return [cautionsAtEnd(end, held.ends[end.number] ?? nothingHeld, route, model)];
        return (stations.get(card as Step) ?? []).map(station => cautionsIn(station, route, held, model));
    };
    return {
        before: (card, own) => {
            const met = cautionsOf(card);
            const inherited = met.flatMap(({ statements }) =>
                statements.flatMap(({ safety, guard }) =>
                    safety.map(statement => ({ statement, only: onlyWords(guard) || onlyWritten(statement) })),
                ),
            );
            const inProcedures = (stations.get(card as Step) ?? []).slice(1).flatMap(({ step }) => statementsIn(step));
            return eachOnce([
                ...statementLines([...[...own, ...inProcedures].map(written), ...inherited], model),
                ...hazardGroups(
                    met.flatMap(({ hazards }) => hazards),
                    unit,
                ).map((text): CardLine => ({ text, mark: 'hazard' })),
            ]);
        },
        gates: (step, statement) => {
            const [own, ...followed] = stations.get(step) ?? [];
            const action = own?.actions.find(one => one.written === statement);
            if (!own || !action) return [];
            if (action.sort === 'follow') {
                return eachOnce(followed.flatMap(station => gateLines(cautionsIn(station, route, held, model), route)));
            }
            if (action.sort !== 'gate' && action.sort !== 'restore') return [];
            const lines = gateChangeWords(cautionsIn(own, route, held, model), unit).filter(
                ({ gate, change }) => gate === action.gate && (change === 'restored') === (action.sort === 'restore'),
            );
            return lines.map(line => gateLine(line, route));
        },
    };
}

/** By step of the tree: its station, then those of the procedures that are followed there. */
function stationsOfCards({ stations, tree }: Route): ReadonlyMap<Step, readonly Station[]> {
    const found = new Map<Step, Station[]>();
    for (const station of stations) {
        const outer = stations[station.calls[0] ?? station.number];
        if (outer?.owner !== tree) continue;
        const known = found.get(outer.step) ?? [];
        found.set(outer.step, known);
        known.push(station);
    }
    return found;
}

function cautionsIn(station: Station, route: Route, held: HeldOnWays, model: Model): Cautions {
    return cautionsAt(station, held.stations[station.number] ?? nothingHeld, route, model);
}

export function statementsIn({ statements }: Step): readonly SafetyStatement[] {
    return statements.filter(statement => statement.sort === 'safety');
}

interface Limited {
    readonly statement: SafetyStatement;
    /** ` (only for bag)`, or nothing. */
    readonly only: string;
}

function written(statement: SafetyStatement): Limited {
    return { statement, only: onlyWritten(statement) };
}

function onlyWritten({ guard }: SafetyStatement): string {
    return guard ? ` (only for ${guardText(guard)})` : '';
}

/** The signal word stands in the text, so nothing depends on seeing the colors. */
function statementLines(statements: readonly Limited[], model: Model): readonly CardLine[] {
    return signalWords.flatMap(level =>
        statements
            .filter(({ statement }) => statement.level === level)
            .map(({ statement: { hazard, text }, only }): CardLine => {
                const target = hazard && model.target(hazard);
                const title = target && 'title' in target ? titleWords({ declaration: target }) : hazard?.text;
                const about = title === undefined ? '' : ` about ${title}`;
                return { text: `${level.toUpperCase()}${about}${only}: ${text.value}`, mark: level };
            }),
    );
}

const marks: Readonly<Record<GateChangeWords['change'], Mark>> = {
    closed: 'gate closed',
    restored: 'gate restored',
    permits: 'work permitted',
};

const changes: Readonly<Record<GateChangeWords['change'], string>> = {
    closed: 'Gate closed',
    restored: 'End of gate',
    permits: 'Gate',
};

function gateLine({ change, gate, text }: GateChangeWords, { unit }: Route): CardLine {
    return { text: `${changes[change]}: ${titleWords(unit.gates[gate])}; ${text}`, mark: marks[change] };
}

function gateLines(cautions: Cautions, route: Route): readonly CardLine[] {
    return gateChangeWords(cautions, route.unit).map(line => gateLine(line, route));
}

function eachOnce(lines: readonly CardLine[]): readonly CardLine[] {
    const seen = new Map(lines.map(line => [`${line.mark ?? ''} ${line.text}`, line]));
    return [...seen.values()];
}
