// An invented machine with many measured tests, for measuring what the rules about readings cost. All data are invented.

import type { GeneratedFile } from './generate-workspace.js';

const sorts = [
    (index: number) => `  test t${index} "Voltage at point ${index}" {
    measure voltage AC rms with multimeter
    takes 2 min
    normal 230 V ± 10 % for o0c0
    normal 115 V ± 10 % for o0c1
    absent < 5 V shows stopped
    low otherwise shows weakened
    high otherwise
  }`,
    (index: number) => `  test t${index} "Resistance of winding ${index}" {
    measure resistance with multimeter
    takes 3 min
    normal 15 Ω ± 15 %
    open > 2 kΩ shows stopped
    low otherwise
    high otherwise
  }`,
    (index: number) => `  test t${index} "Pressure at gauge ${index}" {
    measure pressure gauge with gauge
    takes 1 min
    normal 40 kPa .. 48 kPa for o1c0
    normal 30 kPa .. < 40 kPa for o1c1
    low otherwise shows weakened, stopped
    high otherwise
  }`,
    (index: number) => `  test t${index} "Temperature at port ${index}" {
    measure temperature with thermometer
    takes 1 min
    normal 40 °C .. 60 °C
    low < 40 °C shows weakened, stopped
    high > 60 °C
  }`,
    (index: number) => `  test t${index} "Resistance of sensor ${index}" {
    measure resistance with multimeter
    takes 2 min
    normal probe of t${index - 1} ± 3 %
    wrong otherwise shows stopped, weakened
  }`,
    (index: number) => `  test t${index} "Warmer by" {
    calculate temperature difference from t${index - 2} - probe(t${index - 1})
    normal -2 K .. 2 K
    apart otherwise shows stopped, weakened
  }`,
];

/** Files of equipment with so many measured or calculated tests in all. */
export function generateMeasurements(tests: number, files: number): GeneratedFile[] {
    const each = Math.ceil(tests / files);
    return [
        { path: 'instruments.fault', text: instruments },
        ...Array.from({ length: files }, (_, file) => ({
            path: `machine-${file}.fault`,
            text: machine(`m${file}`, each),
        })),
    ];
}

const instruments = `// Invented instruments.
instrument multimeter "Multimeter" {
  measures voltage AC rms 0 V .. 750 V resolution 0.1 V accuracy 0.5 % + 2 digits
  measures resistance 0 Ω .. 40 kΩ resolution 0.01 Ω accuracy 0.3 % + 2 digits
  category III 600 V
}
instrument gauge "Gauge" { measures pressure gauge 0 kPa .. 100 kPa resolution 0.1 kPa accuracy 0.5 % }
instrument thermometer "Thermometer" { measures temperature -40 °C .. 120 °C resolution 0.1 °C accuracy 0.3 °C }
curve probe "Sensor" { follows platinum 1000 Ω  from -40 °C to 120 °C }
`;

function machine(name: string, tests: number): string {
    const numbers = Array.from({ length: tests }, (_, index) => index);
    const written = numbers.map(index => (sorts[index % sorts.length] ?? sorts[0])?.(index) ?? '');
    const asked = numbers.map(index => `[t${index}]`).join(' -> ');
    return `uses "instruments.fault"
equipment ${name} "Invented machine" {
  option o0 "Supply" { o0c0 "230 V"  o0c1 "115 V" }
  option o1 "Size" { o1c0 "Large"  o1c1 "Small" }
  part p "Part" { replace "Fit a new part." takes 5 min  fault f "Worn" rate 3 per 1e6 h }
  flow power: p -> ${asked}
${written.join('\n')}
}
`;
}
