/** Checks which role each reference has: it decides where the linker looks for the name. */
import { expect, test } from 'vitest';
import { rolesOf } from '../support/lower.js';

const inEquipment = (text: string) => rolesOf(`equipment e { ${text} }`);
const inTree = (text: string) => rolesOf(`tree t { ${text} }`).slice(1);
const inStep = (text: string) => inTree(`step s { ${text} }`);

test('a part names its kind, its zone and the flows it protects', () => {
    expect(inEquipment('part p is k in z { in y protects f, g }')).toEqual([
        'kind k',
        'zone z',
        'zone y',
        'flow f',
        'flow g',
    ]);
});

test('a supply carries an energy in a zone', () => {
    expect(inEquipment('supply s carries m in z')).toEqual(['energy m', 'zone z']);
});

test('a zone exposes energies while a state holds', () => {
    expect(inEquipment('zone z { exposes m while lid open }')).toEqual(['energy m', 'subject lid', 'value open']);
});

test('a value of a condition bypasses parts', () => {
    expect(inEquipment('condition c { on bypasses p, q }')).toEqual(['part p', 'part q']);
});

test('a fault belongs to places, makes outcomes and causes faults', () => {
    expect(
        inEquipment('part p { fault f at a { at b  makes t low or absent  causes q.g, r  repair "x" under gate-1 } }'),
    ).toEqual([
        'place a',
        'place b',
        'test t',
        'outcome low',
        'outcome absent',
        'part q',
        'fault-of-part g',
        'fault r',
        'gate gate-1',
    ]);
});

test('a flow goes through members, test points and branches, and feeds parts', () => {
    expect(inEquipment('flow f: m -> (a with b) -> [t, k.u] feeds p in g')).toEqual([
        'member m',
        'member a',
        'member b',
        'test t',
        'part k',
        'test-of-part u',
        'part p',
        'flow g',
    ]);
});

test('a test names where it is done, with what, and what it checks', () => {
    expect(
        inEquipment(`test t in z at p {
            measure voltage DC with m  needs c on, f flowing  checks q.g as low, r
            across a to b  through f  in y  normal yes
        }`),
    ).toEqual([
        'zone z',
        'part p',
        'instrument m',
        'subject c',
        'value on',
        'subject f',
        'part q',
        'fault-of-part g',
        'outcome low',
        'fault r',
        'stretch-end a',
        'stretch-end b',
        'flow f',
        'zone y',
    ]);
});

test('a calculation names tests, and tables or functions alike', () => {
    expect(inEquipment('test t { calculate ratio from mean(a, k.b) / curve(c) normal yes }')).toEqual([
        'table mean',
        'test a',
        'part k',
        'test-of-part b',
        'table curve',
        'test c',
    ]);
});

test('a band from a table names the table and the test', () => {
    expect(inEquipment('test t { observe normal curve of u }')).toEqual(['table curve', 'test u']);
});

test('a test that asks for the build names an option', () => {
    expect(inEquipment('test t { identify o }')).toEqual(['option o']);
});

test('a gate names hazards, conditions and instruments', () => {
    expect(
        inEquipment(
            'gate g { controls m  permits measuring n  prove m "x" with i  shut-down "y" sets c off and d shut }',
        ),
    ).toEqual([
        'energy m',
        'energy n',
        'energy m',
        'instrument i',
        'condition c',
        'value off',
        'condition d',
        'value shut',
    ]);
});

test('a choice stands alone or behind its option', () => {
    expect(inEquipment('part p for a or not o.b')).toEqual(['choice a', 'option o', 'choice-of-option b']);
});

test('a tree names its equipment, and an empty name where it does not', () => {
    expect(rolesOf('tree t of e')).toEqual(['equipment e']);
    expect(rolesOf('tree t')).toEqual(['equipment ']);
});

test('a tree hands over to steps and ends', () => {
    expect(inTree('still wrong -> a  disagree -> b  cannot be read -> c')).toEqual([
        'target a',
        'target b',
        'target c',
    ]);
});

test('a complaint names outcomes of a test', () => {
    expect(inTree('complaint k.t low, absent')).toEqual(['part k', 'test-of-part t', 'outcome low', 'outcome absent']);
});

test('a `do` names what it changes and where', () => {
    expect(inStep('do "x" sets c on clears p.f, g replaces q, r using u at v in w cannot be done -> s')).toEqual([
        'condition c',
        'value on',
        'part p',
        'fault-of-part f',
        'fault g',
        'part q',
        'part r',
        'part u',
        'part v',
        'zone w',
        'target s',
    ]);
});

test('gates and waits of a step name gates and energies', () => {
    expect(inStep('gate g  wait 1 min until h safe  danger about m "x"  restore g')).toEqual([
        'gate g',
        'energy h',
        'energy m',
        'gate g',
    ]);
});

test('branches of a test name outcomes and targets', () => {
    expect(inStep('test t { low, high -> a  otherwise -> b  cannot be read -> c }')).toEqual([
        'test t',
        'outcome low',
        'outcome high',
        'target a',
        'target b',
        'target c',
    ]);
});

test('`confirm` names outcomes in both its forms', () => {
    expect(inStep('confirm t low -> a')).toEqual(['test t', 'outcome low', 'target a']);
    expect(inStep('confirm t { low -> a }')).toEqual(['test t', 'outcome low', 'target a']);
});

test('branches of a procedure name its results, and what it is given may be a part or a test', () => {
    expect(inStep('follow p with k { good -> a }')).toEqual([
        'procedure p',
        'subject-given k',
        'result good',
        'target a',
    ]);
    expect(inStep('follow p with k.t { good -> a }')).toEqual([
        'procedure p',
        'part k',
        'test-of-part t',
        'result good',
        'target a',
    ]);
});

test('a step goes to a target or on to a tree', () => {
    expect(inStep('go a for x  continue with u')).toEqual(['target a', 'choice x', 'tree u']);
});

test('an end names faults, and gates and conditions that stay as they are', () => {
    expect(inTree('conclude c { p.f, q  leaves gate g closed  leaves lid open }')).toEqual([
        'part p',
        'fault-of-part f',
        'fault q',
        'gate g',
        'condition lid',
        'value open',
    ]);
});

test('a procedure names its equipment and the kind that it is about', () => {
    expect(rolesOf('procedure p of e about k')).toEqual(['equipment e', 'kind k']);
    expect(rolesOf('procedure p about part')).toEqual([]);
});

test('a scenario names its tree, choices, faults, readings and end', () => {
    expect(rolesOf('scenario "x" of t { build a, o.b fault p.f, g reads u low expect c }')).toEqual([
        'tree t',
        'choice a',
        'option o',
        'choice-of-option b',
        'part p',
        'fault-of-part f',
        'fault g',
        'test u',
        'outcome low',
        'target c',
    ]);
    expect(rolesOf('scenario "x"')).toEqual(['tree ']);
});

test('words that may be names can be referred to', () => {
    expect(inStep('go measure')).toEqual(['target measure']);
    expect(inEquipment('flow f: supply -> lock')).toEqual(['member supply', 'member lock']);
});
