// Schemas of what stands everywhere in the exported document: texts, quantities, guards, states and remarks.

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

/** The property that limits something to some builds; the same in every object that has it. */
export const guard = optional(
    refer('Guard', 'The builds for which this holds; all for which what it stands in holds where it is left out.'),
);

/** What people read beside a declaration. */
export const remarks = {
    remarks: optional(someOf(refer('Remark'), 'Notes, pictures and pointers, in the order to show them.')),
    safety: optional(someOf(refer('SafetyStatement'), 'Safety statements, in the order to show them.')),
};

export const title = optional(refer('Text', 'What people read; show the id where it is left out.'));

const rounded = optional(flag('The number had to be rounded to 15 significant digits; left out where it is exact.'));

/** A BCP 47 language tag, as far as its letters go. */
export const localePattern = /^[A-Za-z]{2,8}(-[A-Za-z0-9]{1,8})*$/;

export const values: Definitions = {
    Text: {
        type: 'object',
        description:
            'What people read, by locale (a BCP 47 language tag). It is plain text: show it as it is and never as markup. A line feed begins a new line.',
        propertyNames: { pattern: localePattern.source },
        minProperties: 1,
        additionalProperties: words(),
    },
    Quantity: object('A number with its unit.', {
        value: {
            type: 'number',
            description:
                'The number in this unit. It is the decimal that the author wrote, with at most 15 significant digits.',
        },
        rounded,
        unit: words('The UCUM code of the unit; `1` for a plain number.'),
        display: words('The quantity as the author means it to be shown: `24.0 V`.'),
        other: optional(refer('OtherQuantity')),
    }),
    OtherQuantity: object(
        'The same quantity in the other system of units (SI or United States customary), rounded as finely as it was written; an aid for readers, nothing is compared with it. Left out where both systems use the same unit.',
        {
            value: { type: 'number', description: 'The number in this unit.' },
            unit: words('The UCUM code of the unit.'),
            display: words('What to show: `165 kPa`.'),
        },
    ),
    UnitOfMeasure: object(
        'A unit, and how many units of the SI it is: (number + offset) * factor / divisor. ' +
            'Of a difference of two values the offset is left out.',
        {
            code: words('The UCUM code of the unit.'),
            dimension: words(
                'What it measures, as powers of base dimensions; values in units that have the same here can be compared.',
            ),
            factor: { type: 'number', description: 'How many units of the SI it is, times the divisor.' },
            divisor: optional({ type: 'number', description: '1 where it is left out.' }),
            offset: optional({ type: 'number', description: 'What is added to the number; 0 where it is left out.' }),
        },
    ),
    Money: object('A price.', {
        amount: { type: 'number', description: 'The amount in this currency.' },
        rounded,
        currency: { type: 'string', description: 'The ISO 4217 code of the currency.', pattern: '^[A-Z]{3}$' },
        display: words('The price as the author means it to be shown.'),
    }),

    Guard: union('Builds, as an expression over choices.', ['ChoiceGuard', 'NotGuard', 'AllGuard', 'AnyGuard']),
    ChoiceGuard: object('The builds with this choice.', { choice: refer('ChoiceId') }),
    NotGuard: object('The builds for which the operand does not hold.', { not: refer('Guard') }),
    AllGuard: object('The builds for which every operand holds.', { all: someOf(refer('Guard')) }),
    AnyGuard: object('The builds for which at least one operand holds.', { any: someOf(refer('Guard')) }),

    State: union('A state of the unit, as an expression over conditions, hazards and flows.', [
        'ConditionState',
        'IsolatedState',
        'AllIsolatedState',
        'FlowingState',
        'NotState',
        'AllStates',
        'AnyState',
    ]),
    ConditionState: object('The condition has this value.', {
        condition: refer('ConditionId'),
        value: refer('ValueId'),
    }),
    IsolatedState: object('A gate holds this energy under control.', { isolated: refer('EnergyId') }),
    AllIsolatedState: object('A gate holds every energy under control that the zone exposes.', {
        allIsolated: flag('Every energy that the zone of the work exposes.'),
    }),
    FlowingState: object('The flow carries what it should.', { flowing: refer('FlowId') }),
    NotState: object('The operand does not hold.', { not: refer('State') }),
    AllStates: object('Every operand holds.', { all: someOf(refer('State')) }),
    AnyState: object('At least one operand holds.', { any: someOf(refer('State')) }),

    Remark: union('What people read beside something.', ['Note', 'Picture', 'Pointer']),
    Note: object('A note.', { type: fixed('note'), text: refer('Text'), guard }),
    Picture: object('A picture.', {
        type: fixed('picture'),
        path: words('The path of the file, relative to the workspace, with `/` between folders.'),
        alternative: optional(refer('Text', 'What the picture shows, for people who cannot see it.')),
        guard,
    }),
    Pointer: object('A pointer to another document.', {
        type: fixed('see'),
        text: refer('Text'),
        link: optional(words('Where the document is; check it before you open it, since it is what the author wrote.')),
        guard,
    }),
    SafetyStatement: object('A safety statement; show it before the work that it is about, and never leave it out.', {
        type: fixed('safety'),
        signalWord: oneWordOf(['danger', 'warning', 'caution', 'notice'], 'The signal word (ANSI Z535.6).'),
        hazard: optional(refer('EnergyId', 'The hazard that it is about.')),
        text: refer('Text'),
        guard,
    }),

    GuardedText: object('A text for some builds or for all.', { text: refer('Text'), guard }),
    GuardedQuantity: object('A quantity for some builds or for all.', { amount: refer('Quantity'), guard }),
    GuardedMoney: object('A price for some builds or for all.', { amount: refer('Money'), guard }),
    GuardedState: object('A state for some builds or for all.', { state: refer('State'), guard }),
    InZone: object('The zone in which something is.', { zone: refer('ZoneId'), guard }),
    Handover: object('Where the technician goes on.', { to: refer('TargetId'), guard }),
    Setting: object('A condition that is given a value.', { condition: refer('ConditionId'), value: refer('ValueId') }),
    MeasurementCategory: object('A measurement category (IEC 61010).', {
        category: words('`I`, `II`, `III` or `IV`.'),
        voltage: optional(refer('Quantity')),
        guard,
    }),
    Repair: object('How a fault is put right.', {
        action: oneWordOf(['replace', 'reset', 'repair']),
        text: refer('Text', 'The instruction.'),
        takes: optional(refer('Quantity', 'The working time.')),
        costs: optional(refer('Money', 'What the parts cost.')),
        gates: optional(someOf(refer('GateId'), 'The gates to go through before the work and to restore after it.')),
        guard,
    }),
};

/** Modes that stand beside a measured quantity. */
export const modes = optional(
    someOf(
        oneWordOf(['AC', 'DC', 'rms', 'peak', 'gauge', 'absolute', 'difference']),
        'How the quantity is meant: `DC`, `gauge`.',
    ),
);

export const locations = optional(list(refer('GuardedText'), 'Where to find it, in words.'));
export const zones = optional(
    list(refer('InZone'), 'The zone that it is in; for a test without one of its own, that of its part.'),
);
