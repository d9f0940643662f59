// Schemas of tests, their outcomes and bands, and of instruments, tables and gates.

import { guard, locations, modes, remarks, title, zones } from './values.js';
import {
    type Definitions,
    fixed,
    flag,
    list,
    object,
    oneWordOf,
    optional,
    refer,
    someOf,
    union,
    words,
} from './vocabulary.js';

const quantity = words('What is measured: `voltage`, `pressure`.');
const sense = optional(words('The sense that it is observed with: `eye`, `ear`.'));

export const tests: Definitions = {
    Test: object('What is observed or measured.', {
        id: refer('TestId'),
        title,
        owner: optional(refer('PartId', 'The part or supply that has the test, itself or from its kind.')),
        part: optional(refer('PartId', 'The part that it looks at.')),
        zones,
        locations,
        methods: list(refer('Method')),
        needs: optional(someOf(refer('GuardedState'), 'All of these must hold when the test is made.')),
        during: optional(refer('During', 'The short while in which the reading exists.')),
        remembers: optional(flag('It shows a code that stays until it is cleared.')),
        takes: optional(someOf(refer('GuardedQuantity'), 'The working time.')),
        costs: optional(someOf(refer('GuardedMoney'))),
        checks: optional(someOf(refer('Check'), 'Faults that it looks at directly, whatever the flows say.')),
        across: optional(someOf(refer('Across'), 'It measures between two points of a flow.')),
        through: optional(someOf(refer('Through'), 'It measures what passes through a flow.')),
        outcomes: list(refer('Outcome'), 'In the order of the author.'),
        ...remarks,
        guard,
    }),
    Method: union('How a test is made.', ['Measure', 'Observe', 'Calculate', 'Identify']),
    Measure: object('Read an instrument.', {
        type: fixed('measure'),
        quantity,
        modes,
        instrument: optional(refer('InstrumentId')),
        guard,
    }),
    Observe: object('Look, listen, feel or smell.', { type: fixed('observe'), sense }),
    Calculate: object('Calculate from other readings.', {
        type: fixed('calculate'),
        quantity,
        modes,
        expression: refer('Calculation'),
    }),
    Identify: object('See which build it is; the outcomes are the choices of the option.', {
        type: fixed('identify'),
        option: refer('OptionId'),
        sense,
    }),
    Calculation: union('A value worked out of readings.', ['Operation', 'Constant', 'Call', 'LookUp', 'Reading']),
    Operation: object('Two values and a sign of arithmetic.', {
        operator: oneWordOf(['+', '-', '*', '/']),
        left: refer('Calculation'),
        right: refer('Calculation'),
    }),
    Constant: object('A fixed value.', { constant: refer('Quantity') }),
    Call: object(
        'A function of several values: `mean`, `largest`, `smallest`; `deviation` is the largest distance of any value from their mean; ' +
            '`unbalance` is the deviation as a share of the mean.',
        {
            function: oneWordOf(['mean', 'largest', 'smallest', 'deviation', 'unbalance']),
            arguments: someOf(refer('Calculation')),
        },
    ),
    LookUp: object('What a table or a curve gives for a value.', {
        table: refer('TableId'),
        argument: refer('Calculation'),
        backward: optional(flag('The argument is a value of its output, and what is wanted is the input.')),
    }),
    Reading: object('The reading of another test.', { reading: refer('TestId') }),
    During: object('The short while in which a reading exists.', {
        text: refer('Text'),
        duration: optional(refer('Quantity')),
    }),
    Check: object('A fault that a test looks at directly.', {
        fault: refer('FaultId'),
        outcome: optional(
            refer('OutcomeId', 'What the test then shows; its first abnormal outcome where this is left out.'),
        ),
        guard,
    }),
    Across: object('Two points of a flow.', { from: refer('FlowPoint'), to: refer('FlowPoint'), guard }),
    FlowPoint: union('A point of a flow.', ['LabelledPlace', 'PlaceOfMember']),
    PlaceOfMember: object('Where this member stands in the flow.', { member: refer('MemberId') }),
    Through: object('A flow that is measured through.', { flow: refer('FlowId'), guard }),

    Outcome: object('What a test can show.', {
        id: refer('OutcomeId'),
        healthy: optional(flag('A healthy unit shows this outcome.')),
        choice: optional(refer('ChoiceId', 'The choice that is found, for a test that identifies.')),
        cases: someOf(
            refer('OutcomeCase'),
            'What counts as this outcome: any case that is for the build and whose state holds.',
        ),
    }),
    OutcomeCase: object('One way in which an outcome shows.', {
        answer: optional(refer('Text', 'What the technician answers.')),
        word: optional(oneWordOf(['yes', 'no'], 'What the technician answers, where it is no more than yes or no.')),
        bands: optional(someOf(refer('Band'), 'Readings that count as this outcome: those in any of the bands.')),
        shows: optional(
            someOf(
                oneWordOf(['stopped', 'weakened', 'raised', 'loaded', 'shorted']),
                'The effects of faults that this outcome shows.',
            ),
        ),
        when: optional(refer('State', 'Only in this state.')),
        guard,
    }),
    Band: union('A range of readings.', ['Interval', 'Otherwise', 'AroundTable']),
    Interval: object('Readings between two ends; without an end it goes on without limit on that side.', {
        low: optional(refer('IntervalEnd')),
        high: optional(refer('IntervalEnd')),
        unit: words('The UCUM code of the unit of both ends; `1` for plain numbers.'),
        display: words('The band as the author means it to be shown.'),
        other: optional(
            words('The band in the other system of units, as an aid for readers; left out where there is none.'),
        ),
    }),
    IntervalEnd: object('One end of an interval.', {
        value: { type: 'number', description: 'The number, with at most 15 significant digits.' },
        rounded: optional(flag('The number had to be rounded to 15 significant digits; left out where it is exact.')),
        closed: { type: 'boolean', description: 'Whether the number itself belongs to the interval.' },
    }),
    Otherwise: object('The readings that no other outcome of the test takes.', {
        otherwise: oneWordOf(
            ['any', 'below', 'above'],
            'All of them, only those below the healthy readings, or only those above.',
        ),
    }),
    AroundTable: object('Readings near what a table or a curve gives for another reading.', {
        table: refer('TableId'),
        input: refer('TestId', 'The test whose reading goes into it.'),
        backward: optional(flag('The reading is a value of its output, and what is wanted is the input.')),
        tolerance: optional(
            refer('Quantity', 'How far off the reading may be, either way; a ratio is taken of the table value.'),
        ),
        display: words('The band as the author means it to be shown.'),
    }),

    Instrument: object('An instrument that readings are taken with.', {
        id: refer('InstrumentId'),
        title,
        measures: optional(someOf(refer('Measures'))),
        categories: optional(someOf(refer('MeasurementCategory'))),
        ...remarks,
    }),
    Measures: object('What an instrument can measure.', {
        quantity,
        modes,
        from: optional(refer('Quantity')),
        to: optional(refer('Quantity')),
        resolution: optional(refer('Quantity')),
        accuracy: optional(refer('Quantity', 'The largest error; a ratio is taken of the reading.')),
        accuracyPlus: optional(refer('Quantity', 'What is added to the largest error.')),
    }),
    Table: object('Pairs of values, with what lies between them.', {
        id: refer('TableId'),
        title,
        input: refer('TableSide'),
        output: refer('TableSide'),
        interpolation: oneWordOf(
            ['linear', 'logarithmic'],
            'Between two rows; `logarithmic` is straight in the logarithm of the output.',
        ),
        rows: list(refer('TableRow')),
    }),
    TableSide: object('What one side of a table holds.', { quantity, modes }),
    Curve: object('How one quantity follows another by a published law.', {
        id: refer('TableId'),
        title,
        law: refer('Law'),
        from: optional(refer('Quantity', 'Below this input the curve gives no value.')),
        to: optional(refer('Quantity', 'Above this input the curve gives no value.')),
        remarks: optional(someOf(refer('Remark'), 'Notes, pictures and pointers, in the order to show them.')),
    }),
    Law: union('The law of a curve, with its figures.', [
        'PlatinumLaw',
        'ThermistorLaw',
        'SteinhartHartLaw',
        'ThermocoupleLaw',
        'WindingLaw',
        'LoopLaw',
    ]),
    PlatinumLaw: object('Temperature to resistance of a platinum sensor (IEC 60751), from -200 °C to 850 °C.', {
        law: fixed('platinum'),
        atZero: refer('Quantity', 'The resistance at 0 °C.'),
    }),
    ThermistorLaw: object(
        'Temperature to resistance: R = resistance * exp(beta * (1/T - 1/temperature)), temperatures in kelvins.',
        {
            law: fixed('ntc'),
            resistance: refer('Quantity'),
            temperature: refer('Quantity'),
            beta: refer('Quantity'),
        },
    ),
    SteinhartHartLaw: object(
        'Temperature to resistance: 1/T = a + b * ln R + c * (ln R)^3, with T in kelvins and R in ohms.',
        { law: fixed('steinhart-hart'), a: refer('Quantity'), b: refer('Quantity'), c: refer('Quantity') },
    ),
    ThermocoupleLaw: object('Temperature to voltage of a thermocouple (ITS-90), with its reference junction at 0 °C.', {
        law: fixed('thermocouple'),
        letter: oneWordOf(['E', 'J', 'K', 'N', 'T'], 'Its type by IEC 60584-1.'),
    }),
    WindingLaw: object(
        'Temperature to resistance: R = resistance * (constant + t) / (constant + temperature), all in °C.',
        {
            law: fixed('winding'),
            resistance: refer('Quantity'),
            temperature: refer('Quantity'),
            constant: refer('Quantity', 'As a number of kelvins: 234.5 or 235 for copper, 225 for aluminum.'),
        },
    ),
    LoopLaw: object(
        'A quantity to the current of a loop; currents below 3.8 mA or above 20.5 mA stand for no value (NAMUR NE 43).',
        {
            law: fixed('loop'),
            quantity,
            modes,
            low: refer('Quantity', 'What 4 mA stands for.'),
            high: refer('Quantity', 'What 20 mA stands for.'),
        },
    ),
    TableRow: object('One pair of values.', { input: refer('Quantity'), output: refer('Quantity') }),

    Gate: object('A procedure that puts hazards under control, or allows one kind of work beside them.', {
        id: refer('GateId'),
        title,
        controls: optional(someOf(refer('ControlledHazard'), 'Under control until the gate is restored.')),
        permits: optional(someOf(refer('Permit'), 'Allowed until the end of the step.')),
        instrumentCategories: optional(someOf(refer('MeasurementCategory'), 'What instruments must be rated for.')),
        wear: optional(someOf(refer('GuardedText'), 'What to wear.')),
        elements: optional(
            someOf(
                refer('GateElement'),
                'What to do, in this order; the `restore` elements when the gate is restored.',
            ),
        ),
        takes: optional(someOf(refer('GuardedQuantity'))),
        ...remarks,
        guard,
    }),
    ControlledHazard: object('A hazard, or a supply that carries one.', { hazard: refer('EnergyId'), guard }),
    Permit: object('Work that is allowed beside hazards.', {
        activity: words('The sort of work, such as `measuring`.'),
        hazards: someOf(refer('ControlledHazard')),
    }),
    GateElement: object('One thing to do at a gate.', {
        element: oneWordOf(
            ['prepare', 'shut-down', 'isolate', 'lock', 'release', 'earth', 'shield', 'block', 'prove', 'restore'],
            'What it is for (29 CFR 1910.147; `earth` and `shield` as in EN 50110-1; `block` holds a weight or a moving part).',
        ),
        hazards: optional(
            someOf(refer('EnergyId'), 'What it is about; all that the gate controls where this is left out.'),
        ),
        text: refer('Text'),
        duration: optional(refer('Quantity', 'How long to wait.')),
        sets: optional(someOf(refer('Setting'))),
        takes: optional(refer('Quantity')),
        instrument: optional(refer('InstrumentId')),
        provedBeforeAndAfter: optional(flag('The instrument is proved on a known source before and after.')),
        guard,
    }),
};
