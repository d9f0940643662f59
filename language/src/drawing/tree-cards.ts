// What is drawn of a tree: a card for each step and end, and a pointer where a branch leads to a card drawn elsewhere.

import type { FaultReference } from '../core/model/equipment.js';
import type { ChoiceExpression } from '../core/model/guards.js';
import type { Model } from '../core/model/model.js';
import type { TestReference } from '../core/model/tests.js';
import type { Ask, Branch, Conclusion, Confirm, Follow, Handover, Referral, Step, Tree } from '../core/model/trees.js';
import type { Reference } from '../core/model/written.js';
import { listOf } from '../core/text/words.js';
import { type CardCautions, cautionsOfCards, statementsIn } from './card-cautions.js';
import { type CardLine, plainLine } from './card-lines.js';

/** One card of the drawing, as plain texts. */
export interface Card {
    readonly sort: 'step' | 'conclusion' | 'referral' | 'pointer';
    /** What stands above the title: `Step 3`, `Conclusion`, `Go to step 7`. */
    readonly label: string;
    readonly title: string;
    /** What to beware of, then what is done and asked, one entry a line. */
    readonly lines: readonly CardLine[];
    /** Where it leads on, from left to right. */
    readonly ports: readonly Port[];
    readonly depth: number;
}

/** One way out of a card: the answer, and the number of the card that it leads to. */
export interface Port {
    readonly label: string;
    readonly card: number;
}

/**
 * The cards of a tree, the parents before what they lead to; each card but the first of its group has exactly one parent.
 * Steps and ends that no branch leads to form groups of their own. `roots` are the first cards of the groups.
 */
export interface Cards {
    readonly cards: readonly Card[];
    readonly roots: readonly number[];
}

/** Makes the cards. What leads nowhere, as in a half-written file, becomes a pointer that says so. */
export function makeCards(tree: Tree, model: Model): Cards {
    const making: Making = {
        tree,
        model,
        cautions: cautionsOfCards(tree, model),
        numbers: numberSteps(tree),
        cards: [],
        drawn: new Map(),
    };
    const { cards, drawn } = making;
    const roots: number[] = [];
    for (const start of [...tree.steps, ...tree.conclusions, ...tree.referrals]) {
        if (drawn.has(start)) continue;
        roots.push(cards.length);
        addGroup(making, start);
    }
    return { cards, roots };
}

/** The title of a step or an end, or its name where it has no title. */
export function titleOf(declared: Drawn | Tree): string {
    return declared.title?.value.trim() || declared.name.text;
}

type Drawn = Step | Conclusion | Referral;

interface Making {
    readonly tree: Tree;
    readonly model: Model;
    readonly cautions: CardCautions;
    readonly numbers: StepNumbers;
    readonly cards: Card[];
    readonly drawn: Map<Drawn, number>;
}

/** Where a way out leads, before it is known which card that is. */
interface Exit {
    readonly label: string;
    readonly target: Drawn | { readonly pointer: string; readonly title: string };
}

/** Goes level by level, so that a card stands as near to the top as any branch allows. */
function addGroup(making: Making, start: Drawn): void {
    const waiting: { readonly drawn: Drawn; readonly depth: number; readonly at: number }[] = [];
    const reserve = (drawn: Drawn, depth: number): number => {
        const at = making.cards.length;
        making.cards.push(pointer('', '', depth));
        making.drawn.set(drawn, at);
        waiting.push({ drawn, depth, at });
        return at;
    };
    reserve(start, 0);
    for (const { drawn, depth, at } of waiting) {
        const ports = exitsOf(making, drawn).map(({ label, target }): Port => {
            if ('pointer' in target) {
                making.cards.push(pointer(target.pointer, target.title, depth + 1));
                return { label, card: making.cards.length - 1 };
            }
            if (!making.drawn.has(target)) return { label, card: reserve(target, depth + 1) };
            making.cards.push(pointer(`Go to ${describe(making.numbers, target)}`, titleOf(target), depth + 1));
            return { label, card: making.cards.length - 1 };
        });
        making.cards[at] = toCard(making, drawn, ports, depth);
    }
}

function pointer(label: string, title: string, depth: number): Card {
    return { sort: 'pointer', label, title, lines: [], ports: [], depth };
}

function describe(numbers: StepNumbers, drawn: Drawn): string {
    return drawn.sort === 'step' ? `step ${numbers.get(drawn) ?? 0}` : drawn.sort;
}

/** The steps are numbered in the order written. */
type StepNumbers = ReadonlyMap<Step, number>;

function numberSteps(tree: Tree): StepNumbers {
    return new Map(tree.steps.map((step, index) => [step, index + 1]));
}

function toCard(making: Making, drawn: Drawn, ports: readonly Port[], depth: number): Card {
    const { cautions, model, numbers } = making;
    const guard = drawn.guard ? [plainLine(`Only for ${guardText(drawn.guard)}`)] : [];
    if (drawn.sort === 'step') {
        const label = `Step ${numbers.get(drawn) ?? 0}`;
        const done = drawn.statements.flatMap(statement => statementLines(making, drawn, statement));
        const lines = [...guard, ...cautions.before(drawn, statementsIn(drawn)), ...done];
        return { sort: 'step', label, title: titleOf(drawn), lines, ports, depth };
    }
    const faults = drawn.faults.map(({ fault }) => faultText(model, fault));
    const wrong = drawn.stillWrong.map(handover => `Still wrong: go to ${placeText(making, handover)}`);
    const label = drawn.sort === 'conclusion' ? 'Conclusion' : 'Referral';
    const lines = [...guard, ...cautions.before(drawn, drawn.safety), ...[...faults, ...wrong].map(plainLine)];
    return { sort: drawn.sort, label, title: titleOf(drawn), lines, ports, depth };
}

/** What holds for the whole tree: where to go when something does not go as said. One entry a line. */
export function treeLines(tree: Tree, model: Model): readonly string[] {
    const making = { model, numbers: numberSteps(tree) };
    return [
        ...tree.cannot.map(
            handover =>
                `If ${handover.what === 'read' ? 'a test cannot be read' : 'an action cannot be done'}, go to ${placeText(making, handover)}.`,
        ),
        ...tree.stillWrong.map(
            handover => `If the complaint is still there after a repair, go to ${placeText(making, handover)}.`,
        ),
    ];
}

function placeText(making: Pick<Making, 'numbers' | 'model'>, { target, guard }: Handover): string {
    const found = findTarget(making, target);
    const place = 'pointer' in found ? found.title : `${describe(making.numbers, found)}, ${titleOf(found)}`;
    return withGuard(place, guard);
}

/** What is done; safety statements stand before all of it. */
function statementLines(making: Making, step: Step, statement: Step['statements'][number]): readonly CardLine[] {
    const gates = making.cautions.gates(step, statement);
    const isGate = statement.sort === 'gate-used' || statement.sort === 'restore';
    const own = isGate && gates.length > 0 ? [] : statementTexts(making, statement).map(plainLine);
    return [...own, ...gates];
}

function statementTexts(making: Making, statement: Step['statements'][number]): readonly string[] {
    switch (statement.sort) {
        case 'do':
            return [statement.text.value];
        case 'wait':
            return [`Wait ${statement.amount.written}${statement.text ? `: ${statement.text.value}` : ''}`];
        case 'gate-used':
            return [`Gate: ${titleOfTarget(making.model, statement.gate)}`];
        case 'restore':
            return [`End of gate: ${titleOfTarget(making.model, statement.gate)}`];
        case 'read':
            return statement.tests.map(test => `Read and note: ${testTitle(making.model, test)}`);
        case 'ask':
            return [`Test: ${testTitle(making.model, statement.test)}`];
        case 'confirm':
            return [`Confirm: ${testTitle(making.model, statement.test)}`];
        case 'follow':
            return [
                `Follow: ${titleOfTarget(making.model, statement.procedure)}${subjectText(making.model, statement)}`,
            ];
        default:
            return [];
    }
}

function subjectText(model: Model, { subject }: Follow): string {
    return subject === undefined ? '' : `, ${testTitle(model, subject)}`;
}

function exitsOf(making: Making, drawn: Drawn): readonly Exit[] {
    if (drawn.sort !== 'step') return [];
    const questions = drawn.statements.filter(
        statement => statement.sort === 'ask' || statement.sort === 'confirm' || statement.sort === 'follow',
    );
    return drawn.statements.flatMap(statement => {
        switch (statement.sort) {
            case 'ask':
            case 'confirm':
            case 'follow':
                return branchExits(making, statement, questions.length > 1);
            case 'do':
                return statement.cannot
                    ? [{ label: 'cannot be done', target: findTarget(making, statement.cannot) }]
                    : [];
            case 'go':
                return [{ label: withGuard('then', statement.guard), target: findTarget(making, statement.target) }];
            case 'continue': {
                const title = titleOfTarget(making.model, statement.tree);
                return [
                    { label: withGuard('then', statement.guard), target: { pointer: 'Continue with tree', title } },
                ];
            }
            default:
                return [];
        }
    });
}

/** One exit for each place that the branches lead to; several answers to the same place share it. */
function branchExits(making: Making, question: Ask | Confirm | Follow, named: boolean): readonly Exit[] {
    const exits = new Map<string, { readonly labels: string[]; readonly target: Exit['target'] }>();
    for (const branch of question.branches) {
        const key = branch.target.text;
        const exit = exits.get(key) ?? { labels: [], target: findTarget(making, branch.target) };
        exits.set(key, exit);
        exit.labels.push(branchLabel(making.model, branch));
    }
    const disagree = question.sort === 'confirm' && question.short ? making.tree.disagree : [];
    const prefix = named ? `${question.sort === 'follow' ? question.procedure.text : testName(question.test)}: ` : '';
    return [
        ...[...exits.values()].map(({ labels, target }) => ({ label: prefix + labels.join(', '), target })),
        ...disagree.map(({ target, guard }) => ({
            label: prefix + withGuard('otherwise', guard),
            target: findTarget(making, target),
        })),
    ];
}

function branchLabel(model: Model, branch: Branch): string {
    if (branch.cannotBeRead) return withGuard('cannot be read', branch.guard);
    if (branch.otherwise) return withGuard('otherwise', branch.guard);
    return withGuard(
        listOf(
            branch.outcomes.map(outcome => outcomeText(model, outcome)),
            'or',
        ),
        branch.guard,
    );
}

/** The outcome's name, with what the technician answers where that is something else. */
function outcomeText(model: Model, reference: Reference): string {
    const outcome = model.target(reference);
    const answer = outcome?.sort === 'outcome' ? outcome.answer?.value : undefined;
    return answer === undefined || answer === reference.text ? reference.text : `${reference.text} (${answer})`;
}

function findTarget({ model }: Pick<Making, 'model'>, reference: Reference): Exit['target'] {
    const target = model.target(reference);
    if (target?.sort === 'step' || target?.sort === 'conclusion' || target?.sort === 'referral') return target;
    return { pointer: 'There is no such step', title: reference.text };
}

function withGuard(label: string, guard: ChoiceExpression | undefined): string {
    return guard ? `${label}, for ${guardText(guard)}` : label;
}

/** A guard as the author would write it, with brackets where the parts are joined by other words. */
function guardText(guard: ChoiceExpression): string {
    switch (guard.sort) {
        case 'choice':
            return guard.member ? `${guard.choice.text}.${guard.member.text}` : guard.choice.text;
        case 'not':
            return `not ${bracketed(guard.operand)}`;
        default:
            return guard.operands.map(bracketed).join(guard.sort === 'all' ? ' and ' : ' or ');
    }
}

function bracketed(guard: ChoiceExpression): string {
    return guard.sort === 'all' || guard.sort === 'any' ? `(${guardText(guard)})` : guardText(guard);
}

function testName({ owner, test }: TestReference): string {
    return test ? `${owner.text}.${test.text}` : owner.text;
}

function testTitle(model: Model, reference: TestReference): string {
    const title = titleOfTarget(model, reference.test ?? reference.owner);
    // A test of a kind has the same title for every part of that kind.
    return reference.test ? `${titleOfTarget(model, reference.owner)}: ${title}` : title;
}

function faultText(model: Model, { owner, fault }: FaultReference): string {
    const part = titleOfTarget(model, owner);
    return fault ? `${part}: ${titleOfTarget(model, fault)}` : part;
}

function titleOfTarget(model: Model, reference: Reference): string {
    const target = model.target(reference);
    const title = target && 'title' in target ? target.title?.value.trim() : undefined;
    return title || reference.text;
}
