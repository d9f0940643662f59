// What the readings of a measured or calculated test are: the quantity, what the instrument can show of it, and the bands of its
// outcomes as exact intervals, each with the builds and the states in which it holds.

import type { ChoiceCondition } from '../builds/evaluate.js';
import type { Equipment, Kind, PartLike } from '../model/equipment.js';
import type { FileModel } from '../model/file.js';
import type { Guarded } from '../model/guards.js';
import type { Model } from '../model/model.js';
import type { Declared } from '../model/remarks.js';
import type { Calculate, Measure, Outcome, Test } from '../model/tests.js';
import type { IntervalUnit } from '../quantities/interval-words.js';
import { type QuantityKind, quantityKinds } from '../quantities/quantity-kinds.js';
import { conditionOf } from '../questions/answers.js';
import { oncePerFile } from '../questions/remember.js';
import { AlikeReadings, type OutcomeShape } from './alike-readings.js';
import type { CellPlace } from './cells.js';
import { allOf, always, anyOf } from './conditions.js';
import { rangeOf, type ReadingRange } from './range-of.js';
import type { ReadingBand } from './read-band.js';
import type { ReadingCells } from './reading-cells.js';
import { makeSearch, type ReadingSearch } from './search.js';
import { type ResolvedState, resolveState, sideConditions, type StatePlace } from './states.js';

/** The readings of a test by one of its methods. */
export interface Reading {
    readonly test: Test;
    /** The part, supply or kind that has the test. */
    readonly owner: PartLike | undefined;
    readonly method: Measure | Calculate;
    readonly kind: QuantityKind;
    readonly modes: readonly string[];
    /** What the instrument can show, or what the quantity can be. */
    readonly range: ReadingRange;
    readonly entries: readonly Entry[];
    /** What lies between the ends of the bands and of the range. */
    readonly cells: ReadingCells;
    /** Finds a build and a state in which the test is asked and a healthy unit shows something. */
    readonly search: ReadingSearch;
    /** The unit that the writer thinks in. */
    readonly shown: IntervalUnit;
    /** The same for all readings of a file of which all questions have the same answers, but for places and names in the text. */
    readonly alike: object;
}

/** An outcome as it stands once in the text, with its bands. */
export interface Entry {
    readonly outcome: Outcome;
    readonly name: string;
    /** The bands that are intervals. */
    readonly bands: readonly ReadingBand[];
    /** Where each of these bands lies among the cells of the reading. */
    readonly places: readonly CellPlace[];
    /** What `otherwise` takes of what is left: `low` below the normal band, `high` above it, any other name all of it. */
    readonly rest: 'below' | 'above' | 'all' | undefined;
    /** It has a band of which the interval is not known: one from a table, or one that is a finding by itself. */
    readonly isUnclear: boolean;
    /** The builds and states in which it holds. */
    readonly holds: ChoiceCondition;
}

/** The readings of all tests of a file, in the order of the text. Tests with unknown names are left out: they are findings already. */
export const readingsOf = oncePerFile(findReadings);

function findReadings(file: FileModel, model: Model): readonly Reading[] {
    const alike = new AlikeReadings();
    return ownedTests(file, model).flatMap(owned =>
        owned.test.methods.flatMap(method =>
            method.sort === 'measure' || method.sort === 'calculate'
                ? (readingOf(owned, method, model, alike) ?? [])
                : [],
        ),
    );
}

/** A test with what it stands in. */
export interface OwnedTest {
    readonly test: Test;
    readonly owner: PartLike | undefined;
    readonly equipment: Equipment | undefined;
    /** The builds that have what the test stands in; undefined where a guard has an unknown name. */
    readonly exists: ChoiceCondition | undefined;
}

/** Every test of a file. A kind of an equipment is in the builds that have a part of it. */
export const ownedTests = oncePerFile(findTests);

function findTests(file: FileModel, model: Model): readonly OwnedTest[] {
    const found: OwnedTest[] = [];
    const add = (tests: readonly Test[], rest: Omit<OwnedTest, 'test'>) => {
        for (const test of tests) found.push({ test, ...rest });
    };
    for (const equipment of file.equipment) {
        add(equipment.tests, { owner: undefined, equipment, exists: always });
        for (const owner of [...equipment.parts, ...equipment.supplies]) {
            add(owner.tests, { owner, equipment, exists: guardOf(owner, model, equipment) });
        }
        for (const owner of equipment.kinds) {
            add(owner.tests, { owner, equipment, exists: buildsWithKind(owner, model, equipment) });
        }
    }
    for (const owner of file.kinds) add(owner.tests, { owner, equipment: undefined, exists: always });
    return found.sort((one, other) => one.test.start - other.test.start);
}

function buildsWithKind(kind: Kind, model: Model, equipment: Equipment): ChoiceCondition | undefined {
    const parts = equipment.parts.filter(part => part.kind && model.target(part.kind) === kind);
    const guards = parts.map(part => guardOf(part, model, equipment)).filter(guard => guard !== undefined);
    return parts.length === 0 ? always : guards.length < parts.length ? undefined : anyOf(guards);
}

function guardOf({ guard }: Guarded, model: Model, equipment: Equipment | undefined): ChoiceCondition | undefined {
    return guard ? conditionOf(guard, model, equipment) : always;
}

function readingOf(
    owned: OwnedTest,
    method: Measure | Calculate,
    model: Model,
    alike: AlikeReadings,
): Reading | undefined {
    const { test, owner, equipment, exists } = owned;
    const kind = quantityKinds.get(method.quantity.text);
    if (!kind || !exists || test.name.text === '') return undefined;
    const modes = method.modes.map(({ text }) => text);
    const place: StatePlace = { model, equipment, here: test };
    const said = test.outcomes.map(outcome => holdsWhere(outcome, outcome.when, place));
    const asked = askedWhere(owned, method, place);
    if (!asked || said.includes(undefined)) return undefined;
    const outcomesSay = said.filter(state => state !== undefined);
    const side = sideConditions(optionsOf([...outcomesSay, asked]), place);
    if (!side) return undefined;
    const range = rangeOf(method, kind, modes, model);
    const shape = alike.shapeOf(test, kind, modes, range);
    const entries = test.outcomes.map((outcome, index) =>
        entryOf(outcome, shape.outcomes[index], said[index]?.holds ?? always),
    );
    const normal = anyOf(entries.filter(({ name }) => name === 'normal').map(({ holds }) => holds));
    const context = allOf([exists, asked.holds, side.holds, normal]);
    const states = [...side.options.keys()];
    return {
        test,
        owner,
        method,
        kind,
        modes,
        range,
        entries,
        cells: shape.cells,
        search: makeSearch(equipment, model, context, states, new Set(optionsOf(outcomesSay).keys())),
        shown: { unit: shape.unit, asDifference: modes.includes('difference') },
        alike: alike.tokenOf(shape, equipment, [context, ...entries.map(({ holds }) => holds)], states),
    };
}

function entryOf(outcome: Outcome, shape: OutcomeShape | undefined, holds: ChoiceCondition): Entry {
    const bands = shape?.bands ?? [];
    return {
        outcome,
        name: outcome.name.text,
        bands: bands.flatMap(({ at, interval, unit }) => {
            const band = outcome.bands[at];
            return band && band.sort !== 'otherwise' && band.sort !== 'from-table' ? [{ band, interval, unit }] : [];
        }),
        places: bands.map(({ place }) => place),
        rest: restOf(outcome),
        isUnclear: shape?.isUnclear ?? true,
        holds,
    };
}

function optionsOf(states: readonly ResolvedState[]): ResolvedState['options'] {
    const named = states.filter(({ options }) => options.size > 0);
    return named.length === 0 ? nothingNamed : new Map(named.flatMap(({ options }) => [...options]));
}

const nothingNamed: ResolvedState['options'] = new Map();

/** Where the test is asked by this method: its guards hold and its needs are met. */
function askedWhere({ test }: OwnedTest, method: Measure | Calculate, place: StatePlace): ResolvedState | undefined {
    if (!test.guard && test.needs.length === 0 && !(method.sort === 'measure' && method.guard)) return anywhere;
    const guarded: Guarded[] = [test, ...(method.sort === 'measure' ? [method] : [])];
    const guards = guarded.map(one => guardOf(one, place.model, place.equipment));
    const needs = test.needs.map(need => {
        const guard = guardOf(need, place.model, place.equipment);
        const states = need.states.map(state => resolveState(state, place)).filter(state => state !== undefined);
        if (!guard || states.length < need.states.length) return undefined;
        return either(guard, states);
    });
    const known = guards.filter(guard => guard !== undefined);
    const met = needs.filter(need => need !== undefined);
    if (known.length < guards.length || met.length < needs.length) return undefined;
    return {
        holds: allOf([...known, ...met.map(({ holds }) => holds)]),
        options: new Map(met.flatMap(({ options }) => [...options])),
    };
}

/** What a need with a guard asks for: nothing in the other builds. */
function either(guard: ChoiceCondition, states: readonly ResolvedState[]): ResolvedState {
    const holds = allOf(states.map(state => state.holds));
    return {
        holds: guard === always ? holds : anyOf([{ sort: 'not', operand: guard }, holds]),
        options: new Map(states.flatMap(({ options }) => [...options])),
    };
}

const anywhere: ResolvedState = { holds: always, options: nothingNamed };

function holdsWhere(guarded: Guarded, when: Outcome['when'], place: StatePlace): ResolvedState | undefined {
    if (!guarded.guard && !when) return anywhere;
    const guard = guardOf(guarded, place.model, place.equipment);
    const state = resolveState(when, place);
    return guard && state && { holds: allOf([guard, state.holds]), options: state.options };
}

function restOf({ name, bands }: Outcome): Entry['rest'] {
    if (!bands.some(({ sort }) => sort === 'otherwise')) return undefined;
    if (name.text === 'low') return 'below';
    return name.text === 'high' ? 'above' : 'all';
}

/** What a declaration is called in a message: `part.test`, or `test`. */
export function nameOfTest({ test, owner }: { readonly test: Declared; readonly owner: Declared | undefined }): string {
    return owner ? `${owner.name.text}.${test.name.text}` : test.name.text;
}
