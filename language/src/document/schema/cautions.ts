// Schemas of what can hurt at a step or an end, so that a reader can warn there even where the author wrote nothing.

import { guard } from './values.js';
import { type Definitions, fixed, object, oneWordOf, optional, refer, someOf, union, words } from './vocabulary.js';

const isSubject = {
    withPart: optional(refer('PartId', 'Only where `it` stands for this part.')),
    withTest: optional(refer('TestId', 'Only where `it` stands for this test.')),
};

/** The property of a step and of an end. */
export const cautionsProperty = optional(
    someOf(
        refer('Caution'),
        'What can hurt here and what controls it, worked out of the whole equipment; ' +
            'show it before the work, together with the safety statements that it names.',
    ),
);

export const cautions: Definitions = {
    Caution: union('Something to beware of at a step or an end.', ['HazardMet', 'GateChange', 'StatementsOf']),
    HazardMet: object('Hands come into a zone that exposes this hazard.', {
        type: fixed('hazard'),
        hazard: refer('EnergyId'),
        zone: refer('ZoneId'),
        ...isSubject,
        when: optional(refer('State', 'Exposed only in this state.')),
        controls: optional(
            someOf(
                refer('HazardControl'),
                'What controls it. Which of these is in force depends on the way that was taken; at least one is whenever ' +
                    'the hazard is exposed, unless the tree that handed over has left a gate closed. ' +
                    'Where this is left out the hazard is exposed only in a state that is never met here.',
            ),
        ),
        guard,
    }),
    HazardControl: union('What controls a hazard.', ['ControlByGate', 'ControlByPermit', 'ControlByWait']),
    ControlByGate: object('The gate is closed, on the way here or for the repair.', {
        type: fixed('gate'),
        gate: refer('GateId'),
        guard,
    }),
    ControlByPermit: object(
        'The hazard stays live: a gate permits this sort of work beside it until the end of the step.',
        {
            type: fixed('permit'),
            gate: refer('GateId'),
            activity: words('The sort of work, such as `measuring`.'),
            guard,
        },
    ),
    ControlByWait: object('A wait has made it safe.', { type: fixed('wait') }),
    GateChange: object('A gate of the step changes what is under control.', {
        type: fixed('gate'),
        gate: refer('GateId'),
        change: oneWordOf(
            ['closed', 'restored', 'permits'],
            'The hazard comes under control; it is no longer under control; or work beside it is permitted, and it stays live.',
        ),
        hazard: refer('EnergyId'),
        activity: optional(words('The sort of work that is permitted.')),
        guard,
    }),
    StatementsOf: object('The safety statements of something that is touched here apply here. It names one thing.', {
        type: fixed('statements'),
        equipment: optional(refer('EquipmentId')),
        tree: optional(refer('TreeId')),
        procedure: optional(refer('ProcedureId')),
        zone: optional(refer('ZoneId')),
        hazard: optional(refer('EnergyId')),
        part: optional(refer('PartId')),
        fault: optional(refer('FaultId')),
        test: optional(refer('TestId')),
        gate: optional(refer('GateId')),
        ...isSubject,
        guard,
    }),
};
