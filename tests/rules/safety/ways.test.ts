/** Hazards that are met on the ways of a tree, and what a referral leaves: what is told, how it is shown, and what mends it. */
import { describe, expect, test } from 'vitest';
import { formatText } from '../../../language/src/format/format-text.js';
import { checkMend } from '../../support/check.js';
import { findingsOf, type Texts } from '../../support/read-texts.js';

/** An invented drum: it turns, its shell gets hot, and a lid covers it. */
function drum({ steps, repair = 'under lockout', lid = '', ends = '' }: Readonly<Record<string, string>>): string {
    const text = `equipment drum "Drying drum" {
  option size "Size" { small "Small"  large "Large" }
  hazard turning "Turning drum" { mechanical  runs down in 20 s  warning "It starts at once." }
  hazard hot-shell "Hot shell" { thermal 90 °C  cools in 30 min }
  zone inside "Inside" { exposes turning${lid} }
  zone shell "Shell" { exposes hot-shell }
  condition switch "Switch" { off on }
  condition lid "Lid" { shut open }
  part belt "Belt" in inside {
    replace "Fit a new belt." takes 5 min ${repair}
    fault torn "Torn" rate 9 per 1e6 h
  }
  part motor "Motor" {
    fault burnt "Burnt out" rate 3 per 1e6 h
  }
  flow power: motor when switch on -> belt -> [turns]
  test turns "Does the drum turn?" {
    observe by eye
    takes 1 min
    needs switch on
    normal yes
    absent no shows stopped
  }
  test belt-look "Is the belt torn?" in inside {
    checks belt.torn as torn
    observe by eye
    takes 2 min
    normal no
    torn yes
  }
  gate lockout "Lock out the drum" {
    controls turning
    prepare "Tell the people in the laundry." takes 1 min
    shut-down "Switch the drum off." sets switch off
    isolate turning "Pull the plug." takes 1 min
    lock turning "Lock the plug in its box."
    release turning "Wait until the drum stands still." 20 s
    prove turning "Look through the window: the drum stands still."
    restore "Plug the drum in." takes 1 min
  }
}

tree still "The drum does not turn" of drum {
  complaint turns absent
  ${steps ?? ''}
  conclude torn-belt "The belt is torn" { belt.torn }
  ${ends}
  refer no-fault "No fault found" because "the drum turns"
}
`;
    return formatText(text).text;
}

const start = `step start "Switch the drum on" {
    do "Switch the drum on." sets switch on
    test turns { normal -> stop  absent -> look }
  }
  step stop "Switch the drum off" {
    do "Switch the drum off." sets switch off
    go no-fault
  }`;
const look = `step look "Look at the belt" {
    gate lockout
    test belt-look { normal -> restart  torn -> torn-belt }
  }`;
const restart = `step restart "Call the workshop" {
    restore lockout
    go burnt-motor
  }`;
const burnt = 'refer burnt-motor "Call the workshop" because "the motor is burnt out" { motor.burnt }';
const right = drum({ steps: [start, look, restart].join('\n  '), ends: burnt });

/** The findings of one code: its place, its message and its counterexample. */
function told(code: string, texts: string | Texts): string[] {
    const all = typeof texts === 'string' ? { 'example.fault': texts } : texts;
    return findingsOf(all)
        .filter(finding => finding.code === code)
        .map(({ file, start: from, end, message, counterexample }) => {
            return `${all[file]?.slice(from, end) ?? ''}: ${message} ${counterexample?.sentence ?? 'Nothing is shown.'}`;
        });
}

/** What an edit of the right text brings; the old text must stand in it. */
function changed(oldText: string, newText: string, text = right): string {
    expect(text).toContain(oldText);
    return text.replace(oldText, () => newText);
}

/** The mended text, without the finding. */
function mended(code: string, marked: string, title: string): string {
    const text = checkMend(marked, title);
    expect(told(code, text)).toEqual([]);
    expect(formatText(text).findings).toEqual([]);
    return text;
}

/** The same, laid out as it was before. */
function mendedInPlace(code: string, marked: string, title: string): string {
    const text = mended(code, marked, title);
    expect(formatText(text).text).toBe(text);
    return text;
}

test('where all is under control, nothing is told', () => {
    const codes = findingsOf({ 'example.fault': right }).map(({ code }) => code);
    // What some of the tests below use.
    expect(codes.filter(code => code !== 'unused-declaration')).toEqual([]);
});

describe('a hazard that nothing has under control', () => {
    const bare = changed('    gate lockout\n    test belt-look', '    test belt-look');

    test('is told at the test with the way there', () => {
        expect(told('missing-gate', bare)).toEqual([
            'belt-look: Whoever does this in zone `inside` meets `turning`, which nothing has under control. ' +
                'a unit with small, with `belt.torn`: step `start`, `switch` is set to `on`, `turns` shows `absent`; ' +
                'step `look`; nothing has `turning` under control',
        ]);
    });

    test('is mended by closing a gate on a line of its own', () => {
        const marked = bare.replace('test belt-look {', 'test <|>belt-look {');
        expect(mendedInPlace('missing-gate', marked, 'Close the gate `lockout` before this')).toBe(right);
    });

    test('is mended on one line in a step that stands on one line', () => {
        const step = 'step look "Look at the belt" { test <|>belt-look { normal -> restart  torn -> torn-belt } }';
        const line = drum({ steps: [start, step, restart].join('\n  '), ends: burnt });
        // Formatting breaks such a step; the mend leaves that to it.
        expect(mended('missing-gate', line, 'Close the gate `lockout` before this')).toContain(
            'step look "Look at the belt" { gate lockout  test belt-look { normal -> restart  torn -> torn-belt } }',
        );
    });

    test('is mended by waiting where no gate controls it', () => {
        const wipe = changed(
            '    restore lockout\n',
            '    do "Wipe the shell." in shell takes 1 min\n    restore lockout\n',
        );
        const marked = wipe.replace('"Wipe', '"<|>Wipe');
        expect(mendedInPlace('missing-gate', marked, 'Wait 30 min until `hot-shell` is safe')).toContain(
            '\n    wait 30 min until hot-shell safe\n    do "Wipe the shell." in shell takes 1 min\n',
        );
    });

    test('is told of a repair at the end that names it, and mended where the repair is written', () => {
        const direct = changed(
            'test turns { normal -> stop  absent -> look }',
            'test turns { normal -> stop  absent -> torn-belt }',
        );
        const alone = direct.replace(look, '').replace(restart, '').replace(burnt, '');
        for (const guard of ['', ' for small or large']) {
            const repair = alone.replace('takes 5 min under lockout', `takes 5 min${guard}`);
            expect(told('missing-gate', repair)).toEqual([
                'torn-belt: Whoever repairs `belt` at `torn-belt` meets `turning`, which nothing has under control. ' +
                    'a unit with small, with `belt.torn`: step `start`, `switch` is set to `on`, `turns` shows `absent`; ' +
                    'nothing has `turning` under control',
            ]);
            const marked = repair.replace('conclude torn-belt', 'conclude <|>torn-belt');
            expect(checkMend(marked, 'Do this repair under `lockout`')).toContain(
                `replace "Fit a new belt." takes 5 min under lockout${guard}`,
            );
        }
    });
});

describe('a hazard that was under control before', () => {
    const undone = changed(
        'restore lockout\n    go',
        'restore lockout\n    do "Feel the belt." in inside takes 1 min\n    go',
    );

    test('is told with what has given it up', () => {
        expect(told('missing-gate', undone)).toEqual([]);
        expect(told('gate-undone', undone)).toEqual([
            '"Feel the belt.": Whoever does this in zone `inside` meets `turning`, which nothing has under control any longer. ' +
                'a unit with small, with `motor.burnt`: step `start`, `switch` is set to `on`, `turns` shows `absent`; ' +
                'step `look`, gate `lockout` is closed, `belt-look` shows `normal`; ' +
                'step `restart`, gate `lockout` is restored, which gives up control of `turning`; ' +
                'nothing has `turning` under control',
        ]);
    });

    test('is told again where a wait is over and the equipment starts', () => {
        const again = changed(
            'restore lockout\n    go',
            `wait 30 min until hot-shell safe
    restore lockout
    do "Switch the drum on." sets switch on
    do "Wipe the shell." in shell takes 1 min
    do "Switch the drum off." sets switch off
    go`,
        );
        expect(told('gate-undone', again)).toEqual([
            expect.stringContaining('`switch` is set to `on`, which gives up control of `hot-shell`; nothing has'),
        ]);
    });
});

describe('a repair', () => {
    const covered = (repair: string, steps: string) =>
        drum({ steps: [start, steps].join('\n  '), lid: ' while lid open', repair, ends: burnt });
    const ask = `step look "Ask" { test turns { normal -> burnt-motor  absent -> torn-belt } }`;

    test('opens what covers its part, though no step has opened it', () => {
        expect(told('missing-gate', covered('', ask))).toHaveLength(1);
        expect(told('missing-gate', covered('under lockout', ask))).toEqual([]);
    });

    test('leaves as it is what a closed gate has set', () => {
        const held = covered('under other', ask).replace(
            '  gate lockout',
            `  hazard press "Press" { mechanical  runs down in 1 s }
  zone press-zone "At the press" { exposes press }
  gate other "Stop the press" { controls press  shut-down "Shut the lid." sets lid shut }
  gate lockout`,
        );
        expect(told('missing-gate', held)).toEqual([]);
        expect(told('missing-gate', held.replace('sets lid shut', 'sets switch off'))).toHaveLength(1);
    });

    test('is none in a step: there a shut lid keeps the hazard away', () => {
        const step = `step look "Feel the lid" { do "Feel the lid." in inside  test turns { normal -> burnt-motor  absent -> torn-belt } }`;
        expect(told('missing-gate', covered('under lockout', step))).toEqual([]);
        const open = step.replace('in inside', 'in inside sets lid open');
        expect(told('missing-gate', covered('under lockout', open))).toHaveLength(1);
    });
});

describe('a gate that stays closed at a referral', () => {
    const left = changed('    restore lockout\n    go', '    go');

    test('is told with the way there', () => {
        expect(told('gate-left-closed', left)).toEqual([
            'burnt-motor: Referral `burnt-motor` hands the unit over with gate `lockout` still closed, and does not say so. ' +
                'a unit with small, with `motor.burnt`: step `start`, `switch` is set to `on`, `turns` shows `absent`; ' +
                'step `look`, gate `lockout` is closed, `belt-look` shows `normal`; step `restart`; ' +
                'it ends at `burnt-motor` with gate `lockout` closed',
        ]);
    });

    test('is mended before the `go` that leads there', () => {
        const marked = left.replace('refer burnt-motor', 'refer <|>burnt-motor');
        expect(mendedInPlace('gate-left-closed', marked, 'Restore `lockout` before this')).toBe(right);
    });

    test.each([
        ['{ motor.burnt }', '{ motor.burnt  leaves gate lockout closed }'],
        ['', '{\n    leaves gate lockout closed\n  }'],
        ['{ }', '{ \n    leaves gate lockout closed\n  }'],
        [
            '{\n    motor.burnt\n    note "Call early."\n  }',
            '{\n    motor.burnt\n    note "Call early."\n    leaves gate lockout closed\n  }',
        ],
    ])('is mended in the referral, whatever it says already: %j', (before, after) => {
        const heading = 'because "the motor is burnt out"';
        const marked = left.replace(`${heading} { motor.burnt }`, before === '' ? heading : `${heading} ${before}`);
        const text = checkMend(
            marked.replace('refer burnt-motor', 'refer <|>burnt-motor'),
            'Say in `burnt-motor` that `lockout` stays closed',
        );
        expect(text).toContain(`${heading} ${after}`);
        expect(formatText(text).findings).toEqual([]);
        expect(told('gate-left-closed', text)).toEqual([]);
    });

    test('is missed where a referral promises it and nobody comes with it closed', () => {
        const promised = changed('{ motor.burnt }', '{ motor.burnt  leaves gate lockout closed }');
        expect(told('gate-left-closed', promised)).toEqual([
            'leaves gate lockout closed: Referral `burnt-motor` says that gate `lockout` stays closed, ' +
                'and nobody comes there with it closed. Nothing is shown.',
        ]);
        expect(told('gate-left-closed', promised.replace('    restore lockout\n', ''))).toEqual([]);
        // One way is enough, be it that of a test that cannot be read.
        const unread = promised.replace('torn -> torn-belt }', 'torn -> torn-belt  cannot be read -> burnt-motor }');
        expect(told('gate-left-closed', unread)).toEqual([]);
    });
});

describe('a condition that stays changed at a referral', () => {
    const left = changed('    do "Switch the drum off." sets switch off\n', '');

    test('is told with its value', () => {
        expect(told('condition-left', left)).toEqual([
            'no-fault: Referral `no-fault` hands the unit over with `switch` still at `on`, and does not say so. ' +
                'a unit with small, healthy: step `start`, `switch` is set to `on`, `turns` shows `normal`; step `stop`; ' +
                'it ends at `no-fault` with `switch` at `on`',
        ]);
    });

    test('is mended before the `go` that leads there, or in the referral', () => {
        const marked = left.replace('refer no-fault', 'refer <|>no-fault');
        expect(mendedInPlace('condition-left', marked, 'Set `switch` back to `off` before this')).toContain(
            '{\n    do "" sets switch off\n    go no-fault\n  }',
        );
        // A referral with a block no longer stands in a column with the others.
        expect(mended('condition-left', marked, 'Say in `no-fault` that `switch` stays at `on`')).toContain(
            'because "the drum turns" {\n    leaves switch on\n  }\n',
        );
    });
});

describe('a wait', () => {
    const wait = (time: string, before = '') =>
        changed(
            'restore lockout\n    go',
            `${before}wait ${time} until hot-shell safe\n    do "Wipe the shell." in shell takes 1 min\n    restore lockout\n    go`,
        );

    test('is too short where less than the hazard takes has passed since a gate was closed', () => {
        // The look at the belt takes 2 min after the gate is closed.
        expect(told('wait-too-short', wait('28 min'))).toEqual([]);
        expect(told('wait-too-short', wait('27 min'))).toEqual([
            '27 min: `hot-shell` takes 30 min to cool, and at the end of this wait only 29 min may have passed. ' +
                'a unit with small, with `motor.burnt`: step `start`, `turns` shows `absent`; ' +
                'step `look`, gate `lockout` is closed, `belt-look` shows `normal`; step `restart`; ' +
                '`hot-shell` counts as safe after 29 min',
        ]);
    });

    test('is not helped by what is done in some builds only', () => {
        const other = 'do "Sweep the floor." takes 5 min for small\n    ';
        expect(told('wait-too-short', wait('24 min', other))).toHaveLength(1);
        expect(told('wait-too-short', wait('24 min', other.replace(' for small', '')))).toEqual([]);
    });

    test('is mended by the time that the hazard takes', () => {
        const marked = wait('5 min').replace('wait 5', 'wait <|>5');
        expect(mendedInPlace('wait-too-short', marked, 'Wait 30 min')).toContain('wait 30 min until hot-shell safe');
    });

    test('is too short in a gate whose elements are quicker, and is mended there', () => {
        for (const time of ['5 s', '']) {
            const short = changed('stands still." 20 s', `stands still."${time === '' ? '' : ` ${time}`}`);
            expect(told('wait-too-short', short)).toEqual([
                `${time === '' ? '"Wait until the drum stands still."' : time}: ` +
                    '`turning` takes 20 s to run down, and gate `lockout` is closed ' +
                    `${time === '' ? 'at once' : time} after it is cut off. Nothing is shown.`,
            ]);
            const marked = short.replace(
                `stands still."${time === '' ? '' : ` ${time}`}`,
                place => `${place.slice(0, -1)}<|>${place.slice(-1)}`,
            );
            expect(mendedInPlace('wait-too-short', marked, 'Wait 20 s')).toBe(right);
        }
    });
});

describe('a step of a procedure', () => {
    const procedure = `procedure check "Check the belt" of drum {
  step belt "Look at the belt" {
    wait 5 min until hot-shell safe
    test belt-look { normal -> good  torn -> bad }
  }
  result good "It is whole"
  result bad "It is torn"
}
`;
    const follow = `step look "Look at the belt" { follow check { good -> burnt-motor  bad -> torn-belt } }`;
    const one = drum({ steps: [start, follow].join('\n  '), ends: burnt });
    const tree = one.slice(one.indexOf('tree still'));
    const texts: Texts = {
        'drum.fault': one.slice(0, one.indexOf('tree still')),
        'check.fault': `uses "drum.fault"\n${procedure}`,
        'one.fault': `uses "check.fault"\n${tree}`,
        'two.fault': `uses "check.fault"\n${tree.replace('tree still', 'tree still-again')}`,
    };

    test('is one place, however many trees follow it', () => {
        expect(told('missing-gate', texts)).toHaveLength(1);
        expect(told('wait-too-short', texts)).toHaveLength(1);
    });
});

test('what only those meet who come from another tree is shown with their way through both', () => {
    const handed = drum({
        steps: [start, 'step look "Look at the belt" { go burnt-motor }'].join('\n  '),
        ends: burnt,
    });
    const noise = `
tree noisy "The drum is loud" of drum {
  complaint noise loud
  step listen "Listen" {
    gate lockout
    test noise { normal -> quiet  loud -> over }
  }
  step over "Continue with the other tree" { continue with still }
  step quiet "Unlock the drum" { restore lockout  go quiet-drum }
  refer quiet-drum "No fault found" because "the drum is quiet"
}
`;
    const text = `${handed.replace('  test belt-look', '  test noise "Is the drum loud?" { checks bolt.loose as loud observe by ear normal no loud yes }\n  part bolt "Bolt" { fault loose "Loose" }\n  test belt-look')}${noise}`;
    expect(told('gate-left-closed', text)).toEqual([
        expect.stringContaining(
            'with `bolt.loose`: step `listen`, gate `lockout` is closed, `noise` shows `loud`; step `over`; ' +
                'step `start`, `switch` is set to `on`, `turns` shows `normal`; step `stop`, `switch` is set to `off`; ' +
                'it ends at `no-fault` with gate `lockout` closed',
        ),
    ]);
});
