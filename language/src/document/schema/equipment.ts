// Schemas of the equipment: options, hazards, zones, conditions, parts, faults and flows.

import { guard, locations, remarks, title, zones } from './values.js';
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

const partProperties = {
    protects: optional(someOf(refer('Protects'), 'The flows that it protects, as a fuse does.')),
    zones,
    locations,
    faults: list(refer('Fault')),
    repairs: optional(someOf(refer('Repair'), 'What puts its faults right, where a fault has no repair of its own.')),
    ...remarks,
};

export const equipment: Definitions = {
    Equipment: object('One product family, with all of its options.', {
        id: refer('EquipmentId'),
        title,
        options: list(refer('Option')),
        exclusions: list(refer('Exclusion')),
        hazards: list(refer('Hazard')),
        zones: list(refer('Zone')),
        conditions: list(refer('Condition')),
        supplies: list(refer('Supply')),
        parts: list(refer('Part')),
        flows: list(refer('Flow')),
        tests: list(refer('Test'), 'Its own tests first, then those that its supplies and parts have.'),
        gates: list(refer('Gate')),
        instruments: list(refer('Instrument')),
        tables: list(refer('Table')),
        curves: list(refer('Curve')),
        ...remarks,
    }),

    Option: object('A way in which units differ. A build has exactly one choice of each option that it has.', {
        id: refer('OptionId'),
        title,
        choices: list(refer('Choice')),
        guard,
    }),
    Choice: object('One choice of an option.', {
        id: refer('ChoiceId'),
        title,
        share: optional(
            refer('Quantity', 'The share of the units; choices without one share evenly what the others leave.'),
        ),
        duty: optional(refer('Duty', 'How often units of this choice run or start.')),
    }),
    Duty: object('How often something happens in a time.', { amount: refer('Quantity'), per: refer('Quantity') }),
    Exclusion: object('Builds that are never made.', {
        builds: refer('Guard', 'The builds that do not exist.'),
        reason: optional(refer('Text')),
    }),

    Hazard: object('Energies that can hurt.', {
        id: refer('HazardId'),
        title,
        energies: list(refer('Energy')),
        runDowns: optional(someOf(refer('RunDown'), 'How long the energy takes to go once it is switched off.')),
        stored: optional(someOf(refer('StoredCharge'))),
        startsByItself: optional(someOf(refer('StartsByItself'))),
        ...remarks,
        guard,
    }),
    Energy: object('One energy of a hazard.', {
        energy: words('The sort of energy: `electrical`, `mechanical`, `thermal`, `pressure` and so on.'),
        levels: optional(someOf(refer('EnergyLevel'), 'How much of it there is.')),
    }),
    EnergyLevel: object('How much of an energy there is.', {
        amount: refer('Quantity'),
        modes: optional(someOf(words(), 'How the amount is meant: `AC`, `gauge`.')),
        guard,
    }),
    RunDown: object('How an energy goes away.', {
        manner: oneWordOf(['runs down', 'cools', 'discharges', 'settles']),
        time: refer('Quantity'),
        guard,
    }),
    StoredCharge: object('A charge that stays.', {
        amount: refer('Quantity', 'How much is stored, such as a capacitance.'),
        through: optional(refer('Quantity', 'The resistance through which it drains.')),
        guard,
    }),
    StartsByItself: object('The machine can start by itself.', { startsByItself: flag('Always true.'), guard }),

    Zone: object('A place that exposes hazards.', {
        id: refer('ZoneId'),
        title,
        exposures: optional(someOf(refer('Exposure'))),
        categories: optional(someOf(refer('MeasurementCategory'))),
        locations,
        ...remarks,
        guard,
    }),
    Exposure: object('An energy that a zone exposes.', {
        hazard: refer('EnergyId'),
        when: optional(refer('State', 'Exposed only in this state.')),
        guard,
    }),
    Condition: object('A set-up that the technician can change.', {
        id: refer('ConditionId'),
        title,
        values: list(refer('ConditionValue'), 'The first value is how the unit is found.'),
        guard,
    }),
    ConditionValue: object('One value of a condition.', {
        id: refer('ValueId'),
        title,
        bypasses: optional(someOf(refer('PartId'), 'Parts that do nothing while this value is set.')),
    }),

    Supply: object('What comes from outside the product and can fail.', {
        id: refer('SupplyId'),
        title,
        carries: optional(refer('HazardId', 'The hazard that it carries.')),
        ...partProperties,
        guard,
    }),
    Part: object('What can be replaced or put right. What its kind says is written out here.', {
        id: refer('PartId'),
        title,
        kind: optional(refer('KindId', 'The kind that it is of.')),
        ...partProperties,
        guard,
    }),
    Protects: object('Flows that a part protects.', { flows: someOf(refer('FlowId')), guard }),

    Fault: object('One way in which a part fails: a failure mode (IEC 60812).', {
        id: refer('FaultId'),
        title,
        effects: someOf(refer('Effect'), 'What it does to what its part passes on.'),
        rates: optional(someOf(refer('Rate'))),
        places: optional(
            someOf(refer('FaultPlaces'), 'Where it acts; at every place of its part where this is left out.'),
        ),
        intermittent: optional(someOf(refer('Intermittent'), 'It comes and goes.')),
        makes: optional(someOf(refer('Makes'), 'What tests show with it, in place of what its effect leads to.')),
        causes: optional(someOf(refer('Causes'))),
        repairs: optional(someOf(refer('Repair'), 'What puts it right, in place of the repairs of its part.')),
        ...remarks,
        guard,
    }),
    Effect: object('What a fault does to what its part passes on.', {
        effect: oneWordOf(['stops', 'weakens', 'raises', 'loads', 'shorts']),
        guard,
    }),
    Rate: union('How often a fault comes up.', ['RateOverDuty', 'RateWhenCaused']),
    RateOverDuty: object('So many in so much running time, or in so many starts.', {
        amount: refer('Quantity'),
        per: refer('Quantity'),
        guard,
    }),
    RateWhenCaused: object('Only together with a fault that causes it.', {
        onlyWhenCaused: flag('Always true.'),
        guard,
    }),
    FaultPlaces: object('Places in flows at which a fault acts.', { at: someOf(refer('PlaceOrFlow')), guard }),
    PlaceOrFlow: union('A place in a flow, or every place of the part in a flow.', ['LabelledPlace', 'PlacesInFlow']),
    LabelledPlace: object('The place with this label.', { place: refer('PlaceId') }),
    PlacesInFlow: object('Every place that the part has in this flow.', { flow: refer('FlowId') }),
    Intermittent: object('A fault that comes and goes: a normal answer does not acquit it.', {
        unless: optional(refer('State', 'It is there for sure in this state.')),
        guard,
    }),
    Makes: object('What a test shows with a fault.', {
        test: refer('TestId'),
        outcomes: someOf(refer('OutcomeId'), 'Any one of these.'),
        when: optional(refer('State', 'Only in this state; otherwise the test shows what it shows without the fault.')),
        unless: optional(refer('State', 'Not in this state; there the test shows what it shows without the fault.')),
        guard,
    }),
    Causes: object('Other faults that come with a fault.', {
        faults: someOf(refer('GuardedFault')),
        after: optional(refer('Quantity', 'How long the unit runs until they come back.')),
    }),

    Flow: object('The order in which parts pass something on.', {
        id: refer('FlowId'),
        title,
        when: optional(refer('State', 'The flow exists only in this state.')),
        chain: refer('Chain'),
        feeds: optional(
            someOf(refer('Feed'), 'Places of other flows that work only while this flow carries something.'),
        ),
        guard,
    }),
    Feed: object('A part that is fed for another flow.', {
        part: refer('PartId'),
        flow: refer('FlowId'),
        guard,
    }),
    Chain: list(refer('ChainElement'), 'What stands in a row, from the source onward.'),
    ChainElement: union('One element of a flow.', ['Place', 'TestPoint', 'Group']),
    Place: object('One place of a part, a supply or an energy in a flow.', {
        type: fixed('place'),
        id: optional(refer('PlaceId', 'Its label, where it has one.')),
        member: refer('MemberId'),
        when: optional(refer('State', 'It passes something on only in this state.')),
        guard,
    }),
    TestPoint: object('A point at which tests look.', {
        type: fixed('test-point'),
        tests: someOf(refer('TestId')),
        guard,
    }),
    Group: object('Branches side by side.', {
        type: fixed('group'),
        joins: list(
            oneWordOf(['or', 'with', 'and']),
            'What stands between the branches: with `or` either is enough, with `with` losing one weakens, with `and` both are needed.',
        ),
        branches: list(refer('Chain')),
        guard,
    }),
};
