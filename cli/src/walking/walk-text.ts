// A position of a walk as lines for people and screen readers: one thing a line, nothing drawn.

import {
    listOf,
    type ToldAnswer,
    type ToldControl,
    type ToldEnd,
    type ToldHazard,
    type ToldLine,
    type ToldName,
    type ToldNext,
    type ToldPlace,
    type ToldPosition,
    type ToldRepair,
    type ToldRuledOut,
    type ToldSafety,
    type ToldStanding,
    type ToldSuspect,
    type ToldVisit,
} from 'halfsplit-language';

/** How many of a long list are told where nobody has asked for all. */
const mostTold = 5;

/** Everything that there is to say on coming to a position. */
export function positionLines(position: ToldPosition): readonly string[] {
    const { ruledOut, visits, isAgain, next, suspects } = position;
    return [
        ...ruledOutLines(ruledOut),
        ...visits.flatMap(visitLines),
        ...(isAgain ? ['You were at this step before, and nobody has been ruled out since.'] : []),
        ...nextLines(next),
        ...suspectLines(suspects, mostTold),
    ];
}

function ruledOutLines(ruledOut: readonly ToldRuledOut[]): readonly string[] {
    if (ruledOut.length === 0) return [];
    return [
        `Ruled out: ${ruledOut.length}`,
        ...ruledOut.slice(0, mostTold).map(one => `${fullName(one)}${instead(one.wouldBe)}`),
        ...moreLine(ruledOut.length, mostTold),
    ];
}

function instead(wouldBe: readonly string[]): string {
    return wouldBe.length === 0 ? '; not in this build' : `; the answer would be ${anyOf(wouldBe)}`;
}

function moreLine(count: number, most: number): readonly string[] {
    return count > most ? [`and ${count - most} more`] : [];
}

function visitLines({ begins, step, of, safety, hazards, lines }: ToldVisit): readonly string[] {
    const inProcedure = begins.some(({ sort }) => sort === 'procedure') ? ` of ${of}` : '';
    return [
        ...begins.flatMap(owner => [
            // That a procedure is followed has just been told.
            ...(owner.sort === 'procedure' ? [] : [`${label(owner.sort)} ${titled(owner)}`]),
            ...owner.safety.map(safetyLine),
            ...owner.lines.map(lineText),
        ]),
        `Step ${step.name}${inProcedure}${step.title === '' ? '' : `: ${step.title}`}`,
        ...safety.map(safetyLine),
        ...hazards.map(hazardLine),
        ...lines.map(lineText),
    ];
}

/** `Hazard Mains voltage at Terminal box, only while Lid is open: controlled by the gate Lockout`. */
function hazardLine({ name, title, zone, when, controls, only }: ToldHazard): string {
    const state = when === undefined ? '' : `, only while ${when}`;
    const held = controls.length === 0 ? 'nothing on this way controls it' : listOf(controls.map(controlText), 'and');
    return `Hazard ${title || name} at ${zone.title || zone.name}${state}${onlyFor(only)}: ${held}`;
}

function controlText({ sort, gate, activity, only }: ToldControl): string {
    const by = gate ? gate.title || gate.name : '';
    switch (sort) {
        case 'gate':
            return `controlled by the gate ${by}${onlyFor(only)}`;
        case 'permit':
            return `not under control, ${activity ?? 'work'} is permitted by the gate ${by}${onlyFor(only)}`;
        case 'wait':
            return `made safe by waiting${onlyFor(only)}`;
    }
}

function safetyLine({ level, about, text, only }: ToldSafety): string {
    return `${label(level)}${about === undefined ? '' : ` about ${about}`}${onlyFor(only)}: ${text}`;
}

function lineText({ sort, name, text, only }: ToldLine): string {
    return `${label(sort)}${name === undefined ? '' : ` ${name}`}${onlyFor(only)}: ${text}`;
}

function onlyFor(only: string | undefined): string {
    return only === undefined ? '' : ` (only for ${only})`;
}

function label(sort: string): string {
    return `${sort.charAt(0).toUpperCase()}${sort.slice(1)}`.replaceAll('-', ' ');
}

/** `motor-runs: Does the fan motor run?`. */
function titled({ name, title }: ToldName): string {
    return title === '' ? name : `${name}: ${title}`;
}

/** `hose.torn, Hose: Torn`. */
function fullName({ name, title }: ToldName): string {
    return title === '' ? name : `${name}, ${title}`;
}

function anyOf(names: readonly string[]): string {
    return listOf(
        names.map(name => `\`${name}\``),
        'or',
    );
}

function nextLines(next: ToldNext): readonly string[] {
    switch (next.sort) {
        case 'test':
            return [
                `Test${next.confirms ? ' to confirm' : ''} ${titled(next)}`,
                ...next.lines.map(lineText),
                ...answerLines(next.answers),
            ];
        case 'doing':
            return ['Question: Can it be done?', ...answerLines(next.answers)];
        case 'build': {
            const what = next.step === undefined ? 'The way on' : `The step ${fullName(next.step)},`;
            return [
                `Build: ${what} depends on the build of the unit.`,
                `Option ${titled(next.option)}`,
                ...answerLines(next.answers),
            ];
        }
        case 'conclusion':
        case 'referral':
            return endLines(next);
        case 'tree':
            return [`End: The tree ${titled(next)} has no steps.`];
        default:
            return [`End: ${endings[next.sort]}`];
    }
}

const endings: Readonly<Record<'nowhere' | 'circle' | 'nobody' | 'undecided', string>> = {
    nowhere: 'Nothing leads on from here.',
    circle: 'The same steps come round again, without a question and without an end.',
    nobody: 'The tree is not for a unit of this build.',
    undecided: 'From here there is too much to be told apart.',
};

function answerLines(answers: readonly ToldAnswer[]): readonly string[] {
    return ['Answers:', ...answers.map((answer, index) => `${index + 1}. ${answerText(answer)}`)];
}

function answerText({ name, readings, isShown, leadsTo }: ToldAnswer): string {
    const said = readings.map(({ text, only }) => `${text}${onlyFor(only)}`).join('; or ');
    const leads = leadsTo.length === 0 ? 'nowhere' : listOf(leadsTo.map(placeText), 'or');
    const depends = leadsTo.length > 1 ? ', depending on the build' : '';
    const nobody = isShown ? '' : '; nobody who is still possible gives this answer';
    return `${name}${said === '' ? '' : `: ${said}`}; leads to ${leads}${depends}${nobody}`;
}

function placeText(place: ToldPlace): string {
    return place.sort === 'nowhere' ? 'nowhere' : `${place.sort} ${fullName(place)}`;
}

function endLines(end: ToldEnd): readonly string[] {
    const { sort, reason, faults, unnamed, safety, hazards, inOrder, repairs, lines, stillWrong } = end;
    return [
        `${label(sort)} ${titled(end)}`,
        ...(reason === undefined ? [] : [`Reason: ${reason}`]),
        ...faults.map(fault => `Named: ${fullName(fault)}; ${fault.isPossible ? 'still possible' : 'ruled out'}`),
        ...unnamed.slice(0, mostTold).map(fault => `Not named: ${fullName(fault)}; still possible`),
        ...moreLine(unnamed.length, mostTold),
        ...safety.map(safetyLine),
        ...hazards.map(hazardLine),
        ...(inOrder ? ['The repairs are tried in this order until the complaint is gone.'] : []),
        ...repairs.flatMap(repairLines),
        ...lines.map(lineText),
        ...stillWrong.map(place => `If the complaint is still there: ${placeText(place)}`),
    ];
}

function repairLines({ action, text, takes, costs, under, only }: ToldRepair): readonly string[] {
    return [
        `${label(action)}${onlyFor(only)}: ${text}`,
        ...(takes === undefined ? [] : [`Takes ${takes}`]),
        ...(costs === undefined ? [] : [`Costs ${costs}`]),
        ...(under.length === 0 ? [] : [`Under the gate: ${listOf(under, 'and')}`]),
    ];
}

/** Those who are still possible with their chances; at most so many, and how many more there are. */
export function suspectLines(suspects: readonly ToldSuspect[], most = Number.POSITIVE_INFINITY): readonly string[] {
    if (suspects.length === 0) {
        return ['Still possible: nobody. No unit that comes with the complaint gives these answers.'];
    }
    return [
        `Still possible: ${suspects.length}`,
        ...suspects.slice(0, most).map(suspect => `${percent(suspect.chance)} ${fullName(suspect)}`),
        ...moreLine(suspects.length, most),
    ];
}

/** A chance in percent, with a digit behind the point where it is small. */
export function percent(chance: number): string {
    const value = chance * 100;
    if (value > 0 && value < 0.1) return 'under 0.1 %';
    return `${value < 10 ? Number(value.toFixed(1)) : Math.round(value)} %`;
}

/** Why somebody is still possible or is not. */
export function standingLines(name: string, standing: ToldStanding): readonly string[] {
    switch (standing.sort) {
        case 'possible':
            return [
                fullName(standing),
                `Still possible: ${percent(standing.chance)}`,
                ...(standing.wouldBe.length === 0 ? [] : [`The answer here would be ${anyOf(standing.wouldBe)}`]),
            ];
        case 'out': {
            const { question, step, answer, wouldBe } = standing;
            return [
                fullName(standing),
                `Ruled out by the answer \`${answer}\``,
                ...(step === undefined ? [] : [`Step ${titled(step)}`]),
                ...(question === undefined ? [] : [`Test ${titled(question)}`]),
                ...(wouldBe.length === 0 ? [] : [`With it the answer would be ${anyOf(wouldBe)}`]),
            ];
        }
        case 'other build':
            return [fullName(standing), 'Ruled out by the build: no unit of this build comes with it.'];
        case 'never':
            return [fullName(standing), 'Never in this tree: no unit with it shows the complaint.'];
        case 'unknown': {
            const near = standing.near.length === 0 ? '' : ` There is a similar name: ${anyOf(standing.near)}.`;
            return [`There is no fault called \`${name}\`.${near}`];
        }
    }
}
