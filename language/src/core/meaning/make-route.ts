// Makes the route of a tree: its stations with their actions and exits, every procedure written out where it is followed.

import type {
    Ask,
    Branch,
    Cannot,
    Confirm,
    Do,
    Follow,
    Procedure,
    Read,
    Restore,
    Statement,
    Step,
    Tree,
    UseGate,
} from '../model/trees.js';
import type { Inside, Resolving } from './resolving.js';
import {
    faultsNamed,
    guardOf,
    hazardNamed,
    partNamed,
    settingsOf,
    testCleared,
    testNamed,
    timeOf,
} from './resolving.js';
import { resolveComplaints, resolveEnd } from './resolve-ends.js';
import type { Action, AskAction, Destination, DoAction, Exit, Route, Station, Way } from './route.js';
import type { InBuilds, Unit } from './unit.js';

/** More stations than any tree that people wrote; a route beyond it is cut there, and says so. */
export const mostStations = 200_000;

/** The route of a tree through a unit of its equipment. */
export function makeRoute(tree: Tree, unit: Unit, names: Resolving): Route {
    const making: Making = { tree, unit, names, stations: [], exits: [] };
    const scene = openScene(tree, making, { calls: [], inside: {} });
    scene.fill();
    const way = ({ guard, target }: Tree['stillWrong'][number]): Way => ({
        guard: guardOf(guard, names),
        to: scene.to(target.text),
    });
    return {
        unit,
        tree,
        guard: guardOf(tree.guard, names),
        complaints: resolveComplaints(tree, unit, names),
        stations: making.stations,
        exits: making.exits,
        ends: [...tree.conclusions, ...tree.referrals].map((end, number) =>
            resolveEnd(end, number, names, end.stillWrong.map(way)),
        ),
        stillWrong: tree.stillWrong.map(way),
    };
}

interface Making {
    readonly tree: Tree;
    readonly unit: Unit;
    readonly names: Resolving;
    readonly stations: OpenStation[];
    readonly exits: Exit[];
}

/** A station whose actions are still to be written. */
interface OpenStation extends Omit<Station, 'actions'> {
    actions: readonly Action[];
}

/** How a tree or procedure is entered: from which stations, about what, and where its results lead. */
interface Entry {
    readonly calls: readonly number[];
    readonly inside: Inside;
    readonly results?: ReadonlyMap<string, Destination>;
    /** The scene of the tree, for what its procedures leave to it. */
    readonly tree?: Scene;
    /** Procedures that are being followed, so that none is followed within itself. */
    readonly open?: readonly Procedure[];
}

/** One tree or one followed procedure, with its stations numbered. */
interface Scene {
    /** Where a name leads. */
    readonly to: (name: string) => Destination;
    readonly cannot: (what: Cannot['what'], station: number) => readonly number[];
    readonly disagree: (station: number) => readonly number[];
    /** Writes the actions of its stations. */
    readonly fill: () => void;
}

function openScene(owner: Tree | Procedure, making: Making, entry: Entry): Scene {
    const { stations, names } = making;
    const first = stations.length;
    const places = new Map<string, Destination>();
    for (const step of owner.steps) {
        const number = stations.length;
        stations.push({
            number,
            owner,
            step,
            calls: entry.calls,
            guard: guardOf(step.guard, names),
            actions: noActions,
        });
        const name = step.name.text;
        if (name !== '' && !places.has(name)) places.set(name, { sort: 'station', station: number });
    }
    if (owner.sort === 'tree') {
        [...owner.conclusions, ...owner.referrals].forEach(({ name }, end) => {
            if (!places.has(name.text)) places.set(name.text, { sort: 'end', end });
        });
    }
    const to = (name: string): Destination => places.get(name) ?? entry.results?.get(name) ?? nowhere;
    const scene: Scene = {
        to,
        cannot: (what, station) => {
            const clauses = owner.cannot.filter(clause => clause.what === what);
            const own = clauses.map(clause =>
                addExit(making, station, `cannot be ${what}`, clause, clause.guard, to(clause.target.text)),
            );
            const ofTree = entry.tree?.cannot(what, station) ?? none;
            return own.length === 0 ? ofTree : [...own, ...ofTree];
        },
        disagree: station =>
            owner.sort === 'tree'
                ? owner.disagree.map(clause =>
                      addExit(making, station, 'disagree', clause, clause.guard, to(clause.target.text)),
                  )
                : (entry.tree?.disagree(station) ?? []),
        fill: () => {
            const within = { making, scene, entry: entry.tree ? entry : { ...entry, tree: scene } };
            owner.steps.forEach((step, index) => {
                (stations[first + index] as OpenStation).actions = resolveStep(step, first + index, within);
            });
        },
    };
    return scene;
}

function addExit(
    { exits, names }: Making,
    station: number,
    why: Exit['why'],
    written: Exit['written'],
    guard: Branch['guard'],
    to: Destination,
    outcomes: readonly number[] = none,
): number {
    const number = exits.length;
    exits.push({ number, station, why, written, guard: guardOf(guard, names), outcomes, to });
    return number;
}

interface Within {
    readonly making: Making;
    readonly scene: Scene;
    readonly entry: Entry;
}

function resolveStep({ statements }: Step, station: number, within: Within): readonly Action[] {
    const actions: Action[] = [];
    for (const statement of statements) {
        if (statement.sort === 'read') {
            actions.push(...resolveRead(statement, station, within));
            continue;
        }
        const action = resolveOne(statement, station, within);
        if (action) actions.push(action);
    }
    // A list that grew has room for more; there are as many lists as stations.
    return actions.slice();
}

const none: readonly never[] = [];
const noActions: readonly Action[] = none;
const nowhere: Destination = { sort: 'nowhere' };

/** One action for each reading. */
function resolveRead(statement: Read, station: number, { making, scene, entry }: Within): Action[] {
    const { names } = making;
    const guard = guardOf(statement.guard, names);
    return statement.tests.flatMap(reference => {
        const test = testNamed(reference, names, entry.inside);
        if (test === undefined) return [];
        const cannotBeRead = scene.cannot('read', station);
        return [{ sort: 'read', guard, written: statement, reference, test, cannotBeRead }];
    });
}

function resolveOne(statement: Exclude<Statement, Read>, station: number, within: Within): Action | undefined {
    const { making, scene } = within;
    const { names, unit } = making;
    const guard = guardOf('guard' in statement ? statement.guard : undefined, names);
    switch (statement.sort) {
        case 'do':
            return resolveDo(statement, station, within);
        case 'wait':
            return {
                sort: 'wait',
                guard,
                written: statement,
                time: timeOf(statement.amount),
                hazard: hazardNamed(statement.hazard, names),
            };
        case 'gate-used':
        case 'restore':
            return resolveGateUse(statement, guard, names);
        case 'ask':
        case 'confirm': {
            const test = testNamed(statement.test, names, within.entry.inside);
            const declared = test === undefined ? undefined : unit.tests[test];
            return declared && resolveAsk(statement, guard, declared, station, within);
        }
        case 'follow':
            return resolveFollow(statement, guard, station, within);
        case 'go': {
            const to = scene.to(statement.target.text);
            const exit = addExit(making, station, 'go', statement, statement.guard, to);
            return { sort: 'leave', guard, written: statement, exit };
        }
        case 'continue': {
            const tree = names.model.target(statement.tree);
            const to: Destination =
                tree?.sort === 'tree' ? { sort: 'tree', tree, guard: guardOf(tree.guard, names) } : { sort: 'nowhere' };
            const exit = addExit(making, station, 'continue', statement, statement.guard, to);
            return { sort: 'leave', guard, written: statement, exit };
        }
        default:
            return undefined;
    }
}

function resolveGateUse(statement: UseGate | Restore, guard: InBuilds, names: Resolving): Action | undefined {
    const target = names.model.target(statement.gate);
    const gate = target?.sort === 'gate' ? names.gates.get(target) : undefined;
    if (gate === undefined) return undefined;
    if (statement.sort === 'restore') return { sort: 'restore', guard, written: statement, gate };
    return { sort: 'gate', guard, written: statement, gate };
}

function resolveDo(statement: Do, station: number, { making, scene, entry }: Within): DoAction {
    const { names } = making;
    const part = (reference: Do['at']) => reference && partNamed(names.model.target(reference), names, entry.inside);
    const zone = statement.in && names.model.target(statement.in);
    const own = statement.cannot
        ? [addExit(making, station, 'cannot be done', statement, undefined, scene.to(statement.cannot.text))]
        : none;
    const others = scene.cannot('done', station);
    return {
        sort: 'do',
        written: statement,
        guard: guardOf(statement.guard, names),
        settings: settingsOf(statement.settings, names),
        clearsFaults: listAll(statement.clears, reference =>
            testCleared(reference, names) === undefined ? faultsNamed(reference, names, entry.inside) : none,
        ),
        clearsTests: listAll(statement.clears, reference => testCleared(reference, names) ?? none),
        replaces: listAll(statement.replaces, reference => part(reference) ?? none),
        uses: listAll(statement.uses, reference => part(reference) ?? none),
        at: part(statement.at),
        zone: zone?.sort === 'zone' ? names.zones.get(zone) : undefined,
        time: timeOf(statement.takes),
        cannot: own.length === 0 ? others : [...own, ...others],
    };
}

/** What some references mean; most lists are empty. */
function listAll<Written>(
    written: readonly Written[],
    of: (one: Written) => number | readonly number[],
): readonly number[] {
    return written.length === 0 ? none : written.flatMap(of);
}

function resolveAsk(
    statement: Ask | Confirm,
    guard: InBuilds,
    test: Unit['tests'][number],
    station: number,
    { making, scene }: Within,
): AskAction {
    const isShort = statement.sort === 'confirm' && statement.short;
    const outcomesOf = (branch: Branch) => branch.outcomes.map(({ text }) => test.outcomes.indexOf(text));
    const exitOf = (branch: Branch) =>
        addExit(
            making,
            station,
            branch.cannotBeRead ? 'cannot be read' : isShort ? 'expected' : 'branch',
            branch,
            branch.guard,
            scene.to(branch.target.text),
            outcomesOf(branch),
        );
    const asked = statement.branches.filter(branch => !branch.cannotBeRead);
    return {
        sort: 'ask',
        guard,
        written: statement,
        test: test.number,
        confirms: statement.sort === 'confirm',
        branches: asked.filter(branch => !branch.otherwise).map(exitOf),
        otherwise: asked.filter(branch => branch.otherwise).map(exitOf),
        disagree: isShort ? scene.disagree(station) : [],
        cannotBeRead: [
            ...statement.branches.filter(branch => branch.cannotBeRead).map(exitOf),
            ...scene.cannot('read', station),
        ],
    };
}

/** Writes the procedure out behind this station, with its results leading where the branches here say. */
function resolveFollow(statement: Follow, guard: InBuilds, station: number, within: Within): Action | undefined {
    const { making, scene, entry } = within;
    const { names } = making;
    const procedure = names.model.target(statement.procedure);
    if (procedure?.sort !== 'procedure') return undefined;
    const open = entry.open ?? [];
    const branchExits = statement.branches.map(branch => ({
        branch,
        exit: addExit(making, station, 'result', branch, branch.guard, scene.to(branch.target.text)),
    }));
    const results = new Map<string, Destination>();
    for (const result of procedure.results) {
        const named = branchExits.filter(({ branch }) => branch.outcomes.some(({ text }) => text === result.name.text));
        const others = branchExits.filter(({ branch }) => branch.otherwise);
        const exits = [...named, ...others].map(({ exit }) => exit);
        results.set(result.name.text, { sort: 'result', result, exits });
    }
    const guardOfProcedure = guardOf(procedure.guard, names);
    const follow = (to: Destination): Action => ({ sort: 'follow', guard, written: statement, guardOfProcedure, to });
    const first = making.stations.length;
    if (open.includes(procedure) || first >= mostStations || procedure.steps.length === 0) {
        return follow({ sort: 'nowhere' });
    }
    const owner = statement.subject && names.model.target(statement.subject.owner);
    const inside: Inside = {
        subjectPart: partNamed(owner, names, entry.inside),
        subjectTest: statement.subject && testNamed(statement.subject, names, entry.inside),
    };
    const inner = openScene(procedure, making, {
        calls: [...entry.calls, station],
        inside,
        results,
        ...(entry.tree ? { tree: entry.tree } : {}),
        open: [...open, procedure],
    });
    inner.fill();
    return follow({ sort: 'station', station: first });
}
