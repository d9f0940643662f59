// What units are led to, use or are told to repair, although their build does not have it.

import type { Action, DoAction, RouteEnd } from '../meaning/route.js';
import type { InBuilds, Unit } from '../meaning/unit.js';
import type { Model } from '../model/model.js';
import type { FileId, Reference, Span } from '../model/written.js';
import { noWorlds, type WorldSet } from '../walk/sets/world-sets.js';
import { buildsWhere, isPossible } from '../walk/space.js';
import type { Meeting } from '../walk/ways.js';
import type { Goal } from './counterexamples.js';
import { type Example, pickExample, type WalkedTree, walksThrough } from './walks.js';

/** Something that a build lacks, where it is needed. */
export interface Lack {
    /**
     * `led`: a step, an end, a tree or a procedure is not for every unit that is led to it. `first`: the first step of a tree or
     * procedure is not for every unit that begins there. `used`: a step uses what not every unit has. `named`: an end names it.
     */
    readonly sort: 'led' | 'first' | 'used' | 'named';
    readonly place: Span;
    /** What is not there: the sort of thing and its name. */
    readonly noun: Noun;
    readonly what: string;
    /** The end that names it. */
    readonly end: string | undefined;
    readonly example: Example;
    readonly goal: Goal;
    readonly walked: WalkedTree;
}

type Noun =
    | 'step'
    | 'conclusion'
    | 'referral'
    | 'tree'
    | 'procedure'
    | 'test'
    | 'gate'
    | 'part'
    | 'zone'
    | 'condition'
    | 'fault';

interface Signal {
    readonly aborted: boolean;
}

/** What is lacking where something in a file leads, uses or names it; each place once. */
export function lackingIn(model: Model, file: FileId, signal: Signal): Lack[] {
    const fileModel = model.files.get(file);
    if (!fileModel) return [];
    const told = new Set<string>();
    return walksThrough(fileModel, model, signal).flatMap(walked =>
        [...lacksOnTheWay(walked), ...lacksAtEnds(walked)].filter(({ place, what }) => {
            const key = `${place.start} ${place.end} ${what}`;
            if (place.file !== file || told.has(key)) return false;
            told.add(key);
            return true;
        }),
    );
}

function lacksOnTheWay(walked: WalkedTree): Lack[] {
    const groups = new Map<string, { place: Place; meetings: Meeting[] }>();
    for (const meeting of walked.walk.meetings) {
        if (meeting.sort !== 'missing') continue;
        for (const place of placesOf(meeting, walked)) {
            const key = `${place.span.file} ${place.span.start} ${place.what}`;
            const group = groups.get(key) ?? { place, meetings: [] };
            groups.set(key, group);
            group.meetings.push({ ...meeting, set: place.lacking ?? meeting.set });
        }
    }
    return [...groups.values()].flatMap(({ place, meetings }) => {
        const example = pickExample(meetings, walked.walk);
        const meeting = meetings.find(one => one === example?.crowd);
        if (!example || !meeting) return [];
        const { sort, span, noun, what } = place;
        const goal = { sort: 'meeting', meeting } as const;
        return [{ sort, place: span, noun, what, end: undefined, example, goal, walked }];
    });
}

interface Place {
    readonly sort: 'led' | 'first' | 'used';
    readonly span: Span;
    readonly noun: Noun;
    readonly what: string;
    /** Those of the meeting that lack it; undefined where all of them do. */
    readonly lacking?: WorldSet;
}

/** Where it is written what a build lacks: the target of the branch, or what an action is about. */
function placesOf(meeting: Meeting, { route, walk }: WalkedTree): Place[] {
    const { exit, end, action } = meeting;
    const noun = end === undefined ? 'step' : (route.ends[end]?.written.sort ?? 'conclusion');
    const led = (span: Reference, sort: Noun): Place[] => [{ sort: 'led', span, noun: sort, what: span.text }];
    const written = exit === undefined ? undefined : route.exits[exit]?.written;
    if (written && 'tree' in written) return led(written.tree, 'tree');
    if (written && 'target' in written) return led(written.target, noun);
    if (written && 'cannot' in written && written.cannot) return led(written.cannot, noun);
    if (!action) {
        const name = route.stations[meeting.station]?.step.name;
        return name ? [{ sort: 'first', span: name, noun: 'step', what: name.text }] : [];
    }
    if (action.sort === 'follow') return led(action.written.procedure, 'procedure');
    const { space } = walk.around;
    const lacking = usedBy(action, walk.route.unit)
        .map(({ guard, ...used }) => ({
            ...used,
            sort: 'used' as const,
            lacking: space.sets.without(meeting.set, buildsWhere(guard, space)),
        }))
        .filter(place => isPossible(place.lacking, space));
    // Where the part is not there, neither are its faults.
    const parts = lacking.filter(({ noun }) => noun === 'part').map(({ what }) => `${what}.`);
    return lacking.filter(({ noun, what }) => noun !== 'fault' || !parts.some(part => what.startsWith(part)));
}

/** Something that an action needs, with the builds that have it and where it is written. */
type Used = Omit<Place, 'sort'> & { readonly guard: InBuilds };

function usedBy(action: Action, unit: Unit): Used[] {
    switch (action.sort) {
        case 'ask': {
            const test = unit.tests[action.test];
            const span = action.written.test.test ?? action.written.test.owner;
            return test ? [{ guard: test.guard, span, noun: 'test', what: test.name }] : [];
        }
        case 'read': {
            const test = unit.tests[action.test];
            const span = action.reference.test ?? action.reference.owner;
            return test ? [{ guard: test.guard, span, noun: 'test', what: test.name }] : [];
        }
        case 'gate':
        case 'restore': {
            const { gate } = action.written;
            return [{ guard: unit.gates[action.gate]?.guard, span: gate, noun: 'gate', what: gate.text }];
        }
        case 'do':
            return [...partsUsed(action, unit), ...thingsUsed(action, unit), ...faultsCleared(action, unit)];
        default:
            return [];
    }
}

/** The parts that something is done with, in the order in which they are met. */
function partsUsed({ written, ...action }: DoAction, unit: Unit): Used[] {
    const named = [...written.replaces, ...written.uses, ...(written.at ? [written.at] : [])];
    const numbers = [...action.replaces, ...action.uses, ...(action.at === undefined ? [] : [action.at])];
    return numbers.flatMap(number => {
        const part = unit.parts[number];
        const span = named.find(({ text }) => text === part?.name || text === 'it');
        return part && span ? [{ guard: part.guard, span, noun: 'part', what: part.name }] : [];
    });
}

/** The zone in which something is done, the conditions that it sets and the tests that it clears. */
function thingsUsed({ written, zone, settings, clearsTests }: DoAction, unit: Unit): Used[] {
    const used: Used[] = [];
    if (zone !== undefined && written.in) {
        used.push({ guard: unit.zones[zone]?.guard, span: written.in, noun: 'zone', what: written.in.text });
    }
    for (const { condition } of settings) {
        const declared = unit.conditions[condition];
        const name = declared?.declaration.name.text ?? '';
        const setting = written.settings.find(one => one.condition.text === name);
        if (setting) used.push({ guard: declared?.guard, span: setting.condition, noun: 'condition', what: name });
    }
    for (const number of clearsTests) {
        const test = unit.tests[number];
        const cleared = written.clears.find(({ owner, fault }) => !fault && owner.text === test?.name);
        if (cleared) used.push({ guard: test?.guard, span: cleared, noun: 'test', what: cleared.owner.text });
    }
    return used;
}

/** The faults that are cleared; it is enough that a build has one of them. */
function faultsCleared({ written, clearsFaults, clearsTests }: DoAction, unit: Unit): Used[] {
    const operands = clearsFaults.map(fault => unit.faults[fault]?.guard).filter(guard => guard !== undefined);
    const tests = clearsTests.map(test => unit.tests[test]?.name);
    const cleared = written.clears.find(({ owner, fault }) => fault ?? !tests.includes(owner.text));
    const what = unit.faults[clearsFaults[0] ?? -1]?.name;
    if (!cleared || what === undefined || operands.length < clearsFaults.length) return [];
    return [{ guard: { sort: 'any', operands }, span: cleared, noun: 'fault', what }];
}

/** Faults and parts that an end names and that a unit which comes there does not have. */
function lacksAtEnds(walked: WalkedTree): Lack[] {
    return walked.route.ends.flatMap(end => lacksAt(end, walked));
}

function lacksAt(end: RouteEnd, walked: WalkedTree): Lack[] {
    const { walk } = walked;
    const { space, presences } = walk.around;
    const { sets, unit } = space;
    return [...new Set(end.names.map(({ clause }) => clause))].flatMap(clause => {
        let has: WorldSet = noWorlds;
        let said: WorldSet = noWorlds;
        for (const name of end.names) {
            if (name.clause !== clause) continue;
            const fault = unit.faults[name.fault];
            // A part that is named whole is there, even in builds in which it cannot have any of its faults.
            const named = clause.fault.fault ? fault : unit.parts[fault?.part ?? -1];
            has = sets.or(has, buildsWhere(named?.guard, space));
            said = buildsWhere(name.guard, space);
        }
        const lacking = sets.without(said, has);
        if (lacking === noWorlds) return [];
        const crowds = [...(walk.ends[end.number] ?? [])].flatMap(([number, set]) => {
            const without = sets.and(set, lacking);
            return isPossible(without, space) ? [{ presence: presences.at(number), set: without }] : [];
        });
        const example = pickExample(crowds, walk);
        if (!example) return [];
        const { owner, fault } = clause.fault;
        const what = fault ? `${owner.text}.${fault.text}` : owner.text;
        const noun = fault ? 'fault' : 'part';
        const goal = { sort: 'end', end: end.number } as const;
        const written = end.written.name.text;
        return [{ sort: 'named' as const, place: clause.fault, noun, what, end: written, example, goal, walked }];
    });
}
