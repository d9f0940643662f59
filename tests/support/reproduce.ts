/** Goes the way of a counterexample again with the plain replay, which knows no world sets: texts of a finding in, a world out. */
import type { Counterexample, Finding } from '../../language/src/core/findings/finding.js';
import { drawSizes } from '../../language/src/core/meaning/draws.js';
import type { Action, Route } from '../../language/src/core/meaning/route.js';
import type { Span } from '../../language/src/core/model/written.js';
import { type Danger, waysOf } from '../../language/src/core/replay/dangers.js';
import { replay, type Run, type World } from '../../language/src/core/replay/replay.js';
import { type State, stateKey } from '../../language/src/core/replay/state.js';
import { buildsOf } from '../../language/src/core/replay/world.js';
import type { EquipmentWalks } from '../../language/src/core/walk/walks.js';

/** A world as the counterexample has it that comes to the place of the finding on the way that it tells; undefined for none. */
export function reproduce(finding: Finding, { trees, unit }: EquipmentWalks): World | undefined {
    const { counterexample } = finding;
    if (!counterexample) return undefined;
    const routes = trees.map(({ route }) => route);
    for (const world of worldsLike(counterexample, { unit, routes })) {
        for (const journey of journeysOf(world, routes).journeys) {
            if (meets(finding, counterexample, world, journey)) return world;
        }
    }
    return undefined;
}

/** A world on its way through one tree, by itself or handed over by another. */
interface Journey {
    readonly route: Route;
    readonly start: State | undefined;
    /** The steps of the trees before. */
    readonly before: readonly string[];
}

function meets(finding: Finding, { path }: Counterexample, world: World, journey: Journey): boolean {
    const told = path.map(({ step }) => step).join();
    const steps = (stations: readonly number[]) =>
        [...journey.before, ...stations.map(number => journey.route.stations[number]?.step.name.text ?? '')].join();
    const { route, start } = journey;
    if (finding.code === 'test-not-set-up') {
        return replay(route, world, start ? { start } : {}).some(run =>
            unsetVisits(run, finding).some(visits => steps(visits) === told),
        );
    }
    const occasions = finding.code === 'warning-missing' || finding.code === 'wait-too-short';
    return waysOf(route, world, { start, occasions }).dangers.some(
        danger => isAt(danger, finding, route) && steps(danger.path.map(({ station }) => station)) === told,
    );
}

/** The stations on the way to each time that the question of a finding is asked without being set up. */
function unsetVisits({ visits }: Run, finding: Finding): number[][] {
    return visits.flatMap(({ steps }, index) => {
        const isUnset = steps.some(
            step =>
                (step.sort === 'needs' || step.sort === 'no energy' || step.sort === 'nothing said') &&
                isPlaceOf(step.action, finding),
        );
        return isUnset ? [visits.slice(0, index + 1).map(({ station }) => station)] : [];
    });
}

/** Whether a danger is the one that a finding tells: at its place, and with its name in the message. */
function isAt(danger: Danger, finding: Finding, { ends, unit }: Route): boolean {
    const { action, end, hazard, gate, condition } = danger;
    const name = ends[end ?? -1]?.written.name;
    // What a gate lacks is told at its name.
    const isOfGate = unit.gates.some(
        ({ declaration: { name: ofGate } }) => ofGate.start === finding.start && ofGate.file === finding.file,
    );
    const isOccasion = danger.sort === 'occasion' && isOfGate && finding.code === 'warning-missing';
    const isThere =
        isOccasion ||
        (action ? isPlaceOf(action, finding) : name?.start === finding.start && name.file === finding.file);
    const declared =
        unit.hazards[hazard ?? -1]?.declaration ??
        unit.gates[gate ?? -1]?.declaration ??
        unit.conditions[condition ?? -1]?.declaration;
    return isThere && finding.message.includes(`\`${declared?.name.text ?? ''}\``);
}

function isPlaceOf(action: Action, { file, start }: Finding): boolean {
    const place = placeOf(action);
    return place?.file === file && place.start === start;
}

function placeOf(action: Action): Span | undefined {
    if (action.sort === 'do') return action.written.text;
    if (action.sort === 'ask') return action.written.test;
    if (action.sort === 'read') return action.reference;
    if (action.sort === 'wait') return action.written.amount;
    return action.sort === 'gate' || action.sort === 'restore' ? action.written.gate : undefined;
}

/** The worlds of the build and the fault that a counterexample names, with those draws that make a difference. */
function* worldsLike(
    { build: choices, fault }: Counterexample,
    { unit, routes }: Pick<EquipmentWalks, 'unit'> & { readonly routes: readonly Route[] },
): IterableIterator<World> {
    const arrival = unit.faults.filter(({ name }) => fault === `with \`${name}\``).map(({ number }) => number);
    const sizes = drawSizes(unit);
    for (const build of buildsOf(unit.space)) {
        const names = new Set(
            [...build].flatMap(([option, choice]) => [choice.name.text, `${option.name.text}.${choice.name.text}`]),
        );
        if (!choices.every(choice => names.has(choice))) continue;
        const open = [{ draws: sizes.map(() => 0), drawn: new Set<number>() }];
        for (let next = open.pop(); next; next = open.pop()) {
            const { draws, drawn } = next;
            const world: World = { build, arrival, draws };
            const complained = routes.flatMap(({ complaints }) => complaints.map(({ test }) => test));
            const asked = [...complained, ...journeysOf(world, routes).drawn];
            const test = asked.find(one => (sizes[one] ?? 1) > 1 && !drawn.has(one));
            if (test === undefined) {
                yield world;
                continue;
            }
            for (let draw = 0; draw < (sizes[test] ?? 1); draw += 1) {
                const others = draws.map((other, index) => (index === test ? draw : other));
                open.push({ draws: others, drawn: new Set([...drawn, test]) });
            }
        }
    }
}

/** Where a world goes: into each tree that it arrives in, and on into those that it is handed over to. */
function journeysOf(world: World, routes: readonly Route[]): { journeys: readonly Journey[]; drawn: Set<number> } {
    const journeys: Journey[] = routes.map(route => ({ route, start: undefined, before: [] }));
    const drawn = new Set<number>();
    const begun = new Set<string>();
    // The loop also visits what it adds.
    for (const { route, start, before } of journeys) {
        const ways = waysOf(route, world, { start, toldOnly: true });
        for (const test of ways.drawn) drawn.add(test);
        for (const { tree, state, path } of ways.handedOver) {
            const to = routes.find(one => one.tree === tree);
            const key = `${to ? routes.indexOf(to) : ''} ${stateKey(state)}`;
            if (!to || begun.has(key)) continue;
            begun.add(key);
            const steps = path.map(({ station }) => route.stations[station]?.step.name.text ?? '');
            journeys.push({ route: to, start: state, before: [...before, ...steps] });
        }
    }
    return { journeys, drawn };
}
