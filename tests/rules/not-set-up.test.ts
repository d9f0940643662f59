/** Tests that are asked although they are not set up: what is missing, and what sets it up. */
import { describe, expect, test } from 'vitest';
import { checkMend } from '../support/check.js';
import { findingsOf } from '../support/read-texts.js';

/** An invented press: a lamp behind its key and its mains, a plate that gets hot. */
function press(steps: string, needs = ''): string {
    return `equipment press "Flower press" {
  hazard mains "Mains" { electrical 230 V AC }
  hazard hot-plate "Hot plate" { thermal 90 °C }
  zone plate-zone "At the plate" { exposes mains, hot-plate while lid open }
  condition key "Key" { off on }
  condition lid "Lid" { shut open }
  supply socket "Socket" carries mains { fault dead "Dead" }
  part lamp "Lamp" { fault dull "Dull" }
  part plate "Plate" in plate-zone { fault bent "Bent" }
  flow power: socket -> lamp when key on -> [lit]
  test lit "Is the lamp lit?" {
    checks plate.bent as absent
    observe by eye
    normal yes
    absent no shows stopped
  }
  test flat "Is the plate flat?" in plate-zone {
    checks plate.bent as bent
    observe by eye
    ${needs}
    normal yes
    bent no
  }
  gate safe-plate "Make the plate safe" {
    controls mains, hot-plate
    prepare "Tell the people in the room."
    shut-down "Turn the key off." sets key off
    isolate mains, hot-plate "Pull the plug."
    lock mains "Keep the plug."
    release hot-plate "Let the plate cool." 30 min
    prove mains, hot-plate "The lamp is out and the plate is cold."
    restore "Plug the press in."
  }
}

tree dark "The lamp is dark" of press {
  complaint lit absent when key on
  ${steps}
  conclude dull-lamp "The lamp is dull" { lamp.dull, plate.bent }
  refer no-socket "Try another socket" because "the socket is dead" { socket.dead leaves gate safe-plate closed }
  refer no-fault "No fault found" because "the lamp is lit"
}
`;
}

const on = 'do "Turn the key on." sets key on';
const askLit = 'test lit { normal -> no-fault  absent -> look }';
const first = `step first { ${on} ${askLit} }`;
const askFlat = 'test flat { normal -> no-socket  bent -> dull-lamp }';

/** Each finding of the code as its message and its advice. */
function told(text: string): string[][] {
    return findingsOf({ 'example.fault': text })
        .filter(({ code }) => code === 'test-not-set-up')
        .map(({ message, advice }) => [message, advice ?? '']);
}

/** The text with a cursor in the name of the asked test. */
const atFlat = (text: string) => text.replace('test flat {', 'test <|>flat {');

describe('a need', () => {
    test('that is met is no finding', () => {
        expect(
            told(press(`${first} step look { do "Open the lid." sets lid open ${askFlat} }`, 'needs lid open')),
        ).toEqual([]);
    });

    test('that is not met is told with what sets it', () => {
        const text = press(`${first} step look { ${askFlat} }`, 'needs lid open');
        expect(told(text)).toEqual([
            ['`flat` needs `lid open`, and that is not so here.', 'Set it before the test: `do "…" sets lid open`.'],
        ]);
    });

    test('of several states is told for each that is not so', () => {
        const text = press(`${first} step look { ${askFlat} }`, 'needs key on and lid open and isolated, not key on');
        expect(told(text).map(([message]) => message)).toEqual([
            '`flat` needs `isolated`, and that is not so here.',
            '`flat` needs `lid open`, and that is not so here.',
            '`flat` needs `not key on`, and that is not so here.',
        ]);
    });

    test('to be isolated is met by a gate, never by a switch', () => {
        const opened = `${first} step look { do "Open the lid." sets lid open ${askFlat} }`;
        expect(told(press(opened, 'needs isolated'))).toEqual([
            ['`flat` needs `isolated`, and that is not so here.', 'Close the gate before the test: `gate safe-plate`.'],
        ]);
        const withGate = opened.replace('test flat', 'gate safe-plate test flat');
        expect(told(press(withGate, 'needs isolated'))).toEqual([]);
    });

    test('that several states could meet says no more than that', () => {
        expect(told(press(`${first} step look { ${askFlat} }`, 'needs lid open or not key on and lid open'))).toEqual([
            [
                '`flat` needs `lid open or (not key on and lid open)`, and that is not so here.',
                'Set it before the test: `do "…" sets lid open`.',
            ],
        ]);
    });
});

describe('a flow that must be flowing', () => {
    const asked = `${first} step look { ${askFlat} }`;

    test('and that a fault may have stopped is told so', () => {
        expect(told(press(asked, 'needs power flowing'))).toEqual([
            [
                '`flat` needs `power flowing`, and a fault that is still possible here may have stopped it.',
                'Ask first whether it flows, and come here only where it does.',
            ],
        ]);
    });

    test('and that flows in no unit is told with what is in its way', () => {
        const off = asked.replace('test flat', 'do "Turn the key off." sets key off test flat');
        expect(told(press(off, 'needs power flowing'))).toEqual([
            ['`flat` needs `power flowing`, and that is not so here.', 'Set it before the test: `do "…" sets key on`.'],
        ]);
    });
});

describe('a test where nothing flows', () => {
    test('because a state is not set is told with that state', () => {
        expect(told(press(`step first { ${askLit} } step look { ${askFlat} }`))).toEqual([
            [
                '`lit` is asked here without `key on`, so nothing flows there.',
                'Set it before the test: `do "…" sets key on`.',
            ],
        ]);
    });

    test('because a gate is closed is told with that gate, and no fix restores it', () => {
        const closed = `step first { gate safe-plate ${on} ${askLit} } step look { ${askFlat} }`;
        expect(told(press(closed))).toEqual([
            [
                '`lit` is asked here while gate `safe-plate` is closed, so nothing flows there.',
                'Ask the test before the gate is closed, or restore it first: `restore safe-plate`.',
            ],
        ]);
        const [finding] = findingsOf({ 'example.fault': press(closed) }).filter(
            ({ code }) => code === 'test-not-set-up',
        );
        expect(finding?.mends).toEqual([]);
    });

    test('for two reasons at once is told without one', () => {
        const closed = `step first { gate safe-plate ${askLit} } step look { ${askFlat} }`;
        expect(told(press(closed))).toEqual([
            [
                '`lit` is asked here where nothing flows: its energy is off, or a state on the way is not set.',
                'Restore the gate and set the states that the flow needs before the test.',
            ],
        ]);
    });
});

describe('a mend', () => {
    test('puts the action that sets the state before the test', () => {
        const text = press(`${first} step look { ${askFlat} }`, 'needs lid open');
        const mended = checkMend(atFlat(text), 'Set `lid open` before the test');
        expect(mended).toBe(text.replace(askFlat, `do "" sets lid open\n    ${askFlat}`));
        expect(told(mended.replace('do ""', 'do "Open the lid."'))).toEqual([]);
    });

    test('closes the gate before the test', () => {
        const text = press(`${first} step look { do "Open the lid." sets lid open ${askFlat} }`, 'needs isolated');
        const mended = checkMend(atFlat(text), 'Close `safe-plate` before the test');
        expect(told(mended)).toEqual([]);
    });
});
