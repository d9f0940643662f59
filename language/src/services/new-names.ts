// What may be written as a new name: the form of names, and the words of the language that are names as well.

import { GrammarAST, GrammarUtils } from 'langium';
import type { Declaration } from '../core/model/file.js';
import { wordsAsNames } from '../lower/parse/name-rules.js';
import { keywordsOf } from './keywords.js';

export interface NewNames {
    /** Whether a text has the form of a name. */
    isName(text: string): boolean;
    /** Whether a text is a word of the language that cannot be the name of such a declaration. */
    isReserved(text: string, sort: Declaration['sort']): boolean;
}

/** Steps and ends have more words to choose from than other declarations. */
const stepSorts: ReadonlySet<Declaration['sort']> = new Set(['step', 'conclusion', 'referral', 'result']);

/** Reads out of the grammar what a name may be. */
export function readNewNames(grammar: GrammarAST.Grammar): NewNames {
    const words = new Set(keywordsOf(grammar));
    const rule = (name: string): GrammarAST.AbstractRule | undefined => grammar.rules.find(one => one.name === name);
    const [names, stepNames] = [wordsAsNames(rule('Name')), wordsAsNames(rule('StepName'))];
    const terminal = rule('ID');
    const form = GrammarAST.isTerminalRule(terminal) ? GrammarUtils.terminalRegex(terminal) : /(?!)/;
    const whole = new RegExp(`^(?:${form.source})$`, form.flags.replace('g', ''));
    return {
        isName: text => whole.test(text),
        isReserved: (text, sort) => words.has(text) && !(stepSorts.has(sort) ? stepNames : names)?.has(text),
    };
}
