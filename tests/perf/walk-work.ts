// Measures one case of the rules that ask the walk, in a process of its own: prints one line of JSON.
// Use: node walk-work.mjs CASE [ARGUMENT...], where CASE is `tree`, `options`, `edit` or `worlds`.

import { defaultSettings } from '../../language/src/core/findings/settings.js';
import type { Rule } from '../../language/src/core/findings/rule.js';
import { verify } from '../../language/src/core/findings/verify.js';
import { linkWorkspace } from '../../language/src/core/linking/workspace-links.js';
import { equipmentWalks } from '../../language/src/core/questions/walks.js';
import { replay } from '../../language/src/core/replay/replay.js';
import { buildsOf } from '../../language/src/core/replay/world.js';
import type { EquipmentWalks } from '../../language/src/core/walk/walks.js';
import { rules } from '../../language/src/rules/index.js';
import { readSource, readWorkspace, type Workspace } from '../../language/src/workspace/read-workspace.js';
import type { GeneratedFile } from './generate-workspace.js';
import { boxesFile, generateLargeTree } from './invented-large-trees.js';
import { generateOptionTree } from './invented-options.js';

const signal = { aborted: false };
const walked = rules.filter(rule => rule.asks === 'walked');
/** How often a case is measured in one process. The first time counts by itself: nothing is compiled yet. */
const rounds = 7;

/** What is printed: milliseconds, but for the counts. */
interface Measured {
    /** The first time in a new process. */
    readonly first: number;
    /** The median of the other times. */
    readonly later: number;
    /** The median of the time of a fixed loop, measured in between: what else the machine does meets both. */
    readonly loop: number;
    readonly [count: string]: number | string;
}

function tree(steps: number, options: number, which: string): Measured {
    const files = generateLargeTree({ steps, options });
    const asked = which === 'diagnosis' ? walked.filter(({ group }) => group !== 'safety') : walked;
    return measure(() => {
        const workspace = read(files);
        return () => ask(workspace, asked);
    });
}

/** The walk alone, without any rule. */
function options(guards: 'near' | 'any', steps: number): Measured {
    const file = generateOptionTree({ steps, options: 60, guards, aheadEvery: guards === 'near' ? 8 : 2 });
    let all: EquipmentWalks | undefined;
    const measured = measure(() => {
        const workspace = read([file]);
        return () => {
            all = walksOf(workspace);
        };
    });
    const { undecided = new Set(), stations = [] } = all?.trees[0]?.walk ?? {};
    const reached = stations.filter(crowds => crowds.size > 0).length;
    return { ...measured, heldAs: all?.heldAs ?? 'nothing', reached, undecided: undecided.size };
}

/** One edited step, to and fro: the tree's file is read and linked anew, the equipment's is as it was. */
function edit(): Measured {
    const versions = [true, false].map(edited => generateLargeTree({ steps: 500, options: 40, edited }));
    const workspace = read(versions[1] ?? []);
    ask(workspace, walked);
    let round = 0;
    return measure(() => {
        const text = (versions[round % 2] ?? []).find(({ path }) => path === boxesFile)?.text ?? '';
        round += 1;
        const files = new Map(workspace.model.files);
        files.set(boxesFile, readSource(boxesFile, text).model);
        const model = linkWorkspace(files, () => 'present');
        return () => verify(model, [], { rules: walked, settings: defaultSettings, signal, files: [boxesFile] });
    });
}

/**
 * Each build with each fault and none, one after the other, beside the walk of all of them, both without any rule. Only the
 * first of what is left open is played, while the walk goes through all of it; every eighth world stands for the eight.
 */
function worlds(): Measured {
    const files = generateLargeTree({ steps: 500, options: 5 });
    let all: EquipmentWalks | undefined;
    const walk = measure(() => {
        const workspace = read(files);
        return () => {
            all = walksOf(workspace);
        };
    });
    const route = all?.trees[0]?.route;
    if (!all || !route) throw new Error('The large tree was not walked.');
    const { unit } = all;
    const draws = unit.tests.map(() => 0);
    const arrivals = [[], ...unit.faults.map(({ number }) => [number])];
    const every = [...buildsOf(unit.space)].flatMap(build => arrivals.map(arrival => ({ build, arrival, draws })));
    const played = every.filter((_, index) => index % 8 === 0);
    const one = measure(
        () => () => {
            for (const world of played) replay(route, world);
        },
        2,
    );
    const share = every.length / played.length;
    return { ...one, first: one.first * share, later: one.later * share, worlds: every.length, walk: walk.later };
}

function read(files: readonly GeneratedFile[]): Workspace {
    const workspace = readWorkspace(
        files.map(({ path, text }) => ({ file: path, text })),
        { presence: () => 'present' },
    );
    // Files are linked when somebody asks, and that is no part of the walk.
    for (const file of workspace.model.files.keys()) workspace.model.problems(file);
    return workspace;
}

function ask({ model, findings }: Workspace, asked: readonly Rule[]): void {
    const verdict = verify(model, findings, { rules: asked, settings: defaultSettings, signal });
    if (verdict?.findings.length !== 0) throw new Error('Something was found in an honest tree.');
}

function walksOf({ model }: Workspace): EquipmentWalks | undefined {
    const [equipment] = [...model.files.values()].flatMap(file => file.equipment);
    return equipment && equipmentWalks(equipment, model, signal);
}

function measure(prepare: () => () => void, count = rounds): Measured {
    const times: number[] = [];
    const loops: number[] = [];
    for (let round = 0; round < count; round += 1) {
        const work = prepare();
        const started = performance.now();
        work();
        times.push(performance.now() - started);
        loops.push(fixedLoop());
    }
    const [first = 0, ...others] = times;
    return { first, later: medianOf(others), loop: medianOf(loops) };
}

/** The time of a fixed amount of the kind of work that the walk does: small numbers, looked up in a table of them. */
function fixedLoop(): number {
    const started = performance.now();
    const table = new Int32Array(1 << 16);
    let mixed = 1;
    for (let step = 0; step < 4_000_000; step += 1) {
        mixed = Math.imul(mixed ^ step, 0x9e3779b1);
        const place = (mixed >>> 15) & 0xffff;
        table[place] = ((table[place] ?? 0) + mixed) | 0;
    }
    if (table.every(number => number === 0)) throw new Error('The loop did nothing.');
    return performance.now() - started;
}

function medianOf(numbers: readonly number[]): number {
    return [...numbers].sort((one, other) => one - other)[numbers.length >> 1] ?? 0;
}

const [what, ...more] = process.argv.slice(2);
const cases: Readonly<Record<string, () => Measured>> = {
    tree: () => tree(Number(more[0]), Number(more[1]), more[2] ?? ''),
    options: () => options(more[0] === 'near' ? 'near' : 'any', Number(more[1])),
    edit,
    worlds,
};
console.log(JSON.stringify(cases[what ?? '']?.()));
