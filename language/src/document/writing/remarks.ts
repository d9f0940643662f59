// Writes notes, pictures, pointers, safety statements and what else stands beside a declaration.

import { resolvePath } from '../../core/linking/paths.js';
import type { InZone as InZoneModel, Location, MeasurementCategory, Repair } from '../../core/model/equipment.js';
import type { Setting } from '../../core/model/gates.js';
import type { Note, Picture, Pointer, Remarks, SafetyStatement } from '../../core/model/remarks.js';
import type { Handover } from '../../core/model/trees.js';
import type * as document from '../types.js';
import { writeMoney, writeOptionalQuantity } from './amounts.js';
import { writeGuard } from './guards.js';
import { made, report, some, writeId, writeIds, writeOptionalText, type Writer, writeText } from './writer.js';

/** The two lists of remarks, to be spread into what they stand beside. */
export function writeRemarks(
    writer: Writer,
    { remarks, safety }: Pick<Remarks, 'remarks' | 'safety'>,
): {
    readonly remarks: readonly document.Remark[] | undefined;
    readonly safety: readonly document.SafetyStatement[] | undefined;
} {
    return {
        remarks: some(remarks.map(remark => writeRemark(writer, remark))),
        safety: some(safety.map(statement => writeSafetyStatement(writer, statement))),
    };
}

export function writeRemark(writer: Writer, remark: Note | Picture | Pointer): document.Remark {
    const guard = writeGuard(writer, remark);
    switch (remark.sort) {
        case 'note':
            return made<document.Note>({ type: 'note', text: writeText(writer, remark.text), guard });
        case 'picture':
            return made<document.Picture>({
                type: 'picture',
                path: writePicturePath(writer, remark),
                alternative: writeOptionalText(writer, remark.alternative),
                guard,
            });
        case 'see':
            return made<document.Pointer>({
                type: 'see',
                text: writeText(writer, remark.text),
                link: remark.link?.value,
                guard,
            });
    }
}

export function writeSafetyStatement(writer: Writer, statement: SafetyStatement): document.SafetyStatement {
    return made<document.SafetyStatement>({
        type: 'safety',
        signalWord: statement.level,
        hazard: statement.hazard && writeId(writer, statement.hazard),
        text: writeText(writer, statement.text),
        guard: writeGuard(writer, statement),
    });
}

export function writeLocations(
    writer: Writer,
    locations: readonly Location[],
): readonly document.GuardedText[] | undefined {
    return some(locations.map(location => writeGuardedText(writer, location)));
}

export function writeGuardedText(writer: Writer, location: Location): document.GuardedText {
    return made<document.GuardedText>({ text: writeText(writer, location.text), guard: writeGuard(writer, location) });
}

export function writeZones(writer: Writer, zones: readonly InZoneModel[]): readonly document.InZone[] | undefined {
    return some(
        zones.map(each => made<document.InZone>({ zone: writeId(writer, each.zone), guard: writeGuard(writer, each) })),
    );
}

export function writeCategories(
    writer: Writer,
    categories: readonly MeasurementCategory[],
): readonly document.MeasurementCategory[] | undefined {
    return some(
        categories.map(category =>
            made<document.MeasurementCategory>({
                category: category.category.text,
                voltage: writeOptionalQuantity(writer, category.voltage),
                guard: writeGuard(writer, category),
            }),
        ),
    );
}

export function writeRepair(writer: Writer, repair: Repair): document.Repair {
    return made<document.Repair>({
        action: repair.action,
        text: writeText(writer, repair.text),
        takes: writeOptionalQuantity(writer, repair.takes),
        costs: writeMoney(writer, repair.costs),
        gates: some(writeIds(writer, repair.gates)),
        guard: writeGuard(writer, repair),
    });
}

export function writeHandovers(
    writer: Writer,
    handovers: readonly Handover[],
): readonly document.Handover[] | undefined {
    return some(
        handovers.map(handover =>
            made<document.Handover>({ to: writeId(writer, handover.target), guard: writeGuard(writer, handover) }),
        ),
    );
}

export function writeSettings(writer: Writer, settings: readonly Setting[]): readonly document.Setting[] | undefined {
    return some(
        settings.map(setting => ({
            condition: writeId(writer, setting.condition),
            value: writeId(writer, setting.value),
        })),
    );
}

// The path as written is relative to the file that shows the picture; readers of the document know only the workspace.
function writePicturePath(writer: Writer, { file, path }: Picture): string {
    const resolved = resolvePath(file, path.value);
    if (resolved === undefined) {
        report(writer, path, `The picture \`${path.value}\` is not inside the workspace.`);
        return '';
    }
    writer.pictures.add(resolved);
    return resolved;
}
