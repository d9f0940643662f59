// Schemas of the tree and its procedures: steps, statements, branches and ends.

import { cautionsProperty } from './cautions.js';
import { guard, remarks, title } from './values.js';
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
} from './vocabulary.js';

const endProperties = {
    faults: optional(someOf(refer('GuardedFault'), 'The faults that it names.')),
    repairs: optional(
        someOf(
            refer('EndRepair'),
            'What to do, in the order of the faults: the repairs of the end, else of each fault, else of its part.',
        ),
    ),
    unconfirmed: optional(someOf(refer('Unconfirmed'), 'The complaint is not tested again after the repair.')),
    leaves: optional(someOf(refer('Leaves'), 'What stays as it is, on purpose.')),
    stillWrong: optional(
        someOf(
            refer('Handover'),
            'Where to go on if the complaint is still there; else where the tree says, else to its first step.',
        ),
    ),
    cautions: cautionsProperty,
    ...remarks,
    guard,
};

export const trees: Definitions = {
    Tree: object('One fault isolation procedure for one complaint.', {
        id: refer('TreeId'),
        title,
        complaints: list(refer('Complaint')),
        steps: list(refer('Step'), 'The technician starts at the first.'),
        conclusions: list(refer('Conclusion')),
        referrals: list(refer('Referral')),
        stillWrong: optional(
            someOf(refer('Handover'), 'Where to go on if the complaint is still there after a repair.'),
        ),
        disagree: optional(someOf(refer('Handover'), 'Where to go on if a confirming test does not confirm.')),
        cannotBeRead: optional(
            someOf(refer('Handover'), 'Where to go on if a test cannot be read and its branches do not say.'),
        ),
        cannotBeDone: optional(
            someOf(refer('Handover'), 'Where to go on if something cannot be done and it does not say.'),
        ),
        ...remarks,
        guard,
    }),
    Complaint: object('What sends the technician to this tree.', {
        test: refer('TestId'),
        outcomes: someOf(refer('OutcomeId')),
        when: optional(refer('State')),
        mistaken: optional(refer('Quantity', 'The share of complaints that are mistaken.')),
        guard,
    }),
    Procedure: object('Steps that trees share.', {
        id: refer('ProcedureId'),
        title,
        about: optional(refer('Subject', 'What the procedure is about; inside it is called `it`.')),
        steps: list(refer('Step'), 'The technician starts at the first.'),
        results: list(refer('Result')),
        cannotBeRead: optional(someOf(refer('Handover'))),
        cannotBeDone: optional(someOf(refer('Handover'))),
        ...remarks,
        guard,
    }),
    Subject: object('What a procedure is about.', {
        of: oneWordOf(['part', 'test', 'kind']),
        kind: optional(refer('KindId', 'The kind that the part must be of, where `of` is `kind`.')),
    }),
    Result: object('How a procedure can end.', { id: refer('TargetId'), title }),

    Step: object('A thing to do. Statements are carried out in order until one leads on.', {
        id: refer('TargetId'),
        title,
        cautions: cautionsProperty,
        statements: list(refer('Statement')),
        guard,
    }),
    Statement: union('One statement of a step.', [
        'Do',
        'Wait',
        'UseGate',
        'RestoreGate',
        'ReadTests',
        'AskTest',
        'ConfirmTest',
        'Follow',
        'Go',
        'ContinueWith',
        'Note',
        'Picture',
        'Pointer',
        'SafetyStatement',
    ]),
    Do: object('Do something.', {
        type: fixed('do'),
        text: refer('Text', 'The instruction.'),
        sets: optional(someOf(refer('Setting'))),
        clears: optional(someOf(refer('FaultId'), 'Faults that are gone after this.')),
        clearsPart: optional(
            someOf(refer('PartId'), 'What a procedure is about, where all of its faults are gone after this.'),
        ),
        clearsCode: optional(someOf(refer('TestId'), 'Tests whose remembered code is gone after this.')),
        replaces: optional(someOf(refer('PartId'), 'Parts that are replaced, so that all of their faults are gone.')),
        uses: optional(someOf(refer('PartId'), 'Parts that must work for this.')),
        at: optional(refer('PartId', 'The part at which the work is.')),
        in: optional(refer('ZoneId', 'The zone in which the work is.')),
        takes: optional(refer('Quantity', 'The working time.')),
        costs: optional(refer('Money')),
        cannotBeDone: optional(refer('TargetId', 'Where to go if it cannot be done.')),
        guard,
    }),
    Wait: object('Wait.', {
        type: fixed('wait'),
        time: refer('Quantity'),
        untilSafe: optional(refer('EnergyId', 'The hazard that is gone after this.')),
        text: optional(refer('Text')),
        guard,
    }),
    UseGate: object('Go through a gate.', { type: fixed('gate'), gate: refer('GateId'), guard }),
    RestoreGate: object('Restore what a gate controls.', { type: fixed('restore'), gate: refer('GateId'), guard }),
    ReadTests: object(
        'Take readings and note them, for tests that are calculated from them. Nothing branches on them.',
        {
            type: fixed('read'),
            tests: someOf(refer('TestId')),
            guard,
        },
    ),
    AskTest: object('Make a test and go where its outcome leads.', {
        type: fixed('test'),
        test: refer('TestId'),
        branches: list(refer('Branch')),
        guard,
    }),
    ConfirmTest: object('Make a test that should say what is known already.', {
        type: fixed('confirm'),
        test: refer('TestId'),
        branches: list(refer('Branch')),
        othersDisagree: optional(flag('Outcomes that no branch names lead to where the tree says under `disagree`.')),
        guard,
    }),
    Follow: object('Follow a procedure and go where its result leads.', {
        type: fixed('follow'),
        procedure: refer('ProcedureId'),
        withPart: optional(refer('PartId', 'What `it` stands for, where the procedure is about a part.')),
        withTest: optional(refer('TestId', 'What `it` stands for, where the procedure is about a test.')),
        branches: list(refer('ResultBranch')),
        guard,
    }),
    Go: object('Go on elsewhere.', { type: fixed('go'), to: refer('TargetId'), guard }),
    ContinueWith: object('Go on with another tree, which is a document of its own.', {
        type: fixed('continue'),
        tree: refer('TreeId'),
        guard,
    }),
    Branch: object('Where outcomes lead; it has one of `outcomes`, `otherwise` and `cannotBeRead`.', {
        outcomes: optional(someOf(refer('OutcomeId'))),
        otherwise: optional(flag('It is for every outcome that no other branch names.')),
        cannotBeRead: optional(flag('It is for a test that cannot be read.')),
        to: refer('TargetId'),
        guard,
    }),
    ResultBranch: object('Where results lead; it has one of `results` and `otherwise`.', {
        results: optional(someOf(refer('ResultId'))),
        otherwise: optional(flag('It is for every result that no other branch names.')),
        to: refer('TargetId'),
        guard,
    }),

    Conclusion: object('Faults that a path proves, with their repair.', {
        id: refer('TargetId'),
        title,
        inOrder: optional(flag('The repairs are tried in this order until the complaint is gone.')),
        ...endProperties,
    }),
    Referral: object('A deliberate handing over to somebody else.', {
        id: refer('TargetId'),
        title,
        reason: optional(refer('Text')),
        ...endProperties,
    }),
    GuardedFault: object('A fault for some builds or for all.', { fault: refer('FaultId'), guard }),
    EndRepair: object('A repair at an end.', {
        faults: optional(someOf(refer('FaultId'), 'The faults that it puts right.')),
        action: oneWordOf(['replace', 'reset', 'repair']),
        text: refer('Text', 'The instruction.'),
        takes: optional(refer('Quantity', 'The working time.')),
        costs: optional(refer('Money', 'What the parts cost.')),
        gates: optional(someOf(refer('GateId'), 'The gates to go through before the work and to restore after it.')),
        guard,
    }),
    Unconfirmed: object('Why the complaint is not tested again.', { reason: refer('Text'), guard }),
    Leaves: union('What stays as it is at an end.', ['LeavesGate', 'LeavesCondition']),
    LeavesGate: object('The gate stays closed.', { gate: refer('GateId'), guard }),
    LeavesCondition: object('The condition keeps this value.', {
        condition: refer('ConditionId'),
        value: refer('ValueId'),
        guard,
    }),
};
