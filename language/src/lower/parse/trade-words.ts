// Says in the trade's words what the grammar calls by rule and property names.

import type { Expected } from './expected-words.js';

/** What a rule of the grammar declares or states: `Step` gives `a step`; undefined for rules that a writer has no word for. */
export function holderWord(rule: string): string | undefined {
    return Object.hasOwn(holders, rule) ? holders[rule] : undefined;
}

/** One expected thing as a message shows it: a word or sign in backticks, or what sort of thing is meant. */
export function expectedWord(expected: Expected): string {
    switch (expected.sort) {
        case 'word':
            return `\`${expected.word}\``;
        case 'text':
            return 'a text in quotes';
        case 'amount':
            return 'a number with its unit';
        default:
            return nameWord(expected.of, expected.property);
    }
}

function nameWord(of: string | undefined, property: string): string {
    if (of === undefined) {
        return lookUp(wordsByProperty, property) ?? 'a name';
    }
    const noun = lookUp(nounsByProperty, property) ?? lookUp(nounsByType, of);
    return noun === undefined ? 'a name' : `the name of ${noun}`;
}

function lookUp(nouns: Readonly<Record<string, string>>, key: string): string | undefined {
    return Object.hasOwn(nouns, key) ? nouns[key] : undefined;
}

const holders: Readonly<Record<string, string>> = {
    File: 'a file',
    Equipment: 'an equipment',
    Option: 'an option',
    Choice: 'a choice',
    Hazard: 'a hazard',
    Zone: 'a zone',
    Condition: 'a condition',
    Supply: 'a supply',
    Kind: 'a kind',
    Part: 'a part',
    Fault: 'a fault',
    Test: 'a test',
    Instrument: 'an instrument',
    Table: 'a table',
    Curve: 'a curve',
    Gate: 'a gate',
    Tree: 'a tree',
    Conclusion: 'a conclusion',
    Referral: 'a referral',
    Procedure: 'a procedure',
    Step: 'a step',
    Ask: 'the block of a test in a step',
    Confirm: 'the block of `confirm`',
    Follow: 'the block of `follow`',
    Scenario: 'a scenario',
};

// What stands where no declaration is named.
const wordsByProperty: Readonly<Record<string, string>> = {
    kind: 'an energy, such as `electrical`',
    per: 'a unit',
};

// What a reference must be, where the property says more than the type.
const nounsByProperty: Readonly<Record<string, string>> = {
    bypasses: 'a part',
    carries: 'a hazard',
    condition: 'a condition',
    end: 'a part or a supply',
    flow: 'a flow',
    flows: 'a flow',
    hazard: 'a hazard',
    hazards: 'a hazard',
    member: 'a part, a supply or a hazard',
    part: 'a part',
    parts: 'a part',
    start: 'a part or a supply',
    subject: 'a condition, a hazard or a flow',
    zone: 'a zone',
};

const nounsByType: Readonly<Record<string, string>> = {
    BranchOutcome: 'an outcome',
    Choice: 'a choice',
    ChoiceOwner: 'a choice',
    ConditionValue: 'a value of the condition',
    Equipment: 'an equipment',
    Fault: 'a fault',
    FaultOwner: 'a part',
    FlowPlace: 'a place in a flow',
    Gate: 'a gate',
    Instrument: 'an instrument',
    Kind: 'a kind',
    Option: 'an option',
    Outcome: 'an outcome',
    Procedure: 'a procedure',
    Table: 'a table or curve',
    StretchEnd: 'a part or a supply',
    Target: 'a step or an end',
    Test: 'a test',
    TestOwner: 'a test',
    Tree: 'a tree',
};
