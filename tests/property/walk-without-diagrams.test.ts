/** Random worlds are verified alike with diagrams and with formulas: the same worlds everywhere, and the same findings. */
import { describe, expect, test } from 'vitest';
import { defaultSettings } from '../../language/src/core/findings/settings.js';
import { verify } from '../../language/src/core/findings/verify.js';
import { equipmentWalks } from '../../language/src/core/questions/walks.js';
import { onlyMade, usualBudget } from '../../language/src/core/walk/space.js';
import type { Crowds, RouteWalk } from '../../language/src/core/walk/walk-route.js';
import { rules } from '../../language/src/rules/index.js';
import { readTexts } from '../support/read-texts.js';
import { randomWorld } from './random-world.js';

const signal = { aborted: false };
const settings = { ...defaultSettings, doubleFaults: true };
const seeds = Array.from({ length: 120 }, (_, index) => index + 1);

describe('a random world', { timeout: 120_000 }, () => {
    test('has as many worlds of each kind at each station, exit and end', () => {
        let counted = 0;
        for (const seed of seeds) {
            const [diagrams, formulas] = [verifyOnce(seed, usualBudget.nodes), verifyOnce(seed, 2)];
            // Where nothing depends on anything, no diagram is made.
            if (!diagrams || formulas?.heldAs !== 'formulas') continue;
            expect(formulas.counts, `seed ${seed}`).toEqual(diagrams.counts);
            counted += diagrams.counts.length;
        }
        expect(counted).toBeGreaterThan(1000);
    });

    test('brings the same findings', () => {
        let found = 0;
        for (const seed of seeds) {
            const [diagrams, formulas] = [verifyOnce(seed, usualBudget.nodes), verifyOnce(seed, 2)];
            if (!diagrams || !formulas) continue;
            expect(formulas.findings, `seed ${seed}`).toEqual(diagrams.findings);
            found += diagrams.findings.length;
        }
        expect(found).toBeGreaterThan(300);
    });
});

/** Undefined for a world of which no build is made: with formulas nothing is said of it. */
function verifyOnce(seed: number, nodes: number) {
    const { model, findings } = readTexts({ 'example.fault': randomWorld(seed) });
    const [equipment] = model.files.get('example.fault')?.equipment ?? [];
    if (!equipment) throw new Error('A random world has an equipment.');
    const hasNoBuild = verify(model, findings, { rules, settings, signal, cost: 'fast' })?.findings.some(
        ({ code }) => code === 'no-valid-build',
    );
    if (hasNoBuild) return undefined;
    const all = equipmentWalks(equipment, model, signal, { ...usualBudget, nodes });
    const verdict = verify(model, findings, { rules, settings, signal });
    return {
        heldAs: all?.heldAs,
        counts: (all?.trees ?? []).flatMap(({ walk }) => (walk ? countsOf(walk) : ['not walked'])),
        // Which options an example names is said of the set that it is out of, and that may be another.
        findings: (verdict?.findings ?? []).map(({ code, severity, message, start, end, mends }) =>
            JSON.stringify([code, severity, message, start, end, mends]),
        ),
    };
}

function countsOf({ stations, exits, ends, meetings, loops, around }: RouteWalk): string[] {
    const { space, presences } = around;
    const words = (what: string, crowds: Crowds, index: number) =>
        [...crowds].map(([number, set]) => {
            const { arrival, present, cleared, memory, replaced } = presences.at(number);
            const presence = JSON.stringify([arrival, present, cleared, [...memory], replaced]);
            return `${what} ${index} ${presence}: ${space.sets.count(onlyMade(set, space))}`;
        });
    return [
        ...stations.flatMap((crowds, index) => words('station', crowds, index)),
        ...exits.flatMap((crowds, index) => words('exit', crowds, index)),
        ...ends.flatMap((crowds, index) => words('end', crowds, index)),
        `${meetings.length} meetings, ${loops.length} loops`,
    ].sort();
}
