// Writes how much a tree finds, as far as that could be worked out.

import type { Choice, Option } from '../../core/model/equipment.js';
import type { Tree } from '../../core/model/trees.js';
import type { EquipmentCoverage } from '../../core/questions/coverage.js';
import type { BuildFigures, Figures } from '../../core/walk/coverage.js';
import type { Coverage, CoverageFigures, CoverageOfBuilds } from '../types.js';
import { made } from './writer.js';

/** The coverage of one tree, out of that of its equipment. */
export function writeCoverage(tree: Tree, { answer }: EquipmentCoverage): Coverage {
    if (answer.sort !== 'covered') return { type: 'undecided', reason: reasons[answer.sort] };
    const covered = answer.coverage.trees.find(one => one.tree === tree);
    if (!covered) return { type: 'undecided', reason: reasons['too large'] };
    return {
        type: 'known',
        figures: writeFigures(covered.figures),
        buildsAre: answer.coverage.buildsAre,
        builds: covered.builds.map(writeBuilds),
    };
}

const noSuchBuild = 'No unit is built with the choices that were asked about.';

const reasons = {
    'too large': 'There are too many builds and states to tell.',
    unreadable: 'Something that the tree uses could not be read.',
    'unknown choice': noSuchBuild,
    'ambiguous choice': noSuchBuild,
    'no build': noSuchBuild,
} as const;

function writeBuilds({ choices, share, figures }: BuildFigures): CoverageOfBuilds {
    return { choices: [...choices].map(writeChoice), share: rounded(share), figures: writeFigures(figures) };
}

function writeChoice([option, choice]: readonly [Option, Choice]): string {
    return `${option.name.text}.${choice.name.text}`;
}

function writeFigures({ detected, isolated }: Figures): CoverageFigures {
    return made<CoverageFigures>({
        detected: detected === undefined ? undefined : rounded(detected),
        isolated: isolated?.map(rounded),
    });
}

/** Sums of rates differ in their last digits with the order in which they are added; nobody needs these. */
function rounded(fraction: number): number {
    return Math.round(fraction * 1e6) / 1e6;
}
