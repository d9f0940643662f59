// Writes guards over choices and states over conditions as the small expression trees of the document.

import type { InBuilds, StateCondition, Unit } from '../../core/meaning/unit.js';
import type { ChoiceExpression, ChoiceReference, Guarded, StateExpression } from '../../core/model/guards.js';
import type { Guard, State } from '../types.js';
import { find, report, writeId, type Writer } from './writer.js';

/** The guard of something, or undefined where it holds for all builds. */
export function writeGuard(writer: Writer, { guard }: Guarded): Guard | undefined {
    return guard && writeChoices(writer, guard);
}

/** All of the guards together; undefined where none of them limits anything. */
export function allGuards(...guards: readonly (Guard | undefined)[]): Guard | undefined {
    const operands = new Map<string, Guard>();
    for (const guard of guards) {
        const parts = guard === undefined ? [] : 'all' in guard ? guard.all : [guard];
        for (const part of parts) operands.set(JSON.stringify(part), part);
    }
    const [first, ...others] = operands.values();
    return first && others.length > 0 ? { all: [first, ...others] } : first;
}

export function writeChoices(writer: Writer, expression: ChoiceExpression): Guard {
    switch (expression.sort) {
        case 'choice':
            return { choice: writeChoiceId(writer, expression) };
        case 'not':
            return { not: writeChoices(writer, expression.operand) };
        case 'all':
            return { all: expression.operands.map(operand => writeChoices(writer, operand)) };
        case 'any':
            return { any: expression.operands.map(operand => writeChoices(writer, operand)) };
    }
}

/** A guard whose names have been looked up. */
export function writeBuilds(builds: InBuilds): Guard | undefined {
    if (!builds) return undefined;
    switch (builds.sort) {
        case 'is':
            return { choice: `${builds.option.name.text}.${builds.choice.name.text}` };
        case 'not': {
            const operand = writeBuilds(builds.operand);
            return operand && { not: operand };
        }
        case 'all':
            return allGuards(...builds.operands.map(writeBuilds));
        case 'any': {
            const operands = new Map(builds.operands.map(writeBuilds).map(guard => [JSON.stringify(guard), guard]));
            const [first, ...others] = [...operands.values()].filter(guard => guard !== undefined);
            return first && others.length > 0 ? { any: [first, ...others] } : first;
        }
    }
}

/** A state whose names have been looked up; undefined for what no author can write. */
export function writeStateOf(state: StateCondition, unit: Unit): State | undefined {
    switch (state.sort) {
        case 'value': {
            const condition = unit.conditions[state.condition]?.declaration;
            return { condition: nameOf(condition), value: nameOf(condition?.values[state.value]) };
        }
        case 'isolated':
            return { isolated: nameOf(unit.hazards[state.hazard]?.declaration) };
        case 'zones isolated':
            return { allIsolated: true };
        case 'flowing':
            return { flowing: nameOf(unit.flows[state.flow]?.declaration) };
        case 'taken':
            return undefined;
        case 'not': {
            const operand = writeStateOf(state.operand, unit);
            return operand && { not: operand };
        }
        case 'all':
        case 'any': {
            const operands = state.operands.flatMap(operand => writeStateOf(operand, unit) ?? []);
            return state.sort === 'all' ? { all: operands } : { any: operands };
        }
    }
}

function nameOf(declared: { readonly name: { readonly text: string } } | undefined): string {
    return declared?.name.text ?? '';
}

export function writeState(writer: Writer, expression: StateExpression): State {
    switch (expression.sort) {
        case 'state':
            return writeOneState(writer, expression);
        case 'not':
            return { not: writeState(writer, expression.operand) };
        case 'all':
            return { all: expression.operands.map(operand => writeState(writer, operand)) };
        case 'any':
            return { any: expression.operands.map(operand => writeState(writer, operand)) };
    }
}

export function writeOptionalState(writer: Writer, expression: StateExpression | undefined): State | undefined {
    return expression && writeState(writer, expression);
}

function writeOneState(writer: Writer, state: Extract<StateExpression, { sort: 'state' }>): State {
    if (!state.subject) return { allIsolated: true };
    const subject = writeId(writer, state.subject);
    if (state.is === 'isolated') return { isolated: subject };
    if (state.is === 'flowing') return { flowing: subject };
    if (!state.value) {
        report(writer, state, `The state of \`${subject}\` is not complete.`);
        return { condition: subject, value: '' };
    }
    return { condition: subject, value: writeId(writer, state.value) };
}

function writeChoiceId(writer: Writer, { choice, member }: ChoiceReference): string {
    const target = find(writer, member ?? choice);
    const option = target?.sort === 'choice-declared' ? writer.optionOfChoice.get(target) : undefined;
    if (target?.sort === 'choice-declared' && option) return `${option.name.text}.${target.name.text}`;
    const reference = member ?? choice;
    if (target) report(writer, reference, `\`${reference.text}\` is no choice of \`${writer.equipment.name.text}\`.`);
    return reference.text;
}
