// The sorts of ids in the exported document. An id is the author's own name, and unique among those of its sort.

import type { Definitions, StringSchema } from './vocabulary.js';

/** What each sort of id names. A property called `id` gives the name; every other property of the sort refers to it. */
export const identifiers: Definitions = {
    EquipmentId: identifier('The name of the equipment.'),
    OptionId: identifier('The name of an option.'),
    ChoiceId: identifier('The name of a choice with its option before it: `supply.three-phase`.'),
    HazardId: identifier('The name of a hazard.'),
    EnergyId: identifier('The name of a hazard, or of a supply that carries one.'),
    ZoneId: identifier('The name of a zone.'),
    ConditionId: identifier('The name of a condition.'),
    ValueId: identifier('The name of a value, unique within its condition.'),
    SupplyId: identifier('The name of a supply.'),
    PartId: identifier(
        'The name of a part or supply. In a procedure that has a subject, `it` stands for what the call names.',
    ),
    MemberId: identifier('The name of a part, a supply or a hazard, as it stands in a flow.'),
    KindId: identifier('The name of a kind of part.'),
    FaultId: identifier(
        'The name of a fault with its part before it: `contactor.coil-open`. ' +
            'In a procedure that has a subject, `it.coil-open` is that fault of what the call names.',
    ),
    FlowId: identifier('The name of a flow.'),
    PlaceId: identifier('The label of a place in a flow.'),
    TestId: identifier(
        'The name of a test, with its part before it where the part has it: `contactor.coil-resistance`. ' +
            'In a procedure that has a subject, `it` and `it.coil-resistance` stand for what the call names.',
    ),
    OutcomeId: identifier('The name of an outcome, unique within its test.'),
    InstrumentId: identifier('The name of an instrument.'),
    TableId: identifier('The name of a table or a curve.'),
    GateId: identifier('The name of a gate.'),
    TreeId: identifier('The name of a tree.'),
    ProcedureId: identifier('The name of a procedure.'),
    ResultId: identifier('The name of a result, unique within its procedure.'),
    TargetId: identifier(
        'The name of a step or an end, unique within its tree or procedure: ' +
            'steps, conclusions and referrals of a tree share one list of names, and so do steps and results of a procedure.',
    ),
};

function identifier(description: string): StringSchema {
    return { type: 'string', description, minLength: 1 };
}
