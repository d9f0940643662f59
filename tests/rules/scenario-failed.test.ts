/** What is said of scenarios that fail, in every way that the page of the rule does not show. */
import { describe, expect, test } from 'vitest';
import { check } from '../support/check.js';
import { findingsOf } from '../support/read-texts.js';

/** An invented tea urn. */
const urn = `equipment urn "Tea urn" {
  part tap "Tap" { fault blocked "Blocked" { makes flow slow or none } }
  part lid "Lid" { fault stuck "Stuck" }
  test flow "How does the tea run?" {
    checks lid.stuck as slow
    observe by eye
    takes 1 min
    normal "it runs well"
    slow "slowly"
    none "not at all"
  }
  test air "Do you hear air when you lift the lid?" {
    checks lid.stuck as hiss
    observe by ear
    takes 1 min
    normal no
    hiss yes
  }
}

tree no-tea "No tea" of urn {
  complaint flow slow, none
  step open "Open the tap" { test flow { normal -> no-fault  slow, none -> lift } }
  step lift "Lift the lid" { test air { normal -> blocked-tap  hiss -> stuck-lid } }
  conclude blocked-tap "The tap is blocked" { tap.blocked }
  conclude stuck-lid "The lid is stuck" { lid.stuck }
  refer no-fault "No fault found" because "the tea runs"
}

tree bad-air "It hisses" of urn {
  complaint air hiss
  step lift "Lift the lid" { test air { normal -> no-fault  hiss -> go-on } }
  step go-on "Go on" { continue with no-tea }
  refer no-fault "No fault found" because "it does not hiss"
}
`;

/** The findings on a scenario, as place in its text and message. */
function told(scenario: string, text = urn): string[] {
    const whole = `${text}\n${scenario}\n`;
    return findingsOf({ 'example.fault': whole })
        .filter(({ code }) => code === 'scenario-failed')
        .map(({ start, end, message }) => `${whole.slice(start, end)}: ${message}`);
}

describe('a scenario', () => {
    test('that another tree goes on with is told with that tree', () => {
        expect(told('scenario "It hisses" of bad-air { fault lid.stuck  expect no-fault }')).toEqual([
            'no-fault: Scenario `It hisses` goes on in tree `no-tea` and does not end at `no-fault`.',
        ]);
    });

    test('that does not say what is wrong, or where it ends, is told at its title', () => {
        expect(told('scenario "Half" of no-tea { expect no-fault }')).toEqual([
            '"Half": Scenario `Half` does not say what is wrong with the unit.',
        ]);
        expect(told('scenario "Empty" of no-tea')).toEqual([
            '"Empty": Scenario `Empty` does not say at which end it must arrive.',
        ]);
    });

    test('that expects a step is told at the step', () => {
        expect(told('scenario "A" of no-tea { fault lid.stuck  expect lift }')).toEqual([
            'lift: Scenario `A` expects `lift`, which is a step and no end.',
        ]);
    });

    test('that reads what nothing shows is told at that reading', () => {
        const scenario =
            'scenario "A" of no-tea { fault lid.stuck  reads air hiss  reads flow none  expect stuck-lid }';
        expect(told(scenario)).toEqual(['reads flow none: In scenario `A` nothing makes `flow` show `none`.']);
        expect(told(scenario.replace('flow none', 'flow slow'))).toEqual([]);
    });

    test('of a fault that no tree looks for leaves it to the finding on that fault', () => {
        const deaf = urn.replace('part lid', 'part foot "Foot" { fault bent "Bent" }\n  part lid');
        const text = `${deaf}\nscenario "A" of no-tea { fault foot.bent  expect no-fault }\n`;
        const codes = findingsOf({ 'example.fault': text }).map(({ code }) => code);
        expect(codes).toContain('fault-in-no-tree');
        expect(codes).not.toContain('scenario-failed');
    });

    test('whose case goes wrong in the tree leaves it to the finding on that', () => {
        const swapped = urn.replace(
            'normal -> blocked-tap  hiss -> stuck-lid',
            'hiss -> blocked-tap  normal -> stuck-lid',
        );
        const text = `${swapped}\nscenario "A" of no-tea { fault lid.stuck  expect stuck-lid }\n`;
        const codes = findingsOf({ 'example.fault': text }).map(({ code }) => code);
        expect(codes).toEqual(['wrong-conclusion', 'wrong-conclusion']);
    });

    test('is not played while its tree cannot be read', () => {
        const broken = urn.replace('complaint flow slow, none', 'complaint flow slow, nnone');
        expect(told('scenario "A" of no-tea { fault lid.stuck  expect no-fault }', broken)).toEqual([]);
    });
});

test('a scenario that passes is no finding', () => {
    expect(check(`${urn}\nscenario "A" of no-tea { fault tap.blocked  expect blocked-tap within 2 min }\n`)).toEqual(
        [],
    );
});
