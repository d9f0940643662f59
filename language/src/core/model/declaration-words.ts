// What a declaration is called in the writer's words.

import type { Declaration } from './file.js';

/** The noun for a declaration: `part`, `step`, `choice`. */
export function nounFor(declaration: Declaration): string {
    return nouns[declaration.sort] ?? declaration.sort;
}

// Only where the model's word is not the writer's.
const nouns: Readonly<Partial<Record<Declaration['sort'], string>>> = {
    'choice-declared': 'choice',
    value: 'value',
    place: 'label',
    subject: 'subject',
};
