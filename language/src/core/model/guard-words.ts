// Guards as the author writes them, for messages.

import type { ChoiceExpression } from './guards.js';

/** A guard as text: `bag and not (single-phase or three-phase)`. */
export function guardText(expression: ChoiceExpression, within?: 'all' | 'not'): string {
    switch (expression.sort) {
        case 'choice':
            return expression.member ? `${expression.choice.text}.${expression.member.text}` : expression.choice.text;
        case 'not':
            return `not ${guardText(expression.operand, 'not')}`;
        default: {
            const word = expression.sort === 'all' ? ' and ' : ' or ';
            const text = expression.operands.map(operand => guardText(operand, 'all')).join(word);
            const isLoose = within === undefined || (within === 'all' && expression.sort === 'all');
            return isLoose ? text : `(${text})`;
        }
    }
}
