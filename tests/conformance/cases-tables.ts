/** Cases: tables and curves. */
import { celsius, flat, lamp, listCases, ohms, reading, type Stop } from './case-parts.js';

const { cases, add } = listCases();

function looked(
    name: string,
    about: string,
    curve: string,
    input: readonly [string, string],
    output: readonly [string, string],
    pairs: readonly (readonly [number, number, boolean])[],
    band = 'law of given ± 1 %',
    units: readonly [string, string] = ['', ''],
): void {
    const text = lamp({
        top: curve,
        equipment: `test given "Given" { checks cell.flat as low measure ${input[0]} takes 1 min normal >= -300 ${input[1]} low otherwise }
  test wanted "Wanted" { checks cell.flat as wrong measure ${output[0]} takes 1 min normal ${band} wrong otherwise }
  test unit "Unit" { checks cell.flat as wrong measure ${output[0]} takes 1 min normal >= 0 ${output[1]} wrong otherwise }`,
        steps: 'step look "Look" { read given  test wanted { normal -> fine  wrong -> bad-cell } }',
    });
    const stops = pairs.flatMap(([from, to, isRight]): Stop[] => [
        [reading(from, units[0]), 'look: test wanted (normal, wrong)'],
        [reading(to, units[1]), isRight ? 'refer fine' : flat],
        [{ back: true }, 'look: test wanted (normal, wrong)'],
        [{ back: true }, 'look: read given'],
    ]);
    add(name, about, text, 'look: read given', stops);
}
// IEC 60751:2008, table 1: 138.51 Ω at 100 °C, 60.26 Ω at -100 °C; seen second-hand.
looked(
    'curve-platinum',
    'A platinum sensor.',
    'curve law "L" { follows platinum 100 Ω }',
    celsius,
    ohms,
    [
        [100, 138.51, true],
        [-100, 60.26, true],
        [100, 137, false],
        [900, 400, false],
    ],
    'law of given ± 0.05 %',
    ['Cel', 'Ohm'],
);
// R = 10 kΩ·exp(3950·(1/323.15 − 1/298.15)) = 3588.2 Ω at 50 °C; recomputed.
looked(
    'curve-ntc',
    'A thermistor by one constant.',
    'curve law "L" { follows ntc 10 kΩ at 25 °C beta 3950 K }',
    celsius,
    ohms,
    [
        [25, 10_000, true],
        [50, 3588.2, true],
        [50, 3700, false],
    ],
    undefined,
    ['Cel', 'Ohm'],
);
// With these coefficients 10 kΩ stand for 25.0 °C; recomputed.
looked(
    'curve-steinhart-hart',
    'A thermistor by three constants.',
    'curve law "L" { follows steinhart-hart 1.129148e-3 2.34125e-4 8.76741e-8 }',
    celsius,
    ohms,
    [
        [25, 10_000, true],
        [25, 10_200, false],
    ],
    undefined,
    ['Cel', 'Ohm'],
);
// Type K: 41.276 mV at 1000 °C, -5.891 mV at -200 °C; NIST ITS-90, seen second-hand.
looked(
    'curve-thermocouple',
    'A thermocouple of type K.',
    'curve law "L" { follows thermocouple K }',
    celsius,
    ['voltage DC', 'mV'],
    [
        [1000, 41.276, true],
        [-200, -5.891, true],
        [1000, 40.8, false],
    ],
    'law of given ± 0.02 %',
    ['Cel', 'mV'],
);
// R = 10 Ω·(235 + 80)/(235 + 25) = 12.115385 Ω; recomputed.
looked(
    'curve-winding',
    'A winding of copper.',
    'curve law "L" { follows copper 10 Ω at 25 °C constant 235 K }',
    celsius,
    ohms,
    [
        [80, 12.115_385, true],
        [80, 12.3, false],
    ],
    undefined,
    ['Cel', 'Ohm'],
);
looked(
    'curve-loop',
    'A loop from 4 mA to 20 mA, by its current.',
    'curve law "L" { follows loop pressure gauge 0 bar .. 10 bar }',
    ['current DC', 'mA'],
    ['pressure gauge', 'bar'],
    [
        [12, 5, true],
        [20, 10, true],
        [12, 5.2, false],
        [3.7, 0, false],
    ],
    undefined,
    ['mA', 'bar'],
);
// √(32 kΩ · 10 kΩ) = 17 888.5 Ω halfway; recomputed.
looked(
    'table-logarithmic',
    'A table that is straight in the logarithm.',
    'table law "L" from temperature to resistance logarithmic { 0 °C = 32 kΩ  25 °C = 10 kΩ }',
    celsius,
    ohms,
    [
        [12.5, 17_888, true],
        [12.5, 21_000, false],
        [30, 8000, false],
    ],
    undefined,
    ['Cel', 'Ohm'],
);
looked(
    'table-linear',
    'A straight table, read forward.',
    'table law "L" from temperature to resistance { 0 °C = 1 kΩ  10 °C = 2 kΩ  20 °C = 4 kΩ }',
    celsius,
    ohms,
    [
        [5, 1500, true],
        [15, 3000, true],
        [15, 2900, false],
    ],
    undefined,
    ['Cel', 'Ohm'],
);
looked(
    'table-backward',
    'The same table, read the other way.',
    'table law "L" from temperature to resistance { 0 °C = 1 kΩ  10 °C = 2 kΩ  20 °C = 4 kΩ }',
    ohms,
    celsius,
    [
        [3000, 15, true],
        [3000, 15.3, false],
    ],
    'law of given ± 0.2 K',
    ['Ohm', 'Cel'],
);

export const tablesCases = cases;
