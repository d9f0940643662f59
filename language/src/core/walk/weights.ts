// How likely worlds are: the shares of builds, the rates of faults, and the mistaken complaints.

import type { Choice, Option } from '../model/equipment.js';
import type { Amount } from '../model/written.js';
import { coherentValue, parseQuantity } from '../quantities/quantity.js';
import { shareOf } from '../meaning/resolving.js';
import type { UnitFault } from '../meaning/unit.js';
import { allWorlds, noWorlds, type WorldSet } from './sets/world-sets.js';
import { buildsWhere, changedByActions, onlyMade, type WalkSpace } from './space.js';

/** A fault without a rate counts as one in a million hours. */
const defaultRate = 1 / 1e6;

/** The weights of one unit. */
export interface Weights {
    /** The share of the fleet that has the builds of a set, from 0 to 1, with draws weighed evenly. */
    share(set: WorldSet): number;
    /** How often a fault comes in the builds of a set: faults per hour, times the share of those builds. */
    rate(fault: number, set: WorldSet): number;
}

const known = new WeakMap<WalkSpace, Weights>();

/** The weights of a unit's worlds; made once. */
export function weightsOf(space: WalkSpace): Weights {
    let weights = known.get(space);
    if (!weights) {
        weights = makeWeights(space);
        known.set(space, weights);
    }
    return weights;
}

function makeWeights(space: WalkSpace): Weights {
    const { sets, variables, unit } = space;
    const table: number[][] = sets.sizes.map(size => Array.from({ length: size }, () => 1));
    for (const [option, variable] of variables.options) {
        const shares = sharesOf(option);
        // A build that lacks the option counts by its other choices alone.
        table[variable] = Array.from({ length: sets.sizes[variable] ?? 0 }, (_, value) => shares[value] ?? 1);
    }
    for (const [test, variable] of variables.draws.entries()) {
        const size = variables.drawSizes[test] ?? 1;
        if (variable >= 0) table[variable] = Array.from({ length: size }, () => 1 / size);
    }
    const changing = changedByActions(variables);
    // What actions change does not make a world more or less likely: such variables are forgotten and weigh one.
    for (const variable of changing) table[variable] = table[variable]?.map((_, value) => (value === 0 ? 1 : 0)) ?? [];
    const builds = (set: WorldSet) => onlyMade(sets.forget(set, changing), space);
    const all = sets.weigh(builds(allWorlds), table);
    // Faults of the same builds are weighed again and again.
    const weighed = new Map<WorldSet, number>([[noWorlds, 0]]);
    const share = (set: WorldSet) => {
        let found = weighed.get(set);
        if (found === undefined) {
            found = all === 0 ? 0 : sets.weigh(builds(set), table) / all;
            weighed.set(set, found);
        }
        return found;
    };
    const rates: (readonly RatedBuilds[])[] = [];
    return {
        share,
        rate: (number, set) => {
            const fault = unit.faults[number];
            if (!fault) return 0;
            const rated = (rates[number] ??= ratesOf(fault, space));
            return rated.reduce((sum, { builds: within, perHour }) => sum + perHour * share(sets.and(set, within)), 0);
        },
    };
}

/** The share of each choice; choices without one divide what the others leave. */
export function sharesOf(option: Option): number[] {
    const said = option.choices.map(({ share }) => shareOf(share));
    const left = Math.max(0, 1 - said.reduce<number>((sum, share) => sum + (share ?? 0), 0));
    const silent = said.filter(share => share === undefined).length;
    return said.map(share => share ?? left / silent);
}

interface RatedBuilds {
    readonly builds: WorldSet;
    readonly perHour: number;
}

/** The rate of a fault in each group of builds. */
function ratesOf(fault: UnitFault, space: WalkSpace): RatedBuilds[] {
    const { sets } = space;
    const rated: RatedBuilds[] = [];
    let left: WorldSet = allWorlds;
    for (const { guard } of fault.onlyWhenCaused) left = sets.without(left, buildsWhere(guard, space));
    for (const { guard, rate } of fault.rates) {
        const here = sets.and(left, buildsWhere(guard, space));
        left = sets.without(left, here);
        rated.push(...ratesPerHour(rate.amount, rate.per, here, space));
    }
    rated.push({ builds: left, perHour: defaultRate });
    return rated.filter(({ builds }) => builds !== noWorlds);
}

function ratesPerHour(
    amount: Amount | undefined,
    per: Amount | undefined,
    builds: WorldSet,
    space: WalkSpace,
): RatedBuilds[] {
    const count = valueOf(amount);
    const time = per && parseQuantity(per.written);
    const every = per === undefined ? 1 : valueOf(per);
    if (count === undefined || every === undefined || every === 0) return [{ builds, perHour: defaultRate }];
    if (time?.unit && isTime(per)) return [{ builds, perHour: (count / every) * 3600 }];
    return dutiesFor(per, builds, space).map(({ builds: within, perHour }) => ({
        builds: within,
        perHour: (count / every) * perHour,
    }));
}

function isTime(amount: Amount | undefined): boolean {
    const quantity = amount && parseQuantity(amount.written);
    return quantity?.unit?.dimension.time === 1;
}

function valueOf(amount: Amount | undefined): number | undefined {
    const quantity = amount && parseQuantity(amount.written);
    const value = quantity && coherentValue(quantity);
    return value && Number(value.valueOf());
}

/** How often units start, or do what else is counted, by the choice that says so; once an hour where none does. */
function dutiesFor(per: Amount | undefined, builds: WorldSet, space: WalkSpace): RatedBuilds[] {
    const { sets, variables } = space;
    const counted = per && parseQuantity(per.written)?.unitText;
    const duties: RatedBuilds[] = [];
    let left = builds;
    for (const [option, variable] of variables.options) {
        option.choices.forEach((choice: Choice, value) => {
            const duty = choice.duty;
            if (!duty || parseQuantity(duty.amount.written)?.unitText !== counted) return;
            const here = sets.and(left, sets.is(variable, value));
            left = sets.without(left, here);
            const seconds = valueOf(duty.per) ?? 3600;
            duties.push({ builds: here, perHour: ((valueOf(duty.amount) ?? 0) / seconds) * 3600 });
        });
    }
    return [...duties, { builds: left, perHour: 1 }].filter(one => one.builds !== noWorlds);
}
