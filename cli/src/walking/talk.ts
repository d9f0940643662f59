// Goes through a tree together with a person: tells each position, reads what is answered line by line, and goes on.

import { listOf, nearNames, type ToldPosition, type ToldStanding } from 'halfsplit-language';
import type { Io } from '../io.js';
import { visible } from '../visible.js';
import { answersOf, findAnswer } from './find-answer.js';
import { positionLines, standingLines, suspectLines } from './walk-text.js';

/** A place in the walk, and how to get on from it. */
export interface Place {
    readonly told: ToldPosition;
    /** Goes on with the answer of this number, counted from 0. */
    readonly answer: (index: number) => Place;
    /** The place before the last answer; undefined at the start. */
    readonly before: Place | undefined;
    readonly standing: (name: string) => ToldStanding;
}

/** Talks until the person leaves or standard input ends. */
export async function talk(start: Place, io: Io): Promise<void> {
    let place = start;
    tell([...positionLines(place.told), promptFor(place)], io);
    for await (const line of io.readLines()) {
        const reply = replyTo(line.trim(), place);
        if (reply === undefined) return;
        place = reply.place;
        tell(['', ...reply.lines, promptFor(place)], io);
    }
}

/** Writes lines in which nothing can move the cursor. */
export function tell(lines: readonly string[], io: Io): void {
    io.output.write(lines.map(line => `${oneLine(line)}\n`).join(''));
}

/** An author's text of several lines becomes one line, so that each thing stays on a line of its own. */
function oneLine(text: string): string {
    return visible(text.replace(/\s*[\r\n]+\s*/g, ' '));
}

function promptFor({ told, before }: Place): string {
    const answers = answersOf(told).length > 0 ? 'a number or name from the answers, ' : '';
    const back = before ? '`back`, ' : '';
    return `Type ${answers}${back}\`suspects\`, \`why NAME\` or \`quit\`.`;
}

interface Reply {
    readonly place: Place;
    readonly lines: readonly string[];
}

const commands = ['back', 'suspects', 'why', 'quit'];

/** What a line does; undefined where it ends the talk. The commands go before answers of the same name. */
function replyTo(line: string, place: Place): Reply | undefined {
    const [command = '', ...rest] = line.split(/\s+/);
    const said = line.toLowerCase();
    if (said === 'quit') return undefined;
    if (said === '') return { place, lines: positionLines(place.told) };
    if (said === 'suspects') return { place, lines: suspectLines(place.told.suspects) };
    if (said === 'back') {
        const { before } = place;
        if (!before) return { place, lines: ['This is the start: there is no answer to take back.'] };
        return {
            place: before,
            lines: [`Back before the answer \`${place.told.answer ?? ''}\``, ...positionLines(before.told)],
        };
    }
    if (command.toLowerCase() === 'why' && rest.length > 0) {
        const name = rest.join(' ');
        return { place, lines: standingLines(name, place.standing(name)) };
    }
    if (said === 'why') return { place, lines: ['`why` needs the name of a fault, or `healthy`: `why NAME`.'] };
    return answerWith(line, place);
}

function answerWith(line: string, place: Place): Reply {
    const found = findAnswer(line, place.told);
    if (found.sort === 'found') {
        const next = place.answer(found.index);
        return { place: next, lines: [`Answer: ${next.told.answer ?? ''}`, ...positionLines(next.told)] };
    }
    const near = nearNames(line, commands).map(one => `\`${one}\``);
    const advice = near.length > 0 ? `There is a command with a similar name: ${listOf(near, 'or')}.` : found.advice;
    return { place, lines: [found.message, ...(advice === undefined ? [] : [advice])] };
}
