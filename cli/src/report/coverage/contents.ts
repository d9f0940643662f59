// What a report on coverage tells people: a sentence first, then what is not covered, then the figures, then each tree.

import {
    type Figures,
    listOf,
    plural,
    type Portion,
    quoteName,
    safetyNotice,
    type TreeCoverage,
} from 'halfsplit-language';
import type { Block, Column } from './blocks.js';
import {
    choiceNames,
    type CoverageReport,
    type CoveredEquipment,
    isAny,
    percent,
    percentInWords,
    resultWords,
} from './report.js';

/** The report as blocks, for text and for Markdown. */
export function coverageBlocks(report: CoverageReport): readonly Block[] {
    return [
        ...report.equipment.flatMap(one => equipmentBlocks(one, report.choices)),
        heading('How this is counted'),
        { sort: 'list', items: explanations },
        paragraph(safetyNotice()),
    ];
}

const explanations = [
    'Faults count by their rates, over all builds by their shares.',
    'A fault that a referral names counts as found. Whoever ends in one of several ways counts by the worst of them.',
    'Found is the fraction of faults detected. The columns after it are the fractions isolated: the part of what is found that is narrowed down to one part, to at most 2, to at most 3. Source: MIL-HDBK-2165 and IEEE 1522.',
];

function equipmentBlocks(one: CoveredEquipment, choices: readonly string[]): readonly Block[] {
    const { equipment, coverage, trees, isWhole, notWalked } = one;
    const limited = choices.length === 0 ? [] : [paragraph(`Only builds with ${quoted(choices)} count.`)];
    const left = isWhole ? coverage.notWalked : notWalked;
    const leftOut =
        left.length === 0
            ? []
            : [paragraph(`Left out, because they cannot be walked: ${quoted(left.map(({ name }) => name.text))}.`)];
    return [
        { sort: 'heading', level: 1, text: `Coverage of ${quoteName(equipment.name.text)}` },
        ...(isWhole ? [paragraph(summaryOf('the faults', coverage.fleet))] : trees.map(treeSummary)),
        ...limited,
        ...leftOut,
        ...(isWhole ? [paragraph(isolationOf(coverage.fleet)), ...sharedFaults(trees)] : []),
        ...gaps(one),
        ...(isWhole ? fleetTable(one) : []),
        ...(trees.length === 0 ? [] : [heading('By tree'), treeTable(trees)]),
        ...trees.flatMap(tree => treeBlocks(tree, one)),
    ];
}

function heading(text: string): Block {
    return { sort: 'heading', level: 2, text };
}

function paragraph(text: string): Block {
    return { sort: 'paragraph', text };
}

function quoted(names: readonly string[]): string {
    return listOf(names.map(quoteName), 'and');
}

/** What is covered and what is not, in one sentence. */
function summaryOf(whose: string, figures: Figures): string {
    if (figures.rate === 0) return `None of ${whose} ever comes, so there is nothing to find.`;
    const found = `${percentInWords(figures.found, figures.rate)} of ${whose}, counted by how often they come, are found`;
    const others: string[] = [];
    const add = (rate: number, words: string) => {
        if (isAny(rate, figures)) others.push(`${percentInWords(rate, figures.rate)} ${words}`);
    };
    add(figures.missed, 'are missed');
    add(figures.wrong, 'end wrongly');
    add(figures.lost, 'come to no end');
    add(figures.outOfScope, 'come to no tree');
    const sentence = others.length === 0 ? `${found}, and none is missed.` : `${found}; ${listOf(others, 'and')}.`;
    return sentence.replace(/^m/, 'M').replace(/^l/, 'L');
}

function treeSummary({ tree, figures }: TreeCoverage): Block {
    const name = quoteName(tree.name.text);
    if (figures.rate === 0) return paragraph(`No fault comes to ${name} that it does not hand on.`);
    return paragraph(`${summaryOf(`the faults that come to ${name}`, figures)} ${isolationOf(figures)}`);
}

function isolationOf({ isolated }: Figures): string {
    if (!isolated) return 'Nothing is found.';
    const [one, two, three] = isolated;
    if (percent(one) === '100 %') return 'Whatever is found is narrowed down to one part.';
    return `Of what is found, ${percentInWords(one)} is narrowed down to one part, ${percentInWords(two)} to at most 2 and ${percentInWords(three)} to at most 3.`;
}

/** Says how faults count that several trees judge, where there are any. */
function sharedFaults(trees: readonly TreeCoverage[]): readonly Block[] {
    const judged = trees.flatMap(({ faults }) => faults.filter(isJudged).map(({ fault }) => fault));
    const shared = new Set(judged.filter((fault, index) => judged.indexOf(fault) !== index));
    if (shared.size === 0) return [];
    const who = plural(shared.size, 'fault is', 'faults are');
    return [paragraph(`${who} judged by several trees; in these figures each counts in equal parts for all of them.`)];
}

/** The faults that are not found, list by list; those that hold nothing are left out. */
function gaps({ trees, coverage, isWhole }: CoveredEquipment): readonly Block[] {
    const inTrees = (fate: Portion['fate']) =>
        trees.flatMap(({ tree, faults, figures }) =>
            faults.flatMap(({ fault, portions }) =>
                portions
                    .filter(portion => portion.fate === fate)
                    .map(({ rate, end }) => {
                        const where = end ? `, at ${quoteName(end.written.name.text)}` : '';
                        const share = `${percentInWords(rate, figures.rate)} of what ${quoteName(tree.name.text)} judges`;
                        return { rate, text: `${quoteName(fault.name)}: ${share}${where}` };
                    }),
            ),
        );
    const outside = coverage.faults
        .filter(({ trees: scope, figures }) => scope.length === 0 || isAny(figures.outOfScope, coverage.fleet))
        .map(({ fault, trees: scope, figures }) => {
            const share = `${percentInWords(figures.outOfScope, coverage.fleet.rate)} of all faults`;
            const some =
                scope.length === 0 ? '' : `, in some units only (${percentInWords(figures.outOfScope, figures.rate)})`;
            return { rate: figures.outOfScope, text: `${quoteName(fault.name)}: ${share}${some}` };
        });
    const lists = [
        {
            title: 'Missed, and so unresolved: they end at a referral that does not name them',
            items: inTrees('missed'),
        },
        { title: 'Wrong: they end at a conclusion that is not right for them', items: inTrees('wrong') },
        { title: 'Lost: they come to no end', items: inTrees('lost') },
        { title: 'In no tree’s scope: they show no complaint of any tree', items: isWhole ? outside : [] },
    ];
    return lists.flatMap(({ title, items }): Block[] => {
        const texts = largestFirst(items).map(({ text }) => text);
        return texts.length === 0 ? [] : [heading(title), { sort: 'list', items: texts }];
    });
}

/** The largest rate first; equal ones in the order in which they stand. */
function largestFirst<T extends { readonly rate: number }>(items: readonly T[]): readonly T[] {
    const rounded = (rate: number) => Number(rate.toPrecision(12));
    return [...items].sort((one, other) => rounded(other.rate) - rounded(one.rate));
}

const words = (title: string): Column => ({ title, isNumber: false });
const number = (title: string): Column => ({ title, isNumber: true });

const figureColumns = ['found', '1 part', '2 parts', '3 parts', 'missed', 'wrong', 'lost'].map(number);

function figureCells({ rate, found, isolated, missed, wrong, lost }: Figures): readonly string[] {
    const isolation = isolated ? isolated.map(one => percent(one)) : ['none', 'none', 'none'];
    return [percent(found, rate), ...isolation, ...[missed, wrong, lost].map(one => percent(one, rate))];
}

function fleetTable({ coverage, equipment }: CoveredEquipment): readonly Block[] {
    const { fleet, builds, buildsAre } = coverage;
    const row = (name: string, share: number, figures: Figures) => [
        name,
        percent(share),
        ...figureCells(figures),
        percent(figures.outOfScope, figures.rate),
    ];
    const rows = [row('all builds', 1, fleet)];
    if (builds.length > 1) {
        for (const build of builds) {
            rows.push(row(choiceNames(build, equipment).join(', '), build.share, build.figures));
        }
    }
    const columns = [words('builds'), number('share'), ...figureColumns, number('no tree')];
    const title = buildsAre === 'builds' ? 'By build' : 'By choice, because there are many builds';
    return [heading(title), { sort: 'table', columns, rows }];
}

function treeTable(trees: readonly TreeCoverage[]): Block {
    const rows = trees.map(({ tree, faults, figures }) => [
        quoteName(tree.name.text),
        String(faults.filter(isJudged).length),
        ...figureCells(figures),
    ]);
    return { sort: 'table', columns: [words('tree'), number('faults'), ...figureColumns], rows };
}

function isJudged({ portions }: TreeCoverage['faults'][number]): boolean {
    return portions.some(({ fate }) => fate !== 'handed on');
}

function treeBlocks(covered: TreeCoverage, { isWhole, equipment }: CoveredEquipment): readonly Block[] {
    const { tree, figures, faults, builds } = covered;
    const judged = faults.flatMap(({ fault, portions }) =>
        portions.filter(({ fate }) => fate !== 'handed on').map(portion => ({ fault, ...portion })),
    );
    const rows = largestFirst(judged).map(one => [
        quoteName(one.fault.name),
        percent(one.rate, figures.rate),
        resultWords(one),
        one.end ? quoteName(one.end.written.name.text) : 'no end',
    ]);
    const columns = [words('fault'), number('share'), words('result'), words('end')];
    const count = plural(faults.length, 'fault comes', 'faults come');
    const buildRows = builds
        .filter(build => build.figures.rate > 0)
        .map(build => [choiceNames(build, equipment).join(', '), percent(build.share), ...figureCells(build.figures)]);
    return [
        heading(`Tree ${quoteName(tree.name.text)}`),
        paragraph(`${count} to this tree.`),
        ...handedOn(covered),
        ...(rows.length === 0 ? [] : [{ sort: 'table', columns, rows } as const]),
        ...(isWhole || buildRows.length < 2
            ? []
            : [
                  heading(`Tree ${quoteName(tree.name.text)} by build`),
                  {
                      sort: 'table',
                      columns: [words('builds'), number('share'), ...figureColumns],
                      rows: buildRows,
                  } as const,
              ]),
    ];
}

/** The faults that other trees go on with, by tree. */
function handedOn({ faults }: TreeCoverage): readonly Block[] {
    const given = new Map<string, string[]>();
    for (const { fault, portions } of faults) {
        for (const { to } of portions) {
            if (to) given.set(to.name.text, [...(given.get(to.name.text) ?? []), quoteName(fault.name)]);
        }
    }
    return [...given].map(([to, names]) =>
        paragraph(`Handed on to ${quoteName(to)}, and judged there: ${listOf(names, 'and')}.`),
    );
}
