// The report on coverage for programs: JSON with a version, described in the README of this package.

import { type BuildFigures, type Figures, safetyNotice, type TreeCoverage } from 'halfsplit-language';
import { programName, programVersion } from '../../version.js';
import { choiceNames, type CoverageReport, type CoveredEquipment } from './report.js';

/** It changes when a reader of an earlier version would no longer understand the report. */
const coverageVersion = 1;

/** The report as JSON with a line feed at the end. The same sources give the same text. */
export function coverageJson(report: CoverageReport): string {
    const document = {
        formatVersion: coverageVersion,
        tool: { name: programName, version: programVersion },
        safety: safetyNotice(),
        choices: report.choices,
        equipment: report.equipment.map(equipmentToJson),
    };
    return `${JSON.stringify(document, null, 2)}\n`;
}

function equipmentToJson(one: CoveredEquipment) {
    const { equipment, coverage, trees, isWhole, notWalked } = one;
    const left = isWhole ? coverage.notWalked : notWalked;
    return {
        name: equipment.name.text,
        file: equipment.file,
        wholeFleet: isWhole,
        figures: isWhole ? figuresToJson(coverage.fleet) : null,
        buildsAre: coverage.buildsAre,
        builds: isWhole ? coverage.builds.map(build => buildToJson(build, one)) : [],
        faults: isWhole
            ? coverage.faults.map(({ fault, trees: scope, figures }) => ({
                  fault: fault.name,
                  trees: scope.map(({ name }) => name.text),
                  figures: figuresToJson(figures),
              }))
            : [],
        trees: trees.map(tree => treeToJson(tree, one)),
        notWalked: left.map(({ name }) => name.text),
    };
}

function treeToJson({ tree, figures, faults, builds }: TreeCoverage, one: CoveredEquipment) {
    return {
        name: tree.name.text,
        file: tree.file,
        figures: figuresToJson(figures),
        builds: builds.map(build => buildToJson(build, one)),
        faults: faults.map(({ fault, rate, portions }) => ({
            fault: fault.name,
            rate,
            results: portions.map(portion => ({
                result: portion.fate,
                rate: portion.rate,
                parts: portion.parts,
                end: portion.end?.written.name.text ?? null,
                tree: portion.to?.name.text ?? null,
            })),
        })),
    };
}

function buildToJson(build: BuildFigures, { equipment }: CoveredEquipment) {
    return { choices: choiceNames(build, equipment), share: build.share, figures: figuresToJson(build.figures) };
}

function figuresToJson(figures: Figures) {
    const { rate, found, handedOver, missed, wrong, lost, outOfScope, handedOn, byParts } = figures;
    return {
        rate,
        found,
        handedOver,
        missed,
        wrong,
        lost,
        outOfScope,
        handedOn,
        foundByParts: byParts.slice(1),
        detected: figures.detected ?? null,
        isolated: figures.isolated ?? null,
    };
}
