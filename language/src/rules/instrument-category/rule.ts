// Instruments whose measurement category is not enough for where they measure.

import { exampleOfBuild } from '../../core/findings/counterexample.js';
import type { Mend } from '../../core/findings/finding.js';
import { defineRule } from '../../core/findings/rule.js';
import type { MeasurementCategory } from '../../core/model/equipment.js';
import type { Instrument } from '../../core/model/tests.js';
import type { Span } from '../../core/model/written.js';
import {
    type WeakInstrument,
    weakInstruments,
    type WeakPermit,
    weakPermits,
} from '../../core/questions/instrument-categories.js';
import { listOf, quoteName } from '../../core/text/words.js';

export default defineRule({
    code: 'instrument-category',
    since: '0.1.0',
    severity: 'error',
    group: 'safety',
    cost: 'fast',
    messages: {
        weak: 'Test {test} measures in zone {zone}, which needs {needed}; instrument {instrument} has {own}.',
        permit: 'Gate {gate} permits measuring in zone {zone}, which needs {needed}; it asks for {own} only.',
    },
    check(model, file, report, _signal, settings) {
        for (const equipment of model.files.get(file)?.equipment ?? []) {
            for (const weak of weakInstruments(equipment, model, settings.safetyLimits)) {
                const { measured, instrument, zone, build } = weak;
                const place = measured.part ?? measured.measure.instrument ?? measured.measure;
                const example = exampleOfBuild(build, `\`${measured.test.name}\` is measured in \`${zone}\``);
                const values = {
                    test: quoteName(measured.test.name),
                    zone: quoteName(zone),
                    needed: neededBy(weak),
                    instrument: quoteName(instrument.name.text),
                    own: markOf(instrument),
                };
                report('weak', place, values, {
                    ...(example ? { counterexample: example } : {}),
                    related: [zoneAt(weak), { ...spanOf(instrument.name), text: 'the instrument is declared here' }],
                    advice: adviceFor(weak),
                    mends: mendsFor(weak),
                });
            }
            for (const weak of weakPermits(equipment, model, settings.safetyLimits)) {
                const { gate, clause, zone, build } = weak;
                const example = exampleOfBuild(build, `\`${gate.name.text}\` permits measuring in \`${zone}\``);
                const values = {
                    gate: quoteName(gate.name.text),
                    zone: quoteName(zone),
                    needed: neededBy(weak),
                    own: textOf(clause),
                };
                report('permit', { ...spanOf(clause), end: (clause.voltage ?? clause.category).end }, values, {
                    ...(example ? { counterexample: example } : {}),
                    related: [zoneAt(weak)],
                    advice: `Ask for ${neededBy(weak)} or more.`,
                    mends: permitMends(weak),
                });
            }
        }
    },
});

function neededBy({ asked, voltage }: WeakInstrument | WeakPermit): string {
    const words = voltage !== undefined && !asked.voltage ? ` and ${voltage}` : '';
    return `${textOf(asked)}${words}`;
}

function textOf({ category, voltage }: MeasurementCategory): string {
    return `category ${category.text}${voltage ? ` ${voltage.written}` : ''}`;
}

function markOf({ categories }: Instrument): string {
    return categories.length === 0 ? 'none' : listOf(categories.map(textOf), 'and');
}

function zoneAt({ asked, zone }: WeakInstrument | WeakPermit) {
    return { ...spanOf(asked), text: `zone \`${zone}\` needs it` };
}

function adviceFor({ instrument, others }: WeakInstrument): string {
    const names = listOf(
        others.map(({ name }) => quoteName(name.text)),
        'or',
    );
    if (names !== '') return `Measure with ${names}, which is enough for this zone.`;
    const { categories } = instrument;
    const lacksVoltage = categories.some(({ voltage }) => !voltage);
    return lacksVoltage
        ? 'Write the voltage of the category that stands on the instrument, for example `category III 600 V`.'
        : 'Measure with an instrument that has this category and voltage; one that has not can burst in the hand.';
}

/** Another instrument; only where the test is no kind's, because a kind's test is done in other zones too. */
function mendsFor({ measured, others }: WeakInstrument): Mend[] {
    const { instrument } = measured.measure;
    if (measured.part || !instrument) return [];
    return others.map(({ name }) => ({
        title: `Measure with \`${name.text}\``,
        safety: 'suggestion',
        edits: [{ ...spanOf(instrument), text: name.text }],
    }));
}

function permitMends({ clause, asked }: WeakPermit): Mend[] {
    if (!asked.voltage) return [];
    const text = `${asked.category.text} ${asked.voltage.written}`;
    const { start } = clause.category;
    const { end } = clause.voltage ?? clause.category;
    const edits = [{ file: clause.file, start, end, text }];
    return [{ title: `Ask for category ${text}`, safety: 'suggestion', edits }];
}

function spanOf({ file, start, end }: Span): Span {
    return { file, start, end };
}
