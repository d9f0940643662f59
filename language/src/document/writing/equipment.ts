// Writes the equipment: its options, hazards, zones, conditions and flows.

import type * as model from '../../core/model/equipment.js';
import type * as document from '../types.js';
import { writeOptionalQuantity, writeQuantity } from './amounts.js';
import { writeGates } from './gates.js';
import { writeChoices, writeGuard, writeOptionalState } from './guards.js';
import { writeCurve } from './curves.js';
import { writeInstrument, writeTable } from './instruments.js';
import { writePart, writeSupply } from './parts.js';
import { ownedTests, withKind, writeTestId } from './references.js';
import { writeCategories, writeLocations, writeRemarks } from './remarks.js';
import type { SharedThings } from './shared-things.js';
import { writeTest } from './tests.js';
import {
    made,
    present,
    report,
    some,
    writeId,
    writeIds,
    writeOptionalText,
    type Writer,
    writeWords,
} from './writer.js';

/** The whole equipment with what it uses from other files, its kinds resolved into their parts. */
export function writeEquipment(writer: Writer, shared: SharedThings): document.Equipment {
    const { equipment } = writer;
    const ownersOfTests = [...equipment.supplies, ...equipment.parts].map(part => withKind(writer, part));
    return made<document.Equipment>({
        id: equipment.name.text,
        title: writeOptionalText(writer, equipment.title),
        options: equipment.options.map(option => writeOption(writer, option)),
        exclusions: present(equipment.exclusions.map(exclusion => writeExclusion(writer, exclusion))),
        hazards: equipment.hazards.map(hazard => writeHazard(writer, hazard)),
        zones: equipment.zones.map(zone => writeZone(writer, zone)),
        conditions: equipment.conditions.map(condition => writeCondition(writer, condition)),
        supplies: equipment.supplies.map(supply => writeSupply(writer, supply)),
        parts: equipment.parts.map(part => writePart(writer, part)),
        flows: equipment.flows.map(flow => writeFlow(writer, flow)),
        tests: [
            ...equipment.tests.map(test => writeTest(writer, test)),
            ...ownersOfTests.flatMap(within => ownedTests(within).map(test => writeTest({ ...writer, within }, test))),
        ],
        gates: writeGates(writer, equipment.gates),
        instruments: shared.instruments.map(instrument => writeInstrument(writer, instrument)),
        tables: shared.tables.map(table => writeTable(writer, table)),
        curves: present(shared.curves.map(curve => writeCurve(writer, curve))),
        ...writeRemarks(writer, equipment),
    });
}

function writeOption(writer: Writer, option: model.Option): document.Option {
    return made<document.Option>({
        id: option.name.text,
        title: writeOptionalText(writer, option.title),
        choices: option.choices.map(choice => writeChoice(writer, option, choice)),
        guard: writeGuard(writer, option),
    });
}

function writeChoice(writer: Writer, option: model.Option, choice: model.Choice): document.Choice {
    return made<document.Choice>({
        id: `${option.name.text}.${choice.name.text}`,
        title: writeOptionalText(writer, choice.title),
        share: writeOptionalQuantity(writer, choice.share),
        duty: choice.duty && writeDuty(writer, choice.duty),
    });
}

function writeDuty(writer: Writer, duty: NonNullable<model.Choice['duty']>): document.Duty | undefined {
    const amount = writeQuantity(writer, duty.amount);
    const per = writeQuantity(writer, duty.per);
    return amount && per && { amount, per };
}

function writeExclusion(writer: Writer, exclusion: model.Exclusion): document.Exclusion | undefined {
    const terms = exclusion.terms.map(term => writeChoices(writer, term));
    const [first] = terms;
    if (!first) {
        report(writer, exclusion, 'This `exclude` names no choice.');
        return undefined;
    }
    return made<document.Exclusion>({
        builds: terms.length === 1 ? first : { all: terms },
        reason: writeOptionalText(writer, exclusion.reason),
    });
}

function writeHazard(writer: Writer, hazard: model.Hazard): document.Hazard {
    return made<document.Hazard>({
        id: hazard.name.text,
        title: writeOptionalText(writer, hazard.title),
        energies: hazard.energies.map(energy => writeEnergy(writer, energy)),
        runDowns: some(present(hazard.runDowns.map(runDown => writeRunDown(writer, runDown)))),
        stored: some(present(hazard.stored.map(stored => writeStoredCharge(writer, stored)))),
        startsByItself: some(
            hazard.startsByItself.map(start =>
                made<document.StartsByItself>({ startsByItself: true, guard: writeGuard(writer, start) }),
            ),
        ),
        ...writeRemarks(writer, hazard),
        guard: writeGuard(writer, hazard),
    });
}

function writeEnergy(writer: Writer, energy: model.Energy): document.Energy {
    return made<document.Energy>({
        energy: energy.kind.text,
        levels: some(
            present(
                energy.levels.map(level => {
                    const amount = writeQuantity(writer, level.amount);
                    return (
                        amount &&
                        made<document.EnergyLevel>({
                            amount,
                            modes: some(writeWords(level.modes)),
                            guard: writeGuard(writer, level),
                        })
                    );
                }),
            ),
        ),
    });
}

function writeRunDown(writer: Writer, runDown: model.RunDown): document.RunDown | undefined {
    const time = writeQuantity(writer, runDown.amount);
    return time && made<document.RunDown>({ manner: runDown.manner, time, guard: writeGuard(writer, runDown) });
}

function writeStoredCharge(writer: Writer, stored: model.StoredCharge): document.StoredCharge | undefined {
    const amount = writeQuantity(writer, stored.amount);
    return (
        amount &&
        made<document.StoredCharge>({
            amount,
            through: writeOptionalQuantity(writer, stored.through),
            guard: writeGuard(writer, stored),
        })
    );
}

function writeZone(writer: Writer, zone: model.Zone): document.Zone {
    return made<document.Zone>({
        id: zone.name.text,
        title: writeOptionalText(writer, zone.title),
        exposures: some(
            zone.exposures.map(exposure =>
                made<document.Exposure>({
                    hazard: writeId(writer, exposure.hazard),
                    when: writeOptionalState(writer, exposure.while),
                    guard: writeGuard(writer, exposure),
                }),
            ),
        ),
        categories: writeCategories(writer, zone.categories),
        locations: writeLocations(writer, zone.locations),
        ...writeRemarks(writer, zone),
        guard: writeGuard(writer, zone),
    });
}

function writeCondition(writer: Writer, condition: model.Condition): document.Condition {
    return made<document.Condition>({
        id: condition.name.text,
        title: writeOptionalText(writer, condition.title),
        values: condition.values.map(value =>
            made<document.ConditionValue>({
                id: value.name.text,
                title: writeOptionalText(writer, value.title),
                bypasses: some(writeIds(writer, value.bypasses)),
            }),
        ),
        guard: writeGuard(writer, condition),
    });
}

function writeFlow(writer: Writer, flow: model.Flow): document.Flow {
    return made<document.Flow>({
        id: flow.name.text,
        title: writeOptionalText(writer, flow.title),
        when: writeOptionalState(writer, flow.when),
        chain: writeChain(writer, flow.chain),
        feeds: some(
            flow.feeds.map(feed =>
                made<document.Feed>({
                    part: writeId(writer, feed.part),
                    flow: writeId(writer, feed.flow),
                    guard: writeGuard(writer, feed),
                }),
            ),
        ),
        guard: writeGuard(writer, flow),
    });
}

function writeChain(writer: Writer, chain: model.Chain): document.Chain {
    return chain.elements.map(element => writeChainElement(writer, element));
}

function writeChainElement(writer: Writer, element: model.ChainElement): document.ChainElement {
    const guard = writeGuard(writer, element);
    switch (element.sort) {
        case 'place':
            return made<document.Place>({
                type: 'place',
                id: element.name.text === '' ? undefined : element.name.text,
                member: writeId(writer, element.member),
                when: writeOptionalState(writer, element.when),
                guard,
            });
        case 'test-point':
            return made<document.TestPoint>({
                type: 'test-point',
                tests: element.tests.map(test => writeTestId(writer, test)),
                guard,
            });
        case 'group':
            return made<document.Group>({
                type: 'group',
                joins: writeWords(element.joins) as document.Group['joins'],
                branches: element.chains.map(chain => writeChain(writer, chain)),
                guard,
            });
    }
}
