// The names that may be written at a place: found by putting a name there, reading the file and asking the linker.

import { builtInFunctions, fittingNames, type LinkSources } from '../core/linking/linker.js';
import { namesOfEquipment } from '../core/linking/names.js';
import { type Context, scopeOf } from '../core/linking/scope.js';
import type { Declaration } from '../core/model/file.js';
import type { Reference } from '../core/model/written.js';
import type { ExpectedLevel } from '../lower/parse/expected-words.js';
import { stepsOf } from './grammar-position.js';
import type { ReadFile } from './rename-trial.js';
import type { Located } from './workspaces.js';

/** A name that fits; without a declaration it is a function that the language brings. */
export interface NameCandidate {
    readonly name: string;
    readonly declaration: Declaration | undefined;
}

/** The stretch of the word that is being written; empty between words. */
export interface WrittenWord {
    readonly start: number;
    readonly end: number;
}

/** Long enough that nobody has it. */
const standIn = 'name-that-is-being-written';

/** The names that fit, the nearest list first. */
export function namesFor(
    located: Located,
    word: WrittenWord,
    expected: readonly ExpectedLevel[],
    readFile: ReadFile,
): readonly NameCandidate[] {
    const properties = new Set(
        stepsOf(expected).flatMap(({ thing }) =>
            thing.sort === 'name' && thing.of !== undefined ? [thing.property] : [],
        ),
    );
    if (properties.size === 0) return [];
    const variants = [standIn];
    if (properties.has('table')) variants.push(`${standIn} of ${standIn}`);
    if (properties.has('function')) variants.push(`${standIn}(${standIn})`);
    const candidates = new Map<string, NameCandidate>();
    for (const variant of variants) {
        for (const candidate of namesWith(located, word, variant, readFile)) {
            if (!candidates.has(candidate.name)) candidates.set(candidate.name, candidate);
        }
    }
    return [...candidates.values()];
}

function namesWith(located: Located, word: WrittenWord, written: string, readFile: ReadFile): NameCandidate[] {
    const { workspace, file, source } = located;
    const text = source.text.getText();
    const { model } = readFile(file, text.slice(0, word.start) + written + text.slice(word.end));
    const found: { readonly reference: Reference; readonly context: Context }[] = [];
    const sources = workspace.links.tryLinking(model, (reference, context) => {
        if (reference.start === word.start && reference.text === standIn) found.push({ reference, context });
    });
    return found.flatMap(({ reference, context }) => candidatesFor(reference, context, sources));
}

function candidatesFor({ role }: Reference, context: Context, sources: LinkSources): NameCandidate[] {
    if (role === 'choice') return choicesIn(context);
    const scope = scopeOf(role, context, sources);
    const candidates = fittingNames(scope)
        .filter(name => name !== standIn)
        .flatMap((name): NameCandidate[] => {
            const declaration = scope.lists.map(list => list.get(name)).find(one => one && scope.fits(one));
            return declaration && isWorthNaming(role, declaration) ? [{ name, declaration }] : [];
        });
    if (role === 'test') candidates.push(...testsOfParts(context, sources));
    const functions = role === 'table' ? builtInFunctions : [];
    return [...candidates, ...functions.map(name => ({ name, declaration: undefined }))];
}

/** The tests that parts have of their own or from their kinds, written with the part: `k1.coil-voltage`. */
function testsOfParts(context: Context, sources: LinkSources): NameCandidate[] {
    const { equipment } = context;
    return [...(equipment?.parts ?? []), ...(equipment?.supplies ?? [])].flatMap(part => {
        const scope = scopeOf('test-of-part', { ...context, of: part }, sources);
        return fittingNames(scope).map(name => ({
            name: `${part.name.text}.${name}`,
            declaration: scope.lists.map(list => list.get(name)).find(one => one !== undefined),
        }));
    });
}

// Of all tests only one that remembers can be cleared like a fault.
function isWorthNaming(role: Reference['role'], declaration: Declaration): boolean {
    return role !== 'fault' || declaration.sort !== 'test' || declaration.remembers !== undefined;
}

// A choice that two options have is written with its option.
function choicesIn({ equipment }: Context): NameCandidate[] {
    if (!equipment) return [];
    const { choices, optionOfChoice } = namesOfEquipment(equipment);
    return [...choices].flatMap(([name, same]) =>
        same.map(choice => {
            const option = optionOfChoice.get(choice)?.name.text ?? '';
            return { name: same.length > 1 ? `${option}.${name}` : name, declaration: choice };
        }),
    );
}
