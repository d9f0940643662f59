// Measures the walk's rules on invented trees, within one process: prints one line of JSON with what took how long.

import { defaultSettings } from '../../language/src/core/findings/settings.js';
import type { Rule } from '../../language/src/core/findings/rule.js';
import { verify } from '../../language/src/core/findings/verify.js';
import type { Model } from '../../language/src/core/model/model.js';
import { replay, worldsOf } from '../../language/src/core/replay/replay.js';
import { walkEquipment } from '../../language/src/core/walk/walks.js';
import { rules } from '../../language/src/rules/index.js';
import { readWorkspace, type Workspace } from '../../language/src/workspace/read-workspace.js';
import { linkWorkspace } from '../../language/src/core/linking/workspace-links.js';
import type { GeneratedFile } from './generate-workspace.js';
import { boxesFile, generateLargeTree, type LargeTreeSize } from './invented-large-trees.js';
import { generateOptionTree } from './invented-options.js';

const rounds = Number(process.argv[2] ?? 5);
const signal = { aborted: false };
const walked = rules.filter(rule => rule.asks === 'walked');
const diagnosis = walked.filter(rule => rule.group !== 'safety');

function read(files: readonly GeneratedFile[]): Workspace {
    const sources = files.map(({ path, text }) => ({ file: path, text }));
    return readWorkspace(sources, { presence: () => 'present' });
}

function ask(workspace: Workspace, asked: readonly Rule[]): number {
    const { model, findings } = workspace;
    const verdict = verify(model, findings, { rules: asked, settings: defaultSettings, signal, cost: 'slow' });
    return verdict?.findings.length ?? -1;
}

function timeOf(work: () => void): number {
    const started = performance.now();
    work();
    return performance.now() - started;
}

/** The least of several rounds: what else the machine does only ever makes a round longer. */
function leastOf(prepare: () => () => void): number {
    const times: number[] = [];
    for (let round = 0; round < rounds; round += 1) times.push(timeOf(prepare()));
    return Math.min(...times);
}

/** All rules of a large tree, each time read anew so that nothing is remembered. */
function large(size: LargeTreeSize, asked: readonly Rule[]): number {
    const files = generateLargeTree(size);
    return leastOf(() => {
        const workspace = read(files);
        return () => ask(workspace, asked);
    });
}

function options(guards: 'near' | 'any'): number {
    const file = generateOptionTree({ steps: 10_000, options: 60, guards });
    return leastOf(() => {
        const workspace = read([file]);
        return () => ask(workspace, diagnosis);
    });
}

/** One edited step: the tree's file is read and linked anew, the equipment's is as it was. */
function edit(): number {
    const before = read(generateLargeTree({ steps: 500, options: 40 }));
    ask(before, walked);
    const after = read(generateLargeTree({ steps: 500, options: 40, edited: true }));
    return leastOf(() => {
        const files = new Map(before.model.files);
        const edited = after.model.files.get(boxesFile);
        // A file of its own for each round, because what is known of the last one would be found again.
        if (edited) files.set(boxesFile, structuredClone(edited));
        return () => {
            const model = linkWorkspace(files, () => 'present');
            verify(model, [], { rules: walked, settings: defaultSettings, signal, cost: 'slow', files: [boxesFile] });
        };
    });
}

/** One world after the other, for as many as there is time for, as what all of them would take. */
function enumeration(): { walk: number; replayed: number } {
    const { model } = read(generateLargeTree({ steps: 500, options: 5 }));
    const equipment = equipmentOf(model);
    if (!equipment) throw new Error('The large tree has no equipment.');
    const started = performance.now();
    const all = walkEquipment(equipment, model, signal);
    const walk = performance.now() - started;
    const [tree] = all?.trees ?? [];
    if (!all || !tree) throw new Error('The large tree was not walked.');
    let count = 0;
    let played = 0;
    const begun = performance.now();
    for (const world of worldsOf(all.unit)) {
        count += 1;
        // Every fiftieth world stands for the fifty.
        if (count % 50 === 0 && performance.now() - begun < 4000) {
            replay(tree.route, world);
            played += 1;
        }
        if (count >= 50_000) break;
    }
    const each = (performance.now() - begun) / Math.max(1, played);
    return { walk, replayed: each * count };
}

function equipmentOf(model: Model) {
    return [...model.files.values()].flatMap(({ equipment }) => equipment)[0];
}

const [many, few, quick] = [
    large({ steps: 500, options: 40 }, walked),
    large({ steps: 500, options: 5 }, walked),
    large({ steps: 500, options: 40 }, diagnosis),
];
const growth = [1000, 2500, 5000].map(steps => ({ steps, time: large({ steps, options: 40 }, walked) }));
console.log(
    JSON.stringify({
        many,
        few,
        quick,
        growth,
        near: options('near'),
        any: options('any'),
        edit: edit(),
        enumeration: enumeration(),
    }),
);
