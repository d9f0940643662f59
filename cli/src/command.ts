// How a verb of the command line is declared: its words for people, its options, and what it does.

import type { Io } from './io.js';

/** One option of a verb. */
export interface Option {
    /** What the value stands for in the help, such as `FOLDER`; an option without one is a switch. */
    readonly value?: string;
    /** The only values that are allowed, where there are few. */
    readonly values?: readonly string[];
    /** Whether it may be given several times. */
    readonly several?: boolean;
    /** One line for the help. */
    readonly summary: string;
}

/** What was written behind a verb. */
export interface Words {
    /** Everything that is no option, in order. */
    readonly operands: readonly string[];
    /** The value of an option that takes one. */
    value(option: string): string | undefined;
    /** Every value of an option that may be given several times, in order. */
    values(option: string): readonly string[];
    /** Whether a switch was given. */
    has(option: string): boolean;
}

export interface Command {
    readonly name: string;
    /** One line for the list of verbs. */
    readonly summary: string;
    /** How it is called, one line for each way. */
    readonly usage: readonly string[];
    /** What a newcomer needs to know: paragraphs of one line each. */
    readonly help: readonly string[];
    /** Lines to try, with what each does. */
    readonly examples: readonly (readonly [line: string, meaning: string])[];
    readonly options: Readonly<Record<string, Option>>;
    /** How many operands it takes at most. */
    readonly mostOperands: number;
    /** Does the work and returns the exit status. */
    run(words: Words, io: Io): Promise<number>;
}

/** Thrown where the program cannot go on: a sentence for the person who called it, and perhaps what to do. */
export class Refusal extends Error {
    constructor(
        message: string,
        readonly advice?: string,
    ) {
        super(message);
    }
}
