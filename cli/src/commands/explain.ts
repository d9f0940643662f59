// The verb `explain`: shows the page of a finding, or the list of all findings.

import { displayWidth, findRulePage, listOf, listRules, nearNames, type Rule, wrap } from 'halfsplit-language';
import { colorsFor } from '../colors.js';
import { type Command, Refusal, type Words } from '../command.js';
import { nothingFound } from '../exit-status.js';
import type { Io } from '../io.js';
import { renderPage } from '../render-page.js';
import { visible } from '../visible.js';

export const explain: Command = {
    name: 'explain',
    summary: 'explains a finding, with an example and how to mend it',
    usage: ['halfsplit explain [CODE]'],
    help: ['A CODE is the word behind the severity of a finding. Without one, all codes are listed.'],
    examples: [
        ['halfsplit explain', 'lists all findings'],
        ['halfsplit explain unknown-name', 'explains one'],
    ],
    options: {},
    mostOperands: 1,
    run: runExplain,
};

const widest = 90;

async function runExplain({ operands }: Words, io: Io): Promise<number> {
    const [code] = operands;
    const width = Math.max(40, Math.min(widest, io.output.columns ?? widest));
    const colors = colorsFor(io.output, io);
    if (code === undefined) {
        io.output.write(await listText(width, colors.strong));
        return nothingFound;
    }
    const page = await findRulePage(code);
    if (page === undefined) throw await unknownCode(code);
    io.output.write(renderPage(page, width, colors));
    return nothingFound;
}

async function unknownCode(code: string): Promise<Refusal> {
    const codes = (await listRules()).map(rule => rule.code);
    // A part of a code is as good as a slip in it.
    const parts = code === '' ? [] : codes.filter(other => other.includes(code.toLowerCase())).slice(0, 3);
    const near = [...new Set([...nearNames(code, codes), ...parts])].slice(0, 3).map(other => `\`${other}\``);
    const message = `There is no finding with the code \`${visible(code)}\`.`;
    if (near.length === 0) return new Refusal(message, '`halfsplit explain` lists all codes.');
    const one = near.length === 1;
    return new Refusal(message, `There ${one ? 'is a code' : 'are codes'} like it: ${listOf(near, 'and')}.`);
}

const groupTitles: Readonly<Record<Rule['group'], string>> = {
    text: 'Text',
    names: 'Names',
    structure: 'Structure',
    builds: 'Builds',
    readings: 'Readings',
    safety: 'Safety',
    diagnosis: 'Diagnosis',
    economy: 'Economy',
    wording: 'Wording',
};

async function listText(width: number, strong: (text: string) => string): Promise<string> {
    const rules = await listRules();
    const indent = Math.max(...rules.map(rule => displayWidth(rule.code))) + 4;
    const parts: string[] = [];
    for (const [group, title] of Object.entries(groupTitles)) {
        const members = rules.filter(rule => rule.group === group);
        if (members.length === 0) continue;
        const lines = await Promise.all(members.map(rule => ruleLines(rule, indent, width)));
        parts.push([strong(title), ...lines.flat()].join('\n'));
    }
    return `${parts.join('\n\n')}\n\n\`halfsplit explain CODE\` tells more of one.\n`;
}

async function ruleLines({ code, severity }: Rule, indent: number, width: number): Promise<readonly string[]> {
    const summary = summaryOf((await findRulePage(code)) ?? '');
    const lines = wrap(severity === 'error' ? summary : `${summary} (${severity})`, width - indent);
    return lines.map((line, index) =>
        `${index === 0 ? `  ${code}`.padEnd(indent) : ' '.repeat(indent)}${line}`.trimEnd(),
    );
}

/** The first paragraph of a page, which says in one sentence what is found. */
function summaryOf(page: string): string {
    const [first = ''] = page
        .split(/\n\s*\n/)
        .map(part => part.trim())
        .filter(part => part !== '' && !part.startsWith('#'));
    return visible(first.replaceAll('\n', ' '));
}
