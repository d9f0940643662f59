// Cautions in words that technicians read, with the titles that the author gave: for the drawing and for going through a tree.

import type { InBuilds, StateCondition, Unit } from '../meaning/unit.js';
import type { SignalWord } from '../model/remarks.js';
import type { Prose } from '../model/written.js';
import { listOf } from '../text/words.js';
import type { Cautions, GateChange, HazardControl, HazardMet } from './cautions.js';

/** From the gravest to the mildest (ANSI Z535.6). */
export const signalWords: readonly SignalWord[] = ['danger', 'warning', 'caution', 'notice'];

interface Titled {
    readonly declaration: { readonly name: { readonly text: string }; readonly title: Prose | undefined };
}

/** The title of something, else its name. */
export function titleWords(titled: Titled | undefined): string {
    const title = titled?.declaration.title?.value.trim() ?? '';
    return title === '' ? (titled?.declaration.name.text ?? '') : title;
}

/**
 * The hazards of each zone that the same things control, together:
 * `Hazards at Burner case: Fuel gas, Mains voltage (only while Case door is open); controlled by the gate Lockout`.
 */
export function hazardGroups(hazards: readonly HazardMet[], unit: Unit): readonly string[] {
    const groups = new Map<string, { readonly zone: string; readonly controls: string; readonly names: Set<string> }>();
    for (const met of hazards) {
        const zone = titleWords(unit.zones[met.zone]);
        const controls = controlWords(met.controls, unit);
        const key = `${met.zone} ${controls}`;
        const group = groups.get(key) ?? { zone, controls, names: new Set() };
        groups.set(key, group);
        const state = met.while ? ` (only while ${stateWords(met.while, unit)})` : '';
        group.names.add(`${titleWords(unit.hazards[met.hazard])}${state}${onlyWords(met.guard)}`);
    }
    return [...groups.values()].map(({ zone, controls, names }) => {
        const noun = names.size > 1 ? 'Hazards' : 'Hazard';
        return `${noun} at ${zone}: ${[...names].join(', ')}; ${controls}`;
    });
}

/** What holds a hazard: `controlled by the gate Lockout`, or that nothing does. */
export function controlWords(controls: readonly HazardControl[], unit: Unit): string {
    const gates = controls.flatMap(control => (control.sort === 'gate' ? titleWords(unit.gates[control.gate]) : []));
    const waited = controls.some(({ sort }) => sort === 'wait') ? ['made safe by waiting'] : [];
    const permitted = controls.flatMap(control =>
        control.sort === 'permit'
            ? `not controlled: ${control.activity} beside it is permitted by the gate ${titleWords(unit.gates[control.gate])}`
            : [],
    );
    const closed = gates.length > 0 ? [`controlled by the gate ${listOf([...new Set(gates)], 'or')}`] : [];
    const all = [...closed, ...waited, ...permitted];
    return all.length > 0 ? listOf(all, 'or') : 'nothing controls it here';
}

/** What a gate does to hazards at a step, one text for each sort of change; `gate` is the title of the gate. */
export interface GateChangeWords {
    readonly change: GateChange['change'];
    readonly gate: number;
    readonly text: string;
}

/** The changes of each gate with their hazards together. */
export function gateChangeWords({ gates }: Pick<Cautions, 'gates'>, unit: Unit): readonly GateChangeWords[] {
    const found = new Map<string, { readonly change: GateChange; readonly hazards: string[] }>();
    for (const change of gates) {
        const key = [change.gate, change.change, change.activity ?? ''].join(' ');
        const known = found.get(key) ?? { change, hazards: [] };
        found.set(key, known);
        known.hazards.push(`${titleWords(unit.hazards[change.hazard])}${onlyWords(change.guard)}`);
    }
    return [...found.values()].map(({ change, hazards }) => ({
        change: change.change,
        gate: change.gate,
        text: changeText(change, listOf([...new Set(hazards)], 'and')),
    }));
}

function changeText({ change, activity }: GateChange, hazards: string): string {
    switch (change) {
        case 'closed':
            return `under control from here: ${hazards}`;
        case 'restored':
            return `no longer under control: ${hazards}`;
        case 'permits':
            return `${activity ?? 'work'} is permitted until the end of the step; not under control: ${hazards}`;
    }
}

/** ` (only for three-phase)`; nothing where it holds in all builds. */
export function onlyWords(guard: InBuilds): string {
    return guard ? ` (only for ${buildsWords(guard)})` : '';
}

/** Builds as an author would write them: `bag and not three-phase`. */
export function buildsWords(guard: NonNullable<InBuilds>): string {
    switch (guard.sort) {
        case 'is':
            return `${guard.option.name.text}.${guard.choice.name.text}`;
        case 'not':
            return `not ${inBrackets(guard.operand)}`;
        default: {
            const operands = [...new Set(guard.operands.map(inBrackets))];
            const [only] = operands;
            if (only !== undefined && operands.length === 1) return only;
            return operands.join(guard.sort === 'all' ? ' and ' : ' or ');
        }
    }
}

function inBrackets(guard: NonNullable<InBuilds>): string {
    const words = buildsWords(guard);
    return words.includes(' and ') || words.includes(' or ') ? `(${words})` : words;
}

/** A state in words: `Lid is open`, `not Mains voltage is under control`. */
export function stateWords(state: StateCondition, unit: Unit): string {
    switch (state.sort) {
        case 'value': {
            const condition = unit.conditions[state.condition];
            const value = condition?.declaration.values[state.value];
            return `${titleWords(condition)} is ${value ? titleWords({ declaration: value }) : ''}`;
        }
        case 'isolated':
            return `${titleWords(unit.hazards[state.hazard])} is under control`;
        case 'zones isolated':
            return 'everything there is under control';
        case 'flowing':
            return `${titleWords(unit.flows[state.flow])} flows`;
        case 'taken':
            return `the reading of ${titleWords(unit.tests[state.test])} is taken`;
        case 'not':
            return `not (${stateWords(state.operand, unit)})`;
        default: {
            const word = state.sort === 'all' ? ' and ' : ' or ';
            return state.operands.map(operand => stateWordsInside(operand, unit)).join(word);
        }
    }
}

function stateWordsInside(state: StateCondition, unit: Unit): string {
    const words = stateWords(state, unit);
    return state.sort === 'all' || state.sort === 'any' ? `(${words})` : words;
}
