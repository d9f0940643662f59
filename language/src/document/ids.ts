// Finds the ids that a document declares, by sort.

import type { Chain, TreeDocument } from './types.js';

/** Ids by the name of their sort in the schema; those of outcomes by their test. Values of conditions and results are left out. */
export type DeclaredIds = ReadonlyMap<string, ReadonlySet<string>>;

/** The ids of the whole document; those of steps and ends are in `targetsOf`. */
export function declaredIds({ equipment, tree, procedures }: TreeDocument): DeclaredIds {
    const { supplies, parts, hazards, flows } = equipment;
    const faults = [...supplies, ...parts].flatMap(part => part.faults);
    return new Map([
        ['EquipmentId', idsOf([equipment])],
        ['OptionId', idsOf(equipment.options)],
        ['ChoiceId', idsOf(equipment.options.flatMap(option => option.choices))],
        ['HazardId', idsOf(hazards)],
        ['EnergyId', idsOf(hazards, supplies)],
        ['ZoneId', idsOf(equipment.zones)],
        ['ConditionId', idsOf(equipment.conditions)],
        ['SupplyId', idsOf(supplies)],
        ['PartId', idsOf(parts, supplies)],
        ['MemberId', idsOf(parts, supplies, hazards, flows)],
        ['FaultId', idsOf(faults)],
        ['FlowId', idsOf(flows)],
        ['PlaceId', new Set(flows.flatMap(flow => placesIn(flow.chain)))],
        ['TestId', idsOf(equipment.tests)],
        ['InstrumentId', idsOf(equipment.instruments)],
        ['TableId', idsOf(equipment.tables, equipment.curves)],
        ['GateId', idsOf(equipment.gates)],
        ['ProcedureId', idsOf(procedures)],
        ['TargetId', targetsOf(tree)],
        ...equipment.tests.map(test => [outcomesOf(test.id), idsOf(test.outcomes)] as const),
    ]);
}

/** Under which the ids of a test's outcomes are listed. */
export function outcomesOf(test: string): string {
    return `OutcomeId of ${test}`;
}

/** The ids of the steps and ends of a tree or procedure. */
export function targetsOf(
    owner: Pick<TreeDocument['tree'], 'steps' | 'conclusions' | 'referrals'> | TreeDocument['procedures'][number],
): ReadonlySet<string> {
    return 'results' in owner
        ? idsOf(owner.steps, owner.results)
        : idsOf(owner.steps, owner.conclusions, owner.referrals);
}

function idsOf(...lists: readonly (readonly { readonly id: string }[])[]): ReadonlySet<string> {
    return new Set(lists.flatMap(list => list.map(({ id }) => id)));
}

function placesIn(chain: Chain): readonly string[] {
    return chain.flatMap(element => {
        if (element.type === 'place') return element.id ?? [];
        return element.type === 'group' ? element.branches.flatMap(placesIn) : [];
    });
}
