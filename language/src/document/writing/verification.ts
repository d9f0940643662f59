// Writes what was verified: the program, its rules, what the author let stand, what the tree finds, and the digests of the files.

import type { Rule } from '../../core/findings/rule.js';
import { type Settings, settingsFile } from '../../core/findings/settings.js';
import type { Acceptance } from '../../core/model/remarks.js';
import type { Procedure, Tree } from '../../core/model/trees.js';
import type { FileId } from '../../core/model/written.js';
import type { EquipmentCoverage } from '../../core/questions/coverage.js';
import { timePattern } from '../schema/verification.js';
import type { Accepted, PictureFile, RuleAsked, Source, Tool, Verification } from '../types.js';
import { writeCoverage } from './coverage.js';
import { withKind } from './references.js';
import { compareText, type SharedThings } from './shared-things.js';
import { made, report, type Writer, writeText } from './writer.js';

/** SHA-256 digests in hexadecimal, by path relative to the workspace. */
export type Digests = ReadonlyMap<FileId, string>;

/** What was done and found before the tree is written. */
export interface Verified {
    /** The rules that were asked. */
    readonly rules: readonly Rule[];
    readonly severities: Settings['severities'];
    /** What the trees of the equipment find; undefined where nobody has worked it out. */
    readonly coverage: EquipmentCoverage | undefined;
}

/** What the record of the verification is made of. */
export interface RecordParts {
    readonly tool: Tool;
    readonly digests: Digests;
    readonly verified: Verified | undefined;
    /** RFC 3339, UTC. */
    readonly time: string | undefined;
}

export function writeVerification(
    writer: Writer,
    tree: Tree,
    shared: SharedThings,
    { tool, digests, verified, time }: RecordParts,
): Verification {
    const settings = digests.get(settingsFile);
    return made<Verification>({
        tool: { name: tool.name, version: tool.version },
        time,
        rules: verified && writeRules(verified),
        accepted: writeAccepted(writer, tree, shared),
        coverage: verified?.coverage && writeCoverage(tree, verified.coverage),
        sources: writeSources(writer, tree, digests),
        settings: settings === undefined ? undefined : { path: settingsFile, sha256: settings },
    });
}

/** Whether a text is a time in UTC as RFC 3339 has it, of a day that there is. */
export function isTime(text: string): boolean {
    if (!timePattern.test(text)) return false;
    const day = text.slice(0, 'YYYY-MM-DD'.length);
    const date = new Date(`${day}T00:00:00Z`);
    return !Number.isNaN(date.getTime()) && date.toISOString().startsWith(day);
}

function writeRules({ rules, severities }: Verified): readonly RuleAsked[] {
    return rules
        .map(({ code, since, severity }): RuleAsked => {
            // What is an error stays one, whatever the settings say.
            const own = severity === 'error' ? severity : (severities[code] ?? severity);
            return { code, since, severity: own };
        })
        .sort((one, other) => compareText(one.code, other.code));
}

export function writePictures(pictures: ReadonlySet<string>, digests: Digests): readonly PictureFile[] {
    return [...pictures].sort(compareText).map(path => made<PictureFile>({ path, sha256: digests.get(path) }));
}

function writeSources(writer: Writer, tree: Tree, digests: Digests): readonly Source[] {
    const files = writer.model.visibleFiles(tree.file).map(({ file }) => file);
    return [...new Set(files)].sort(compareText).map(path => {
        const sha256 = digests.get(path);
        if (sha256 === undefined) report(writer, tree, `The digest of \`${path}\` was not given.`);
        return { path, sha256: sha256 ?? '' };
    });
}

interface Owner {
    readonly acceptances: readonly Acceptance[];
    /** What it is, in words. */
    readonly place: string;
}

// Findings can be accepted wherever they can be made; those of trees and procedures that are not written do not count here.
function writeAccepted(writer: Writer, tree: Tree, shared: SharedThings): readonly Accepted[] {
    const owners = [...ownersInFiles(writer, tree), ...ownersInEquipment(writer, shared), ...ownersInTree(tree)];
    const inProcedures = shared.procedures.flatMap(procedure => ownersInTree(procedure));
    return [...owners, ...inProcedures].flatMap(({ acceptances, place }) =>
        acceptances.map(acceptance => {
            const { code, reason } = acceptance;
            if (!reason) report(writer, acceptance, `\`accept ${code.text}\` has no reason.`);
            return { code: code.text, reason: reason ? writeText(writer, reason) : {}, place };
        }),
    );
}

function ownersInFiles({ model }: Writer, tree: Tree): readonly Owner[] {
    return [...model.visibleFiles(tree.file)]
        .sort((a, b) => compareText(a.file, b.file))
        .map(({ acceptances, file }) => ({ acceptances, place: `file \`${file}\`` }));
}

function ownersInEquipment(writer: Writer, shared: SharedThings): readonly Owner[] {
    const { equipment } = writer;
    const parts = [...equipment.supplies, ...equipment.parts].map(part => withKind(writer, part));
    const kinds = new Set(parts.flatMap(({ kind }) => kind ?? []));
    return [
        named(equipment, 'equipment'),
        ...equipment.hazards.map(hazard => named(hazard, 'hazard')),
        ...equipment.zones.map(zone => named(zone, 'zone')),
        ...[...parts.map(({ part }) => part), ...kinds].flatMap(part => [
            named(part, part.sort),
            ...part.faults.map(fault => named(fault, 'fault', part.name.text)),
            ...part.tests.map(test => named(test, 'test', part.name.text)),
        ]),
        ...equipment.tests.map(test => named(test, 'test')),
        ...equipment.gates.map(gate => named(gate, 'gate')),
        ...shared.instruments.map(instrument => named(instrument, 'instrument')),
    ];
}

function ownersInTree(tree: Tree | Procedure): readonly Owner[] {
    const within = `${tree.sort} \`${tree.name.text}\``;
    const ends = tree.sort === 'tree' ? [...tree.conclusions, ...tree.referrals] : [];
    return [
        { acceptances: tree.acceptances, place: within },
        ...tree.steps.map(step => ({
            acceptances: step.acceptances,
            place: `step \`${step.name.text}\` of ${within}`,
        })),
        ...ends.map(end => ({ acceptances: end.acceptances, place: `${end.sort} \`${end.name.text}\` of ${within}` })),
    ];
}

function named(
    owner: { readonly acceptances: readonly Acceptance[]; readonly name: { readonly text: string } },
    sort: string,
    part?: string,
): Owner {
    const name = part === undefined ? owner.name.text : `${part}.${owner.name.text}`;
    return { acceptances: owner.acceptances, place: `${sort} \`${name}\`` };
}
