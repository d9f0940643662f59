/**
 * Mistakes with units, with how values are meant, with curves and with readings that are not taken, each as one edit of an example, with
 * the one finding that must name it. They are data for tests only. The examples, and so every name in here, are invented.
 */

/** One mistake, as an edit and as the finding that it must bring. */
export interface SeededMismatch {
    /** The folder of the example under `examples`. */
    readonly example: 'cold-room' | 'dust-extractor' | 'ev-charger';
    /** The file of the example, relative to its folder. */
    readonly file: string;
    /** Occurs exactly once in the file. */
    readonly oldText: string;
    readonly newText: string;
    /** What has gone wrong in the writer's day, in one sentence. */
    readonly slip: string;
    /** The code of the finding that must name the mistake; one other may come with it. */
    readonly code: string;
    /** A text on the lines of the finding's range, or in its message. */
    readonly at: string;
}

const room = { example: 'cold-room', file: 'cold-room.fault' } as const;
const roomParts = { example: 'cold-room', file: 'parts.fault' } as const;
const roomTree = { example: 'cold-room', file: 'too-warm.fault' } as const;
const charger = { example: 'ev-charger', file: 'ev-charger.fault' } as const;
const chargerParts = { example: 'ev-charger', file: 'parts.fault' } as const;

export const seededMismatches: readonly SeededMismatch[] = [
    // Units.
    {
        ...room,
        oldText: 'normal 10 min .. 40 min',
        newText: 'normal 10 m .. 40 m',
        slip: 'Minutes are written as m, which is meters.',
        code: 'unit-mismatch',
        at: '`time` cannot be in `m`',
    },
    {
        ...room,
        oldText: 'normal 2.5 °C .. 5.5 °C for chill',
        newText: 'normal 2.5 kPa .. 5.5 kPa for chill',
        slip: 'A band of pressures is copied into a test of temperatures.',
        code: 'unit-mismatch',
        at: '`temperature` cannot be in `kPa`',
    },
    {
        ...roomParts,
        oldText: 'measures time 0 s .. 600 s resolution 1 s',
        newText: 'measures time 0 s .. 600 s resolution 1 S',
        slip: 'A capital letter makes siemens of seconds.',
        code: 'unit-mismatch',
        at: '`time` cannot be in `S`',
    },
    {
        ...roomParts,
        oldText: '  20 °C  = 470.4 kPa',
        newText: '  20 °C  = 470.4 °C',
        slip: 'A row of a table has the unit of the other side.',
        code: 'unit-mismatch',
        at: '`pressure` cannot be in `°C`',
    },
    {
        ...room,
        oldText: 'calculate voltage AC from smallest(line-1-2, line-2-3, line-3-1)',
        newText: 'calculate voltage AC from smallest(line-1-2, line-2-3, suction-temperature)',
        slip: 'One name in a list is of another quantity.',
        code: 'unit-mismatch',
        at: 'cannot be compared',
    },
    {
        ...room,
        oldText: 'calculate ratio from unbalance(line-1-2, line-2-3, line-3-1)',
        newText: 'calculate ratio from deviation(line-1-2, line-2-3, line-3-1)',
        slip: 'The distance from the mean is taken for its share.',
        code: 'unit-mismatch',
        at: 'This works out an AC voltage, not `ratio`',
    },
    {
        ...room,
        oldText: 'suction-temperature - saturation(suction-pressure)',
        newText: 'suction-temperature - suction-pressure',
        slip: 'The table is left out, and a pressure is taken from a temperature.',
        code: 'unit-mismatch',
        at: 'a temperature and a gauge pressure cannot be subtracted',
    },
    {
        ...room,
        oldText: 'normal room-probe-curve of bath-temperature ± 0.6 %',
        newText: 'normal suction-loop of bath-temperature ± 0.6 %',
        slip: 'The wrong curve is named in a band.',
        code: 'unit-mismatch',
        at: '`suction-loop` turns',
    },
    {
        ...room,
        oldText: 'normal defrost-probe-curve of bath-temperature ± 6 %',
        newText: 'normal defrost-probe-curve of bath-temperature ± 6 K',
        slip: 'The tolerance of a resistance is written in kelvins.',
        code: 'unit-mismatch',
        at: '`resistance` cannot be in `K`',
    },
    {
        ...charger,
        oldText: 'calculate current AC from pilot-current(pilot-duty)',
        newText: 'calculate power from pilot-current(pilot-duty)',
        slip: 'The quantity that comes out is named wrongly.',
        code: 'unit-mismatch',
        at: 'This works out an AC current, not `power`',
    },
    {
        ...charger,
        oldText: 'calculate current AC from pilot-current(pilot-duty)',
        newText: 'calculate current AC from pilot-duty',
        slip: 'A share is taken for the current, because the table is left out.',
        code: 'unit-mismatch',
        at: 'This works out a plain number, not `current`',
    },
    {
        ...charger,
        oldText: 'measure ratio with pilot-tester',
        newText: 'measure temperature with pilot-tester',
        slip: 'A test asks for what its instrument does not measure.',
        code: 'unit-mismatch',
        at: '`pilot-tester` measures',
    },

    // AC and DC.
    {
        ...room,
        oldText: 'measure current AC with clamp-meter',
        newText: 'measure current DC with clamp-meter',
        slip: 'A clamp that measures AC is asked for DC.',
        code: 'ac-dc-mismatch',
        at: '`clamp-meter` measures `current AC`, not `current DC`',
    },
    {
        ...room,
        oldText: 'calculate voltage AC from smallest(line-1-2, line-2-3, line-3-1)',
        newText: 'calculate voltage DC from smallest(line-1-2, line-2-3, line-3-1)',
        slip: 'What comes out of AC readings is called DC.',
        code: 'ac-dc-mismatch',
        at: 'This works out an AC voltage, not `voltage DC`',
    },
    {
        ...room,
        oldText: 'calculate voltage AC from smallest(line-1-2, line-2-3, line-3-1)',
        newText: 'calculate voltage from smallest(line-1-2, line-2-3, line-3-1)',
        slip: 'It is not said whether a voltage is AC or DC.',
        code: 'ac-dc-mismatch',
        at: '`voltage` does not say whether it is',
    },
    {
        ...chargerParts,
        oldText: 'from ratio to current AC linear',
        newText: 'from ratio to current DC linear',
        slip: 'A table is declared for DC, and the test is of AC.',
        code: 'ac-dc-mismatch',
        at: 'This works out a DC current, not `current AC`',
    },
    {
        ...charger,
        oldText: 'measure ratio with pilot-tester',
        newText: 'measure ratio AC with pilot-tester',
        slip: 'A share is said to be AC.',
        code: 'ac-dc-mismatch',
        at: '`ratio` is not measured as `AC`',
    },

    // Gauge and absolute pressures.
    {
        ...roomParts,
        oldText: 'follows loop pressure gauge -1 bar .. 7 bar',
        newText: 'follows loop pressure absolute 0 bar .. 8 bar',
        slip: 'A loop is declared for absolute pressures, and the gauge reads against the air.',
        code: 'gauge-or-absolute',
        at: '`suction-loop` turns an absolute pressure',
    },
    {
        ...roomParts,
        oldText: 'measures pressure gauge -0.5 bar .. 7 bar',
        newText: 'measures pressure -0.5 bar .. 7 bar',
        slip: 'It is not said how an instrument counts its pressure.',
        code: 'gauge-or-absolute',
        at: '`pressure` does not say whether it is',
    },
    {
        ...roomParts,
        oldText: 'measures pressure gauge 0 bar .. 24 bar',
        newText: 'measures pressure absolute 0 bar .. 24 bar',
        slip: 'The gauge is declared as one for absolute pressures, and two tests read it as a gauge.',
        code: 'gauge-or-absolute',
        at: '`high-side-gauge` measures `pressure absolute`, not `pressure gauge`',
    },

    // Temperatures and their differences.
    {
        ...room,
        oldText: 'calculate temperature difference from liquid-temperature - after-drier',
        newText: 'calculate temperature from liquid-temperature - after-drier',
        slip: 'A difference of temperatures is called a temperature.',
        code: 'difference-or-value',
        at: 'This works out a temperature difference, not `temperature`',
    },
    {
        ...room,
        oldText: 'calculate temperature difference from after-drier - after-liquid-valve',
        newText: 'calculate temperature difference from after-drier + after-liquid-valve',
        slip: 'A plus sign is typed for a minus sign between two temperatures.',
        code: 'difference-or-value',
        at: 'a temperature and a temperature cannot be added',
    },
    {
        ...room,
        oldText: 'suction-temperature - saturation(suction-pressure)',
        newText: 'suction-temperature / saturation(suction-pressure)',
        slip: 'A temperature is divided by another.',
        code: 'difference-or-value',
        at: 'cannot be divided',
    },
    {
        ...room,
        oldText: 'calculate temperature difference from displayed-temperature - room-temperature',
        newText: 'calculate temperature difference from mean(displayed-temperature, room-temperature)',
        slip: 'The mean of two temperatures is called a difference.',
        code: 'difference-or-value',
        at: 'This works out a temperature, not `temperature difference`',
    },
    {
        ...room,
        oldText: 'saturation(standing-pressure) - outdoor-temperature',
        newText: 'saturation(standing-pressure) - saturation(outdoor-temperature - 5 K) - outdoor-temperature',
        slip: 'A table is read from the wrong side, which gives a pressure among temperatures.',
        code: 'unit-mismatch',
        at: 'a temperature and a gauge pressure cannot be subtracted',
    },

    // Curves, tables and quantities.
    {
        ...roomParts,
        oldText: 'follows platinum 1000 Ω',
        newText: 'follows platinium 1000 Ω',
        slip: 'The word for a law has a letter too many.',
        code: 'curve-unclear',
        at: 'There is no law `platinium`',
    },
    {
        ...roomParts,
        oldText: 'follows ntc 10 kΩ at 25 °C beta 3435 K',
        newText: 'follows ntc 10 kΩ at 25 °C',
        slip: 'The constant of a thermistor is left out.',
        code: 'curve-unclear',
        at: '`ntc` needs',
    },
    {
        ...roomParts,
        oldText: '  from -50 °C to 100 °C',
        newText: '  from -50 °C to 1000 °C',
        slip: 'A zero too many leads a curve beyond its law.',
        code: 'curve-unclear',
        at: '`1000 °C` lies beyond the law',
    },
    {
        ...roomParts,
        oldText: '  30 °C  = 668.9 kPa',
        newText: '  3 °C  = 668.9 kPa',
        slip: 'A digit is lost in a row of a table, which is then out of order.',
        code: 'curve-unclear',
        at: '`3 °C` is out of order',
    },
    {
        ...roomParts,
        oldText: 'measures concentration 0 % vol',
        newText: 'measures concentratoin 0 % vol',
        slip: 'Two letters of a quantity have changed places.',
        code: 'quantity-unknown',
        at: 'There is no quantity `concentratoin`',
    },

    // Readings that are not taken before they are used.
    {
        example: 'ev-charger',
        file: 'no-charge.fault',
        oldText: '    read pilot-duty\n',
        newText: '',
        slip: 'The reading that a calculation needs is not taken.',
        code: 'used-before-taken',
        at: '`offered-current` is worked out from `pilot-duty`',
    },
    {
        ...roomTree,
        oldText: '    read suction-pressure, suction-temperature\n',
        newText: '    read suction-temperature\n',
        slip: 'One of two readings is forgotten.',
        code: 'used-before-taken',
        at: '`suction-pressure`',
    },
    {
        ...roomTree,
        oldText: '    read standing-pressure\n',
        newText: '',
        slip: 'The pressure of a machine at rest is not noted before it is looked up.',
        code: 'used-before-taken',
        at: '`standing-pressure`',
    },
];
