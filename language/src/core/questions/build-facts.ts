// What the exclusions of an equipment leave: whether any build, and which choices.

import type { Choice, Equipment, Exclusion, Option } from '../model/equipment.js';
import type { ChoiceExpression } from '../model/guards.js';
import type { Model } from '../model/model.js';
import { type ChoiceCondition, optionsIn } from '../builds/evaluate.js';
import { findBuild } from '../builds/find-build.js';
import { conditionsOf, searchBuilds, spaceOf } from './builds.js';

export interface DeadChoice {
    readonly option: Option;
    readonly choice: Choice;
    /** The exclusions that name the choice. */
    readonly exclusions: readonly Exclusion[];
}

/** Whether an equipment has any build; `undecided` where the search gave up. */
export function hasBuild(equipment: Equipment, model: Model): 'yes' | 'no' | 'undecided' {
    const { sort } = searchBuilds(equipment, model, []);
    if (sort === 'found') return 'yes';
    return sort === 'none' ? 'no' : 'undecided';
}

/** Choices that no build has, although there are builds and the option is not ruled out as a whole. */
export function deadChoices(equipment: Equipment, model: Model): DeadChoice[] {
    if (hasBuild(equipment, model) !== 'yes') return [];
    const { guards, excluded } = spaceOf(equipment, model);
    const asked = new Set<Option>(guards.keys());
    for (const condition of [...excluded, ...guards.values()]) optionsIn(condition, asked);
    const dead: DeadChoice[] = [];
    for (const option of equipment.options) {
        if (!asked.has(option)) continue;
        const guard = guards.get(option);
        // An option that no build has is told where its own guard stands.
        if (guard && searchBuilds(equipment, model, [guard]).sort !== 'found') continue;
        for (const choice of option.choices) {
            const wanted: ChoiceCondition = { sort: 'is', option, choice };
            if (searchBuilds(equipment, model, [wanted]).sort !== 'none') continue;
            const exclusions = equipment.exclusions.filter(({ terms }) =>
                terms.some(term => names(term, choice, model)),
            );
            dead.push({ option, choice, exclusions });
        }
    }
    return dead;
}

/** Choices of which it could not be decided whether a build has them. */
export function undecidedChoices(equipment: Equipment, model: Model): Choice[] {
    if (hasBuild(equipment, model) !== 'yes') return [];
    return equipment.options.flatMap(option =>
        option.choices.filter(
            choice => searchBuilds(equipment, model, [{ sort: 'is', option, choice }]).sort === 'undecided',
        ),
    );
}

/** More exclusions than this are not tried one by one. */
const mostExclusions = 200;

/**
 * Exclusions that together leave no build, of which none can be left out;
 * all of them where there are too many to try.
 */
export function conflictingExclusions(equipment: Equipment, model: Model): readonly Exclusion[] {
    const known = equipment.exclusions.flatMap(exclusion => {
        const operands = conditionsOf(exclusion.terms, model, equipment);
        return operands && operands.length > 0 ? [{ exclusion, condition: { sort: 'all', operands } as const }] : [];
    });
    if (known.length > mostExclusions) return known.map(({ exclusion }) => exclusion);
    const space = spaceOf(equipment, model);
    let kept = known;
    for (const one of known) {
        const without = kept.filter(other => other !== one);
        const excluded = without.map(({ condition }) => condition);
        if (findBuild({ ...space, excluded }).sort === 'none') kept = without;
    }
    return kept.map(({ exclusion }) => exclusion);
}

function names(expression: ChoiceExpression, choice: Choice, model: Model): boolean {
    switch (expression.sort) {
        case 'choice':
            return model.target(expression.member ?? expression.choice) === choice;
        case 'not':
            return names(expression.operand, choice, model);
        default:
            return expression.operands.some(operand => names(operand, choice, model));
    }
}
