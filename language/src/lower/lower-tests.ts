// Lowers tests: how they are done, what they need, and the outcomes that they can show.

import type * as ast from '../generated/ast.js';
import type { InZone, Location } from '../core/model/equipment.js';
import type { Check, GuardedAmount, Method, Outcome, Test } from '../core/model/tests.js';
import type { Prose, Span } from '../core/model/written.js';
import { expectUnit } from './amount-units.js';
import { declared, type Lowering } from './context.js';
import { lowerBands, reportBareBands } from './lower-bands.js';
import { headingZones, lowerCosts, lowerInZone, lowerLocation, lowerTakes } from './lower-clauses.js';
import { lowerGuard, lowerState, lowerStates } from './lower-guards.js';
import { lowerMethod } from './lower-methods.js';
import { lowerFaultReference } from './lower-references.js';
import { addRemark, type GatheredRemarks, noRemarks } from './lower-remarks.js';
import {
    all,
    lowerName,
    lowerOptionalAmount,
    lowerOptionalReference,
    lowerProse,
    lowerReference,
    lowerText,
    lowerWord,
    lowerWords,
    packed,
} from './lower-written.js';
import { expectOnce, expectOncePerBuild } from './said-twice.js';
import { endOf, type Place, pointAround, spanOf, startOf } from './spans.js';
import { reportTestGaps } from './test-gaps.js';

/** An observation or a measurement with its outcomes. */
export function lowerTest(context: Lowering, node: ast.Test): Test {
    const place = node.$cstNode ?? pointAround(node);
    const zones = headingZones(context, node);
    const part = lowerOptionalReference(context, node.part, 'part', place);
    const guard = lowerGuard(context, node.guard);
    const clauses = emptyClauses(zones);
    for (const member of all(node.members)) addClause(context, clauses, member);
    expectOnceEach(context, clauses);
    const { remarks, safety, acceptances } = clauses.remarks ?? noRemarks;
    const test: Test = {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        sort: 'test',
        name: lowerName(context, place, node.name),
        title: lowerProse(context, place, 'title', node.title),
        guard,
        part,
        zones: packed(zones),
        methods: packed(clauses.methods),
        takes: packed(clauses.takes),
        costs: packed(clauses.costs),
        needs: packed(clauses.needs),
        checks: packed(clauses.checks),
        across: packed(clauses.across),
        through: packed(clauses.through),
        during: clauses.durings[0],
        remembers: clauses.remembered[0],
        locations: packed(clauses.locations),
        outcomes: packed(clauses.outcomes),
        remarks,
        safety,
        acceptances,
    };
    reportTestGaps(context, test);
    reportBareBands(context, test);
    return declared(context, test, node);
}

interface Clauses {
    remarks: GatheredRemarks | undefined;
    readonly zones: InZone[];
    readonly methods: Method[];
    readonly takes: GuardedAmount[];
    readonly costs: GuardedAmount[];
    readonly needs: Test['needs'][number][];
    readonly checks: Check[];
    readonly across: Test['across'][number][];
    readonly through: Test['through'][number][];
    readonly durings: NonNullable<Test['during']>[];
    readonly remembered: Span[];
    readonly locations: Location[];
    readonly outcomes: Outcome[];
}

function emptyClauses(zones: InZone[]): Clauses {
    return {
        remarks: undefined,
        zones,
        methods: [],
        takes: [],
        costs: [],
        needs: [],
        checks: [],
        across: [],
        through: [],
        durings: [],
        remembered: [],
        locations: [],
        outcomes: [],
    };
}

// What is found in most tests comes first; the rest is left to the second half.
function addClause(context: Lowering, clauses: Clauses, node: ast.TestMember): void {
    switch (node.$type) {
        case 'Outcome':
            clauses.outcomes.push(lowerOutcome(context, node));
            return;
        case 'Measure':
        case 'Observe':
        case 'Calculate':
        case 'Identify':
            clauses.methods.push(lowerMethod(context, node));
            return;
        case 'Takes':
            clauses.takes.push(lowerTakes(context, node));
            return;
        case 'Costs':
            clauses.costs.push(lowerCosts(context, node));
            return;
        case 'Needs':
            clauses.needs.push(lowerNeeds(context, node));
            return;
        case 'Checks':
            for (const check of all(node.checks)) clauses.checks.push(lowerCheck(context, check));
            return;
        default:
            addRareClause(context, clauses, node);
    }
}

type RareClause =
    | ast.Across
    | ast.Through
    | ast.During
    | ast.Remembers
    | ast.Location
    | ast.InZone
    | ast.Note
    | ast.Picture
    | ast.Reference
    | ast.SafetyStatement
    | ast.Accept;

function addRareClause(context: Lowering, clauses: Clauses, node: RareClause): void {
    switch (node.$type) {
        case 'Across':
            clauses.across.push(lowerAcross(context, node));
            return;
        case 'Through':
            clauses.through.push(lowerThrough(context, node));
            return;
        case 'During':
            clauses.durings.push(lowerDuring(context, node));
            return;
        case 'Remembers':
            clauses.remembered.push(spanOf(context, node.$cstNode ?? pointAround(node)));
            return;
        case 'Location':
            clauses.locations.push(lowerLocation(context, node));
            return;
        case 'InZone':
            clauses.zones.push(lowerInZone(context, node));
            return;
        default:
            clauses.remarks = addRemark(context, clauses.remarks, node);
    }
}

function expectOnceEach(context: Lowering, clauses: Clauses): void {
    if (clauses.methods.length > 1) expectOneMethod(context, clauses.methods);
    expectOncePerBuild(context, clauses.zones, 'in');
    expectOncePerBuild(context, clauses.takes, 'takes');
    expectOncePerBuild(context, clauses.costs, 'costs');
    expectOncePerBuild(context, clauses.across, 'across');
    expectOncePerBuild(context, clauses.through, 'through');
    expectOncePerBuild(context, clauses.locations, 'location');
    expectOnce(context, clauses.durings, 'during');
    expectOnce(context, clauses.remembered, 'remembers until cleared');
}

// Only a measurement can be limited to some builds; two ways of any sort for the same builds contradict each other.
function expectOneMethod(context: Lowering, methods: readonly Method[]): void {
    const forAllBuilds = methods.filter(method => method.sort !== 'measure' || !method.guard);
    const words = [...new Set(forAllBuilds.map(({ sort }) => sort))];
    expectOnce(context, forAllBuilds, words.join(' or '));
}

function lowerNeeds(context: Lowering, node: ast.Needs): Test['needs'][number] {
    const place = node.$cstNode ?? pointAround(node);
    return {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        states: lowerStates(context, node.states),
        guard: lowerGuard(context, node.guard),
    };
}

function lowerAcross(context: Lowering, node: ast.Across): Test['across'][number] {
    const place = node.$cstNode ?? pointAround(node);
    return {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        from: lowerReference(context, node.start, 'stretch-end', place),
        to: lowerReference(context, node.end, 'stretch-end', place),
        guard: lowerGuard(context, node.guard),
    };
}

function lowerThrough(context: Lowering, node: ast.Through): Test['through'][number] {
    const place = node.$cstNode ?? pointAround(node);
    return {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        flow: lowerReference(context, node.flow, 'flow', place),
        guard: lowerGuard(context, node.guard),
    };
}

function lowerCheck(context: Lowering, node: ast.Check): Check {
    const place = node.$cstNode ?? pointAround(node);
    return {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        fault: lowerFaultReference(context, node.fault, place),
        outcome: lowerOptionalReference(context, node.outcome, 'outcome', place),
        guard: lowerGuard(context, node.guard),
    };
}

function lowerDuring(context: Lowering, node: ast.During): NonNullable<Test['during']> {
    const place = node.$cstNode ?? pointAround(node);
    const duration = lowerOptionalAmount(context, place, 'duration', node.duration);
    expectUnit(context, duration, '`during`', 's');
    return {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        text: lowerText(context, place, 'text', node.text),
        duration,
    };
}

function lowerOutcome(context: Lowering, node: ast.Outcome): Outcome {
    const place = node.$cstNode ?? pointAround(node);
    const outcome: Outcome = {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        sort: 'outcome',
        name: lowerName(context, place, node.name),
        answer: lowerAnswer(context, place, node.answer),
        bands: lowerBands(context, all(node.bands)),
        shows: lowerWords(context, place, 'shows', node.shows),
        when: lowerState(context, node.when),
        guard: lowerGuard(context, node.guard),
    };
    return declared(context, outcome, node);
}

// `yes` and `no` are words; any other answer is a text between quotes.
function lowerAnswer(context: Lowering, place: Place, answer: string | undefined): Prose | undefined {
    if (answer !== 'yes' && answer !== 'no') return lowerProse(context, place, 'answer', answer);
    const { file, start, end, text } = lowerWord(context, place, 'answer', answer);
    return { file, start, end, value: text };
}
