/** Checks what the statements of a step become in the model. */
import { expect, test } from 'vitest';
import type { Branch, Statement } from '../../language/src/core/model/trees.js';
import { lowerWhole } from '../support/lower.js';

const inStep = (text: string) => `tree t of e { step s { ${text} } }`;

function statementsOf(text: string): readonly Statement[] {
    return lowerWhole(inStep(text)).model.trees[0]?.steps[0]?.statements ?? [];
}

function branchWords(branch: Branch): string {
    const from = branch.cannotBeRead ? 'unread' : branch.otherwise ? 'otherwise' : '';
    return `${from}${branch.outcomes.map(({ text }) => text).join()} -> ${branch.target.text}`;
}

test('statements stay in their order, acceptances apart', () => {
    const text = inStep(
        'note "n" do "d" gate g wait 1 min restore g accept long-step test t for a { low -> b } danger "x" go c',
    );
    const step = lowerWhole(text).model.trees[0]?.steps[0];
    expect(step?.statements.map(({ sort }) => sort)).toEqual([
        'note',
        'do',
        'gate-used',
        'wait',
        'restore',
        'ask',
        'safety',
        'go',
    ]);
    expect(step?.acceptances.map(({ code }) => code.text)).toEqual(['long-step']);
});

test('a test has its branches and the place of its braces', () => {
    const written = 'test t { low, high -> a  otherwise -> b  cannot be read -> c }';
    const [ask] = statementsOf(written);
    if (ask?.sort !== 'ask') throw new Error('The step has another statement.');
    expect(ask.branches.map(branchWords)).toEqual(['low,high -> a', 'otherwise -> b', 'unread -> c']);
    expect(inStep(written).slice(ask.block?.start, ask.block?.end)).toBe(written.slice(7));
});

test('a test without braces has no place for branches', () => {
    const [ask] = statementsOf('test t');
    expect(ask?.sort === 'ask' && ask.block).toBeUndefined();
});

test('the short form of `confirm` has one branch, with its guard on the whole', () => {
    const [confirm] = statementsOf('confirm t normal, low -> a for b');
    if (confirm?.sort !== 'confirm') throw new Error('The step has another statement.');
    expect([confirm.short, confirm.branches.map(branchWords)]).toEqual([true, ['normal,low -> a']]);
    expect([confirm.guard?.sort, confirm.branches[0]?.guard]).toEqual(['choice', undefined]);
});

test('the long form of `confirm` has the branches that are written', () => {
    const [confirm] = statementsOf('confirm t { normal -> a  low -> b }');
    if (confirm?.sort !== 'confirm') throw new Error('The step has another statement.');
    expect([confirm.short, confirm.branches.map(branchWords)]).toEqual([false, ['normal -> a', 'low -> b']]);
});

test('`sets` can name several conditions', () => {
    const [statement] = statementsOf('do "x" sets a on and b off sets c shut');
    if (statement?.sort !== 'do') throw new Error('The step has another statement.');
    expect(statement.settings.map(({ condition, value }) => `${condition.text} ${value.text}`)).toEqual([
        'a on',
        'b off',
        'c shut',
    ]);
});

test('a text of several lines has its value without quotes and indentation', () => {
    const [statement] = statementsOf('do """\n      Turn it off.\n      Wait.\n      """');
    expect(statement?.sort === 'do' && statement.text.value).toBe('Turn it off.\nWait.');
});

test('how a hazard goes is read from its words', () => {
    const text =
        'equipment e { hazard h { stored 1 µF runs down in 1 s cools in 2 s discharges in 3 s settles in 4 s } }';
    expect(lowerWhole(text).model.equipment[0]?.hazards[0]?.runDowns.map(({ manner }) => manner)).toEqual([
        'runs down',
        'cools',
        'discharges',
        'settles',
    ]);
});

test('comments between the words change nothing', () => {
    const plain = 'equipment e { part p is k "Pump" in z for a { fault f stops } }';
    const commented = plain.replaceAll(' ', ' /* x */ ');
    const words = (text: string) => {
        const part = lowerWhole(text).model.equipment[0]?.parts[0];
        const places = [part?.name, part?.kind, part?.title, part?.zones[0], part?.guard, part?.faults[0]?.name];
        return places.map(place => text.slice(place?.start, place?.end));
    };
    expect(words(commented)).toEqual(words(plain));
});
