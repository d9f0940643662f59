/** Cases: steps and their statements. */
import { lamp, lightAsked, listCases, plain, reading, voltage } from './case-parts.js';

const { cases, add } = listCases();

add('test-normal', 'A question and its branch to a referral.', plain, lightAsked, [['normal', 'refer fine']]);
add('test-abnormal', 'A branch to a conclusion with its fault and repair.', plain, lightAsked, [
    ['absent', 'conclude bad-cell; faults cell.flat; repairs replace'],
]);
add('test-unknown-outcome', 'An outcome that the test does not have is not taken.', plain, lightAsked, [
    ['maybe', 'no'],
    ['done', 'no'],
    ['normal', 'refer fine'],
]);
add('test-not-a-number', 'A test that is observed takes no number.', plain, lightAsked, [[reading(3, 'V'), 'no']]);
add(
    'branch-otherwise',
    'A named branch comes before `otherwise`, whatever the order.',
    lamp({ steps: 'step look "Look" { test light { otherwise -> bad-bulb  normal -> fine } }' }),
    lightAsked,
    [
        ['normal', 'refer fine'],
        [{ back: true }, lightAsked],
        ['absent', 'conclude bad-bulb; faults bulb.broken; repairs replace'],
    ],
);
add(
    'do-done',
    'Work is done one statement after the other, and then the question comes.',
    lamp({
        steps: 'step look "Look" { do "Open it." takes 1 min  do "Shake it." takes 1 min  test light { normal -> fine  absent -> bad-cell } }',
    }),
    'look: do',
    [
        ['done', 'look: do'],
        ['absent', 'no'],
        ['done', lightAsked],
        ['absent', 'conclude bad-cell; faults cell.flat; repairs replace'],
    ],
);
add(
    'do-cannot-own',
    'An action that cannot be done goes where it says itself.',
    lamp({
        clauses: 'cannot be done -> ask',
        steps: 'step look "Look" { do "Open it." cannot be done -> again  test light { normal -> fine  absent -> bad-cell } }\n step again "Again" { test light { normal -> fine  absent -> bad-bulb } }',
    }),
    'look: do',
    [['cannot be done', 'again: test light (normal, absent)']],
);
add(
    'do-cannot-tree',
    'An action that says nothing itself goes where the tree says.',
    lamp({
        clauses: 'cannot be done -> ask',
        steps: 'step look "Look" { do "Open it."  test light { normal -> fine  absent -> bad-cell } }',
    }),
    'look: do',
    [['cannot be done', 'refer ask']],
);
add(
    'do-cannot-nowhere',
    'Where nothing is said about it, nothing leads on.',
    lamp({ steps: 'step look "Look" { do "Open it."  test light { normal -> fine  absent -> bad-cell } }' }),
    'look: do',
    [
        ['cannot be done', 'stuck'],
        ['done', 'no'],
        [{ back: true }, 'look: do'],
    ],
);
add(
    'cannot-read-own',
    'A test that cannot be read goes where its own branch says.',
    lamp({
        clauses: 'cannot be read -> ask',
        steps: 'step look "Look" { test light { normal -> fine  absent -> bad-cell  cannot be read -> bad-bulb } }',
    }),
    lightAsked,
    [['cannot be read', 'conclude bad-bulb; faults bulb.broken; repairs replace']],
);
add(
    'cannot-read-tree',
    'A test without such a branch goes where the tree says.',
    lamp({
        clauses: 'cannot be read -> ask',
        steps: 'step look "Look" { test light { normal -> fine  absent -> bad-cell } }',
    }),
    lightAsked,
    [['cannot be read', 'refer ask']],
);
add(
    'confirm-expected',
    'A confirming test whose answer is the expected one.',
    lamp({ clauses: 'disagree -> ask', steps: 'step look "Look" { confirm light absent -> bad-cell }' }),
    'look: confirm light (normal, absent)',
    [['absent', 'conclude bad-cell; faults cell.flat; repairs replace']],
);
add(
    'confirm-disagrees',
    'Any other answer goes where the tree says under `disagree`.',
    lamp({ clauses: 'disagree -> ask', steps: 'step look "Look" { confirm light absent -> bad-cell }' }),
    'look: confirm light (normal, absent)',
    [['normal', 'refer ask']],
);
add(
    'confirm-long',
    'The long form of `confirm` has branches of its own.',
    lamp({ steps: 'step look "Look" { confirm light { absent -> bad-cell  normal -> fine } }' }),
    'look: confirm light (normal, absent)',
    [['normal', 'refer fine']],
);
add(
    'go',
    'Steps that only lead on are not stopped at.',
    lamp({
        steps: 'step one "One" { go two }\n step two "Two" { go look }\n step look "Look" { test light { normal -> fine  absent -> bad-cell } }',
    }),
    lightAsked,
);
add(
    'go-with-note',
    'A step with something to read is stopped at before it leads on.',
    lamp({
        steps: 'step one "One" { note "The lamp is hot for a while."  go look }\n step look "Look" { test light { normal -> fine  absent -> bad-cell } }',
    }),
    'one: look',
    [
        ['normal', 'no'],
        ['done', lightAsked],
    ],
);
add(
    'go-with-safety',
    'A safety statement is something to read.',
    lamp({
        steps: 'step one "One" { caution "The lamp is hot."  go look }\n step look "Look" { test light { normal -> fine  absent -> bad-cell } }',
    }),
    'one: look',
    [['done', lightAsked]],
);
add(
    'go-with-note-seen',
    'Where somebody has stopped at the step already, it has been read.',
    lamp({
        steps: 'step one "One" { note "Mind the glass."  do "Open it."  go look }\n step look "Look" { test light { normal -> fine  absent -> bad-cell } }',
    }),
    'one: do',
    [['done', lightAsked]],
);
add(
    'continue-with',
    'Another tree goes on.',
    `${lamp({ steps: 'step look "Look" { test light { normal -> fine  absent -> next } }\n step next "Next" { continue with other }' })}
tree other "Other" of lamp { complaint light absent step x "X" { test light { normal -> n  absent -> n } } refer n "N" because "n" }`,
    lightAsked,
    [
        ['absent', 'tree other'],
        ['normal', 'no'],
        [{ finish: 'gone' }, 'no'],
    ],
);
add(
    'wait',
    'A wait is work that is done.',
    lamp({ steps: 'step look "Look" { wait 5 min  test light { normal -> fine  absent -> bad-cell } }' }),
    'look: wait',
    [['done', lightAsked]],
);
add(
    'read',
    'Readings are taken one after the other, with numbers or without.',
    lamp({
        equipment: `${voltage('normal >= 3 V low otherwise')}\n test amperes "Current" { checks cell.flat as low measure current DC takes 1 min normal >= 1 A low otherwise }`,
        steps: 'step look "Look" { read volts, amperes  test light { normal -> fine  absent -> bad-cell } }',
    }),
    'look: read volts',
    [
        [reading(2, 'V'), 'look: read amperes'],
        [reading(2, 'V'), 'no'],
        ['done', lightAsked],
    ],
);
add(
    'read-cannot',
    'A reading that cannot be taken goes where the tree says.',
    lamp({
        equipment: voltage('normal >= 3 V low otherwise'),
        clauses: 'cannot be read -> ask',
        steps: 'step look "Look" { read volts  test light { normal -> fine  absent -> bad-cell } }',
    }),
    'look: read volts',
    [['cannot be read', 'refer ask']],
);
add('circle', 'A way that turns in a circle without a question leads nowhere.', plain, 'stuck', [], {
    change: document => {
        const tree = document['tree'] as { steps: object[] };
        tree.steps = [
            { id: 'a', statements: [{ type: 'go', to: 'b' }] },
            { id: 'b', statements: [{ type: 'go', to: 'a' }] },
        ];
        return document;
    },
});
add('nothing-leads-on', 'A step whose last statement does not lead on.', plain, 'look: do', [['done', 'stuck']], {
    change: document => {
        const tree = document['tree'] as { steps: { statements: object[] }[] };
        for (const step of tree.steps) step.statements = [{ type: 'do', text: { en: 'Open it.' } }];
        return document;
    },
});

export const stepsCases = cases;
