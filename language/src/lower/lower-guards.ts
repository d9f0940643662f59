// Lowers guards (`for CHOICES`) and states (`when`, `needs`). What is half written is left out.

import type * as ast from '../generated/ast.js';
import type { ChoiceExpression, ChoiceReference, StateExpression } from '../core/model/guards.js';
import type { Lowering } from './context.js';
import { lowerOptionalReference, lowerReference } from './lower-written.js';
import { endOf, hasDot, pointAround, startOf } from './spans.js';

/** The builds that something is limited to; undefined for all, and for a guard without its first choice. */
export function lowerGuard(context: Lowering, node: ast.ChoiceExpression | undefined): ChoiceExpression | undefined {
    switch (node?.$type) {
        case 'ChoiceReference':
            return lowerChoiceReference(context, node);
        case 'NotChoice': {
            const operand = lowerGuard(context, node.operand);
            const place = node.$cstNode ?? pointAround(node);
            return operand && { file: context.file, start: startOf(place), end: endOf(place), sort: 'not', operand };
        }
        case 'AllChoices':
            return joinChoices(context, node, 'all');
        case 'AnyChoice':
            return joinChoices(context, node, 'any');
        default:
            return undefined;
    }
}

/** Choices in a list, such as the terms of an exclusion; half-written ones are left out. */
export function lowerChoices(
    context: Lowering,
    nodes: readonly ast.ChoiceExpression[] | undefined,
): readonly ChoiceExpression[] {
    return (nodes ?? []).map(node => lowerGuard(context, node)).filter(choice => choice !== undefined);
}

/** One choice, alone or behind its option and a dot. */
export function lowerChoiceReference(context: Lowering, node: ast.ChoiceReference): ChoiceReference {
    const place = node.$cstNode ?? pointAround(node);
    const dotted = node.member !== undefined || hasDot(place);
    const choice = lowerReference(context, node.choice, dotted ? 'option' : 'choice', place);
    const member = dotted ? lowerReference(context, node.member, 'choice-of-option', place) : undefined;
    return { file: context.file, start: choice.start, end: (member ?? choice).end, sort: 'choice', choice, member };
}

/** A state that must hold; undefined where none is written or it has no beginning. */
export function lowerState(context: Lowering, node: ast.StateExpression | undefined): StateExpression | undefined {
    switch (node?.$type) {
        case 'State':
            return lowerSingleState(context, node);
        case 'NotState': {
            const operand = lowerState(context, node.operand);
            const place = node.$cstNode ?? pointAround(node);
            return operand && { file: context.file, start: startOf(place), end: endOf(place), sort: 'not', operand };
        }
        case 'AllStates':
            return joinStates(context, node, 'all');
        case 'AnyState':
            return joinStates(context, node, 'any');
        default:
            return undefined;
    }
}

/** The states of a list, such as those that a test needs. */
export function lowerStates(
    context: Lowering,
    nodes: readonly ast.StateExpression[] | undefined,
): readonly StateExpression[] {
    return (nodes ?? []).map(node => lowerState(context, node)).filter(state => state !== undefined);
}

function joinChoices(
    context: Lowering,
    node: ast.AllChoices | ast.AnyChoice,
    sort: 'all' | 'any',
): ChoiceExpression | undefined {
    const place = node.$cstNode ?? pointAround(node);
    const operands = lowerChoices(context, node.operands);
    return operands.length < 2
        ? operands[0]
        : { file: context.file, start: startOf(place), end: endOf(place), sort, operands };
}

function joinStates(
    context: Lowering,
    node: ast.AllStates | ast.AnyState,
    sort: 'all' | 'any',
): StateExpression | undefined {
    const place = node.$cstNode ?? pointAround(node);
    const operands = lowerStates(context, node.operands);
    return operands.length < 2
        ? operands[0]
        : { file: context.file, start: startOf(place), end: endOf(place), sort, operands };
}

function lowerSingleState(context: Lowering, node: ast.State): StateExpression | undefined {
    const { file } = context;
    const place = node.$cstNode ?? pointAround(node);
    const subject = lowerOptionalReference(context, node.subject, 'subject', place);
    if (node.isolated) {
        return {
            file,
            start: startOf(place),
            end: endOf(place),
            sort: 'state',
            subject,
            is: 'isolated',
            value: undefined,
        };
    }
    if (!subject) return undefined;
    const { start } = subject;
    if (node.flowing) {
        return { file, start, end: endOf(place), sort: 'state', subject, is: 'flowing', value: undefined };
    }
    const value = lowerReference(context, node.value, 'value', place);
    return { file, start, end: value.end, sort: 'state', subject, is: 'value', value };
}
