// Reads what stands behind a verb: options and operands. What cannot be understood is refused with a sentence.

import { parseArgs } from 'node:util';
import { listOf, nearNames } from 'halfsplit-language';
import { type Command, Refusal, type Words } from './command.js';
import { visible } from './visible.js';

/** Options that every verb has. */
const everywhere = { help: { type: 'boolean', short: 'h' } } as const;

/** Reads the words behind a verb. `help` is true where help is asked for; nothing else is looked at then. */
export function readWords(command: Command, argv: readonly string[]): Words & { readonly help: boolean } {
    const options = Object.fromEntries(
        Object.entries(command.options).map(([name, option]) => [
            name,
            { type: option.value === undefined ? ('boolean' as const) : ('string' as const) },
        ]),
    );
    const { tokens } = parseArgs({
        args: [...argv],
        options: { ...options, ...everywhere },
        strict: false,
        allowPositionals: true,
        tokens: true,
    });
    const operands: string[] = [];
    const given = new Map<string, readonly (string | undefined)[]>();
    const help = tokens.some(token => token.kind === 'option' && token.name === 'help');
    for (const token of tokens) {
        if (token.kind === 'positional') operands.push(token.value);
        if (token.kind !== 'option' || help) continue;
        checkOption(command, token);
        const before = given.get(token.name) ?? [];
        if (before.length > 0 && command.options[token.name]?.several !== true) {
            throw new Refusal(`\`${token.rawName}\` is given twice.`, seeHelp(command));
        }
        given.set(token.name, [...before, token.value]);
    }
    if (!help && operands.length > command.mostOperands) {
        const extra = visible(operands[command.mostOperands] ?? '');
        throw new Refusal(`\`${command.name}\` cannot use \`${extra}\`: that is one word too many.`, seeHelp(command));
    }
    return {
        operands,
        value: name => given.get(name)?.[0],
        values: name => (given.get(name) ?? []).filter(value => value !== undefined),
        has: name => given.has(name),
        help,
    };
}

interface OptionToken {
    readonly name: string;
    readonly rawName: string;
    readonly value: string | undefined;
    readonly inlineValue: boolean | undefined;
}

function checkOption(command: Command, { name, rawName, value, inlineValue }: OptionToken): void {
    const written = visible(rawName);
    const option = Object.hasOwn(command.options, name) ? command.options[name] : undefined;
    if (option === undefined) {
        const near = nearNames(name, [...Object.keys(command.options), 'help']).map(other => `\`--${other}\``);
        const advice =
            near.length === 0 ? seeHelp(command) : `There is an option with a similar name: ${listOf(near, 'or')}.`;
        throw new Refusal(`\`${command.name}\` has no option \`${written}\`.`, advice);
    }
    if (option.value === undefined) {
        if (value !== undefined) throw new Refusal(`\`${written}\` takes no value.`, seeHelp(command));
        return;
    }
    // A word that looks like an option is one, unless it is joined to this one; a lone hyphen is a value.
    const isValue = value !== undefined && value !== '' && (inlineValue === true || !/^-./.test(value));
    if (!isValue) {
        throw new Refusal(`\`${written}\` needs a value: \`${written} ${option.value}\`.`, seeHelp(command));
    }
    if (option.values && !option.values.includes(value)) {
        const words = listOf(
            option.values.map(word => `\`${word}\``),
            'or',
        );
        throw new Refusal(`\`${written}\` takes ${words}, not \`${visible(value)}\`.`, seeHelp(command));
    }
}

function seeHelp(command: Command): string {
    return `\`halfsplit ${command.name} --help\` explains the verb.`;
}
