// A loaded tree: the document with everything that is looked up by its id.

import type {
    Condition,
    Conclusion,
    Curve,
    Gate,
    Hazard,
    Option,
    Part,
    Procedure,
    Referral,
    Result,
    Step,
    Supply,
    Table,
    Test,
    Tree as TreeOfDocument,
    TreeDocument,
    Zone,
} from '../document/types.js';
import type { Loaded } from './load.js';

/** A document that can be walked. */
export interface Tree {
    readonly document: TreeDocument;
    readonly tests: ReadonlyMap<string, Test>;
    readonly parts: ReadonlyMap<string, Part | Supply>;
    readonly supplies: ReadonlyMap<string, Supply>;
    readonly gates: ReadonlyMap<string, Gate>;
    readonly zones: ReadonlyMap<string, Zone>;
    readonly hazards: ReadonlyMap<string, Hazard>;
    readonly conditions: ReadonlyMap<string, Condition>;
    readonly options: ReadonlyMap<string, Option>;
    readonly optionOfChoice: ReadonlyMap<string, Option>;
    readonly procedures: ReadonlyMap<string, Procedure>;
    readonly tables: ReadonlyMap<string, Table | Curve>;
    /** Where names lead, for the tree and for each procedure. */
    readonly targets: ReadonlyMap<TreeOfDocument | Procedure, ReadonlyMap<string, Target>>;
}

/** What a name of a tree or procedure leads to. */
export type Target =
    | { readonly sort: 'step'; readonly step: Step }
    | { readonly sort: 'conclusion'; readonly end: Conclusion }
    | { readonly sort: 'referral'; readonly end: Referral }
    | { readonly sort: 'result'; readonly result: Result };

/** The document with its indexes, or what keeps it from being walked. */
export function indexTree(document: TreeDocument): Loaded {
    const { equipment, tree, procedures } = document;
    if (tree.steps.length === 0) {
        return { problem: { where: '/tree/steps', why: 'The tree has no step to begin with.' } };
    }
    const byId = new Map(procedures.map(procedure => [procedure.id, procedure]));
    const wrong = problemOfCalls(document, byId);
    if (wrong) return { problem: wrong };
    return {
        tree: {
            document,
            tests: mapOf(equipment.tests),
            parts: new Map<string, Part | Supply>([...mapOf(equipment.parts), ...mapOf(equipment.supplies)]),
            supplies: mapOf(equipment.supplies),
            gates: mapOf(equipment.gates),
            zones: mapOf(equipment.zones),
            hazards: mapOf(equipment.hazards),
            conditions: mapOf(equipment.conditions),
            options: mapOf(equipment.options),
            optionOfChoice: new Map(equipment.options.flatMap(option => option.choices.map(({ id }) => [id, option]))),
            procedures: byId,
            tables: new Map<string, Table | Curve>([...mapOf(equipment.tables), ...mapOf(equipment.curves)]),
            targets: new Map<TreeOfDocument | Procedure, ReadonlyMap<string, Target>>([
                [tree, targetsOfTree(tree)] as const,
                ...procedures.map(procedure => [procedure, targetsOfProcedure(procedure)] as const),
            ]),
        },
    };
}

function mapOf<T extends { readonly id: string }>(list: readonly T[]): Map<string, T> {
    return new Map(list.map(entry => [entry.id, entry]));
}

function targetsOfTree({ steps, conclusions, referrals }: TreeOfDocument): ReadonlyMap<string, Target> {
    const targets = targetsOfSteps(steps);
    for (const end of conclusions) targets.set(end.id, { sort: 'conclusion', end });
    for (const end of referrals) targets.set(end.id, { sort: 'referral', end });
    return targets;
}

function targetsOfProcedure({ steps, results }: Procedure): ReadonlyMap<string, Target> {
    const targets = targetsOfSteps(steps);
    for (const result of results) targets.set(result.id, { sort: 'result', result });
    return targets;
}

function targetsOfSteps(steps: readonly Step[]): Map<string, Target> {
    const targets = new Map<string, Target>();
    for (const step of steps) targets.set(step.id, { sort: 'step', step });
    return targets;
}

interface Called {
    readonly where: string;
    readonly procedure: Procedure;
}

/** A call without what it must name, or a procedure that is followed within itself. */
function problemOfCalls({ procedures }: TreeDocument, byId: ReadonlyMap<string, Procedure>): Loaded['problem'] {
    const calls = new Map(
        procedures.map((procedure, index) => [procedure, callsIn(procedure, `/procedures/${index}`, byId)] as const),
    );
    const closed = new Set<Procedure>();
    for (const first of procedures) {
        // A search in depth without recursion; a procedure that is still open when it is met again leads back to itself.
        const open: { procedure: Procedure; next: number }[] = [{ procedure: first, next: 0 }];
        const within = new Set([first]);
        for (let top = open.at(-1); top; top = open.at(-1)) {
            const called = closed.has(top.procedure) ? undefined : calls.get(top.procedure)?.[top.next];
            top.next += 1;
            if (!called) {
                closed.add(top.procedure);
                within.delete(top.procedure);
                open.pop();
            } else if (within.has(called.procedure)) {
                return { where: called.where, why: `\`${called.procedure.id}\` is followed within itself.` };
            } else if (!closed.has(called.procedure)) {
                within.add(called.procedure);
                open.push({ procedure: called.procedure, next: 0 });
            }
        }
    }
    return undefined;
}

function callsIn(owner: Procedure, where: string, byId: ReadonlyMap<string, Procedure>): readonly Called[] {
    return owner.steps.flatMap((step, index) =>
        step.statements.flatMap((statement, at) => {
            const procedure = statement.type === 'follow' ? byId.get(statement.procedure) : undefined;
            return procedure ? [{ procedure, where: `${where}/steps/${index}/statements/${at}` }] : [];
        }),
    );
}
