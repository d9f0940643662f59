/**
 * Chances and coverage of the walk against values from outside. The equipment around each value is invented; the values are
 * not ours, and how each was had stands beside it.
 */
import { describe, expect, test } from 'vitest';
import { coverageOf } from '../../language/src/core/walk/coverage.js';
import { suspectsAt } from '../../language/src/core/walk/suspects.js';
import type { RouteWalk } from '../../language/src/core/walk/walk-route.js';
import { crowdsAt, walkOf, walkTexts } from '../support/walk-texts.js';

describe('Bayes: a fault of one in a hundred, a test that shows 80 % of them and 9.6 % of the others', () => {
    // D. M. Eddy 1982, as retold by G. Gigerenzer (text seen second-hand): prevalence 0.01, sensitivity 0.80,
    // false positive rate 0.096; the posterior is 0.01 * 0.80 / (0.01 * 0.80 + 0.99 * 0.096), recomputed.
    const published = 0.0776398;

    test('when the others are healthy units whose reading counts as wrong in some builds', () => {
        // The language has no false alarm of a healthy unit: it always reads normal. What a normal reading means may differ by
        // build, though. So the builds are divided into those in which both are taken for faulty (9.6 %), only the faulty one
        // is (70.4 %, so that it is 80 % in all), and none is.
        const walk = walkOf(`equipment unit "Unit" {
  option reader { eager share 9.6 %  right share 70.4 %  blind share 20 % }
  part core { fault bad rate 1 per 1e6 h { makes reading normal for blind } }
  test seen { checks core.bad as found observe by eye normal found }
  test reading { checks core.bad as wrong observe by eye normal wrong }
}
tree screened of unit {
  complaint seen found mistaken 99 %
  step screen {
    test reading { wrong -> positive  normal -> positive for eager  normal -> negative for right or blind }
  }
  step positive { go bad-core }
  step negative { go fine }
  conclude bad-core { core.bad }
  refer fine because "it reads right"
}`);
        expect(posterior('core.bad', 'screen', walk)).toBeCloseTo(0.01, 12);
        expect(posterior('core.bad', 'positive', walk)).toBeCloseTo(published, 7);
        expect(suspectsAt(walk, crowdsAt('positive', walk)).chance).toBeCloseTo(0.01 * 0.8 + 0.99 * 0.096, 12);
    });

    test('when the others have a harmless fault that the test takes for the bad one in some builds', () => {
        const walk = walkOf(`equipment unit "Unit" {
  option catching { catches share 80 %  misses share 20 % }
  option crying { cries share 9.6 %  rests share 90.4 % }
  part core {
    fault bad rate 1 per 1e6 h { makes reading wrong for catches makes reading normal for misses }
    fault harmless rate 99 per 1e6 h { makes reading wrong for cries makes reading normal for rests }
  }
  test seen { checks core.bad as found, core.harmless as found observe by eye normal found }
  test reading { observe by eye normal wrong }
}
tree screened of unit {
  complaint seen found
  step screen { test reading { wrong -> positive  normal -> negative } }
  step positive { go core }
  step negative { go core }
  conclude core { core }
}`);
        expect(posterior('core.bad', 'positive', walk)).toBeCloseTo(published, 7);
        // Negative: 0.01 * 0.2 / (0.01 * 0.2 + 0.99 * 0.904), recomputed.
        expect(posterior('core.bad', 'negative', walk)).toBeCloseTo(0.002 / (0.002 + 0.99 * 0.904), 12);
    });

    test('when the sensitivity comes from outcomes that the model leaves open', () => {
        // Four of five possible readings count as positive: 80 %.
        const walk = walkOf(`equipment unit "Unit" {
  option crying { cries share 9.6 %  rests share 90.4 % }
  part core { fault bad rate 1 per 1e6 h { makes reading r1 or r2 or r3 or r4 or r5 } }
  part other { fault harmless rate 99 per 1e6 h { makes reading r1 for cries makes reading normal for rests } }
  test seen { checks core.bad as found, other.harmless as found observe by eye normal found }
  test reading { observe by eye normal r1 r2 r3 r4 r5 }
}
tree screened of unit {
  complaint seen found
  step screen { test reading { r1, r2, r3, r4 -> positive  r5, normal -> negative } }
  step positive { go bad-core }
  step negative { go harmless }
  conclude bad-core { core.bad }
  conclude harmless { other.harmless }
}`);
        expect(posterior('core.bad', 'positive', walk)).toBeCloseTo(published, 7);
    });
});

function posterior(fault: string, place: string, walk: RouteWalk): number {
    const { suspects } = suspectsAt(walk, crowdsAt(place, walk));
    return suspects.find(one => one.fault?.name === fault)?.chance ?? 0;
}

describe('half-split: the mean number of tests to find one of N equally likely parts of a chain', () => {
    // (N(k + 1) - 2^k) / N with k the least integer not below log2 N: D. E. Knuth, The Art of Computer Programming,
    // sections 5.3.1 and 6.2.1, from memory; the values are recomputed.
    test.each([
        [4, 2],
        [5, 2.4],
        [6, 2.6667],
        [8, 3],
        [10, 3.4],
        [16, 4],
    ])('is for %i parts %f', (count, mean) => {
        const walk = walkOf(chain(count) + halfSplit(count));
        expect(meanTests(walk)).toBeCloseTo(mean, 4);
        const k = Math.ceil(Math.log2(count));
        expect(meanTests(walk)).toBeCloseTo((count * (k + 1) - 2 ** k) / count, 12);
        for (const crowds of walk.ends) expect(suspectsAt(walk, crowds).chance).toBeCloseTo(1 / count, 12);
    });

    test('is for 16 parts in their order 8.4375', () => {
        // (N - 1)(N + 2) / (2N), the last part being inferred: recomputed from the same premises.
        const walk = walkOf(chain(16) + inOrder(16));
        expect(meanTests(walk)).toBeCloseTo(8.4375, 12);
    });
});

/** How many steps with a test those who arrive go through on average. */
function meanTests(walk: RouteWalk): number {
    return walk.route.stations
        .filter(({ actions }) => actions.some(({ sort }) => sort === 'ask'))
        .reduce(
            (sum, { number }) => sum + suspectsAt(walk, walk.stations[number] ?? new Map<number, number>()).chance,
            0,
        );
}

/** Parts in a row, each with a test point behind it; the last point is where the complaint is noticed. */
function chain(count: number): string {
    const numbers = Array.from({ length: count }, (_, index) => index + 1);
    return `equipment chain "Chain" {
${numbers.map(number => `  part p${number} { fault open rate 2 per 1e6 h }`).join('\n')}
  flow line: ${numbers.map(number => `p${number} -> [t${number}]`).join(' -> ')}
${numbers.map(number => `  test t${number} { observe by eye normal absent shows stopped }`).join('\n')}
}
`;
}

function chainTree(count: number, first: string, steps: readonly string[]): string {
    const ends = Array.from({ length: count }, (_, index) => `  conclude bad-p${index + 1} { p${index + 1}.open }`);
    return `tree dead of chain {
  complaint t${count} absent
  step begin { go ${first} }
${[...steps, ...ends].join('\n')}
}`;
}

/** A tree that asks at the middle of what is left. */
function halfSplit(count: number): string {
    const steps: string[] = [];
    const split = (from: number, to: number): string => {
        if (from === to) return `bad-p${from}`;
        const middle = from + Math.floor((to - from + 1) / 2) - 1;
        const [before, after] = [split(from, middle), split(middle + 1, to)];
        steps.push(`  step from-${from}-to-${to} { test t${middle} { normal -> ${after}  absent -> ${before} } }`);
        return `from-${from}-to-${to}`;
    };
    const first = split(1, count);
    return chainTree(count, first, steps);
}

/** A tree that asks at one point after the other. */
function inOrder(count: number): string {
    const steps = Array.from({ length: count - 1 }, (_, index) => {
        const number = index + 1;
        const next = number === count - 1 ? `bad-p${count}` : `at-${number + 1}`;
        return `  step at-${number} { test t${number} { normal -> ${next}  absent -> bad-p${number} } }`;
    });
    return chainTree(count, 'at-1', steps);
}

describe('Huffman: the least mean number of tests where any group of parts can be tested', () => {
    // Cormen, Leiserson, Rivest, Stein, Introduction to Algorithms, the figure of the section on Huffman codes (16.3 in the
    // third edition, 15.3 in the fourth), values seen second-hand: lengths 1, 3, 3, 3, 4, 4, so 224 for a weight of 100.
    const weights = { a: 45, b: 13, c: 12, d: 16, e: 9, f: 5 };
    const lengths = { a: 1, b: 3, c: 3, d: 3, e: 4, f: 4 };

    test('is 2.24 for the weights 45, 13, 12, 16, 9 and 5', () => {
        const walk = walkOf(huffman(Object.entries(weights).map(([name, weight]) => ({ names: [name], weight }))));
        expect(meanTests(walk)).toBeCloseTo(2.24, 12);
        for (const [name, weight] of Object.entries(weights)) {
            expect(suspectsAt(walk, crowdsAt(`bad-${name}`, walk)).chance).toBeCloseTo(weight / 100, 12);
            expect(testsOnTheWayOf(name, walk)).toBe(lengths[name as keyof typeof lengths]);
        }
    });
});

function testsOnTheWayOf(name: string, walk: RouteWalk): number {
    return walk.route.stations.filter(
        ({ number, actions }) =>
            actions.some(({ sort }) => sort === 'ask') &&
            suspectsAt(walk, walk.stations[number] ?? new Map<number, number>()).suspects.some(
                one => one.fault?.name === `${name}.bad`,
            ),
    ).length;
}

interface Weighed {
    readonly names: readonly string[];
    readonly weight: number;
    /** The step that tells them apart, and what it says. */
    readonly step?: string;
    readonly steps?: readonly string[];
    readonly tests?: readonly string[];
}

/** An equipment and a tree: the two lightest groups are joined, again and again, by a test that tells them apart. */
function huffman(parts: readonly Weighed[]): string {
    let groups = [...parts];
    for (let number = 1; groups.length > 1; number += 1) {
        const [one, other, ...rest] = groups.sort((first, second) => first.weight - second.weight);
        if (!one || !other) break;
        const target = ({ step, names }: Weighed) => step ?? `bad-${names[0]}`;
        const checks = one.names.map(name => `${name}.bad as found`).join(', ');
        groups = [
            ...rest,
            {
                names: [...one.names, ...other.names],
                weight: one.weight + other.weight,
                step: `s${number}`,
                steps: [
                    ...(one.steps ?? []),
                    ...(other.steps ?? []),
                    `  step s${number} { test t${number} { found -> ${target(one)}  normal -> ${target(other)} } }`,
                ],
                tests: [
                    ...(one.tests ?? []),
                    ...(other.tests ?? []),
                    `  test t${number} { checks ${checks} observe by eye normal found }`,
                ],
            },
        ];
    }
    const names = parts.flatMap(one => one.names);
    const rates = parts.map(one => `  part ${one.names[0]} { fault bad rate ${one.weight} per 1e6 h }`);
    const [whole] = groups;
    return `equipment set "Set" {
${rates.join('\n')}
  test works { checks ${names.map(name => `${name}.bad as absent`).join(', ')} observe by eye normal absent }
${whole?.tests?.join('\n')}
}
tree broken of set {
  complaint works absent
  step begin { go ${whole?.step} }
${whole?.steps?.join('\n')}
${names.map(name => `  conclude bad-${name} { ${name}.bad }`).join('\n')}
}`;
}

describe('testability: fractions of faults detected and isolated', () => {
    // The formulas are those of MIL-STD-2165 (1985), appendix A, later MIL-HDBK-2165, and IEEE 1522-2004, from memory. The
    // numbers are a constructed example and no published one: rates 50, 20, 10, 15 and 5; the signatures of the faults over
    // four tests are 1000, 0100, 0100, 0010 and 0000.
    const rates = [50, 20, 10, 15, 5];
    const board = (fifth: string) =>
        `equipment board "Board" {
${rates.map((rate, index) => `  part p${index + 1} { fault bad rate ${rate} per 1e6 h }`).join('\n')}
  test works { checks p1 as absent, p2 as absent, p3 as absent, p4 as absent${fifth} observe by eye normal absent }
  test t1 { checks p1.bad as fails observe by eye normal fails }
  test t2 { checks p2.bad as fails, p3.bad as fails observe by eye normal fails }
  test t3 { checks p4.bad as fails observe by eye normal fails }
  test t4 { observe by eye normal fails }
}
tree dead of board {
  complaint works absent
  step s1 { test t1 { fails -> first  normal -> s2 } }
  step s2 { test t2 { fails -> second-or-third  normal -> s3 } }
  step s3 { test t3 { fails -> fourth  normal -> s4 } }
  step s4 { test t4 { fails -> none  normal -> none } }
  conclude first { p1.bad }
  conclude second-or-third { p2.bad, p3.bad }
  conclude fourth { p4.bad }
  refer none because "no test fails"
}`.replaceAll(/(p\d) as/g, '$1.bad as');

    test.each([
        ['comes to the tree and is not told there', ', p5 as absent', 'missed'],
        ['comes to no tree', '', 'outOfScope'],
    ] as const)('are the same whether the fault without a signature %s', (_, fifth, where) => {
        const { fleet } = coverageOf(walkTexts(board(fifth)));
        expect(fleet.detected).toBeCloseTo(0.95, 12);
        expect(fleet[where]).toBeCloseTo(5e-6, 15);
        expect(fleet.isolated?.[0]).toBeCloseTo(0.684211, 6);
        expect(fleet.isolated?.slice(1)).toEqual([1, 1]);
        const ambiguity = fleet.byParts.reduce((sum, rate, parts) => sum + rate * parts, 0) / fleet.found;
        expect(ambiguity).toBeCloseTo(1.315789, 6);
    });
});
