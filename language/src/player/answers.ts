// What each answer does: work that is done, readings that are noted, outcomes that lead on.

import type { Test } from '../document/types.js';
import { withChoice } from './choices.js';
import { judgeReading } from './judge.js';
import { zonesOfTest } from './needs.js';
import { type Answer, type AtStep, type Frame, meantIn, type Session } from './session.js';
import { settled } from './settle.js';
import { withGateClosed, withGateRestored, withSettings } from './state.js';
import { type Going, leaveByCannot, leaveByOutcome, note, prepare, tell } from './walk.js';

/** The session after an answer, or why it cannot be taken. */
export function answered(session: Session, given: Answer): Session | string {
    const { position } = session;
    switch (position.sort) {
        case 'start':
            return 'Say first which unit it is.';
        case 'step':
            return answeredAt(position, session, given);
        case 'end':
            return 'The tree has come to an end; say how it went (`finish`).';
        case 'hand-over':
            return `The tree \`${position.tree}\` goes on from here.`;
        case 'finished':
            return 'The session is over.';
        case 'stuck':
            return position.why;
    }
}

function answeredAt(at: AtStep, session: Session, given: Answer): Session | string {
    const statement = at.step.statements[at.statement];
    const passed = { ...at, statement: at.statement + 1, reading: 0, seen: true };
    const { tree } = session;
    switch (statement?.type) {
        case 'do':
            return work(session, at, given, going => {
                going.state = withSettings(statement.sets, { ...going, zones: [] });
                going.position = passed;
            });
        case 'wait':
            return work(session, at, given, going => {
                const hazard = statement.untilSafe === undefined ? undefined : hazardThere(statement.untilSafe, going);
                if (hazard !== undefined) {
                    going.state = { ...going.state, safe: new Set([...going.state.safe, hazard]) };
                }
                going.position = passed;
            });
        case 'gate':
        case 'restore':
            return work(session, at, given, going => {
                const gate = tree.gates.get(statement.gate);
                const change = statement.type === 'gate' ? withGateClosed : withGateRestored;
                if (gate) going.state = change(gate, { ...going, zones: [] });
                going.position = passed;
            });
        case 'read':
            return readAt(at, session, given);
        case 'test':
        case 'confirm':
            return askedAt(at, session, given);
        default:
            return given === 'done'
                ? settled(session, going => (going.position = { ...at, seen: true }), given)
                : 'Read what stands here, and answer `done`.';
    }
}

function hazardThere(energy: string, { tree, builds }: Going): string | undefined {
    const id = tree.supplies.get(energy)?.carries ?? energy;
    const hazard = tree.hazards.get(id);
    return hazard && builds.holds(hazard.guard) ? id : undefined;
}

/** Work is done, or it cannot be done. */
function work(session: Session, at: AtStep, given: Answer, act: (going: Going) => void): Session | string {
    if (given === 'done') {
        return settled(
            session,
            going => {
                act(going);
                tell({ test: undefined, answer: given, outcome: undefined, to: undefined }, going, at);
            },
            given,
        );
    }
    if (given !== 'cannot be done') return 'Answer `done` or `cannot be done`.';
    const statement = at.step.statements[at.statement];
    const own =
        statement?.type === 'do' && statement.cannotBeDone !== undefined ? [{ to: statement.cannotBeDone }] : [];
    return settled(session, going => leaveByCannot('cannotBeDone', own, going, at), given);
}

function readAt(at: AtStep, session: Session, given: Answer): Session | string {
    const statement = at.step.statements[at.statement];
    const id = statement?.type === 'read' ? statement.tests[at.reading] : undefined;
    const test = id === undefined ? undefined : session.tree.tests.get(meantIn(at.frame, id));
    if (!test) return 'There is nothing to read here.';
    if (given === 'cannot be read') {
        return settled(session, going => leaveByCannot('cannotBeRead', [], going, at), given);
    }
    const passed: AtStep = { ...at, reading: at.reading + 1, seen: true };
    if (typeof given === 'string') {
        if (given !== 'done') {
            return 'Give the reading, or answer `done` if it is noted elsewhere, or `cannot be read`.';
        }
        return settled(
            session,
            going => {
                prepare(test, going);
                note(test, undefined, going);
                tell({ test: test.id, answer: given, outcome: undefined, to: undefined }, going, at);
                going.position = passed;
            },
            given,
        );
    }
    let problem: string | undefined;
    const next = settled(
        session,
        going => {
            prepare(test, going);
            const judged = judgeIn(going, test, at.frame, given);
            // A reading that no outcome takes, or several, is a reading all the same.
            const value = judged.problem === undefined ? judged.value : judged.value;
            if (!value) {
                problem = judged.problem;
                return;
            }
            note(test, value, going);
            tell({ test: test.id, answer: given, outcome: judged.outcome, to: undefined }, going, at);
            going.position = passed;
        },
        given,
    );
    return next.openOption === undefined ? (problem ?? next) : next;
}

function judgeIn(going: Going, test: Test, frame: Frame, { reading, unit }: Exclude<Answer, string>) {
    const { tree, builds, state } = going;
    const meant = (id: string): string => meantIn(frame, id);
    return judgeReading(reading, unit, { test, tree, builds, state, zones: zonesOfTest(test, going), meant });
}

function askedAt(at: AtStep, session: Session, given: Answer): Session | string {
    const statement = at.step.statements[at.statement];
    if (statement?.type !== 'test' && statement?.type !== 'confirm') return 'There is nothing to answer here.';
    const test = session.tree.tests.get(meantIn(at.frame, statement.test));
    if (!test) return 'There is nothing to answer here.';
    if (typeof given === 'string') return outcomeAt(at, session, test, given);
    let problem: string | undefined;
    const next = settled(
        session,
        going => {
            prepare(test, going);
            const judged = judgeIn(going, test, at.frame, given);
            if (judged.problem !== undefined) {
                problem = judged.problem;
                return;
            }
            note(test, judged.value, going);
            leaveByOutcome(judged.outcome, given, going, at);
        },
        given,
    );
    return next.openOption === undefined ? (problem ?? next) : next;
}

function outcomeAt(at: AtStep, session: Session, test: Test, given: string): Session | string {
    const outcome = test.outcomes.find(({ id }) => id === given);
    if (!outcome) {
        if (given !== 'cannot be read') return `\`${given}\` is no outcome of \`${test.id}\`.`;
        const statement = at.step.statements[at.statement];
        const branches = statement && 'branches' in statement && statement.type !== 'follow' ? statement.branches : [];
        const own = branches.filter(({ cannotBeRead }) => cannotBeRead);
        return settled(session, going => leaveByCannot('cannotBeRead', own, going, at), given);
    }
    const choices =
        outcome.choice === undefined ? session.choices : withChoice(session.tree, session.choices, outcome.choice);
    if (typeof choices === 'string') return choices;
    let isNone = false;
    const next = settled(
        { ...session, choices },
        going => {
            isNone = !outcome.cases.some(({ guard }) => going.builds.holds(guard));
            prepare(test, going);
            // An outcome without a number counts as a reading that has been taken.
            note(test, undefined, going);
            leaveByOutcome(given, given, going, at);
        },
        given,
    );
    return isNone && next.openOption === undefined ? `This unit cannot show \`${given}\`.` : next;
}
