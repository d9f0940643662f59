// Says where a statement may go on on a new line.

import { wordAt } from './flat.js';
import type { Item, LayoutTree, Word } from './layout-tree.js';

/** Inside a clause: used only where the clause is too long for a line. */
export const smallBreak = 1;

/** Before a clause, before an arrow of a flow, between the members of a list that is the whole statement. */
export const clauseBreak = 2;

/** Whether a line may break before each word of an item's heading, by the word's place in it: 0, `smallBreak` or `clauseBreak`. */
export function breaksOf(tree: LayoutTree, item: Item, end: number): readonly number[] {
    const breaks: number[] = [];
    const afterText = mainTextOf(tree, item, end);
    const isList = lists.has(item.rule);
    let depth = 0;
    for (let index = item.first; index < end; index += 1) {
        const word = wordAt(tree, index);
        const clause = depth === 0 && beginsClause(item, word);
        const afterComma = index > item.first && wordAt(tree, index - 1).type === ',';
        const joint = !word.isName && joints.has(word.type);
        const heading = index <= afterText;
        const strong = isList ? afterComma && depth === 0 : clause && !heading;
        const weak = afterComma || (!heading && (clause || joint));
        breaks.push(strong ? clauseBreak : weak ? smallBreak : 0);
        depth += depthChange(word);
    }
    return breaks;
}

// The text that a statement is about stays on its first line; what follows `because` is a clause of its own.
function mainTextOf(tree: LayoutTree, item: Item, end: number): number {
    for (let index = item.first + 1; index < end; index += 1) {
        if (wordAt(tree, index).type === 'TEXT') {
            return wordAt(tree, index - 1).type === 'because' ? item.first : index;
        }
    }
    return item.first;
}

function depthChange({ type }: Word): number {
    if (type === '(' || type === '[') {
        return 1;
    }
    return type === ')' || type === ']' ? -1 : 0;
}

/** Whether a word begins a clause of an item's heading. */
export function beginsClause(item: Item, word: Word): boolean {
    if (word.isName) {
        return false;
    }
    // A flow reads along its arrows: what belongs to a place stays beside it.
    return item.rule === 'Flow' ? flowBreaks.has(word.type) : clauseWords.has(word.type);
}

/** The words with which the clauses of headings and statements begin. */
export const clauseWords: ReadonlySet<string> = new Set([
    'about',
    'accuracy',
    'after',
    'at',
    'because',
    'bypasses',
    'cannot',
    'carries',
    'clears',
    'comes',
    'costs',
    'duty',
    'feeds',
    'for',
    'from',
    'in',
    'is',
    'loads',
    'mistaken',
    'of',
    'only',
    'proved',
    'raises',
    'rate',
    'replaces',
    'resolution',
    'sets',
    'share',
    'shorts',
    'shows',
    'stops',
    'takes',
    'through',
    'under',
    'unless',
    'until',
    'using',
    'weakens',
    'when',
    'while',
    'with',
    'within',
]);

// Statements that are a list: what a member of it carries stays beside it.
const lists = new Set(['Causes', 'Checks', 'Controls', 'Exposes', 'Needs', 'Permits', 'ScenarioBuild']);

const flowBreaks = new Set(['->', 'feeds']);

const joints = new Set(['or', 'and', 'with', '->', '..', '+', '-', '−', '*', '×', '/', '÷']);
