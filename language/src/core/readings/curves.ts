// A curve or a table of the model as a law that can be asked for values, with what stands on its two sides; or what is wrong with it.

import { isCurveProblem, makeCurve } from '../curves/curve.js';
import type { CurveProblem, CurveRow } from '../curves/curve-shape.js';
import type { Curve, Table } from '../model/tests.js';
import type { Span } from '../model/written.js';
import { type CurveFault, type CurveSides, type ReadCurve, sideOf, valueOn } from './curve-sides.js';
import { readFollows } from './follows.js';

const known = new WeakMap<Curve | Table, ReadCurve>();

/** A curve or a table of the model, understood once. */
export function readCurve(declaration: Curve | Table): ReadCurve {
    const read =
        known.get(declaration) ?? (declaration.sort === 'table' ? readTable(declaration) : readFollows(declaration));
    known.set(declaration, read);
    return read;
}

function readTable(table: Table): ReadCurve {
    const inputs = table.rows.map(({ input }) => input);
    const outputs = table.rows.map(({ output }) => output);
    const [input, output] = [sideOf(table.input, inputs), sideOf(table.output, outputs)];
    const sides = input && output && { input, output };
    const rows = sides && table.rows.map(row => rowOf(row, sides));
    const clear = rows?.filter(row => row !== undefined);
    // An amount that cannot be read, or has a unit of something else, is told by itself.
    if (!rows || !clear || clear.length < rows.length) return { sides, law: undefined, faults: [] };
    const made = makeCurve({ sort: 'table', rows: clear, interpolation: table.interpolation });
    if (!isCurveProblem(made)) return { sides, law: made, faults: [] };
    return { sides, law: undefined, faults: tableFaults(table, made) };
}

function rowOf({ input, output }: Table['rows'][number], sides: CurveSides): CurveRow | undefined {
    const [from, to] = [valueOn(sides.input, input), valueOn(sides.output, output)];
    return from && to && { input: from, output: to };
}

function tableFaults({ rows, name, file, start, end }: Table, problem: CurveProblem): readonly CurveFault[] {
    const at = (row: number): Span => rows[row] ?? { file, start, end };
    const written = (row: number) => rows[row]?.input.written ?? '';
    switch (problem.problem) {
        case 'too-few-rows':
            return [
                { place: name, sort: 'too-few-rows', words: { name: name.text }, advice: 'Write two rows at least.' },
            ];
        case 'row-order': {
            const { row } = problem;
            return [
                {
                    place: at(row),
                    sort: 'row-order',
                    words: { input: written(row), before: written(row - 1) },
                    advice: 'Write the rows in the order of what stands on the left, all upward or all downward.',
                },
            ];
        }
        case 'repeated-input':
            return [
                {
                    place: at(problem.row),
                    sort: 'repeated-input',
                    words: { input: written(problem.row), first: written(problem.first) },
                    advice: 'Take one of the two rows out.',
                },
            ];
        case 'output-not-positive':
            return [
                {
                    place: rows[problem.row]?.output ?? at(problem.row),
                    sort: 'output-not-positive',
                    words: { output: rows[problem.row]?.output.written ?? '' },
                    advice: 'Write `linear`, or values above zero.',
                },
            ];
        default:
            return [];
    }
}
