// The small signs before the lines of a card, drawn as paths, and the colors of what they mark.

import type { Mark } from './card-lines.js';
import { round, tag } from './svg-text.js';

/** How a marked line looks. `fill` and `line` are those of the box around it; without them it has none. */
export interface MarkLook {
    readonly text: string;
    readonly weight: number;
    readonly fill: string | undefined;
    readonly line: string;
}

// Text and ground differ by at least 7 to 1 (WCAG 2.2, 1.4.6), whatever is around the drawing: it brings its own ground.
export const markLooks: Readonly<Record<Mark, MarkLook>> = {
    danger: { text: '#7d0c0c', weight: 600, fill: '#fdeceb', line: '#b3261e' },
    warning: { text: '#6b3500', weight: 600, fill: '#fff1e0', line: '#b35900' },
    caution: { text: '#544200', weight: 600, fill: '#fff9d6', line: '#8a6d00' },
    notice: { text: '#173f75', weight: 600, fill: '#e8f1fb', line: '#2a5d9f' },
    hazard: { text: '#33424e', weight: 400, fill: undefined, line: '#33424e' },
    'gate closed': { text: '#14212b', weight: 600, fill: undefined, line: '#14212b' },
    'gate restored': { text: '#14212b', weight: 600, fill: undefined, line: '#14212b' },
    'work permitted': { text: '#7d0c0c', weight: 600, fill: undefined, line: '#7d0c0c' },
};

/** The width that a sign takes before its text. */
export const signWidth = 20;

/** The sign of a mark, 13 wide and high, with its left lower corner at a place; nothing for a notice, which is about no injury. */
export function drawSign(mark: Mark, x: number, y: number): readonly string[] {
    const stroke = markLooks[mark].line;
    const line = { fill: 'none', stroke, 'stroke-width': 1.5, 'stroke-linejoin': 'round', 'stroke-linecap': 'round' };
    const at = `M${round(x)} ${round(y)}`;
    switch (mark) {
        case 'danger':
        case 'warning':
        case 'caution':
        case 'hazard':
            // The safety alert symbol: an exclamation mark in a triangle (ANSI Z535.4).
            return [
                tag('path', { d: `${at}h13l-6.5 -12z`, ...line }),
                tag('path', { d: `M${round(x + 6.5)} ${round(y - 7.5)}v3.2m0 2v.4`, ...line }),
            ];
        case 'notice':
            return [];
        case 'gate closed':
            return [
                tag('path', { d: `${at}h12v-7h-12z`, fill: stroke }),
                tag('path', { d: `M${round(x + 2.5)} ${round(y - 7)}v-2a3.5 3.5 0 0 1 7 0v2`, ...line }),
            ];
        case 'gate restored':
            return [
                tag('path', { d: `${at}h12v-7h-12z`, ...line }),
                tag('path', { d: `M${round(x + 2.5)} ${round(y - 7)}v-3a3.5 3.5 0 0 1 6.5 -1.5`, ...line }),
            ];
        case 'work permitted':
            return [tag('path', { d: `M${round(x + 8)} ${round(y - 13)}l-6 7.5h4l-2 5.5l7 -8h-4z`, fill: stroke })];
    }
}
