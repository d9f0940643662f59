// Two declarations with one name in one list: only the first can be named.

import type { Mend } from '../../core/findings/finding.js';
import { defineRule, type FindingExtras } from '../../core/findings/rule.js';
import { relativePath } from '../../core/linking/paths.js';
import { nounFor } from '../../core/model/declaration-words.js';
import type { FileId, Span } from '../../core/model/written.js';
import { type TakenName, takenNamesOf } from '../../core/questions/taken-names.js';
import { quoteName, withArticle } from '../../core/text/words.js';

export default defineRule({
    code: 'name-taken',
    since: '0.1.0',
    severity: 'error',
    group: 'names',
    cost: 'fast',
    messages: {
        within: 'The name {name} is taken: {within} has {sort} of this name already.',
        file: 'The name {name} is taken: this file has {sort} of this name already.',
        other: 'The name {name} is taken: {path}, which this file sees, has {sort} of this name already.',
        meeting: 'This file sees two declarations of {sort} {name}: one in {first} and one in {path}.',
    },
    check(model, file, report) {
        const fileModel = model.files.get(file);
        if (!fileModel) return;
        for (const taken of takenNamesOf(fileModel, model)) {
            const { first, later, place } = taken;
            report(
                messageFor(taken),
                place,
                {
                    name: quoteName(taken.name),
                    within: taken.within,
                    sort: taken.used ? nounFor(first) : withArticle(nounFor(first)),
                    first: quoteName(relativePath(file, first.file)),
                    path: quoteName(relativePath(file, taken.used ? later.file : first.file)),
                },
                extrasFor(taken, file),
            );
        }
    },
});

function messageFor({ within, used, first, place }: TakenName): 'within' | 'file' | 'other' | 'meeting' {
    if (used) return 'meeting';
    if (within !== '') return 'within';
    return first.file === place.file ? 'file' : 'other';
}

function extrasFor(taken: TakenName, file: FileId): FindingExtras {
    const { first, later, used } = taken;
    const related = [{ ...nameSpan(first), text: 'the name stands here first' }];
    if (used) {
        return {
            related: [...related, { ...nameSpan(later), text: 'and here again' }],
            advice: 'Give one of them another name, or use only one of the two files.',
        };
    }
    return { related, advice: 'Give one of the two another name.', mends: [renaming(taken, file)] };
}

/** Another name for the later one; what refers to it must be looked at by a person. */
function renaming({ name, names, place }: TakenName, file: FileId): Mend {
    let number = 2;
    while (names.has(`${name}-${number}`)) number++;
    const text = `${name}-${number}`;
    return {
        title: `Call this one \`${text}\``,
        safety: 'suggestion',
        edits: [{ file, start: place.start, end: place.end, text }],
    };
}

function nameSpan(declaration: TakenName['first']): Span {
    const { file, start, end } = declaration.sort === 'subject' ? declaration : declaration.name;
    return { file, start, end };
}
