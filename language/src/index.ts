// What the command line uses of the language. Whatever takes time to load is loaded when it is first asked for.

import type { Finding } from './core/findings/finding.js';
import type { SettingsReading } from './core/findings/read-settings.js';
import type { Rule } from './core/findings/rule.js';
import type { Settings } from './core/findings/settings.js';
import type { Verdict } from './core/findings/verify.js';
import type { Model } from './core/model/model.js';
import type { Tree } from './core/model/trees.js';
import type { FileId } from './core/model/written.js';
import type { EquipmentCoverage } from './core/questions/coverage.js';
import type { PlayedScenario } from './core/questions/played-scenarios.js';
import type { WalkedTree } from './core/questions/walks.js';
import type { DocumentReading } from './document/read-document.js';
import type { PrivateKey, PublicKey, SignatureCheck } from './document/signature.js';
import type { Slice } from './document/slice.js';
import type { TreeDocument } from './document/types.js';
import type { WritingOptions, WrittenTree } from './document/writing/write-tree-document.js';
import type { ReadOptions, SourceText, Workspace } from './workspace/read-workspace.js';

export type { Counterexample, Edit, Finding, RelatedPlace, Severity } from './core/findings/finding.js';
export { makeFinding, type Rule } from './core/findings/rule.js';
export { defaultSettings, type Settings, settingsFile } from './core/findings/settings.js';
export type { AcceptedFinding, Verdict } from './core/findings/verify.js';
export type { Equipment } from './core/model/equipment.js';
export type { Model, Presence } from './core/model/model.js';
export type { Tree } from './core/model/trees.js';
export type { FileId, Span } from './core/model/written.js';
export type { EquipmentCoverage } from './core/questions/coverage.js';
export type { PlayedScenario } from './core/questions/played-scenarios.js';
export { safetyNotice } from './core/safety/notice.js';
export { nearNames } from './core/text/near-names.js';
export { lineStarts, positionAt, type Position } from './core/text/positions.js';
export { displayWidth, wrap } from './core/text/width.js';
export { listOf, plural, quoteName } from './core/text/words.js';
export type { BuildFigures, Coverage, Figures, Portion, TreeCoverage } from './core/walk/coverage.js';
export type { Position as WalkPosition } from './core/walk/go-through.js';
export type { ToldStanding } from './core/walk/telling/tell-position.js';
export type * from './core/walk/telling/told.js';
export type { PrivateKey, PublicKey, SignatureCheck } from './document/signature.js';
export type { TreeDocument } from './document/types.js';
export type { WritingOptions, WrittenTree } from './document/writing/write-tree-document.js';
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

/** What the trees find of the faults of their equipment, in the builds that have these choices; for each equipment. */
export async function coverTrees(
    { model, findings }: Workspace,
    trees: readonly Tree[],
    choices: readonly string[],
): Promise<readonly EquipmentCoverage[]> {
    const { coverageOfTrees } = await import('./core/questions/coverage.js');
    const unreadable = new Set(findings.filter(({ severity }) => severity === 'error').map(({ file }) => file));
    return coverageOfTrees(trees, choices, model, unreadable);
}

/** Plays the scenarios of files: which of them come to the end that they name, in their time. */
export async function playScenarios(
    { model, findings }: Workspace,
    files: readonly FileId[],
): Promise<readonly PlayedScenario[]> {
    const { playScenariosOf } = await import('./core/questions/played-scenarios.js');
    const unreadable = new Set(findings.filter(({ severity }) => severity === 'error').map(({ file }) => file));
    return playScenariosOf(files, model, unreadable);
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

/** Cuts a document down to the build with these choices. */
export async function sliceDocument(document: TreeDocument, choices: readonly string[]): Promise<Slice> {
    return (await import('./document/slice.js')).sliceToBuild(document, choices);
}

/** Reads the bytes of an exported document that comes from anywhere. Never throws. */
export async function readTreeDocument(bytes: Uint8Array): Promise<DocumentReading> {
    return (await import('./document/read-document.js')).readDocument(bytes);
}

/** SHA-256 of a text in UTF-8, in hexadecimal. */
export async function sha256OfText(text: string): Promise<string> {
    return (await import('./document/canonical.js')).sha256(text);
}

/** The detached JWS over the canonical JSON of a document. */
export async function signDocument(document: TreeDocument, key: PrivateKey): Promise<string> {
    const [{ canonicalJson }, { signDetached }] = await Promise.all([
        import('./document/canonical.js'),
        import('./document/signature.js'),
    ]);
    return signDetached(canonicalJson(document), key);
}

/** Checks the detached JWS over the canonical JSON of a document. Never throws. */
export async function checkSignature(jws: string, canonical: string, key: PublicKey): Promise<SignatureCheck> {
    return (await import('./document/signature.js')).checkDetached(jws, canonical, key);
}

/** What keys are made of: whether a text can be half of one, and how a key is called. */
export async function loadKeyParts() {
    const { isKeyPart, keyThumbprint } = await import('./document/signature.js');
    return { isKeyPart, keyThumbprint };
}

/** Draws one tree as SVG text. */
export async function drawTree(tree: Tree, model: Model): Promise<string> {
    return (await import('./drawing/draw-tree.js')).drawTree(tree, model);
}

/** A tree made ready to be gone through, or why it is not. */
export type ReadyTree =
    | { readonly sort: 'ready'; readonly walked: WalkedTree }
    /** Names lead nowhere, or the tree has no steps. */
    | { readonly sort: 'unfinished' }
    /** Its units are too many to be told apart. */
    | { readonly sort: 'undecided' };

/** All that it takes to go through a tree as a technician would. */
export async function loadWalk() {
    const [{ undecidedTrees, walkedTrees }, goThrough, { readBuild }, telling] = await Promise.all([
        import('./core/questions/walks.js'),
        import('./core/walk/go-through.js'),
        import('./core/walk/choose-build.js'),
        import('./core/walk/telling/tell-position.js'),
    ]);
    const signal = { aborted: false };
    const readyTree = (tree: Tree, model: Model): ReadyTree => {
        const file = model.files.get(tree.file);
        const walked = file && walkedTrees(file, model, signal).find(one => one.tree === tree);
        if (walked) return { sort: 'ready', walked };
        const isUndecided = file !== undefined && undecidedTrees(file, model, signal).some(one => one.tree === tree);
        return { sort: isUndecided ? 'undecided' : 'unfinished' };
    };
    return {
        readyTree,
        /** The builds that some choices leave, or what is wrong with them. */
        readBuild: (written: string, { all }: WalkedTree) => readBuild(written, all.around.space),
        beginAt: goThrough.beginAt,
        answersAt: goThrough.answersAt,
        takeAnswer: goThrough.takeAnswer,
        tellPosition: telling.tellPosition,
        tellStanding: telling.tellStanding,
    };
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
