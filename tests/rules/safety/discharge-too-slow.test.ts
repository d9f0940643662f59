/** How long stored charges last, against what is said of them. The figures are worked out in tests/core/safety. */
import { describe, expect, test } from 'vitest';
import { checkMend } from '../../support/check.js';
import { findingsIn, found } from './found.js';

const slow = (text: string, settings?: string) => found('discharge-too-slow', text, settings);
const charge = (clauses: string, more = '') => `equipment e {
  option size { small large }
  hazard c { ${clauses} }
  ${more}
}`;
const flash = 'electrical 325 V DC stored 470 µF through 10 kΩ';

describe('a time that is said', () => {
    test('is long enough or not', () => {
        // 7.9406 s: 10 kΩ × 470 µF × ln(325 / 60), recomputed.
        expect(slow(charge(`${flash} discharges in 7.95 s`))).toEqual([]);
        expect(slow(charge(`${flash} discharges in 7.94 s`))).toEqual([
            'discharges in 7.94 s: The charge of `c` (24.8 J) needs 7.95 s to fall from 325 V to 60 V, longer than 7.94 s.',
        ]);
        // The 5 s of IEC 60204-1, seen second-hand.
        expect(slow(charge(`${flash} discharges in 5 s`))).toHaveLength(1);
    });

    test('is compared with the limits of the workspace', () => {
        const text = charge(`${flash} discharges in 10 s`);
        expect(slow(text)).toEqual([]);
        // 10 kΩ × 470 µF × ln(325 / 30) = 11.199 s, recomputed.
        expect(slow(text, '{ "stricter": { "dcVoltage": "30 V" } }')).toEqual([
            'discharges in 10 s: The charge of `c` (24.8 J) needs 11.2 s to fall from 325 V to 30 V, longer than 10 s.',
        ]);
        expect(slow(charge(`${flash} discharges in 5 s`), '{ "safetyLimits": "iec-61140" }')).toEqual([]);
    });

    test('tells the largest resistor that would do', () => {
        // 29 595 Ω for 100 µF from 325 V to 60 V in 5 s, recomputed; three digits, rounded down.
        const text = charge('electrical 325 V DC stored 100 µF through 47 kΩ discharges in 5 s');
        const [finding] = findingsIn('discharge-too-slow', text);
        expect(finding?.advice).toBe(
            'Let it be 7.95 s or longer, or fit at most 29.5 kΩ. What the maker says comes first.',
        );
    });

    test('is compared in each build', () => {
        const levels = 'electrical 60 V DC for small 325 V DC for large stored 470 µF through 10 kΩ';
        expect(slow(charge(`${levels} discharges in 5 s`))).toEqual([
            'discharges in 5 s: The charge of `c` (24.8 J) needs 7.95 s to fall from 325 V to 60 V, longer than 5 s. [large]',
        ]);
        expect(slow(charge(`${levels} discharges in 1 s for small discharges in 9 s for large`))).toEqual([]);
    });

    test('can be mended', () => {
        const text = charge(`${flash} <|>discharges in 5 s`);
        expect(checkMend(text, 'Write `7.95 s`')).toBe(charge(`${flash} discharges in 7.95 s`));
    });
});

describe('a charge', () => {
    test('of an alternating voltage is that of its peak', () => {
        // 230 V × √2 = 325.27 V; 22 µF × 1 MΩ × ln(325.27 / 60) = 37.189 s, recomputed.
        expect(slow(charge('electrical 230 V AC stored 22 µF through 1 MΩ discharges in 37.1 s'))).toEqual([
            'discharges in 37.1 s: The charge of `c` (1.16 J) needs 37.2 s to fall from 325 V to 60 V, longer than 37.1 s.',
        ]);
        expect(slow(charge('electrical 325.27 V AC peak stored 22 µF through 1 MΩ discharges in 37.2 s'))).toEqual([]);
    });

    test('of so large a capacitor that its energy is too high must fall further', () => {
        // 1 F at 48 V: 1152 J; 100 J at √200 V = 14.142 V; 1 F × 10 Ω × ln(48 / 14.142) = 12.22 s, recomputed.
        expect(slow(charge('electrical 48 V DC stored 1 F through 10 Ω discharges in 12 s'))).toEqual([
            'discharges in 12 s: The charge of `c` (1150 J) needs 12.3 s to fall from 48 V to 14.1 V, longer than 12 s.',
        ]);
    });

    test('of a low voltage, without a resistor or without a voltage says nothing', () => {
        expect(slow(charge('electrical 48 V DC stored 470 µF through 1 MΩ'))).toEqual([]);
        expect(slow(charge('electrical 325 V DC stored 470 µF'))).toEqual([]);
        expect(slow(charge('electrical stored 470 µF through 10 kΩ'))).toEqual([]);
    });

    test('that lasts ten minutes or more is told in minutes', () => {
        // 1500 µF × 1 MΩ × ln(325 / 60) = 2534.2 s = 42.24 min, recomputed.
        const [line] = slow(charge('electrical 325 V DC stored 1500 µF through 1 MΩ discharges in 5 min'));
        expect(line).toContain('needs 42.3 min to fall');
    });
});

describe('where no time is said', () => {
    const unsaid = 'The charge of `c` (24.8 J) needs 7.95 s to fall from 325 V to 60 V, and nobody waits for it.';
    const waited = 'The charge of `c` (24.8 J) needs 7.95 s to fall from 325 V to 60 V, and somebody waits';

    test('nobody waits', () => {
        expect(slow(charge(flash))).toEqual([`stored 470 µF through 10 kΩ: ${unsaid}`]);
        expect(checkMend(charge(`${flash}<|>`), 'Add `discharges in 7.95 s`')).toContain('discharges in 7.95 s }');
    });

    test('a release of a gate that controls it may be long enough, or not', () => {
        const gate = (release: string, controls = 'c') => charge(flash, `gate g { controls ${controls} ${release} }`);
        expect(slow(gate('release c "Wait." 8 s'))).toEqual([]);
        expect(slow(gate('release "Wait." 8 s'))).toEqual([]);
        expect(slow(gate('release c "Wait." 5 s'))).toEqual([`5 s: ${waited} 5 s only.`]);
        expect(slow(gate('release c "Short it with the stick."'))).toEqual([]);
        expect(slow(gate('release c "Wait." 8 s for small'))).toEqual([
            `stored 470 µF through 10 kΩ: ${unsaid} [large]`,
        ]);
        const other = charge(flash, 'hazard d { mechanical } gate g { controls d release "Wait." 8 s }');
        expect(slow(other)).toEqual([`stored 470 µF through 10 kΩ: ${unsaid}`]);
    });

    test('a wait until it is safe may be long enough, or not', () => {
        const tree = (wait: string) => `${charge(flash)}\ntree t of e { step s { wait ${wait} until c safe } }`;
        expect(slow(tree('8 s'))).toEqual([]);
        expect(slow(tree('7 s'))).toEqual([`7 s: ${waited} 7 s only.`]);
    });

    test('every one who waits must wait long enough', () => {
        const text = `${charge(flash, 'gate g { controls c release c "Wait." 5 s }')}
tree t of e { step s { wait 20 s until c safe } }`;
        expect(slow(text)).toEqual([`5 s: ${waited} 5 s only.`]);
    });
});
