/**
 * The safety rules that look at all builds at once agree with looking at one build after the other, in plain words:
 * what a gate lacks, which of its elements stand in the wrong order, and where a voltage is measured that no zone tells of.
 */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { defaultSettings } from '../../language/src/core/findings/settings.js';
import type { GateElementSort } from '../../language/src/core/model/gates.js';
import { gateLacks } from '../../language/src/core/questions/gate-lacks.js';
import { misplacedElements } from '../../language/src/core/questions/gate-orders.js';
import { undeclaredHazards } from '../../language/src/core/questions/undeclared-hazards.js';
import { lockoutOrders, rankOf } from '../../language/src/core/safety/lockout-orders.js';
import { onlyFile } from '../support/check.js';
import { readTexts } from '../support/read-texts.js';
import { runs } from './runs.js';
import {
    type Build,
    choicesOf,
    enumerateBuilds,
    type Guard,
    guardOver,
    holds,
    type SmallBuilds,
    smallBuilds,
    writeEquipment,
    writeFor,
} from '../support/small-builds.js';

const hazards = {
    mains: 'electrical 230 V AC',
    blade: 'mechanical runs down in 5 s',
    air: 'pressure 6 bar gauge',
    weight: 'gravity 20 kg',
    dust: 'chemical',
    heat: 'thermal 90 °C',
} as const;
type HazardName = keyof typeof hazards;
const hazardNames = Object.keys(hazards) as HazardName[];

interface Element {
    readonly sort: GateElementSort;
    readonly names: readonly HazardName[];
    readonly guard: Guard | undefined;
}

interface SmallGate {
    readonly builds: SmallBuilds;
    readonly controls: readonly { readonly name: HazardName; readonly guard: Guard | undefined }[];
    readonly elements: readonly Element[];
}

const sorts: readonly GateElementSort[] = [
    'prepare',
    'shut-down',
    'isolate',
    'lock',
    'release',
    'block',
    'shield',
    'earth',
    'prove',
    'restore',
];

const gates: fc.Arbitrary<SmallGate> = smallBuilds.chain(builds => {
    const guard = fc.option(guardOver(choicesOf(builds)), { nil: undefined, freq: 2 });
    return fc.record({
        builds: fc.constant(builds),
        controls: fc
            .uniqueArray(fc.constantFrom(...hazardNames), { minLength: 1, maxLength: 3 })
            .chain(names => fc.tuple(...names.map(name => guard.map(one => ({ name, guard: one }))))),
        elements: fc.array(
            fc.record({
                sort: fc.constantFrom(...sorts),
                names: fc.uniqueArray(fc.constantFrom(...hazardNames), { maxLength: 2 }),
                guard,
            }),
            { minLength: 3, maxLength: 12 },
        ),
    });
});

function read(builds: SmallBuilds, more: readonly string[]) {
    const { model } = readTexts({ [onlyFile]: writeEquipment(builds, more) });
    const equipment = model.files.get(onlyFile)?.equipment[0];
    if (!equipment) throw new Error('The equipment of the test cannot be read.');
    return { model, equipment };
}

function readGate({ builds, controls, elements }: SmallGate) {
    return read(builds, [
        ...hazardNames.map(name => `hazard ${name} { ${hazards[name]} }`),
        'gate g {',
        `  controls ${controls.map(({ name, guard }) => `${name}${writeFor(guard)}`).join(', ')}`,
        ...elements.map(({ sort, names, guard }) => `  ${sort} ${names.join(', ')} "D"${writeFor(guard)}`),
        '}',
    ]);
}

/** What a gate lacks in one build, as the page of the rule says it. */
function lacksIn(build: Build, { controls, elements }: SmallGate): string[] {
    const here = elements.filter(({ guard }) => holds(guard, build));
    const has = (name: HazardName | undefined, ...wanted: GateElementSort[]) =>
        here.some(
            ({ sort, names }) =>
                wanted.includes(sort) && (name === undefined || names.length === 0 || names.includes(name)),
        );
    return controls
        .filter(({ guard }) => holds(guard, build))
        .flatMap(({ name }) => {
            const held = has(name, 'block', 'shield', 'release');
            const cut = (sort: GateElementSort) =>
                name === 'mains'
                    ? has(name, sort)
                    : has(undefined, sort) || (['weight', 'dust'].includes(name) && held);
            const present: Partial<Record<GateElementSort, boolean>> = {
                prepare: has(name, 'prepare'),
                'shut-down': name !== 'blade' || has(undefined, 'shut-down'),
                isolate: cut('isolate'),
                lock: cut('lock'),
                release: name === 'blade' ? has(name, 'release') : !['air', 'weight'].includes(name) || held,
                prove: here.some(
                    ({ sort, names }) =>
                        sort === 'prove' && (names.includes(name) || (names.length === 0 && controls.length === 1)),
                ),
                restore: has(undefined, 'restore'),
            };
            return Object.entries(present).flatMap(([sort, isThere]) => (isThere ? [] : [`${sort} ${name}`]));
        });
}

test('what a gate lacks is what it lacks in some build', () => {
    fc.assert(
        fc.property(gates, gate => {
            const { model, equipment } = readGate(gate);
            const told = gateLacks(equipment, model, defaultSettings.safetyLimits).flatMap(lack =>
                lack.hazards.map(name => `${lack.sort} ${name}`),
            );
            const plain = new Set(enumerateBuilds(gate.builds).flatMap(build => lacksIn(build, gate)));
            expect([...told].sort()).toEqual([...plain].sort());
        }),
        runs(400),
    );
});

/** Whether two elements stand in the wrong order for a hazard that both are for. */
function areReversed(one: Element, other: Element, order: (typeof lockoutOrders)[number]): boolean {
    const ranks = [rankOf(order, one.sort), rankOf(order, other.sort)];
    const [first, second] = ranks;
    if (first === undefined || second === undefined || first <= second) return false;
    const hazardsOf = ({ sort, names }: Element): readonly HazardName[] => {
        if (names.length === 0 || ['prepare', 'shut-down', 'restore'].includes(sort)) return hazardNames;
        return order.electricalOnly.includes(sort) ? names.filter(name => name === 'mains') : names;
    };
    return hazardsOf(one).some(name => hazardsOf(other).includes(name));
}

test('elements are misplaced where two of one build are reversed, and without them none is', () => {
    fc.assert(
        fc.property(gates, fc.constantFrom(...lockoutOrders), (gate, order) => {
            const { model, equipment } = readGate(gate);
            const builds = enumerateBuilds(gate.builds);
            const isReversed = (elements: readonly Element[]) =>
                builds.some(build => {
                    const here = elements.filter(({ guard }) => holds(guard, build));
                    return here.some((one, index) =>
                        here.slice(index + 1).some(other => areReversed(one, other, order)),
                    );
                });
            const misplaced = misplacedElements(equipment, model, order);
            expect(misplaced.length > 0).toBe(isReversed(gate.elements));
            const written = equipment.gates[0]?.elements ?? [];
            const away = new Set(misplaced.map(({ element }) => written.indexOf(element)));
            expect(isReversed(gate.elements.filter((_, index) => !away.has(index)))).toBe(false);
        }),
        runs(400),
    );
});

const readings = smallBuilds.chain(builds => {
    const guard = fc.option(guardOver(choicesOf(builds)), { nil: undefined });
    return fc.record({
        builds: fc.constant(builds),
        hazard: guard,
        exposed: fc.array(guard, { maxLength: 2 }),
        zones: fc.array(guard, { maxLength: 2 }),
        measured: guard,
        outcomes: fc.array(fc.record({ guard, high: fc.boolean() }), { minLength: 1, maxLength: 3 }),
    });
});

test('a voltage that no zone tells of is one that none tells of in some build', () => {
    fc.assert(
        fc.property(readings, ({ builds, hazard, exposed, zones, measured, outcomes }) => {
            const { model, equipment } = read(builds, [
                `hazard mains${writeFor(hazard)} { electrical 230 V AC }`,
                `zone box { ${exposed.map(guard => `exposes mains${writeFor(guard)}`).join(' ')} }`,
                `test t {`,
                ...zones.map(guard => `  in box${writeFor(guard)}`),
                `  measure voltage AC${writeFor(measured)}`,
                ...outcomes.map(({ guard, high }) => `  normal ${high ? '230 V' : '24 V'}${writeFor(guard)}`),
                '}',
            ]);
            const isUndeclared = enumerateBuilds(builds).some(build => {
                const isTold =
                    holds(hazard, build) &&
                    exposed.some(guard => holds(guard, build)) &&
                    zones.some(guard => holds(guard, build));
                const isHigh = outcomes.some(({ guard, high }) => high && holds(guard, build));
                return isHigh && holds(measured, build) && !isTold;
            });
            expect(undeclaredHazards(equipment, model, defaultSettings.safetyLimits).length > 0).toBe(isUndeclared);
        }),
        runs(400),
    );
});
