// The verb `walk`: goes through a tree as a technician would, and tells at every step who is still possible.

import {
    type Finding,
    listRules,
    loadWalk,
    plural,
    safetyNotice,
    type Tree,
    type WalkPosition,
} from 'halfsplit-language';
import { blockingFindings, verifyReached } from '../blocking-findings.js';
import { chooseTree } from '../choose-trees.js';
import { type Command, Refusal, type Words } from '../command.js';
import { nothingFound, somethingFound, wrongUse } from '../exit-status.js';
import type { Io } from '../io.js';
import type { OpenedWorkspace } from '../open-workspace.js';
import { plainReport } from '../report/report.js';
import { textFindings } from '../report/text.js';
import { findAnswer } from '../walking/find-answer.js';
import { type Place, talk, tell } from '../walking/talk.js';
import { walkJson } from '../walking/walk-json.js';
import { positionLines } from '../walking/walk-text.js';

export const walk: Command = {
    name: 'walk',
    summary: 'goes through a tree with you and tells who is still possible',
    usage: ['halfsplit walk TREE [SOURCES…] [--build CHOICES] [--answer ANSWERS]… [--format text|json]'],
    help: [
        'TREE is the name of a tree, or the path of a `.fault` file that holds only one.',
        'SOURCES are `.fault` files or folders; without them it is the current folder.',
        'At each question you type the number or the name of an answer. `back` takes the last answer back, `suspects` tells all who are still possible with their chances, `why NAME` tells which answer has ruled a fault out, `quit` ends.',
        'With `--answer` nothing is asked: the answers are given in order, and what they lead to is told.',
        `The walk says what the sources say. ${safetyNotice()}`,
    ],
    examples: [
        ['halfsplit walk no-airflow', 'goes through the tree and asks'],
        ['halfsplit walk no-airflow --build bag', 'goes through it with a unit that has a filter bag'],
        ['halfsplit walk no-airflow --answer normal,low,normal', 'gives three answers and tells where they lead'],
    ],
    options: {
        build: { value: 'CHOICES', summary: 'choices that the unit has, with commas between; the others stay open' },
        answer: { value: 'ANSWERS', several: true, summary: 'answers in their order, with commas between or one each' },
        format: {
            value: 'FORMAT',
            values: ['text', 'json'],
            summary: 'how to tell: text for people (the default), json for programs, without asking',
        },
    },
    mostOperands: Number.POSITIVE_INFINITY,
    run: runWalk,
};

async function runWalk(words: Words, io: Io): Promise<number> {
    const [operand, ...sources] = words.operands;
    if (operand === undefined) {
        throw new Refusal('`walk` needs the name of a tree.', '`halfsplit walk --help` explains the verb.');
    }
    const { opened, tree } = await chooseTree(operand, sources, io);
    const errors = await errorsIn(tree, opened, io);
    const begun = await beginWalk(tree, words.value('build') ?? '', opened);
    if (begun === undefined) return refuse(tree, errors, opened, io);
    if (errors.length > 0) {
        const count = plural(errors.length, 'error stands', 'errors stand');
        io.messages.write(`${count} in what is walked, so it may be wrong; \`halfsplit check\` shows more.\n`);
    }
    const answers = words.values('answer').flatMap(given => given.split(','));
    const asJson = words.value('format') === 'json';
    if (asJson || words.has('answer')) {
        const places = giveAnswers(answers, begun.start, asJson ? undefined : io);
        if (asJson) {
            io.output.write(
                walkJson(
                    tree,
                    begun.build,
                    places.map(({ told }) => told),
                ),
            );
        }
    } else {
        tell([safetyNotice()], io);
        await talk(begun.start, io);
    }
    return opened.unopened > 0 ? wrongUse : nothingFound;
}

async function errorsIn(tree: Tree, opened: OpenedWorkspace, io: Io): Promise<readonly Finding[]> {
    const verdict = await verifyReached([tree.file], opened, io);
    return blockingFindings([tree], verdict, opened).get(tree) ?? [];
}

interface Begun {
    readonly start: Place;
    /** The choices that were given. */
    readonly build: readonly string[];
}

/** The start of the tree for a unit with these choices; undefined where the tree cannot be gone through. */
async function beginWalk(tree: Tree, choices: string, { workspace }: OpenedWorkspace): Promise<Begun | undefined> {
    const { model } = workspace;
    const { readyTree, readBuild, beginAt, answersAt, takeAnswer, tellPosition, tellStanding } = await loadWalk();
    const ready = readyTree(tree, model);
    if (ready.sort === 'unfinished') return undefined;
    if (ready.sort === 'undecided') {
        throw new Refusal(
            `\`${tree.name.text}\` cannot be walked: its builds and faults are too many to be told apart.`,
            'Divide the tree or the equipment into smaller ones.',
        );
    }
    const builds = readBuild(choices, ready.walked);
    if (builds.sort === 'problem') throw new Refusal(builds.message, builds.advice);
    const placeAt = (position: WalkPosition, before: Place | undefined): Place => {
        const place: Place = {
            told: tellPosition(position, model),
            answer: index => {
                const answer = answersAt(position)[index];
                return answer ? placeAt(takeAnswer(position, answer), place) : place;
            },
            before,
            standing: name => tellStanding(name, position, model),
        };
        return place;
    };
    const start = placeAt(beginAt(ready.walked, builds.within), undefined);
    const build = builds.choices.map(({ name }) => name);
    if (start.told.next.sort === 'nobody') {
        throw new Refusal(`The tree \`${tree.name.text}\` is not for a unit with ${build.join(', ')}.`);
    }
    return { start, build };
}

/** Says why a tree cannot be gone through. */
async function refuse(tree: Tree, errors: readonly Finding[], opened: OpenedWorkspace, io: Io): Promise<number> {
    const name = `\`${tree.name.text}\``;
    if (errors.length === 0) throw new Refusal(`${name} cannot be walked: it has no steps.`);
    const codes = new Set((await listRules()).map(rule => rule.code));
    const report = plainReport(errors, opened.found.root, opened.workspace.texts);
    io.messages.write(textFindings(report, io.messages, io, codes));
    io.messages.write(
        `${name} cannot be walked: ${plural(errors.length, 'error stands', 'errors stand')} in the way.\n`,
    );
    return opened.unopened > 0 ? wrongUse : somethingFound;
}

/** Gives answers one after the other, and tells each place as it is come to where there is somebody to tell it to. */
function giveAnswers(answers: readonly string[], start: Place, io: Io | undefined): readonly Place[] {
    const places = [start];
    if (io) tell([safetyNotice(), ...positionLines(start.told)], io);
    let place = start;
    for (const [index, written] of answers.entries()) {
        const found = findAnswer(written, place.told);
        if (found.sort === 'unknown') {
            const which = answers.length > 1 ? `Answer ${index + 1}: ` : '';
            throw new Refusal(`${which}${found.message}`, found.advice);
        }
        place = place.answer(found.index);
        places.push(place);
        if (io) tell(['', `Answer: ${place.told.answer ?? ''}`, ...positionLines(place.told)], io);
    }
    return places;
}
