// Tests with their outcomes, needs and what affects them, those of kinds once for each part.

import type { Flow, Option, Place } from '../model/equipment.js';
import { placesOf } from '../linking/names.js';
import type { Model } from '../model/model.js';
import type { Calculation, Test } from '../model/tests.js';
import type { Reference } from '../model/written.js';
import { bothOf, faultsNamed, guardOf, type Inside, type Resolving, stateOf, testNamed, timeOf } from './resolving.js';
import { zonesOf } from './resolve-parts.js';
import type { ShownEffect, UnitPart, UnitTest } from './unit.js';

/** The names of a test's outcomes, each once; the choices of the option where it asks which build it is. */
export function outcomeNames(test: Test, model: Model): { names: readonly string[]; identifies: Option | undefined } {
    const identify = test.methods.find(method => method.sort === 'identify');
    const option = identify && model.target(identify.option);
    const identifies = option?.sort === 'option' ? option : undefined;
    const declarations = identifies ? identifies.choices : test.outcomes;
    return { names: [...new Set(declarations.map(({ name }) => name.text))], identifies };
}

/** One test of the unit. `owner` is the part that has it, for a test of a part or of its kind. */
export function resolveTest(
    number: number,
    declaration: Test,
    owner: UnitPart | undefined,
    parts: readonly UnitPart[],
    names: Resolving,
): UnitTest {
    const at = declaration.part && names.model.target(declaration.part);
    const looksAt = at?.sort === 'part' || at?.sort === 'supply' ? names.parts.get(at) : undefined;
    const part = owner ?? (looksAt === undefined ? undefined : parts[looksAt]);
    const zones = declaration.zones.length > 0 ? zonesOf(declaration.zones, names) : (part?.zones ?? []);
    const inside: Inside = { part: part?.number, zones };
    const { names: outcomes, identifies } = outcomeNames(declaration, names.model);
    return {
        number,
        name: owner ? `${owner.name}.${declaration.name.text}` : declaration.name.text,
        declaration,
        part: part?.number,
        guard: bothOf(owner?.guard, guardOf(declaration.guard, names)),
        zones,
        outcomes,
        normal: outcomes.indexOf('normal'),
        entries: declaration.outcomes.map(outcome => ({
            outcome: outcomes.indexOf(outcome.name.text),
            guard: guardOf(outcome.guard, names),
            when: stateOf(outcome.when, names, inside),
            shows: outcome.shows.map(({ text }) => text as ShownEffect),
        })),
        identifies,
        needs: needsOf(declaration, names, inside),
        checks: declaration.checks.flatMap(check =>
            faultsNamed(check.fault, names, inside).map(fault => ({
                fault,
                outcome: check.outcome && outcomes.indexOf(check.outcome.text),
                guard: guardOf(check.guard, names),
            })),
        ),
        across: declaration.across.map(({ from, to, guard }) => ({
            from: placesNamed(from, names),
            to: placesNamed(to, names),
            guard: guardOf(guard, names),
        })),
        through: declaration.through.flatMap(({ flow, guard }) => {
            const target = names.model.target(flow);
            const found = target?.sort === 'flow' ? names.flows.get(target) : undefined;
            return found === undefined ? [] : [{ flow: found, guard: guardOf(guard, names) }];
        }),
        flows: flowsWithPoint(number, names),
        remembers: declaration.remembers !== undefined,
        takes: declaration.takes.map(({ amount, guard }) => ({ time: timeOf(amount), guard: guardOf(guard, names) })),
        readings: readingsOf(declaration, names, inside),
        noted: undefined,
        measures: declaration.methods.some(({ sort }) => sort === 'measure' || sort === 'calculate'),
    };
}

function needsOf(declaration: Test, names: Resolving, inside: Inside): UnitTest['needs'] {
    return declaration.needs.flatMap(({ states, guard }) =>
        states.flatMap(written => {
            const state = stateOf(written, names, inside);
            return state ? [{ state, guard: guardOf(guard, names) }] : [];
        }),
    );
}

/** The places that a stretch may begin or end at: one with that label, or every place of a part, supply or hazard. */
function placesNamed(reference: Reference, names: Resolving): Place[] {
    const target = names.model.target(reference);
    if (target?.sort === 'place') return [target];
    if (!target) return [];
    return names.equipment.flows.flatMap(flow =>
        placesOf(flow).filter(place => names.model.target(place.member) === target),
    );
}

function flowsWithPoint(test: number, names: Resolving): number[] {
    return names.equipment.flows.flatMap(flow =>
        pointsOf(flow).some(reference => testNamed(reference, names, {}) === test) ? [names.flows.get(flow) ?? 0] : [],
    );
}

function pointsOf(flow: Flow): Parameters<typeof testNamed>[0][] {
    const points: Parameters<typeof testNamed>[0][] = [];
    const pending = [flow.chain];
    for (let chain = pending.pop(); chain; chain = pending.pop()) {
        for (const element of chain.elements) {
            if (element.sort === 'test-point') points.push(...element.tests);
            else if (element.sort === 'group') pending.push(...element.chains);
        }
    }
    return points;
}

/** The tests whose readings this one needs: for a calculation, or for a band that a table gives. */
function readingsOf(declaration: Test, names: Resolving, inside: Inside): number[] {
    const found = new Set<number>();
    const add = (reference: Parameters<typeof testNamed>[0]) => {
        const test = testNamed(reference, names, inside);
        if (test !== undefined) found.add(test);
    };
    const visit = (calculation: Calculation): void => {
        if (calculation.sort === 'reading') add(calculation.test);
        else if (calculation.sort === 'call') calculation.arguments.forEach(visit);
        else if (calculation.sort === 'operation') [calculation.left, calculation.right].forEach(visit);
    };
    for (const method of declaration.methods) if (method.sort === 'calculate') visit(method.expression);
    for (const { bands } of declaration.outcomes) {
        for (const band of bands) if (band.sort === 'from-table') add(band.input);
    }
    return [...found];
}
