/** Whatever is met on a way through an exported document stands among the cautions of the step, with what holds it then. */
import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { sliceToBuild } from '../../language/src/document/slice.js';
import type { HazardMet, TreeDocument } from '../../language/src/document/types.js';
import { exportFrom, filesOf, readFiles } from '../document/support.js';
import { root } from '../house/project.mjs';
import { goThroughDocument, type Met } from './go-through-document.js';
import { type Random, randomFrom } from './random.js';
import { runs } from './runs.js';

const folders = ['tests/worlds', 'examples']
    .flatMap(parent => readdirSync(join(root, parent)).map(name => `${parent}/${name}`))
    .filter(
        folder => existsSync(join(root, folder)) && Object.keys(filesOf(folder)).some(name => name.endsWith('.fault')),
    );

const { seed } = runs(1);
const buildsTried = 4;
const waysTried = 60;

describe.each(folders)('%s', folder => {
    const files = filesOf(folder);
    const trees = [...readFiles(files).files.values()].flatMap(file => file.trees.map(tree => tree.name.text));

    test.each(trees)('%s', async name => {
        const document = await exportFrom(files, name);
        const random = randomFrom(seed);
        const slices = random.times(buildsTried, buildsTried, () => anyBuild(document, random)).flat();
        expect(slices.length).toBeGreaterThan(0);
        for (const slice of slices) {
            for (let way = 0; way < waysTried; way += 1) {
                const lacking = goThroughDocument(slice, random).filter(met => !isTold(met));
                expect(lacking.map(({ at, ...met }) => ({ step: at.id, ...met }))).toEqual([]);
            }
        }
    });
});

test('the ways meet hazards of every sort: controlled, waited for, and permitted beside', async () => {
    const met: Met[] = [];
    for (const folder of ['tests/worlds/gas-boiler', 'examples/dust-extractor']) {
        const files = filesOf(folder);
        for (const tree of [...readFiles(files).files.values()].flatMap(file => file.trees)) {
            const document = await exportFrom(files, tree.name.text);
            const random = randomFrom(seed);
            const slices = random.times(4, 4, () => anyBuild(document, random)).flat();
            for (const slice of slices) {
                met.push(...random.times(waysTried, waysTried, () => goThroughDocument(slice, random)).flat());
            }
        }
    }
    expect(met.filter(({ closed }) => closed.length > 0).length).toBeGreaterThan(100);
    expect(met.filter(({ permitting }) => permitting.length > 0).length).toBeGreaterThan(20);
    expect(met.filter(({ waited }) => waited).length).toBeGreaterThan(0);
    expect(met.filter(({ subject }) => subject !== undefined).length).toBeGreaterThan(0);
    expect(met.filter(({ at }) => !('statements' in at)).length).toBeGreaterThan(0);
});

/** The document of one build; none where these choices are not made together. */
function anyBuild(document: TreeDocument, random: Random): readonly TreeDocument[] {
    for (let attempt = 0; attempt < 40; attempt += 1) {
        const choices = document.equipment.options
            .filter(({ guard }) => !guard || random.chance(0.5))
            .map(({ choices: all }) => random.pick(all).id);
        const slice = sliceToBuild(document, choices).document;
        if (slice) return [slice];
    }
    return [];
}

function isTold({ at, hazard, zone, subject, closed, permitting, waited }: Met): boolean {
    const told = (at.cautions ?? [])
        .filter((caution): caution is HazardMet => caution.type === 'hazard')
        .filter(caution => caution.hazard === hazard && caution.zone === zone)
        .filter(({ withPart, withTest }) => [undefined, subject].includes(withPart ?? withTest));
    const controls = told.flatMap(caution => caution.controls ?? []);
    const isNamed = (type: string, gate: string) =>
        controls.some(control => control.type === type && 'gate' in control && control.gate === gate);
    return (
        told.length > 0 &&
        closed.every(gate => isNamed('gate', gate)) &&
        permitting.every(gate => isNamed('permit', gate)) &&
        (!waited || controls.some(({ type }) => type === 'wait'))
    );
}
