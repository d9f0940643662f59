/**
 * What keeps somebody safe cannot be taken out of an example unnoticed: each piece is taken out alone, and verification names
 * what is missing, at its place or behind it, on a way that the plain replay goes too.
 */
import { describe, expect, test } from 'vitest';
import type { Finding } from '../../language/src/core/findings/finding.js';
import { defaultSettings } from '../../language/src/core/findings/settings.js';
import { verify } from '../../language/src/core/findings/verify.js';
import { drawSizes } from '../../language/src/core/meaning/draws.js';
import type { Model } from '../../language/src/core/model/model.js';
import { equipmentWalks } from '../../language/src/core/questions/walks.js';
import { replay } from '../../language/src/core/replay/replay.js';
import { buildsOf, completeBuild, exists } from '../../language/src/core/replay/world.js';
import type { EquipmentWalks } from '../../language/src/core/walk/walks.js';
import { hazardsOf } from '../../language/src/core/walk/hazard-walk.js';
import { rules } from '../../language/src/rules/index.js';
import { dangerDifferences } from '../support/compare-dangers.js';
import { readFolder } from '../support/read-folder.js';
import { readTexts, type Texts } from '../support/read-texts.js';
import { reproduce } from '../support/reproduce.js';
import { type Deletion, deletionsIn, harmless, without } from './deletions.js';

const examples = Object.keys(harmless);

/** Rules that tell of danger, or of a question in whose state nothing can be told. */
const asked = rules.filter(({ group, code }) => group === 'safety' || code === 'test-not-set-up');

/** How the pieces of each sort are written. */
const written = {
    gate: /^ +gate [a-z-]+$/gm,
    restore: /^ +restore [a-z-]+$/gm,
    wait: /^ +wait .* until /gm,
    element: /^ +(?:isolate|lock|release|prove) /gm,
    under: /\sunder [a-z-]+/g,
    leaves: /^ +leaves /gm,
    safety: /^ +(?:danger|warning|caution|notice) /gm,
} satisfies Record<Deletion['sort'], RegExp>;

describe.each(examples)('%s', example => {
    const texts = readFolder(example);
    const all = deletionsIn(readTexts(texts).model, texts);
    const listed = {
        harmless: (harmless[example] ?? []).flatMap(({ reason, deletions }) =>
            deletions.map(name => ({ name, reason })),
        ),
    };
    const named = new Map(all.map(deletion => [deletion.name, deletion]));
    const exceptions = new Set(listed.harmless.map(({ name }) => name));
    const told = all.filter(({ name, sort }) => sort !== 'safety' && !exceptions.has(name));

    test('nothing is found while nothing is taken out', () => {
        expect(verified(texts).findings).toEqual([]);
    });

    test('there are deletions of every sort, and no two have one name', () => {
        for (const sort of ['gate', 'restore', 'wait', 'element', 'under', 'leaves', 'safety']) {
            expect(all.filter(one => one.sort === sort).length, sort).toBeGreaterThan(0);
        }
        expect(named.size).toBe(all.length);
        // The words as they stand in the text, so that nothing is lost between it and the model.
        const text = Object.entries(texts)
            .filter(([file]) => file.endsWith('.fault'))
            .map(([, source]) => source)
            .join('\n');
        for (const [sort, words] of Object.entries(written)) {
            expect(all.filter(one => one.sort === sort).length, sort).toBe([...text.matchAll(words)].length);
        }
        expect([...exceptions].filter(name => !named.has(name))).toEqual([]);
    });

    test.each(told)('$name is missed', deletion => {
        const edited = without(texts, [deletion]);
        const { findings, model } = verified(edited);
        const wanted = findings.filter(finding => isWanted(finding, deletion));
        expect(wanted.length, linesOf(findings)).toBeGreaterThan(0);
        // What is seen without a walk has no way to go again.
        if (deletion.sort === 'element') return;
        for (const finding of wanted) {
            const isTold = finding.counterexample
                ? reproduce(finding, walksOf(model)) !== undefined
                : isNeverClosed(finding, edited);
            expect(isTold, linesOf([finding])).toBe(true);
        }
    });

    describe('without a piece that nobody needs', () => {
        const repairs = repairsDone(walksOf(verified(texts).model));

        test('nobody comes to harm, by the walk and by the plain replay, even if all of them are taken out', () => {
            const pieces = listed.harmless.flatMap(({ name }) => named.get(name) ?? []);
            const { findings, model } = verified(without(texts, pieces));
            expect(linesOf(findings)).toBe('');
            const dangers: unknown[] = [];
            expect(dangerDifferences(walksOf(model), danger => dangers.push(danger))).toEqual([]);
            expect(dangers).toEqual([]);
        });

        test.each(listed.harmless)('the reason is true: $name, $reason', ({ name, reason }) => {
            const deletion = named.get(name);
            const { part, fault } = deletion ?? {};
            if (!deletion || !part) throw new Error(`There is no repair ${name}.`);
            if (reason === 'no zone') {
                expect(part.zones).toEqual([]);
            } else if (reason === 'never done') {
                expect(fault).toBeUndefined();
                expect(part.faults.filter(({ repairs }) => repairs.length === 0)).toEqual([]);
            } else {
                const comers = repairs.filter(
                    one => one.part === part.name.text && one.isOwn === (fault !== undefined),
                );
                const those = comers.filter(one => !fault || one.fault === fault.name.text);
                const gate = name.slice(name.lastIndexOf(' ') + 1);
                expect(those.length).toBeGreaterThan(0);
                expect(those.filter(({ closed }) => !closed.includes(gate))).toEqual([]);
            }
        });
    });

    describe('without one of its safety statements', () => {
        const statements = all.filter(({ sort }) => sort === 'safety');
        const found: string[] = [];

        test.each(statements)('$name is missed, or is there beside what keeps it from being missed', statement => {
            const { findings, model } = verified(without(texts, [statement]));
            const wanted = findings.filter(({ code }) => code === 'warning-missing');
            if (wanted.length === 0) expect(whyUnseen(statement, statements, model)).toBeDefined();
            else found.push(statement.name);
            for (const finding of wanted) expect(reproduce(finding, walksOf(model)), linesOf([finding])).toBeDefined();
        });

        test('most of them are missed', () => {
            expect(found.length).toBeGreaterThan(statements.length / 3);
        });
    });

    test('a safety statement that stands at the end of its step, behind all that it is for, is told', () => {
        const steps = all.filter(({ sort, name }) => sort === 'safety' && name.includes(', step '));
        expect(steps.length).toBeGreaterThan(0);
        for (const statement of steps) {
            const { findings } = verified(movedBehind(statement, texts));
            expect(linesOf(findings.filter(({ code }) => code === 'warning-after-step')), statement.name).not.toBe('');
        }
    });
});

/** Why nothing is said of a safety statement that is gone; undefined where something had to be said. */
function whyUnseen({ name, safety }: Deletion, all: readonly Deletion[], model: Model): string | undefined {
    const { unit, trees } = walksOf(model);
    const { hazard, holder, step } = safety ?? {};
    if (hazard === undefined) {
        return unit.hazards.some(one => one.declaration.name.text === holder) ? undefined : 'it names no hazard';
    }
    const number = unit.hazards.findIndex(one => one.declaration.name.text === hazard);
    const holders = new Set([
        holder,
        hazard,
        ...unit.zones
            .filter(({ exposures }) => exposures.some(one => one.hazard === number))
            .map(({ declaration }) => declaration.name.text),
        ...unit.gates
            .filter(({ controls, permits }) => [...controls, ...permits].some(one => one.hazard === number))
            .map(({ declaration }) => declaration.name.text),
    ]);
    const isBeside = (other: Deletion) =>
        other.name !== name &&
        holders.has(other.safety?.holder ?? '') &&
        (other.safety?.hazard ?? other.safety?.holder) === hazard &&
        (other.safety?.step === undefined || other.safety.step === step);
    if (all.some(isBeside)) return 'another is about the same hazard';
    const brings = trees.some(({ route, walk }) => {
        const { occasions } = walk ? hazardsOf(walk) : { occasions: [] };
        // What is restored comes with the other hazards of its gate; what is started, with all else that starts then.
        const alone = occasions.filter(({ occasion, action }) => {
            const beside = occasions.filter(one => one.occasion === 'started' && one.action === action);
            const isAlone = occasion === 'started' && beside.every(one => one.hazard === number);
            return isAlone || ['permitted', 'proved', 'waited'].includes(occasion);
        });
        return alone.some(({ hazard: of, station }) => {
            const { owner, step: at, actions = [] } = route.stations[station] ?? {};
            const uses = actions.some(
                one => one.sort === 'gate' && unit.gates[one.gate]?.declaration.name.text === holder,
            );
            const isThere = uses || (owner?.name.text === holder && (step === undefined || at?.name.text === step));
            return of === number && isThere;
        });
    });
    return brings ? undefined : 'the model brings nobody to the hazard there';
}

function verified(texts: Texts): { findings: readonly Finding[]; model: Model } {
    const { model, findings: given } = readTexts(texts);
    const files = Object.keys(texts).filter(file => file.endsWith('.fault'));
    const options = { rules: asked, settings: defaultSettings, signal: { aborted: false }, files } as const;
    const findings = verify(model, given, options)?.findings;
    if (!findings) throw new Error('Nobody asked for the verification to stop, and still it did.');
    return { findings, model };
}

function walksOf(model: Model): EquipmentWalks {
    const [equipment] = [...model.files.values()].flatMap(one => one.equipment);
    const walks = equipment && equipmentWalks(equipment, model, { aborted: false });
    if (!walks) throw new Error('The example could not be walked.');
    return walks;
}

/** A fault that is repaired at the end of a run of the plain replay. */
interface RepairDone {
    readonly part: string;
    readonly fault: string;
    /** Whether the fault has a repair of its own, else it is that of the part. */
    readonly isOwn: boolean;
    /** The gates that are closed when the run comes to the end. */
    readonly closed: readonly string[];
}

/** What is repaired at the ends to which the plain replay brings each build with each fault. */
function repairsDone({ trees, unit }: EquipmentWalks): RepairDone[] {
    const draws = drawSizes(unit).map(() => 0);
    const arrivals = [[], ...unit.faults.map(({ number }) => [number])];
    return trees.flatMap(({ route }) =>
        [...buildsOf(unit.space)].flatMap(build => {
            const complete = completeBuild(unit, build);
            const runs = arrivals
                .filter(arrival => arrival.every(fault => exists(unit.faults[fault]?.guard, complete)))
                .flatMap(arrival => replay(route, { build, arrival, draws }));
            return runs.flatMap(({ ending, state }) => {
                const end = ending.sort === 'end' ? route.ends[ending.end] : undefined;
                if (end?.written.sort !== 'conclusion') return [];
                const closed = [...state.closed].map(gate => unit.gates[gate]?.declaration.name.text ?? '');
                return end.names.flatMap(({ fault }) => {
                    const repaired = unit.faults[fault];
                    if (!repaired) return [];
                    const [part = '', name = ''] = repaired.name.split('.');
                    return [{ part, fault: name, isOwn: repaired.repairs.length > 0, closed }];
                });
            });
        }),
    );
}

/** Whether a finding names what is missing, at the place of the deletion or behind it. */
function isWanted({ code, message, counterexample, file }: Finding, { codes, names, step, sort }: Deletion): boolean {
    if (!codes.includes(code)) return false;
    const isNamed = names.every(some => some.some(name => message.includes(`\`${name}\``)));
    if (!isNamed || !step) return isNamed;
    // That a lock is promised which nobody closes has no way to tell: its referral stands in the same tree.
    if (!counterexample) return sort === 'gate' && code === 'gate-left-closed' && file === step.file;
    return counterexample.path.some(one => one.step === step.name.text && one.file === step.file);
}

/** For a lock that is promised in vain: without the promise, nobody who comes there leaves that gate closed. */
function isNeverClosed(finding: Finding, texts: Texts): boolean {
    const [, referral = '', gate = ''] =
        /^Referral `(.*?)` says that gate `(.*?)` stays closed/.exec(finding.message) ?? [];
    const walks = walksOf(readTexts(without(texts, [finding])).model);
    let isClosed = referral === '';
    dangerDifferences(walks, (danger, _world, { route: { ends, unit } }) => {
        const end = ends[danger.end ?? -1]?.written.name.text;
        if (end === referral && unit.gates[danger.gate ?? -1]?.declaration.name.text === gate) isClosed = true;
    });
    return !isClosed;
}

/** The texts with a safety statement at the end of its step, before the statement that leads on. */
function movedBehind(statement: Deletion, texts: Texts): Texts {
    const { file, start, end } = statement;
    const text = texts[file] ?? '';
    const close = text.indexOf('\n  }\n', end);
    const moved = `${text.slice(0, start)}${text.slice(end, close)}\n    ${text.slice(start, end)}${text.slice(close)}`;
    return { ...texts, [file]: moved };
}

function linesOf(findings: readonly Finding[]): string {
    return findings
        .map(({ code, message, counterexample }) => `${code}: ${message} (${counterexample?.sentence ?? ''})`)
        .join('\n');
}
