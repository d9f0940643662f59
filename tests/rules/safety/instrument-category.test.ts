/** Instruments in zones with a measurement category, and gates that ask for one. */
import { describe, expect, test } from 'vitest';
import { checkMend } from '../../support/check.js';
import { findingsIn, found } from './found.js';

const weak = (text: string) => found('instrument-category', text);

interface Parts {
    readonly mark?: string;
    readonly zone?: string;
    readonly test?: string;
    readonly levels?: string;
    readonly more?: string;
}

function world({ mark = 'category III 600 V', zone = 'category III', test: body, levels, more = '' }: Parts): string {
    return `equipment e {
  option size { small large }
  instrument meter { measures voltage AC 0 V .. 600 V measures resistance 0 Ω .. 1 kΩ measures temperature 0 °C .. 90 °C ${mark} }
  hazard mains { electrical ${levels ?? '400 V AC'} }
  hazard heat { thermal 90 °C }
  zone box { exposes mains while lid open, heat ${zone} }
  condition lid { shut open }
  test t in box { ${body ?? 'measure voltage AC with meter normal > 200 V absent otherwise'} }
  ${more}
}`;
}

describe('an instrument', () => {
    test('with the category and the voltage of the zone is right', () => {
        expect(weak(world({}))).toEqual([]);
        expect(weak(world({ mark: 'category IV 600 V' }))).toEqual([]);
        expect(weak(world({ zone: 'category III 600 V' }))).toEqual([]);
        expect(weak(world({ mark: 'category II 1000 V category III 600 V' }))).toEqual([]);
    });

    test.each([
        ['category II 600 V', 'category III', 'category III and 400 V AC', 'category II 600 V'],
        ['category III 300 V', 'category III', 'category III and 400 V AC', 'category III 300 V'],
        ['category III 600 V', 'category III 1000 V', 'category III 1000 V', 'category III 600 V'],
        ['category III 600 V', 'category IV', 'category IV and 400 V AC', 'category III 600 V'],
        ['category III', 'category III', 'category III and 400 V AC', 'category III'],
        ['', 'category II', 'category II and 400 V AC', 'none'],
        [
            'category II 1000 V category IV 300 V',
            'category III',
            'category III and 400 V AC',
            'category II 1000 V and category IV 300 V',
        ],
    ])('with `%s` where the zone has `%s` is not enough', (mark, zone, needed, own) => {
        expect(weak(world({ mark, zone }))).toEqual([
            `meter: Test \`t\` measures in zone \`box\`, which needs ${needed}; instrument \`meter\` has ${own}.`,
        ]);
    });

    test('is compared with what the zone exposes in each build', () => {
        const levels = '230 V AC for small 400 V AC for large';
        expect(weak(world({ levels, mark: 'category III 300 V' }))).toEqual([
            'meter: Test `t` measures in zone `box`, which needs category III and 400 V AC; instrument `meter` has category III 300 V. [large]',
        ]);
        const small = 'measure voltage AC with meter for small normal > 200 V absent otherwise';
        expect(weak(world({ levels, mark: 'category III 300 V', test: small }))).toEqual([]);
    });

    test('is compared with the rms value of a peak', () => {
        // 400 V peak of a sine are 282.8 V rms: divided by √2.
        expect(weak(world({ levels: '400 V AC peak', mark: 'category III 300 V' }))).toEqual([]);
        expect(weak(world({ levels: '430 V AC peak', mark: 'category III 300 V' }))).toHaveLength(1);
    });

    test('needs the category of the zone where no voltage is given', () => {
        expect(weak(world({ levels: '', mark: 'category III 50 V' }))).toEqual([]);
        expect(weak(world({ levels: '', mark: 'category II 600 V' }))).toEqual([
            'meter: Test `t` measures in zone `box`, which needs category III; instrument `meter` has category II 600 V.',
        ]);
    });

    test('that is no electrical one needs none', () => {
        const hot = 'measure temperature with meter normal < 50 °C hot otherwise';
        expect(weak(world({ mark: '', test: hot }))).toEqual([]);
    });

    test('that is another rule’s matter is left to it', () => {
        expect(weak(world({ mark: '', test: 'measure voltage AC normal > 200 V' }))).toEqual([]);
        expect(weak(world({ mark: '', test: 'measure voltage AC with metre normal > 200 V' }))).toEqual([]);
    });
});

describe('where every voltage is isolated', () => {
    const dead = (needs: string) => `measure resistance with meter needs ${needs} normal < 50 Ω open otherwise`;

    test('no category is asked for', () => {
        for (const needs of ['isolated', 'mains isolated', 'lid open, mains isolated', 'lid open and mains isolated']) {
            expect(weak(world({ mark: '', test: dead(needs) }))).toEqual([]);
        }
    });

    test('in some builds only, it is asked for in the others', () => {
        const [finding, ...others] = weak(world({ mark: '', test: dead('mains isolated for small') }));
        expect(finding).toContain('has none. [large]');
        expect(others).toEqual([]);
    });

    test('one that is not keeps asking for it', () => {
        expect(weak(world({ mark: '', test: dead('lid open') }))).toHaveLength(1);
        expect(weak(world({ mark: '', test: dead('heat isolated') }))).toHaveLength(1);
        expect(weak(world({ mark: '', test: dead('mains isolated or lid shut') }))).toHaveLength(1);
    });
});

describe('a test of a kind', () => {
    const kinds = `kind k { test t { measure voltage AC with meter normal > 200 V absent otherwise } test u { measure voltage AC with meter normal > 200 V absent otherwise } }
equipment e {
  hazard mains { electrical 400 V AC }
  zone box { exposes mains category III }
  zone desk
  part a is k in box
  part b is k in desk
  part c is k in box
}
instrument meter { measures voltage AC 0 V .. 600 V category II 600 V }`;

    test('is measured in the zone of each part, and told once for the part', () => {
        expect(weak(kinds)).toEqual([
            'a: Test `a.t` measures in zone `box`, which needs category III and 400 V AC; instrument `meter` has category II 600 V.',
            'c: Test `c.t` measures in zone `box`, which needs category III and 400 V AC; instrument `meter` has category II 600 V.',
        ]);
    });
});

describe('a gate that permits measuring', () => {
    const permit = (clause: string, zone = 'category III') =>
        weak(world({ zone, more: `gate g { permits measuring mains wear "W" ${clause} }` }));

    test('asks for what the zone needs', () => {
        expect(permit('instrument category III 600 V')).toEqual([]);
        expect(permit('instrument category II 600 V')).toEqual([
            'instrument category II 600 V: Gate `g` permits measuring in zone `box`, which needs category III and 400 V AC; it asks for category II 600 V only.',
        ]);
        expect(permit('instrument category III 300 V', 'category III 600 V')).toEqual([
            'instrument category III 300 V: Gate `g` permits measuring in zone `box`, which needs category III 600 V; it asks for category III 300 V only.',
        ]);
    });

    test('is not concerned with zones that do not expose what it permits', () => {
        const more = 'gate g { permits measuring heat wear "W" instrument category II 300 V }';
        expect(weak(world({ more }))).toEqual([]);
    });

    test('can be mended where the zone says the voltage', () => {
        const text = world({
            zone: 'category III 600 V',
            more: 'gate g { permits measuring mains wear "W" instrument<|> category II 300 V }',
        });
        expect(checkMend(text, 'Ask for category III 600 V')).toContain('instrument category III 600 V }');
    });
});

test('another instrument that is enough is offered', () => {
    const more = `instrument good { measures voltage AC 0 V .. 600 V category III 600 V }
  instrument direct { measures voltage DC 0 V .. 600 V category III 600 V }`;
    const text = world({ mark: 'category II 600 V', more });
    const [finding] = findingsIn('instrument-category', text);
    expect(finding?.mends.map(({ title }) => title)).toEqual(['Measure with `good`']);
    expect(finding?.advice).toBe('Measure with `good`, which is enough for this zone.');
    expect(finding?.related.map(one => one.text)).toEqual(['zone `box` needs it', 'the instrument is declared here']);
});
