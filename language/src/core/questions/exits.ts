// Whether every step leads on: by a question, `go`, `follow` or `continue with`, in every build that has the step.

import type { ChoiceCondition } from '../builds/evaluate.js';
import type { FileModel } from '../model/file.js';
import type { Model } from '../model/model.js';
import type { Procedure, Statement, Step, Tree } from '../model/trees.js';
import { equipmentOf } from './answers.js';
import { conditionsOf, gaveUp, searchBuilds, type WitnessBuild } from './builds.js';
import { oncePerFile } from './remember.js';

/** A step that ends nowhere. */
export interface EndlessStep {
    readonly owner: Tree | Procedure;
    readonly step: Step;
    /** A build that it leaves nowhere; undefined where it has no exit at all. */
    readonly build: WitnessBuild | undefined;
    /** What holds in such a build: the guards on the way, and none of the exits'. */
    readonly asked: readonly ChoiceCondition[];
}

export interface ExitFacts {
    readonly endless: readonly EndlessStep[];
    /** Steps where the search for such a build gave up. */
    readonly undecided: readonly Step[];
}

/** The steps of a file that lead nowhere. */
export const exitFactsOf = oncePerFile(findExits);

/** Whether a statement leads out of its step. */
export function isExit(statement: Statement): boolean {
    return exitSorts.has(statement.sort);
}

function isExitForAll(statement: Statement | undefined): boolean {
    return statement !== undefined && !statement.guard && isExit(statement);
}

const exitSorts: ReadonlySet<Statement['sort']> = new Set(['ask', 'confirm', 'follow', 'go', 'continue']);

function findExits(file: FileModel, model: Model): ExitFacts {
    const endless: EndlessStep[] = [];
    const undecided: Step[] = [];
    for (const owner of [...file.trees, ...file.procedures]) {
        for (const step of owner.steps) {
            // Nearly every step ends with an exit for all builds.
            if (isExitForAll(step.statements.at(-1))) continue;
            const exits = step.statements.filter(isExit);
            if (exits.some(isExitForAll)) continue;
            if (exits.length === 0) {
                endless.push({ owner, step, build: undefined, asked: [] });
                continue;
            }
            const equipment = equipmentOf(owner, model);
            const outer = conditionsOf([owner.guard, step.guard], model, equipment);
            const guards = conditionsOf(
                exits.map(exit => exit.guard),
                model,
                equipment,
            );
            if (!outer || !guards) continue;
            const none = guards.map(operand => ({ sort: 'not', operand }) as const);
            const asked = [...outer, ...none];
            const search = searchBuilds(equipment, model, asked);
            if (search.sort === 'found') endless.push({ owner, step, build: search.build, asked });
            else if (gaveUp(search, equipment, model)) undecided.push(step);
        }
    }
    return { endless, undecided };
}
