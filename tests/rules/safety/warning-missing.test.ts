/** Where somebody has to be warned of a hazard, and which statements are enough; checked with the ways through a small mill. */
import { describe, expect, test } from 'vitest';
import { checkMend } from '../../support/check.js';
import { findingsOf } from '../../support/read-texts.js';

/** The parts of the mill that a case changes; what is left out stays as it is. */
interface Changes {
    readonly hazards?: string;
    readonly zone?: string;
    readonly start?: string;
    readonly lookUp?: string;
    readonly lockout?: string;
    readonly live?: string;
    readonly tree?: string;
}

/** A mill in which each warning that is needed stands at its place. */
function mill(changes: Changes = {}): string {
    const {
        hazards = `hazard mains "Mains" { electrical 230 V AC }
  hazard teeth "Teeth" { mechanical runs down in 20 s }
  hazard heat "Heat" { thermal 90 °C cools in 10 min }`,
        zone = '',
        start = 'warning about teeth "They start at once."',
        lookUp = '',
        lockout = 'warning about mains "It can kill."',
        live = 'danger about mains "It kills."',
        tree = '',
    } = changes;
    return `instrument meter "Meter" {
  measures voltage AC 0 V .. 600 V resolution 0.1 V accuracy 1 %
  category III 600 V
}
equipment mill "Mill" {
  option size "Size" { small "Small" large "Large" }
  ${hazards}
  zone box "Box" { exposes mains category III ${zone} }
  zone hopper "Hopper" { exposes teeth, heat }
  condition switch "Switch" { off on }
  supply spur "Supply" carries mains { fault dead "Dead" rate 6 per 1e6 h }
  part motor "Motor" in hopper {
    replace "Fit a new motor." takes 60 min under lockout
    fault open "Open" rate 4 per 1e6 h
  }
  flow power: spur -> [voltage] -> motor when switch on -> [turns]
  test turns "Do the teeth turn?" {
    observe by ear
    takes 1 min
    needs switch on
    normal yes
    absent no shows stopped
  }
  test voltage "Voltage" in box {
    measure voltage AC with meter
    takes 4 min
    normal 230 V ± 10 %
    wrong otherwise shows stopped
  }
  gate lockout "Lock out" {
    controls mains, teeth
    ${lockout}
    prepare "Tell the people." takes 1 min
    shut-down "Switch off." sets switch off
    isolate mains "Pull the plug." takes 1 min
    lock mains "Lock it." takes 1 min
    release teeth "Wait." 20 s
    prove mains "Test for dead." with meter proved before and after takes 3 min
    prove teeth "Look." takes 1 min
    restore "Take the tools away. Tell the people." takes 1 min
    restore "Plug it in." takes 1 min
  }
  gate live "Measure live" {
    permits measuring mains
    instrument category III 600 V
    wear "Gloves"
    ${live}
  }
}
tree still "The teeth stand still" of mill {
  complaint turns absent
  ${tree}
  step start "Start" {
    ${start}
    do "Switch on." sets switch on
    test turns { normal -> stop  absent -> measure }
  }
  step stop "Stop" {
    do "Switch off." sets switch off
    go fine
  }
  step measure "Measure" {
    gate live
    test voltage { normal -> cool  wrong -> leave }
  }
  step cool "Cool" {
    gate lockout
    ${lookUp}
    wait 10 min until heat safe
    go open-motor
  }
  step leave "Leave it off" {
    do "Switch off." sets switch off
    go no-supply
  }
  conclude open-motor "Open" { motor.open }
  refer no-supply "Call somebody" because "there is no supply" { spur.dead }
  refer fine "No fault found" because "it turns"
}
`;
}

const heatTold = { lookUp: 'caution about heat "It burns."' };

/** What is found, each as `the words it is at: message`. */
function lacks(changes: Changes): string[] {
    const text = mill(changes);
    const all = findingsOf({ 'mill.fault': text });
    expect(all.filter(({ code }) => code !== 'warning-missing').map(({ message }) => message)).toEqual([]);
    return all.map(({ start, end, message }) => `${text.slice(start, end)}: ${message}`);
}

test('nothing is lacking where each warning stands at its place', () => {
    expect(lacks(heatTold)).toEqual([]);
});

describe('a warning is asked for', () => {
    test.each<[string, Changes, string]>([
        [
            'where an action starts what moves',
            { ...heatTold, start: '' },
            '"Switch on.": This starts what drives `teeth`, and no safety statement before it warns of it.',
        ],
        [
            'where somebody waits for a hazard',
            {},
            '10 min: Whoever waits here is beside `heat`, and no safety statement warns of it.',
        ],
        [
            'where somebody measures on live parts',
            { ...heatTold, live: '' },
            'live: Gate `live` permits work beside `mains`, and no safety statement warns of it.',
        ],
        [
            'where an instrument proves that a voltage is gone',
            { ...heatTold, lockout: '' },
            'lockout: In gate `lockout` an instrument is held to `mains`, which may still be there, and no safety statement warns of it.',
        ],
    ])('%s', (_, changes, message) => {
        expect(lacks(changes)).toEqual([message]);
    });
});

describe('a warning is enough', () => {
    test.each<[string, Changes]>([
        ['in the tree', { ...heatTold, start: '', tree: 'warning about teeth "They start."' }],
        ['in a zone that exposes the hazard', { ...heatTold, live: '', zone: 'danger "It kills."' }],
        [
            'in the hazard itself',
            {
                start: '',
                hazards: `hazard mains "Mains" { electrical 230 V AC }
  hazard teeth "Teeth" { mechanical runs down in 20 s warning "They start." }
  hazard heat "Heat" { thermal 90 °C cools in 10 min caution "It burns." }`,
            },
        ],
        ['right before the action, with no hazard named', { ...heatTold, start: 'warning "Keep your hands away."' }],
    ])('%s', (_, changes) => {
        expect(lacks(changes)).toEqual([]);
    });
});

describe('a warning is not enough', () => {
    const [starts] = lacks({ ...heatTold, start: '' });

    test('for other builds', () => {
        expect(lacks({ ...heatTold, start: 'warning about teeth "They start." for small' })).toEqual([starts]);
    });

    test('about another hazard', () => {
        expect(lacks({ ...heatTold, start: 'warning about mains "It can kill."' })).toEqual([starts]);
    });

    test('in the tree where it names no hazard', () => {
        expect(lacks({ ...heatTold, start: '', tree: 'warning "Take care."' })).toEqual([starts]);
    });

    test('as a notice', () => {
        expect(lacks({ ...heatTold, start: 'notice "It is loud."' })).toEqual([starts]);
    });
});

test.each<[string, Changes, string, string]>([
    ['warning', { ...heatTold, start: '' }, 'do "Swi', 'warning about teeth'],
    ['danger', { ...heatTold, live: '' }, 'gate liv', 'danger about mains'],
    ['caution', {}, 'wait 10 ', 'caution about heat'],
])('the mend puts a word that fits the hazard where it is missing: %s', (_, changes, before, words) => {
    const text = mill(changes);
    const at = text.indexOf(before) + before.length - 1;
    const mended = checkMend(`${text.slice(0, at)}<|>${text.slice(at)}`, `Add \`${words}\``);
    expect(mended).toContain(`${words} ""`);
    expect(findingsOf({ 'mill.fault': mended })).toEqual([]);
});
