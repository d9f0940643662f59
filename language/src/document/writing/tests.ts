// Writes tests: how they are made, what they need and what they can show.

import { builtInFunctions } from '../../core/linking/linker.js';
import type * as model from '../../core/model/tests.js';
import type { Reference } from '../../core/model/written.js';
import type * as document from '../types.js';
import type { Measured } from '../../core/quantities/other-system.js';
import { typeCalculation } from '../../core/readings/calculation.js';
import { writeDirection } from './curves.js';
import { measuredBy, writeMoney, writeOptionalQuantity, writeQuantity, writeModes } from './amounts.js';
import { writeBand } from './bands.js';
import { allGuards, writeGuard, writeOptionalState, writeState } from './guards.js';
import { guardOfOwned, zonesOf } from './parts.js';
import { withKind, writeFaultIds, writeTestId } from './references.js';
import { writeLocations, writeRemarks, writeZones } from './remarks.js';
import {
    find,
    made,
    present,
    report,
    some,
    writeId,
    writeOptionalText,
    type Writer,
    writeText,
    writeWords,
} from './writer.js';

/** One test; where `writer.within` is set, it is a test of that part. */
export function writeTest(writer: Writer, test: model.Test): document.Test {
    const { within } = writer;
    return made<document.Test>({
        id: within ? `${within.part.name.text}.${test.name.text}` : test.name.text,
        title: writeOptionalText(writer, test.title),
        owner: within?.part.name.text,
        part: test.part && writeId(writer, test.part),
        zones: writeZones(writer, zonesOfTest(writer, test)),
        locations: writeLocations(writer, test.locations),
        methods: present(test.methods.map(method => writeMethod(writer, method))),
        needs: some(
            test.needs.flatMap(needs =>
                needs.states.map(state =>
                    made<document.GuardedState>({ state: writeState(writer, state), guard: writeGuard(writer, needs) }),
                ),
            ),
        ),
        during: test.during && writeDuring(writer, test.during),
        remembers: test.remembers && true,
        takes: writeGuardedQuantities(writer, test.takes),
        costs: some(present(test.costs.map(costs => writeGuardedMoney(writer, costs)))),
        checks: some(test.checks.flatMap(check => writeCheck(writer, check))),
        ...writeFlowPoints(writer, test),
        outcomes: writeOutcomes(writer, test),
        ...writeRemarks(writer, test),
        // The tests of all parts stand in one list, so each of them says for itself when its part is there.
        guard: within
            ? allGuards(writeGuard(writer, within.part), guardOfOwned(writer, within, test))
            : writeGuard(writer, test),
    });
}

/** Its own zone, else that of the part that it looks at, else that of the part that has it. */
function zonesOfTest(writer: Writer, test: model.Test): model.Test['zones'] {
    if (test.zones.length > 0) return test.zones;
    const looked = test.part && writer.model.target(test.part);
    if (looked?.sort === 'part' || looked?.sort === 'supply') return zonesOf(withKind(writer, looked));
    return writer.within ? zonesOf(writer.within) : [];
}

/** Amounts for some builds each, such as the working time of a gate. */
export function writeGuardedQuantities(
    writer: Writer,
    amounts: readonly model.GuardedAmount[],
): readonly document.GuardedQuantity[] | undefined {
    return some(
        present(
            amounts.map(guarded => {
                const amount = writeQuantity(writer, guarded.amount);
                return amount && made<document.GuardedQuantity>({ amount, guard: writeGuard(writer, guarded) });
            }),
        ),
    );
}

function writeGuardedMoney(writer: Writer, guarded: model.GuardedAmount): document.GuardedMoney | undefined {
    const amount = writeMoney(writer, guarded.amount);
    return amount && made<document.GuardedMoney>({ amount, guard: writeGuard(writer, guarded) });
}

function writeMethod(writer: Writer, method: model.Method): document.Method | undefined {
    switch (method.sort) {
        case 'measure':
            return made<document.Measure>({
                type: 'measure',
                quantity: method.quantity.text,
                modes: writeModes(method.modes),
                instrument: method.instrument && writeId(writer, method.instrument),
                guard: writeGuard(writer, method),
            });
        case 'observe':
            return made<document.Observe>({ type: 'observe', sense: method.sense?.text });
        case 'identify':
            return made<document.Identify>({
                type: 'identify',
                option: writeId(writer, method.option),
                sense: method.sense?.text,
            });
        case 'calculate': {
            const expression = writeCalculation(writer, method.expression);
            const { quantity, modes } = method;
            return (
                expression &&
                made<document.Calculate>({
                    type: 'calculate',
                    quantity: quantity.text,
                    modes: writeModes(modes),
                    expression,
                })
            );
        }
    }
}

function writeCalculation(writer: Writer, calculation: model.Calculation): document.Calculation | undefined {
    switch (calculation.sort) {
        case 'constant': {
            const constant = writeQuantity(writer, calculation.amount);
            return constant && { constant };
        }
        case 'reading':
            return { reading: writeTestId(writer, calculation.test) };
        case 'operation': {
            const left = writeCalculation(writer, calculation.left);
            const right = writeCalculation(writer, calculation.right);
            return left && right && { operator: calculation.operator, left, right };
        }
        case 'call':
            return writeCall(writer, calculation);
    }
}

function writeCall(
    writer: Writer,
    call: Extract<model.Calculation, { sort: 'call' }>,
): document.Call | document.LookUp | undefined {
    const values = present(call.arguments.map(argument => writeCalculation(writer, argument)));
    const name = call.function.text;
    const table = writer.model.target(call.function);
    if (!table && builtInFunctions.includes(name)) {
        return { function: name as document.Call['function'], arguments: values };
    }
    const [argument] = values;
    if ((table?.sort !== 'table' && table?.sort !== 'curve') || !argument || values.length > 1) {
        report(writer, call, `\`${name}\` is neither a function nor a table or curve of one value.`);
        return undefined;
    }
    const [written] = call.arguments;
    const type = written && typeCalculation(written, writer.model).type;
    return made<document.LookUp>({
        table: writeId(writer, call.function),
        argument,
        backward: writeDirection(writer, call.function, type),
    });
}

function writeDuring(writer: Writer, during: NonNullable<model.Test['during']>): document.During {
    return made<document.During>({
        text: writeText(writer, during.text),
        duration: writeOptionalQuantity(writer, during.duration),
    });
}

function writeCheck(writer: Writer, check: model.Check): readonly document.Check[] {
    const outcome = check.outcome && writeId(writer, check.outcome);
    const guard = writeGuard(writer, check);
    return writeFaultIds(writer, check.fault).map(fault => made<document.Check>({ fault, outcome, guard }));
}

function writeFlowPoints(writer: Writer, test: model.Test) {
    return {
        across: some(
            test.across.map(across =>
                made<document.Across>({
                    from: writePoint(writer, across.from),
                    to: writePoint(writer, across.to),
                    guard: writeGuard(writer, across),
                }),
            ),
        ),
        through: some(
            test.through.map(through =>
                made<document.Through>({ flow: writeId(writer, through.flow), guard: writeGuard(writer, through) }),
            ),
        ),
    };
}

function writePoint(writer: Writer, point: Reference): document.FlowPoint {
    const target = find(writer, point);
    return target?.sort === 'place' ? { place: point.text } : { member: point.text };
}

// The same outcome may stand several times, for other builds or states; the document lists each name once, with its cases.
function writeOutcomes(writer: Writer, test: model.Test): readonly document.Outcome[] {
    const identified = test.methods.find(method => method.sort === 'identify');
    if (identified) return writeIdentifiedChoices(writer, identified);
    const method = test.methods.find(one => one.sort === 'measure' || one.sort === 'calculate');
    const measured = method?.sort === 'measure' || method?.sort === 'calculate' ? measuredBy(method) : {};
    const byName = new Map<string, model.Outcome[]>();
    for (const outcome of test.outcomes) {
        byName.set(outcome.name.text, [...(byName.get(outcome.name.text) ?? []), outcome]);
    }
    return [...byName].map(([id, outcomes]) =>
        made<document.Outcome>({
            id,
            healthy: id === 'normal' ? true : undefined,
            choice: undefined,
            cases: outcomes.map(outcome => writeCase(writer, outcome, measured)),
        }),
    );
}

function writeIdentifiedChoices(writer: Writer, identify: model.Identify): readonly document.Outcome[] {
    const option = find(writer, identify.option);
    if (option?.sort !== 'option') return [];
    return option.choices.map(choice =>
        made<document.Outcome>({
            id: choice.name.text,
            healthy: undefined,
            choice: `${option.name.text}.${choice.name.text}`,
            cases: [choice.title ? { answer: writeText(writer, choice.title) } : {}],
        }),
    );
}

function writeCase(writer: Writer, outcome: model.Outcome, measured: Measured): document.OutcomeCase {
    const word = outcome.answer?.value === 'yes' || outcome.answer?.value === 'no' ? outcome.answer.value : undefined;
    return made<document.OutcomeCase>({
        answer: word ? undefined : writeOptionalText(writer, outcome.answer),
        word,
        bands: some(present(outcome.bands.map(band => writeBand(writer, outcome, band, measured)))),
        // Effects are words of the grammar, which has the same list as the document.
        shows: some(writeWords(outcome.shows)) as document.OutcomeCase['shows'] | undefined,
        when: writeOptionalState(writer, outcome.when),
        guard: writeGuard(writer, outcome),
    });
}
