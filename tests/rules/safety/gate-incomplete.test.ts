/** What a gate must have for each hazard that it controls, in each build, and what a permit must have. */
import { describe, expect, test } from 'vitest';
import { checkMend } from '../../support/check.js';
import { found } from './found.js';

const lacks = (text: string, settings?: string) => found('gate-incomplete', text, settings);

/** A gate with some of its usual elements replaced; an empty text leaves one out. */
function world(hazard: string, changes: Readonly<Record<string, string>> = {}, more = ''): string {
    const elements = {
        prepare: 'prepare "P"',
        'shut-down': 'shut-down "S"',
        isolate: 'isolate "I"',
        lock: 'lock "L"',
        release: 'release "R" 5 s',
        prove: 'prove h "P" with tester proved before and after',
        restore: 'restore "R"',
        ...changes,
    };
    return `equipment e {
  option size { small large }
  instrument tester { measures voltage AC 0 V .. 600 V category III 600 V }
  instrument dc-tester { measures voltage DC 0 V .. 600 V category III 600 V }
  instrument ruler { measures length 0 mm .. 300 mm }
  hazard h { ${hazard} }
  ${more}
  gate g { controls h ${Object.values(elements).join(' ')} }
}`;
}

test('a gate that has everything is right', () => {
    for (const hazard of [
        'electrical 230 V AC',
        'mechanical runs down in 5 s',
        'gravity 20 kg',
        'gas 20 mbar',
        'chemical',
    ]) {
        expect(lacks(world(hazard))).toEqual([]);
    }
});

describe('an element that is missing', () => {
    test.each([
        ['electrical 230 V AC', 'prepare', 'Gate `g` has no `prepare` for `h`: nobody is told before the energy goes.'],
        ['electrical 230 V AC', 'isolate', 'Gate `g` has no `isolate` for `h`: the energy is still there.'],
        ['electrical 230 V AC', 'lock', 'Gate `g` has no `lock` for `h`: somebody could switch it on again.'],
        ['electrical 230 V AC', 'prove', 'Gate `g` has no `prove` for `h`: nobody has seen that it is safe.'],
        ['electrical 230 V AC', 'restore', 'Gate `g` has no `restore`: nobody knows how it is opened again.'],
        [
            'mechanical',
            'shut-down',
            'Gate `g` has no `shut-down`, although `h` can move: it must stop before it is cut off.',
        ],
        [
            'mechanical runs down in 5 s',
            'release',
            'Gate `g` has no `release` for `h`: it stays dangerous after the energy is cut off.',
        ],
        [
            'electrical 325 V DC stored 1 µF through 1 kΩ',
            'release',
            'Gate `g` has no `release` for `h`: it stays dangerous after the energy is cut off.',
        ],
    ])('for a hazard that is %s: %s', (hazard, element, message) => {
        const proof = hazard.includes('DC') ? { prove: 'prove h "P" with dc-tester proved before and after' } : {};
        expect(lacks(world(hazard, { ...proof, [element]: '' }))).toEqual([`g: ${message}`]);
    });

    test.each([
        ['electrical 230 V AC', 'shut-down'],
        ['electrical 230 V AC', 'release'],
        ['mechanical', 'release'],
        ['chemical', 'shut-down'],
        ['gas 20 mbar', 'release'],
    ])('is not needed for a hazard that is %s: %s', (hazard, element) => {
        expect(lacks(world(hazard, { [element]: '' }))).toEqual([]);
    });

    test('is told for the build that lacks it', () => {
        expect(lacks(world('electrical 230 V AC', { lock: 'lock "L" for small' }))).toEqual([
            'g: Gate `g` has no `lock` for `h`: somebody could switch it on again. [large]',
        ]);
        expect(lacks(world('electrical 230 V AC', { lock: 'lock "L" for small lock "L" for large' }))).toEqual([]);
    });

    test('is told once for all hazards', () => {
        const text = world('electrical 230 V AC', { lock: '' }).replace('controls h', 'controls h, i for small');
        expect(lacks(text.replace('hazard h', 'hazard i { electrical 400 V AC } hazard h'))).toEqual([
            'g: Gate `g` has no `lock` for `h` and `i`: somebody could switch it on again.',
            'g: Gate `g` has no `prove` for `i`: nobody has seen that it is safe. [small]',
        ]);
    });

    test('can be added where it belongs, for the writer to fill in', () => {
        const text = `equipment e {
  hazard h { electrical 230 V AC }
  instrument tester { measures voltage AC 0 V .. 600 V }
  gate g<|> {
    controls h
    prepare "P"
    isolate h "I"
    prove h "P" with tester proved before and after
    restore "R"
  }
}`;
        expect(checkMend(text, 'Add `lock h`')).toContain('isolate h "I"\n    lock h ""\n    prove h');
    });
});

describe('what is cut off', () => {
    test('is each voltage, each gas and each supply by itself', () => {
        const two = (other: string, supply = '') => `equipment e {
  hazard mains { electrical 230 V AC }
  hazard other { ${other} }
  instrument tester { measures voltage AC 0 V .. 600 V }
  ${supply}
  gate g {
    controls mains, other
    prepare "P" shut-down "S" isolate mains "I" lock mains "L" release other "R"
    prove mains "P" with tester proved before and after prove other "P" with tester proved before and after
    restore "R"
  }
}`;
        const isolate = 'g: Gate `g` has no `isolate` for `other`: the energy is still there.';
        const lock = 'g: Gate `g` has no `lock` for `other`: somebody could switch it on again.';
        expect(lacks(two('electrical 400 V AC'))).toEqual([isolate, lock]);
        expect(lacks(two('gas 20 mbar'))).toEqual([isolate, lock]);
        expect(lacks(two('pressure 6 bar gauge', 'supply air carries other'))).toEqual([isolate, lock]);
        // What the mains drive, heat or charge goes with the mains.
        expect(lacks(two('mechanical runs down in 5 s'))).toEqual([]);
        expect(lacks(two('thermal 90 °C cools in 5 min'))).toEqual([]);
        expect(lacks(two('pressure 6 bar gauge'))).toEqual([]);
        expect(lacks(two('electrical 325 V AC stored 1 µF'))).toEqual([]);
    });

    test('may be held, shielded or let go where it has no source', () => {
        for (const held of ['block h "B"', 'shield h "S"', 'release h "R"']) {
            expect(lacks(world('gravity 20 kg', { isolate: '', lock: '', release: held }))).toEqual([]);
            expect(lacks(world('chemical', { isolate: '', lock: '', release: held }))).toEqual([]);
        }
        expect(lacks(world('chemical', { isolate: '', lock: '', release: '' }))).toHaveLength(2);
        // What is driven or heated is not.
        expect(lacks(world('thermal 90 °C', { isolate: '', lock: '', release: 'shield h "S"' }))).toHaveLength(2);
    });

    test('that can fall or is under pressure may be blocked or shielded in place of let go', () => {
        for (const hazard of ['gravity 20 kg', 'pressure 6 bar gauge']) {
            expect(lacks(world(hazard, { release: '' }))).toHaveLength(1);
            expect(lacks(world(hazard, { release: 'block "B"' }))).toEqual([]);
            expect(lacks(world(hazard, { release: 'shield h "S"' }))).toEqual([]);
        }
    });
});

describe('a proof', () => {
    test('without a name serves where the gate controls one hazard only', () => {
        expect(lacks(world('mechanical', { prove: 'prove "P"' }))).toEqual([]);
        const two = world('mechanical', { prove: 'prove "P"' }).replace('controls h', 'controls h, h2');
        expect(lacks(two.replace('hazard h ', 'hazard h2 { mechanical } hazard h '))).toEqual([
            'g: Gate `g` has no `prove` for `h` and `h2`: nobody has seen that it is safe.',
        ]);
    });

    test.each([
        ['prove h "P"', 'This proof that `h` is gone does not say with which instrument.'],
        [
            'prove h "P" with tester',
            'This proof that `h` is gone does not prove the instrument itself, before and after.',
        ],
        [
            'prove h "P" with ruler proved before and after',
            'This proof that `h` is gone uses `ruler`, which cannot show 230 V AC.',
        ],
        [
            'prove h "P" with dc-tester proved before and after',
            'This proof that `h` is gone uses `dc-tester`, which cannot show 230 V AC.',
        ],
    ])('of a voltage that is %s is no proof', (prove, message) => {
        expect(lacks(world('electrical 230 V AC', { prove }))).toEqual([`prove: ${message}`]);
    });

    test('of a voltage below the limits needs no tester', () => {
        expect(lacks(world('electrical 24 V DC', { prove: 'prove h "P"' }))).toEqual([]);
        expect(
            lacks(world('electrical 24 V DC', { prove: 'prove h "P"' }), '{ "stricter": { "dcVoltage": "20 V" } }'),
        ).toEqual(['prove: This proof that `h` is gone does not say with which instrument.']);
    });

    test('of a voltage is looked at in the builds where the voltage is high', () => {
        const levels = 'electrical 24 V DC for small 230 V AC for large';
        expect(lacks(world(levels, { prove: 'prove h "P"' }))).toEqual([
            'prove: This proof that `h` is gone does not say with which instrument. [large]',
        ]);
        expect(
            lacks(
                world(levels, {
                    prove: 'prove h "P" for small prove h "P" with tester proved before and after for large',
                }),
            ),
        ).toEqual([]);
    });

    test('beside a good one may be what it likes', () => {
        const prove = 'prove h "See that the lamp is out." prove h "P" with tester proved before and after';
        expect(lacks(world('electrical 230 V AC', { prove }))).toEqual([]);
    });

    test('with a tester that is not proved can be mended', () => {
        const text = world('electrical 230 V AC', { prove: 'prove<|> h "P" with tester' });
        expect(checkMend(text, 'Add `proved before and after`')).toContain('with tester proved before and after');
    });
});

describe('a gate that only permits', () => {
    const permit = (clauses: string, level = '230 V AC', more = '') => `equipment e {
  option size { small large }
  hazard h { electrical ${level} }
  ${more}
  gate g { permits measuring h ${clauses} }
}`;

    test('needs wear or prepare, and a category at a voltage above the limits', () => {
        expect(lacks(permit(''))).toEqual([
            'g: Gate `g` permits measuring at `h`, and does not say which `instrument category` that needs.',
            'g: Gate `g` permits work at `h`, and has neither `wear` nor `prepare`.',
        ]);
        expect(lacks(permit('wear "W" instrument category III 600 V'))).toEqual([]);
        expect(lacks(permit('prepare "P" instrument category III 600 V'))).toEqual([]);
        expect(lacks(permit('wear "W"', '24 V DC'))).toEqual([]);
    });

    test('needs them in each build', () => {
        expect(lacks(permit('wear "W" for small instrument category III 600 V for large'))).toEqual([
            'g: Gate `g` permits measuring at `h`, and does not say which `instrument category` that needs. [small]',
            'g: Gate `g` permits work at `h`, and has neither `wear` nor `prepare`. [large]',
        ]);
    });

    test('needs no category for another activity', () => {
        expect(lacks(permit('wear "W"').replace('measuring', 'looking'))).toEqual([]);
    });

    test('is asked for no proof and no restore', () => {
        expect(lacks(permit('wear "W" instrument category III 600 V'))).toEqual([]);
    });
});

test('an element or a hazard with an unknown name is not told a second time', () => {
    expect(lacks(world('mechanical', { prove: 'prove hh "P"' }))).toEqual([]);
    expect(lacks(world('mechanical').replace('controls h', 'controls hh'))).toEqual([]);
});
