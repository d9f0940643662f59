// One line of a card, with what marks it: a signal word, a hazard that is met, or what a gate does.

import type { SignalWord } from '../core/model/remarks.js';

export interface CardLine {
    readonly text: string;
    /** Undefined for what is only done or asked. The text says the same as the mark, for everybody who cannot see it. */
    readonly mark: Mark | undefined;
}

export type Mark = SignalWord | 'hazard' | 'gate closed' | 'gate restored' | 'work permitted';

export function plainLine(text: string): CardLine {
    return { text, mark: undefined };
}
