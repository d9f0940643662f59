/** Replays the counterexample of a finding from what it says: its build, its fault and its path. No diagram is asked. */
import type { PartialBuild } from '../../language/src/core/builds/evaluate.js';
import type { Counterexample, Finding } from '../../language/src/core/findings/finding.js';
import type { Route } from '../../language/src/core/meaning/route.js';
import { makeRoute } from '../../language/src/core/meaning/make-route.js';
import { resolveUnit } from '../../language/src/core/meaning/resolve-unit.js';
import type { InBuilds, Unit } from '../../language/src/core/meaning/unit.js';
import type { Choice, Option } from '../../language/src/core/model/equipment.js';
import type { Model } from '../../language/src/core/model/model.js';
import type { Span } from '../../language/src/core/model/written.js';
import { drawSizes } from '../../language/src/core/meaning/draws.js';
import { arrives, type Ending, type Happening, replay, type World } from '../../language/src/core/replay/replay.js';
import type { State } from '../../language/src/core/replay/state.js';
import { buildsOf, completeBuild, exists } from '../../language/src/core/replay/world.js';

/** One way of a world, over all trees that it is handed on to. */
interface Way {
    readonly visits: readonly { readonly step: Span; readonly steps: readonly Happening[] }[];
    readonly ending: Ending;
    /** The route of the last tree. */
    readonly route: Route;
    readonly build: PartialBuild;
}

/** What must be so where the path of a counterexample ends, by the code of the finding. */
const endings: Readonly<
    Record<string, (finding: Finding, way: Way, last: readonly Happening[], isWhole: boolean) => boolean>
> = {
    'dead-end': (_, { ending }, __, isWhole) => isWhole && ending.sort === 'stranded',
    'endless-loop': (_, { ending }, __, isWhole) => isWhole && ending.sort === 'loop',
    'missing-in-build': (finding, way, last, isWhole) =>
        lacksWhatIsNamed(finding, way) &&
        (last.some(({ sort }) => sort === 'missing') || (isWhole && ['missing', 'end'].includes(way.ending.sort))),
    'test-not-set-up': (_, __, last) => last.some(({ sort }) => silences.has(sort)),
    'wrong-conclusion': endsWrongly,
    'too-strong': endsWrongly,
    'healthy-condemned': endsWrongly,
    'fault-not-found': endsWrongly,
    ambiguous: (finding, way, _, isWhole) => isWhole && endsAt(finding, way),
    'good-part-replaced': (finding, way, _, isWhole) => isWhole && endsAt(finding, way),
    'double-fault': (_, { ending }, __, isWhole) => isWhole && ending.sort === 'end',
    contradiction: (_, __, ___, isWhole) => isWhole,
    'scenario-failed': (_, __, ___, isWhole) => isWhole,
};

const silences: ReadonlySet<string> = new Set(['needs', 'no energy', 'nothing said']);

/** The codes whose counterexamples can be replayed here. */
export const replayedCodes: readonly string[] = Object.keys(endings);

/** Whether some world that a counterexample describes goes the way that it tells, to what the finding is about. */
export function isReplayed(finding: Finding, counterexample: Counterexample, model: Model): boolean {
    const holds = endings[finding.code];
    if (!holds) throw new Error(`Nothing is known of ${finding.code}.`);
    for (const { unit, routes } of unitsOf(model)) {
        for (const world of worldsOf(counterexample, unit)) {
            for (const way of waysOf(world, routes)) {
                const last = goesAlong(way, counterexample);
                const isWhole = way.visits.length === counterexample.path.length;
                if (last && holds(finding, way, last, isWhole)) return true;
            }
        }
    }
    return false;
}

function endsWrongly(finding: Finding, way: Way, _: readonly Happening[], isWhole: boolean): boolean {
    return isWhole && endsAt(finding, way) && way.ending.sort === 'end' && !way.ending.right;
}

/** Something has the name that the example ends with, and the build of the world lacks it. */
function lacksWhatIsNamed({ counterexample }: Finding, { route, build }: Way): boolean {
    const name = counterexample?.sentence.match(/`([^`]+)`(?!.*`)/)?.[1];
    const { unit, stations, ends, exits } = route;
    const things: readonly { readonly name: string; readonly guard: InBuilds }[] = [
        ...unit.parts,
        ...unit.faults,
        ...unit.tests,
        ...[...unit.zones, ...unit.conditions, ...unit.gates].map(({ declaration, guard }) => ({
            name: declaration.name.text,
            guard,
        })),
        ...stations.map(({ step, guard }) => ({ name: step.name.text, guard })),
        ...stations.flatMap(({ actions }) =>
            actions.flatMap(action =>
                action.sort === 'follow'
                    ? [{ name: action.written.procedure.text, guard: action.guardOfProcedure }]
                    : [],
            ),
        ),
        ...ends.map(({ written, guard }) => ({ name: written.name.text, guard })),
        ...exits.flatMap(({ to }) => (to.sort === 'tree' ? [{ name: to.tree.name.text, guard: to.guard }] : [])),
    ];
    return things.some(thing => thing.name === name && !exists(thing.guard, build));
}

/** The finding stands in the end that the way comes to. */
function endsAt({ file, start, end }: Finding, { ending, route }: Way): boolean {
    const written = ending.sort === 'end' ? route.ends[ending.end]?.written : undefined;
    return written?.file === file && written.start <= start && end <= written.end;
}

/** What happened at the last step of the path, as far as the path tells; undefined where the way goes elsewhere. */
function goesAlong({ visits }: Way, { path }: Counterexample): readonly Happening[] | undefined {
    for (const [index, { file, start, end, text }] of path.entries()) {
        const visit = visits[index];
        const isThere = visit?.step.file === file && visit.step.start === start && visit.step.end === end;
        if (!visit || !isThere) return undefined;
        const words = visit.steps
            .map(wordsOf)
            .filter(one => one !== undefined)
            .join(', ');
        if (index < path.length - 1 ? words !== text : !words.startsWith(text)) return undefined;
    }
    return path.length === 0 ? [] : visits[path.length - 1]?.steps;
}

/** The words are asked of the texts, which stand on the declarations themselves. */
function wordsOf(step: Happening): string | undefined {
    if (step.sort === 'cannot be done') return `\`${step.action.written.text.value}\` cannot be done`;
    return step.sort === 'asked' ? answerWords.get(step) : undefined;
}

/** What each answer reads like; noted when the way is made, because it takes the unit. */
const answerWords = new WeakMap<Happening, string>();

interface Routed {
    readonly unit: Unit;
    readonly routes: readonly Route[];
}

function unitsOf(model: Model): Routed[] {
    const files = [...model.files.values()];
    return files.flatMap(({ equipment }) =>
        equipment.map(one => {
            const { unit, names } = resolveUnit(one, model);
            const trees = files.flatMap(file => file.trees.filter(tree => model.target(tree.equipment) === one));
            return { unit, routes: trees.map(tree => makeRoute(tree, unit, names)) };
        }),
    );
}

/** The worlds that a counterexample may mean: it names only the choices that matter, and no draws. */
function* worldsOf({ build: choices, fault = 'healthy' }: Counterexample, unit: Unit): IterableIterator<World> {
    const named = [...fault.matchAll(/`([^`]+)`/g)].map(([, name]) => unit.faults.findIndex(one => one.name === name));
    if (named.includes(-1) || (named.length === 0 && fault !== 'healthy')) return;
    for (const build of buildsOf(unit.space)) {
        if (!choices.every(choice => hasChoice(choice, build))) continue;
        for (const draws of drawsOf(drawSizes(unit))) yield { build, arrival: named, draws };
    }
}

function hasChoice(written: string, build: ReadonlyMap<Option, Choice>): boolean {
    return [...build].some(
        ([option, { name }]) => written === name.text || written === `${option.name.text}.${name.text}`,
    );
}

function drawsOf(sizes: readonly number[]): number[][] {
    return sizes.reduce<number[][]>(
        (all, size) => all.flatMap(draws => Array.from({ length: size }, (_, draw) => [...draws, draw])),
        [[]],
    );
}

/** Every way of a world, from each tree with whose complaint it comes. */
function* waysOf(world: World, routes: readonly Route[]): IterableIterator<Way> {
    for (const route of routes) if (arrives(route, world)) yield* waysFrom(route, world, routes, undefined, []);
}

function* waysFrom(
    route: Route,
    world: World,
    routes: readonly Route[],
    start: State | undefined,
    before: Way['visits'],
): IterableIterator<Way> {
    for (const run of replay(route, world, start ? { start } : {})) {
        const visits = run.visits.map(({ station, steps }) => {
            for (const step of steps) noteAnswer(step, route.unit);
            const step = route.stations[station]?.step.name;
            return { step: step ?? { file: '', start: -1, end: -1 }, steps };
        });
        const all = [...before, ...visits];
        const { ending } = run;
        yield { visits: all, ending, route, build: completeBuild(route.unit, world.build) };
        const onward = ending.sort === 'handed over' && routes.find(({ tree }) => tree === ending.tree);
        // More trees than any example needs: they may hand a world round for ever.
        if (onward && all.length < 100) yield* waysFrom(onward, world, routes, ending.state, all);
    }
}

function noteAnswer(step: Happening, { tests }: Unit): void {
    if (step.sort !== 'asked') return;
    const test = tests[step.test];
    answerWords.set(step, `\`${test?.name ?? ''}\` shows \`${test?.outcomes[step.outcome] ?? ''}\``);
}
