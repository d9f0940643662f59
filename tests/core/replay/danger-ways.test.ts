/** On which ways somebody comes to a danger, told or not, and how the way is told: one rule a test. */
import { describe, expect, test } from 'vitest';
import { dangersIn, handedOverIn, inside, lockout, saw, waysIn } from './danger-lines.js';

const met = ['told: blade in inside at first do'];

describe('a told way', () => {
    const members = `${inside} ${lockout} part lamp { fault dead } flow line: lamp -> [light]
        test light { observe normal yes absent no shows stopped }`;
    const tree = `complaint light absent step first { test light { normal -> good absent -> bad } }
        step good { do "x" in inside go done } step bad { go done }`;

    test('goes by what the world shows', () => {
        expect(dangersIn(saw(tree, members))).toEqual(['told: blade in inside at good do']);
        expect(dangersIn(saw(tree, members), { fault: 'lamp.dead' })).toEqual([]);
    });

    test('is gone by nobody who does not come with the complaint', () => {
        const other = saw(tree.replace('complaint light absent', ''), members);
        expect(dangersIn(other, { fault: 'lamp.dead' })).toEqual([]);
    });

    test('goes both ways where a fault comes and goes', () => {
        const now = members.replace('fault dead', 'fault dead comes and goes');
        expect(dangersIn(saw(tree, now), { fault: 'lamp.dead' })).toEqual(['told: blade in inside at good do']);
    });

    test('leaves where something cannot be done', () => {
        const stuck = `complaint light absent step first { do "x" using lamp cannot be done -> bad do "y" in inside go done }
            step bad { do "z" in inside go done }`;
        expect(dangersIn(saw(stuck, members), { fault: 'lamp.dead' })).toEqual(['told: blade in inside at bad do']);
    });

    test('goes through procedures', () => {
        const text = `${saw('step first { follow open { good -> done } }')}
            procedure open of saw { step lift { do "x" in inside go good } result good }`;
        expect(dangersIn(text)).toEqual(['told: blade in inside at lift do']);
    });

    test('begins no way where the build lacks the tree', () => {
        const text = saw('step first { do "x" in inside go done }').replace('tree t of saw', 'tree t of saw for small');
        expect(dangersIn(text, { build: ['small'] })).toEqual(met);
        expect(dangersIn(text, { build: ['large'] })).toEqual([]);
    });
});

describe('a detour', () => {
    const bad = 'step bad { do "x" in inside go done }';
    const there = ['detour: blade in inside at bad do'];

    test('begins where a test cannot be read, by the first exit that the build has', () => {
        const own = saw(`step first { test hum { normal, absent -> done cannot be read -> bad } } ${bad}`);
        expect(dangersIn(own)).toEqual(there);
        const all = saw(`cannot be read -> done for small cannot be read -> bad
            step first { test hum { normal, absent -> done } } ${bad}`);
        expect(dangersIn(all, { build: ['large'] })).toEqual(there);
        expect(dangersIn(all, { build: ['small'] })).toEqual([]);
    });

    test('begins with any answer at a `confirm`, and not at a `test`', () => {
        const asks = (word: string) => saw(`step first { ${word} hum { normal -> done absent -> bad } } ${bad}`);
        expect(dangersIn(asks('confirm'))).toEqual(there);
        expect(dangersIn(asks('test'))).toEqual([]);
        const short = saw(`disagree -> bad step first { confirm hum normal -> done } ${bad}`);
        expect(dangersIn(short)).toEqual(there);
    });

    test('begins with any answer where a need is not met, with all that is needed set', () => {
        const members = `zone inside { exposes blade while switch on }
            test turns { observe needs switch on normal yes absent no }`;
        const tree = (before: string) =>
            saw(`step first { ${before} test turns { normal -> done absent -> bad } } ${bad}`, members);
        expect(dangersIn(tree(''))).toEqual(there);
        expect(dangersIn(tree('do "y" sets switch on'))).toEqual([]);
    });

    test('begins with any answer where there is no energy', () => {
        const members = `${inside} part lamp flow power: lamp when switch on -> [light]
            test light { observe normal yes absent no shows stopped }`;
        const tree = (before: string) =>
            saw(`step first { ${before} test light { normal -> done absent -> bad } } ${bad}`, members);
        expect(dangersIn(tree(''))).toEqual(there);
        expect(dangersIn(tree('do "y" sets switch on'))).toEqual([]);
    });

    test('begins where something cannot be done, before it is done', () => {
        const members = 'zone inside { exposes blade while switch off }';
        const tree = `step first { do "y" sets switch on cannot be done -> bad go done } ${bad}`;
        expect(dangersIn(saw(tree, members))).toEqual(there);
        // Nothing runs by the switch here, so it counts as a cover that is opened.
        expect(dangersIn(saw(tree, members.replace('switch off', 'switch on')))).toEqual([
            'told: blade in inside at first do',
        ]);
    });

    test('is answered anything at every question on it, whatever it needs', () => {
        const tree = `cannot be read -> next step first { test hum { normal, absent -> done } }
            step next { test turns { normal -> done absent -> bad } } ${bad}`;
        const members =
            'zone inside { exposes blade while switch off } test turns { observe needs switch on normal yes absent no }';
        expect(dangersIn(saw(tree, members))).toEqual(there);
    });

    test('takes every way of an answer that the build has, and one out of what cannot be read', () => {
        const tree = `cannot be read -> next step first { test hum { normal, absent -> done } }
            step next { test hum { normal -> done absent -> one for small otherwise -> two cannot be read -> three } }
            step one { do "x" in inside go done } step two { do "x" in inside go done } step three { do "x" in inside go done }`;
        const at = (step: string) => `detour: blade in inside at ${step} do`;
        expect(dangersIn(saw(tree), { build: ['small'] })).toEqual([at('one'), at('two'), at('three')]);
        expect(dangersIn(saw(tree), { build: ['large'] })).toEqual([at('two'), at('three')]);
    });

    test('goes on where something is done and where it cannot be done', () => {
        const members = 'zone inside { exposes blade while switch on }';
        const tree = `cannot be read -> next step first { test hum { normal, absent -> done } }
            step next { do "y" sets switch on cannot be done -> other go bad } ${bad} step other { do "z" in inside go done }`;
        expect(dangersIn(saw(tree, members))).toEqual(['detour: blade in inside at next do', ...there]);
        expect(dangersIn(saw(tree, members.replace('switch on', 'switch off')))).toEqual([
            'detour: blade in inside at other do',
        ]);
    });

    test('does what a part needs that was faulty before', () => {
        const members = `${inside} part lamp { fault dead } flow line: lamp -> [light]
            test light { observe normal yes absent no shows stopped }`;
        const tree = `complaint light absent cannot be read -> next step first { test light { normal, absent -> done } }
            step next { do "y" using lamp cannot be done -> done do "z" in inside go done }`;
        expect(dangersIn(saw(tree, members), { fault: 'lamp.dead' })).toEqual(['detour: blade in inside at next do']);
    });

    test('leads to ends: repairs are done there, and things are left', () => {
        const members = `${inside} ${lockout} part belt in inside { fault torn replace "x" }`;
        const tree = (to: string) => `step first { test hum { normal, absent -> done cannot be read -> ${to} } }
            step shut { gate lockout do "y" sets switch on go ask } refer ask conclude end { belt.torn }`;
        expect(dangersIn(saw(tree('end'), members))).toEqual(['detour: blade in inside at the repair of belt (end)']);
        expect(dangersIn(saw(tree('shut'), members))).toEqual([
            'detour: ask leaves lockout closed',
            'detour: ask leaves switch on',
        ]);
    });

    test('goes through procedures to the first exit for their result', () => {
        const text = `${saw(`cannot be read -> next step first { test hum { normal, absent -> done } }
            step next { follow open { good -> done for small good -> bad } } ${bad}`)}
            procedure open of saw { step lift { go good } result good }`;
        expect(dangersIn(text, { build: ['large'] })).toEqual(there);
        expect(dangersIn(text, { build: ['small'] })).toEqual([]);
    });

    test('ends where another tree goes on', () => {
        const text = `${saw('cannot be read -> next step first { test hum { normal, absent -> done } } step next { continue with other }')}
            tree other of saw { complaint hum absent step open { do "x" in inside go end } refer end }`;
        expect(handedOverIn(text, { tree: 'other' })).toEqual([]);
    });

    test('does not go on where the told way has come in the same state', () => {
        const tree = (
            set: string,
        ) => `cannot be read -> second step first { ${set} test hum { normal, absent -> second } }
            step second { do "y" sets switch off test hum { normal -> done absent -> bad } } ${bad}`;
        expect(dangersIn(saw(tree('')))).toEqual([]);
        const changed =
            'step first { confirm hum { normal -> second absent -> third } } step third { do "z" sets switch on go second }';
        expect(dangersIn(saw(tree('').replace(/step first \{.*\}\s*(?=step second)/, `${changed} `)))).toEqual(there);
    });

    test('ends where it goes round', () => {
        const tree =
            'cannot be read -> second step first { test hum { normal, absent -> done } } step second { go third } step third { go second }';
        expect(dangersIn(saw(tree))).toEqual([]);
    });
});

describe('the way to a danger', () => {
    test('is a shortest one', () => {
        const tree = `step first { confirm hum { normal -> long absent -> bad } } step long { go bad }
            step bad { confirm hum { normal -> longer absent -> worse } } step longer { go worse }
            step worse { gate lockout go ask } refer ask`;
        expect(waysIn(saw(tree, lockout))[0]).toBe(
            'first(`hum` shows `normal`) > long > bad(`hum` shows `normal`) > longer > worse(gate `lockout` is closed)',
        );
        const detours = `cannot be read -> long step first { test hum { normal -> second absent -> done } } step long { go longer }
            step longer { go bad } step second { test hum { normal -> done absent -> done cannot be read -> bad } } step bad { do "x" in inside go done }`;
        expect(waysIn(saw(detours))).toEqual(['first(`hum` shows `normal`) > second(`hum` cannot be read) > bad']);
    });

    test('tells what was answered, could not be read, and could not be done', () => {
        const tree = `cannot be done -> third step first { test hum { normal, absent -> done cannot be read -> second } }
            step second { do "Open it" go done } step third { confirm hum { normal -> done absent -> fourth } }
            step fourth { confirm hum { normal -> done otherwise -> bad } } step bad { do "x" in inside cannot be done -> done go done }`;
        expect(waysIn(saw(tree))).toEqual([
            'first(`hum` cannot be read) > second(`Open it` cannot be done) > third(`hum` is answered `absent`) > fourth(`hum` is answered otherwise) > bad',
        ]);
    });

    test('tells what was closed, waited for, set and restored, and what was lost by it', () => {
        const members = `${inside} ${lockout} part motor flow power: motor when switch on`;
        const tree = `step first { gate lockout go second } step second { restore lockout wait 5 s until blade safe go third }
            step third { do "y" sets switch on do "x" in inside go done }`;
        expect(waysIn(saw(tree, members))).toEqual([
            [
                'first(gate `lockout` is closed)',
                'second(gate `lockout` is restored, which gives up control of `blade`, `blade` is safe after a wait)',
                'third(`switch` is set to `on`, which gives up control of `blade`)',
            ].join(' > '),
        ]);
    });

    test('tells whether a gate or a wait had the hazard under control, not what a need was taken for', () => {
        const members = `${inside} ${lockout} part motor flow power: motor when switch on
            test look { observe needs blade isolated normal yes absent no }`;
        const after = 'step second { do "y" sets switch on do "x" in inside go done }';
        const tree = (before: string) => `step first { ${before} } ${after}`;
        const needed = saw(tree('test look { normal, absent -> second }'), members);
        expect(dangersIn(needed)).toContain('told: blade in inside at second do');
        const waited = saw(tree('wait 5 s until blade safe test look { normal, absent -> second }'), members);
        expect(dangersIn(waited)).toEqual(['told: blade in inside at second do, lost']);
    });
});

describe('a danger', () => {
    test('is given once for each place and each way, told or not', () => {
        const tree = `step first { confirm hum { normal -> second absent -> third } } step third { do "y" sets switch on go second }
            step second { do "x" in inside go done }`;
        expect(dangersIn(saw(tree))).toEqual([
            'told: blade in inside at second do',
            'detour: blade in inside at second do',
        ]);
    });

    test('is sought up to a limit of visits; what was found before is given', () => {
        const tree = 'step first { do "x" in inside go second } step second { do "y" in inside go done }';
        expect(dangersIn(saw(tree), {}, { mostVisits: 1 })).toEqual(met);
        expect(dangersIn(saw(tree), {}, { mostVisits: 2 })).toHaveLength(2);
    });
});

describe('a world that another tree hands over', () => {
    const text = `${saw('step first { gate lockout test hum { normal -> second absent -> third } } step second { continue with other } step third { restore lockout continue with other }')}
        tree other of saw { complaint hum absent step open { do "x" in inside go end } refer end }`;

    test('goes on in the state that it comes in, behind the way before', () => {
        expect(handedOverIn(text, { tree: 'other' })).toEqual([
            't: first(gate `lockout` is closed, `hum` shows `normal`) > second | told: end leaves lockout closed',
        ]);
    });

    test('is none where it comes to the tree by itself', () => {
        expect(dangersIn(text, { tree: 'other' })).toEqual(['told: blade in inside at open do']);
    });
});
