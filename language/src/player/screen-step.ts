// A step as it is to be seen: its statements in order, what comes now, and how that is answered.

import type { Statement } from '../document/types.js';
import { hazardOf } from './state.js';
import { type AtStep, meantIn } from './session.js';
import {
    type CautionView,
    energyTitle,
    type GateView,
    inBuild,
    made,
    type RemarkView,
    type SafetyView,
    viewCautions,
    viewGate,
    type Viewing,
    viewRemark,
    viewSafety,
    viewStatements,
} from './screen-parts.js';
import { type TestView, viewTest } from './screen-test.js';

export interface StepView {
    readonly step: { readonly id: string; readonly title: string };
    /** The procedure that is being followed, and what `it` is there. */
    readonly procedure?: {
        readonly id: string;
        readonly title: string;
        readonly subject?: string;
        readonly about?: string;
    };
    /** What can hurt here, to be shown before the work. */
    readonly cautions: readonly CautionView[];
    readonly safety: readonly SafetyView[];
    readonly statements: readonly StatementView[];
    /** How the statement that comes now is answered: words, `reading` for a number, `outcome` for an outcome of its test. */
    readonly answers: readonly string[];
}

export type When = 'done' | 'now' | 'later';

export type StatementView = { readonly when: When } & (
    | {
          readonly type: 'do';
          readonly text: string;
          readonly takes?: string;
          readonly parts: readonly string[];
          readonly safety: readonly SafetyView[];
      }
    | {
          readonly type: 'wait';
          readonly time: string;
          readonly text?: string;
          /** The hazard that is waited for, and what is said of it. */
          readonly hazard?: string;
          readonly runsDown: readonly { readonly manner: string; readonly time: string }[];
      }
    | { readonly type: 'gate' | 'restore'; readonly gate: GateView }
    | { readonly type: 'read' | 'test' | 'confirm'; readonly test: TestView }
    | { readonly type: 'remark'; readonly remark: RemarkView }
    | { readonly type: 'safety'; readonly safety: SafetyView }
);

/** The step with everything that the build has of it. */
export function viewStep(at: AtStep, viewing: Viewing): StepView {
    const { step, frame } = at;
    const { tree, words } = viewing;
    const beware = viewCautions(step.cautions, frame.subject, viewing);
    const { owner, subject } = frame;
    const about =
        subject === undefined ? undefined : words.title(tree.tests.get(subject) ?? tree.parts.get(subject), subject);
    return made<StepView>({
        step: { id: step.id, title: words.title(step) },
        procedure:
            frame.caller &&
            made<NonNullable<StepView['procedure']>>({ id: owner.id, title: words.title(owner), subject, about }),
        cautions: beware.cautions,
        safety: beware.safety,
        statements: inOrder(at, viewing),
        answers: answersOf(step.statements[at.statement], at, viewing),
    });
}

function inOrder(at: AtStep, viewing: Viewing): readonly StatementView[] {
    return at.step.statements.flatMap((statement, index): readonly StatementView[] => {
        if (!viewing.builds.holds('guard' in statement ? statement.guard : undefined)) return [];
        const when = index < at.statement ? 'done' : index === at.statement ? 'now' : 'later';
        if (statement.type !== 'read') return viewStatement(statement, when, at, viewing) ?? [];
        return statement.tests.flatMap((id, reading) => {
            const test = viewing.tree.tests.get(meantIn(at.frame, id));
            if (!test || !viewing.builds.holds(test.guard)) return [];
            const its = when !== 'now' || reading === at.reading ? when : reading < at.reading ? 'done' : 'later';
            return [{ when: its, type: 'read' as const, test: viewTest(test, its === 'now', at.frame, viewing) }];
        });
    });
}

function viewStatement(
    statement: Exclude<Statement, { type: 'read' }>,
    when: When,
    at: AtStep,
    viewing: Viewing,
): readonly StatementView[] | undefined {
    const { builds } = viewing;
    switch (statement.type) {
        case 'do':
            return [viewDo(statement, when, at, viewing)];
        case 'wait':
            return [viewWait(statement, when, viewing)];
        case 'gate':
        case 'restore': {
            const gate = viewing.tree.gates.get(statement.gate);
            if (!gate || !builds.holds(gate.guard)) return undefined;
            return [{ when, type: statement.type, gate: viewGate(gate, statement.type === 'restore', viewing) }];
        }
        case 'test':
        case 'confirm': {
            const test = viewing.tree.tests.get(meantIn(at.frame, statement.test));
            return test && [{ when, type: statement.type, test: viewTest(test, when === 'now', at.frame, viewing) }];
        }
        case 'safety':
            return [{ when, type: 'safety', safety: viewSafety(statement, viewing) }];
        case 'note':
        case 'picture':
        case 'see':
            return [{ when, type: 'remark', remark: viewRemark(statement, viewing) }];
        default:
            return undefined;
    }
}

function viewDo(
    action: Extract<Statement, { type: 'do' }>,
    when: When,
    { frame }: AtStep,
    viewing: Viewing,
): StatementView {
    const { words } = viewing;
    const touched = [...(action.at === undefined ? [] : [action.at]), ...(action.replaces ?? [])];
    const parts = [...new Set(touched.map(id => meantIn(frame, id)))].flatMap(id => viewing.tree.parts.get(id) ?? []);
    return made<StatementView & { type: 'do' }>({
        when,
        type: 'do',
        text: words.of(action.text),
        takes: action.takes?.display,
        parts: parts.map(part => words.title(part)),
        safety: parts.flatMap(part => viewStatements(part.safety, viewing)),
    });
}

function viewWait(wait: Extract<Statement, { type: 'wait' }>, when: When, viewing: Viewing): StatementView {
    const { untilSafe } = wait;
    const hazard = untilSafe === undefined ? undefined : viewing.tree.hazards.get(hazardOf(untilSafe, viewing.tree));
    return made<StatementView & { type: 'wait' }>({
        when,
        type: 'wait',
        time: wait.time.display,
        text: viewing.words.optional(wait.text),
        hazard: untilSafe === undefined ? undefined : energyTitle(untilSafe, viewing),
        runsDown: inBuild(hazard?.runDowns, viewing).map(({ manner, time }) => ({ manner, time: time.display })),
    });
}

function answersOf(statement: Statement | undefined, at: AtStep, viewing: Viewing): readonly string[] {
    switch (statement?.type) {
        case 'do':
        case 'wait':
        case 'gate':
        case 'restore':
            return ['done', 'cannot be done'];
        case 'read':
            return ['reading', 'done', 'cannot be read'];
        case 'test':
        case 'confirm': {
            const test = viewing.tree.tests.get(meantIn(at.frame, statement.test));
            const hasNumber = test?.methods.some(({ type }) => type === 'measure' || type === 'calculate') ?? false;
            return [...(hasNumber ? ['reading'] : []), 'outcome', 'cannot be read'];
        }
        default:
            return ['done'];
    }
}
