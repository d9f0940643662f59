// A test as it is to be seen: how it is made, what it needs, what a healthy unit shows, and what can be answered.

import type { Band, OutcomeCase, Test } from '../document/types.js';
import { decide, possibleChoices } from './builds.js';
import { aroundTable, isDifference, methodWithNumber, type Stretch } from './judge.js';
import { forcedFor, needsOf, zonesOfTest } from './needs.js';
import { toNumber } from './rational.js';
import {
    displayOf,
    made,
    placesOf,
    type RemarkView,
    type SafetyView,
    viewRemarks,
    viewStatements,
    type Viewing,
} from './screen-parts.js';
import { type Frame, meantIn } from './session.js';
import { holdsIn } from './state.js';
import { fromCoherent } from './units.js';
import { stateInWords } from './words.js';

export interface TestView {
    readonly id: string;
    readonly title: string;
    readonly method: MethodView;
    readonly places: readonly string[];
    /** How the unit is set up first; `met` is missing where that is not known. */
    readonly needs: readonly { readonly words: string; readonly met?: boolean }[];
    readonly during?: string;
    readonly takes?: string;
    readonly outcomes: readonly OutcomeView[];
    readonly safety: readonly SafetyView[];
    readonly remarks: readonly RemarkView[];
}

export type MethodView =
    | {
          readonly type: 'measure' | 'calculate';
          readonly quantity: string;
          readonly modes: readonly string[];
          readonly instrument?: string;
          /** The unit of the limits. */
          readonly unit?: string;
      }
    | { readonly type: 'observe' | 'identify'; readonly sense?: string };

export interface OutcomeView {
    readonly id: string;
    /** What is answered: the author's words, `yes`, `no`, or nothing where the bands say it. */
    readonly words?: string;
    /** A healthy unit shows it. */
    readonly healthy?: true;
    readonly bands: readonly BandView[];
}

export interface BandView {
    readonly display: string;
    /** In the other system of units. */
    readonly other?: string;
    /** The limits that a table or a curve gives, in `unit`. */
    readonly low?: number;
    readonly high?: number;
    readonly unit?: string;
}

/** A test; what is asked now is looked at as if it were set up as it needs. */
export function viewTest(test: Test, isNow: boolean, frame: Frame, viewing: Viewing): TestView {
    const { tree, builds, words } = viewing;
    const zones = zonesOfTest(test, viewing);
    const around = { tree, builds, state: viewing.state, zones };
    const state = isNow ? forcedFor(test, around) : viewing.state;
    const set: Viewing = { ...viewing, state };
    return made<TestView>({
        id: test.id,
        title: words.title(test),
        method: viewMethod(test, viewing),
        places: placesOf(test, viewing),
        needs: needsOf(test, viewing).map(need =>
            made<TestView['needs'][number]>({ words: stateInWords(need, tree, words), met: holdsIn(need, around) }),
        ),
        during: words.optional(test.during?.text),
        takes: displayOf(test.takes, viewing),
        outcomes: outcomesOf(test, frame, set),
        safety: viewStatements(test.safety, viewing),
        remarks: viewRemarks(test.remarks, viewing),
    });
}

function viewMethod(test: Test, viewing: Viewing): MethodView {
    const { document } = viewing.tree;
    const method = methodWithNumber({ test, builds: viewing.builds });
    if (!method) {
        const observed = test.methods.find(one => one.type === 'observe' || one.type === 'identify');
        return made<MethodView & { type: 'observe' }>({
            type: observed?.type === 'identify' ? ('identify' as 'observe') : 'observe',
            sense: observed && 'sense' in observed ? observed.sense : undefined,
        });
    }
    const id = method.type === 'measure' ? method.instrument : undefined;
    const instrument = id === undefined ? undefined : document.equipment.instruments.find(one => one.id === id);
    return made<MethodView & { type: 'measure' }>({
        type: method.type as 'measure',
        quantity: method.quantity,
        modes: method.modes ?? [],
        instrument: instrument && viewing.words.title(instrument),
        unit: unitOf(test, viewing),
    });
}

/** The unit that the limits of a test are in; else that in which its instrument shows. */
function unitOf(test: Test, viewing: Viewing): string | undefined {
    for (const { cases } of test.outcomes) {
        for (const { bands, guard } of cases) {
            if (!viewing.builds.holds(guard)) continue;
            const band = bands?.find(one => 'unit' in one);
            if (band && 'unit' in band) return band.unit;
        }
    }
    const method = methodWithNumber({ test, builds: viewing.builds });
    if (method?.type !== 'measure') return undefined;
    const instrument = viewing.tree.document.equipment.instruments.find(({ id }) => id === method.instrument);
    return instrument?.measures?.find(({ quantity }) => quantity === method.quantity)?.to?.unit;
}

function outcomesOf(test: Test, frame: Frame, viewing: Viewing): readonly OutcomeView[] {
    return test.outcomes.flatMap(outcome => {
        if (outcome.choice !== undefined && !mayBe(outcome.choice, viewing)) return [];
        const cases = outcome.cases.filter(one => isCaseHere(one, test, viewing));
        if (cases.length === 0) return [];
        const said = cases.find(({ answer, word }) => answer !== undefined || word !== undefined);
        return [
            made<OutcomeView>({
                id: outcome.id,
                words: said?.word ?? viewing.words.optional(said?.answer),
                healthy: outcome.healthy,
                bands: cases.flatMap(({ bands }) => (bands ?? []).map(band => viewBand(band, test, frame, viewing))),
            }),
        ];
    });
}

/** Whether a unit of what has been said can have a choice; the test that is asked says it, so it need not be said before. */
function mayBe(choice: string, { tree, choices }: Viewing): boolean {
    const option = tree.optionOfChoice.get(choice);
    if (!option) return false;
    const made_ = choices.get(option.id);
    if (made_ !== undefined) return made_ === choice;
    if (option.guard && decide(option.guard, tree, choices) === false) return false;
    return possibleChoices(tree, choices, option).includes(choice);
}

function isCaseHere({ guard, when }: OutcomeCase, test: Test, viewing: Viewing): boolean {
    const { tree, builds, state } = viewing;
    if (!builds.holds(guard)) return false;
    return when === undefined || holdsIn(when, { tree, builds, state, zones: zonesOfTest(test, viewing) }) !== false;
}

function viewBand(band: Band, test: Test, frame: Frame, viewing: Viewing): BandView {
    if ('otherwise' in band) return { display: band.otherwise === 'any' ? 'otherwise' : band.otherwise };
    if (!('table' in band)) return made<BandView>({ display: band.display, other: band.other });
    const { tree, builds, state } = viewing;
    const meant = (id: string): string => meantIn(frame, id);
    const stretch = aroundTable(band, { test, tree, builds, state, zones: [], meant });
    return { ...(stretch && limitsOf(stretch, test, viewing)), display: band.display };
}

function limitsOf({ low, high }: Stretch, test: Test, viewing: Viewing): Partial<BandView> | undefined {
    const method = methodWithNumber({ test, builds: viewing.builds });
    const unit = unitOf(test, viewing);
    if (!method || unit === undefined) return undefined;
    const [first, last] = [low, high].map(end => {
        if (!end) return undefined;
        // The unit is that of the test's own readings, so it measures the same.
        const dimension = viewing.tree.document.units?.find(({ code }) => code === unit)?.dimension ?? `unit ${unit}`;
        const value = fromCoherent({ value: end.value, dimension }, unit, isDifference(method), viewing.tree);
        return value && Number(toNumber(value).toPrecision(12));
    });
    return made<BandView>({ display: '', low: first, high: last, unit }) satisfies BandView;
}
