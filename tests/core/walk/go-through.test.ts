/** Going through a tree answer by answer: what is asked, where it leads, who is still possible and why others are not. */
import { describe, expect, test } from 'vitest';
import { readBuild } from '../../../language/src/core/walk/choose-build.js';
import { answersAt, type Position } from '../../../language/src/core/walk/go-through.js';
import { ruledOutBy, type Standing, standingOf } from '../../../language/src/core/walk/ruled-out.js';
import { answer, begin, possible, where } from '../../support/go-through.js';

/** An invented chain of four parts, with a point to measure between any two. */
const chain = `equipment chain "Chain of lamps" {
  part plug "Plug" { fault open "Open" rate 1 per 1e6 h }
  part wire "Wire" { fault open "Open" rate 2 per 1e6 h }
  part coil "Coil" { fault open "Open" rate 3 per 1e6 h }
  part lamp "Lamp" { fault burnt "Burnt" rate 4 per 1e6 h }
  part foot "Foot" { fault scratched "Scratched" rate 9 per 1e6 h }
  flow current: plug -> [at-wire] -> wire -> [middle] -> coil -> [at-lamp] -> lamp -> [light]
  test at-wire { observe by eye normal absent shows stopped }
  test middle { observe by eye normal absent shows stopped }
  test at-lamp { observe by eye normal absent shows stopped }
  test light { observe by eye normal absent shows stopped }
}
`;

const halves = `${chain}tree dark "The lamp is dark" of chain {
  complaint light absent mistaken 10 %
  cannot be read -> give-up
  step try { test light { normal -> fine  absent -> half } }
  step half { test middle { normal -> behind  absent -> before } }
  step before { test at-wire { normal -> bad-wire  absent -> bad-plug } }
  step behind { test at-lamp { normal -> bad-lamp  absent -> bad-coil } }
  conclude bad-plug { plug.open }
  conclude bad-wire { wire.open }
  conclude bad-coil { coil.open }
  conclude bad-lamp { lamp.burnt }
  refer fine because "it shines"
  refer give-up because "a reading cannot be taken"
}
`;

/** Why somebody is in or out, as a short line. */
function reason(standing: Standing): string {
    if (standing.sort === 'possible') return `possible, would be ${standing.wouldBe.map(({ name }) => name).join()}`;
    if (standing.sort === 'never') return 'never';
    const { reason: why } = standing;
    if (why.sort === 'build') return 'other build';
    const step = why.at.visits.at(-1)?.station.step.name.text ?? 'nowhere';
    return `out at ${step}, would be ${why.wouldBe.map(({ name }) => name).join()}`;
}

function why(name: string, position: Position): string {
    const fault = position.beginning.walked.all.unit.faults.find(one => one.name === name);
    return reason(standingOf(fault, position));
}

/** Those whom the last answer has ruled out. */
function out(position: Position): string[] {
    return ruledOutBy(position).map(({ arrival }) => arrival?.name ?? 'healthy');
}

describe('a chain that is halved', () => {
    const { start } = begin(halves);

    test('begins with everybody who can show the complaint', () => {
        expect(where(start)).toBe('try > light? normal, absent, cannot be read');
        expect(possible(start)).toEqual(['coil.open', 'healthy', 'lamp.burnt', 'plug.open', 'wire.open']);
        expect(out(start)).toEqual([]);
    });

    test('loses one half with each answer', () => {
        const half = answer(start, 'absent');
        expect(out(half)).toEqual(['healthy']);
        const behind = answer(half, 'normal');
        expect([where(behind), possible(behind)]).toEqual([
            'behind > at-lamp? normal, absent, cannot be read',
            ['coil.open', 'lamp.burnt'],
        ]);
        expect(out(behind)).toEqual(['plug.open', 'wire.open']);
        expect([where(answer(behind, 'absent')), possible(answer(behind, 'absent'))]).toEqual([
            'end bad-coil',
            ['coil.open'],
        ]);
    });

    test('tells for everybody the first answer that rules it out, and what it would have shown', () => {
        const end = answer(start, 'absent', 'normal', 'absent');
        expect(why('healthy', end)).toBe('out at try, would be normal');
        expect(why('plug.open', end)).toBe('out at half, would be absent');
        expect(why('wire.open', end)).toBe('out at half, would be absent');
        expect(why('lamp.burnt', end)).toBe('out at behind, would be normal');
        expect(why('coil.open', end)).toBe('possible, would be ');
        expect(why('coil.open', answer(start, 'absent'))).toBe('possible, would be normal');
        expect(why('foot.scratched', end)).toBe('never');
    });

    test('loses nobody where a test cannot be read', () => {
        const given = answer(start, 'absent', 'cannot be read');
        expect([where(given), possible(given), out(given)]).toEqual([
            'end give-up',
            ['coil.open', 'lamp.burnt', 'plug.open', 'wire.open'],
            [],
        ]);
    });

    test('goes back by taking the position before, which has not changed', () => {
        const half = answer(start, 'absent');
        const before = answer(half, 'normal').answered?.before;
        expect(before).toBe(half);
        expect(possible(half)).toEqual(['coil.open', 'lamp.burnt', 'plug.open', 'wire.open']);
    });
});

test('an answer that nobody gives leads where its branch leads, without anybody', () => {
    const again = halves
        .replace('absent -> half }', 'absent -> twice }')
        .replace('step half', 'step twice { test light { normal -> half  absent -> half } }\n  step half');
    const twice = answer(begin(again).start, 'absent');
    expect(where(twice)).toBe('twice > light? (normal), absent, cannot be read');
    const nobody = answer(twice, 'normal');
    expect([where(nobody), possible(nobody)]).toEqual(['half > middle? (normal), (absent), (cannot be read)', []]);
    expect(out(nobody)).toEqual(['plug.open', 'wire.open', 'coil.open', 'lamp.burnt']);
    expect(why('coil.open', nobody)).toBe('out at twice, would be absent');
    const end = answer(nobody, 'normal', 'absent');
    expect([where(end), possible(end), out(end)]).toEqual(['end bad-coil', [], []]);
    expect(why('coil.open', end)).toBe('out at twice, would be absent');
});

describe('builds', () => {
    const relay = `equipment relay "Relay" {
      option size "Size" { small "Small" large "Large" }
      option color "Color" { red blue }
      part coil "Coil" { fault open rate 1 per 1e6 h }
      part fuse "Fuse" for large { fault blown rate 1 per 1e6 h }
      part cover "Cover" for red { fault bent rate 1 per 1e6 h }
      test clicks { checks coil.open as absent, fuse.blown as absent, cover.bent as absent observe by ear normal absent }
      test voltage { checks fuse.blown as absent measure voltage DC normal 12 V ± 10 % for small normal 24 V for large absent otherwise }
    }
    tree silent of relay {
      complaint clicks absent
      step try { test clicks { normal -> fine  absent -> measure } }
      step measure {
        do "Take the cover off."
        do "Pull the fuse." for large
        test voltage { normal -> small-end for small  normal -> large-end for large  absent -> bad-fuse }
      }
      step part-ways { go small-end for small  go large-end for large }
      conclude small-end { coil.open, cover.bent }
      conclude large-end { coil.open, cover.bent }
      conclude bad-fuse { fuse.blown }
      refer fine because "it clicks"
    }
    `;

    test('stay open until the way on depends on them, and then only the option that does is asked', () => {
        const { start } = begin(relay);
        const measure = answer(start, 'absent');
        expect(possible(measure)).toEqual(['coil.open', 'cover.bent', 'fuse.blown']);
        const divided = answer(measure, 'normal');
        expect([where(divided), possible(divided)]).toEqual(['build? small, large', ['coil.open', 'cover.bent']]);
        expect(where(answer(divided, 'large'))).toBe('end large-end');
        expect(where(answer(divided, 'small'))).toBe('end small-end');
        // Here only one of the builds is left, so nothing is asked.
        expect(where(answer(measure, 'absent'))).toBe('end bad-fuse');
    });

    test('are not asked where they are given', () => {
        const { start } = begin(relay, undefined, 'small blue');
        expect([possible(start), out(start)]).toEqual([
            ['coil.open', 'healthy'],
            ['fuse.blown', 'cover.bent'],
        ]);
        expect(why('fuse.blown', start)).toBe('other build');
        const measure = answer(start, 'absent');
        expect(where(measure)).toBe('measure > voltage? normal, (absent)');
        expect(where(answer(measure, 'normal'))).toBe('end small-end');
        expect(why('fuse.blown', measure)).toBe('other build');
    });

    test('are asked before a step whose ways out depend on them', () => {
        const { start } = begin(
            relay
                .replace('normal -> small-end for small', 'normal -> part-ways')
                .replace('normal -> large-end for large', ''),
        );
        const there = answer(start, 'absent', 'normal');
        expect(where(there)).toBe('build? small, large');
        expect(where(answer(there, 'large'))).toBe('part-ways > end large-end');
    });

    test('are asked one option after the other where only both together divide the ways', () => {
        const crossed = relay
            .replace('normal -> small-end for small', 'normal -> small-end for (small and red) or (large and blue)')
            .replace('normal -> large-end for large', 'normal -> large-end for (small and blue) or (large and red)');
        const asked = answer(begin(crossed).start, 'absent', 'normal');
        expect(where(asked)).toBe('build? small, large');
        expect(where(answer(asked, 'large'))).toBe('build? red, blue');
        expect(where(answer(asked, 'large', 'blue'))).toBe('end small-end');
        expect(why('cover.bent', answer(asked, 'large', 'blue'))).toMatch(/would be red$/);
    });

    test('are asked for the option that divides the ways best', () => {
        const crossed = relay
            .replace('normal -> small-end for small', 'normal -> small-end for red or (small and blue and red)')
            .replace('normal -> large-end for large', 'normal -> large-end for blue and large  otherwise -> large-end');
        expect(where(answer(begin(crossed).start, 'absent', 'normal'))).toBe('build? red, blue');
    });

    test('that lack an option can say so', () => {
        const guarded = relay
            .replace('option size "Size"', 'option color "Color" for large { red blue } option size "Size"')
            .replace('option color "Color" { red blue }', '')
            .replace('normal -> small-end for small', 'normal -> small-end for not red')
            .replace('normal -> large-end for large', 'normal -> large-end for red');
        const asked = answer(begin(guarded).start, 'absent', 'normal');
        expect(where(asked)).toBe('build? red, blue, without color');
        expect(where(answer(asked, 'without color'))).toBe('end small-end');
        expect(where(answer(asked, 'red'))).toBe('end large-end');
    });

    test('that the tree is not for end it at the start', () => {
        const { start } = begin(
            relay.replace('of relay {', 'of relay for large {').replace(/normal -> small-end for small/, ''),
            undefined,
            'small',
        );
        expect([where(start), possible(start)]).toEqual(['nobody', []]);
    });

    describe('as a person names them', () => {
        const named = chain.replace(
            'part plug',
            'option size { small large }\n  option color { red small }\n  part plug',
        );
        const { start } = begin(named + halves.slice(chain.length));
        const read = (words: string) => {
            const found = readBuild(words, start.beginning.walked.all.around.space);
            return found.sort === 'problem' ? [found.message, found.advice] : found.choices.map(({ name }) => name);
        };

        test.each([
            ['', []],
            ['large, red', ['large', 'red']],
            ['size.small color.small', ['size.small', 'color.small']],
            ['small', ['`small` is a choice of 2 options.', 'Say which: `size.small` or `color.small`.']],
            ['lagre', ['There is no choice called `lagre`.', 'There is a choice with a similar name: `large`.']],
            ['green-ish', ['There is no choice called `green-ish`.', 'The choices are `small`, `large` and `red`.']],
            ['size.small large', ['No unit is made with `size.small` and `large`.', undefined]],
        ])('%j', (words, expected) => {
            expect(read(words)).toEqual(expected);
        });
    });
});

test('a test that leaves an outcome to choice keeps a fault possible with either answer, but not with both', () => {
    const text = `equipment toy {
      part motor { fault slow rate 1 per 1e6 h }
      part wheel { fault stuck rate 1 per 1e6 h }
      test runs { checks motor.slow, wheel.stuck as loud observe by eye normal loud rough }
      test again { checks motor.slow, wheel.stuck as loud observe by eye normal loud rough }
    }
    tree odd of toy {
      complaint runs loud, rough
      step look { test runs { normal -> fine  loud -> second  rough -> second } }
      step second { test runs { normal -> fine  loud -> both  rough -> both } }
      conclude both { motor.slow, wheel.stuck }
      refer fine because "it runs"
    }
    `;
    const { start } = begin(text);
    expect(possible(answer(start, 'loud'))).toEqual(['motor.slow', 'wheel.stuck']);
    expect(possible(answer(start, 'rough'))).toEqual(['motor.slow']);
    // The same fault shows the same outcome whenever the test is asked again.
    expect(where(answer(start, 'rough'))).toBe('second > runs? (normal), (loud), rough');
    expect(possible(answer(start, 'loud', 'rough'))).toEqual([]);
});

describe('a way that comes round', () => {
    test('by an answer is asked again, with the same units possible', () => {
        const text = halves.replace('absent -> bad-plug }', 'absent -> half }');
        const before = answer(begin(text).start, 'absent', 'absent');
        const again = answer(before, 'absent', 'absent');
        expect(where(before)).toBe('before > at-wire? normal, absent, cannot be read');
        // Of those who were there before, only those are left who come round.
        expect([where(again), possible(again)]).toEqual([
            'before > at-wire? (normal), absent, cannot be read',
            ['plug.open'],
        ]);
    });

    test('without any answer ends and says so', () => {
        const text = halves
            .replace('absent -> half }', 'absent -> one }')
            .replace('step half', 'step one { go two }\n  step two { go one }\n  step half');
        expect(where(answer(begin(text).start, 'absent'))).toBe('one > two > circle');
    });
});

test('a procedure is gone through in its place, and its result leads on', () => {
    const text = `${halves.replace(
        'step before { test at-wire { normal -> bad-wire  absent -> bad-plug } }',
        'step before { follow look with at-wire { good -> bad-wire  bad -> bad-plug } }',
    )}
    procedure look of chain about test {
      step ask-it { test it { normal -> right  otherwise -> not-right } }
      step right { go good }
      step not-right { go bad }
      result good
      result bad
    }
    `;
    const inside = answer(begin(text).start, 'absent', 'absent');
    expect(where(inside)).toBe('before > ask-it > at-wire? normal, absent, cannot be read');
    expect(where(answer(inside, 'absent'))).toBe('not-right > end bad-plug');
    expect(possible(answer(inside, 'absent'))).toEqual(['plug.open']);
});

test('`continue with` goes on in the other tree with those who are left', () => {
    const text = `${halves.replace('step before { test at-wire { normal -> bad-wire  absent -> bad-plug } }', 'step before { continue with feed }').replaceAll(/ {2}conclude bad-(plug|wire).*\n/g, '')}
    tree feed of chain {
      complaint middle absent
      step look { test at-wire { normal -> bad-wire  absent -> bad-plug } }
      conclude bad-plug { plug.open }
      conclude bad-wire { wire.open }
    }
    `;
    const { start } = begin(text, 'dark');
    const handed = answer(start, 'absent', 'absent');
    expect([where(handed), handed.tree.name.text]).toEqual(['before > look > at-wire? normal, absent', 'feed']);
    expect(possible(handed)).toEqual(['plug.open', 'wire.open']);
    expect(where(answer(handed, 'normal'))).toBe('end bad-wire');
    // Who begins with the other tree meets all who come with its own complaint.
    expect(possible(begin(text, 'feed').start)).toEqual(['healthy', 'plug.open', 'wire.open']);
});

describe('something that cannot be done', () => {
    const tug = `equipment tug {
      part rope "Rope" { fault torn rate 1 per 1e6 h }
      part winch "Winch" { fault jammed rate 1 per 1e6 h }
      part hook "Hook" { fault bent rate 1 per 1e6 h }
      test pulls { checks rope.torn as no-pull, winch.jammed as no-pull, hook.bent as no-pull observe by eye normal no-pull }
      test hook-look { checks hook.bent as bent observe by eye normal bent }
    }
    tree stuck of tug {
      complaint pulls no-pull
      step wind { do "Wind the rope." using rope cannot be done -> bad-rope go look }
      step look { do "Turn the hook." cannot be done -> ask test hook-look { normal -> bad-winch  bent -> bad-hook } }
      conclude bad-rope { rope.torn }
      conclude bad-winch { winch.jammed }
      conclude bad-hook { hook.bent }
      refer ask because "the hook does not turn"
    }
    `;

    test('is asked where that depends on what is faulty', () => {
        const { start } = begin(tug);
        expect(where(start)).toBe('wind > doing? done, cannot be done');
        expect([where(answer(start, 'cannot be done')), possible(answer(start, 'cannot be done'))]).toEqual([
            'end bad-rope',
            ['rope.torn'],
        ]);
        const done = answer(start, 'done');
        expect([where(done), possible(done)]).toEqual([
            'look > hook-look? normal, bent, cannot be done',
            ['healthy', 'hook.bent', 'winch.jammed'],
        ]);
        expect(why('rope.torn', done)).toBe('out at wind, would be cannot be done');
    });

    test('rules nobody out where it depends on nothing', () => {
        const asked = answer(begin(tug).start, 'done', 'cannot be done');
        expect([where(asked), possible(asked), out(asked)]).toEqual([
            'end ask',
            ['healthy', 'hook.bent', 'winch.jammed'],
            [],
        ]);
        expect(answersAt(asked)).toEqual([]);
    });
});

test('where nothing leads on, that is where the way ends', () => {
    const text = halves.replace(
        'step behind { test at-lamp { normal -> bad-lamp  absent -> bad-coil } }',
        'step behind { do "Look at the lamp." }',
    );
    const end = answer(begin(text).start, 'absent', 'normal');
    expect([where(end), possible(end)]).toEqual(['behind > nowhere', ['coil.open', 'lamp.burnt']]);
});
