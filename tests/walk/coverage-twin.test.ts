/**
 * The coverage of whole trees, worked out a second time by playing every world through them one by one: no world sets, shares
 * and rates read from the text by plain arithmetic.
 */
import { describe, expect, test } from 'vitest';
import { drawSizes } from '../../language/src/core/meaning/draws.js';
import type { RouteEnd } from '../../language/src/core/meaning/route.js';
import type { Unit, UnitFault } from '../../language/src/core/meaning/unit.js';
import type { Tree } from '../../language/src/core/model/trees.js';
import { arrives, replay, type Ending, type World, worldsOf } from '../../language/src/core/replay/replay.js';
import { type State, stateKey } from '../../language/src/core/replay/state.js';
import { buildsOf, completeBuild, exists } from '../../language/src/core/replay/world.js';
import { type Coverage, coverageOf } from '../../language/src/core/walk/coverage.js';
import type { EquipmentWalks } from '../../language/src/core/walk/walks.js';
import { readFolder } from '../support/read-folder.js';
import type { Texts } from '../support/read-texts.js';
import { walkTexts } from '../support/walk-texts.js';
import { seededDefects } from './seeded-defects.js';

const example = sourcesIn('examples/dust-extractor');

function sourcesIn(folder: string): Texts {
    return Object.fromEntries(Object.entries(readFolder(folder)).filter(([file]) => file.endsWith('.fault')));
}

describe('the coverage is that of all worlds played one by one', () => {
    test.each(['examples/dust-extractor', 'tests/worlds/common-practice', 'tests/worlds/lift-door'])(
        'in %s',
        folder => {
            expectSame(sourcesIn(folder));
        },
    );

    // Slips let faults be missed, wrong, lost, out of scope, or found among several parts: the first of each sort.
    const slips = [
        'wrong-conclusion',
        'fault-not-found',
        'ambiguous',
        'endless-loop',
        'dead-end',
        'missing-in-build',
    ].map(code => seededDefects.find(defect => defect.code === code));
    const lostPlace = seededDefects.find(({ slip }) => slip.startsWith('A place is lost from a flow'));

    test.each([...slips, lostPlace].filter(slip => slip !== undefined))('in the example after a slip: $slip', slip => {
        const text = (example[slip.file] ?? '').replace(slip.oldText, () => slip.newText);
        const { fleet } = expectSame({ ...example, [slip.file]: text });
        expect(Math.min(fleet.detected ?? 1, fleet.isolated?.[0] ?? 1)).toBeLessThan(1);
    });

    test('over seven slips', () => {
        expect([...slips, lostPlace].filter(slip => slip !== undefined)).toHaveLength(7);
    });
});

function expectSame(texts: Texts): Coverage {
    const walks = walkTexts(texts);
    const coverage = coverageOf(walks);
    const twin = playAll(walks);
    expect(close(asLines(coverage), twin.results)).toEqual([]);
    expect(coverage.fleet.rate).toBeGreaterThan(0);
    for (const amount of ['rate', 'found', 'handedOver', 'missed', 'wrong', 'lost', 'outOfScope'] as const) {
        expect(coverage.fleet[amount]).toBeCloseTo(twin.fleet[amount], 15);
    }
    expect(coverage.fleet.byParts.length).toBe(Math.max(0, ...twin.byParts.keys()) + 1);
    for (const [parts, rate] of twin.byParts) expect(coverage.fleet.byParts[parts]).toBeCloseTo(rate, 15);
    return coverage;
}

type Amounts = Map<string, number>;

/** For each tree, fault and result its rate. */
function asLines({ trees }: Coverage): Amounts {
    const lines: Amounts = new Map();
    for (const { tree, faults } of trees) {
        for (const { fault, portions } of faults) {
            for (const { fate, end, to, parts, rate } of portions) {
                const where = end?.written.name.text ?? to?.name.text ?? '';
                add(lines, `${tree.name.text} ${fault.name} ${fate} ${parts} ${where}`, rate);
            }
        }
    }
    return lines;
}

function add<Key>(amounts: Map<Key, number>, key: Key, amount: number): void {
    amounts.set(key, (amounts.get(key) ?? 0) + amount);
}

/** What differs by more than the last digits. */
function close(one: Amounts, other: Amounts): string[] {
    return [...new Set([...one.keys(), ...other.keys()])].flatMap(key => {
        const [walked, played] = [one.get(key) ?? 0, other.get(key) ?? 0];
        return Math.abs(walked - played) <= 1e-9 * Math.max(walked, played) ? [] : [`${key}: ${walked}, not ${played}`];
    });
}

interface Result {
    readonly fate: 'found' | 'handed over' | 'handed on' | 'missed' | 'wrong' | 'lost';
    readonly parts: number;
    readonly where: string;
}

/** Plays every world with a fault. */
function playAll(walks: EquipmentWalks) {
    const { unit } = walks;
    const results: Amounts = new Map();
    const byParts = new Map<number, number>();
    const fleet = { rate: 0, found: 0, handedOver: 0, missed: 0, wrong: 0, lost: 0, outOfScope: 0 };
    const draws = drawSizes(unit).reduce((product, size) => product * size, 1);
    const shares = [...buildsOf(unit.space)].map(shareOf);
    const made = shares.reduce((sum, share) => sum + share, 0);
    for (const world of worldsOf(unit)) {
        const fault = unit.faults[world.arrival[0] ?? -1];
        if (!fault || comesOnlyWhenCaused(fault, world, unit)) continue;
        const rate = (rateOf(fault, world, unit) * shareOf(world.build)) / made / draws;
        fleet.rate += rate;
        const judged = [...playWorld(world, walks)];
        for (const [tree, { fate, parts, where }] of judged) {
            add(results, `${tree.name.text} ${fault.name} ${fate} ${parts} ${where}`, rate);
        }
        const counted = judged.filter(([, { fate }]) => fate !== 'handed on');
        if (judged.length === 0) fleet.outOfScope += rate;
        else if (counted.length === 0) fleet.lost += rate;
        for (const [, { fate, parts }] of counted) {
            const part = rate / counted.length;
            if (fate === 'found' || fate === 'handed over') {
                fleet.found += part;
                add(byParts, parts, part);
            }
            if (fate === 'handed over') fleet.handedOver += part;
            if (fate === 'missed' || fate === 'wrong' || fate === 'lost') fleet[fate] += part;
        }
    }
    return { results, fleet, byParts };
}

/** The worst that becomes of a world in each tree to which it comes, by itself or handed on. */
function playWorld(world: World, { trees, unit }: EquipmentWalks): Map<Tree, Result> {
    const worst = new Map<Tree, Result>();
    const seen = new Set<string>();
    const open: { readonly tree: Tree; readonly start: State | undefined }[] = trees
        .filter(({ route }) => arrives(route, world))
        .map(({ tree }) => ({ tree, start: undefined }));
    for (let next = open.shift(); next; next = open.shift()) {
        const { tree, start } = next;
        const key = `${tree.name.text} ${start ? stateKey(start) : ''}`;
        if (seen.has(key)) continue;
        seen.add(key);
        const route = trees.find(one => one.tree === tree)?.route;
        if (!route) throw new Error('A world is handed on to a tree of other equipment.');
        for (const { ending } of replay(route, world, start ? { start } : {})) {
            if (ending.sort === 'handed over') open.push({ tree: ending.tree, start: ending.state });
            const result = resultOf(ending, route.ends, world, unit);
            const before = worst.get(tree);
            if (!before || badness(result) > badness(before)) worst.set(tree, result);
        }
    }
    return worst;
}

function badness({ fate, parts }: Result): number {
    const order = ['handed on', 'missed', 'wrong', 'lost'].indexOf(fate);
    return order >= 0 ? 1000 * (order + 1) : parts + (fate === 'handed over' ? 0.5 : 0);
}

function resultOf(ending: Ending, ends: readonly RouteEnd[], world: World, unit: Unit): Result {
    if (ending.sort === 'handed over') return { fate: 'handed on', parts: 0, where: ending.tree.name.text };
    const end = ending.sort === 'end' ? ends[ending.end] : undefined;
    if (!end || ending.sort !== 'end') return { fate: 'lost', parts: 0, where: '' };
    const where = end.written.name.text;
    const parts = partsNamed(end, world, unit);
    if (end.written.sort === 'conclusion') {
        return ending.right ? { fate: 'found', parts, where } : { fate: 'wrong', parts: 0, where };
    }
    return ending.right || ending.named ? { fate: 'handed over', parts, where } : { fate: 'missed', parts: 0, where };
}

/** The parts of the named faults that no other named fault has led to. */
function partsNamed(end: RouteEnd, { build }: World, { faults, space }: Unit): number {
    const complete = completeBuild({ space } as Unit, build);
    const isThere = (number: number) => exists(faults[number]?.guard, complete);
    const named = end.names
        .filter(({ fault, guard }) => exists(guard, complete) && isThere(fault))
        .map(one => one.fault);
    const effectsOf = (cause: number): Set<number> => {
        const effects = new Set([cause]);
        for (const one of effects) {
            for (const { fault, guard } of faults[one]?.causes ?? []) {
                if (exists(guard, complete) && isThere(fault)) effects.add(fault);
            }
        }
        return effects;
    };
    const roots = named.filter(fault => !named.some(other => other !== fault && effectsOf(other).has(fault)));
    return Math.max(1, new Set(roots.map(fault => faults[fault]?.part)).size);
}

function comesOnlyWhenCaused({ onlyWhenCaused }: UnitFault, { build }: World, unit: Unit): boolean {
    return onlyWhenCaused.some(({ guard }) => exists(guard, completeBuild(unit, build)));
}

/** The product of the shares of the choices; choices without one divide what the others of their option leave. */
function shareOf(build: World['build']): number {
    let share = 1;
    for (const [option, choice] of build) {
        const said = option.choices.map(one => one.share && readNumber(one.share.written) / 100);
        const left = 1 - said.reduce<number>((sum, one) => sum + (one ?? 0), 0);
        share *= said[option.choices.indexOf(choice)] ?? left / said.filter(one => one === undefined).length;
    }
    return share;
}

/** Faults per hour: one in a million where nothing is said, and by the duty of the build where starts or the like are counted. */
function rateOf(fault: UnitFault, { build }: World, unit: Unit): number {
    const said = fault.rates.find(({ guard }) => exists(guard, completeBuild(unit, build)))?.rate;
    if (!said?.amount || !said.per) return 1e-6;
    const rate = readNumber(said.amount.written) / readNumber(said.per.written);
    const counted = unitOf(said.per.written);
    if (counted === 'h') return rate;
    const duty = [...build.values()].find(choice => unitOf(choice.duty?.amount.written ?? '') === counted)?.duty;
    return rate * (duty ? readNumber(duty.amount.written) : 1);
}

function readNumber(written: string): number {
    const number = /^[\d.]+(e\d+)?/.exec(written)?.[0];
    if (number === undefined) throw new Error(`This number is not plain enough for the twin: ${written}`);
    return Number(number);
}

function unitOf(written: string): string {
    return written.replace(/^\S+\s*/, '');
}
