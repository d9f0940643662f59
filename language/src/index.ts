// What the command line uses of the language. Whatever takes time to load is loaded when it is first asked for.

import type { Finding } from './core/findings/finding.js';
import type { SettingsReading } from './core/findings/read-settings.js';
import type { Rule } from './core/findings/rule.js';
import type { Settings } from './core/findings/settings.js';
import type { Verdict } from './core/findings/verify.js';
import type { Model } from './core/model/model.js';
import type { Tree } from './core/model/trees.js';
import type { FileId } from './core/model/written.js';
import type { TreeDocument } from './document/types.js';
import type { WritingOptions, WrittenTree } from './document/writing/write-tree-document.js';
import type { ReadOptions, SourceText, Workspace } from './workspace/read-workspace.js';

export type { Edit, Finding, RelatedPlace, Severity } from './core/findings/finding.js';
export { makeFinding, type Rule } from './core/findings/rule.js';
export { defaultSettings, type Settings, settingsFile } from './core/findings/settings.js';
export type { AcceptedFinding, Verdict } from './core/findings/verify.js';
export type { Model, Presence } from './core/model/model.js';
export type { Tree } from './core/model/trees.js';
export type { FileId, Span } from './core/model/written.js';
export { nearNames } from './core/text/near-names.js';
export { lineStarts, positionAt, type Position } from './core/text/positions.js';
export { displayWidth, wrap } from './core/text/width.js';
export { listOf, plural, quoteName } from './core/text/words.js';
export type { TreeDocument } from './document/types.js';
export type { WrittenTree } from './document/writing/write-tree-document.js';
export { longestText } from './lower/parse/limits.js';
export type { ReadOptions, SourceText, Workspace } from './workspace/read-workspace.js';

/** Reads the text of a settings file; what is wrong in it becomes findings. */
export async function readSettings(text: string, file: FileId): Promise<SettingsReading> {
    const [reading, rules] = await Promise.all([import('./core/findings/read-settings.js'), listRules()]);
    return reading.readSettings(text, file, rules);
}

/** Every rule there is, in the order of the codes. */
export async function listRules(): Promise<readonly Rule[]> {
    return (await import('./rules/index.js')).rules;
}

/** The page of a rule as Markdown; undefined for a code that no rule has. */
export async function findRulePage(code: string): Promise<string | undefined> {
    const { rulePages } = await import('./generated/rule-pages.js');
    return Object.hasOwn(rulePages, code) ? rulePages[code] : undefined;
}

/** Reads sources into one linked model. Never throws on what an author wrote. */
export async function readWorkspace(sources: Iterable<SourceText>, options: ReadOptions): Promise<Workspace> {
    return (await import('./workspace/read-workspace.js')).readWorkspace(sources, options);
}

/** Asks every rule about the files, in the light of the whole workspace. */
export async function verifyWorkspace(
    workspace: Workspace,
    settings: Settings,
    files: readonly FileId[],
    onFile: (file: FileId) => void,
): Promise<Verdict> {
    const [{ verify }, rules] = await Promise.all([import('./core/findings/verify.js'), listRules()]);
    const options = { rules, settings, files, signal: { aborted: false }, onFile };
    return verify(workspace.model, workspace.findings, options) ?? { findings: [], accepted: [] };
}

/** Writes one tree as the document that field apps read. */
export async function writeTreeDocument(model: Model, tree: Tree, options: WritingOptions): Promise<WrittenTree> {
    return (await import('./document/writing/write-tree-document.js')).writeTreeDocument(model, tree, options);
}

/** A document as text: for people, or canonical JSON (RFC 8785). */
export async function documentText(document: TreeDocument, form: 'pretty' | 'canonical'): Promise<string> {
    const { canonicalJson, prettyJson } = await import('./document/canonical.js');
    return form === 'canonical' ? canonicalJson(document) : prettyJson(document);
}

/** Draws one tree as SVG text. */
export async function drawTree(tree: Tree, model: Model): Promise<string> {
    return (await import('./drawing/draw-tree.js')).drawTree(tree, model);
}

/** Lays out a source in the one layout; with findings the text is the one that was given. */
export async function formatSource(text: string, file: FileId): Promise<FormattedSource> {
    const [{ formatText }, { fromTextFinding }] = await Promise.all([
        import('./format/format-text.js'),
        import('./core/findings/combine.js'),
    ]);
    const formatted = formatText(text);
    return { text: formatted.text, findings: formatted.findings.map(finding => fromTextFinding(finding, file)) };
}

export interface FormattedSource {
    readonly text: string;
    /** What keeps the source from being read, and so from being laid out. */
    readonly findings: readonly Finding[];
}
