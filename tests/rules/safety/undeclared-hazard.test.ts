/** Readings that can hurt where no zone says so. */
import { describe, expect, test } from 'vitest';
import { findingsIn, found } from './found.js';

const undeclared = (text: string, settings?: string) => found('undeclared-hazard', text, settings);

/** A test that measures something, in a zone that exposes what is given; without an exposure the test is in no zone. */
function world(measure: string, outcomes: string, { hazard = '', exposes = '', more = '' } = {}): string {
    const zone = exposes === '' ? '' : `zone box { ${exposes === 'nothing' ? '' : `exposes ${exposes}`} }`;
    return `equipment e {
  option size { small large }
  ${hazard}
  ${zone}
  ${more}
  test t ${exposes === '' ? '' : 'in box'} { measure ${measure} ${outcomes} }
}`;
}

const bare = { exposes: 'nothing' };

describe('a voltage', () => {
    const inBox = (measure: string, outcomes: string) => undeclared(world(measure, outcomes, bare)).length;

    test.each([
        // IEC 61010-1, normal condition, dry: 30 V rms, 42.4 V peak, 60 V DC. Seen second-hand.
        ['voltage AC', '30 V', '30.1 V'],
        ['voltage AC rms', '30 V', '30.1 V'],
        ['voltage AC peak', '42.4 V', '42.5 V'],
        ['voltage DC', '60 V', '60.1 V'],
    ])('that is measured as %s may be %s, and no more', (measure, limit, above) => {
        expect(inBox(measure, `normal ${limit}`)).toBe(0);
        expect(inBox(measure, `normal ${above}`)).toBe(1);
    });

    test('may come the other way round', () => {
        expect(inBox('voltage DC', 'normal -230 V .. -210 V')).toBe(1);
        expect(inBox('voltage DC', 'normal < -100 V')).toBe(1);
        expect(inBox('voltage DC', 'normal -60 V .. 60 V')).toBe(0);
        expect(inBox('voltage DC', 'normal > -100 V')).toBe(1);
    });

    test('is compared with the limits of the workspace', () => {
        const text = world('voltage DC', 'normal 55 V ± 2 V', bare);
        expect(undeclared(text)).toEqual([]);
        expect(undeclared(text, '{ "stricter": { "dcVoltage": "50 V" } }')).toEqual([
            '55 V ± 2 V: Test `t` reads 55 V ± 2 V, above 50 V, and zone `box` exposes no electrical hazard.',
        ]);
    });

    test('in no zone is a finding, even where the hazard is declared', () => {
        const hazard = 'hazard mains { electrical 230 V AC } zone other { exposes mains }';
        expect(undeclared(world('voltage AC', 'normal 230 V ± 10 %', { hazard }))).toEqual([
            '230 V ± 10 %: Test `t` reads 230 V ± 10 %, above 30 V, in no zone that exposes an electrical hazard.',
        ]);
    });

    test('in a zone that exposes one in some state is none', () => {
        const hazard = 'hazard mains { electrical 230 V AC } condition lid { shut open }';
        const exposes = 'mains while lid open';
        expect(undeclared(world('voltage AC', 'normal 230 V', { hazard, exposes }))).toEqual([]);
        const supply = 'hazard mains { electrical 230 V AC } supply spur carries mains';
        expect(undeclared(world('voltage AC', 'normal 230 V', { hazard: supply, exposes: 'spur' }))).toEqual([]);
    });

    test('is looked at in each build', () => {
        const outcomes = 'normal 24 V for small normal 230 V for large';
        expect(undeclared(world('voltage AC', outcomes, bare))).toEqual([
            '230 V: Test `t` reads 230 V, above 30 V, and zone `box` exposes no electrical hazard. [large]',
        ]);
        const hazard = 'hazard mains for large { electrical 230 V AC }';
        expect(undeclared(world('voltage AC', outcomes, { hazard, exposes: 'mains' }))).toEqual([]);
        expect(undeclared(world('voltage AC', 'normal 230 V', { hazard, exposes: 'mains' }))).toEqual([
            '230 V: Test `t` reads 230 V, above 30 V, and zone `box` exposes no electrical hazard. [small]',
        ]);
        expect(undeclared(world('voltage AC for small', 'normal 230 V for large', bare))).toEqual([]);
    });
});

describe('what can be read', () => {
    const reads = (outcomes: string) => undeclared(world('voltage DC', outcomes, bare)).map(line => line.split(':')[0]);

    test('is told by bands that begin above the limit, or go beyond it', () => {
        expect(reads('normal 12 V high > 100 V')).toEqual(['> 100 V']);
        expect(reads('normal 12 V high 14 V .. 80 V')).toEqual(['14 V .. 80 V']);
        expect(reads('normal 12 V high 14 V or 90 V')).toEqual(['90 V']);
        expect(reads('normal < 100 V high otherwise')).toEqual(['< 100 V']);
    });

    test('is not told by what is left, or what a fault may leave of it', () => {
        expect(reads('normal 24 V wrong otherwise')).toEqual([]);
        expect(reads('normal >= 8 V low otherwise')).toEqual([]);
        expect(reads('normal 10 V .. 20 V absent < 100 V')).toEqual([]);
    });

    test('is looked for in what a healthy unit shows first', () => {
        expect(reads('high > 500 V normal 90 V')).toEqual(['90 V']);
    });

    test('of anything but a voltage, a temperature or a pressure is no matter', () => {
        expect(undeclared(world('resistance', 'normal 500 Ω', bare))).toEqual([]);
        expect(undeclared(world('temperature difference', 'normal 90 K', bare))).toEqual([]);
        const calculated = `equipment e { zone box test a in box { observe normal yes }
  test t in box { calculate voltage AC from a normal 230 V } }`;
        expect(undeclared(calculated)).toEqual([]);
    });
});

describe('a temperature', () => {
    test('above that of a short touch of bare metal is a finding', () => {
        // ISO 13732-1, bare smooth metal, contact of 1 s: 65 °C to 70 °C, from memory.
        expect(undeclared(world('temperature', 'normal 20 °C .. 65 °C', bare))).toEqual([]);
        expect(undeclared(world('temperature', 'normal 20 °C .. 66 °C', bare))).toEqual([
            '20 °C .. 66 °C: Test `t` reads 20 °C .. 66 °C, above 65 °C, and zone `box` exposes no thermal hazard.',
        ]);
        expect(undeclared(world('temperature', 'normal 152 °F', bare))).toHaveLength(1);
    });
});

describe('a pressure', () => {
    test('above that from which equipment counts as under pressure is a finding', () => {
        // Directive 2014/68/EU, article 1(1): 0.5 bar above the air, from memory.
        expect(undeclared(world('pressure gauge', 'normal 0.4 bar .. 0.5 bar', bare))).toEqual([]);
        expect(undeclared(world('pressure gauge', 'normal 0.4 bar .. 0.6 bar', bare))).toHaveLength(1);
        expect(undeclared(world('pressure absolute', 'normal 1.5 bar', bare))).toEqual([]);
        expect(undeclared(world('pressure absolute', 'normal 1.6 bar', bare))).toHaveLength(1);
        expect(undeclared(world('vacuum gauge', 'normal 0.9 bar', bare))).toEqual([]);
    });

    test('may be read outside where the equipment has such a hazard', () => {
        const hazard = 'hazard air for small { pressure 6 bar gauge } zone tank { exposes air }';
        const read = (more: object) => undeclared(world('pressure gauge for small', 'normal 5 bar', more));
        expect(read({})).toEqual([
            '5 bar: Test `t` reads 5 bar, above 0.5 bar, and the equipment has no pressure hazard. [small]',
        ]);
        expect(read({ hazard })).toEqual([]);
        // In a zone, the zone must say it.
        expect(read({ hazard, ...bare })).toHaveLength(1);
        expect(read({ hazard, exposes: 'air' })).toEqual([]);
        expect(read({ hazard: 'hazard fuel { gas 20 mbar }', exposes: 'fuel' })).toEqual([]);
        expect(read({ hazard: 'hazard oil { hydraulic 210 bar gauge }', exposes: 'oil' })).toEqual([]);
    });

    test('in a build where the hazard is not there is a finding', () => {
        const hazard = 'hazard air for small { pressure 6 bar gauge } zone tank { exposes air }';
        expect(undeclared(world('pressure gauge', 'normal 5 bar', { hazard }))).toEqual([
            '5 bar: Test `t` reads 5 bar, above 0.5 bar, and the equipment has no pressure hazard. [large]',
        ]);
    });
});

test('a test of a kind is told at the part whose zone says nothing, once for the part', () => {
    const text = `kind k {
  test t { measure voltage AC normal 230 V }
  test u { measure voltage AC normal 230 V }
}
equipment e {
  hazard mains { electrical 230 V AC }
  zone box { exposes mains }
  zone desk
  part a is k in desk
  part b is k in box
}`;
    expect(undeclared(text)).toEqual([
        'a: Test `a.t` reads 230 V, above 30 V, and zone `desk` exposes no electrical hazard.',
    ]);
    expect(findingsIn('undeclared-hazard', text)[0]?.related.map(one => one.text)).toEqual(['`normal` is said here']);
});

test('a zone or a hazard with an unknown name is not told a second time', () => {
    expect(undeclared('equipment e { test t in bocks { measure voltage AC normal 230 V } }')).toEqual([]);
    expect(
        undeclared('equipment e { zone box { exposes mians } test t in box { measure voltage AC normal 230 V } }'),
    ).toEqual([]);
});
