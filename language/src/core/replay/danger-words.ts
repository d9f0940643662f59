// Says what happens on the way to a danger, in the words of a counterexample.

import type { Route } from '../meaning/route.js';
import { listOf, quoteName } from '../text/words.js';
import type { Occurrence } from './danger-path.js';

/** What has happened, in words: `gate \`lockout\` is restored`. */
export function occurrenceWords(occurrence: Occurrence, route: Route): string {
    switch (occurrence.sort) {
        case 'asked':
        case 'any answer':
        case 'cannot be read':
            return answerWords(occurrence, route);
        case 'cannot be done':
            return `${quoteName(occurrence.action.written.text.value)} cannot be done`;
        case 'closed':
            return closedWords(occurrence.action.gate, route);
        case 'waited':
            return `${hazardWords([occurrence.action.hazard ?? -1], route)} is safe after a wait`;
        case 'restored':
            return withLost(`gate ${gateWords(occurrence.action.gate, route)} is restored`, occurrence.lost, route);
        case 'set':
            return withLost(settingWords(occurrence, route), occurrence.lost, route);
    }
}

function answerWords(
    occurrence: Extract<Occurrence, { sort: 'asked' | 'any answer' | 'cannot be read' }>,
    { unit, exits }: Route,
): string {
    const test = unit.tests[occurrence.action.test];
    const name = quoteName(test?.name ?? '');
    if (occurrence.sort === 'cannot be read') return `${name} cannot be read`;
    if (occurrence.sort === 'asked') {
        const shown = test?.outcomes[occurrence.outcome];
        return `${name} shows ${shown === undefined ? 'nothing' : quoteName(shown)}`;
    }
    const outcomes = exits[occurrence.exit]?.outcomes.flatMap(outcome => test?.outcomes[outcome] ?? []) ?? [];
    return `${name} is answered ${outcomes.length === 0 ? 'otherwise' : listOf(outcomes.map(quoteName), 'or')}`;
}

function withLost(words: string, lost: readonly number[], route: Route): string {
    return lost.length === 0 ? words : `${words}, which gives up control of ${hazardWords(lost, route)}`;
}

/** A gate that controls nothing is not closed: it permits some work until the end of the step. */
function closedWords(number: number, route: Route): string {
    const gate = route.unit.gates[number];
    const permitted = [...new Set(gate?.permits.map(({ activity }) => quoteName(activity)))];
    const isClosed = gate === undefined || gate.controls.length > 0 || permitted.length === 0;
    return `gate ${gateWords(number, route)} ${isClosed ? 'is closed' : `permits ${listOf(permitted, 'and')}`}`;
}

function gateWords(gate: number, { unit }: Route): string {
    return quoteName(unit.gates[gate]?.declaration.name.text ?? '');
}

function hazardWords(hazards: readonly number[], { unit }: Route): string {
    return listOf(
        hazards.map(hazard => quoteName(unit.hazards[hazard]?.declaration.name.text ?? '')),
        'and',
    );
}

/** `\`switch\` is set to \`on\` and \`lid\` to \`open\``. */
function settingWords({ action }: Extract<Occurrence, { sort: 'set' }>, { unit }: Route): string {
    const settings = action.settings.map(({ condition, value }, index) => {
        const declared = unit.conditions[condition]?.declaration;
        const to = `to ${quoteName(declared?.values[value]?.name.text ?? '')}`;
        return `${quoteName(declared?.name.text ?? '')} ${index === 0 ? 'is set ' : ''}${to}`;
    });
    return listOf(settings, 'and');
}
