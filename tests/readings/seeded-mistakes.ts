/**
 * Mistakes with readings that writers make, each as one edit of an example, with the one finding that must name it.
 * They are data for tests only: each edit is made alone, in a copy of the example's texts, and what is found is compared.
 * The examples, and so every name in here, are invented.
 */

/** One mistake, as an edit and as the finding that it must bring. */
export interface SeededMistake {
    /** The folder of the example under `examples`. */
    readonly example: 'dust-extractor' | 'ev-charger';
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

const machine = { example: 'dust-extractor', file: 'dust-extractor.fault' } as const;
const shared = { example: 'dust-extractor', file: 'parts.fault' } as const;
const charger = { example: 'ev-charger', file: 'ev-charger.fault' } as const;
const chargerParts = { example: 'ev-charger', file: 'parts.fault' } as const;

export const seededMistakes: readonly SeededMistake[] = [
    // Readings that no outcome takes.
    {
        ...machine,
        oldText: 'high > 1600 Pa for single-phase',
        newText: 'high > 1700 Pa for single-phase',
        slip: 'One of two limits is raised, and the band beside it is not.',
        code: 'reading-gap',
        at: '`> 1600 Pa .. 1700 Pa`',
    },
    {
        ...machine,
        oldText: 'normal < 0.5 Ω\n    high otherwise',
        newText: 'normal < 0.5 Ω\n    high > 0.5 Ω',
        slip: 'Both bands leave out the limit between them.',
        code: 'reading-gap',
        at: 'takes the reading `0.5 Ω`',
    },
    {
        ...machine,
        oldText: '    high > 1600 Pa for single-phase\n    high > 2000 Pa for three-phase\n',
        newText: '    high > 1600 Pa for single-phase\n',
        slip: 'An outcome is written for one build only.',
        code: 'reading-gap',
        at: '`> 2000 Pa .. 3000 Pa`',
    },
    {
        ...machine,
        oldText: 'normal 4.8 Ω ± 15 % for three-phase\n    wrong otherwise',
        newText: 'normal 4.8 Ω ± 15 % for three-phase\n    wrong otherwise for single-phase',
        slip: 'What is left over is taken in one build only.',
        code: 'reading-gap',
        at: 'winding-resistance',
    },
    {
        ...machine,
        oldText: 'normal >= 51 µF\n    low otherwise',
        newText: 'normal >= 51 µF\n    low < 50 µF',
        slip: 'The lower band ends a little below where the normal one begins.',
        code: 'reading-gap',
        at: '`50 µF .. < 51 µF`',
    },
    {
        ...shared,
        oldText: 'wrong otherwise shows stopped',
        newText: 'wrong < 20.4 V shows stopped',
        slip: 'Only a voltage that is too low is thought of.',
        code: 'reading-gap',
        at: '`> 27.6 V .. 600 V`',
    },
    {
        ...charger,
        oldText: 'low    otherwise\n    high   otherwise shows weakened',
        newText: 'low    otherwise\n    high   -10.5 V .. < -0.5 V or > 0.5 V shows weakened',
        slip: 'A band for negative readings begins at the wrong end.',
        code: 'reading-gap',
        at: '`> -11 V .. < -10.5 V`',
    },
    {
        ...charger,
        oldText: 'small  1.5 kΩ ± 10 % for three-phase\n    open   otherwise',
        newText: 'small  1.5 kΩ ± 10 % for three-phase\n    open   > 1.65 kΩ',
        slip: 'What lies between the values of a code is taken by nobody.',
        code: 'reading-gap',
        at: 'cable-code',
    },
    {
        ...charger,
        oldText: 'wrong  otherwise\n  }\n\n  test pilot-duty',
        newText: 'wrong  > 1020 Hz\n  }\n\n  test pilot-duty',
        slip: 'A frequency that is too low, but not zero, is forgotten.',
        code: 'reading-gap',
        at: '`0.01 kHz .. < 0.98 kHz`',
    },

    // Readings that two outcomes take, and outcomes on the wrong side.
    {
        ...machine,
        oldText: 'absent < 100 Pa shows stopped',
        newText: 'absent < 1100 Pa shows stopped',
        slip: 'A digit too many lets the lowest band reach into the normal one.',
        code: 'reading-overlap',
        at: '`1000 Pa .. < 1100 Pa`',
    },
    {
        ...machine,
        oldText: 'high > 1600 Pa for single-phase',
        newText: 'high >= 1600 Pa for single-phase',
        slip: 'Both bands take the limit between them.',
        code: 'reading-overlap',
        at: 'the reading `1600 Pa`',
    },
    {
        ...machine,
        oldText: 'high > 2000 Pa for three-phase',
        newText: 'high > 200 Pa for three-phase',
        slip: 'A zero is lost.',
        code: 'reading-overlap',
        at: 'high > 200 Pa',
    },
    {
        ...machine,
        oldText: 'normal >= 18 m/s for single-phase',
        newText: 'normal >= 1.8 m/s for single-phase',
        slip: 'The decimal point is in the wrong place.',
        code: 'reading-overlap',
        at: '`1.8 m/s .. < 2 m/s`',
    },
    {
        ...charger,
        oldText: 'absent < 1 % shows stopped',
        newText: 'absent < 30 % shows stopped',
        slip: 'A limit fits one build and takes what is normal in the other.',
        code: 'reading-overlap',
        at: '`25.7 % .. 27.7 %`',
    },
    {
        ...charger,
        oldText: 'absent < 1 V shows stopped',
        newText: 'absent < 11.5 V shows stopped',
        slip: 'The lowest band reaches a little into the normal one.',
        code: 'reading-overlap',
        at: '`11.4 V .. < 11.5 V`',
    },
    {
        ...charger,
        oldText: 'small  1.5 kΩ ± 10 % or 680 Ω ± 10 % for single-phase',
        newText: 'small  1.5 kΩ ± 10 % or 220 Ω ± 10 % for single-phase',
        slip: 'A code is taken for two sizes of cable.',
        code: 'reading-overlap',
        at: '`198 Ω .. 242 Ω`',
    },
    {
        ...charger,
        oldText: 'small  1.5 kΩ ± 10 % or 680 Ω ± 10 % for single-phase',
        newText: 'small  1.5 kΩ ± 10 % or 680 Ω ± 10 %',
        slip: 'The builds of a band are forgotten.',
        code: 'reading-overlap',
        at: '`612 Ω .. 748 Ω`',
    },
    {
        ...machine,
        oldText: 'normal >= 51 µF\n    low otherwise',
        newText: 'normal <= 51 µF\n    low > 51 µF',
        slip: 'Two comparisons are the wrong way round.',
        code: 'reading-overlap',
        at: 'low > 51 µF',
    },
    {
        ...machine,
        oldText: 'normal >= 5 bar\n    low otherwise shows stopped',
        newText: 'normal < 5 bar\n    low >= 5 bar shows stopped',
        slip: 'Good and bad are swapped, and the name tells it.',
        code: 'reading-overlap',
        at: 'low >= 5 bar',
    },

    // Bands that the instrument cannot show.
    {
        ...shared,
        oldText: 'measures speed 0 m/s .. 40 m/s',
        newText: 'measures speed 0 m/s .. 20 m/s',
        slip: 'The instrument is replaced by a smaller one, and one build needs more.',
        code: 'out-of-range',
        at: '>= 22 m/s',
    },
    {
        ...shared,
        oldText: '-3000 Pa .. 3000 Pa',
        newText: '-1800 Pa .. 1800 Pa',
        slip: 'The manometer is replaced by one with a smaller range.',
        code: 'out-of-range',
        at: '`2000 Pa`',
    },
    {
        ...shared,
        oldText: '0 bar .. 10 bar',
        newText: '0 bar .. 4 bar',
        slip: 'The gauge ends below the pressure that is wanted.',
        code: 'out-of-range',
        at: '>= 5 bar',
    },
    {
        ...machine,
        oldText: 'normal >= 51 µF',
        newText: 'normal >= 510 µF',
        slip: 'A zero too many puts the limit beyond the instrument.',
        code: 'out-of-range',
        at: '>= 510 µF',
    },
    {
        ...machine,
        oldText: 'normal >= 5 bar',
        newText: 'normal >= 0 bar',
        slip: 'A limit that is filled in later stays at zero, and nothing is left for the other outcome.',
        code: 'out-of-range',
        at: '`low` of `cleaning-pressure`',
    },
    {
        ...chargerParts,
        oldText: '-15 V .. 15 V',
        newText: '0 V .. 15 V',
        slip: 'The tester is declared without its negative readings.',
        code: 'out-of-range',
        at: '-12 V',
    },
    {
        ...chargerParts,
        oldText: '0 Hz .. 2000 Hz',
        newText: '0 Hz .. 1000 Hz',
        slip: 'The range ends in the middle of the normal band.',
        code: 'out-of-range',
        at: '`1.02 kHz`',
    },
    {
        ...chargerParts,
        oldText: 'measures ratio 0 % .. 100 %',
        newText: 'measures ratio 0 % .. 50 %',
        slip: 'The range holds what one build shows, and not the other.',
        code: 'out-of-range',
        at: '52.3 % .. 54.3 %',
    },
    {
        ...charger,
        oldText: 'normal ≥ 5 kΩ',
        newText: 'normal ≥ 5 MΩ',
        slip: 'A prefix is wrong.',
        code: 'out-of-range',
        at: '>= 5 MΩ',
    },

    // Bands that are too narrow for the instrument.
    {
        ...machine,
        oldText: 'normal 2.4 Ω ± 15 % for single-phase',
        newText: 'normal 2.4 Ω ± 1 % for single-phase',
        slip: 'The tolerance of the maker of the windings is taken for that of the test.',
        code: 'too-coarse',
        at: '2.4 Ω ± 1 %',
    },
    {
        ...charger,
        oldText: 'normal 12 V ± 1 V when adapter idle',
        newText: 'normal 12 V ± 0.1 V when adapter idle',
        slip: 'A level is written as narrow as one digit of the tester.',
        code: 'too-coarse',
        at: 'cannot tell `normal` of `pilot-high`',
    },
    {
        ...charger,
        oldText: 'normal 12 V ± 5 %',
        newText: 'normal 12 V ± 2 %',
        slip: 'The tolerance is tightened, and the instrument stays.',
        code: 'too-coarse',
        at: 'less than 4 to 1',
    },
    {
        ...shared,
        oldText: 'accuracy 2 % + 1 digits',
        newText: 'accuracy 20 % + 1 digits',
        slip: 'A rough anemometer divides a band in the middle.',
        code: 'too-coarse',
        at: '`low` of `hood-airflow`',
    },
    {
        ...charger,
        oldText: 'normal 52.3 % .. 54.3 % for single-phase',
        newText: 'normal 53.2 % .. 53.4 % for single-phase',
        slip: 'A nominal value is written with no more than its rounding.',
        code: 'too-coarse',
        at: '53.2 % .. 53.4 %',
    },
    {
        ...charger,
        oldText: 'normal 12 V ± 1 V when adapter idle',
        newText: 'normal 12.02 V .. 12.08 V when adapter idle',
        slip: 'The band lies between two digits of the tester.',
        code: 'too-coarse',
        at: 'in steps of `0.1 V`',
    },
    {
        ...chargerParts,
        oldText: 'resolution 1 Hz accuracy 0.1 %',
        newText: 'resolution 1 Hz accuracy 1 %',
        slip: 'The accuracy of the tester is ten times worse than was thought.',
        code: 'too-coarse',
        at: 'pilot-frequency',
    },
    {
        ...chargerParts,
        oldText: '  measures voltage DC 0 V .. 60 V resolution 0.01 V accuracy 0.5 % + 2 digits\n',
        newText: '',
        slip: 'The finer of two ranges is left out.',
        code: 'too-coarse',
        at: '`normal` of `control-voltage`',
    },

    // Readings that there cannot be.
    {
        ...shared,
        oldText: 'measures voltage AC 0 V .. 600 V',
        newText: 'measures voltage AC -600 V .. 600 V',
        slip: 'The range of a direct voltage is copied to the alternating one.',
        code: 'impossible-reading',
        at: '`-600 V`',
    },
    {
        ...shared,
        oldText: 'measures resistance 0 Ω .. 40 kΩ',
        newText: 'measures resistance -10 Ω .. 40 kΩ',
        slip: 'A resistance below zero.',
        code: 'impossible-reading',
        at: '`-10 Ω`',
    },
    {
        ...machine,
        oldText: 'normal 1000 Pa .. 1600 Pa',
        newText: 'normal 1600 Pa .. 1000 Pa',
        slip: 'The ends of a range are swapped.',
        code: 'impossible-reading',
        at: '`1600 Pa .. 1000 Pa`',
    },
    {
        ...machine,
        oldText: 'normal < 0.5 Ω',
        newText: 'normal < -0.5 Ω',
        slip: 'A dash that was meant for a bullet became a sign.',
        code: 'impossible-reading',
        at: '`< -0.5 Ω`',
    },
    {
        ...charger,
        oldText: 'normal < 25 V',
        newText: 'normal < -25 V',
        slip: 'An alternating voltage gets a sign.',
        code: 'impossible-reading',
        at: '`< -25 V`',
    },
    {
        ...charger,
        oldText: 'normal 1 kHz ± 2 %',
        newText: 'normal 1 kHz ± -2 %',
        slip: 'A tolerance gets a sign.',
        code: 'impossible-reading',
        at: '`-2 %`',
    },
    {
        ...chargerParts,
        oldText: 'resolution 1 Hz',
        newText: 'resolution 0 Hz',
        slip: 'A resolution that nobody looked up is written as zero.',
        code: 'impossible-reading',
        at: 'resolution 0 Hz',
    },
    {
        ...chargerParts,
        oldText: '10 % = 6 A',
        newText: '10 % = -6 A',
        slip: 'A row of a table gets a sign.',
        code: 'impossible-reading',
        at: '`-6 A`',
    },
];
