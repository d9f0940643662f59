/**
 * The walk, which takes all worlds at once, and the plain replay, which takes them one by one and shares only the resolved
 * names with it, say the same of small worlds that are made at random: set by set and count by count.
 */
import { describe, expect, test } from 'vitest';
import { worldsOf } from '../../language/src/core/replay/replay.js';
import { type EquipmentWalks, walkEquipment } from '../../language/src/core/walk/walks.js';
import { differencesOf, notToTheEnd } from '../support/compare-walk.js';
import { readTexts } from '../support/read-texts.js';
import { randomWorld } from './random-world.js';
import { type Counts, countReached, reachedByWalk, reachedIn, reachedOnArrival } from './reached.js';
import { runs } from './runs.js';
import { smallestText } from './smallest.js';

/** Random worlds with more cases than this are left out, because each of them is replayed. */
const mostWorlds = 400;
const parts = 10;
const worldsInPart = 200;

describe('the walk and the plain replay', () => {
    test.each(Array.from({ length: parts }, (_, part) => part + 1))(
        `agree on ${worldsInPart} random worlds, part %i of ${parts}`,
        { timeout: 60_000 },
        part => {
            const { failure } = resultOf(part - 1);
            expect(failure).toBe('');
        },
    );

    test('have met everything that a walk can meet, each often enough', { timeout: 300_000 }, () => {
        const counts: Counts = new Map();
        for (let part = 0; part < parts; part++) {
            for (const [name, count] of resultOf(part).counts) counts.set(name, (counts.get(name) ?? 0) + count);
        }
        const seldom = Object.entries(leastOften).filter(([name, least]) => (counts.get(name) ?? 0) < least);
        expect(seldom.map(([name]) => `${name}: ${counts.get(name) ?? 0}`)).toEqual([]);
    });
});

interface Result {
    /** The smallest text that fails, with what differs; empty where none does. */
    readonly failure: string;
    readonly counts: Counts;
}

const results = new Map<number, Result>();

/** The result of one part, found once. */
function resultOf(part: number): Result {
    const known = results.get(part);
    if (known) return known;
    const counts: Counts = new Map();
    let failure = '';
    let seed = runs(1).seed + part * 1_000_000;
    for (let done = 0; done < worldsInPart && failure === ''; seed++) {
        const text = randomWorld(seed);
        const differences = differencesIn(text, counts);
        if (!differences) continue;
        done++;
        if (differences.length === 0) continue;
        const smallest = smallestText(text, one => (differencesIn(one)?.length ?? 0) > 0);
        failure = [`Seed ${seed}:`, smallest, ...(differencesIn(smallest) ?? [])].join('\n');
    }
    const result = { failure, counts };
    results.set(part, result);
    return result;
}

/** What the two say differently of a text; undefined where it has too many worlds, or leads names nowhere. */
function differencesIn(text: string, counts?: Counts): readonly string[] | undefined {
    const all = walksOf(text);
    const worlds = [];
    for (const world of all ? worldsOf(all.unit) : []) if (worlds.push(world) > mostWorlds) return undefined;
    if (!all) return undefined;
    const found = new Set<string>();
    const differences = differencesOf(all, worlds, true, (run, tree) => reachedIn(run, tree, found));
    // A world in which faults come and go at every turn can go more ways than the replay gives.
    if (differences.some(one => one.endsWith(notToTheEnd))) return undefined;
    if (!counts) return differences;
    for (const world of worlds) reachedOnArrival(world, all.unit, found);
    for (const { walk } of all.trees) if (walk) reachedByWalk(walk, found);
    countReached(counts, found);
    return differences;
}

function walksOf(text: string): EquipmentWalks | undefined {
    const { model, findings } = readTexts({ 'example.fault': text });
    if (model.problems('example.fault').length > 0 || findings.some(({ code }) => !borne.has(code))) return undefined;
    const [equipment, second] = model.files.get('example.fault')?.equipment ?? [];
    return equipment && !second ? walkEquipment(equipment, model, { aborted: false }) : undefined;
}

/** What random worlds say wrongly now and then, and what the walk bears. */
const borne: ReadonlySet<string> = new Set(['said-twice', 'step-goes-on', 'normal-missing']);

/** In how many of the random worlds each thing must have happened at least. */
const leastOften: Readonly<Record<string, number>> = {
    'a fault that came back': 4,
    'missing: gate': 5,
    'missing: follow': 5,
    'missing: leave': 5,
    'missing: restore': 5,
    'judged at a referral: partly': 9,
    'an exit: cannot be done': 10,
    'missing: end': 10,
    'judged at a conclusion: partly': 20,
    'a cleared fault with its cause': 20,
    'a part replaced': 20,
    'an exit: disagree': 30,
    'a closed gate': 30,
    'a test with nothing to show': 30,
    'a test that identifies': 30,
    'an ending: handed over': 30,
    'a happening: cannot be done': 30,
    'missing: ask': 40,
    'judged at a referral: right': 40,
    'a reading': 40,
    'a guess': 40,
    'missing: station': 50,
    'missing: do': 50,
    'a test that remembers what is gone': 60,
    'an exit: result': 60,
    'a hazard made safe': 60,
    'a test that looks across a stretch': 60,
    'a happening: no energy': 70,
    'a part bypassed': 80,
    'a procedure': 80,
    'an exit: expected': 90,
    'a draw': 90,
    'an effect: raised': 100,
    'an ending: loop': 100,
    'a loop found by the walk': 100,
    'an effect: loaded': 100,
    'an effect: shorted': 100,
    'a dead test': 100,
    'a happening: nothing said': 100,
    'judged at a conclusion: right': 150,
    'an effect: weakened': 150,
    'a test that looks through flows': 150,
    'judged at a conclusion: unnamed': 150,
    'a fault that comes and goes': 150,
    'judged at a referral: healthy': 150,
    'a happening: needs': 150,
    'an ending: stranded': 200,
    'a blind test': 250,
    'judged at a conclusion: healthy': 250,
    'an effect: stopped': 400,
    'a test that looks at points': 450,
    'an ending: end': 500,
};
