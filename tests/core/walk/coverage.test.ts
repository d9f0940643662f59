/** What the trees of an equipment find of its faults. */
import { describe, expect, test } from 'vitest';
import { type Coverage, coverageOf, type Figures } from '../../../language/src/core/walk/coverage.js';
import { walkTexts } from '../../support/walk-texts.js';

const bulbs = (count: number) =>
    Array.from(
        { length: count },
        (_, index) => `  part b${index} "Bulb ${index}" { fault out rate ${index + 1} per 1e6 h }\n`,
    );

/** An equipment with the bulbs `b0` to `b3`, of the rates 1 to 4, in a row; each is looked at by a test of its own. */
const row = (more = '') => `equipment row "Row of lamps" {
${bulbs(4).join('')}${more}  flow light: b0 -> b1 -> b2 -> b3 -> [shines]
  test shines { observe by eye normal absent shows stopped }
${[0, 1, 2, 3].map(index => `  test look${index} { checks b${index}.out as bad observe by eye normal bad }\n`).join('')}}
`;

/** The results of every fault in every tree: `fault: result at end rate`, the rate in parts of a million hours. */
function resultsOf({ trees }: Coverage): string[] {
    return trees.flatMap(({ faults }) =>
        faults.map(({ fault, portions }) => {
            const results = portions.map(({ fate, end, to, parts, rate }) => {
                const where = end ? ` at ${end.written.name.text}` : to ? ` to ${to.name.text}` : '';
                return `${fate}${parts > 1 ? ` ${parts}` : ''}${where} ${perMillion(rate)}`;
            });
            return `${fault.name}: ${results.join(', ')}`;
        }),
    );
}

function perMillion(rate: number): number {
    return Number((rate * 1e6).toPrecision(9));
}

/** The amounts of some figures that are not zero, in parts of a million hours. */
function amountsOf(figures: Figures): Record<string, number> {
    const { rate, found, handedOver, missed, wrong, lost, outOfScope, handedOn } = figures;
    const all = { rate, found, handedOver, missed, wrong, lost, outOfScope, handedOn };
    return Object.fromEntries(
        Object.entries(all)
            .filter(([, amount]) => amount !== 0)
            .map(([name, amount]) => [name, perMillion(amount)]),
    );
}

function cover(text: string): Coverage {
    return coverageOf(walkTexts(text));
}

describe('the result of a fault in a tree', () => {
    test('is found alone, found in a group, missed, or wrong, by the end to which it comes', () => {
        const coverage = cover(`${row()}tree dark of row {
  complaint shines absent
  step s0 { test look0 { bad -> first  normal -> s1 } }
  step s1 { test look1 { bad -> ask  normal -> s2 } }
  step s2 { test look2 { bad -> first  normal -> others } }
  conclude first { b0.out }
  conclude others { b3.out, b1.out }
  refer ask because "nobody knows"
}`);
        expect(resultsOf(coverage)).toEqual([
            'b0.out: found at first 1',
            'b1.out: missed at ask 2',
            'b2.out: wrong at first 3',
            'b3.out: found 2 at others 4',
        ]);
        expect(amountsOf(coverage.fleet)).toEqual({ rate: 10, found: 5, missed: 2, wrong: 3 });
        expect(coverage.fleet.detected).toBeCloseTo(0.5, 12);
        expect(coverage.fleet.isolated).toEqual([0.2, 1, 1]);
        expect(coverage.fleet.byParts.map(perMillion)).toEqual([0, 1, 4]);
    });

    test('is handed over where a referral names it, though not what it causes', () => {
        const coverage =
            cover(`${row('  part fuse { fault blown only when caused }\n').replace('rate 1 per 1e6 h', 'rate 1 per 1e6 h { causes fuse.blown }')}
tree dark of row {
  complaint shines absent
  step s0 { test look0 { bad -> call  normal -> others } }
  refer call because "it is not ours" { b0.out }
  refer others because "they are not ours" { b1.out, b2.out, b3.out }
}`);
        expect(resultsOf(coverage)).toEqual([
            'b0.out: handed over at call 1',
            'b1.out: handed over 3 at others 2',
            'b2.out: handed over 3 at others 3',
            'b3.out: handed over 3 at others 4',
        ]);
        expect(amountsOf(coverage.fleet)).toEqual({ rate: 10, found: 10, handedOver: 10 });
        expect(coverage.fleet.isolated).toEqual([0.1, 0.1, 1]);
    });

    test('is wrong at a conclusion that leaves out an effect which is still there', () => {
        const coverage =
            cover(`${row('  part fuse { fault blown only when caused }\n').replace('rate 1 per 1e6 h', 'rate 1 per 1e6 h { causes fuse.blown }')}
tree dark of row {
  complaint shines absent
  step s0 { test look0 { bad -> half  normal -> others } }
  conclude half { b0.out }
  conclude others { b1, b2, b3 }
}`);
        expect(resultsOf(coverage)[0]).toBe('b0.out: wrong at half 1');
    });

    test('is lost where a build lacks the way on, where nothing leads on, and in a circle', () => {
        const coverage = cover(`${row('  option age { old share 25 %  new share 75 % }\n')}tree dark of row {
  complaint shines absent
  step s0 { test look0 { bad -> old-way  normal -> s1 } }
  step s1 { test look1 { bad -> round  normal -> s2 } }
  step s2 { test look2 { bad -> stuck  normal -> last } }
  step stuck { go last for old }
  step round { test look1 { bad -> back  normal -> last } }
  step back { go round }
  conclude old-way for old { b0.out }
  conclude last { b2.out, b3.out }
}`);
        expect(resultsOf(coverage)).toEqual([
            'b0.out: found at old-way 0.25, lost 0.75',
            'b1.out: lost 2',
            'b2.out: found 2 at last 0.75, lost 2.25',
            'b3.out: found 2 at last 4',
        ]);
        expect(amountsOf(coverage.fleet)).toEqual({ rate: 10, found: 5, lost: 5 });
    });

    test('is the worst of the ways that it can go', () => {
        const coverage = cover(`equipment toy "Toy" {
  part wire { fault loose comes and goes rate 8 per 1e6 h }
  part cell { fault flat rate 2 per 1e6 h }
  flow current: wire -> cell -> [runs]
  test runs { observe by eye normal absent shows stopped }
  test wiggle { checks wire.loose as bad observe by eye normal bad }
}
tree stands of toy {
  complaint runs absent
  step try { test runs { normal -> fine  absent -> wire } }
  step wire { test wiggle { bad -> loose-wire  normal -> flat-cell } }
  conclude loose-wire { wire.loose }
  conclude flat-cell { cell.flat }
  refer fine because "it runs"
}`);
        // Whoever sees it run is sent away, whoever sees it stand may still blame the cell: that is worse.
        expect(resultsOf(coverage)).toEqual(['wire.loose: wrong at flat-cell 8', 'cell.flat: found at flat-cell 2']);
    });

    test('is divided between the outcomes that the model leaves open', () => {
        const coverage = cover(`equipment horn "Horn" {
  part horn { fault bad rate 6 per 1e6 h { makes sound low or high or absent } }
  test sound { observe by ear normal low high absent }
}
tree bad-sound of horn {
  complaint sound low, high, absent
  step hear { test sound { normal -> fine  low, high -> bad-horn  absent -> fine } }
  conclude bad-horn { horn.bad }
  refer fine because "it sounds"
}`);
        expect(resultsOf(coverage)).toEqual(['horn.bad: found at bad-horn 4, missed at fine 2']);
    });
});

describe('a group', () => {
    const ends = (names: string) => `tree dark of row {
  complaint shines absent
  step s0 { test look0 { bad -> some  normal -> rest } }
  conclude some { ${names} }
  conclude rest { b1, b2, b3 }
}`;

    test('counts each part once', () => {
        const text = row().replace('b0 "Bulb 0" {', 'b0 "Bulb 0" { fault dim weakens rate 5 per 1e6 h');
        expect(resultsOf(cover(text + ends('b0.out, b0.dim')))[0]).toBe('b0.out: found at some 1');
    });

    test('leaves out what another fault of it causes, at any number of removes, where it does so', () => {
        const chain = `  option fuses { slow share 20 %  quick share 80 % }
  part fuse { fault blown only when caused { causes relay.dropped } }
  part relay { fault dropped only when caused }
`;
        const text = row(chain).replace(
            'b0 "Bulb 0" { fault out rate 1 per 1e6 h',
            'b0 "Bulb 0" { fault out rate 1 per 1e6 h { causes fuse.blown for quick }',
        );
        expect(resultsOf(cover(text + ends('b0.out, fuse.blown, relay.dropped')))[0]).toBe(
            // In slow builds the relay still goes with the fuse that it is named with.
            'b0.out: found at some 0.8, found 2 at some 0.2',
        );
        expect(resultsOf(cover(text + ends('b0.out, relay.dropped, fuse.blown for quick')))[0]).toBe(
            'b0.out: found at some 0.8, found 2 at some 0.2',
        );
    });

    test('counts only the faults that exist and are named in the build', () => {
        const text = row('  option age { old share 25 %  new share 75 % }\n')
            .replace('part b1 "Bulb 1" {', 'part b1 "Bulb 1" for old {')
            .replace('-> b1 ->', '-> b1 for old ->');
        const found = resultsOf(
            cover(text.replace('test look1 {', 'test look1 for old {') + ends('b0.out, b1.out, b2.out for old')),
        );
        expect(found[0]).toBe('b0.out: found at some 0.75, found 3 at some 0.25');
    });

    test('of faults that cause each other is one part', () => {
        const text = row()
            .replace('rate 1 per 1e6 h', 'rate 1 per 1e6 h { causes b1.out }')
            .replace('rate 2 per 1e6 h', 'rate 2 per 1e6 h { causes b0.out }');
        expect(resultsOf(cover(text + ends('b0.out, b1.out')))[0]).toBe('b0.out: found at some 1');
    });
});

describe('several trees', () => {
    const second = `tree dark-too of row {
  complaint shines absent
  step s0 { test look0 { bad -> first  normal -> ask } }
  conclude first { b0.out }
  refer ask because "nobody knows"
}
`;
    const first = `tree dark of row {
  complaint shines absent
  step s0 { go all }
  conclude all { b0, b1, b2, b3 }
}
`;

    test('share the rate of a fault that both judge', () => {
        const coverage = cover(row() + first + second);
        expect(coverage.trees.map(({ figures }) => amountsOf(figures))).toEqual([
            { rate: 10, found: 10 },
            { rate: 10, found: 1, missed: 9 },
        ]);
        expect(amountsOf(coverage.fleet)).toEqual({ rate: 10, found: 5.5, missed: 4.5 });
        expect(coverage.fleet.byParts.map(perMillion)).toEqual([0, 0.5, 0, 0, 5]);
        expect(coverage.faults[1]?.trees.map(({ name }) => name.text)).toEqual(['dark', 'dark-too']);
        expect(amountsOf(coverage.faults[1]?.figures as Figures)).toEqual({ rate: 2, found: 1, missed: 1 });
    });

    test('of different builds share nothing', () => {
        const builds = row('  option age { old share 25 %  new share 75 % }\n');
        const coverage = cover(
            builds + first.replace('of row', 'of row for old') + second.replace('of row', 'of row for new'),
        );
        expect(amountsOf(coverage.fleet)).toEqual({ rate: 10, found: 2.5 + 0.75, missed: 6.75 });
    });

    test('judge what is handed on where it is handed on to', () => {
        const giving = `tree dim of row {
  complaint look1 bad
  complaint look2 bad
  step s1 { test look1 { bad -> give  normal -> wrong } }
  step give { continue with dark }
  conclude wrong { b3.out }
}
`;
        const coverage = cover(row() + giving + first);
        expect(resultsOf(coverage).slice(0, 2)).toEqual(['b1.out: handed on to dark 2', 'b2.out: wrong at wrong 3']);
        expect(coverage.trees.map(({ figures }) => amountsOf(figures))).toEqual([
            { rate: 3, wrong: 3, handedOn: 2 },
            { rate: 10, found: 10 },
        ]);
        // The first fault is judged by one tree only, the second half by each.
        expect(amountsOf(coverage.fleet)).toEqual({ rate: 10, found: 8.5, wrong: 1.5 });
    });

    test('that hand on to each other for ever lose what they hand on', () => {
        const circle = (name: string, other: string) =>
            `tree ${name} of row { complaint shines absent step give { continue with ${other} } }\n`;
        const coverage = cover(row() + circle('one', 'two') + circle('two', 'one'));
        expect(coverage.trees.map(({ figures }) => amountsOf(figures))).toEqual([{ handedOn: 10 }, { handedOn: 10 }]);
        expect(amountsOf(coverage.fleet)).toEqual({ rate: 10, lost: 10 });
        expect(coverage.trees[0]?.figures.detected).toBeUndefined();
        expect(coverage.fleet.isolated).toBeUndefined();
    });

    test('that are left out find nothing', () => {
        const walks = walkTexts(row() + first + second);
        const [tree] = walks.trees.map(one => one.tree);
        const coverage = coverageOf(walks, { without: new Set(tree ? [tree] : []) });
        expect(coverage.notWalked).toEqual([tree]);
        expect(amountsOf(coverage.fleet)).toEqual({ rate: 10, found: 1, missed: 9 });
    });

    test('without any step are not walked', () => {
        const coverage = cover(`${row()}tree dark of row {\n  complaint shines absent\n}\n`);
        expect(coverage.notWalked.map(({ name }) => name.text)).toEqual(['dark']);
        expect(amountsOf(coverage.fleet)).toEqual({ rate: 10, outOfScope: 10 });
    });
});

describe('the faults that count', () => {
    test('are those in no tree’s scope too, as not detected', () => {
        const coverage = cover(`${row()}tree first-only of row {
  complaint look0 bad
  step s0 { test look0 { bad -> first  normal -> fine } }
  conclude first { b0.out }
  refer fine because "it shines"
}`);
        expect(amountsOf(coverage.fleet)).toEqual({ rate: 10, found: 1, outOfScope: 9 });
        expect(coverage.fleet.detected).toBeCloseTo(0.1, 12);
        expect(coverage.faults.map(({ trees }) => trees.length)).toEqual([1, 0, 0, 0]);
        // What is out of scope does not come to the tree.
        expect(amountsOf(coverage.trees[0]?.figures as Figures)).toEqual({ rate: 1, found: 1 });
    });

    test('are not those that only others cause, nor those of other builds', () => {
        const coverage = cover(
            row(`  option age { old share 25 %  new share 75 % }
  part fuse { fault blown only when caused }
  part relay { fault stuck rate 8 per 1e6 h { only when caused for old } }
  part cap for old { fault open rate 4 per 1e6 h }
`),
        );
        const rates = coverage.faults.map(({ fault, figures }) => `${fault.name} ${perMillion(figures.rate)}`);
        expect(rates).toEqual(['b0.out 1', 'b1.out 2', 'b2.out 3', 'b3.out 4', 'relay.stuck 6', 'cap.open 1']);
    });

    test('are those of the builds that are asked about, at the rates of these', () => {
        const walks = walkTexts(`equipment pump "Pump" {
  option use { rare share 90 % duty 2 starts per h  often share 10 % duty 30 starts per h }
  part motor { fault worn rate 5 per 1e6 starts }
  test runs { checks motor.worn as absent observe by ear normal absent }
}
tree silent of pump {
  complaint runs absent
  step s { test runs { absent -> bad for rare  absent -> ask for often  normal -> ask } }
  conclude bad { motor.worn }
  refer ask because "nobody knows"
}`);
        const { sets, variables } = walks.around.space;
        const [use = -1] = variables.options.values();
        const within = (value: number) => coverageOf(walks, { within: sets.is(use, value) });
        expect(amountsOf(coverageOf(walks).fleet)).toEqual({ rate: 24, found: 9, missed: 15 });
        expect(amountsOf(within(0).fleet)).toEqual({ rate: 10, found: 10 });
        expect(amountsOf(within(1).fleet)).toEqual({ rate: 150, missed: 150 });
        expect(resultsOf(within(1))).toEqual(['motor.worn: missed at ask 150']);
    });
});

describe('the builds', () => {
    const options = (count: number) =>
        Array.from({ length: count }, (_, index) => `  option o${index} { a${index} share 75 %  z${index} }\n`).join(
            '',
        );
    const tree = `tree dark of row for a0 {
  complaint shines absent
  step s0 { go all }
  conclude all { b0, b1, b2, b3 }
}`;
    const listed = ({ builds }: Coverage) =>
        builds.map(
            ({ choices, share, figures }) =>
                `${[...choices.values()].map(({ name }) => name.text).join(' ')}: ${share.toFixed(4)} ${Number(figures.detected?.toFixed(9) ?? NaN)}`,
        );

    test('stand one by one, without those that are never made', () => {
        const coverage = cover(row(`${options(2)}  exclude z0 with z1\n`) + tree);
        expect(coverage.buildsAre).toBe('builds');
        expect(listed(coverage)).toEqual(['a0 a1: 0.6000 1', 'a0 z1: 0.2000 1', 'z0 a1: 0.2000 0']);
        expect(listed({ ...coverage, builds: coverage.trees[0]?.builds ?? [] })).toEqual([
            'a0 a1: 0.6000 1',
            'a0 z1: 0.2000 1',
            'z0 a1: 0.2000 NaN',
        ]);
    });

    test('leave out options that they lack', () => {
        const guarded = '  option o0 { a0 share 75 %  z0 }\n  option o1 for a0 { a1 share 75 %  z1 }\n';
        expect(listed(cover(row(guarded) + tree))).toEqual(['a0 a1: 0.5625 1', 'a0 z1: 0.1875 1', 'z0: 0.2500 0']);
    });

    test('are one where there are no options', () => {
        const coverage = cover(row() + tree.replace(' for a0', ''));
        expect(listed(coverage)).toEqual([': 1.0000 1']);
        expect(amountsOf(coverage.builds[0]?.figures as Figures)).toEqual(amountsOf(coverage.fleet));
    });

    test('stand choice by choice where there are more than 64 of them', () => {
        expect(cover(row(options(6)) + tree).builds).toHaveLength(64);
        const coverage = cover(row(options(7)) + tree);
        expect(coverage.buildsAre).toBe('choices');
        expect(listed(coverage).slice(0, 4)).toEqual([
            'a0: 0.7500 1',
            'z0: 0.2500 0',
            'a1: 0.7500 0.75',
            'z1: 0.2500 0.75',
        ]);
        expect(coverage.builds).toHaveLength(14);
    });

    test('add to the fleet when each counts by its share', () => {
        const coverage = cover(row(`${options(3)}  exclude z0 with z1\n`) + tree);
        const { fleet, builds } = coverage;
        for (const amount of ['rate', 'found', 'outOfScope'] as const) {
            const sum = builds.reduce((all, { share, figures }) => all + share * figures[amount], 0);
            expect(sum).toBeCloseTo(fleet[amount], 12);
            expect(sum).toBeGreaterThan(0);
        }
    });
});
