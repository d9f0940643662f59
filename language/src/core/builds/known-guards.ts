// Guards over the choices of one equipment, each kept once: a large tree says the same ones again and again.

import type { Choice } from '../model/equipment.js';
import type { ChoiceExpression, ChoiceReference } from '../model/guards.js';
import type { ChoiceCondition, OptionOf, Target } from './evaluate.js';

/** A guard whose operands so far are those on the way here, and the longer ones by their next operand. */
interface Known {
    guard: ChoiceCondition | undefined;
    readonly longer: Map<ChoiceCondition, Known>;
}

/** Looks guards up; those that say the same in the same order are the same object. */
export class KnownGuards {
    private readonly choices = new Map<Choice, ChoiceCondition>();
    private readonly not = new Map<ChoiceCondition, ChoiceCondition>();
    private readonly joined = { all: unknown(), any: unknown() };

    constructor(private readonly optionOf: OptionOf) {}

    /** A guard with its names looked up, as `resolveChoices` does. */
    resolve(expression: ChoiceExpression, target: Target): ChoiceCondition | undefined {
        if (expression.sort === 'choice') return this.resolveChoice(expression, target);
        if (expression.sort === 'not') {
            const operand = this.resolve(expression.operand, target);
            return operand && this.notOf(operand);
        }
        const operands: ChoiceCondition[] = [];
        let known = this.joined[expression.sort];
        for (const operand of expression.operands) {
            const resolved = this.resolve(operand, target);
            if (!resolved) return undefined;
            operands.push(resolved);
            known = longerBy(resolved, known);
        }
        known.guard ??= { sort: expression.sort, operands };
        return known.guard;
    }

    private resolveChoice(reference: ChoiceReference, target: Target): ChoiceCondition | undefined {
        const choice = target(reference.member ?? reference.choice);
        if (choice?.sort !== 'choice-declared') return undefined;
        let known = this.choices.get(choice);
        if (!known) {
            const option = this.optionOf(choice);
            if (!option) return undefined;
            known = { sort: 'is', option, choice };
            this.choices.set(choice, known);
        }
        return known;
    }

    private notOf(operand: ChoiceCondition): ChoiceCondition {
        let known = this.not.get(operand);
        if (!known) {
            known = { sort: 'not', operand };
            this.not.set(operand, known);
        }
        return known;
    }
}

function unknown(): Known {
    return { guard: undefined, longer: new Map() };
}

function longerBy(operand: ChoiceCondition, { longer }: Known): Known {
    let known = longer.get(operand);
    if (!known) {
        known = unknown();
        longer.set(operand, known);
    }
    return known;
}
