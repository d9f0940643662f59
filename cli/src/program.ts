// The program: finds the verb, lets it work, and turns whatever goes wrong into a sentence and an exit status.

import { listOf, nearNames } from 'halfsplit-language';
import { colorsFor } from './colors.js';
import { type Command, Refusal } from './command.js';
import { check } from './commands/check.js';
import { coverage } from './commands/coverage.js';
import { draw } from './commands/draw.js';
import { explain } from './commands/explain.js';
import { exportTrees } from './commands/export.js';
import { format } from './commands/format.js';
import { newWorkspace } from './commands/new.js';
import { scenarios } from './commands/scenarios.js';
import { verify } from './commands/verify.js';
import { walk } from './commands/walk.js';
import { nothingFound, wrongUse } from './exit-status.js';
import { commandHelp, programHelp } from './help.js';
import type { Io } from './io.js';
import { readWords } from './read-words.js';
import { programName, programVersion } from './version.js';
import { visible } from './visible.js';

/** The verbs in the order in which a newcomer meets them. */
export const commands: readonly Command[] = [
    newWorkspace,
    check,
    scenarios,
    coverage,
    explain,
    format,
    walk,
    draw,
    exportTrees,
    verify,
];

/** Runs the program with the words behind its name and returns its exit status. */
export async function runProgram(argv: readonly string[], io: Io): Promise<number> {
    try {
        return await dispatch(argv, io);
    } catch (problem) {
        const { error } = colorsFor(io.messages, io);
        const advice =
            problem instanceof Refusal ? problem.advice : 'This is a mistake of the program. Please report it.';
        const message = problem instanceof Error ? problem.message : String(problem);
        io.messages.write(`${error(programName)}: ${message}\n${advice === undefined ? '' : `${advice}\n`}`);
        return wrongUse;
    }
}

async function dispatch([first, ...rest]: readonly string[], io: Io): Promise<number> {
    if (first === undefined) {
        io.messages.write(programHelp(commands, io.messages, io));
        return wrongUse;
    }
    if (first === '--version') {
        io.output.write(`${programName} ${programVersion}\n`);
        return nothingFound;
    }
    const isHelp = first === '--help' || first === '-h' || first === 'help';
    const name = isHelp ? rest.find(word => !word.startsWith('-')) : first;
    if (name === undefined) {
        io.output.write(programHelp(commands, io.output, io));
        return nothingFound;
    }
    const command = commands.find(one => one.name === name);
    if (command === undefined) throw unknownVerb(name);
    const words = isHelp ? undefined : readWords(command, rest);
    if (words === undefined || words.help) {
        io.output.write(commandHelp(command, io.output, io));
        return nothingFound;
    }
    return command.run(words, io);
}

function unknownVerb(name: string): Refusal {
    const names = commands.map(command => command.name);
    const near = nearNames(name, names);
    const what = name.startsWith('-') ? 'option' : 'verb';
    const message = `There is no ${what} \`${visible(name)}\`.`;
    if (near.length > 0) {
        return new Refusal(
            message,
            `There is a verb with a similar name: ${listOf(
                near.map(one => `\`${one}\``),
                'or',
            )}.`,
        );
    }
    return new Refusal(message, `The verbs are ${listOf(names, 'and')}; \`halfsplit --help\` explains them.`);
}
