// Readings that other tests are worked out from: what changes them, and beside which others they have to be taken.

import { conditionsIn } from './conditions-in.js';
import type { Noted, Unit, UnitChain, UnitTest } from './unit.js';

/** What becomes of a reading: not taken; taken; taken before a setting that changes it; taken before a repair. */
export const notTaken = 0;
export const taken = 1;
export const takenBeforeChange = 2;
export const takenBeforeRepair = 3;

/** How many values there are. */
export const takenValues = 4;

/** The tests with what becomes of each reading, and the need to have taken the readings that a test is worked out from. */
export function noteReadings({ tests, conditions, flows }: Pick<Unit, 'tests' | 'conditions' | 'flows'>): UnitTest[] {
    const needing = tests.filter(({ readings }) => readings.length > 0);
    if (needing.length === 0) return [...tests];
    const used = new Set(needing.flatMap(({ readings }) => readings));
    const dependsOn = new Map(
        [...used].map(number => [number, conditionsThatChange(tests[number], { conditions, flows })]),
    );
    const notedOf = (number: number): Noted | undefined => {
        const own = dependsOn.get(number);
        if (!own) return undefined;
        const together = needing
            .filter(({ readings }) => readings.includes(number))
            .flatMap(({ readings }) => readings);
        const others = [...new Set(together)].filter(other => other !== number);
        return {
            dependsOn: own,
            beside: others.map(test => ({
                test,
                shares: (dependsOn.get(test) ?? []).some(condition => own.includes(condition)),
            })),
        };
    };
    return tests.map(test => ({
        ...test,
        noted: notedOf(test.number),
        needs: [
            ...test.needs,
            ...test.readings.map(reading => ({
                guard: tests[reading]?.guard,
                state: { sort: 'taken' as const, test: reading },
            })),
        ],
    }));
}

/** The conditions that its outcomes name, and those on which the flows hang in which it stands. */
function conditionsThatChange(
    test: UnitTest | undefined,
    { conditions, flows }: Pick<Unit, 'conditions' | 'flows'>,
): readonly number[] {
    if (!test) return [];
    const found = new Set(test.entries.flatMap(({ when }) => conditionsIn(when)));
    const parts = new Set<number>();
    // The loop also visits the flows that feed those it knows.
    const seen = new Set([...test.flows, ...test.through.map(({ flow }) => flow)]);
    for (const number of seen) {
        const flow = flows[number];
        if (!flow) continue;
        for (const condition of conditionsIn(flow.when)) found.add(condition);
        for (const { from } of flow.fedBy) seen.add(from);
        visitPlaces(flow.chain, ({ when, part, flow: other }) => {
            for (const condition of conditionsIn(when)) found.add(condition);
            if (part !== undefined) parts.add(part);
            if (other !== undefined) seen.add(other);
        });
    }
    for (const { number, bypasses } of conditions) {
        if (bypasses.some(bypassed => bypassed.some(part => parts.has(part)))) found.add(number);
    }
    return [...found].sort((one, other) => one - other);
}

type Place = Extract<UnitChain[number], { readonly sort: 'place' }>;

function visitPlaces(chain: UnitChain, visit: (place: Place) => void): void {
    for (const element of chain) {
        if (element.sort === 'place') visit(element);
        else if (element.sort === 'group') for (const inner of element.chains) visitPlaces(inner, visit);
    }
}
