// What is to be seen now: everything about the place where a session is, in words and plain data, ready to be shown.

import { decide, decideWith, possibleChoices } from './builds.js';
import { handedOver, type HandedOver } from './hand-over.js';
import { type EndView, viewEnd } from './screen-end.js';
import { type StepView, viewStep } from './screen-step.js';
import type { Finish, Session } from './session.js';
import type { Viewing } from './screen-parts.js';
import { wordsIn } from './words.js';

/** What stands on every screen. */
interface Header {
    readonly tree: { readonly id: string; readonly title: string };
    /** To be shown always, whatever else is shown. */
    readonly safetyNotice: string;
    /** What has been said of the build. */
    readonly choices: readonly { readonly option: string; readonly choice: string }[];
}

export type Screen = Header &
    (
        | {
              /** The option has to be said, because what comes next hangs on it. */
              readonly sort: 'option';
              readonly option: { readonly id: string; readonly title: string };
              readonly possible: readonly { readonly id: string; readonly title: string }[];
          }
        | ({ readonly sort: 'step' } & StepView)
        | ({ readonly sort: 'end' } & EndView)
        | {
              readonly sort: 'hand-over';
              readonly next: string;
              /** For `begin` with the other tree. */ readonly state: HandedOver;
          }
        | { readonly sort: 'stuck'; readonly why: string }
        | { readonly sort: 'finished'; readonly end: string; readonly complaint: Finish['complaint'] }
    );

/** What is to be seen now, in a locale (BCP 47) as far as the document has it. */
export function screenOf(session: Session, locale?: string): Screen {
    const viewing = viewingOf(session, locale);
    const { tree, words } = viewing;
    const { document } = tree;
    const header: Header = {
        tree: { id: document.tree.id, title: words.title(document.tree) },
        safetyNotice: words.of(document.safetyNotice),
        choices: [...session.choices].map(([option, choice]) => ({ option, choice })),
    };
    if (session.openOption !== undefined) return { ...header, ...viewOption(session.openOption, viewing) };
    const { position } = session;
    switch (position.sort) {
        case 'step':
            return { ...header, sort: 'step', ...viewStep(position, viewing) };
        case 'end':
            return { ...header, sort: 'end', ...viewEnd(position, viewing) };
        case 'hand-over':
            return { ...header, sort: 'hand-over', next: position.tree, state: handedOver(session.state) };
        case 'stuck':
            return { ...header, sort: 'stuck', why: position.why };
        case 'finished':
            return { ...header, sort: 'finished', end: position.end.id, complaint: position.complaint };
        case 'start':
            return { ...header, sort: 'stuck', why: 'The session has not begun.' };
    }
}

function viewingOf({ tree, choices, state }: Session, locale?: string): Viewing {
    return { tree, state, choices, builds: decideWith(tree, choices), words: wordsIn(locale, tree) };
}

function viewOption(id: string, { tree, words, choices }: Viewing) {
    const option = tree.options.get(id);
    const possible = option ? possibleChoices(tree, choices, option) : [];
    return {
        sort: 'option',
        option: { id, title: words.title(option, id) },
        possible: (option?.choices ?? [])
            .filter(choice => possible.includes(choice.id))
            .map(choice => ({ id: choice.id, title: words.title(choice) })),
    } as const;
}

/** The option that something on the screen hangs on; undefined where all of it can be shown. */
export function hasSomethingOpen(session: Session): string | undefined {
    const viewing = viewingOf(session);
    const { position } = session;
    if (position.sort === 'step') viewStep(position, viewing);
    if (position.sort === 'end') viewEnd(position, viewing);
    const open = viewing.builds.open();
    const option = open === undefined ? undefined : session.tree.options.get(open);
    // The option's own guard may hang on another option.
    const first = option?.guard && decide(option.guard, session.tree, session.choices);
    return typeof first === 'object' ? first.option : open;
}
