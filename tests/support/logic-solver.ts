/** The little of logic-solver, which is MiniSat (Eén and Sörensson, SAT 2003) under another surface, that tests use. */
import { createRequire } from 'node:module';

/** A variable's name, or what the functions below make of such. */
export type LogicFormula = string | object;

interface LogicSolution {
    /** A formula that holds for this solution alone. */
    getFormula(): LogicFormula;
}

interface LogicSolver {
    require(formula: LogicFormula): void;
    forbid(formula: LogicFormula): void;
    solve(): LogicSolution | null;
}

interface Logic {
    readonly Solver: new () => LogicSolver;
    not(operand: LogicFormula): LogicFormula;
    and(operands: readonly LogicFormula[]): LogicFormula;
    or(operands: readonly LogicFormula[]): LogicFormula;
    exactlyOne(operands: readonly LogicFormula[]): LogicFormula;
}

export const logic = createRequire(import.meta.url)('logic-solver') as Logic;
