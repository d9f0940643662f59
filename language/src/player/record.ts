// The record of a session as JSON Lines: one event a line, so that it can be written while the work goes on, and taken up again.

import type { Answer, Finish, Result, Session } from './session.js';
import { listOf } from './session.js';
import { answer, back, begin, finish } from './play.js';
import type { HandedOver } from './hand-over.js';
import type { Tree } from './tree.js';

/** One event of a session; `language/schema/session-record.schema.json` describes the same. */
export type SessionEvent =
    | {
          readonly event: 'begin';
          readonly format: 'halfsplit-session';
          readonly formatVersion: '1.0';
          readonly equipment: string;
          readonly tree: string;
          readonly digest?: string;
          readonly choices?: readonly string[];
          /** In what state another tree handed over. */
          readonly state?: HandedOver;
          readonly time?: string;
      }
    | { readonly event: 'answer'; readonly answer: Answer; readonly time?: string }
    | { readonly event: 'back'; readonly time?: string }
    | {
          readonly event: 'finish';
          readonly repaired?: boolean;
          readonly complaint: Finish['complaint'];
          readonly time?: string;
      };

/** The lines of a session, each a JSON text without a line feed. */
export function recordOf(session: Session): readonly string[] {
    return listOf(session.events).map(event => JSON.stringify(event));
}

export type Resumed =
    | { readonly session: Session; readonly problem?: undefined }
    /** The line that cannot be taken, counted from 1, and why. */
    | { readonly problem: { readonly line: number; readonly why: string }; readonly session?: undefined };

/** The session that these lines tell. A digest that is given must be the one of the record, where that has one. Empty lines are left out. */
export function resume(tree: Tree, lines: readonly string[], digest?: string): Resumed {
    let session: Session | undefined;
    for (const [index, line] of lines.entries()) {
        const event = readLine(line);
        if (event === undefined) continue;
        if (typeof event === 'string') return { problem: { line: index + 1, why: event } };
        const next: Result<Session> = session ? goOnWith(session, event) : beginWith(tree, event, digest);
        if (next.problem !== undefined) return { problem: { line: index + 1, why: next.problem } };
        session = next.session;
    }
    return session ? { session } : { problem: { line: 1, why: 'The record has no line.' } };
}

/** The event of a line, or what is wrong with it; undefined for an empty line. */
function readLine(line: unknown): SessionEvent | string | undefined {
    if (typeof line !== 'string') return 'The line is no text.';
    if (line.trim() === '') return undefined;
    let read: unknown;
    try {
        read = JSON.parse(line);
    } catch {
        return 'The line is no JSON.';
    }
    if (typeof read !== 'object' || read === null || Array.isArray(read)) return 'The line is no JSON object.';
    const own = (name: string): unknown =>
        Object.hasOwn(read, name) ? (read as Record<string, unknown>)[name] : undefined;
    const time = own('time');
    if (time !== undefined && typeof time !== 'string') return 'The time is no text.';
    const timed = time === undefined ? {} : { time };
    switch (own('event')) {
        case 'begin':
            return readBegin(own, timed);
        case 'answer':
            return readAnswer(own('answer'), timed);
        case 'back':
            return { event: 'back', ...timed };
        case 'finish':
            return readFinish(own, timed);
        default:
            return 'There is no such event.';
    }
}

type Own = (name: string) => unknown;
type Timed = { readonly time?: string };

function readBegin(own: Own, timed: Timed): SessionEvent | string {
    const [equipment, tree, digest, choices, version] = ['equipment', 'tree', 'digest', 'choices', 'formatVersion'].map(
        own,
    );
    if (own('format') !== 'halfsplit-session') return 'The format of a record is `halfsplit-session`.';
    if (typeof version !== 'string' || !/^1\.\d{1,6}$/.test(version)) {
        return 'Only records of version 1 can be taken up.';
    }
    if (typeof equipment !== 'string' || typeof tree !== 'string') {
        return 'The record does not say its equipment and tree.';
    }
    if (digest !== undefined && typeof digest !== 'string') return 'The digest is no text.';
    if (choices !== undefined && !isTexts(choices)) {
        return 'The choices are no list of texts.';
    }
    return {
        event: 'begin',
        format: 'halfsplit-session',
        formatVersion: '1.0',
        equipment,
        tree,
        ...(digest === undefined ? {} : { digest }),
        ...(choices === undefined ? {} : { choices }),
        // What stands in it is looked at when the session begins.
        ...(own('state') === undefined ? {} : { state: own('state') as HandedOver }),
        ...timed,
    };
}

function isTexts(value: unknown): value is readonly string[] {
    return Array.isArray(value) && value.every(one => typeof one === 'string');
}

function readAnswer(given: unknown, timed: Timed): SessionEvent | string {
    if (typeof given === 'string') return { event: 'answer', answer: given, ...timed };
    if (typeof given !== 'object' || given === null) return 'The line has no answer.';
    const [reading, unit] = ['reading', 'unit'].map(name =>
        Object.hasOwn(given, name) ? (given as Record<string, unknown>)[name] : undefined,
    );
    if (typeof reading !== 'number' || typeof unit !== 'string') return 'A reading is a number with a unit.';
    return { event: 'answer', answer: { reading, unit }, ...timed };
}

function readFinish(own: Own, timed: Timed): SessionEvent | string {
    const [repaired, complaint] = ['repaired', 'complaint'].map(own);
    if (repaired !== undefined && typeof repaired !== 'boolean') return '`repaired` is `true` or `false`.';
    if (complaint !== 'gone' && complaint !== 'still there' && complaint !== 'not tested') {
        return 'The complaint is `gone`, `still there` or `not tested`.';
    }
    return { event: 'finish', ...(repaired === undefined ? {} : { repaired }), complaint, ...timed };
}

function beginWith(tree: Tree, event: SessionEvent, digest: string | undefined): Result<Session> {
    if (event.event !== 'begin') return { problem: 'A record begins with `begin`.' };
    const { document } = tree;
    if (event.equipment !== document.equipment.id || event.tree !== document.tree.id) {
        return { problem: `This is the record of \`${event.tree}\` of \`${event.equipment}\`.` };
    }
    if (digest !== undefined && event.digest !== undefined && digest !== event.digest) {
        return { problem: 'The record is of another version of the document.' };
    }
    return begin(tree, { choices: event.choices, state: event.state, digest: event.digest, time: event.time });
}

function goOnWith(session: Session, event: SessionEvent): Result<Session> {
    switch (event.event) {
        case 'begin':
            return { problem: 'The session has begun already.' };
        case 'answer':
            return answer(session, event.answer, event.time);
        case 'back':
            return back(session, event.time);
        case 'finish':
            return finish(session, event, event.time);
    }
}
