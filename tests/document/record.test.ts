/** The record of the verification in a document: the same for the same input, valid, and honest where something could not be told. */
import { describe, expect, test } from 'vitest';
import { type CoverageAnswer, coverageOfTrees } from '../../language/src/core/questions/coverage.js';
import { defaultSettings } from '../../language/src/core/findings/settings.js';
import type { Model } from '../../language/src/core/model/model.js';
import type { Tree } from '../../language/src/core/model/trees.js';
import { prettyJson } from '../../language/src/document/canonical.js';
import { sliceToBuild } from '../../language/src/document/slice.js';
import type { TreeDocument } from '../../language/src/document/types.js';
import { writeTreeDocument } from '../../language/src/document/writing/write-tree-document.js';
import { rules } from '../../language/src/rules/index.js';
import { type Files, filesOf, readFiles, schemaErrors, tool } from './support.js';

const files = filesOf('examples/dust-extractor');

function treesIn(model: Model): readonly Tree[] {
    return [...model.files.values()].flatMap(file => file.trees).sort((a, b) => (a.name.text < b.name.text ? -1 : 1));
}

/** The documents of all trees with their records; `answer` stands for what the coverage would tell. */
function writeAll(given: Files, answer?: CoverageAnswer): readonly TreeDocument[] {
    const model = readFiles(given);
    const trees = treesIn(model);
    const digests = new Map([...model.files.keys()].map(file => [file, 'a'.repeat(64)]));
    const [covered] = coverageOfTrees(trees, [], model, new Set());
    const coverage = covered && { ...covered, answer: answer ?? covered.answer };
    return trees.flatMap(tree => {
        const verified = { rules, severities: defaultSettings.severities, coverage };
        return writeTreeDocument(model, tree, { tool, digests, verified }).document ?? [];
    });
}

test('the record is the same in whatever order files and rules come', () => {
    const documents = writeAll(files);
    expect(documents.length).toBeGreaterThan(1);
    const reversed = writeAll(Object.fromEntries(Object.entries(files).reverse()));
    expect(reversed.map(prettyJson)).toEqual(documents.map(prettyJson));
    for (const { verification } of documents) {
        const codes = verification.rules?.map(({ code }) => code) ?? [];
        expect(codes).toEqual([...codes].sort());
        expect(codes).toHaveLength(rules.length);
        expect(verification.coverage?.type).toBe('known');
    }
});

test('every document and every slice with a record is valid', () => {
    for (const document of writeAll(files)) {
        expect(schemaErrors(document)).toEqual([]);
        const { coverage } = document.verification;
        const builds = coverage?.type === 'known' ? coverage.builds : [];
        expect(builds.length).toBeGreaterThan(1);
        expect(builds.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 5);
        for (const { choices, figures } of builds) {
            const slice = sliceToBuild(document, choices).document;
            expect(schemaErrors(slice)).toEqual([]);
            expect(slice?.verification).toEqual({
                ...document.verification,
                coverage: { type: 'known', figures, buildsAre: 'builds', builds: [{ choices, share: 1, figures }] },
            });
        }
    }
});

describe('where it cannot be told how much a tree finds', () => {
    test.each<[CoverageAnswer, string]>([
        [{ sort: 'too large' }, 'There are too many builds and states to tell.'],
        [{ sort: 'unreadable', trees: [] }, 'Something that the tree uses could not be read.'],
        [{ sort: 'no build' }, 'No unit is built with the choices that were asked about.'],
    ])('the record says so: %j', (answer, reason) => {
        const [document] = writeAll(files, answer);
        expect(document?.verification.coverage).toEqual({ type: 'undecided', reason });
        expect(schemaErrors(document)).toEqual([]);
        const slice = document && sliceToBuild(document, ['single-phase', 'bag']).document;
        expect(slice?.verification).toEqual(document?.verification);
        expect(schemaErrors(slice)).toEqual([]);
    });

    test('also where only this tree was not walked', () => {
        const model = readFiles(files);
        const [first, ...others] = treesIn(model);
        const [covered] = coverageOfTrees(treesIn(model), [], model, new Set());
        if (covered?.answer.sort !== 'covered' || !first) throw new Error('The example can be walked.');
        const { coverage } = covered.answer;
        const without = coverage.trees.filter(({ tree }) => tree.name.text !== first.name.text);
        const walked = { ...coverage, trees: without, notWalked: [first] };
        const documents = writeAll(files, { sort: 'covered', coverage: walked });
        expect(documents[0]?.verification.coverage).toMatchObject({ type: 'undecided' });
        expect(others.length).toBeGreaterThan(0);
    });
});

test('a document that is written without a verification tells nothing of rules and coverage', () => {
    const model = readFiles(files);
    const [tree] = treesIn(model);
    const digests = new Map([...model.files.keys()].map(file => [file, 'a'.repeat(64)]));
    const document = tree && writeTreeDocument(model, tree, { tool, digests }).document;
    expect(Object.keys(document?.verification ?? {})).toEqual(['tool', 'accepted', 'sources']);
    expect(schemaErrors(document)).toEqual([]);
});
