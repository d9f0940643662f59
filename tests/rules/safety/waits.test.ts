/** When the time of a hazard counts: what must be stopped first, which gates count, and in which builds and on which ways. */
import { describe, expect, test } from 'vitest';
import { checkMend } from '../../support/check.js';
import { findingsOf } from '../../support/read-texts.js';

/** Whatever is said of warnings is no matter here. */
function found(text: string, code: string): string[] {
    return findingsOf({ 'oven.fault': text })
        .filter(finding => finding.code === code)
        .map(({ start, end, message, counterexample }) => {
            return `${text.slice(start, end)}: ${message} ${counterexample?.build.join() ?? ''}`.trim();
        });
}

/** An oven whose steps a case writes from `hot` on; the plate is touched at the end of them. */
function oven(steps: string, members = '', cooling = 'cools in 30 min'): string {
    return `equipment oven "Oven" {
  option size "Size" { small "Small" large "Large" }
  hazard heat "Heat" { thermal 90 °C ${cooling} caution "It burns." }
  hazard gas "Gas" { gas 20 mbar gauge warning "It burns." }
  zone plate "Plate" { exposes heat }
  condition switch "Switch" { off on }
  supply mains "Mains"
  part element "Element" in plate {
    replace "Fit a new element." takes 10 min under lockout
    fault open "Open" rate 4 per 1e6 h
  }
  flow power: mains -> [lamp] -> element when switch on -> [warm]
  test lamp "Lamp" { observe by eye takes 1 min normal yes absent no shows stopped }
  test warm "Warm" { observe by eye takes 5 min needs switch on normal yes absent no shows stopped }
  test touch "Touch" in plate { checks element.open as open observe by hand takes 1 min normal yes open no }
  gate lockout "Lock out" {
    controls heat
    prepare "P" isolate "I" sets switch off lock "L" release "R" 30 min prove "P" restore "Clear." restore "On."
  }
  gate gas-off "Shut the gas" {
    controls gas
    prepare "P" isolate "I" lock "L" prove "P" restore "Clear." restore "On."
  }
  ${members}
}
tree cold "Cold" of oven {
  complaint warm absent
  step start "Start" {
    do "Switch on." sets switch on
    test warm { normal -> stop  absent -> hot }
  }
  step stop "Stop" { do "Switch off." sets switch off  go fine }
  ${steps}
  conclude open "Open" { element.open }
  refer fine "Fine" because "it is warm"
  refer odd "Ask" because "it is odd"
}
`;
}

const off = 'do "Switch off." sets switch off';
const touch = 'test touch { normal -> odd  open -> open }';

describe('a wait while energy still comes in', () => {
    test('does not count, however long it is', () => {
        expect(found(oven(`step hot "Hot" { wait 60 min until heat safe ${off} ${touch} }`), 'wait-too-short')).toEqual(
            [
                '60 min: Nothing has stopped `power` before this wait: energy still comes into `heat`, and the time does not count. small',
            ],
        );
    });

    test('counts once it is switched off, or a gate has cut it off', () => {
        for (const stop of [off, 'gate lockout']) {
            const restore = stop === off ? '' : 'restore lockout';
            const text = oven(`step hot "Hot" { ${stop} wait 30 min until heat safe ${restore} ${touch} }`);
            expect(found(text, 'wait-too-short'), stop).toEqual([]);
        }
    });

    test('does not count behind a gate that cuts off something else', () => {
        const text = oven(
            `step hot "Hot" { gate gas-off wait 30 min until heat safe restore gas-off ${off} ${touch} }`,
        );
        expect(found(text, 'wait-too-short')).toHaveLength(1);
    });

    test('is mended by a gate that stops it, and by no other', () => {
        const text = oven(`step hot "Hot" { wait 60 m<|>in until heat safe ${off} ${touch} }`);
        expect(checkMend(text, 'Close the gate `lockout` before this')).toContain('gate lockout  wait 60 min');
        expect(() => checkMend(text, 'Close the gate `gas-off` before this')).toThrow('There is no mend');
    });

    test('is told of a detour too', () => {
        const text = oven(
            `step hot "Hot" { ${off} test lamp { normal, absent -> odd  cannot be read -> on-again } }
            step on-again "On" { do "Switch on." sets switch on wait 60 min until heat safe ${off} ${touch} }`,
        );
        expect(found(text, 'wait-too-short')).toHaveLength(1);
    });
});

describe('the time since a gate was closed', () => {
    const touching = (before: string) => `step hot "Hot" { ${before} restore gas-off ${touch} }`;

    test('counts behind a gate that stops what drives the hazard, and behind no other', () => {
        const after = `do "Sweep." takes 20 min wait 10 min until heat safe`;
        expect(
            found(oven(`step hot "Hot" { gate lockout ${after} restore lockout ${touch} }`), 'wait-too-short'),
        ).toEqual([]);
        expect(found(oven(touching(`${off} gate gas-off ${after}`)), 'wait-too-short')).toEqual([
            '10 min: `heat` takes 30 min to cool, and at the end of this wait only 10 min may have passed. small',
        ]);
    });

    test('begins anew when a gate that was closed twice is restored once', () => {
        const steps = `step hot "Hot" { ${off} gate lockout do "Sweep." takes 20 min go again }
          step again "Again" { gate lockout restore lockout do "Sweep." takes 20 min wait 10 min until heat safe ${touch} }`;
        expect(found(oven(steps), 'wait-too-short')).toHaveLength(1);
    });

    test('counts what is done in the builds that do it', () => {
        const steps = `step hot "Hot" { gate lockout do "Sweep." takes 20 min for small wait 10 min until heat safe restore lockout ${touch} }`;
        expect(found(oven(steps), 'wait-too-short')).toEqual([
            '10 min: `heat` takes 30 min to cool, and at the end of this wait only 10 min may have passed. large',
        ]);
    });

    test('counts what a test takes in each build', () => {
        const slow = `test sweep "Sweep" { checks element.open as bad observe by eye takes 20 min for small takes 1 min for large normal yes bad no }`;
        const steps = `step hot "Hot" { gate lockout test sweep { normal, bad -> cool } }
          step cool "Cool" { wait 10 min until heat safe restore lockout ${touch} }`;
        expect(found(oven(steps, slow), 'wait-too-short')).toEqual([
            '10 min: `heat` takes 30 min to cool, and at the end of this wait only 11 min may have passed. large',
        ]);
    });

    test('is asked of a wait that only a detour leads to', () => {
        const steps = `step hot "Hot" { ${off} test lamp { normal, absent -> odd  cannot be read -> cool } }
          step cool "Cool" { wait 10 min until heat safe ${touch} }`;
        expect(found(oven(steps), 'wait-too-short')).toHaveLength(1);
    });
});

describe('a trip by heat', () => {
    const overload = (after: string) => `part overload "Overload" { protects power
      reset "Press it." takes 1 min under lockout
      fault tripped "Tripped" rate 2 per 1e6 h { makes warm absent } }
    part drive "Drive" { replace "Fit a new drive." takes 9 min under lockout
      fault stiff "Stiff" weakens rate 3 per 1e6 h { causes overload.tripped ${after} } }
    test flag "Flag" { checks overload.tripped as out observe by eye takes 1 min normal no out yes }`;
    const reset = (before: string) => `step hot "Hot" { ${off} test flag { normal -> odd  out -> press } }
      step press "Press" { ${before} do "Press it." clears overload.tripped takes 1 min go odd }`;

    test('is not reset while what it protects is hot', () => {
        expect(found(oven(reset(''), overload('after 20 s')), 'wait-too-short')).toEqual([
            '"Press it.": `overload.tripped` is reset here while `heat` may still be there: it trips by heat, and must cool 30 min before. small',
        ]);
    });

    test('may be reset once it has cooled, and what opens at once may be reset at once', () => {
        expect(found(oven(reset('wait 30 min until heat safe'), overload('after 20 s')), 'wait-too-short')).toEqual([]);
        expect(found(oven(reset(''), overload('')), 'wait-too-short')).toEqual([]);
    });

    // Common practice, no source: 30 min where the equipment gives no figure.
    test('cools 30 min where the equipment says nothing, and as long as it says where it does', () => {
        const wait = (time: string, cooling: string) =>
            found(oven(reset(`wait ${time} until heat safe`), overload('after 20 s'), cooling), 'wait-too-short');
        expect(wait('29 min', '')).toHaveLength(1);
        expect(wait('30 min', '')).toEqual([]);
        expect(wait('29 min', 'cools in 20 min')).toEqual([]);
    });
});

describe('a gate that permits looking', () => {
    const gate = (activity: string) => `gate peep "Peep" { permits ${activity} heat wear "Goggles" caution "It burns." }
      test look "Look" in plate { checks element.open as open observe by eye takes 1 min normal yes open no }`;
    const looks = (test: string) => `step hot "Hot" { ${off} gate peep test ${test} { normal -> odd  open -> open } }`;

    test('lets somebody look beside the hazard, and not touch', () => {
        expect(found(oven(looks('look'), gate('looking')), 'missing-gate')).toEqual([]);
        expect(found(oven(looks('touch'), gate('looking')), 'missing-gate')).toHaveLength(1);
    });

    test('is not one that permits measuring', () => {
        expect(found(oven(looks('look'), gate('measuring')), 'missing-gate')).toHaveLength(1);
    });
});

describe('a cover that is opened', () => {
    const covered = (
        zone: string,
    ) => `condition cover "Cover" { shut open } hazard edge "Edge" { mechanical warning "Sharp." }
      zone bay "Bay" { exposes edge while ${zone} }
      gate still "Still" { controls edge prepare "P" shut-down "S" isolate "I" lock "L" prove "P" restore "Clear." restore "On." }`;
    const opens = (before: string, after: string) =>
        `step hot "Hot" { ${off} ${before} do "Open it." sets cover open do "Shut it." sets cover shut ${after} go odd }`;

    test('brings the hands to what is behind it, although nothing says where it is', () => {
        expect(found(oven(opens('', ''), covered('cover open')), 'missing-gate')).toEqual([
            '"Open it.": Whoever does this in zone `bay` meets `edge`, which nothing has under control. small',
        ]);
        expect(found(oven(opens('gate still', 'restore still'), covered('cover open')), 'missing-gate')).toEqual([]);
    });

    test('is none where a flow carries something in that state', () => {
        const text = oven(`step hot "Hot" { ${off} go odd }`, covered('switch on'));
        expect(found(text, 'missing-gate')).toEqual([]);
    });
});
