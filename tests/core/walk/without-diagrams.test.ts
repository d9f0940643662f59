/** Walks with formulas where no diagram is small: whoever is said to come somewhere does, and whoever is not does not. */
import { describe, expect, test } from 'vitest';
import type { ChoiceCondition } from '../../../language/src/core/builds/evaluate.js';
import type { Route } from '../../../language/src/core/meaning/route.js';
import { replay } from '../../../language/src/core/replay/replay.js';
import { pickWorld, usualBudget } from '../../../language/src/core/walk/space.js';
import type { RouteWalk } from '../../../language/src/core/walk/walk-route.js';
import { walkEquipment } from '../../../language/src/core/walk/walks.js';
import { generateOptionTree } from '../../perf/invented-options.js';
import { logic, type LogicFormula } from '../../support/logic-solver.js';
import { readTexts } from '../../support/read-texts.js';

describe('a tree half of whose steps are for any builds', { timeout: 120_000 }, () => {
    // With few options more steps are for builds that have gone another way.
    const walks = [walkTree(40, 1), walkTree(40, 2), walkTree(12, 3), walkTree(8, 4)];

    test('leaves nothing open, and has steps to which nobody comes', () => {
        for (const { undecided } of walks) expect(undecided.size).toBe(0);
        expect(walks.map(walk => unreached(walk).length).reduce((sum, count) => sum + count)).toBeGreaterThan(10);
    });

    test('has a unit for each step to which somebody comes, which the plain replay leads there', () => {
        for (const { route, stations, around } of walks) {
            for (const [number, crowds] of stations.entries()) {
                const [set] = crowds.values();
                if (set === undefined) continue;
                const world = pickWorld(set, around.space);
                const runs = world ? replay(route, { ...world, arrival: [] }) : [];
                expect(runs.some(({ visits }) => visits.some(({ station }) => station === number))).toBe(true);
            }
        }
    });

    test('has none for the others: a general solver finds none either', () => {
        for (const walk of walks) {
            const solver = solverFor(walk.route);
            // With no step left over this cannot hold either.
            solver.require(logic.or(unreached(walk).map(nameOf)));
            expect(solver.solve()).toBeNull();
            // It is not that the solver finds nobody anywhere.
            const other = solverFor(walk.route);
            other.require(nameOf(walk.route.stations.length - 1));
            expect(other.solve()).not.toBeNull();
        }
    });
});

function walkTree(options: number, seed: number): RouteWalk {
    // With a way ahead at every step nearly all that was asked before matters at each.
    const { path, text } = generateOptionTree({ steps: 700, options, guards: 'any', aheadEvery: 1, seed });
    const { model } = readTexts({ [path]: text });
    const equipment = model.files.get(path)?.equipment[0];
    const budget = { ...usualBudget, nodes: 2000 };
    const all = equipment && walkEquipment(equipment, model, { aborted: false }, budget);
    const walk = all?.trees[0]?.walk;
    if (!walk) throw new Error('The tree was not walked.');
    expect(all.heldAs).toBe('formulas');
    return walk;
}

function unreached({ stations }: RouteWalk): number[] {
    return stations.flatMap((crowds, number) => (crowds.size === 0 ? [number] : []));
}

function nameOf(station: number): string {
    return `station-${station}`;
}

/** What the text says, in the words of logic: a unit comes to a step exactly if a way leads it there. */
function solverFor({ unit, stations, exits }: Route) {
    const solver = new logic.Solver();
    for (const { choices } of unit.space.options) {
        solver.require(logic.exactlyOne(choices.map(({ name }) => name.text)));
    }
    for (const condition of unit.space.excluded) solver.forbid(formulaOf(condition));
    const ways: LogicFormula[][] = stations.map(() => []);
    for (const { number, actions } of stations) {
        let left: LogicFormula = nameOf(number);
        for (const action of actions) {
            if (action.sort !== 'leave') continue;
            const { to } = exits[action.exit] ?? {};
            const guard = action.guard && formulaOf(action.guard);
            if (to?.sort === 'station') ways[to.station]?.push(guard ? logic.and([left, guard]) : left);
            if (guard) left = logic.and([left, logic.not(guard)]);
        }
    }
    solver.require(nameOf(0));
    ways.forEach((leading, station) => {
        if (station === 0) return;
        const any = logic.or(leading);
        solver.require(logic.or([logic.not(nameOf(station)), any]));
        solver.require(logic.or([logic.not(any), nameOf(station)]));
    });
    return solver;
}

function formulaOf(condition: ChoiceCondition): LogicFormula {
    switch (condition.sort) {
        case 'is':
            return condition.choice.name.text;
        case 'not':
            return logic.not(formulaOf(condition.operand));
        case 'all':
            return logic.and(condition.operands.map(formulaOf));
        case 'any':
            return logic.or(condition.operands.map(formulaOf));
    }
}
