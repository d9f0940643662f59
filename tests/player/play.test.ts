/** Sessions and screens: what is shown, what can be answered, what is kept, and how the way so far is told. */
import { describe, expect, test } from 'vitest';
import { sliceToBuild } from '../../language/src/document/slice.js';
import { answer, back, begin, finish, resume, screenOf, why } from '../../language/src/player/index.js';
import { load, placeOf, played, session, stepScreen, walkedTrees } from './walks.js';

const text = `instrument meter "Meter" { measures voltage DC 0 V .. 20 V resolution 10 mV accuracy 0.5 % + 2 digits }
equipment lamp "Lamp, invented" {
  option size "Size" { small "Small one"  large "Large one" }
  option cover "Cover" for large { glass "Glass"  paper "Paper" }
  option color "Color" { red "Red"  white "White" }
  exclude small with red because "Red is large."
  hazard heat "Heat" { thermal cools in 5 min warning "It is hot." }
  zone head "Head" { exposes heat location "under the cap" }
  condition knob "Knob" { off "Off"  on "On" }
  part bulb "Bulb" in head { replace "Fit a new bulb." takes 2 min costs 3 EUR under unplug fault broken "Broken" rate 9 per 1e6 h }
  part cell "Cell" { location "in the base" replace "Fit a new cell." takes 1 min fault flat "Flat" rate 9 per 1e6 h }
  test light "Does it light?" { checks bulb.broken as absent, cell.flat as absent observe by eye takes 1 min normal yes absent no }
  test volts "Voltage" in head {
    checks cell.flat as low
    measure voltage DC with meter
    takes 1 min
    needs knob on
    normal 3 V .. 4 V for small
    normal 6 V .. 8 V for large
    low otherwise
    high otherwise
  }
  gate unplug "Unplug it" {
    controls heat
    wear "Gloves"
    shut-down "Turn it off." sets knob off
    isolate heat "Pull the plug." takes 1 min
    release heat "Let it cool." 5 min
    prove heat "Feel the cap." takes 1 min
    restore "Plug it in."
  }
}
tree dark "It is dark" of lamp {
  complaint light absent
  step look "Look" { note "Mind the glass." test light { normal -> fine  absent -> measure } }
  step measure "Measure" {
    gate unplug
    wait 5 min until heat safe "Let it cool."
    restore unplug
    test volts { normal -> bad-bulb  low, high -> bad-cell }
  }
  conclude bad-bulb "The bulb" { bulb.broken }
  conclude bad-cell "The cell" { cell.flat }
  refer fine "No fault found" because "it lights"
}
tree other "Other" of lamp { complaint light absent step s "S" { gate unplug  continue with dark } }
`;
const trees = walkedTrees({ 'lamp.fault': text });
const [dark, other] = trees;
if (!dark || !other) throw new Error('The text has two trees.');
const { tree } = dark;

describe('options', () => {
    test('are asked where something hangs on them, and only for what is made', () => {
        const at = played(tree, [], ['absent']);
        expect(placeOf(at)).toBe('option size');
        const screen = screenOf(at);
        expect(screen.sort === 'option' && screen.possible).toEqual([
            { id: 'size.small', title: 'Small one' },
            { id: 'size.large', title: 'Large one' },
        ]);
        expect(answer(at, 'huge').problem).toBe('`huge` is no choice of `size`.');
        expect(placeOf(session(answer(at, 'size.small')))).toBe('step measure');
    });

    test('that are excluded are not offered, and not taken', () => {
        expect(begin(tree, { choices: ['red', 'small'] }).problem).toBe(
            'No unit is built with `size.small` and what has been said before.',
        );
        expect(placeOf(played(tree, ['red'], ['absent', 'done', 'done']))).toBe('step measure');
        expect(begin(tree, { choices: ['small', 'glass'] }).problem).toBe('This unit has no option `cover`.');
        expect(begin(tree, { choices: ['small', 'large'] }).problem).toBe(
            'The unit is said to have `size.small` already.',
        );
    });
});

describe('a step', () => {
    test('shows its statements in order, and what comes now', () => {
        const { screen, now } = stepScreen(played(tree, ['small'], ['absent', 'done']));
        expect(screen.statements.map(({ type, when }) => `${type} ${when}`)).toEqual([
            'gate done',
            'wait now',
            'restore later',
            'test later',
        ]);
        expect(now).toEqual({
            when: 'now',
            type: 'wait',
            time: '5 min',
            text: 'Let it cool.',
            hazard: 'Heat',
            runsDown: [{ manner: 'cools', time: '5 min' }],
        });
        expect(screen.answers).toEqual(['done', 'cannot be done']);
        expect(screen.safetyNotice).toMatch(/^Verification is an aid/);
        expect(screen.choices).toEqual([{ option: 'size', choice: 'size.small' }]);
    });

    test('shows the elements of a gate: to close it, and to restore it', () => {
        const closing = stepScreen(played(tree, ['small'], ['absent'])).now;
        expect(closing && 'gate' in closing && closing.gate).toMatchObject({
            id: 'unplug',
            controls: ['Heat'],
            wear: ['Gloves'],
            elements: [
                { element: 'shut-down', text: 'Turn it off.' },
                { element: 'isolate', text: 'Pull the plug.' },
                { element: 'release', text: 'Let it cool.', duration: '5 min' },
                { element: 'prove', text: 'Feel the cap.' },
            ],
        });
        const restoring = stepScreen(played(tree, ['small'], ['absent', 'done', 'done'])).now;
        expect(restoring && 'gate' in restoring && restoring.gate.elements).toEqual([
            { element: 'restore', text: 'Plug it in.' },
        ]);
    });

    test('shows a test with its bands by the build, its needs, and where it is made', () => {
        const { now } = stepScreen(played(tree, ['small'], ['absent', 'done', 'done', 'done']));
        expect(now && 'test' in now && now.test).toMatchObject({
            id: 'volts',
            title: 'Voltage',
            places: ['Head'],
            takes: '1 min',
            method: { type: 'measure', quantity: 'voltage', modes: ['DC'], instrument: 'Meter', unit: 'V' },
            needs: [{ words: 'Knob: On', met: false }],
            outcomes: [
                { id: 'normal', healthy: true, bands: [{ display: '3 V .. 4 V' }] },
                { id: 'low', bands: [{ display: 'below' }] },
                { id: 'high', bands: [{ display: 'above' }] },
            ],
        });
    });

    test('shows what can hurt, and whose safety statements apply', () => {
        const { screen } = stepScreen(played(tree, ['small'], ['absent']));
        expect(screen.cautions).toContainEqual({ type: 'gate', gate: 'Unplug it', change: 'closed', hazard: 'Heat' });
        expect(screen.safety).toContainEqual({ signalWord: 'warning', text: 'It is hot.' });
    });
});

test('an end shows its faults, repairs, gates and what to set back', () => {
    const screen = screenOf(played(tree, ['small'], ['absent', 'done', 'done', 'done', { reading: 3.5, unit: 'V' }]));
    expect(screen).toMatchObject({
        sort: 'end',
        kind: 'conclusion',
        end: { id: 'bad-bulb', title: 'The bulb' },
        faults: [{ id: 'bulb.broken', title: 'Broken', part: 'Bulb', places: ['Head'] }],
        repairs: [
            {
                action: 'replace',
                text: 'Fit a new bulb.',
                faults: ['bulb.broken'],
                takes: '2 min',
                costs: '3 EUR',
                gates: ['Unplug it'],
            },
        ],
        close: [{ id: 'unplug' }],
        restore: [{ id: 'unplug' }],
        setBack: [{ condition: 'knob', value: 'off', words: 'Knob: Off' }],
        complaints: [{ test: 'light', title: 'Does it light?' }],
    });
});

test('texts come in the locale that is wanted, else in its language, else in that of the author', () => {
    const document = JSON.parse(JSON.stringify(dark.document)) as { tree: { title: object } };
    document.tree.title = { en: 'It is dark', de: 'Sie ist dunkel', 'pt-BR': 'Escura' };
    const at = played(load(document), [], []);
    const titles = ['de', 'de-AT', 'pt-BR', 'pt', 'fr', undefined].map(locale => screenOf(at, locale).tree.title);
    expect(titles).toEqual(['Sie ist dunkel', 'Sie ist dunkel', 'Escura', 'It is dark', 'It is dark', 'It is dark']);
});

test('why tells the answers with what they led to, and what can still be named', () => {
    const start = played(tree, ['small'], []);
    expect(why(start)).toEqual({ answers: [], open: ['bulb.broken', 'cell.flat'], past: [], otherTrees: [] });
    const end = why(played(tree, ['small'], ['absent', 'done', 'done', 'done', { reading: 2, unit: 'V' }]));
    expect(end.open).toEqual(['cell.flat']);
    expect(end.past).toEqual(['bulb.broken']);
    expect(end.answers.map(({ step, test, outcome, to }) => [step, test, outcome, to])).toEqual([
        ['look', 'light', 'absent', 'measure'],
        ['measure', undefined, undefined, undefined],
        ['measure', undefined, undefined, undefined],
        ['measure', undefined, undefined, undefined],
        ['measure', 'volts', 'low', 'bad-cell'],
    ]);
});

test('another tree goes on with what was handed over, and the record keeps it', () => {
    const at = played(other.tree, ['small'], ['done']);
    const screen = screenOf(at);
    if (screen.sort !== 'hand-over') throw new Error(screen.sort);
    expect(screen.next).toBe('dark');
    const next = session(begin(tree, { choices: ['small'], state: screen.state }));
    expect(next.state.closed).toEqual(['unplug']);
    expect(next.state.conditions.get('knob')).toBe('off');
    const lines = JSON.stringify({
        event: 'begin',
        format: 'halfsplit-session',
        formatVersion: '1.0',
        equipment: 'lamp',
        tree: 'dark',
        state: screen.state,
    });
    expect(resume(tree, [lines]).session?.state.closed).toEqual(['unplug']);
    expect(begin(tree, { state: { closed: 1 } as never }).problem).toBe('The state that is handed over is none.');
});

test('the session of before stays as it was', () => {
    const before = played(tree, ['small'], []);
    const shown = JSON.stringify(screenOf(before));
    const after = session(answer(before, 'absent'));
    expect(JSON.stringify(screenOf(before))).toBe(shown);
    expect(screenOf(session(back(after)))).toEqual(screenOf(before));
    expect(back(before).problem).toBe('This is where the session began.');
});

test('what is no answer at all is said', () => {
    const at = played(tree, ['small'], []);
    for (const given of [null, undefined, 3, {}, [], { reading: '3', unit: 'V' }, { reading: 3 }]) {
        expect(answer(at, given as never).problem).toBe('An answer is a text, or a reading with its unit.');
    }
    expect(begin(tree, { choices: 'small' as never }).problem).toBe('The choices are no list.');
    expect(begin(tree, { choices: [null] as never }).problem).toBe('There is no choice `null`.');
    expect(resume(tree, [3] as never).problem).toEqual({ line: 1, why: 'The line is no text.' });
    const end = session(answer(at, 'normal'));
    expect(finish(end, { complaint: 'perhaps' as never }).problem).toBe(
        'Say whether the complaint is `gone`, `still there` or `not tested`.',
    );
});

test('a document that is cut down to one build asks for no option', () => {
    const { document, problem } = sliceToBuild(dark.document, ['small', 'white']);
    expect(problem).toBeUndefined();
    const at = played(load(document), [], ['absent', 'done', 'done', 'done']);
    expect(placeOf(at)).toBe('step measure');
    expect(placeOf(session(answer(at, { reading: 3, unit: 'V' })))).toBe('end bad-bulb');
});
