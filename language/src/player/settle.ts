// Does one thing in a session and goes on to where the next answer is wanted.

import { decideWith } from './builds.js';
import { hasSomethingOpen } from './screen.js';
import type { Answer, Finish, Session, Waiting } from './session.js';
import { type Going, goOn } from './walk.js';

/**
 * Does something and goes on to where the next answer is wanted. Where it turns out that an option has to be said first, everything
 * stays as it was and the option is asked for.
 */
export function settled(session: Session, act: (going: Going) => void, waiting?: Answer | Finish): Session {
    const builds = decideWith(session.tree, session.choices);
    const going: Going = {
        tree: session.tree,
        builds,
        state: session.state,
        position: session.position,
        trail: session.trail,
        moves: 0,
    };
    act(going);
    goOn(going);
    const open = builds.open();
    if (open !== undefined) {
        return { ...session, openOption: open, waiting: waiting === undefined ? undefined : waitingFor(waiting) };
    }
    const { state, position, trail } = going;
    const there: Session = { ...session, state, position, trail, openOption: undefined, waiting: undefined };
    const shown = hasSomethingOpen(there);
    return shown === undefined ? there : { ...there, openOption: shown };
}

function waitingFor(given: Answer | Finish): Waiting {
    return typeof given === 'string' || 'reading' in given
        ? { sort: 'answer', answer: given }
        : { sort: 'finish', finish: given };
}

/** For a session in which nothing is done but to go on. */
export function nothing(): void {
    // The way goes on by itself.
}
