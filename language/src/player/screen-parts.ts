// Parts of a screen that steps and ends share: texts, pictures, what can hurt, gates, tests.

import type {
    Caution,
    Gate,
    GateElement,
    HazardMet,
    Quantity,
    Remark,
    SafetyStatement,
    Test,
    Text,
} from '../document/types.js';
import type { Choices, Decider } from './builds.js';
import { holdsIn, type State } from './state.js';
import type { Tree } from './tree.js';
import type { Words } from './words.js';

/** What a screen is made of. */
export interface Viewing {
    readonly tree: Tree;
    readonly state: State;
    readonly choices: Choices;
    readonly builds: Decider;
    readonly words: Words;
}

/** A note, a picture or a pointer to another document. */
export type RemarkView =
    | { readonly type: 'note'; readonly text: string }
    | { readonly type: 'picture'; readonly path: string; readonly alternative?: string }
    | { readonly type: 'see'; readonly text: string; readonly link?: string };

export interface SafetyView {
    readonly signalWord: SafetyStatement['signalWord'];
    readonly hazard?: string;
    readonly text: string;
}

/** Something to beware of. */
export type CautionView =
    | {
          readonly type: 'hazard';
          readonly hazard: string;
          readonly zone: string;
          /** Gates that control it or permit work beside it, and `wait`. */
          readonly controls: readonly string[];
      }
    | { readonly type: 'gate'; readonly gate: string; readonly change: string; readonly hazard: string };

export interface GateView {
    readonly id: string;
    readonly title: string;
    readonly controls: readonly string[];
    readonly permits: readonly { readonly activity: string; readonly hazards: readonly string[] }[];
    readonly wear: readonly string[];
    readonly categories: readonly string[];
    readonly elements: readonly ElementView[];
    readonly safety: readonly SafetyView[];
    readonly remarks: readonly RemarkView[];
}

export interface ElementView {
    readonly element: GateElement['element'];
    readonly text: string;
    readonly duration?: string;
    readonly instrument?: string;
    readonly provedBeforeAndAfter?: true;
}

/** An object without the properties that are undefined. */
export function made<T extends object>(properties: { readonly [K in keyof T]: T[K] | undefined }): T {
    return Object.fromEntries(Object.entries(properties).filter(([, value]) => value !== undefined)) as T;
}

/** The entries that the build has. */
export function inBuild<T extends { readonly guard?: unknown }>(
    list: readonly T[] | undefined,
    { builds }: Viewing,
): readonly T[] {
    return (list ?? []).filter(({ guard }) => builds.holds(guard as Parameters<Decider['holds']>[0]));
}

export function viewRemark(remark: Remark, { words }: Viewing): RemarkView {
    switch (remark.type) {
        case 'note':
            return { type: 'note', text: words.of(remark.text) };
        case 'picture':
            return made<RemarkView & { type: 'picture' }>({
                type: 'picture',
                path: remark.path,
                alternative: words.optional(remark.alternative),
            });
        case 'see':
            return made<RemarkView & { type: 'see' }>({ type: 'see', text: words.of(remark.text), link: remark.link });
    }
}

export function viewRemarks(remarks: readonly Remark[] | undefined, viewing: Viewing): readonly RemarkView[] {
    return inBuild(remarks, viewing).map(remark => viewRemark(remark, viewing));
}

export function viewSafety(statement: SafetyStatement, viewing: Viewing): SafetyView {
    const { signalWord, hazard, text } = statement;
    return made<SafetyView>({
        signalWord,
        hazard: hazard === undefined ? undefined : energyTitle(hazard, viewing),
        text: viewing.words.of(text),
    });
}

export function viewStatements(
    safety: readonly SafetyStatement[] | undefined,
    viewing: Viewing,
): readonly SafetyView[] {
    return inBuild(safety, viewing).map(statement => viewSafety(statement, viewing));
}

export function energyTitle(id: string, { tree, words }: Viewing): string {
    return words.title(tree.hazards.get(id) ?? tree.supplies.get(id), id);
}

export function texts(
    list: readonly { readonly text: Text; readonly guard?: unknown }[] | undefined,
    viewing: Viewing,
): readonly string[] {
    return inBuild(list, viewing).map(({ text }) => viewing.words.of(text));
}

/** What can hurt at a step or an end, and the safety statements that apply there. */
export function viewCautions(
    cautions: readonly Caution[] | undefined,
    subject: string | undefined,
    viewing: Viewing,
): { readonly cautions: readonly CautionView[]; readonly safety: readonly SafetyView[] } {
    const here = inBuild(cautions, viewing).filter(caution => {
        const [part, test] = 'withPart' in caution || 'withTest' in caution ? [caution.withPart, caution.withTest] : [];
        const named = part ?? test;
        return named === undefined || named === subject;
    });
    return {
        cautions: here.flatMap(caution => viewCaution(caution, viewing) ?? []),
        safety: here.flatMap(caution => (caution.type === 'statements' ? statementsNamed(caution, viewing) : [])),
    };
}

function viewCaution(caution: Caution, viewing: Viewing): CautionView | undefined {
    if (caution.type === 'statements') return undefined;
    if (caution.type === 'gate') {
        const { gate, change, hazard } = caution;
        return { type: 'gate', gate: gateTitle(gate, viewing), change, hazard: energyTitle(hazard, viewing) };
    }
    return viewHazard(caution, viewing);
}

function viewHazard({ hazard, zone, when, controls }: HazardMet, viewing: Viewing): CautionView | undefined {
    const { tree, builds, state } = viewing;
    if (when && holdsIn(when, { tree, builds, state, zones: [zone] }) === false) return undefined;
    const named = (controls ?? []).flatMap(control => {
        if (control.type === 'wait') return ['wait'];
        return builds.holds(control.guard) ? [gateTitle(control.gate, viewing)] : [];
    });
    return {
        type: 'hazard',
        hazard: energyTitle(hazard, viewing),
        zone: viewing.words.title(tree.zones.get(zone), zone),
        controls: named,
    };
}

function gateTitle(id: string, { tree, words }: Viewing): string {
    return words.title(tree.gates.get(id), id);
}

function statementsNamed(named: Extract<Caution, { type: 'statements' }>, viewing: Viewing): readonly SafetyView[] {
    const { document, ...tree } = viewing.tree;
    const fault = named.fault;
    const owners = [
        named.equipment === undefined ? undefined : document.equipment,
        named.tree === undefined ? undefined : document.tree,
        named.procedure === undefined ? undefined : tree.procedures.get(named.procedure),
        named.zone === undefined ? undefined : tree.zones.get(named.zone),
        named.hazard === undefined ? undefined : (tree.hazards.get(named.hazard) ?? tree.supplies.get(named.hazard)),
        named.part === undefined ? undefined : tree.parts.get(named.part),
        fault === undefined ? undefined : faultOf(fault, viewing.tree),
        named.test === undefined ? undefined : tree.tests.get(named.test),
        named.gate === undefined ? undefined : tree.gates.get(named.gate),
    ];
    return owners.flatMap(owner => viewStatements(owner?.safety, viewing));
}

/** A fault with its part before it. */
export function faultOf(id: string, { parts }: Tree) {
    return parts.get(id.slice(0, id.lastIndexOf('.')))?.faults.find(fault => fault.id === id);
}

/** A gate with what to do at it: to close it, or to restore it. */
export function viewGate(gate: Gate, isRestoring: boolean, viewing: Viewing): GateView {
    const { words } = viewing;
    return {
        id: gate.id,
        title: words.title(gate),
        controls: inBuild(gate.controls, viewing).map(({ hazard }) => energyTitle(hazard, viewing)),
        permits: (gate.permits ?? []).map(({ activity, hazards }) => ({
            activity,
            hazards: inBuild(hazards, viewing).map(({ hazard }) => energyTitle(hazard, viewing)),
        })),
        wear: texts(gate.wear, viewing),
        categories: inBuild(gate.instrumentCategories, viewing).map(({ category, voltage }) =>
            voltage ? `${category} ${voltage.display}` : category,
        ),
        elements: inBuild(gate.elements, viewing)
            .filter(({ element }) => (element === 'restore') === isRestoring)
            .map(element => viewElement(element, viewing)),
        safety: viewStatements(gate.safety, viewing),
        remarks: viewRemarks(gate.remarks, viewing),
    };
}

function viewElement(element: GateElement, viewing: Viewing): ElementView {
    const { document } = viewing.tree;
    const instrument = document.equipment.instruments.find(({ id }) => id === element.instrument);
    return made<ElementView>({
        element: element.element,
        text: viewing.words.of(element.text),
        duration: element.duration?.display,
        instrument: instrument && viewing.words.title(instrument),
        provedBeforeAndAfter: element.provedBeforeAndAfter,
    });
}

/** Where something is, in words, and the titles of its zones. */
export function placesOf({ locations, zones }: Pick<Test, 'locations' | 'zones'>, viewing: Viewing): readonly string[] {
    const { tree, words } = viewing;
    return [
        ...texts(locations, viewing),
        ...inBuild(zones, viewing).map(({ zone }) => words.title(tree.zones.get(zone), zone)),
    ];
}

/** The first amount that is for the build, as it is shown. */
export function displayOf(
    list: readonly { readonly amount: Quantity; readonly guard?: unknown }[] | undefined,
    viewing: Viewing,
): string | undefined {
    return inBuild(list, viewing)[0]?.amount.display;
}
