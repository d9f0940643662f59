/** Loading documents: what comes from anywhere is either walked or turned down with a place and a sentence. */
import { describe, expect, test } from 'vitest';
import type { TreeDocument } from '../../language/src/document/types.js';
import {
    answer,
    back,
    begin,
    finish,
    loadTree,
    recordOf,
    resume,
    screenOf,
    type Session,
    why,
} from '../../language/src/player/index.js';
import { type Random, randomFrom } from '../property/random.js';
import { worlds } from '../property/samples.js';
import { load, placeOf, played, walkedTrees } from './walks.js';

const documents = worlds
    .slice(0, 4)
    .flatMap(({ texts, folder }) => walkedTrees(texts, folder).map(({ document }) => document));
const first = documents[0] as TreeDocument;

type Loose = Record<string, unknown>;

/** A copy that can be changed. */
function copy(document: TreeDocument = first): Loose {
    return JSON.parse(JSON.stringify(document)) as Loose;
}

/** What stands in a document at a place, as an object that can be changed. */
function at(document: unknown, ...keys: readonly (string | number)[]): Loose {
    return keys.reduce<unknown>((value, key) => (value as Loose)[key], document) as Loose;
}

function problemOf(document: unknown): string {
    const { problem } = loadTree(document);
    return problem ? `${problem.where}: ${problem.why}` : 'loaded';
}

describe('what is no document', () => {
    test.each([
        [null, ': A document is a JSON object.'],
        [undefined, ': A document is a JSON object.'],
        [[], ': A document is a JSON object.'],
        ['halfsplit-tree', ': A document is a JSON object.'],
        [{}, '/format: The format of a document is `halfsplit-tree`.'],
        [{ format: 'halfsplit-tree' }, '/formatVersion: The version is two numbers with a point between them.'],
        [
            { format: 'halfsplit-tree', formatVersion: '2.0' },
            '/formatVersion: This is a document of version 2.0; only version 1 can be walked.',
        ],
        [{ format: 'halfsplit-tree', formatVersion: '1.0' }, ': `locales` is missing.'],
        [
            Object.create({ format: 'halfsplit-tree', formatVersion: '1.0' }),
            '/format: The format of a document is `halfsplit-tree`.',
        ],
    ])('%j', (document, expected) => {
        expect(problemOf(document).replace(/^(: `)\w+(` is missing\.)$/, '$1locales$2')).toBe(expected);
    });
});

describe('a later version', () => {
    test('1.x is walked, and what is not known in it is left out', () => {
        const document = { ...copy(), formatVersion: '1.7', novelty: { deep: [1] } };
        at(document, 'tree', 'steps', 0)['novelty'] = 'new';
        const { tree } = loadTree(document);
        expect(tree?.document.tree.steps[0]).not.toHaveProperty('novelty');
        expect(tree?.document).not.toHaveProperty('novelty');
    });
});

const bare = { id: 'bare', complaints: [], steps: [], conclusions: [], referrals: [] };

describe('what is wrong in a document', () => {
    test.each<[string, readonly (string | number)[], unknown, RegExp]>([
        [
            'a branch that leads nowhere',
            ['tree', 'steps', 0, 'statements'],
            [{ type: 'go', to: 'nowhere' }],
            /^\/tree\/steps\/0\/statements\/0\/to: There is nothing called `nowhere`/,
        ],
        ['a test that is not there', ['tree', 'complaints', 0, 'test'], 'nothing', /^\/tree\/complaints\/0/],
        [
            'a statement of no known type',
            ['tree', 'steps', 0, 'statements'],
            [{ type: 'dance' }],
            /^\/tree\/steps\/0\/statements\/0: Nothing that can stand here/,
        ],
        ['a tree without steps', ['tree'], bare, /^\/tree\/steps: /],
        ['a name that is declared twice', ['equipment', 'tests', 1], first.equipment.tests[0], /is declared twice/],
        ['a text that is null', ['safetyNotice', 'en'], null, /^\/safetyNotice: A text has words/],
        ['a text without a locale', ['safetyNotice'], {}, /^\/safetyNotice: A text has at least one locale/],
        ['a list that is an object', ['tree', 'steps'], { length: 1, 0: {} }, /^\/tree\/steps: A list is expected/],
        ['an id that is empty', ['tree', 'id'], '', /^\/tree\/id: A name/],
        [
            'a number that is not finite',
            ['units', 0, 'factor'],
            Number.NaN,
            /^\/units\/0\/factor: A number is expected here\.$/,
        ],
    ])('%s', (_, keys, value, expected) => {
        const document = copy();
        at(document, ...keys.slice(0, -1))[keys.at(-1) ?? ''] = value;
        expect(problemOf(document)).toMatch(expected);
    });

    test('a procedure that is followed within itself', () => {
        const follow = { type: 'follow', procedure: 'one', branches: [{ otherwise: true, to: 'only' }] };
        const procedures = [
            { id: 'one', steps: [{ id: 'only', statements: [{ ...follow, procedure: 'two' }] }], results: [] },
            { id: 'two', steps: [{ id: 'only', statements: [follow] }], results: [] },
        ];
        const tree = { ...bare, steps: [{ id: 'only', statements: [] }] };
        expect(problemOf({ ...copy(), procedures, tree })).toBe(
            '/procedures/1/steps/0/statements/0: `one` is followed within itself.',
        );
    });
});

describe('what is meant to harm', () => {
    test('names of the prototype are plain data', () => {
        const names = ['__proto__', 'constructor', 'toString', 'hasOwnProperty'];
        const title = JSON.parse('{ "en": "a", "valueOf": "b" }') as object;
        const steps = names.map(id => ({ id, title, statements: [{ type: 'go', to: id }] }));
        const document: Loose = { ...copy(), procedures: [], tree: { ...bare, steps } };
        for (const name of names) {
            Object.defineProperty(document, name, { value: { polluted: true }, enumerable: true });
        }
        const tree = load(document);
        expect(({} as Loose)['polluted']).toBeUndefined();
        expect(tree.document.tree.steps.map(({ id }) => id)).toEqual(names);
        expect(screenOf(played(tree, [], []), 'toString').safetyNotice).toBe(first.safetyNotice['en']);
    });

    test('a text with the locale `__proto__` is turned down', () => {
        const document = JSON.parse(
            JSON.stringify(copy()).replace('"safetyNotice":{', '"safetyNotice":{"__proto__":"x",'),
        ) as unknown;
        expect(problemOf(document)).toBe('/safetyNotice: A text has words for each locale (BCP 47).');
    });

    test('a document that runs code when it is read', () => {
        const document = new Proxy(
            {},
            {
                getOwnPropertyDescriptor: () => {
                    throw new Error('no');
                },
            },
        );
        expect(problemOf(document)).toBe(': This is no plain data, as a JSON file gives it.');
    });

    test('a document that is changed after it was loaded changes nothing', () => {
        const document = copy();
        const { tree } = loadTree(document);
        at(document, 'tree')['steps'] = [];
        at(document, 'safetyNotice')['en'] = 'nothing';
        expect(tree?.document.tree.steps.length).toBe(first.tree.steps.length);
        expect(tree?.document.safetyNotice['en']).toBe(first.safetyNotice['en']);
    });

    test('a guard that is nested without end', () => {
        const document = copy();
        let guard: object = { choice: 'x' };
        for (let depth = 0; depth < 100_000; depth++) guard = { not: guard };
        at(document, 'tree')['guard'] = guard;
        expect(problemOf(document)).toMatch(/^\/tree\/guard(\/not)+: The document is nested too deeply\.$/);
    });

    test('a document that holds itself', () => {
        const document = copy();
        const guard: Loose = {};
        guard['not'] = guard;
        at(document, 'tree')['guard'] = guard;
        expect(problemOf(document)).toMatch(/The document is nested too deeply\.$/);
    });

    test('a million steps in a row', { timeout: 120_000 }, () => {
        const count = 1_000_000;
        const steps = Array.from({ length: count }, (_, index) => ({
            id: `s-${index}`,
            statements: [{ type: 'go', to: index + 1 < count ? `s-${index + 1}` : 'last' }],
        }));
        const tree = { id: 'long', complaints: [], steps, conclusions: [], referrals: [{ id: 'last' }] };
        const loaded = loadTree({ ...copy(), procedures: [], tree });
        const begun = loaded.tree && begin(loaded.tree).session;
        expect(begun && placeOf(begun)).toBe('end last');
    });

    test('a way that turns in a circle', () => {
        const steps = [
            { id: 'one', statements: [{ type: 'go', to: 'two' }] },
            { id: 'two', statements: [{ type: 'go', to: 'one' }] },
        ];
        const tree = load({ ...copy(), procedures: [], tree: { ...bare, steps } });
        expect(screenOf(played(tree, [], []))).toMatchObject({
            sort: 'stuck',
            why: 'The way turns in a circle without a question.',
        });
    });

    test('options that exclude each other in ways that are hard to search', () => {
        // Each option has another letter than every other one, and there are only three letters: no unit is made.
        const numbers = Array.from({ length: 60 }, (_, number) => number);
        const options = numbers.map(number => ({
            id: `o${number}`,
            choices: ['a', 'b', 'c'].map(letter => ({ id: `o${number}.${letter}` })),
        }));
        const exclusions = numbers.flatMap(one =>
            numbers.slice(0, one).flatMap(other =>
                ['a', 'b', 'c'].map(letter => ({
                    builds: { all: [{ choice: `o${one}.${letter}` }, { choice: `o${other}.${letter}` }] },
                })),
            ),
        );
        const withoutGuards = JSON.parse(
            JSON.stringify(copy(), (key, value: unknown) => (key === 'guard' ? undefined : value)),
        ) as Loose;
        const equipment = {
            ...at(withoutGuards, 'equipment'),
            tests: [],
            options,
            exclusions,
        };
        const steps = [{ id: 'one', statements: [{ type: 'do', text: { en: 'x' }, guard: { choice: 'o59.a' } }] }];
        const tree = load({
            ...withoutGuards,
            equipment: { ...equipment, ...emptyLists },
            procedures: [],
            tree: { ...bare, steps },
        });
        expect(['option', 'stuck']).toContain(screenOf(played(tree, [], [])).sort);
    });
});

const emptyLists = {
    hazards: [],
    zones: [],
    conditions: [],
    supplies: [],
    parts: [],
    flows: [],
    gates: [],
    instruments: [],
    tables: [],
    curves: [],
};

/** One random change: something left out, doubled, exchanged for something else of the document, or for nonsense. */
function damage(document: unknown, random: Random): void {
    const places: { owner: Loose; key: string }[] = [];
    const pending: unknown[] = [document];
    for (let value = pending.pop(); value !== undefined; value = pending.pop()) {
        if (typeof value !== 'object' || value === null) continue;
        for (const key of Object.keys(value)) {
            places.push({ owner: value as Loose, key });
            pending.push((value as Loose)[key]);
        }
    }
    const { owner, key } = random.pick(places);
    const other = random.pick(places);
    const values = [
        null,
        '',
        'it',
        'it.x',
        -1,
        1e308,
        [],
        {},
        true,
        '__proto__',
        JSON.parse(JSON.stringify(other.owner[other.key])) as unknown,
    ];
    if (random.chance(0.3)) Reflect.deleteProperty(owner, key);
    else if (random.chance(0.2) && Array.isArray(owner)) owner.push(JSON.parse(JSON.stringify(owner[0])));
    else owner[key] = random.pick(values);
}

/** Answers at random for a while, whatever is asked, and takes the record up again. */
function wander(start: Session, random: Random): void {
    let at = start;
    for (let count = 0; count < 40; count++) {
        const screen = screenOf(at, random.pick(['en', 'de-AT', '']));
        why(at);
        if (screen.sort === 'end') {
            at = finish(at, { complaint: random.pick(['gone', 'still there', 'not tested']) }).session ?? at;
        }
        const outcomes =
            screen.sort === 'step'
                ? screen.statements.flatMap(one => ('test' in one ? one.test.outcomes.map(({ id }) => id) : []))
                : [];
        const choices = screen.sort === 'option' ? screen.possible.map(({ id }) => id) : [];
        const units = ['V', 'mV', 'Cel', '[degF]', 'Ohm', 'x', '%', '1'];
        const given = random.pick<Parameters<typeof answer>[1]>([
            ...outcomes,
            ...choices,
            ...choices,
            'done',
            'done',
            'cannot be read',
            'cannot be done',
            { reading: random.between(-5, 400), unit: random.pick(units) },
        ]);
        at = answer(at, given).session ?? at;
        if (random.chance(0.1)) at = back(at).session ?? at;
    }
    const lines = recordOf(at);
    const again = resume(at.tree, lines);
    expect(again.problem).toBeUndefined();
    expect(again.session && screenOf(again.session)).toEqual(screenOf(at));
}

test('500 damaged documents are turned down or walked', () => {
    const random = randomFrom(20_260_131);
    let loaded = 0;
    for (let count = 0; count < 500; count++) {
        const document = JSON.parse(JSON.stringify(random.pick(documents))) as unknown;
        for (let times = random.between(1, 3); times > 0; times--) damage(document, random);
        const { tree, problem } = loadTree(document);
        expect(tree !== undefined || (problem.why !== '' && !problem.why.includes('plain data'))).toBe(true);
        if (!tree) continue;
        loaded += 1;
        const { session } = begin(tree);
        if (session) wander(session, random);
    }
    // Some damage is none: what is left out can be left out.
    expect(loaded).toBeGreaterThan(20);
});

test('sound documents are walked at random', () => {
    const random = randomFrom(7);
    for (const document of documents) {
        for (let times = 0; times < 10; times++) wander(played(load(document), [], []), random);
    }
});
