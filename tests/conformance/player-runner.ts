/** Runs a conformance vector with the player. */
import {
    answer,
    back,
    begin,
    finish,
    loadTree,
    type Result,
    type Screen,
    screenOf,
    type Session,
} from '../../language/src/player/index.js';

/** One stop of a walk: what is answered, and the screen that follows. The first only has a screen. */
interface Stop {
    readonly answer?: Parameters<typeof answer>[1];
    readonly finish?: string;
    readonly back?: true;
    readonly screen: string;
}

export interface Vector {
    readonly about: string;
    readonly build: readonly string[];
    readonly document: unknown;
    readonly walk: readonly Stop[];
}

/** The screens as walking.md says them, one for each stop. */
export function runVector({ document, build, walk }: Vector): readonly string[] {
    const { tree } = loadTree(document);
    const begun = tree && begin(tree, { choices: build }).session;
    if (!begun) return ['no document'];
    let at = begun;
    return walk.map(stop => {
        const next = goOn(at, stop);
        if (next.problem !== undefined) return 'no';
        at = next.session;
        return lineOf(screenOf(at));
    });
}

function goOn(session: Session, stop: Stop): Result<Session> {
    if (stop.back) return back(session);
    if (stop.finish !== undefined) return finish(session, { complaint: stop.finish as 'gone' });
    return stop.answer === undefined ? { session } : answer(session, stop.answer);
}

function lineOf(screen: Screen): string {
    switch (screen.sort) {
        case 'step':
            return lineOfStep(screen);
        case 'end':
            return lineOfEnd(screen);
        case 'hand-over':
            return `tree ${screen.next}`;
        case 'finished':
            return `finished ${screen.end}`;
        case 'option':
            return `option ${screen.option.id}`;
        case 'stuck':
            return 'stuck';
    }
}

function lineOfStep({ step, procedure, statements, answers }: Screen & { sort: 'step' }): string {
    const where = procedure
        ? `${procedure.id}${procedure.subject === undefined ? '' : `(${procedure.subject})`}/${step.id}`
        : step.id;
    const now = statements.find(({ when, type }) => when === 'now' && type !== 'remark' && type !== 'safety');
    if (!now || answers.length === 1) return `${where}: look`;
    if ('gate' in now) return `${where}: ${now.type} ${now.gate.id}`;
    if (!('test' in now)) return `${where}: ${now.type}`;
    const { id, outcomes } = now.test;
    return `${where}: ${now.type} ${id}${now.type === 'read' ? '' : ` (${outcomes.map(one => one.id).join(', ')})`}`;
}

function lineOfEnd(screen: Screen & { sort: 'end' }): string {
    const list = (word: string, ids: readonly string[]): string =>
        ids.length === 0 ? '' : `; ${word} ${ids.join(', ')}`;
    return [
        `${screen.kind === 'conclusion' ? 'conclude' : 'refer'} ${screen.end.id}`,
        list(
            'faults',
            screen.faults.map(({ id }) => id),
        ),
        list(
            'repairs',
            screen.repairs.map(({ action }) => action),
        ),
        list(
            'close',
            screen.close.map(({ id }) => id),
        ),
        list(
            'restore',
            screen.restore.map(({ id }) => id),
        ),
        list(
            'set back',
            screen.setBack.map(({ condition }) => condition),
        ),
    ].join('');
}
