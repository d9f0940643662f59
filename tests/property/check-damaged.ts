/** Takes a damaged file through everything that Halfsplit does with a file, and says what went wrong. */
import { createDefaultCoreModule, createDefaultSharedCoreModule, EmptyFileSystem, inject } from 'langium';
import type { Finding } from '../../language/src/core/findings/finding.js';
import { defaultSettings } from '../../language/src/core/findings/settings.js';
import { verify } from '../../language/src/core/findings/verify.js';
import { linkWorkspace } from '../../language/src/core/linking/workspace-links.js';
import type { FileModel } from '../../language/src/core/model/file.js';
import { formatText } from '../../language/src/format/format-text.js';
import { HalfsplitGeneratedModule, HalfsplitGeneratedSharedModule } from '../../language/src/generated/module.js';
import { rules } from '../../language/src/rules/index.js';
import { readSource } from '../../language/src/workspace/read-workspace.js';
import type { Damaged } from './damage.js';
import { differenceOf } from './differences.js';
import { misplacedIn } from './places.js';
import { plainModel } from './plain-model.js';
import { sourcesOf, type World, worlds } from './samples.js';

/** What takes time; each is measured by itself. */
type Work = 'reading' | 'linking' | 'verifying' | 'formatting';

/** The longest time that each work has taken, in milliseconds, and for which case. */
export type Slowest = Map<Work, { readonly time: number; readonly name: string }>;

/** More is a hang to whoever waits for it. */
const mostMilliseconds = 2000;

/** Findings that are mistakes of Halfsplit and not of the author. */
const ownMistakes = ['internal-failure', 'rule-failed'];

/**
 * Reads, links, verifies and lays out a damaged file among the other files of its world.
 * Returns what went wrong, one line each. `scope` says whether the rules look at the other files too.
 */
export function checkDamaged({ sample, text }: Damaged, scope: 'file' | 'world', slowest: Slowest): string[] {
    const { world, file, name } = sample;
    const wrong: string[] = [];
    const timed = <T>(work: Work, run: () => T): T => {
        const started = performance.now();
        const result = run();
        const time = performance.now() - started;
        if (time > (slowest.get(work)?.time ?? 0)) slowest.set(work, { time, name });
        if (time > mostMilliseconds) wrong.push(`${work} took ${Math.round(time)} ms`);
        return result;
    };
    const texts = { ...world.texts, [file]: text };
    const read = timed('reading', () => readSource(file, text));
    const models = new Map(modelsOf(world)).set(file, read.model);
    const model = timed('linking', () => linkWorkspace(models, path => (path in texts ? 'present' : 'missing')));
    const files = scope === 'file' ? { files: [file] } : {};
    const signal = { aborted: false };
    const verdict = timed('verifying', () =>
        verify(model, read.findings, { rules, settings: defaultSettings, signal, ...files }),
    );
    const findings = verdict ? [...verdict.findings, ...verdict.accepted.map(({ finding }) => finding)] : [];
    if (!verdict) wrong.push('the rules stopped by themselves');
    wrong.push(...findings.flatMap(finding => [...misplacedIn(finding, texts), ...senselessIn(finding)]));
    wrong.push(...notTold(text, read.findings, findings));
    const formatted = timed('formatting', () => formatText(text));
    wrong.push(...wronglyLaidOut(text, read.model, formatted));
    return wrong;
}

const known = new Map(
    worlds.map(world => {
        const models = sourcesOf(world.texts).map(([file, text]) => [file, readSource(file, text).model] as const);
        return [world, new Map(models)];
    }),
);

function modelsOf(world: World): ReadonlyMap<string, FileModel> {
    return known.get(world) ?? new Map();
}

/** Findings of our own mistakes, and messages that were put together wrongly. */
function senselessIn({ code, message, advice }: Finding): string[] {
    const wrong = ownMistakes.includes(code) ? [`${code}: ${message}`] : [];
    const said = `${message} ${advice ?? ''}`;
    return /\bundefined\b|\bNaN\b|\[object |^\s*$/.test(said) ? [...wrong, `${code} says: ${said}`] : wrong;
}

/** What the grammar does not allow must be found, and nothing that was found may get lost among the findings of the rules. */
function notTold(text: string, read: readonly Finding[], all: readonly Finding[]): string[] {
    const lost = read.filter(({ code, start }) => !all.some(other => other.code === code && other.start === start));
    const wrong = lost.map(({ code }) => `${code} was found when reading and is not among the findings`);
    if (read.length === 0) {
        const { lexerErrors, parserErrors } = plainParser.parse(text);
        const [error] = [...lexerErrors, ...parserErrors];
        if (error) wrong.push(`nothing was found, but the grammar does not allow the text: ${error.message}`);
    }
    return wrong;
}

function wronglyLaidOut(
    text: string,
    model: FileModel,
    { text: laidOut, findings }: ReturnType<typeof formatText>,
): string[] {
    if (findings.length > 0) return laidOut === text ? [] : ['a text with findings was laid out'];
    const wrong = formatText(laidOut).text === laidOut ? [] : ['the layout is not final'];
    const changed = differenceOf(plainModel(model), plainModel(readSource(model.file, laidOut).model));
    return changed === undefined ? wrong : [...wrong, `the layout has changed the model: ${changed}`];
}

// The grammar as Langium alone reads it: without our lexer, our parser and their repairs.
const shared = inject(createDefaultSharedCoreModule(EmptyFileSystem), HalfsplitGeneratedSharedModule);
const plainServices = inject(createDefaultCoreModule({ shared }), HalfsplitGeneratedModule);
shared.ServiceRegistry.register(plainServices);
const plainParser = plainServices.parser.LangiumParser;
