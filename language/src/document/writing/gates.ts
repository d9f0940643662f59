// Writes gates with their elements in the order that matters.

import type * as model from '../../core/model/gates.js';
import type * as document from '../types.js';
import { writeOptionalQuantity } from './amounts.js';
import { writeGuard } from './guards.js';
import { writeCategories, writeGuardedText, writeRemarks, writeSettings } from './remarks.js';
import { writeGuardedQuantities } from './tests.js';
import { made, some, writeId, writeIds, writeOptionalText, type Writer, writeText } from './writer.js';

export function writeGates(writer: Writer, gates: readonly model.Gate[]): readonly document.Gate[] {
    return gates.map(gate => writeGate(writer, gate));
}

function writeGate(writer: Writer, gate: model.Gate): document.Gate {
    return made<document.Gate>({
        id: gate.name.text,
        title: writeOptionalText(writer, gate.title),
        controls: some(gate.controls.map(hazard => writeControlled(writer, hazard))),
        permits: some(
            gate.permits.map(permit => ({
                activity: permit.activity.text,
                hazards: permit.hazards.map(hazard => writeControlled(writer, hazard)),
            })),
        ),
        instrumentCategories: writeCategories(writer, gate.instruments),
        wear: some(gate.wear.map(wear => writeGuardedText(writer, wear))),
        elements: some(gate.elements.map(element => writeElement(writer, element))),
        takes: writeGuardedQuantities(writer, gate.takes),
        ...writeRemarks(writer, gate),
        guard: writeGuard(writer, gate),
    });
}

function writeControlled(writer: Writer, controlled: model.ControlledHazard): document.ControlledHazard {
    return made<document.ControlledHazard>({
        hazard: writeId(writer, controlled.hazard),
        guard: writeGuard(writer, controlled),
    });
}

function writeElement(writer: Writer, element: model.GateElement): document.GateElement {
    return made<document.GateElement>({
        element: element.element,
        hazards: some(writeIds(writer, element.hazards)),
        text: writeText(writer, element.text),
        duration: writeOptionalQuantity(writer, element.duration),
        sets: writeSettings(writer, element.settings),
        takes: writeOptionalQuantity(writer, element.takes),
        instrument: element.instrument && writeId(writer, element.instrument),
        provedBeforeAndAfter: element.provedBeforeAndAfter || undefined,
        guard: writeGuard(writer, element),
    });
}
