/** Cases: ends and procedures. */
import { lamp, lightAsked, listCases, reading, switched } from './case-parts.js';

const { cases, add } = listCases();

const stillWrong = lamp({
    clauses: 'still wrong -> ask',
    steps: 'step look "Look" { do "Open it." takes 1 min  test light { normal -> fine  absent -> bad-cell } }',
});
add('finish-gone', 'The complaint is gone.', stillWrong, 'look: do', [
    [{ finish: 'gone' }, 'no'],
    ['done', lightAsked],
    ['absent', 'conclude bad-cell; faults cell.flat; repairs replace'],
    ['done', 'no'],
    [{ finish: 'gone' }, 'finished bad-cell'],
    [{ back: true }, 'conclude bad-cell; faults cell.flat; repairs replace'],
]);
add('finish-still-tree', 'The complaint is still there: where the tree says.', stillWrong, 'look: do', [
    ['done', lightAsked],
    ['absent', 'conclude bad-cell; faults cell.flat; repairs replace'],
    [{ finish: 'still there' }, 'refer ask'],
    [{ finish: 'still there' }, 'finished ask'],
]);
add(
    'finish-still-end',
    'Where the end says comes before where the tree says.',
    lamp({
        clauses: 'still wrong -> ask',
        steps: 'step look "Look" { test light { normal -> fine  absent -> first } }\n step more "More" { test light { normal -> fine  absent -> bad-bulb } }',
        ends: 'conclude first "First" { cell.flat still wrong -> more }',
    }),
    lightAsked,
    [
        ['absent', 'conclude first; faults cell.flat; repairs replace'],
        [{ finish: 'still there' }, 'more: test light (normal, absent)'],
    ],
);
add(
    'finish-still-first',
    'Where nothing is said, the tree begins again, with the unit as it was found.',
    lamp({
        equipment: switched,
        steps: 'step look "Look" { do "Turn it on." sets knob on  test light { normal -> fine  absent -> bad-cell } }',
    }),
    'look: do',
    [
        ['done', lightAsked],
        ['absent', 'conclude bad-cell; faults cell.flat; repairs replace; set back knob'],
        [{ finish: 'still there' }, 'look: do'],
    ],
);
add(
    'finish-unconfirmed',
    'An end whose repair cannot be confirmed.',
    lamp({
        steps: 'step look "Look" { test light { normal -> fine  absent -> first } }',
        ends: 'conclude first "First" { cell.flat unconfirmed because "the cell needs a day" }',
    }),
    lightAsked,
    [
        ['absent', 'conclude first; faults cell.flat; repairs replace'],
        [{ finish: 'not tested' }, 'finished first'],
    ],
);
add(
    'in-order',
    'Repairs that are tried in order.',
    lamp({
        steps: 'step look "Look" { test light { normal -> fine  absent -> both } }',
        ends: 'conclude both "Both" in order { bulb.broken, cell.flat }',
    }),
    lightAsked,
    [['absent', 'conclude both; faults bulb.broken, cell.flat; repairs replace, replace']],
);
add(
    'referral-faults',
    'A referral that names faults.',
    lamp({
        steps: 'step look "Look" { test light { normal -> fine  absent -> expert } }',
        ends: 'refer expert "Expert" { cell.flat, bulb.broken } because "both need the expert"',
    }).replace(
        'refer expert "Expert" { cell.flat, bulb.broken } because "both need the expert"',
        'refer expert "Expert" because "both need the expert" { cell.flat, bulb.broken }',
    ),
    lightAsked,
    [['absent', 'refer expert; faults cell.flat, bulb.broken']],
);

// Procedures.

const procedure = `kind cell-kind "Cell" {
  replace "Fit a new cell." takes 1 min
  fault flat "Flat" rate 9 per 1e6 h
  test volts "Voltage" { checks flat as low measure voltage DC takes 1 min normal >= 3 V low otherwise }
}`;
const called = (steps: string, of: string, clauses = ''): string => `${procedure}
equipment lamp "Lamp, invented" {
  part one is cell-kind "One"
  part two is cell-kind "Two"
  test light "Does it light?" { checks one.flat as absent, two.flat as absent observe by eye takes 1 min normal yes absent no }
}
procedure check "Check a cell" of lamp about cell-kind {
  ${of}
  result good "Good"
  result flat "Flat"
}
tree dark "It is dark" of lamp {
  complaint light absent
  ${clauses}
  ${steps}
  conclude bad-one "One" { one.flat }
  conclude bad-two "Two" { two.flat }
  refer fine "No fault found" because "it lights"
  refer ask "Ask" because "it cannot be told"
}
`;
const measured = 'step measure "Measure" { test it.volts { normal -> good  low -> flat } }';
const follows = `step first "First" { follow check with one { good -> second  flat -> bad-one } }
  step second "Second" { follow check with two { flat -> bad-two  good -> fine } }`;
add(
    'follow-twice',
    'A procedure about one part and then about another.',
    called(follows, measured),
    'check(one)/measure: test one.volts (normal, low)',
    [
        [reading(3, 'V'), 'check(two)/measure: test two.volts (normal, low)'],
        [reading(2999, 'mV'), 'conclude bad-two; faults two.flat; repairs replace'],
    ],
);
add(
    'follow-cannot-tree',
    'What cannot be read in a procedure goes where the tree says.',
    called(follows, measured, 'cannot be read -> ask'),
    'check(one)/measure: test one.volts (normal, low)',
    [['cannot be read', 'refer ask']],
);
add(
    'follow-cannot-procedure',
    'A procedure may say itself what happens then.',
    called(follows, `cannot be read -> flat\n ${measured}`, 'cannot be read -> ask'),
    'check(one)/measure: test one.volts (normal, low)',
    [['cannot be read', 'conclude bad-one; faults one.flat; repairs replace']],
);
add(
    'follow-disagree',
    'A confirming test in a procedure disagrees: where the tree says.',
    called(follows, 'step measure "Measure" { confirm it.volts low -> flat }', 'disagree -> ask'),
    'check(one)/measure: confirm one.volts (normal, low)',
    [['normal', 'refer ask']],
);
add(
    'follow-otherwise',
    'A result that no branch names.',
    called('step first "First" { follow check with one { good -> fine  otherwise -> bad-one } }', measured),
    'check(one)/measure: test one.volts (normal, low)',
    [['low', 'conclude bad-one; faults one.flat; repairs replace']],
);
add(
    'follow-about-test',
    'A procedure about any test.',
    `${called('step first "First" { follow once with light { right -> fine  wrong -> bad-one } }', measured)}
procedure once "Once" of lamp about test { step ask-it "Ask" { test it { normal -> right  otherwise -> wrong } } result right "Right" result wrong "Wrong" }`,
    'once(light)/ask-it: test light (normal, absent)',
    [['absent', 'conclude bad-one; faults one.flat; repairs replace']],
);
add(
    'follow-nested',
    'A procedure within a procedure, with the same part.',
    `${called('step first "First" { follow outer with one { good -> fine  flat -> bad-one } }', measured)}
procedure outer "Outer" of lamp about cell-kind { step in "In" { follow check with it { good -> good  flat -> flat } } result good "Good" result flat "Flat" }`.replace(
        'step in "In"',
        'step inner "In"',
    ),
    'check(one)/measure: test one.volts (normal, low)',
    [['low', 'conclude bad-one; faults one.flat; repairs replace']],
);

export const endsCases = cases;
