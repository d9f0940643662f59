/** Ways through trees and procedures: cases that the pages of the rules about them do not show. */
import { describe, expect, test } from 'vitest';
import { findingsOf } from '../support/read-texts.js';

/** A box with a lid in every build, and a lamp and a latch in the large one. */
const equipment = (more = '') => `equipment box "Box" {
  option size "Size" { small  large }
  ${more}
  part lid "Lid" { fault stuck "Stuck"  fault bent "Bent" }
  part lamp "Lamp" for large { fault out "Out" }
  test opens "Does it open?" {
    checks lid.stuck as no-way, lid.bent as no-way, lamp.out as no-way for large
    observe by hand  normal yes  no-way no
  }
  test straight "Is the lid straight?" {
    checks lid.bent as crooked  observe by eye  normal yes  crooked no
  }
  test light "Is there light?" for large {
    checks lamp.out as dark  observe by eye  normal yes  dark no
  }
}
`;
const ends = `
  conclude bad "Bad" { lid, lamp for large }
  refer fine "Fine" because "it opens"
`;
const tree = (steps: string, heading = '') =>
    `tree shut "It is shut" of box ${heading} { complaint opens no-way ${steps} ${ends} }\n`;
const first = (to: string) => `step open { test opens { normal -> fine  no-way -> ${to} } }`;

/** The findings of one code in a text that can be read. */
const findings = (code: string, text: string) => {
    const all = findingsOf({ 'example.fault': text });
    const slip = all.find(finding => ['unexpected-text', 'unknown-name'].includes(finding.code));
    if (slip) throw new Error(`The text of the test is wrong: ${slip.message}`);
    return all.filter(finding => finding.code === code);
};
const found = (code: string, text: string) => findings(code, text).map(({ message }) => message);
const sentences = (code: string, text: string) =>
    findings(code, text).map(({ counterexample }) => counterexample?.sentence);

describe('what a build lacks', () => {
    test('is told of the first step, of a tree and of a procedure', () => {
        const open = 'step open for large { test opens { normal -> fine  no-way -> bad } }';
        expect(found('missing-in-build', equipment() + tree(open))).toEqual([
            'The step `open` comes first, and is not for every unit that begins with it.',
        ]);
        const procedure = `procedure look "Look" of box {
          step glance for large { test straight { normal -> good  crooked -> worse } }
          result good  result worse
        }`;
        const text =
            equipment() + procedure + tree(`${first('next')} step next { follow look { good, worse -> bad } }`);
        expect(found('missing-in-build', text)).toEqual([
            'The step `glance` comes first, and is not for every unit that begins with it.',
        ]);
        expect(sentences('missing-in-build', text)).toEqual([
            'a unit with small, with `lid.stuck`: step `open`, `opens` shows `no-way`; step `next`; the step `glance` is not for this unit',
        ]);
    });

    test('is told of a tree that goes on, and of a procedure that is followed', () => {
        const other = `tree dark "It is dark" of box for large {
          complaint light dark
          step glance { test light { normal, dark -> bad } }
          ${ends}
        }`;
        const handed = equipment() + tree(`${first('next')} step next { continue with dark }`) + other;
        expect(found('missing-in-build', handed)).toEqual([
            'The tree `dark` is not for every unit that is led to it here.',
        ]);
        expect(sentences('missing-in-build', handed)).toEqual([
            'a unit with small, with `lid.stuck`: step `open`, `opens` shows `no-way`; step `next`; the tree `dark` is not for this unit',
        ]);
        const procedure = `procedure look "Look" of box for large {
          step glance { test light { normal -> good  dark -> worse } }
          result good  result worse
        }`;
        const followed =
            equipment() + procedure + tree(`${first('next')} step next { follow look { good, worse -> bad } }`);
        expect(found('missing-in-build', followed)).toEqual([
            'The procedure `look` is not for every unit that is led to it here.',
        ]);
    });

    test('is told of gates, parts and faults, with a unit that lacks them, although it goes on', () => {
        const gate = 'gate key "Key" for large { prepare "Turn the key." }';
        const text = (statement: string) =>
            equipment(gate) + tree(`${first('next')} step next { ${statement} go bad }`);
        const unit = (what: string) =>
            `a unit with small, with \`lid.stuck\`: step \`open\`, \`opens\` shows \`no-way\`; step \`next\`; this unit has no \`${what}\``;
        expect(found('missing-in-build', text('gate key'))).toEqual([
            'Not every unit that comes to this step has the gate `key`.',
        ]);
        expect(sentences('missing-in-build', text('gate key'))).toEqual([unit('key')]);
        expect(found('missing-in-build', text('do "Clean it." clears lamp.out'))).toEqual([
            'Not every unit that comes to this step can have `lamp.out`.',
        ]);
        expect(sentences('missing-in-build', text('do "Clean it." clears lamp.out'))).toEqual([unit('lamp.out')]);
    });

    test('is told once where both the part and its fault are not there', () => {
        const next = 'step next { do "Clean it." at lamp clears lamp.out go bad }';
        expect(found('missing-in-build', equipment() + tree(first('next') + next))).toEqual([
            'Not every unit that comes to this step has the part `lamp`.',
        ]);
    });

    test('is not told of one of several faults that are cleared together', () => {
        const next = 'step next { do "Clean it." clears lid.stuck, lamp.out go bad }';
        expect(found('missing-in-build', equipment() + tree(first('next') + next))).toEqual([]);
    });
});

describe('a place from which nothing leads on', () => {
    const procedure = `procedure look "Look" of box {
      step glance { test straight { normal -> good  crooked -> worse } }
      result good  result worse
    }`;

    test('is a missing branch where the result of a procedure has none', () => {
        const text = equipment() + procedure + tree(`${first('next')} step next { follow look { good -> bad } }`);
        expect(found('dead-end', text)).toEqual([]);
        expect(found('branch-missing', text)).toEqual(['`look` can answer `worse`, and no branch follows.']);
    });

    test('names only the answers that lead nowhere in the build that gives them', () => {
        const text = (guard: string) =>
            `equipment box "Box" { option size "Size" { small  large }
              part lid "Lid" { fault stuck  fault bent }
              test opens "Does it open?" { checks lid.stuck as hard, lid.bent as never  observe by hand  normal yes  hard  never }
            }
            tree shut of box {
              complaint opens hard, never
              step open { confirm opens normal -> fine }
              conclude bad { lid }  refer fine because "it opens"
              disagree -> bad ${guard}
            }`;
        expect(found('dead-end', text('for large'))).toEqual([
            '`opens` can show `hard` or `never` here, and nothing says where to go then.',
        ]);
        expect(found('dead-end', text(''))).toEqual([]);
    });

    test('stands in the file of the procedure, once for all trees that follow it', () => {
        const shared = `uses "box.fault"
          procedure look "Look" of box { step glance { confirm straight normal -> good }  result good }`;
        const follows = (name: string) =>
            `uses "look.fault"
            tree ${name} of box {
              complaint opens no-way ${first('next')}
              step next { follow look { good -> bad } } ${ends}
            }`;
        const texts = {
            'box.fault': equipment(),
            'look.fault': shared,
            'one.fault': follows('one'),
            'two.fault': follows('two'),
        };
        const places = findingsOf(texts)
            .filter(({ code }) => code === 'dead-end')
            .map(({ file }) => file);
        expect(places).toEqual(['look.fault']);
    });
});

describe('a place to which nobody comes', () => {
    const procedure = `procedure look "Look" of box {
      step glance { test straight { normal -> good  crooked -> worse } }
      step left { go over }
      step over { go left }
      result good  result worse
    }`;
    const one = `tree one "One" of box { complaint opens no-way ${first('next')}
      step next { follow look { good, worse -> bad } } ${ends} }`;
    const two = `tree two "Two" of box { complaint straight crooked
      step glance { test straight { normal -> fine  crooked -> next } }
      step next { follow look { good -> odd  worse -> bad } }
      conclude odd "Odd" { lid.bent } ${ends} }`;

    test('is told of the steps of a procedure, and of an end for a result that only other trees are given', () => {
        expect(found('unreachable-step', equipment() + procedure + one + two)).toEqual([
            'No unit comes to step `left`.',
            'No unit comes to conclusion `odd`.',
        ]);
    });

    test('is told in the procedure alone where nobody at all is given the result', () => {
        const text = equipment() + procedure.replace(/step left.*\n.*step over.*\n/, '') + two;
        expect(found('unreachable-step', text)).toEqual([]);
        expect(found('repeated-test', text)).toHaveLength(1);
    });
});

describe('a branch that nobody takes', () => {
    test('is told as branching twice where an earlier branch takes its outcome', () => {
        const steps = 'step open { test opens { normal -> fine  no-way -> bad  otherwise -> bad  otherwise -> fine } }';
        expect(found('contradiction', equipment() + tree(steps))).toEqual([]);
        const doubled = 'step open { test opens { normal -> fine  otherwise -> bad  otherwise -> fine } }';
        expect(found('contradiction', equipment() + tree(doubled))).toEqual([]);
        expect(found('branch-twice', equipment() + tree(doubled))).toHaveLength(1);
    });

    test('for another build is not taken for one that the answers before have ruled out', () => {
        const next =
            'step next for large { test light { normal -> bad  dark -> bad for large  dark -> fine for small } }';
        const text =
            equipment() +
            tree(
                `step open { test opens { normal -> fine  no-way -> next for large  no-way -> bad for small } } ${next}`,
            );
        expect(found('impossible-branch', text)).toEqual(['No unit for which this branch is written comes here.']);
        expect(found('contradiction', text)).toEqual([]);
    });

    test('because nothing shows its outcome is told also while others go a wrong way', () => {
        const text = `equipment box "Box" {
          part lid "Lid" { fault stuck  fault bent }
          test opens "Does it open?" { checks lid.stuck as hard, lid.bent as hard  observe by hand  normal yes  hard  never }
        }
        tree shut of box {
          complaint opens hard
          step open { test opens { normal -> fine  hard -> stuck  never -> bent } }
          conclude stuck { lid.stuck }  conclude bent { lid.bent }  refer fine because "it opens"
        }`;
        expect(found('too-strong', text)).toHaveLength(1);
        expect(found('impossible-branch', text)).toEqual([
            'Nothing that arrives with the complaint makes `opens` show `never`.',
        ]);
    });

    test('is told with a unit that does come, when what it has is put right on the way', () => {
        const text = `equipment box "Box" {
          part lid "Lid" { fault stuck  fault bent }
          test opens "Does it open?" { checks lid.stuck as hard, lid.bent as never  observe by hand  normal yes  hard  never }
        }
        tree shut of box {
          complaint opens hard, never
          step open { test opens { normal -> fine  hard, never -> oil } }
          step oil { do "Oil it." clears lid.stuck  test opens { normal, hard -> stuck  never -> bent } }
          conclude stuck { lid.stuck }  conclude bent { lid.bent }  refer fine because "it opens"
        }`;
        expect(found('contradiction', text)).toEqual([]);
        const parted = text.replace('normal, hard -> stuck', 'normal -> stuck  hard -> fine');
        expect(found('contradiction', parted)).toEqual([
            'After what was answered and done before, nothing that comes here makes `opens` show `hard`.',
        ]);
        expect(sentences('contradiction', parted)).toEqual([
            'any unit, with `lid.stuck`: step `open`, `opens` shows `hard`; step `oil`, `opens` shows `normal`; here `opens` does not show `hard`',
        ]);
    });
});

describe('a question that is asked again', () => {
    const again = (before: string, more = '') =>
        equipment(more) +
        tree(`${first('next')} step next { ${before} test straight { normal, crooked -> again } }
          step again { ${before} test straight { normal, crooked -> bad } }`);
    const message =
        '`straight` was asked before on every way here, and nothing was done since that could change the answer.';
    const mains = (gate: string) => `hazard mains "Mains" { electrical 230 V AC } ${gate}`;

    test('is repeated behind a gate that only permits, and behind one that is closed already', () => {
        const permit = mains('gate live "Live work" { permits measuring mains  shield "Put the mat down." }');
        const lock = mains('gate off "Off" { controls mains  lock "Put the padlock on." }');
        expect(found('repeated-test', again(''))).toEqual([message]);
        expect(found('repeated-test', again('gate live', permit))).toEqual([message]);
        expect(found('repeated-test', again('gate off', lock))).toEqual([message]);
    });

    test('is not repeated after something that could change the answer', () => {
        const lock = mains('gate off "Off" { controls mains  lock "Put the padlock on." }');
        expect(found('repeated-test', again('wait 5 min'))).toEqual([]);
        expect(found('repeated-test', again('do "Knock on it."'))).toEqual([]);
        expect(found('repeated-test', again('restore off', lock))).toEqual([]);
        const closed =
            equipment(lock) +
            tree(`${first('next')} step next { test straight { normal, crooked -> again } }
              step again { gate off test straight { normal, crooked -> bad } }`);
        expect(found('repeated-test', closed)).toEqual([]);
    });

    test('is not repeated while a fault is possible that comes and goes', () => {
        const text = again('').replace('fault bent "Bent"', 'fault bent "Bent" { comes and goes }');
        expect(found('repeated-test', text)).toEqual([]);
    });
});
