// Remembers answers beside the model values that they are about, so that several rules share one piece of work.

import type { FileModel } from '../model/file.js';
import type { Model } from '../model/model.js';

/** Makes a question about the whole workspace that is worked out once for each model. */
export function oncePerModel<T>(answer: (model: Model) => T): (model: Model) => T {
    const known = new WeakMap<Model, { readonly answer: T }>();
    return model => {
        let entry = known.get(model);
        if (!entry) {
            entry = { answer: answer(model) };
            known.set(model, entry);
        }
        return entry.answer;
    };
}

/** Makes a question about one file that is worked out once for each model: links may change where the file does not. */
export function oncePerFile<T>(answer: (file: FileModel, model: Model) => T): (file: FileModel, model: Model) => T {
    const answersOf = oncePerModel(() => new Map<FileModel, { readonly answer: T }>());
    return (file, model) => {
        const answers = answersOf(model);
        let entry = answers.get(file);
        if (!entry) {
            entry = { answer: answer(file, model) };
            answers.set(file, entry);
        }
        return entry.answer;
    };
}
