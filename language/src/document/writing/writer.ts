// What every part of the writing shares: the model, the ids of shared things, and what could not be written.

import type { Choice, Equipment, Kind, Option, Part, Supply } from '../../core/model/equipment.js';
import type { Declaration } from '../../core/model/file.js';
import type { Model } from '../../core/model/model.js';
import type { End, Step } from '../../core/model/trees.js';
import type { Prose, Reference, Span, Word } from '../../core/model/written.js';
import type { Caution, Text } from '../types.js';

/** Why a tree could not be written, with the place in the source. Verification reports the same as findings of its own. */
export interface WritingProblem extends Span {
    /** One sentence in the writer's words. */
    readonly message: string;
}

/** What the writing of one tree shares. `problems` is the only thing that changes. */
export interface Writer {
    readonly model: Model;
    readonly equipment: Equipment;
    readonly optionOfChoice: ReadonlyMap<Choice, Option>;
    /** The locale that the author writes in. */
    readonly locale: string;
    /** Ids of what can come from several files and so can have the same name. */
    readonly sharedIds: ReadonlyMap<Declaration, string>;
    /** The part whose faults and tests are written, with its kind; names without an owner belong to it. */
    readonly within: PartWithKind | undefined;
    /** What can hurt at each step and end; nothing stands here for those where nothing can. */
    readonly cautions: ReadonlyMap<Step | End, readonly Caution[]>;
    /** Picture files that were written, relative to the workspace. */
    readonly pictures: Set<string>;
    readonly problems: WritingProblem[];
}

export interface PartWithKind {
    readonly part: Part | Supply;
    readonly kind: Kind | undefined;
}

/** An object as it is built: every property is named, and those that may be left out may be undefined. */
export type Fields<T> = { readonly [K in keyof T]-?: object extends Pick<T, K> ? T[K] | undefined : T[K] };

/** The object without the properties that are undefined, in the same order. */
export function made<T extends object>(fields: Fields<T>): T {
    return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined)) as T;
}

/** The list, or undefined where it is empty and so is left out. */
export function some<T>(list: readonly T[]): readonly T[] | undefined {
    return list.length === 0 ? undefined : list;
}

/** Only what is there: for lists of which some entries could not be written. */
export function present<T>(list: readonly (T | undefined)[]): readonly T[] {
    return list.filter((entry): entry is T => entry !== undefined);
}

export function report(writer: Writer, place: Span, message: string): void {
    writer.problems.push({ file: place.file, start: place.start, end: place.end, message });
}

/** Prose by locale. A character that is half of a pair alone cannot be written in JSON that others read, so it becomes U+FFFD. */
export function writeText(writer: Writer, prose: Prose): Text {
    return { [writer.locale]: prose.value.replace(halfPair, '\uFFFD') };
}

export function writeOptionalText(writer: Writer, prose: Prose | undefined): Text | undefined {
    return prose && writeText(writer, prose);
}

const halfPair = /[\uD800-\uDBFF](?![\uDC00-\uDFFF])|(?<![\uD800-\uDBFF])[\uDC00-\uDFFF]/g;

export function writeWords(words: readonly Word[]): readonly string[] {
    return words.map(word => word.text);
}

/** What a reference leads to; where it leads nowhere, that is a problem. */
export function find(writer: Writer, reference: Reference): Declaration | undefined {
    const target = writer.model.target(reference);
    if (!target) report(writer, reference, `There is nothing called \`${reference.text}\`.`);
    return target;
}

/** The name of what a reference leads to, which is its id. */
export function writeId(writer: Writer, reference: Reference): string {
    const target = find(writer, reference);
    return (target && writer.sharedIds.get(target)) ?? reference.text;
}

export function writeIds(writer: Writer, references: readonly Reference[]): readonly string[] {
    return references.map(reference => writeId(writer, reference));
}
