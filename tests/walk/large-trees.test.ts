/** What walks of large trees take, in stations passed and nodes made: what cannot be timed here is counted. */
import { describe, expect, test } from 'vitest';
import { usualBudget } from '../../language/src/core/walk/space.js';
import type { RouteWalk } from '../../language/src/core/walk/walk-route.js';
import { type EquipmentWalks, walkEquipment } from '../../language/src/core/walk/walks.js';
import { boxesFile, generateLargeTree } from '../perf/invented-large-trees.js';
import { generateOptionTree } from '../perf/invented-options.js';
import type { GeneratedFile } from '../perf/generate-workspace.js';
import { findingsOf, readTexts } from '../support/read-texts.js';

describe('a large tree that isolates two hundred faults', { timeout: 60_000 }, () => {
    const half = walked(generateLargeTree({ steps: 500, options: 40 }));
    const whole = walked(generateLargeTree({ steps: 1000, options: 40 }));

    test('is honest: nothing is found, in many builds or few, before an edit and after it', () => {
        for (const size of [
            { steps: 500, options: 40 },
            { steps: 500, options: 5 },
            { steps: 500, options: 40, edited: true },
        ]) {
            expect(findingsOf(textsOf(generateLargeTree(size)))).toEqual([]);
        }
    });

    test('has as many steps as are wanted, a quarter of them for some builds only', () => {
        const [tree] =
            readTexts(textsOf(generateLargeTree({ steps: 500, options: 40 }))).model.files.get(boxesFile)?.trees ?? [];
        expect(tree?.steps).toHaveLength(500);
        expect(tree?.steps.filter(({ guard }) => guard).length).toBeGreaterThanOrEqual(125);
        expect(whole.all.unit.faults).toHaveLength(200);
        expect(whole.all.unit.space.options).toHaveLength(40);
    });

    test('takes each fault through each station once, and only where it goes', () => {
        for (const { walk } of [half, whole]) {
            const visits = walk.stations.reduce((sum, crowds) => sum + crowds.size, 0);
            expect(walk.passes).toBe(visits);
            // A fault goes the way of its own stand.
            expect(visits).toBeLessThan((201 * walk.route.stations.length) / 15);
        }
    });

    test('takes as many more passes as it has more steps, and hardly more nodes', () => {
        const twice = walked(generateLargeTree({ steps: 2000, options: 40 }));
        const [first, second] = [whole.walk.passes - half.walk.passes, twice.walk.passes - whole.walk.passes];
        expect(second / first).toBeLessThan(2.1);
        const nodes = [half, whole, twice].map(({ all }) => all.around.space.sets.nodeCount);
        expect(Math.max(...nodes)).toBeLessThan(9000);
    });

    test('takes about as much with forty options as with five', () => {
        const few = walked(generateLargeTree({ steps: 500, options: 5 }));
        expect(half.walk.passes).toBeLessThan(1.1 * few.walk.passes);
        expect(half.all.around.space.sets.nodeCount).toBeLessThan(4 * few.all.around.space.sets.nodeCount);
    });
});

describe('a large tree about options only', { timeout: 60_000 }, () => {
    const size = { steps: 2000, options: 60, aheadEvery: 8 };

    test('takes each station once, and few nodes where its guards are about options near each other', () => {
        const { walk, all } = walked([generateOptionTree({ ...size, guards: 'near' })]);
        expect(all.heldAs).toBe('diagrams');
        expect(walk.passes).toBeLessThanOrEqual(size.steps);
        expect(all.around.space.sets.nodeCount).toBeLessThan(30 * size.steps);
    });

    test('takes a few formulas for each step, whatever its guards are about', () => {
        for (const guards of ['near', 'any'] as const) {
            const { walk, all } = walked([generateOptionTree({ ...size, guards, aheadEvery: 2 })], noDiagrams);
            expect(all.heldAs).toBe('formulas');
            expect(walk.passes).toBeLessThanOrEqual(size.steps);
            expect(all.around.space.sets.nodeCount).toBeLessThan(5 * size.steps);
            expect(walk.undecided.size).toBe(0);
        }
    });
});

const noDiagrams = { ...usualBudget, nodes: 2 };

function walked(files: readonly GeneratedFile[], budget = usualBudget): { all: EquipmentWalks; walk: RouteWalk } {
    const { model } = readTexts(textsOf(files));
    const equipment = [...model.files.values()].flatMap(file => file.equipment)[0];
    const all = equipment && walkEquipment(equipment, model, { aborted: false }, budget);
    const walk = all?.trees[0]?.walk;
    if (!all || !walk) throw new Error('The large tree was not walked.');
    return { all, walk };
}

function textsOf(files: readonly GeneratedFile[]): Record<string, string> {
    return Object.fromEntries(files.map(({ path, text }) => [path, text]));
}
