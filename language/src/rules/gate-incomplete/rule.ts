// A gate that lacks what keeps somebody safe: an element for a hazard, a proof with a proved tester, protection.

import { exampleOfBuild } from '../../core/findings/counterexample.js';
import type { Mend } from '../../core/findings/finding.js';
import { defineRule } from '../../core/findings/rule.js';
import type { Gate, GateElementSort } from '../../core/model/gates.js';
import type { Span } from '../../core/model/written.js';
import { type GateLack, gateLacks } from '../../core/questions/gate-lacks.js';
import { hastyRestores } from '../../core/questions/temporary-restores.js';
import { type UnprovedVoltage, unprovedVoltages } from '../../core/questions/unproved.js';
import { type LockoutOrder, rankOf } from '../../core/safety/lockout-orders.js';
import { listOf, quoteName } from '../../core/text/words.js';

export default defineRule({
    code: 'gate-incomplete',
    since: '0.1.0',
    severity: 'error',
    group: 'safety',
    cost: 'fast',
    messages: {
        prepare: 'Gate {gate} has no `prepare` for {hazards}: nobody is told before the energy goes.',
        'shut-down': 'Gate {gate} has no `shut-down`, although {hazards} can move: it must stop before it is cut off.',
        isolate: 'Gate {gate} has no `isolate` for {hazards}: the energy is still there.',
        lock: 'Gate {gate} has no `lock` for {hazards}: somebody could switch it on again.',
        release: 'Gate {gate} has no `release` for {hazards}: it stays dangerous after the energy is cut off.',
        prove: 'Gate {gate} has no `prove` for {hazards}: nobody has seen that it is safe.',
        restore: 'Gate {gate} has no `restore`: nobody knows how it is opened again.',
        hasty: 'Gate {gate} is restored for a test and closed again, and one `restore` does it all: tools and people must be out of the way before the energy comes back.',
        protection: 'Gate {gate} permits work at {hazards}, and has neither `wear` nor `prepare`.',
        category:
            'Gate {gate} permits measuring at {hazards}, and does not say which `instrument category` that needs.',
        tester: 'This proof that {hazard} is gone does not say with which instrument.',
        'not proved': 'This proof that {hazard} is gone does not prove the instrument itself, before and after.',
        cannot: 'This proof that {hazard} is gone uses {instrument}, which cannot show {voltage}.',
    },
    check(model, file, report, _signal, settings) {
        for (const equipment of model.files.get(file)?.equipment ?? []) {
            for (const lack of gateLacks(equipment, model, settings.safetyLimits)) {
                const { gate, sort, hazards, build } = lack;
                const names = listOf(hazards.map(quoteName), 'and');
                const example = exampleOfBuild(build, `\`${gate.name.text}\` ${endings[sort]} \`${hazards[0] ?? ''}\``);
                report(
                    sort,
                    gate.name,
                    { gate: quoteName(gate.name.text), hazards: names },
                    {
                        ...(example ? { counterexample: example } : {}),
                        advice: advice[sort],
                        mends: mendsFor(lack, settings.lockoutOrder),
                    },
                );
            }
            for (const { gate, restore, build } of hastyRestores(equipment, model)) {
                const example = exampleOfBuild(build, `\`${gate.name.text}\` has one \`restore\``);
                const { file: other, start, end } = restore;
                report(
                    'hasty',
                    gate.name,
                    { gate: quoteName(gate.name.text) },
                    {
                        ...(example ? { counterexample: example } : {}),
                        related: [{ file: other, start, end, text: 'it is restored here, and closed again behind it' }],
                        advice: 'Add a `restore` before it that clears tools away and sends people away; then remove the locks, then give the energy back.',
                        mends: clearingMends(gate),
                    },
                );
            }
            for (const unproved of unprovedVoltages(equipment, model, settings.safetyLimits)) {
                const { element, hazard, why, voltage, build, instrument } = unproved;
                const values = { hazard: quoteName(hazard), voltage, instrument: quoteName(instrument ?? '') };
                const example = exampleOfBuild(build, `this is the proof for \`${hazard}\`, ${voltage}`);
                report(why, keywordOf(element), values, {
                    ...(example ? { counterexample: example } : {}),
                    advice: proofAdvice[why],
                    mends: proofMends(unproved),
                });
            }
        }
    },
});

type Sort = GateLack['sort'];

const endings: Readonly<Record<Sort, string>> = {
    prepare: 'has no `prepare` for',
    'shut-down': 'has no `shut-down` for',
    isolate: 'has no `isolate` for',
    lock: 'has no `lock` for',
    release: 'has no `release` for',
    prove: 'has no `prove` for',
    restore: 'has no `restore` for',
    protection: 'has neither `wear` nor `prepare` for',
    category: 'has no `instrument category` for',
};

const advice: Readonly<Record<Sort, string>> = {
    prepare: 'Add `prepare` with what to know and whom to tell before it begins.',
    'shut-down': 'Add `shut-down` with how it is stopped in the usual way.',
    isolate: 'Add `isolate` with where the energy is cut off.',
    lock: 'Add `lock` with what holds it off: a lock and a tag of whoever works there.',
    release:
        'Add `release` with how the energy goes, and how long that takes; or `block` or `shield` for what cannot go.',
    prove: 'Add `prove` with how the technician makes sure that it is safe.',
    restore: 'Add `restore` with what is done before and while the energy comes back.',
    protection: 'Add `wear` with what the technician wears, or `prepare` with what is done first.',
    category:
        'Add `instrument category` with the category and the voltage, for example `instrument category III 600 V`.',
};

const proofAdvice: Readonly<Record<UnprovedVoltage['why'], string>> = {
    tester: 'Add `with`, an instrument that measures voltage, and `proved before and after`.',
    'not proved':
        'Let the technician try the instrument on a known source before and after, and add `proved before and after`.',
    cannot: 'Name an instrument that measures this voltage.',
};

/** Where only the keyword is marked, the finding stays short. */
function keywordOf({ file, start, element }: Span & { readonly element: GateElementSort }): Span {
    return { file, start, end: start + element.length };
}

function mendsFor({ gate, sort, hazards, only }: GateLack, order: LockoutOrder): Mend[] {
    const forBuilds = only === undefined ? '' : ` for ${only}`;
    if (sort === 'protection') return insertAt(gate, endOfGate(gate), 'Add `wear`', `wear ""${forBuilds}`);
    if (sort === 'category') {
        return insertAt(
            gate,
            endOfGate(gate),
            'Add `instrument category`',
            `instrument category III 600 V${forBuilds}`,
        );
    }
    const isForAll = sort === 'prepare' || sort === 'shut-down' || sort === 'restore';
    const named = isForAll ? '' : ` ${hazards.join(', ')}`;
    const title = isForAll ? `Add \`${sort}\`` : `Add \`${sort}${named}\``;
    const text = `${sort}${named} ""${isForAll ? '' : forBuilds}`;
    return insertAt(gate, placeInOrder(gate, sort, order), title, text);
}

/** What is cleared away stands before all that gives energy back. */
function clearingMends(gate: Gate): Mend[] {
    const first = gate.elements.find(({ element }) => element === 'restore');
    if (!first) return [];
    const edits = [{ file: gate.file, start: first.start, end: first.start, text: 'restore ""\n    ' }];
    return [{ title: 'Add a `restore` that clears tools and people', safety: 'placeholder', edits }];
}

function insertAt(gate: Gate, place: number, title: string, text: string): Mend[] {
    const edits = [{ file: gate.file, start: place, end: place, text: `\n    ${text}` }];
    return [{ title, safety: 'placeholder', edits }];
}

/** Behind the last element that must come before it; else behind what the gate controls. */
function placeInOrder(gate: Gate, sort: GateElementSort, order: LockoutOrder): number {
    const rank = rankOf(order, sort) ?? 0;
    const before = gate.elements.filter(({ element }) => (rankOf(order, element) ?? -1) <= rank);
    return before.at(-1)?.end ?? endOfGate(gate);
}

function endOfGate(gate: Gate): number {
    const clauses = [...gate.permits, ...gate.controls, ...gate.instruments];
    return Math.max(...clauses.map(({ end }) => end), gate.name.end);
}

/** What one edit can add; with which instrument is for the writer to say. */
function proofMends({ element, why }: UnprovedVoltage): Mend[] {
    const { file, instrument } = element;
    if (why !== 'not proved' || !instrument) return [];
    const edits = [{ file, start: instrument.end, end: instrument.end, text: ' proved before and after' }];
    return [{ title: 'Add `proved before and after`', safety: 'suggestion', edits }];
}
