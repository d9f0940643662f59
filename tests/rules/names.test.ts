/** Names: what shares a list, what counts as used, and what mends a name. */
import { describe, expect, test } from 'vitest';
import { check, checkMend } from '../support/check.js';

describe('a name is taken', () => {
    test.each([
        [
            'a hazard and a zone of an equipment',
            'equipment e { hazard x { thermal } zone x }',
            '1:41-1:42',
            'equipment `e` has a hazard',
        ],
        ['two choices of an option', 'equipment e { option o { x y x } }', '1:30-1:31', 'option `o` has a choice'],
        ['two values of a condition', 'equipment e { condition c { x x } }', '1:31-1:32', 'condition `c` has a value'],
        [
            'two tests of a kind',
            'kind k { test x { observe normal yes } test x { observe normal yes } }',
            '1:45-1:46',
            'kind `k` has a test',
        ],
        [
            'two steps of a procedure',
            'procedure p { step x { go r } step x { go r } result r }',
            '1:36-1:37',
            'procedure `p` has a step',
        ],
        [
            'a step and an end of a tree',
            'tree t { complaint q q step x { go x } refer x }',
            '1:46-1:47',
            'tree `t` has a step',
        ],
        [
            'two tables of a file',
            'table x from time to length {} table x from time to length {}',
            '1:38-1:39',
            'this file has a table',
        ],
        ['two labels', 'equipment e { part p flow f: p as x -> p as x }', '1:45-1:46', 'equipment `e` has a label'],
        ['a label and a flow', 'equipment e { part p flow f: p as f }', '1:35-1:36', 'equipment `e` has a flow'],
    ])('by %s', (_, text, place, words) => {
        const found = check(text).filter(line => line.startsWith('name-taken'));
        expect(found).toHaveLength(1);
        expect(found[0]).toContain(`name-taken at ${place}: `);
        expect(found[0]).toContain(`is taken: ${words} of this name already.`);
    });

    test('not by declarations of different lists', () => {
        const text = 'equipment e { part x option x { a b } test x { observe normal yes } gate x kind x }';
        expect(check(text)).toEqual([]);
    });

    test('not by a fault that a part and its kind share', () => {
        expect(check('kind k { fault x } equipment e { part p is k { fault x rate 1 per 1e6 h } }')).toEqual([]);
    });

    test('not by outcomes of one name', () => {
        expect(check('equipment e { option o { a b } test x { observe normal yes for a normal no for b } }')).toEqual(
            [],
        );
    });

    test('by a declaration of a file that is used, at the own one', () => {
        expect(check({ 'a.fault': 'uses "b.fault"\nkind k', 'b.fault': 'kind k' })).toEqual([
            'name-taken at a.fault:2:6-2:7: The name `k` is taken: `b.fault`, which this file sees, has a kind of this name already.',
        ]);
    });

    test('where two used files meet, and not again in a file that uses that one', () => {
        const texts = {
            'a.fault': 'uses "b.fault"',
            'b.fault': 'uses "c.fault"\nuses "d.fault"',
            'c.fault': 'kind k',
            'd.fault': 'kind k',
        };
        expect(check(texts)).toEqual([
            'name-taken at b.fault:2:6-2:15: This file sees two declarations of kind `k`: one in `c.fault` and one in `d.fault`.',
        ]);
    });

    test('not where the two files do not see each other', () => {
        expect(check({ 'a.fault': 'kind k', 'b.fault': 'kind k' })).toEqual([]);
    });

    test('and the mend gives the later one a name that is free', () => {
        const text = 'equipment e { part x part x-2 part x<|> }';
        expect(checkMend(text, 'Call this one `x-3`')).toBe('equipment e { part x part x-2 part x-3 }');
    });
});

describe('a choice of two options', () => {
    const text = 'equipment e { option a { x y } option b { x z } part p for x<|> }';

    test('is mended by writing the option before it', () => {
        expect(checkMend(text, 'Write `b.x`')).toBe('equipment e { option a { x y } option b { x z } part p for b.x }');
    });
});

describe('an unknown name', () => {
    test('is mended by a name like it', () => {
        const text = 'equipment e { zone kitchen part p in kichen<|> }';
        expect(checkMend(text, 'Write `kitchen`')).toBe('equipment e { zone kitchen part p in kitchen }');
    });

    test('that stands for something else is said to', () => {
        expect(check('equipment e { part x part p in x }')).toEqual([
            'unknown-name at 1:32-1:33: `x` is a part; a zone is needed here.',
        ]);
    });
});

describe('a declaration is unused', () => {
    /** A world in which everything is used, with more in its equipment, in its tree, and beside them. */
    const world = (more = '', inTree = '', beside = '') =>
        [
            `equipment e { part p { fault f } test t { checks p.f as off observe normal yes off no } ${more} }`,
            `tree c of e { complaint t off step s { test t { normal -> r off -> d } } conclude d { p.f } refer r ${inTree} }`,
            beside,
        ].join('\n');
    const unused = (text: string) =>
        check(text).flatMap(line => /^unused-declaration at \S+: (.*)$/.exec(line)?.[1] ?? []);

    test('not where all is used', () => {
        expect(unused(world())).toEqual([]);
    });

    test.each([
        ['hazard x { thermal }', 'Nothing uses the hazard `x`.'],
        ['zone x', 'Nothing uses the zone `x`.'],
        ['condition x { a b }', 'Nothing uses the condition `x`.'],
        ['supply x', 'Nothing uses the supply `x`.'],
        ['part x', 'Nothing uses the part `x`.'],
        ['kind x', 'Nothing uses the kind `x`.'],
        ['gate x', 'Nothing uses the gate `x`.'],
        ['instrument x', 'Nothing uses the instrument `x`.'],
        ['table x from time to length {}', 'Nothing uses the table `x`.'],
        ['test x { observe normal yes }', 'No tree and no procedure asks the test `x`.'],
        ['test x { observe normal yes } flow y: p -> [x]', 'No tree and no procedure asks the test `x`.'],
    ])('in an equipment: %s', (more, message) => {
        expect(unused(world(more))).toEqual([message]);
    });

    test.each([
        ['step x { go r }', 'Nothing leads to the step `x`.'],
        ['conclude x { p.f }', 'Nothing leads to the conclusion `x`.'],
        ['refer x', 'Nothing leads to the referral `x`.'],
    ])('in a tree: %s', (inTree, message) => {
        expect(unused(world('', inTree))).toEqual([message]);
    });

    test('beside an equipment that has a tree', () => {
        expect(
            unused(world('', '', 'kind x instrument y procedure z of e { step s { go good } result good }')),
        ).toEqual([
            'Nothing uses the kind `x`.',
            'Nothing uses the instrument `y`.',
            'Nothing uses the procedure `z`.',
        ]);
    });

    test('as a result that no step of its procedure leads to, though a tree has a branch for it', () => {
        const beside = 'procedure z of e { step s { go good } result good result bad }';
        const inTree = 'step u { follow z { good -> r bad -> r } } still wrong -> u';
        expect(unused(world('', inTree, beside))).toEqual(['Nothing leads to the result `bad`.']);
    });

    test('as a whole, where an equipment has no tree and another has', () => {
        expect(unused(world('', '', 'equipment x { part y test z { observe normal yes } }'))).toEqual([
            'No tree is of the equipment `x`.',
        ]);
    });

    test('never in a workspace without trees', () => {
        expect(unused('equipment x { part y } kind z')).toEqual([]);
    });

    test.each([
        [
            'a test that another is calculated from',
            'test x { measure voltage DC normal 1 V } test y { calculate voltage DC from x normal 1 V }',
            'step u { test y { normal -> r } } still wrong -> u',
        ],
        [
            'the input of a table',
            'table tt from voltage to current { 1 V = 1 A } test x { measure voltage DC normal 1 V } test y { measure current DC normal tt of x }',
            'step u { test y { normal -> r } } still wrong -> u',
        ],
        [
            'a code that is cleared',
            'test x { observe remembers until cleared normal yes }',
            'step u { do "Clear it." clears x go r } still wrong -> u',
        ],
    ])('never as %s', (_, more, inTree) => {
        expect(unused(world(more, inTree))).toEqual([]);
    });

    test('never where a misspelt name most likely means it', () => {
        expect(check(world('zone kitchen part q in kichen flow w: q')).map(line => line.split(' ')[0])).toEqual([
            'unknown-name',
        ]);
    });
});
