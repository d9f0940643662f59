/** The same files have the same findings in the same order, whatever the order in which the files are given. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readFolder } from '../support/read-folder.js';
import { verifyTexts } from '../support/read-texts.js';
import { damaged } from './damage.js';
import { expectSame } from './differences.js';
import { anyOrder } from './orders.js';
import { runs } from './runs.js';
import { samples, sourcesOf, spread, type World, worlds } from './samples.js';

const ordersOfEach = 10;
const damagedWorlds = 250;
const minutes = 60_000;

const wrongWorld = acceptingSome('tests/worlds-wrong/everything-wrong');

describe.each([...worlds, ...worlds.map(spread), ...worlds.map(declaredTwice), wrongWorld, all(worlds)])(
    '$folder',
    ({ texts }) => {
        test('has the same findings in any order of the files', { timeout: 2 * minutes }, () => {
            const expected = verifyTexts(texts);
            fc.assert(
                fc.property(anyOrder(Object.entries(texts)), order => {
                    expectSame(expected, verifyTexts(Object.fromEntries(order)));
                }),
                runs(ordersOfEach),
            );
        });
    },
);

test('there are findings to put in order, and some that were accepted', () => {
    const verdicts = [...worlds.map(declaredTwice), wrongWorld].map(({ texts }) => verifyTexts(texts));
    expect(verdicts.flatMap(({ findings }) => findings).length).toBeGreaterThan(100);
    expect(new Set(verdicts.flatMap(({ findings }) => findings.map(({ code }) => code))).size).toBeGreaterThan(20);
    expect(verdicts.flatMap(({ accepted }) => accepted).length).toBeGreaterThan(3);
});

test('damaged files have the same findings in any order', { timeout: 5 * minutes }, () => {
    const someDamaged = fc.array(damaged(samples), { minLength: 1, maxLength: 3 }).chain(some => {
        const first = some[0];
        const world = first ? first.sample.world.texts : {};
        const own = some.filter(({ sample }) => sample.world === first?.sample.world);
        const texts = { ...world, ...Object.fromEntries(own.map(({ sample, text }) => [sample.file, text])) };
        return fc.tuple(fc.constant(own), anyOrder(Object.entries(texts)));
    });
    fc.assert(
        fc.property(someDamaged, ([, order]) => {
            const sorted = order.toSorted(([one], [other]) => (one < other ? -1 : 1));
            const expected = verifyTexts(Object.fromEntries(sorted));
            expectSame(expected, verifyTexts(Object.fromEntries(order)));
        }),
        runs(damagedWorlds),
    );
});

/** A folder of files, each of which accepts that something in it is not used. */
function acceptingSome(folder: string): World {
    const accepted = 'accept unused-declaration because "it is there to be found"\n';
    const files = Object.entries(readFolder(folder)).map(([file, text]) => {
        return [file, file.endsWith('.fault') ? `${text}\n${accepted}` : text] as const;
    });
    return { folder, texts: Object.fromEntries(files) };
}

/** Every file a second time under another name, so that every name at the top is taken twice. */
function declaredTwice({ folder, texts }: World): World {
    const copies = sourcesOf(texts).map(([file, text]) => {
        return [file.replace('.fault', '-copy.fault'), `uses "${file}"\n${text}`] as const;
    });
    return { folder: `${folder}, with all files twice`, texts: { ...texts, ...Object.fromEntries(copies) } };
}

/** The files of all worlds side by side. */
function all(some: readonly World[]): World {
    const files = some.flatMap(({ folder, texts }) =>
        Object.entries(texts).map(([file, text]) => [`${folder}/${file}`, text] as const),
    );
    return { folder: 'all worlds in one', texts: Object.fromEntries(files) };
}
