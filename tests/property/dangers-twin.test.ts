/**
 * The dangers that the walk finds for all worlds at once are those that the plain twin finds one by one: on machines made
 * at random, and in every world of ours.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { replay } from '../../language/src/core/replay/replay.js';
import { dangerDifferences, type WatchDangers } from '../support/compare-dangers.js';
import { walkTexts } from '../support/walk-texts.js';
import { randomDangers } from './random-dangers.js';
import { runs } from './runs.js';
import { worlds } from './samples.js';

/** So that none of them takes long, the machines are shared out to several tests. */
const shares = [1, 2, 3, 4];
const machinesInShare = 500;

/** In how many machines each kind of danger was met. */
const counts = new Map<string, number>();

describe('on machines made at random', () => {
    test.each(shares)(
        'the sets and the plain twin find the same dangers in the same builds, share %i',
        share => {
            const settings = runs<[number]>(machinesInShare);
            fc.assert(
                fc.property(fc.noShrink(fc.integer({ min: 1, max: 1_000_000_000 })), number => {
                    const kinds = new Set<string>();
                    const noteOccasion: WatchDangers = ({ occasion, lane }) => {
                        kinds.add(`${occasion ?? ''} on a ${lane === 'told' ? 'told way' : 'detour'}`);
                    };
                    const all = walkTexts(randomDangers(number));
                    expect(dangerDifferences(all, kindsInto(kinds), noteOccasion)).toEqual([]);
                    for (const kind of kinds) counts.set(kind, (counts.get(kind) ?? 0) + 1);
                }),
                { ...settings, seed: settings.seed + share },
            );
        },
        120_000,
    );

    const kinds = [
        ...['a do on a told way', 'an ask on a told way', 'a repair on a told way'],
        ...['a do on a detour', 'an ask on a detour', 'a repair on a detour'],
        ...['a gate left on a told way', 'a condition left on a told way', 'a gate left on a detour'],
        ...['a hazard that was under control', 'a start of the equipment', 'a handover before'],
        ...['proved', 'waited', 'driven', 'started', 'restored'].map(occasion => `${occasion} on a told way`),
        ...['proved', 'waited', 'driven', 'started', 'restored'].map(occasion => `${occasion} on a detour`),
        ...['asked', 'cannot be read', 'any answer', 'cannot be done', 'closed', 'waited', 'restored', 'set'],
    ];

    test.each(kinds)('a danger was met often enough with this: %s', kind => {
        expect(counts.get(kind) ?? 0).toBeGreaterThan((machinesInShare * shares.length) / 100);
    });

    // What is rarer by its nature: somebody has to measure where that is permitted, or to reset a trip by heat.
    test.each(['permitted', 'reset'])('somebody was at this occasion: %s', occasion => {
        expect(counts.get(`${occasion} on a told way`) ?? 0).toBeGreaterThan(2);
    });

    test('the way to a told danger begins a run of the replay', () => {
        const followed = new Set<string>();
        fc.assert(
            fc.property(fc.noShrink(fc.integer({ min: 1, max: 1_000_000_000 })), number => {
                dangerDifferences(walkTexts(randomDangers(number)), ({ lane, path }, world, { route, start }) => {
                    if (lane === 'detour') return;
                    const stations = path.map(({ station }) => station);
                    const beginnings = replay(route, world, start ? { start } : {}).map(({ visits }) =>
                        visits.slice(0, stations.length).map(({ station }) => station),
                    );
                    expect(beginnings).toContainEqual(stations);
                    followed.add(`${number} ${stations.join()}`);
                });
            }),
            runs(100),
        );
        expect(followed.size).toBeGreaterThan(100);
    });
});

/** Notes what sorts of dangers there are, and what happened before them. */
function kindsInto(kinds: Set<string>): WatchDangers {
    return ({ sort, lane, action, gate, wasControlled, path }, _world, { start }) => {
        const where = lane === 'told' ? 'on a told way' : 'on a detour';
        if (sort === 'left') kinds.add(`${gate === undefined ? 'a condition' : 'a gate'} left ${where}`);
        else kinds.add(`${action ? `${action.sort === 'ask' ? 'an' : 'a'} ${action.sort}` : 'a repair'} ${where}`);
        if (wasControlled) kinds.add('a hazard that was under control');
        if (start) kinds.add('a handover before');
        for (const happening of path.flatMap(({ happenings }) => happenings)) {
            kinds.add(happening.sort);
            if (happening.sort === 'set' && happening.lost.length > 0) kinds.add('a start of the equipment');
        }
    };
}

/** What hardly comes about by chance: each with what only one side once found. */
const rareCases: readonly { readonly what: string; readonly text: string }[] = [
    {
        what: 'a start that depends on an option which nothing else names',
        text: machine(
            'part lamp part motor { fault open for small } flow power: lamp when switch on for large -> [light]',
            'step first { test turns { normal -> done absent -> bad } } step bad { wait 1 min until blade safe do "x" sets switch on do "y" in inside go done }',
        ),
    },
    {
        what: 'a procedure of builds that no detour comes from',
        text: machine(
            'part motor { fault open for small }',
            `step first { test turns { normal -> done absent -> bad } } step bad { test light { normal, absent -> done cannot be read -> next } }
            step next { follow open { good -> done } }`,
        ).concat('procedure open of m for large { step lift { do "x" in inside go good } result good }'),
    },
    {
        what: 'something that cannot be done because a fault has just come back',
        text: machine(
            'part motor { fault open { causes lamp.dead after 1 min } } part lamp { fault dead }',
            `step first { do "x" clears lamp.dead test turns { normal -> done absent -> bad } }
            step bad { wait 1 min do "y" using lamp cannot be done -> done do "z" in inside go done }`,
        ),
    },
    {
        what: 'a start that a fault seems to keep from happening',
        text: machine(
            'part motor { fault open } part lamp flow power: motor -> [light] flow glow: lamp when (power flowing and switch on) -> [light]',
            'step first { test turns { normal -> done absent -> bad } } step bad { wait 1 min until blade safe do "x" sets switch on do "y" in inside go done }',
        ),
    },
    {
        what: 'a gate that is restored by setting a condition twice',
        text: machine(
            'part motor { fault open } part lamp flow power: lamp when switch on -> [light] gate stop { controls heat restore "x" sets switch off restore "y" sets switch on }',
            'step first { wait 1 min until blade safe restore stop do "x" in inside go done }',
        ),
    },
];

function machine(members: string, steps: string): string {
    return `equipment m {
            option size { small large } hazard blade { mechanical } hazard heat { thermal } condition switch { off on }
            zone inside { exposes blade } ${members}
            test turns { checks motor.open as absent observe normal yes absent no }
            test light { observe normal yes absent no shows stopped }
        }
        tree t of m { complaint turns absent ${steps} refer done }
        `;
}

test.each(rareCases)('the sets and the plain twin find the same dangers with $what', ({ text }) => {
    expect(dangerDifferences(walkTexts(text))).toEqual([]);
});

test.each(worlds)(
    'the sets and the plain twin find the same dangers in $folder',
    ({ texts }) => {
        expect(dangerDifferences(walkTexts(texts))).toEqual([]);
    },
    60_000,
);

test('there are worlds to compare', () => {
    expect(worlds.length).toBeGreaterThanOrEqual(7);
});
