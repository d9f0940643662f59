/** Cases: conditions and gates. */
import { lamp, lightAsked, listCases, option, switched } from './case-parts.js';

const { cases, add } = listCases();

add(
    'condition-set',
    'What has been changed is set back after a repair.',
    lamp({
        equipment: switched,
        steps: 'step look "Look" { do "Turn it on." sets knob on  test light { normal -> fine  absent -> bad-cell } }',
    }),
    'look: do',
    [
        ['done', lightAsked],
        ['absent', 'conclude bad-cell; faults cell.flat; repairs replace; set back knob'],
    ],
);
add(
    'needs-count-as-set',
    'What a test needs counts as set once it is answered.',
    lamp({
        equipment: `${switched}\n test glow "Does it glow?" { checks cell.flat as absent observe by eye takes 1 min needs knob on normal yes absent no }`,
        steps: 'step look "Look" { test glow { normal -> fine  absent -> bad-cell } }',
    }),
    'look: test glow (normal, absent)',
    [['absent', 'conclude bad-cell; faults cell.flat; repairs replace; set back knob']],
);
add(
    'outcomes-by-state',
    'Outcomes that hold in a state.',
    lamp({
        equipment: `${switched}\n test glow "Does it glow?" { checks cell.flat as absent observe by eye takes 1 min normal no when knob off normal yes when knob on absent "not at all" when knob on }`,
        steps: 'step look "Look" { test glow { normal -> more  absent -> bad-cell } }\n step more "More" { do "Turn it on." sets knob on  test glow { normal -> fine  absent -> bad-cell } }',
    }),
    'look: test glow (normal)',
    [
        ['normal', 'more: do'],
        ['done', 'more: test glow (normal, absent)'],
    ],
);
const gated = (steps: string, more = ''): string =>
    lamp({
        equipment: `hazard heat "Heat" { thermal cools in 1 min warning "It burns." }
  zone inside "Inside" { exposes heat }
  ${switched}
  gate unplug "Unplug it" {
    controls heat
    shut-down "Turn it off." sets knob off
    isolate heat "Pull the plug." takes 1 min
    restore "Plug it in." sets knob on
  }
  gate careful "Careful" { permits measuring heat prepare "Wear gloves." }
  ${more}`,
        steps,
    });
add(
    'gate-closed',
    'A closed gate is restored after a repair; what it set stays to be set back.',
    gated(
        'step look "Look" { do "Turn it on." sets knob on  gate unplug  test light { normal -> fine  absent -> bad-cell } }',
    ),
    'look: do',
    [
        ['done', 'look: gate unplug'],
        ['done', lightAsked],
        ['absent', 'conclude bad-cell; faults cell.flat; repairs replace; restore unplug'],
    ],
);
add(
    'gate-restored',
    'A restored gate is open again, and has set what it sets.',
    gated('step look "Look" { gate unplug  restore unplug  test light { normal -> fine  absent -> bad-cell } }'),
    'look: gate unplug',
    [
        ['done', 'look: restore unplug'],
        ['done', lightAsked],
        ['absent', 'conclude bad-cell; faults cell.flat; repairs replace; set back knob'],
    ],
);
add(
    'gate-permits',
    'A gate that only permits does not stay closed.',
    gated('step look "Look" { gate careful  test light { normal -> fine  absent -> bad-cell } }'),
    'look: gate careful',
    [
        ['done', lightAsked],
        ['absent', 'conclude bad-cell; faults cell.flat; repairs replace'],
    ],
);
add(
    'gate-for-repair',
    'Gates of the repair that are open are gone through before it.',
    gated(
        'step look "Look" { test light { normal -> fine  absent -> bad-gear } }',
        'part gear "Gear" in inside { replace "Fit a new gear." takes 1 min under unplug fault worn "Worn" rate 1 per 1e6 h }',
    ).replace('refer fine', 'conclude bad-gear "Gear" { gear.worn }\n  refer fine'),
    lightAsked,
    [['absent', 'conclude bad-gear; faults gear.worn; repairs replace; close unplug; restore unplug']],
);
add(
    'isolated-by-gate',
    'A state that a closed gate brings about.',
    gated(
        'step look "Look" { test safe { normal -> fine  live -> next } }\n step next "Next" { gate unplug  test safe { normal -> fine  live -> ask } }',
        'test safe "Is it cold?" { checks cell.flat as live observe by hand takes 1 min normal yes when heat isolated live no }',
    ),
    'look: test safe (live)',
    [
        ['live', 'next: gate unplug'],
        ['done', 'next: test safe (normal, live)'],
    ],
);
add(
    'isolated-by-wait',
    'A state that a wait brings about, until the gate is restored.',
    gated(
        'step look "Look" { wait 1 min until heat safe  test safe { normal -> again  live -> ask } }\n step again "Again" { gate unplug  restore unplug  test safe { normal -> fine  live -> ask } }',
        'test safe "Is it cold?" { checks cell.flat as live observe by hand takes 1 min normal yes when heat isolated live no }',
    ),
    'look: wait',
    [
        ['done', 'look: test safe (normal, live)'],
        ['normal', 'again: gate unplug'],
        ['done', 'again: restore unplug'],
        ['done', 'again: test safe (live)'],
    ],
);
add(
    'flowing-unknown',
    'Of a flow nothing is known: both outcomes can be.',
    lamp({
        equipment: `flow power: cell -> [hum]\n test hum "Does it hum?" { observe by ear takes 1 min normal yes when power flowing normal no when not power flowing absent "no hum" }`,
        steps: 'step look "Look" { test hum { normal -> fine  absent -> bad-cell } }',
    }),
    'look: test hum (normal, absent)',
    [],
);
add(
    'gate-not-in-build',
    'A gate that the build does not have is passed.',
    gated('step look "Look" { gate unplug  test light { normal -> fine  absent -> bad-cell } }', option).replace(
        'gate unplug "Unplug it" {',
        'gate unplug "Unplug it" for large {',
    ),
    lightAsked,
    [],
    { build: ['size.small'] },
);
add(
    'state-any',
    'A state with `or`: one of the two is enough.',
    gated(
        'step look "Look" { test safe { normal -> next  live -> ask } }\n step next "Next" { gate unplug  do "Turn it off." sets knob off  test safe { normal -> fine  live -> ask } }',
        'test safe "Is it safe?" { checks cell.flat as live observe by hand takes 1 min normal yes when knob off or heat isolated live no when knob on }',
    ),
    'look: test safe (normal)',
    [
        ['normal', 'next: gate unplug'],
        ['done', 'next: do'],
        ['done', 'next: test safe (normal)'],
    ],
);
add(
    'state-all-not',
    'A state with `and` and `not`.',
    gated(
        'step look "Look" { test safe { normal -> fine  live -> next } }\n step next "Next" { do "Turn it on." sets knob on  test safe { normal -> fine  live -> ask } }',
        'test safe "Is it safe?" { checks cell.flat as live observe by hand takes 1 min normal yes when knob on and not heat isolated live no when not knob on }',
    ),
    'look: test safe (live)',
    [
        ['live', 'next: do'],
        ['done', 'next: test safe (normal)'],
    ],
);
add(
    'needs-not',
    'What must not be is set to its first other value.',
    lamp({
        equipment: `${switched}\n test glow "Does it glow?" { checks cell.flat as absent observe by eye takes 1 min needs not knob off normal yes absent no }`,
        steps: 'step look "Look" { test glow { normal -> fine  absent -> bad-cell } }',
    }),
    'look: test glow (normal, absent)',
    [['absent', 'conclude bad-cell; faults cell.flat; repairs replace; set back knob']],
);

export const conditionsCases = cases;
