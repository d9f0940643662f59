// Begins a session, takes answers, takes them back, and ends it.

import type { Handover } from '../document/types.js';
import { answered } from './answers.js';
import type { Choices } from './builds.js';
import { choicesNamed, withChoice } from './choices.js';
import { type HandedOver, takenOver } from './hand-over.js';
import type { Answer, Finish, Result, Session } from './session.js';
import { nothing, settled } from './settle.js';
import { stateAsFound } from './state.js';
import type { Tree } from './tree.js';
import { enter, enterTree, rootFrame } from './walk.js';

/** What may be said when a session begins. */
export interface Beginning {
    /** Choices of the build, as `option.choice` or the choice alone where only one option has it; others are asked when they matter. */
    readonly choices?: readonly string[] | undefined;
    /** In what state another tree hands over. */
    readonly state?: HandedOver | undefined;
    /** SHA-256 of the document (RFC 8785), for the record. */
    readonly digest?: string | undefined;
    /** The time, for the record: any text; nothing here reads a clock. */
    readonly time?: string | undefined;
}

/** Begins at the first step of the tree. */
export function begin(tree: Tree, beginning: Beginning = {}): Result<Session> {
    const said: unknown = beginning.choices ?? [];
    if (!Array.isArray(said)) return { problem: 'The choices are no list.' };
    const state = beginning.state === undefined ? stateAsFound : takenOver(beginning.state, tree);
    if (!state) return { problem: 'The state that is handed over is none.' };
    let choices: Choices = new Map<string, string>();
    for (const name of [...(tree.document.build ?? []), ...(said as readonly string[])]) {
        const made = withChoice(tree, choices, name);
        if (typeof made === 'string') return { problem: made };
        choices = made;
    }
    const { digest, time } = beginning;
    const event = {
        event: 'begin',
        format: 'halfsplit-session',
        formatVersion: '1.0',
        equipment: tree.document.equipment.id,
        tree: tree.document.tree.id,
        ...(digest === undefined ? {} : { digest }),
        ...(choices.size === 0 ? {} : { choices: [...choices.values()] }),
        ...(beginning.state === undefined ? {} : { state: beginning.state }),
        ...(time === undefined ? {} : { time }),
    } as const;
    const start: Session = {
        tree,
        choices,
        state,
        position: { sort: 'start' },
        openOption: undefined,
        waiting: undefined,
        trail: undefined,
        before: undefined,
        events: { head: event, tail: undefined },
    };
    return { session: settled(start, nothing) };
}

/**
 * Takes an answer: an outcome of the test that is asked or its reading, `cannot be read`, `done` or `cannot be done` for work, or the
 * choice of an option that is asked for. What cannot be taken is said, and changes nothing.
 */
export function answer(session: Session, given: Answer, time?: string): Result<Session> {
    if (!isAnswer(given)) return { problem: 'An answer is a text, or a reading with its unit.' };
    const next =
        session.openOption === undefined ? answered(session, given) : chosen(session, session.openOption, given);
    if (typeof next === 'string') return { problem: next };
    const event = { event: 'answer', answer: given, ...(time === undefined ? {} : { time }) } as const;
    return { session: { ...next, before: session, events: { head: event, tail: session.events } } };
}

function isAnswer(given: unknown): given is Answer {
    if (typeof given !== 'object' || given === null) return typeof given === 'string';
    return 'reading' in given && typeof given.reading === 'number' && 'unit' in given && typeof given.unit === 'string';
}

function chosen(session: Session, option: string, given: Answer): Session | string {
    if (typeof given !== 'string') return `A choice of \`${option}\` is asked for.`;
    const named = choicesNamed(session.tree, given).find(one => one.option.id === option);
    if (!named) return `\`${given}\` is no choice of \`${option}\`.`;
    const choices = withChoice(session.tree, session.choices, named.choice.id);
    if (typeof choices === 'string') return choices;
    const { position, waiting } = session;
    const trail = {
        head: {
            procedure: position.sort === 'step' && position.frame.caller ? position.frame.owner.id : undefined,
            step: position.sort === 'step' ? position.step.id : '',
            test: undefined,
            option,
            answer: given,
            outcome: undefined,
            to: undefined,
        },
        tail: session.trail,
    };
    const told: Session = { ...session, choices, trail, openOption: undefined, waiting: undefined };
    if (waiting?.sort === 'finish') return finished(told, waiting.finish);
    const next = waiting ? answered(told, waiting.answer) : undefined;
    // An answer that does not fit the unit after all is asked for again.
    return typeof next === 'object' ? next : settled(told, nothing);
}

/** The session before the last answer; undefined in `session` where there is none. The record keeps what was taken back. */
export function back(session: Session, time?: string): Result<Session> {
    const { before } = session;
    if (!before) return { problem: 'This is where the session began.' };
    const event = { event: 'back', ...(time === undefined ? {} : { time }) } as const;
    return { session: { ...before, events: { head: event, tail: session.events } } };
}

/** Says how the end went. Where the complaint is still there, the session goes on where the end says, else the tree, else at its first step. */
export function finish(session: Session, { repaired, complaint }: Finish, time?: string): Result<Session> {
    if (session.position.sort !== 'end' || session.openOption !== undefined) {
        return { problem: 'The tree has not come to an end.' };
    }
    if (!['gone', 'still there', 'not tested'].includes(complaint)) {
        return { problem: 'Say whether the complaint is `gone`, `still there` or `not tested`.' };
    }
    const event = {
        event: 'finish',
        ...(repaired === undefined ? {} : { repaired }),
        complaint,
        ...(time === undefined ? {} : { time }),
    } as const;
    const next = finished(session, { repaired, complaint });
    return { session: { ...next, before: session, events: { head: event, tail: session.events } } };
}

function finished(session: Session, said: Finish): Session {
    const { position, tree } = session;
    if (position.sort !== 'end') return session;
    const { end, kind } = position;
    return settled(
        session,
        going => {
            if (said.complaint !== 'still there' || kind === 'referral') {
                going.position = { sort: 'finished', end, complaint: said.complaint };
                return;
            }
            // After a repair every gate is restored, and all is set as the unit was found.
            going.state = { ...stateAsFound, readings: going.state.readings };
            const ways: readonly Handover[] = [...(end.stillWrong ?? []), ...(tree.document.tree.stillWrong ?? [])];
            const way = ways.find(({ guard }) => going.builds.holds(guard));
            if (way) enter(rootFrame(tree), way.to, going);
            else enterTree(going);
        },
        said,
    );
}
