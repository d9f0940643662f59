/** Everything that the tests of the player share: documents of the worlds with their routes, and walks that answer as a replay did. */
import { linkWorkspace } from '../../language/src/core/linking/workspace-links.js';
import { makeRoute } from '../../language/src/core/meaning/make-route.js';
import { resolveUnit } from '../../language/src/core/meaning/resolve-unit.js';
import type { Route } from '../../language/src/core/meaning/route.js';
import type { Happening, Run, World } from '../../language/src/core/replay/replay.js';
import type { TreeDocument } from '../../language/src/document/types.js';
import { writeTreeDocument } from '../../language/src/document/writing/write-tree-document.js';
import {
    answer,
    begin,
    loadTree,
    type Result,
    type Screen,
    screenOf,
    type Session,
    type StatementView,
    type Tree,
} from '../../language/src/player/index.js';
import { readSource } from '../../language/src/workspace/read-workspace.js';
import { sourcesOf } from '../property/samples.js';
import type { Texts } from '../support/read-texts.js';

/** A tree of a world, as its document and as the verifier goes through it. */
export interface Walked {
    readonly name: string;
    readonly document: TreeDocument;
    readonly tree: Tree;
    readonly route: Route;
}

/** Every tree of some texts. */
export function walkedTrees(texts: Texts, folder = ''): readonly Walked[] {
    const models = sourcesOf(texts).map(([name, source]) => {
        const { model, findings } = readSource(name, source);
        const slip = findings.find(({ code }) => code !== 'amount-without-unit' && code !== 'reason-missing');
        if (slip) throw new Error(`The text of the test has a slip: ${slip.message}`);
        return [name, model] as const;
    });
    const model = linkWorkspace(new Map(models), path => (path in texts ? 'present' : 'missing'));
    const digests = new Map(Object.keys(texts).map(file => [file, '0'.repeat(64)]));
    const files = [...model.files.values()];
    return files
        .flatMap(({ equipment }) => equipment)
        .flatMap(equipment => {
            const { unit, names } = resolveUnit(equipment, model);
            const trees = files.flatMap(file => file.trees).filter(tree => model.target(tree.equipment) === equipment);
            return trees.map(tree => {
                const { document, problems } = writeTreeDocument(model, tree, {
                    tool: { name: 'test', version: '1' },
                    digests,
                });
                if (!document) throw new Error(problems.map(({ message }) => message).join('\n'));
                const name = `${folder} ${tree.name.text}`.trim();
                return { name, document, tree: load(document), route: makeRoute(tree, unit, names) };
            });
        });
}

/** The tree of a document that must be one. It goes through JSON first, as it does for whoever reads a file. */
export function load(document: unknown): Tree {
    const { tree, problem } = loadTree(JSON.parse(JSON.stringify(document)));
    if (!tree) throw new Error(`${problem.where}: ${problem.why}`);
    return tree;
}

/** The session of a result that must be one. */
export function session({ session, problem }: Result<Session>): Session {
    if (!session) throw new Error(problem);
    return session;
}

/** A session that has begun with these choices and been given these answers. */
export function played(
    tree: Tree,
    choices: readonly string[],
    answers: readonly Parameters<typeof answer>[1][],
): Session {
    return answers.reduce<Session>(
        (before, given) => session(answer(before, given)),
        session(begin(tree, { choices })),
    );
}

/** The screen of a session that is at a step, with the statement that comes now. */
export function stepScreen(at: Session): {
    readonly screen: Screen & { sort: 'step' };
    readonly now: StatementView | undefined;
} {
    const screen = screenOf(at);
    if (screen.sort !== 'step') throw new Error(`The session is not at a step: ${JSON.stringify(screen)}`);
    return {
        screen,
        now: screen.statements.find(({ when, type }) => when === 'now' && type !== 'remark' && type !== 'safety'),
    };
}

/** Where a walk has come, as one line. */
export function placeOf(at: Session): string {
    const screen = screenOf(at);
    switch (screen.sort) {
        case 'option':
            return `option ${screen.option.id}`;
        case 'step':
            return `step ${screen.step.id}`;
        case 'end':
            return `end ${screen.end.id}`;
        case 'hand-over':
            return `tree ${screen.next}`;
        case 'stuck':
            return 'stuck';
        case 'finished':
            return `finished ${screen.end}`;
    }
}

/** The choices of a world, by option. */
export function choicesOf({ build }: World): ReadonlyMap<string, string> {
    return new Map([...build].map(([option, choice]) => [option.name.text, `${option.name.text}.${choice.name.text}`]));
}

/** Walks as a run of the replay went: what was done is done, and what a test showed is answered. Options are said when they are asked. */
export function walkAs(tree: Tree, route: Route, run: Run, world: World, isBuildKnown: boolean): Session {
    const choices = choicesOf(world);
    let at = session(begin(tree, { choices: isBuildKnown ? [...choices.values()] : [] }));
    const pending = run.visits.flatMap(({ steps }) => steps.filter(isDone)).reverse();
    for (let screen = screenOf(at); ; screen = screenOf(at)) {
        if (screen.sort === 'option') {
            at = session(answer(at, choices.get(screen.option.id) ?? ''));
        } else if (screen.sort === 'step') {
            const { now } = stepScreen(at);
            const happening = now ? pending.pop() : undefined;
            if (now && !happening) return at;
            at = session(answer(at, happening ? answerFor(happening, now, route) : 'done'));
        } else {
            if (pending.length > 0) {
                throw new Error(`The replay goes on with ${pending.length} more: ${JSON.stringify(screen)}`);
            }
            return at;
        }
    }
}

type Sort = 'asked' | 'read' | 'did' | 'waited' | 'gate' | 'restored' | 'cannot be done';

type Done = Happening & { readonly sort: Sort };

const sorts: readonly string[] = ['asked', 'read', 'did', 'waited', 'gate', 'restored', 'cannot be done'];

function isDone(happening: Happening): happening is Done {
    return sorts.includes(happening.sort);
}

const typesOf: Readonly<Record<Sort, readonly string[]>> = {
    asked: ['test', 'confirm'],
    read: ['read'],
    did: ['do'],
    'cannot be done': ['do'],
    waited: ['wait'],
    gate: ['gate'],
    restored: ['restore'],
};

function answerFor(happening: Done, now: StatementView | undefined, { unit }: Route): string {
    if (!now || !typesOf[happening.sort].includes(now.type)) {
        throw new Error(`The replay has ${happening.sort} where the player has ${now?.type ?? 'nothing'}.`);
    }
    if (happening.sort === 'cannot be done') return 'cannot be done';
    if (happening.sort !== 'asked') return 'done';
    const test = unit.tests[happening.test];
    if ('test' in now && now.test.id !== test?.name) {
        throw new Error(`${now.test.id} is asked, not ${test?.name ?? ''}.`);
    }
    return test?.outcomes[happening.outcome] ?? '';
}
