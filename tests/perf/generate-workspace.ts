// Makes large invented workspaces for measuring speed: honest ones, that read and check without any finding.
//
// Each plant is a conveyor line of drives: one file of equipment that uses a library, one tree for the whole line,
// one tree for each drive, and worked cases for them. Nothing in it describes anybody's product.

import { writeDriveTrees, writeLineTree, writeScenarios } from './invented-trees.js';
import { drivesOfLine, writeLibrary, writePlant } from './invented-plant.js';

/** One file of a workspace: its path relative to the workspace, and its text. */
export interface GeneratedFile {
    readonly path: string;
    readonly text: string;
}

export interface GeneratedSize {
    /** About how many lines all files have together. */
    readonly lines: number;
    /** In how many files they stand: at least one, and at most as many as there are pieces of text to divide. */
    readonly files: number;
}

/** The same size gives the same text every time; another number of files gives the same lines in other files. */
export function generateWorkspace({ lines, files }: GeneratedSize): readonly GeneratedFile[] {
    const pieces = writePieces(lines);
    const count = Math.max(1, Math.min(files, pieces.length));
    const fileOf = new Map(pieces.map((piece, index) => [piece.name, Math.floor((index * count) / pieces.length)]));
    return Array.from({ length: count }, (_, number) => {
        const own = pieces.filter(({ name }) => fileOf.get(name) === number);
        const used = new Set(own.flatMap(({ uses }) => uses.map(name => fileOf.get(name) ?? number)));
        used.delete(number);
        const heading = [...used].sort((a, b) => a - b).map(other => `uses "${pathOf(other)}"`);
        const text = [...heading, ...own.flatMap(piece => ['', ...piece.lines])].join('\n').trimStart();
        return { path: pathOf(number), text: `${text}\n` };
    });
}

/** A stretch of lines that stands in one file, and the names of those whose declarations it uses. */
interface Piece {
    readonly name: string;
    readonly uses: readonly string[];
    readonly lines: readonly string[];
}

const library = 'library';

function writePieces(lines: number): readonly Piece[] {
    const pieces: Piece[] = [{ name: library, uses: [], lines: writeLibrary() }];
    let written = 0;
    for (let plant = 1; written < lines; plant += 1) {
        const added = writePiecesOf(plant);
        pieces.push(...added);
        written += added.reduce((sum, piece) => sum + piece.lines.length, 0);
    }
    return pieces;
}

function writePiecesOf(plant: number): readonly Piece[] {
    const equipment = `plant-${plant}`;
    const line = `${equipment} line`;
    const halves = [drivesOfLine.slice(0, 6), drivesOfLine.slice(6)];
    return [
        { name: equipment, uses: [library], lines: writePlant(plant) },
        { name: line, uses: [equipment], lines: writeLineTree(plant) },
        ...halves.flatMap((drives, half): Piece[] => {
            const trees = `${equipment} drives ${half}`;
            return [
                { name: trees, uses: [equipment], lines: writeDriveTrees(plant, drives) },
                { name: `${trees} cases`, uses: [line, trees], lines: writeScenarios(plant, drives) },
            ];
        }),
    ];
}

function pathOf(file: number): string {
    return `line-${String(file + 1).padStart(3, '0')}.fault`;
}
