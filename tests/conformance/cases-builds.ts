/** Cases: builds. */
import { lamp, lightAsked, listCases, option } from './case-parts.js';

const { cases, add } = listCases();

const byBuild = lamp({
    equipment: option,
    steps: 'step look "Look" { do "Open the small one." for small  do "Open the large one." for large  do "Shake it."  test light { normal -> fine  absent -> bad-cell for small  absent -> bad-bulb for large } }',
});
add(
    'guard-small',
    'Statements and branches for one build.',
    byBuild,
    'look: do',
    [
        ['done', 'look: do'],
        ['done', lightAsked],
        ['absent', 'conclude bad-cell; faults cell.flat; repairs replace'],
    ],
    { build: ['size.small'] },
);
add(
    'guard-large',
    'The same for the other build.',
    byBuild,
    'look: do',
    [
        ['done', 'look: do'],
        ['done', lightAsked],
        ['absent', 'conclude bad-bulb; faults bulb.broken; repairs replace'],
    ],
    { build: ['size.large'] },
);
const logic = lamp({
    equipment: `${option}\n option color "Color" { red "Red"  white "White"  blue "Blue" }`,
    steps: 'step look "Look" { do "A." for small and red or not (small or red)  test light { normal -> fine  absent -> bad-cell } }',
});
add('guard-logic-all', '`and` within `or`.', logic, 'look: do', [], { build: ['size.small', 'color.red'] });
add('guard-logic-not', '`not` before a bracket.', logic, 'look: do', [], { build: ['size.large', 'color.blue'] });
add('guard-logic-none', 'Neither holds.', logic, lightAsked, [], { build: ['size.small', 'color.white'] });
add(
    'guard-absent-option',
    'A build without an option has none of its choices.',
    lamp({
        equipment: `${option}\n option shade "Shade" for large { glass "Glass"  paper "Paper" }`,
        steps: 'step look "Look" { do "A." for not glass  test light { normal -> fine  absent -> bad-cell } }',
    }),
    'look: do',
    [['done', lightAsked]],
    { build: ['size.small'] },
);
add(
    'step-not-in-build',
    'A step that the build does not have leads nowhere.',
    lamp({
        equipment: option,
        steps: 'step look "Look" { test light { normal -> fine  absent -> more } }\n step more "More" for large { test light { normal -> fine  absent -> bad-cell } }',
    }),
    lightAsked,
    [['absent', 'stuck']],
    { build: ['size.small'] },
);
add(
    'end-not-in-build',
    'An end that the build does not have leads nowhere.',
    lamp({
        equipment: option,
        steps: 'step look "Look" { test light { normal -> fine  absent -> special } }',
        ends: 'refer special "Special" for large because "x"',
    }).replace('refer special "Special" for large because "x"', 'conclude special "Special" for large { cell.flat }'),
    lightAsked,
    [['absent', 'stuck']],
    { build: ['size.small'] },
);
add(
    'test-not-in-build',
    'A test that the build does not have cannot be asked.',
    lamp({
        equipment: `${option}\n part gear "Gear" for large { replace "R." takes 1 min fault worn "Worn" rate 1 per 1e6 h test turns "Does it turn?" { checks worn as absent observe by eye takes 1 min normal yes absent no } }`,
        steps: 'step look "Look" { test gear.turns { normal -> fine  absent -> bad-cell } }',
    }),
    'stuck',
    [],
    { build: ['size.small'] },
);
add(
    'read-not-in-build',
    'A reading that the build does not have is left out.',
    lamp({
        equipment: `${option}\n part gear "Gear" for large { replace "R." takes 1 min fault worn "Worn" rate 1 per 1e6 h test force "Force" { checks worn as low measure force takes 1 min normal >= 1 N low otherwise } }`,
        steps: 'step look "Look" { read gear.force  test light { normal -> fine  absent -> bad-cell } }',
    }),
    lightAsked,
    [],
    { build: ['size.small'] },
);
add(
    'identify',
    'A test that shows which build it is.',
    lamp({
        equipment: `${option}\n test plate "Which size is on the plate?" { identify size by eye takes 1 min }`,
        steps: 'step look "Look" { test plate { small -> fine  large -> ask } }',
    }),
    'look: test plate (large)',
    [
        ['small', 'no'],
        ['large', 'refer ask'],
    ],
    { build: ['size.large'] },
);
add(
    'faults-by-build',
    'An end names the faults that the build has.',
    lamp({
        equipment: `${option}\n part gear "Gear" for large { replace "Fit a new gear." takes 1 min fault worn "Worn" rate 1 per 1e6 h }`,
        steps: 'step look "Look" { test light { normal -> fine  absent -> both } }',
        ends: 'conclude both "Both" { cell.flat, gear.worn for large, bulb.broken for small }',
    }),
    lightAsked,
    [['absent', 'conclude both; faults cell.flat, bulb.broken; repairs replace, replace']],
    { build: ['size.small'] },
);

export const buildsCases = cases;
