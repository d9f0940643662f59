/** What is said of those who end wrongly: every message, its weight, its advice and its mend. */
import { describe, expect, test } from 'vitest';
import { check, checkMend } from '../support/check.js';
import { findingsOf } from '../support/read-texts.js';

/** An invented lantern whose lamp, wick and valve can fail. */
function lantern(tree: string, checks = 'lamp.dull as dim, wick.short as dim, valve.shut as dark'): string {
    return `equipment lantern "Lantern" {
  option size "Size" { small "Small"  large "Large" }
  part lamp "Lamp" { fault dull "Dull" }
  part wick "Wick" { fault short "Short" }
  part valve "Valve" { fault shut "Shut" }
  test light "How is the light?" {
    checks ${checks}
    observe by eye
    normal "bright"
    dim "dim"
    dark "dark"
  }
  test wick-look "Is the wick long?" {
    checks wick.short as short
    observe by eye
    normal yes
    short no
  }
}

tree poor-light "The light is poor" of lantern {
  complaint light dim, dark
  ${tree}
  refer no-fault "No fault found" because "the light is bright"
}
`;
}

const ask = 'step look { test light { normal -> no-fault  dim -> wick  dark -> shut-valve } }';
const wick = 'step wick { test wick-look { normal -> dull-lamp  short -> short-wick } }';
const ends = 'conclude dull-lamp { lamp.dull } conclude short-wick { wick.short } conclude shut-valve { valve.shut }';

/** Each finding as code, severity and message. */
function told(text: string): string[] {
    return findingsOf({ 'example.fault': text }).map(
        ({ code, severity, message }) => `${severity} ${code}: ${message}`,
    );
}

function adviceOf(text: string): readonly (string | undefined)[] {
    return findingsOf({ 'example.fault': text }).map(({ advice }) => advice);
}

test('a tree in which everybody ends rightly has no finding', () => {
    expect(told(lantern(`${ask} ${wick} ${ends}`))).toEqual([]);
});

describe('a conclusion', () => {
    test('that nobody ever names a fault at is told for each end at which it arrives', () => {
        const text = lantern(
            `step look { test light { normal -> no-fault  dim -> wick  dark -> shut-valve } }
             step wick { test wick-look { normal -> dull-lamp  short -> ask-someone } }
             conclude dull-lamp { lamp.dull }
             conclude shut-valve { valve.shut }
             refer ask-someone because "it is not our trade"`,
        );
        expect(told(text)).toEqual([
            'error fault-not-found: No end names `wick.short` in any tree that it comes to; here it ends at `ask-someone`.',
        ]);
    });

    test('that leaves out several faults names them together', () => {
        const text = lantern(
            `step look { test light { normal -> no-fault  dim, dark -> bad-lamp } } conclude bad-lamp { lamp.dull }`,
        );
        expect(told(text).filter(line => !line.includes('unused'))).toEqual([
            'error fault-not-found: No end names `wick.short` or `valve.shut` in any tree that they come to; here they end at `bad-lamp`.',
        ]);
    });

    test('that swaps two others is wrong at both ends', () => {
        const swapped = wick.replace(
            'normal -> dull-lamp  short -> short-wick',
            'normal -> short-wick  short -> dull-lamp',
        );
        expect(told(lantern(`${ask} ${swapped} ${ends}`))).toEqual([
            'error wrong-conclusion: Conclusion `dull-lamp` is right for nobody who comes to it: it does not name `wick.short`.',
            'error wrong-conclusion: Conclusion `short-wick` is right for nobody who comes to it: it does not name `lamp.dull`.',
        ]);
    });

    test('that names a fault in some builds only is too strong in the others', () => {
        const named = ends.replace('{ lamp.dull }', '{ lamp.dull for small }');
        const [finding, ...others] = findingsOf({ 'example.fault': lantern(`${ask} ${wick} ${named}`) });
        expect(others).toEqual([]);
        expect(finding?.message).toBe('Conclusion `dull-lamp` leaves out what is still possible here: `lamp.dull`.');
        expect(finding?.counterexample?.build).toEqual(['large']);
    });
});

describe('what hangs on an outcome that the model leaves open', () => {
    // The valve may show either: nothing says which.
    const open = lantern(`${ask} ${wick} ${ends}`, 'lamp.dull as dim, wick.short as dim, valve.shut');

    test('is a warning, and its advice begins with how to say it', () => {
        expect(told(open)).toEqual([
            'warning too-strong: Conclusion `dull-lamp` leaves out what is still possible here: `valve.shut`.',
        ]);
        expect(adviceOf(open)).toEqual([
            'Say with `shows`, `as` or `makes` what the tests of the example show: so far nothing does. If it is so, ask one more test that tells it apart, or name it in the conclusion too.',
        ]);
    });

    test('can be accepted', () => {
        const accepted = open.replace(
            'conclude dull-lamp { lamp.dull }',
            'conclude dull-lamp { lamp.dull accept too-strong because "A shut valve makes the lantern dark." }',
        );
        expect(told(accepted)).toEqual([]);
    });

    test('is an error where others come to the same wrong end for sure', () => {
        const sure = open
            .replace('short -> short-wick', 'short -> dull-lamp')
            .replace('conclude short-wick { wick.short }', '');
        const [finding] = findingsOf({ 'example.fault': sure.replace('{ valve.shut }', '{ valve.shut, wick.short }') });
        expect(finding?.severity).toBe('error');
    });
});

describe('a healthy unit', () => {
    test('that is handed over as faulty is a warning', () => {
        const text = lantern(`${ask} ${wick} ${ends}`).replace(
            'because "the light is bright"',
            'because "somebody else must look at it" { lamp.dull }',
        );
        expect(told(text)).toEqual([
            'warning healthy-condemned: A healthy unit ends at referral `no-fault`, which names a fault that it does not have.',
        ]);
    });

    test('that ends at a repair in some builds is an error with such a build', () => {
        const text = lantern(
            `step look { test light { normal -> no-fault for small  normal -> dull-lamp for large  dim -> wick  dark -> shut-valve } } ${wick} ${ends}`,
        );
        const [finding, ...others] = findingsOf({ 'example.fault': text });
        expect(others).toEqual([]);
        expect(finding?.message).toBe(
            'A healthy unit ends at conclusion `dull-lamp`: a good part would be repaired or replaced.',
        );
        expect(finding?.counterexample?.build).toEqual(['large']);
        expect(finding?.counterexample?.fault).toBe('healthy');
    });
});

describe('a referral', () => {
    const toReferral = ask.replace('dark -> shut-valve', 'dark -> shut-valve for small  dark -> send-in for large');

    test('that does not name what others find in other builds is told with such a build', () => {
        const text = lantern(`${toReferral} ${wick} ${ends} refer send-in because "it is locked"`);
        const [finding, ...others] = findingsOf({ 'example.fault': text });
        expect(others).toEqual([]);
        expect(finding?.message).toBe(
            'In some builds no way leads to an end that names `valve.shut`; here it ends at `send-in`.',
        );
        expect(finding?.counterexample?.build).toEqual(['large']);
    });

    test('that names it hands it over', () => {
        expect(
            told(lantern(`${toReferral} ${wick} ${ends} refer send-in because "it is locked" { valve.shut }`)),
        ).toEqual([]);
    });
});

describe('causes and effects', () => {
    const shorted = `equipment buzzer "Buzzer" {
  part fuse "Fuse" {
    fault blown "Blown"
  }
  part coil "Coil" {
    fault shorted "Shorted" shorts { causes fuse.blown }
  }
  flow power: fuse -> coil -> [sound]
  test sound "Does it buzz?" {
    observe by ear
    normal yes
    absent no shows stopped
  }
}

tree silent "It does not buzz" of buzzer {
  complaint sound absent
  step press "Press the button" { test sound { normal -> no-fault  absent -> bad } }
  conclude bad "It is broken" { NAMES<|> }
  refer no-fault "No fault found" because "it buzzes"
}
`;
    const naming = (names: string) => shorted.replace('NAMES<|>', names);

    test('that are both named are right', () => {
        expect(told(naming('coil.shorted, fuse.blown'))).toEqual([]);
    });

    test('of which the cause is left out are told as such', () => {
        expect(told(naming('fuse.blown'))).toEqual([
            'error fault-not-found: No end names `coil.shorted` in any tree that it comes to; here it ends at `bad`.',
        ]);
        expect(adviceOf(naming('fuse.blown'))).toEqual([
            'The end names only what `coil.shorted` causes, `fuse.blown`: name the cause here too.',
        ]);
    });

    test('of which the effect is left out are told once', () => {
        expect(told(naming('coil.shorted'))).toEqual([
            'error fault-not-found: No end names `fuse.blown` in any tree that it comes to; here it ends at `bad`.',
        ]);
        const neverAlone = naming('coil.shorted').replace(
            'fault blown "Blown"',
            'fault blown "Blown" only when caused',
        );
        expect(told(neverAlone)).toEqual([
            'error wrong-conclusion: Conclusion `bad` names a fault, but not what it has caused: `fuse.blown`.',
        ]);
    });

    test('that are left out can be put in', () => {
        const marked = shorted.replace('conclude bad', 'conclude <|>bad').replace('NAMES<|>', 'fuse.blown');
        expect(checkMend(marked, 'Name `coil.shorted` in `bad` too')).toBe(naming('fuse.blown, coil.shorted'));
    });
});

describe('many parts at one end', () => {
    const many = (heading: string, names: string) => `equipment rack "Rack" {
  option size "Size" { small "Small"  large "Large" }
  part a "A" { fault bad "Bad" }
  part b "B" { fault bad "Bad"  fault worse "Worse" }
  part c "C" { fault bad "Bad" }
  part d "D" for large { fault bad "Bad" { causes e.bad } }
  part e "E" { fault bad "Bad" }
  test look "How does it look?" {
    checks a as wrong, b as wrong, c as wrong, d as wrong for large, e as wrong
    observe by eye
    normal "right"
    wrong "wrong"
  }
}

tree odd "It looks odd" of rack {
  complaint look wrong
  step first "Look at it" { test look { normal -> no-fault  wrong -> bad } }
  conclude bad "Something" ${heading} { ${names} }
  ${names.includes('e') ? '' : 'conclude other "E" { e.bad }'}
  refer no-fault "No fault found" because "it looks right"
}
`;

    test('are counted by parts, in the build that has the most', () => {
        const [finding, ...others] = findingsOf({
            'example.fault': many('', 'a.bad, b, c.bad, d.bad for large, e.bad'),
        });
        expect(others).toEqual([]);
        // The fault of `e` goes with that of `d` where there is a `d`.
        expect(finding?.message).toBe(
            'Conclusion `bad` would repair or replace 4 parts: `a`, `b`, `c` and `d`; the workspace allows 3.',
        );
        expect(finding?.severity).toBe('warning');
        expect(finding?.counterexample?.build).toEqual(['large']);
        const three = findingsOf({ 'example.fault': many('', 'a.bad, b, c.bad') });
        expect(three.filter(({ code }) => code === 'ambiguous')).toEqual([]);
    });

    test('may be tried in order', () => {
        expect(check(many('in order', 'a.bad, b, c.bad, d.bad for large, e.bad'))).toEqual([]);
        const text = many('', 'a.bad, b, c.bad, d.bad for large, e.bad').replace('conclude bad', 'conclude <|>bad');
        expect(checkMend(text, 'Say `in order`: the parts are tried one after the other')).toContain(
            'conclude bad "Something" in order  {',
        );
    });
});
