/** Safety statements that stand behind the action that they are for. */
import { describe, expect, test } from 'vitest';
import { findingsIn, found } from './found.js';

const late = (text: string) => found('warning-after-step', text);

const equipment = `equipment e {
  option size { small large }
  condition lid { shut open }
  hazard mains { electrical 230 V AC }
  hazard heat { thermal 90 °C }
  zone box { exposes mains while lid open, heat for large }
  part fuse in box { fault blown }
  test t in box { checks fuse.blown as bad observe normal bad }
  test u { checks fuse.blown as bad observe normal bad }
  gate lockout { controls mains }
  gate permit { permits measuring mains }
}
procedure check of e { step s { go good } result good }
`;
const step = (statements: string) => `${equipment}tree x of e { step s { ${statements} } refer end because "b" }`;
const last = (level: string) => `${level}: Nothing is done in step \`s\` after this \`${level}\`: it is read too late.`;
const behind = (hazard: string, build = '') =>
    `warning: This \`warning\` about \`${hazard}\` stands behind an action that meets it: it is read too late.${build}`;

describe('a statement', () => {
    test.each([
        'do "D"',
        'wait 5 min',
        'gate lockout',
        'restore lockout',
        'test u { normal -> end bad -> end }',
        'confirm u bad -> end',
        'follow check { good -> end }',
    ])('before `%s` is in time', action => {
        expect(late(step(`warning "W" ${action}`))).toEqual([]);
    });

    test('before nothing but notes and the way on is too late', () => {
        for (const level of ['danger', 'warning', 'caution', 'notice']) {
            expect(late(step(`do "D" ${level} "W" note "N" go end`))).toEqual([last(level)]);
        }
        expect(late(step('warning "W"'))).toEqual([last('warning')]);
        expect(
            late(`${equipment}tree y of e { step s {} } tree x of e { step s { warning "W" continue with y } }`),
        ).toEqual([last('warning')]);
    });

    test('in a procedure is looked at as well', () => {
        expect(late(`${equipment}procedure p of e { step s { do "D" caution "C" go good } result good }`)).toEqual([
            last('caution'),
        ]);
    });

    test('is looked at in each build', () => {
        expect(late(step('warning "W" do "D" for small'))).toEqual([`${last('warning')} [large]`]);
        expect(late(step('warning "W" for small do "D" for small'))).toEqual([]);
        expect(late(step('warning "W" do "D" for small do "E" for large'))).toEqual([]);
    });
});

describe('a statement about a hazard', () => {
    test('behind an action that meets it is too late', () => {
        for (const action of [
            'do "D" in box',
            'do "D" at fuse',
            'do "D" replaces fuse',
            'test t { normal -> end bad -> end }',
        ]) {
            expect(late(step(`${action} warning about mains "W" do "E"`))).toEqual([behind('mains')]);
        }
    });

    test('behind an action elsewhere, or about another hazard, is in time', () => {
        expect(late(step('do "D" warning about mains "W" do "E" in box'))).toEqual([]);
        expect(late(step('test u { normal -> end bad -> end } warning about mains "W" do "E"'))).toEqual([]);
        expect(late(step('do "D" in box warning "W" do "E"'))).toEqual([]);
    });

    test('is looked at in each build', () => {
        expect(late(step('do "D" in box warning about heat "W" do "E"'))).toEqual([behind('heat', ' [large]')]);
        expect(late(step('do "D" in box for small warning about heat "W" do "E"'))).toEqual([]);
    });

    test('may be said again behind the action', () => {
        expect(late(step('danger about mains "W" do "D" in box warning about mains "W" do "E"'))).toEqual([]);
        expect(late(step('danger about heat "W" do "D" in box warning about mains "W" do "E"'))).toEqual([
            behind('mains'),
        ]);
    });

    test('may stand behind it where a gate covers the action', () => {
        expect(late(step('gate lockout do "D" in box warning about mains "W" do "E"'))).toEqual([]);
        expect(late(step('gate permit test t { normal -> end bad -> end } warning about mains "W" do "E"'))).toEqual(
            [],
        );
        // The gate was closed in a step before, and is opened only now.
        expect(late(step('do "D" in box restore lockout warning about mains "W" do "E"'))).toEqual([]);
        expect(late(step('gate lockout do "D" in box warning about heat "W" do "E"'))).toEqual([
            behind('heat', ' [large]'),
        ]);
    });

    test('shows the action that meets the hazard', () => {
        const [finding] = findingsIn('warning-after-step', step('do "D" in box warning about mains "W" do "E"'));
        expect(finding?.related.map(({ text }) => text)).toEqual(['`mains` is met here']);
        expect(finding?.severity).toBe('warning');
    });
});
