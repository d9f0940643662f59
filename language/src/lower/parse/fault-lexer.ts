// Cuts a file into tokens, refuses what cannot be read, and settles what the parser could not make sense of.

import type { LexerResult, TokenizeOptions } from 'langium';
import { lineStarts, positionAt } from '../../core/text/positions.js';
import { parserTables } from '../../generated/parser-tables.js';
import { repairBraces } from './brace-repair.js';
import { deepestNesting, longestCalculation, refusal, undecodable } from './limits.js';
import { ScanningLexer } from './scanning-lexer.js';
import { settleStrayText } from './stray-text.js';
import { findingLines, type Comment, type SyntaxFinding } from './syntax-finding.js';
import type { Token } from './token.js';
import { strayNames } from './token-builder.js';
import { makeSurveyor, type Survey } from './token-survey.js';

/** What the lexer reports beside its tokens. */
export interface FaultLexingReport {
    /** Langium's own list; findings stand in `errors` instead. */
    readonly diagnostics: [];
    readonly findings: readonly SyntaxFinding[];
    /** Those of the findings that say where a brace seems to be missing or too many. */
    readonly braces: readonly SyntaxFinding[];
    readonly comments: readonly Comment[];
    /** Whether the tokens end before the file does. */
    readonly endsEarly: boolean;
}

/** Langium's lexer with the limits and repairs of this language. */
export class FaultLexer extends ScanningLexer {
    private surveyor: ((tokens: readonly Token[]) => Survey) | undefined;

    override tokenize(text: string, options?: TokenizeOptions): LexerResult {
        const refused = refusal(text);
        if (refused !== undefined) {
            return makeResult(text, [], [], [refused], true);
        }
        const { tokens, hidden } = super.tokenize(text);
        const survey = this.survey(tokens);
        if (!hasSlips(survey)) {
            return makeResult(text, tokens, hidden, undecodableFinding(text), false);
        }
        // A text that ends at the cursor is never whole, so nothing is repaired in it.
        return options?.mode === 'partial'
            ? makeResult(text, withoutStray(cut(tokens, survey)), hidden, [], false)
            : this.settle(text, tokens, hidden, survey);
    }

    /**
     * The tokens of a text in pieces, each of which ends where a declaration does. Undefined in the place of a piece
     * with slips, or of the whole text where it cannot be read: then the text has to be taken as a whole.
     */
    *tokenizeInPieces(text: string): Generator<LexerResult | undefined> {
        if (refusal(text) !== undefined || undecodableFinding(text).length > 0) {
            yield undefined;
            return;
        }
        for (const { tokens, hidden } of this.scanner.scanInPieces(text)) {
            yield hasSlips(this.survey(tokens)) ? undefined : makeResult(text, tokens, hidden, [], false);
        }
    }

    // The types of the tokens get their numbers from the parser, which is made after the lexer.
    private survey(tokens: readonly Token[]): Survey {
        this.surveyor ??= makeSurveyor(this.definition, new Set(parserTables().wordsAsNames));
        return this.surveyor(tokens);
    }

    private settle(text: string, tokens: Token[], hidden: Token[], survey: Survey): LexerResult {
        const findings = [...undecodableFinding(text), ...limitFinding(tokens, survey)];
        const kept = cut(tokens, survey);
        const settled = survey.stray
            ? settleStrayText(kept, this.definition)
            : { tokens: kept, findings: [], swallowedRest: false };
        findings.push(...settled.findings);
        const endsEarly = settled.swallowedRest || survey.limit !== undefined;
        const braces = this.survey(settled.tokens);
        if (braces.surplusBraces + braces.missingBraces === 0) {
            return makeResult(text, settled.tokens, hidden, findings, endsEarly);
        }
        const repaired = repairBraces(settled.tokens, braces, this.definition);
        // An unclosed text may have swallowed braces: then they are not a second slip.
        const ownSlip = !endsEarly && !findings.some(({ code }) => code === 'unclosed-text');
        return makeResult(text, repaired.tokens, hidden, findings, endsEarly, ownSlip ? repaired.findings : []);
    }
}

/** The most comments that are handed to the syntax tree: it adds them one by one, which takes long for a file of little else. */
const mostCommentsInTree = 20_000;

function makeResult(
    text: string,
    tokens: Token[],
    hidden: Token[],
    others: readonly SyntaxFinding[],
    endsEarly: boolean,
    braces: readonly SyntaxFinding[] = [],
): LexerResult {
    const findings = [...others, ...braces];
    const report: FaultLexingReport = {
        diagnostics: [],
        findings,
        braces,
        comments: hidden.map(({ startOffset, image }) => ({
            start: startOffset,
            end: startOffset + image.length,
            text: image,
        })),
        endsEarly,
    };
    return {
        tokens,
        hidden: hidden.length > mostCommentsInTree ? [] : hidden,
        errors: findings.length === 0 ? [] : lexingErrors(text, findings),
        report,
    };
}

function lexingErrors(text: string, findings: readonly SyntaxFinding[]): LexerResult['errors'] {
    const starts = lineStarts(text);
    return findings.map(finding => ({
        offset: finding.start,
        length: finding.end - finding.start,
        ...positionAt(starts, finding.start),
        message: findingLines(finding),
    }));
}

function hasSlips({ stray, limit, surplusBraces, missingBraces }: Survey): boolean {
    return stray || limit !== undefined || surplusBraces + missingBraces > 0;
}

function cut(tokens: Token[], { limit }: Survey): Token[] {
    return limit === undefined ? tokens : tokens.slice(0, limit.index);
}

function withoutStray(tokens: readonly Token[]): Token[] {
    const stray = new Set<string>(Object.values(strayNames));
    return tokens.filter(({ tokenType }) => !stray.has(tokenType.name));
}

function limitFinding(tokens: readonly Token[], { limit }: Survey): readonly SyntaxFinding[] {
    const token = limit === undefined ? undefined : tokens[limit.index];
    if (limit === undefined || token === undefined) {
        return [];
    }
    const nesting = limit.sort === 'nesting';
    return [
        {
            code: 'unreadable-file',
            start: token.startOffset,
            end: token.startOffset + token.image.length,
            message: nesting
                ? `Here more than ${deepestNesting} brackets, braces and \`not\` stand inside each other. The file is read only up to this place.`
                : `Here a calculation has more than ${longestCalculation} signs. The file is read only up to this place.`,
            mend: nesting ? 'Write it with fewer brackets.' : 'Divide the calculation among several tests.',
            edits: [],
        },
    ];
}

function undecodableFinding(text: string): SyntaxFinding[] {
    const start = text.indexOf(undecodable);
    if (start < 0) {
        return [];
    }
    return [
        {
            code: 'unexpected-character',
            start,
            end: start + 1,
            message: 'A character here could not be read: the file was not saved as UTF-8.',
            mend: 'Save the file as UTF-8 and write the character again.',
            edits: [],
        },
    ];
}
