/** Trees, steps, branches, procedures, flows and builds: cases that the pages of the rules do not show. */
import { describe, expect, test } from 'vitest';
import { check, checkMend } from '../support/check.js';
import { findingsOf } from '../support/read-texts.js';

const equipment = (more = '') =>
    `equipment e { option o { a b } ${more} part p { fault f } test t { checks p.f as off observe normal yes off no } }`;
const tree = (steps: string) => `tree c of e { complaint t off ${steps} conclude d { p.f } refer r }`;
const world = (steps: string, more = '') => `${equipment(more)}\n${tree(steps)}`;
// What units do in these small trees is not asked: that belongs to the slow rules.
const found = (text: string) => check(text, { cost: 'fast' }).filter(line => !line.startsWith('unused'));

describe('branches', () => {
    test('that are missing are added before the closing brace', () => {
        expect(checkMend(world('step s { test t<|> { normal -> r } }'), 'Add a branch for `off`')).toBe(
            world('step s { test t { normal -> r   off -> } }'),
        );
    });

    test('that are all missing are added with braces', () => {
        expect(checkMend(world('step s { test t<|> }'), 'Add the 2 missing branches')).toBe(
            world('step s { test t { normal ->   off -> } }'),
        );
    });

    test('can be added as one for all others', () => {
        const title = 'Add one branch for all others: `otherwise`';
        expect(checkMend(world('step s { test t<|> {} }'), title)).toBe(world('step s { test t {  otherwise -> } }'));
    });

    test('can be left out where `otherwise` takes the rest', () => {
        expect(found(world('step s { test t { normal -> r otherwise -> d } }'))).toEqual([]);
    });

    test('with two that say `otherwise` in one build are told', () => {
        expect(found(world('step s { test t { normal -> r otherwise -> d otherwise -> r } }'))).toEqual([
            'branch-twice at 2:76-2:90: `otherwise` leads to two places: `d` and `r`.',
        ]);
    });

    test('are not asked for in the short form of `confirm`', () => {
        expect(found(world('step s { confirm t off -> d }'))).toEqual([]);
    });

    test('of a test that a build lacks are not asked for in that build', () => {
        const text = world('step s { test u { normal -> r for a } }', 'test u for a { observe normal yes }');
        expect(found(text)).toEqual([]);
    });

    test('of a test that asks which build it is are needed for its choices', () => {
        const ask = 'test u { identify o by eye }';
        expect(found(world('step s { test u { a -> r b -> d } }', ask))).toEqual([]);
        expect(found(world('step s { test u { a -> r } }', ask))).toEqual([
            'branch-missing at 2:45-2:46: `u` can answer `b`, and no branch follows.',
        ]);
        expect(found(world('step s for a { test u { a -> r } } step q for b { go r }', ask))).toEqual([]);
    });

    test('name the build in which one is missing by the choices that matter', () => {
        const text = world('step s { test t { normal -> r off -> d for a } }', 'option other { x y }');
        const [finding] = findingsOf({ 'example.fault': text }).filter(({ code }) => code === 'branch-missing');
        expect(finding?.counterexample?.build).toEqual(['b']);
        expect(finding?.counterexample?.sentence).toBe('a unit with b: step `s`, t: off; no branch follows');
    });
});

describe('a step', () => {
    test('without exit is mended by a `go` behind its last statement', () => {
        expect(checkMend(world('step s<|> { do "Wait." }'), 'Add a `go`')).toBe(
            world('step s { do "Wait."\n    go  }'),
        );
    });

    test('with exits for all builds together has an exit', () => {
        expect(found(world('step s { go r for a go d for b }'))).toEqual([]);
    });

    test('that is left only where something cannot be done has no exit', () => {
        expect(found(world('step s { do "Open it." cannot be done -> r }'))).toEqual([
            'step-without-exit at 2:36-2:37: Step `s` leads nowhere.',
        ]);
    });
});

describe('a tree', () => {
    test('without complaint is mended by one before its first step', () => {
        const text = `${equipment()}\ntree c<|> of e { step s { go r } refer r }`;
        expect(checkMend(text, 'Add a `complaint`')).toBe(
            `${equipment()}\ntree c of e { complaint \n\n  step s { go r } refer r }`,
        );
    });

    test('that has just been begun is told to have neither complaint nor step', () => {
        expect(found(`${equipment()}\ntree c of e`)).toEqual([
            'tree-without-complaint at 2:6-2:7: Tree `c` does not say for which complaint it is.',
            'tree-without-step at 2:6-2:7: Tree `c` has no step.',
        ]);
    });
});

describe('procedures', () => {
    test('that follow each other in a circle are told once', () => {
        const text = [
            'procedure a { step s { follow b { x -> x } } result x }',
            'procedure b { step s { follow c { x -> x } } result x }',
            'procedure c { step s { follow a { x -> x } } result x }',
        ].join('\n');
        expect(check(text)).toEqual([
            'procedure-calls-itself at 1:31-1:32: Procedure `a` comes back to itself: `a` → `b` → `c` → `a`.',
        ]);
    });

    test('that follow the same one are no circle', () => {
        const text = [
            'procedure a { step s { follow c { x -> x } } result x }',
            'procedure b { step s { follow c { x -> x } } result x }',
            'procedure c { step s { go x } result x }',
        ].join('\n');
        expect(check(text)).toEqual([]);
    });
});

describe('flows', () => {
    const flows = (more: string) => `equipment e { option o { a b } part p part q ${more} }`;

    test('that feed each other only in different builds are no circle', () => {
        expect(check(flows('flow x for a: p feeds q in y flow y for b: q feeds p in x'))).toEqual([]);
        expect(check(flows('flow x: p feeds q in y for a flow y: q feeds p in x for b'))).toEqual([]);
        expect(check(flows('flow x: p feeds q in y flow y: q for a feeds p in x for b'))).toEqual([]);
    });

    test('that feed themselves are told', () => {
        expect(check(flows('flow x: p -> q feeds p in x'))).toEqual([
            'flows-feed-in-circle at 1:72-1:73: Flow `x` feeds itself.',
        ]);
    });
});

describe('builds', () => {
    test('that no exclusion leaves are told at the last of the exclusions that it takes', () => {
        const text = 'equipment e { option o { a b } option n { x y } exclude x exclude a exclude b exclude y }';
        const [finding] = findingsOf({ 'example.fault': text });
        expect(finding?.code).toBe('no-valid-build');
        expect(text.slice(finding?.start, finding?.end)).toBe('exclude b');
        expect(finding?.related.map(({ start, end }) => text.slice(start, end))).toEqual(['exclude a']);
    });

    test('that the guards of options rule out are told at the equipment', () => {
        expect(check('equipment e { option o for not a { a } }')).toEqual([
            'no-valid-build at 1:11-1:12: The `for` of the options of `e` contradict each other, so that no build can be made.',
        ]);
    });

    test('that lack an option as a whole are told at its guard and not at each choice', () => {
        expect(check('equipment e { option o { a b } exclude a option n for a { x y } }')).toEqual([
            'dead-choice at 1:26-1:27: No build has the choice `a` of option `o`: the exclusions leave none.',
            'impossible-guard at 1:55-1:56: No build is `a`.',
        ]);
    });
});

describe('a guard that holds in no build', () => {
    const parts =
        'option o { a b } hazard h { thermal } zone z condition c { on off } part p { fault f } kind k gate g';
    const never = 'for a and b';

    test.each([
        `option n ${never} { x y }`,
        `note "N" ${never}`,
        `hazard n { thermal 3 °C ${never} }`,
        `hazard n { thermal cools in 3 min ${never} }`,
        `hazard n { electrical stored 3 µF ${never} }`,
        `hazard n { mechanical starts by itself ${never} }`,
        `zone n { exposes h ${never} }`,
        `zone n { category III ${never} }`,
        `zone n { location "L" ${never} }`,
        `condition n ${never} { x y }`,
        `supply n ${never}`,
        `part n { in z ${never} }`,
        `part n { replace "R" ${never} }`,
        `part n { location "L" ${never} }`,
        `part n { warning "W" ${never} }`,
        `part n { fault f { stops ${never} } }`,
        `part n { fault f { rate 1 per 1 h ${never} } }`,
        `part n { fault f { at x ${never} } } flow x: n`,
        `part n { fault f { comes and goes ${never} } }`,
        `part n { fault f { causes p.f ${never} } }`,
        `part n { fault f { picture "x.svg" ${never} } }`,
        `part n { test t { observe normal yes ${never} } }`,
        `flow n ${never}: p`,
        `flow n: p for (a and b)`,
        `flow n: (p or p for (a and b))`,
        `flow n: p feeds p in n ${never}`,
        `part n { protects x ${never} } flow x: n`,
        `test n ${never} { observe normal yes }`,
        `test n { measure voltage DC ${never} normal 1 V }`,
        `test n { observe takes 1 min ${never} normal yes }`,
        `test n { observe needs c on ${never} normal yes }`,
        `test n { observe checks p.f as off ${never} normal yes off no }`,
        `test n { measure voltage DC across p to p ${never} normal 1 V }`,
        `test n { measure current DC through x ${never} normal 1 A } flow x: p`,
        `gate n { controls h ${never} }`,
        `gate n { permits measuring h ${never} }`,
        `gate n { wear "W" ${never} }`,
        `gate n { prove "P" ${never} }`,
        `gate n { instrument category III ${never} }`,
        `instrument n { category III ${never} }`,
    ])('is told in an equipment: %s', clause => {
        const text = `equipment e { ${parts} ${clause} }`;
        const codes = check(text).map(line => line.slice(0, line.indexOf(' ')));
        expect(codes.filter(code => code === 'impossible-guard')).toEqual(['impossible-guard']);
        expect(codes.filter(code => code.startsWith('unexpected') || code === 'unknown-name')).toEqual([]);
    });

    test.each([
        `complaint t off ${never}`,
        `disagree -> r ${never}`,
        `still wrong -> r ${never}`,
        `cannot be read -> r ${never}`,
        `step n ${never} { go r }`,
        `step n { do "D" ${never} go r }`,
        `step n { wait 1 min ${never} go r }`,
        `step n { gate g ${never} go r }`,
        `step n { go r ${never} go d }`,
        `step n { test t { normal -> r off -> d ${never} off -> r } }`,
        `step n { note "N" ${never} go r }`,
        `conclude n { p.f ${never} }`,
        `conclude n { p.f replace "R" ${never} }`,
        `conclude n { p.f unconfirmed because "U" ${never} }`,
        `refer n { leaves gate g closed ${never} }`,
        `refer n { leaves c off ${never} }`,
        `note "N" ${never}`,
    ])('is told in a tree: %s', clause => {
        const inEquipment = `${parts} test t { checks p.f as off observe normal yes off no }`;
        const text = `equipment e { ${inEquipment} }\n${tree(`step s { go r } ${clause}`)}`;
        const codes = check(text).map(line => line.slice(0, line.indexOf(' ')));
        expect(codes.filter(code => code === 'impossible-guard')).toEqual(['impossible-guard']);
        expect(codes.filter(code => code.startsWith('unexpected') || code === 'unknown-name')).toEqual([]);
    });
});
