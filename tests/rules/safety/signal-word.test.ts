/** Signal words against the hazards that they are about; their meaning is that of ANSI Z535.6, seen second-hand. */
import { describe, expect, test } from 'vitest';
import { checkMend } from '../../support/check.js';
import { found } from './found.js';

const unfit = (text: string, settings?: string) => found('signal-word', text, settings);

/** One statement about a hazard, in a zone. */
const about = (level: string, hazard: string, guard = '') => `equipment e {
  option size { small large }
  hazard h { ${hazard} }
  zone z { exposes h ${level} about h "W" ${guard} }
}`;

describe('a notice', () => {
    test('about a hazard is a finding, whatever the hazard is', () => {
        for (const hazard of ['electrical 5 V DC', 'chemical', 'thermal 90 °C']) {
            expect(unfit(about('notice', hazard))).toEqual([
                'notice: This `notice` is about `h`, which can hurt somebody: a notice is for damage to things.',
            ]);
        }
    });

    test('about no hazard is right', () => {
        expect(unfit('equipment e { zone z { notice "N" } }')).toEqual([]);
    });
});

describe('a caution', () => {
    const cautions = (hazard: string, guard?: string) => unfit(about('caution', hazard, guard));

    test.each([
        ['electrical 230 V AC', '230 V AC'],
        ['electrical 325 V DC', '325 V DC'],
        ['pressure 6 bar gauge', '6 bar gauge'],
        ['pressure', 'pressure'],
        ['mechanical', 'mechanical'],
        ['gravity 20 kg', 'gravity'],
        ['gas 20 mbar', 'gas'],
    ])('about what is %s is too weak', (hazard, what) => {
        expect(cautions(hazard)).toEqual([
            `caution: This \`caution\` is about \`h\` (${what}), which can kill or maim: a caution is for slight injuries.`,
        ]);
    });

    test.each([
        'electrical 30 V AC',
        'electrical 60 V DC',
        'electrical',
        'pressure 0.4 bar gauge',
        'thermal 90 °C',
        'chemical',
    ])('about what is %s is right', hazard => {
        expect(cautions(hazard)).toEqual([]);
    });

    test('is looked at in the builds in which it is said', () => {
        const levels = 'electrical 24 V AC for small 230 V AC for large';
        expect(cautions(levels)).toHaveLength(1);
        expect(cautions(levels)[0]).toContain('[large]');
        expect(cautions(levels, 'for small')).toEqual([]);
    });

    test('is compared with the limits of the workspace', () => {
        expect(unfit(about('caution', 'electrical 24 V AC'), '{ "safetyLimits": "iec-61010-1-wet" }')).toHaveLength(1);
    });
});

describe('a danger', () => {
    const dangers = (hazard: string, guard?: string) => unfit(about('danger', hazard, guard));
    const high = 'danger: This `danger` is about `h`, whose levels are all too low to kill or maim.';

    test.each(['electrical 24 V DC', 'thermal 40 °C', 'pressure 0.2 bar gauge', 'electrical 12 V DC thermal 40 °C'])(
        'about what is %s is too strong',
        hazard => {
            expect(dangers(hazard)).toEqual([high]);
        },
    );

    test.each([
        'electrical 230 V AC',
        'electrical',
        'thermal 90 °C',
        'mechanical 100 N',
        'electrical 12 V DC thermal 90 °C',
        'electrical 12 V DC mechanical',
        // The pressure says nothing of what a gas does, nor the temperature of what is cold.
        'gas 20 mbar',
        'thermal -80 °C',
        // 1 F at 48 V hold 1152 J, more than the 100 J of NFPA 70E, article 360, from memory.
        'electrical 48 V DC stored 1 F',
    ])('about what is %s is right', hazard => {
        expect(dangers(hazard)).toEqual([]);
    });

    test('is looked at in the builds in which it is said', () => {
        const levels = 'electrical 24 V AC for small 230 V AC for large';
        expect(dangers(levels)).toEqual([]);
        expect(dangers(levels, 'for small')).toEqual([`${high} [small]`]);
    });
});

describe('a statement', () => {
    test('in the braces of a hazard is about that hazard', () => {
        expect(unfit('equipment e { hazard h { electrical 230 V AC caution "C" } }')).toHaveLength(1);
    });

    test('is found wherever it can stand', () => {
        const caution = 'caution about h "C"';
        const text = `equipment e {
  ${caution}
  hazard h { mechanical ${caution} }
  hazard i { chemical ${caution} }
  zone z { ${caution} }
  part p { ${caution} fault f test u { ${caution} observe normal } }
  supply s { ${caution} fault f }
  kind k { ${caution} }
  test t { ${caution} observe normal }
  gate g { ${caution} }
}
tree x of e {
  ${caution}
  step s { ${caution} do "D" }
  conclude c { ${caution} p.f }
  refer r because "b" { ${caution} }
}
procedure y of e { ${caution} step s { ${caution} do "D" go a } result a }`;
        expect(unfit(text)).toHaveLength(text.split(caution).length - 1);
    });

    test('about a supply is about what it carries', () => {
        const text =
            'equipment e { hazard h { electrical 230 V AC } supply s carries h zone z { caution about s "C" } }';
        expect(unfit(text)).toHaveLength(1);
    });

    test('with a warning is always right', () => {
        for (const hazard of ['electrical 5 V DC', 'electrical 230 V AC', 'mechanical']) {
            expect(unfit(about('warning', hazard))).toEqual([]);
        }
    });

    test('can be given another word', () => {
        expect(checkMend(about('caution<|>', 'mechanical'), 'Write `warning`')).toBe(about('warning', 'mechanical'));
        expect(checkMend(about('danger<|>', 'electrical 5 V DC'), 'Write `caution`')).toBe(
            about('caution', 'electrical 5 V DC'),
        );
    });
});
