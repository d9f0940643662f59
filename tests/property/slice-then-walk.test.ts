/**
 * Cutting a document down to a build and then going through it is the same as going through the whole model in that build:
 * the plain replay, which knows guards and no documents, and a reader of the slice, which knows documents and no guards,
 * come the same way, statement by statement.
 */
import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { drawSizes } from '../../language/src/core/meaning/draws.js';
import { makeRoute } from '../../language/src/core/meaning/make-route.js';
import { resolveUnit } from '../../language/src/core/meaning/resolve-unit.js';
import type { Action, Route } from '../../language/src/core/meaning/route.js';
import type { Model } from '../../language/src/core/model/model.js';
import type { Tree } from '../../language/src/core/model/trees.js';
import { type Happening, replay, type Run, type World } from '../../language/src/core/replay/replay.js';
import { buildsOf, completeBuild, exists } from '../../language/src/core/replay/world.js';
import { defaultSettings } from '../../language/src/core/findings/settings.js';
import { verify } from '../../language/src/core/findings/verify.js';
import { prettyJson } from '../../language/src/document/canonical.js';
import { sliceToBuild } from '../../language/src/document/slice.js';
import type { TreeDocument } from '../../language/src/document/types.js';
import { writeTreeDocument } from '../../language/src/document/writing/write-tree-document.js';
import { rules } from '../../language/src/rules/index.js';
import type { Workspace } from '../../language/src/workspace/read-workspace.js';
import { filesOf, readFiles, tool } from '../document/support.js';
import { root } from '../house/project.mjs';
import { readTexts } from '../support/read-texts.js';
import { followDocument, type Given } from './follow-document.js';
import { type Random, randomFrom } from './random.js';
import { randomWorld } from './random-world.js';
import { runs } from './runs.js';

const folders = ['tests/worlds', 'examples']
    .flatMap(parent => readdirSync(join(root, parent)).map(name => `${parent}/${name}`))
    .filter(
        folder => existsSync(join(root, folder)) && Object.keys(filesOf(folder)).some(name => name.endsWith('.fault')),
    );

const buildsTried = 4;
const worldsTried = 24;
const randomTexts = 400;
const { seed } = runs(1);

test.each(folders)('%s', folder => {
    const model = readFiles(filesOf(folder));
    const trees = [...model.files.values()].flatMap(file => file.trees);
    const random = randomFrom(seed);
    const compared = trees.reduce((sum, tree) => sum + compareTree(tree, model, random), 0);
    expect(compared).toBeGreaterThan(trees.length);
});

describe('worlds that are made at random', () => {
    test('too', { timeout: 120_000 }, () => {
        let compared = 0;
        for (let number = 0; number < randomTexts; number += 1) {
            const workspace = readTexts({ 'example.fault': randomWorld(seed + number) });
            const file = workspace.model.files.get('example.fault');
            if (!file || isWrong(workspace)) continue;
            const { model } = workspace;
            const random = randomFrom(seed + number);
            for (const tree of file.trees) compared += compareTree(tree, model, random, true);
        }
        expect(compared).toBeGreaterThan(200);
    });
});

/** Whether names lead nowhere, or something is named that not every build has: only what is verified is ever cut down. */
function isWrong({ model, findings }: Workspace): boolean {
    const asked = rules.filter(({ code }) => code === 'missing-in-build');
    const verdict = verify(model, findings, { rules: asked, settings: defaultSettings, signal: { aborted: false } });
    const isBorne = (code: string) => code === 'undecided-walk';
    return (
        model.problems('example.fault').length > 0 ||
        (verdict?.findings ?? []).some(({ severity, code }) => severity === 'error' && !isBorne(code))
    );
}

/** Compares ways through one tree, and tells how many. */
function compareTree(tree: Tree, model: Model, random: Random, isRandom = false): number {
    const equipment = model.target(tree.equipment);
    const whole = documentOf(tree, model);
    if (equipment?.sort !== 'equipment' || !whole) return 0;
    const { unit, names } = resolveUnit(equipment, model);
    const route = makeRoute(tree, unit, names);
    let compared = 0;
    for (const build of someOf([...buildsOf(unit.space)], buildsTried, random)) {
        const choices = [...build].map(([option, choice]) => `${option.name.text}.${choice.name.text}`);
        const slice = sliceToBuild(whole, choices).document;
        const isForBuild = exists(route.guard, completeBuild(unit, build));
        expect([choices, slice !== undefined]).toEqual([choices, isForBuild]);
        if (!slice) continue;
        // In whatever order the choices are named, the slice is the same.
        expect(prettyJson(sliceToBuild(whole, choices.toReversed()).document ?? {})).toBe(prettyJson(slice));
        for (const world of worldsIn(route, build, random)) {
            for (const run of replay(route, world, { mostRuns: 4 })) {
                if (!isWhole(run) || (isRandom && !hasItsOutcomes(run, route, slice))) continue;
                expect(followDocument(slice, givenOn(run, route))).toEqual(toldOf(run, route));
                compared += 1;
            }
        }
    }
    return compared;
}

function documentOf(tree: Tree, model: Model): TreeDocument | undefined {
    const digests = new Map([...model.files.keys()].map(file => [file, '0'.repeat(64)]));
    return writeTreeDocument(model, tree, { tool, digests }).document;
}

/** Healthy, and with some of the faults that the build has; what is drawn is drawn at random. */
function worldsIn(route: Route, build: World['build'], random: Random): readonly World[] {
    const { unit } = route;
    const faults = unit.faults.filter(({ guard }) => exists(guard, completeBuild(unit, build)));
    const arrivals = [[], ...someOf(faults, worldsTried, random).map(({ number }) => [number])];
    const sizes = drawSizes(unit);
    return arrivals.map(arrival => ({ build, arrival, draws: sizes.map(size => random.between(0, size - 1)) }));
}

function someOf<T>(all: readonly T[], most: number, random: Random): readonly T[] {
    return all.length <= most ? all : random.times(most, most, () => random.pick(all));
}

/** What a build lacks, or leads nowhere, is left out of a slice, so there is nothing to compare. */
function isWhole({ visits, ending }: Run): boolean {
    const isEnd = ending.sort === 'end' || ending.sort === 'handed over';
    return isEnd && visits.every(({ steps }) => steps.every(({ sort }) => sort !== 'missing'));
}

/**
 * Whether each test has the outcome that it is said to show. The replay takes `normal` where no other outcome shows, also of a
 * test without a `normal` in this build or state; where a tree is verified, there is none of these.
 */
function hasItsOutcomes({ visits }: Run, { unit }: Route, { equipment }: TreeDocument): boolean {
    const outcomes = new Map(equipment.tests.map(test => [test.id, test.outcomes.map(({ id }) => id)]));
    return visits.every(({ steps }) =>
        steps.every(happening => {
            if (happening.sort !== 'asked') return true;
            const asked = unit.tests[happening.test];
            const outcome = asked?.outcomes[happening.outcome];
            return asked === undefined || outcome === undefined || outcomes.get(asked.name)?.includes(outcome);
        }),
    );
}

function givenOn({ visits }: Run, { unit }: Route): readonly Given[] {
    return visits.flatMap(({ steps }) =>
        steps.flatMap((happening): Given[] => {
            switch (happening.sort) {
                case 'asked':
                    return [{ outcome: unit.tests[happening.test]?.outcomes[happening.outcome] ?? 'nothing' }];
                case 'did':
                    return [{ canBeDone: true }];
                case 'cannot be done':
                    return [{ canBeDone: false }];
                default:
                    return [];
            }
        }),
    );
}

function toldOf({ visits, ending }: Run, route: Route): readonly string[] {
    const told = visits.flatMap(({ station, steps }) => {
        const { owner, step } = route.stations[station] ?? {};
        return [
            `step ${owner?.name.text ?? ''}.${step?.name.text ?? ''}`,
            ...steps.flatMap(happening => toldHappening(happening, route)),
        ];
    });
    if (ending.sort === 'handed over') return [...told, `tree ${ending.tree.name.text}`];
    const end = ending.sort === 'end' ? route.ends[ending.end]?.written.name.text : undefined;
    return [...told, `end ${end ?? ''}`];
}

function toldHappening(happening: Happening, { unit }: Route): readonly string[] {
    switch (happening.sort) {
        case 'asked': {
            const asked = unit.tests[happening.test];
            const outcome = asked?.outcomes[happening.outcome] ?? 'nothing';
            return [`${happening.action.confirms ? 'confirm' : 'test'} ${asked?.name ?? ''}: ${outcome}`];
        }
        case 'read':
            return [`read ${unit.tests[happening.test]?.name ?? ''}`];
        case 'did':
            return ['did'];
        case 'cannot be done':
            return ['could not do'];
        case 'waited':
            return ['wait'];
        case 'gate':
        case 'restored':
        case 'followed':
            return [toldAction(happening.action)];
        default:
            return [];
    }
}

function toldAction(action: Action): string {
    switch (action.sort) {
        case 'gate':
        case 'restore':
            return `${action.sort} ${action.written.gate.text}`;
        case 'follow':
            return `follow ${action.written.procedure.text}`;
        default:
            return action.sort;
    }
}
