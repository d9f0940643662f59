// One file as the editor's features see it: its text at one moment, and all that was read from exactly that text.

import type { AstNode, URI } from 'langium';
import { TextDocument } from 'langium';
import { fromTextFinding } from '../core/findings/combine.js';
import { makeFinding } from '../core/findings/rule.js';
import type { Finding } from '../core/findings/finding.js';
import type { Declaration, FileModel } from '../core/model/file.js';
import type { FileId } from '../core/model/written.js';
import type { File } from '../generated/ast.js';
import { lowerFile } from '../lower/lower-file.js';
import type { FaultParseResult } from '../lower/parse/fault-parser.js';
import type { Log } from './log.js';

/** A file that was read. It never changes: the next version of the text is another one. */
export interface SourceFile {
    readonly uri: URI;
    readonly file: FileId;
    /** The text, with its lines. It is a copy: the client's own document changes in place. */
    readonly text: TextDocument;
    readonly root: AstNode;
    readonly model: FileModel;
    /** The syntax node of each declaration, in the order in which they were lowered. */
    readonly nodes: ReadonlyMap<Declaration, AstNode>;
    /** What reading, parsing and lowering had to say. */
    readonly findings: readonly Finding[];
    /** How many slips of spelling the text has. */
    readonly slips: number;
}

/** What a file is read from. */
export interface ReadText {
    readonly uri: URI;
    readonly file: FileId;
    readonly text: string;
    readonly parsed: FaultParseResult;
}

/** Lowers a parsed text. A failure of the lowering itself is a finding, and the file is then empty. */
export function makeSourceFile({ uri, file, text, parsed }: ReadText, log: Log): SourceFile {
    const lowered = lowerGuarded(parsed.value as File, file, text.length, log);
    return {
        uri,
        file,
        text: TextDocument.create(uri.toString(), 'fault', 0, text),
        root: parsed.value,
        model: lowered.model,
        nodes: lowered.nodes ?? new Map(),
        findings: [...parsed.findings.map(finding => fromTextFinding(finding, file)), ...lowered.findings],
        slips: parsed.findings.length,
    };
}

function lowerGuarded(root: File, file: FileId, length: number, log: Log): ReturnType<typeof lowerFile> {
    try {
        return lowerFile(root, file, { nodes: true });
    } catch (problem) {
        log.failure(`Reading ${file}`, problem);
        const finding = makeFinding(
            'internal-failure',
            'error',
            'Halfsplit itself failed while it read this file.',
            { file, start: 0, end: Math.min(1, length) },
            { advice: 'Please report it with the file.' },
        );
        return { model: emptyModel(file, length), findings: [finding], nodes: new Map() };
    }
}

function emptyModel(file: FileId, length: number): FileModel {
    return {
        file,
        length,
        uses: [],
        equipment: [],
        kinds: [],
        instruments: [],
        tables: [],
        curves: [],
        trees: [],
        procedures: [],
        scenarios: [],
        acceptances: [],
        referenceCount: 0,
    };
}
