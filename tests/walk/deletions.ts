/**
 * Everything in an example that keeps somebody safe, to be taken out one piece at a time: gates and restores of steps, waits for
 * a hazard, elements of a gate, the gates of repairs, what referrals say that they leave, and safety statements.
 * The pieces come from the model of the example, so that a new line of an example is a new deletion.
 */
import type { Fault, Part, Repair } from '../../language/src/core/model/equipment.js';
import type { Gate } from '../../language/src/core/model/gates.js';
import type { Model } from '../../language/src/core/model/model.js';
import type { SafetyStatement } from '../../language/src/core/model/remarks.js';
import type { Procedure, Step, Tree } from '../../language/src/core/model/trees.js';
import type { Span } from '../../language/src/core/model/written.js';
import type { Texts } from '../support/read-texts.js';

/** One piece, with what verification must say once it is gone. */
export interface Deletion extends Span {
    readonly sort: 'gate' | 'restore' | 'wait' | 'element' | 'under' | 'leaves' | 'safety';
    /** What and where, in words; no two deletions of an example have the same. */
    readonly name: string;
    /** The codes of findings that may tell it. */
    readonly codes: readonly string[];
    /** Each of these lists has a name that the message tells. */
    readonly names: readonly (readonly string[])[];
    /** The step that it stands in: the way of the counterexample leads through it. */
    readonly step: Step | undefined;
    /** For a repair: its part, and the fault that it is written in. */
    readonly part: Part | undefined;
    readonly fault: Fault | undefined;
    /** For a safety statement: the hazard that it names, and what it stands in. */
    readonly safety?: {
        readonly hazard: string | undefined;
        readonly holder: string;
        readonly step: string | undefined;
    };
}

/** The texts without the pieces. */
export function without(texts: Texts, deletions: readonly Span[]): Texts {
    const changed: Record<string, string> = { ...texts };
    for (const { file, start, end } of [...deletions].sort((one, other) => other.start - one.start)) {
        const text = changed[file] ?? '';
        changed[file] = text.slice(0, start) + text.slice(end);
    }
    return changed;
}

/** Every deletion in the files of a model, in the order of the text. */
export function deletionsIn(model: Model, texts: Texts): Deletion[] {
    const gates = new Map<string, Gate>();
    const files = [...model.files.values()];
    for (const { equipment } of files) {
        for (const gate of equipment.flatMap(one => one.gates)) gates.set(gate.name.text, gate);
    }
    const owners = files.flatMap(({ trees, procedures }) => [...trees, ...procedures]);
    const parts = files.flatMap(({ equipment }) => equipment.flatMap(one => one.parts));
    const found = [
        ...owners.flatMap(owner => owner.steps.flatMap(step => inStep(step, owner, gates))),
        ...files.flatMap(({ trees }) => trees.flatMap(leavesIn)),
        ...[...gates.values()].flatMap(elementsOf),
        ...parts.flatMap(part => repairsOf(part, texts)),
        ...safetyIn(model),
    ];
    return found.sort((one, other) =>
        one.file < other.file ? -1 : one.file > other.file ? 1 : one.start - other.start,
    );
}

const nothing = { names: [], step: undefined, part: undefined, fault: undefined };

function inStep(step: Step, owner: Tree | Procedure, gates: ReadonlyMap<string, Gate>): Deletion[] {
    const where = `${owner.name.text}, step ${step.name.text}`;
    return step.statements.flatMap((statement): Deletion[] => {
        const { file, start, end } = statement;
        const piece = { ...nothing, file, start, end, step };
        if (statement.sort === 'gate-used') {
            const gate = gates.get(statement.gate.text);
            const hazards = [...(gate?.controls ?? []), ...(gate?.permits ?? []).flatMap(one => one.hazards)];
            const energies = hazards.map(({ hazard }) => hazard.text);
            const conditions = gate?.elements.flatMap(({ settings }) => settings.map(one => one.condition.text)) ?? [];
            const isolated = ['isolated', ...energies.map(name => `${name} isolated`)];
            const waited = step.statements.flatMap(one => (one.sort === 'wait' && one.hazard ? [one.hazard.text] : []));
            return [
                {
                    ...piece,
                    sort: 'gate',
                    name: `${where}: gate ${statement.gate.text}`,
                    codes: [
                        ...['missing-gate', 'gate-undone', 'test-not-set-up', 'gate-left-closed', 'condition-left'],
                        'wait-too-short',
                    ],
                    names: [[statement.gate.text, ...energies, ...conditions, ...isolated, ...waited]],
                },
            ];
        }
        if (statement.sort === 'restore') {
            const gate = statement.gate.text;
            const live = (gates.get(gate)?.controls ?? []).map(({ hazard }) => `not ${hazard.text} isolated`);
            const codes = ['gate-left-closed', 'test-not-set-up'];
            return [{ ...piece, sort: 'restore', name: `${where}: restore ${gate}`, codes, names: [[gate, ...live]] }];
        }
        if (statement.sort === 'wait' && statement.hazard) {
            const hazard = statement.hazard.text;
            const name = `${where}: wait until ${hazard} safe`;
            const codes = ['missing-gate', 'gate-undone', 'test-not-set-up'];
            return [{ ...piece, sort: 'wait', name, codes, names: [[hazard, 'isolated', `${hazard} isolated`]] }];
        }
        return [];
    });
}

function leavesIn(tree: Tree): Deletion[] {
    return tree.referrals.flatMap(end =>
        end.leaves.map(({ file, start, end: stop, gate, condition }): Deletion => {
            const what = gate ? `gate ${gate.text}` : (condition?.text ?? '');
            return {
                ...{ ...nothing, sort: 'leaves', file, start, end: stop },
                name: `${tree.name.text}, referral ${end.name.text}: leaves ${what}`,
                codes: [gate ? 'gate-left-closed' : 'condition-left'],
                names: [[end.name.text], [gate?.text ?? condition?.text ?? '']],
            };
        }),
    );
}

/** The elements without which a gate does not keep anybody safe. */
const elements: readonly string[] = ['isolate', 'lock', 'release', 'prove'];

function elementsOf(gate: Gate): Deletion[] {
    return gate.elements
        .filter(({ element }) => elements.includes(element))
        .map(({ file, start, end, element, hazards }): Deletion => {
            const energies = hazards.map(({ text }) => text);
            return {
                ...{ ...nothing, sort: 'element', file, start, end },
                name: `gate ${gate.name.text}: ${[element, ...energies].join(' ')}`,
                codes: ['gate-incomplete'],
                names: [[gate.name.text], [element], ...energies.map(energy => [energy])],
            };
        });
}

function repairsOf(part: Part, texts: Texts): Deletion[] {
    const own = part.repairs.flatMap(repair => undersOf(repair, part, undefined, texts));
    return [...own, ...part.faults.flatMap(fault => fault.repairs.flatMap(one => undersOf(one, part, fault, texts)))];
}

function undersOf(repair: Repair, part: Part, fault: Fault | undefined, texts: Texts): Deletion[] {
    return repair.gates.map(({ file, start, end, text }): Deletion => {
        const keyword = /\s+under\s+$/.exec(texts[file]?.slice(0, start) ?? '');
        if (!keyword) throw new Error(`Before the gate ${text} of a repair stands no \`under\`.`);
        return {
            ...{ sort: 'under', file, start: keyword.index, end, step: undefined, part, fault },
            name: `${part.name.text}${fault ? `.${fault.name.text}` : ''}, "${repair.text.value}": under ${text}`,
            codes: ['missing-gate', 'gate-undone'],
            names: [[part.name.text]],
        };
    });
}

function safetyIn({ files }: Model): Deletion[] {
    return [...files.values()].flatMap(({ trees, procedures, equipment, kinds }) => {
        const parts = [...kinds, ...equipment.flatMap(one => [...one.parts, ...one.supplies, ...one.kinds])];
        const declared = [
            ...equipment.flatMap(one => [one, ...one.hazards, ...one.zones, ...one.gates, ...one.tests]),
            ...parts.flatMap(part => [part, ...part.tests, ...part.faults]),
            ...[...trees, ...procedures],
            ...trees.flatMap(tree => [...tree.conclusions, ...tree.referrals]),
        ];
        const steps = [...trees, ...procedures].flatMap(owner =>
            owner.steps.flatMap(step =>
                step.statements
                    .filter(statement => statement.sort === 'safety')
                    .map(statement => statementOf(owner.name.text, statement, step.name.text)),
            ),
        );
        return [...declared.flatMap(one => one.safety.map(safety => statementOf(one.name.text, safety))), ...steps];
    });
}

function statementOf(
    holder: string,
    { file, start, end, level, hazard }: SafetyStatement,
    step: string | undefined = undefined,
): Deletion {
    const where = step === undefined ? holder : `${holder}, step ${step}`;
    const name = `${where}: ${level}${hazard ? ` about ${hazard.text}` : ''}`;
    const safety = { hazard: hazard?.text, holder, step };
    return { ...nothing, sort: 'safety', file, start, end, name, codes: [], safety };
}

/** Deletions that put nobody in danger, by why; the test holds each against its reason. */
export interface Harmless {
    readonly reason: 'closed already' | 'no zone' | 'never done';
    readonly deletions: readonly string[];
}

export const harmless: Readonly<Record<string, readonly Harmless[]>> = {
    'examples/cold-room': [
        {
            // The lockout, or the gate to enter the room, is closed on every way to an end that does the repair.
            reason: 'closed already',
            deletions: [
                'f2, "Fit a new fuse F2 of the same rating.": under lockout',
                'power-supply, "Replace the power supply G1.": under lockout',
                `overload.set-low, "Set F1 to the rated current on the compressor's nameplate.": under lockout`,
                'condenser.dirty, "Brush and blow the fins clean, along the fins.": under lockout',
                'condenser-fan, "Replace the fan M2.": under lockout',
                'condenser-fan.jammed, "Take out what jams the fan.": under lockout',
                'bulb.loose, "Clamp the bulb to the clean suction pipe and insulate it.": under lockout',
                'bulb.loose, "Clamp the bulb to the clean suction pipe and insulate it.": under room-entry',
                'evaporator-fan, "Replace the fan M3.": under lockout',
                'evaporator-fan, "Replace the fan M3.": under room-entry',
                'heaters, "Replace the heaters E1.": under lockout',
                'heaters, "Replace the heaters E1.": under room-entry',
                'limit-thermostat, "Replace the thermostat F6.": under lockout',
                'limit-thermostat, "Replace the thermostat F6.": under room-entry',
                'defrost-probe, "Replace the probe B2.": under lockout',
                'defrost-probe, "Replace the probe B2.": under room-entry',
                'drain.blocked, "Clear the drain with a brush and warm water.": under room-entry',
                'drain-heater, "Replace the drain heater E2.": under lockout',
                'drain-heater, "Replace the drain heater E2.": under room-entry',
            ],
        },
    ],
    'examples/dust-extractor': [
        {
            // The lockout is closed on every way to an end that does the repair.
            reason: 'closed already',
            deletions: [
                'f1, "Fit a new fuse F1 of the same rating.": under lockout',
                'transformer, "Replace the transformer T1.": under lockout',
                'f2, "Fit a new fuse F2 of the same rating.": under lockout',
                `overload.set-low, "Set F3 to the rated current on the motor's nameplate.": under lockout`,
                'motor-cable, "Replace the motor cable.": under lockout',
                'motor-cable.phases-swapped, "Swap two of the three phases in the motor terminal box.": under lockout',
                'capacitor, "Replace the capacitor C1.": under lockout',
                'motor, "Replace the motor M1.": under lockout',
                'impeller.jammed, "Remove the piece of wood.": under lockout',
                'cartridge-filter.misfit, "Seat the cartridge on its seal.": under lockout',
                'container.seal-worn, "Fit a new seal to the container.": under lockout',
            ],
        },
        {
            // Every fault of the impeller has a repair of its own.
            reason: 'never done',
            deletions: ['impeller, "Replace the impeller.": under lockout'],
        },
        {
            // The part stands in no zone: nothing is said to hurt there.
            reason: 'no zone',
            deletions: [
                'outlet-duct.blocked, "Clear the outlet duct.": under lockout',
                'hose, "Fit a new hose.": under lockout',
                'hose.blocked, "Clear the hose with a rod.": under lockout',
            ],
        },
    ],
    'examples/ev-charger': [
        {
            reason: 'closed already',
            deletions: [
                'f1, "Fit a new fuse F1 of the same rating.": under lockout',
                'current-limit.set-low, "Set S2 to the rated current on the nameplate.": under lockout',
                'f2, "Fit a new fuse F2 of the same rating.": under lockout',
                'outlet-terminals, "Replace the outlet terminals X3.": under lockout',
                'outlet-terminals.loose, "Cut the burnt ends off. Tighten the screws to the torque that the maker gives.": under lockout',
                'outlet-terminals.earth-loose, "Tighten the earth screw to the torque that the maker gives.": under lockout',
                'tethered-cable, "Replace the tethered cable W1.": under lockout',
                'socket-outlet, "Replace the socket X2.": under lockout',
                'lock-motor, "Replace the lock M1.": under lockout',
                'lock-motor.jammed, "Brush the bolt of the lock clean.": under lockout',
                'lock-switch, "Replace the switch S3.": under lockout',
            ],
        },
    ],
};
