// Langium's parser with findings in the writer's words, recovery over whole blocks, and no exceptions.

import {
    AstUtils,
    GrammarAST,
    LangiumParser,
    type AstNode,
    type CstNodeBuilder,
    type LangiumCoreServices,
    type Lexer,
    type LexerResult,
    type ParseResult,
    type ParserOptions,
} from 'langium';
import type * as ast from '../../generated/ast.js';
import { bracesExplained, causesOnly, type NoticedError } from './causes-only.js';
import { expectedAfter, expectedAtStart, thingsOf, type Caller } from './expected-words.js';
import type { FaultLexer, FaultLexingReport } from './fault-lexer.js';
import { headingSlips, withoutSlips } from './heading-slips.js';
import { mostFindings } from './limits.js';
import { findOffending, type Offending } from './offending-token.js';
import { installRecovery, type Engine, type EngineError } from './recovery.js';
import { findingLines, type Comment, type SyntaxFinding } from './syntax-finding.js';
import { isReal, tokenEnd, type Token, type TokenType } from './token.js';
import { describeUnexpected, type Unexpected } from './unexpected-text.js';

/** What reading a file gives: Langium's result, with what is wrong as findings. */
export interface FaultParseResult<T extends AstNode = AstNode> extends ParseResult<T> {
    readonly findings: readonly SyntaxFinding[];
    readonly comments: readonly Comment[];
}

/** Reads a file. `parse` never throws: a failure of the parser itself is a finding, and the tree is then empty. */
export class FaultParser extends LangiumParser {
    private readonly grammar: GrammarAST.Grammar;
    private readonly engine: Engine;
    private readonly recovery: { readonly reset: () => void };
    private blockRules: ReadonlySet<string> | undefined;
    private caller: Caller | undefined;
    private element: GrammarAST.AbstractElement | undefined;
    private elementCaller: Caller | undefined;
    private accepted = 0;
    private described: (Offending & { readonly finding: SyntaxFinding | undefined }) | undefined;
    private noticed: NoticedError[] = [];
    private prepared: LexerResult | undefined;
    private readonly ownLexer: FaultLexer;
    private take: ((declaration: ast.Declaration) => void) | undefined;

    constructor(services: LangiumCoreServices) {
        super(services);
        this.grammar = services.Grammar;
        this.engine = this.wrapper as unknown as Engine;
        // Reading again after a slip takes the tokens of the first reading.
        const lexer = this.lexer as FaultLexer;
        this.ownLexer = lexer;
        (this as unknown as { lexer: Lexer }).lexer = {
            definition: lexer.definition,
            tokenize: (text, given) => this.takePrepared() ?? lexer.tokenize(text, given),
        };
        skipEmptyCommentSearches(this);
        this.recovery = installRecovery(this.engine, {
            makeError: (actual, previous) => this.makeError(actual, previous),
            noticed: error => this.notice(error),
            hasBlock: rule => (this.blockRules ??= rulesWithBlock(services.Grammar)).has(rule),
        });
    }

    override parse<T extends AstNode = AstNode>(input: string, options?: ParserOptions): FaultParseResult<T> {
        try {
            return this.read<T>(input, options, this.lexer.tokenize(input), [], mostReadings);
        } catch {
            return this.afterFailure<T>(input);
        }
    }

    /**
     * Reads a file without slips piece by piece, and hands over each declaration as soon as it is read. Nothing else
     * then keeps its syntax tree alive, which ends at the declaration: that has no container. Gives what else the file has.
     *
     * Undefined for a file with slips: it has to be read as a whole, and what was handed over to be forgotten.
     */
    parseInPieces(input: string, take: (declaration: ast.Declaration) => void): ast.File | undefined {
        const uses: ast.Uses[] = [];
        let file: ast.File | undefined;
        try {
            this.take = take;
            for (const piece of this.ownLexer.tokenizeInPieces(input)) {
                if (piece === undefined) return undefined;
                this.reset();
                this.prepared = piece;
                file = super.parse<ast.File>(input).value;
                if (this.noticed.length > 0) return undefined;
                uses.push(...file.uses);
            }
            return { ...(file ?? super.parse<ast.File>(input).value), uses };
        } catch {
            // Reading the file as a whole says what is wrong.
            (this as unknown as ParserInside).stack = [];
            return undefined;
        } finally {
            this.take = undefined;
        }
    }

    // The place of the last accepted text in the grammar is kept, because a rule may have ended before its error shows.
    override consume(index: number, type: TokenType, element: GrammarAST.AbstractElement): void {
        super.consume(index, type, element);
        if (this.isRecording()) return;
        this.element = element;
        this.elementCaller = this.caller;
        this.accepted += 1;
    }

    override subrule(
        index: number,
        rule: Parameters<LangiumParser['subrule']>[1],
        fragment: boolean,
        element: GrammarAST.AbstractElement,
        args: Record<string, boolean>,
    ): void {
        const { caller } = this;
        this.caller = { element, caller };
        super.subrule(index, rule, fragment, element, args);
        // An error that passes through here is caught in a rule further out, behind whose call the caller is set right.
        this.caller = caller;
        if (this.take !== undefined) this.handOver(this.take);
    }

    private handOver(take: (declaration: ast.Declaration) => void): void {
        const { stack, nodeBuilder } = this as unknown as ParserInside;
        const [file] = stack;
        if (stack.length !== 1 || file === undefined) {
            return;
        }
        for (const declaration of file.declarations?.splice(0) ?? []) take(declaration);
        nodeBuilder.rootNode.content.length = 0;
    }

    /** Words the finding for text that is not allowed where reading stands, and keeps it for the error that comes of it. */
    describe(actual: Token): string {
        const { tokVector: tokens, tokVectorLength: count } = this.engine;
        const levels =
            this.element === undefined
                ? expectedAtStart(this.grammar)
                : expectedAfter([{ element: this.element, caller: this.elementCaller }]);
        const offending = findOffending(tokens, { index: indexOfToken(tokens, count, actual), levels });
        this.described = { ...offending, finding: describeUnexpected(situation(tokens, offending)) };
        return this.described.finding === undefined ? 'Text is missing here.' : findingLines(this.described.finding);
    }

    private makeError(actual: Token, previous: Token): EngineError {
        const error = new Error(this.describe(actual)) as EngineError;
        // The library tells its own errors by this name.
        error.name = 'NoViableAltException';
        return Object.assign(error, { token: actual, previousToken: previous, resyncedTokens: [] });
    }

    private notice(error: EngineError): void {
        if (this.described?.finding !== undefined) {
            const { finding, index, levels } = this.described;
            const mayOpenBlock = thingsOf(levels).some(thing => thing.sort === 'word' && thing.word === '{');
            this.noticed.push({ error, finding, index, accepted: this.accepted, mayOpenBlock });
        }
    }

    // Reads the tokens; after slips in headings reads again without them. `slips` are the errors of earlier readings.
    private read<T extends AstNode>(
        input: string,
        options: ParserOptions | undefined,
        lexed: LexerResult,
        slips: readonly NoticedError[],
        readings: number,
    ): FaultParseResult<T> {
        this.reset();
        this.prepared = { ...lexed, hidden: [...lexed.hidden] };
        const result = super.parse<T>(input, options);
        const { findings: before, braces, comments, endsEarly } = reportOf(lexed);
        if (this.noticed.length + slips.length === 0) {
            return { ...result, findings: before, comments };
        }
        const { tokens } = lexed;
        const explained = [...before, ...slips.map(({ finding }) => finding)];
        const kept = causesOnly(this.noticed, tokens, explained, endsEarly);
        const inHeadings = readings > 1 ? headingSlips(kept, tokens) : [];
        if (inHeadings.length > 0) {
            const again = { ...lexed, tokens: withoutSlips(tokens, inHeadings) };
            const known = [...slips, ...inHeadings.map(({ noticed }) => noticed)];
            return this.read(input, options, again, known, readings - 1);
        }
        const all = [...slips, ...kept].sort((a, b) => a.finding.start - b.finding.start).slice(0, mostFindings);
        const explainedBraces = new Set(bracesExplained(braces, all, input));
        const own = before.filter(finding => !explainedBraces.has(finding));
        const findings = [...own, ...all.map(({ finding }) => finding)].sort((a, b) => a.start - b.start);
        const parserErrors = all.map(({ error }) => error as never);
        return { ...result, parserErrors, findings: findings.slice(0, mostFindings), comments };
    }

    private afterFailure<T extends AstNode>(input: string): FaultParseResult<T> {
        const { tokVector, currIdx } = this.engine;
        const token = lastReal(tokVector, currIdx + 2) ?? tokVector[0];
        const finding: SyntaxFinding = {
            code: 'internal-failure',
            ...(token === undefined
                ? { start: 0, end: Math.min(1, input.length) }
                : { start: token.startOffset, end: tokenEnd(token) }),
            message: 'Halfsplit itself failed while it read the file, at or before this place.',
            mend: 'Please report it with the file.',
            edits: [],
        };
        this.reset();
        (this as unknown as ParserInside).stack = [];
        return { ...super.parse<T>(''), findings: [finding], comments: [] };
    }

    private takePrepared(): LexerResult | undefined {
        const { prepared } = this;
        this.prepared = undefined;
        return prepared;
    }

    private reset(): void {
        this.recovery.reset();
        this.caller = undefined;
        this.element = undefined;
        this.elementCaller = undefined;
        this.accepted = 0;
        this.described = undefined;
        this.noticed = [];
        this.prepared = undefined;
    }
}

/** What Langium's parser keeps while it reads; the tests fail if a later version keeps it otherwise. */
interface ParserInside {
    /** The nodes that are not complete yet, from the file inwards. */
    stack: { declarations?: ast.Declaration[] }[];
    readonly nodeBuilder: { readonly rootNode: { readonly content: unknown[] } };
}

/** Reading again costs as much as reading; a file with more slips in headings shows the others once these are mended. */
const mostReadings = 3;

function reportOf({ report }: LexerResult): Omit<FaultLexingReport, 'diagnostics'> {
    return (report as FaultLexingReport | undefined) ?? { findings: [], braces: [], comments: [], endsEarly: false };
}

// The parser library knows the rules by their names and a zero-width space.
function rulesWithBlock(grammar: GrammarAST.Grammar): ReadonlySet<string> {
    const opensBlock = (rule: GrammarAST.AbstractRule): boolean =>
        AstUtils.streamAllContents(rule).some(element => GrammarAST.isKeyword(element) && element.value === '{');
    return new Set(grammar.rules.filter(opensBlock).map(({ name }) => `${name}\u200b`));
}

// Langium looks for the place of comments among all statements of a block, also where there are none to place.
// In a block of many thousand statements that takes longer than everything else together.
function skipEmptyCommentSearches(parser: FaultParser): void {
    const { nodeBuilder } = parser as unknown as { nodeBuilder: Pick<CstNodeBuilder, 'addHiddenNodes'> };
    const addHiddenNodes = nodeBuilder.addHiddenNodes.bind(nodeBuilder);
    nodeBuilder.addHiddenNodes = tokens => {
        if (tokens.length > 0) {
            addHiddenNodes(tokens);
        }
    };
}

function situation(tokens: readonly Token[], { index, levels }: Offending): Unexpected {
    const actual = tokens[index];
    return {
        actual: actual === undefined || !isReal(actual) ? undefined : actual,
        previous: lastReal(tokens, index),
        firstOfLine: firstOfLine(tokens, index),
        levels,
    };
}

function indexOfToken(tokens: readonly Token[], count: number, token: Token): number {
    // The library's own token for the end of the file has no place.
    if (!(token.startOffset >= 0)) {
        return count;
    }
    let low = 0;
    let high = count;
    while (low < high) {
        const middle = (low + high) >> 1;
        if ((tokens[middle]?.startOffset ?? 0) < token.startOffset) {
            low = middle + 1;
        } else {
            high = middle;
        }
    }
    return low;
}

function lastReal(tokens: readonly Token[], before: number): Token | undefined {
    for (let index = Math.min(before, tokens.length) - 1; index >= 0; index -= 1) {
        const token = tokens[index];
        if (token !== undefined && isReal(token)) {
            return token;
        }
    }
    return undefined;
}

function firstOfLine(tokens: readonly Token[], index: number): Token | undefined {
    const line = tokens[index]?.startLine;
    let first: Token | undefined;
    for (let before = index - 1; before >= 0 && tokens[before]?.startLine === line; before -= 1) {
        first = tokens[before];
    }
    return first;
}
