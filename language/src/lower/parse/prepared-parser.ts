// Gives the parser what `npm run generate` has worked out about the grammar, so that it need not work it out at every start.
//
// The parser library (Chevrotain 13.2) analyzes the whole grammar before it reads anything. Here that analysis waits
// until a file needs it: for going on after an error, and for the one decision that no table can hold.

import type { ParserTables } from '../../generated/parser-tables.js';
import type { Token, TokenType, TokenTypes } from './token.js';

/** The parts of the parser library that are prepared; the tests fail if a later version lacks one of them. */
export interface PreparedEngine {
    lookaheadStrategy: LookaheadStrategy;
    readonly shortRuleNameToFull: readonly string[];
    readonly gastProductionsCache: Readonly<Record<string, unknown>>;
    /** By the number of the rule, then by the number of the decision within it. */
    lookAheadFuncsCache: Decide[][];
    /** By the number of the rule, then by the number of the repetition within it. */
    firstAfterRepMap: AfterRepetition[][];
    selfAnalysisDone: boolean;
    LA(ahead: number): Token;
    LA_FAST(ahead: number): Token;
    performSelfAnalysis(): void;
    preComputeLookaheadFunctions(): void;
    getGAstProductions(): unknown;
    getFollowSetFromFollowKey(key: unknown): unknown;
}

/** Prepares a parser whose rules are built. Each rule has to be prepared before it is used for the first time. */
export function prepareParser(engine: PreparedEngine, tables: ParserTables, types: TokenTypes): PreparedRules {
    const decideByGrammar = postponeAnalysis(engine);
    const trees = new DecisionTrees(tables, types);
    const decisions: Decide[][] = tables.decisions.map(() => []);
    const afterRepetitions: AfterRepetition[][] = tables.afterRepetitions.map(() => []);
    engine.lookAheadFuncsCache = decisions;
    engine.firstAfterRepMap = afterRepetitions;
    return {
        prepare: rule => {
            const pairs = tables.decisions[rule] ?? [];
            for (let index = 0; index < pairs.length; index += 2) {
                const decision = pairs[index] ?? 0;
                const tree = pairs[index + 1] ?? 0;
                const decide = isChoice(decision)
                    ? choose(trees, tree, () => decideByGrammar(rule, decision))
                    : enter(trees, tree);
                put(decisions, rule, decision, decide);
            }
            const groups = tables.afterRepetitions[rule] ?? [];
            for (let index = 0; index < groups.length; index += 4) {
                const token = types[tables.tokens[groups[index + 1] ?? -1] ?? ''];
                const occurrence = token && groups[index + 2];
                const after = { token, occurrence, isEndOfRule: groups[index + 3] === 1 };
                put(afterRepetitions, rule, groups[index] ?? 0, after);
            }
        },
    };
}

/** The rules of a prepared parser, by their numbers. */
export interface PreparedRules {
    readonly prepare: (rule: number) => void;
}

function put<T>(lists: readonly T[][], rule: number, index: number, value: T): void {
    const list = lists[rule];
    if (list !== undefined) list[index] = value;
}

/** Says at a choice which branch to take; at a repetition or an optional part, whether to enter it. */
type Decide = (this: PreparedEngine) => number | boolean | undefined;

/** What stands behind a repetition in its rule. */
interface AfterRepetition {
    readonly token: TokenType | undefined;
    readonly occurrence: number | undefined;
    readonly isEndOfRule: boolean;
}

interface LookaheadStrategy {
    initialize(options: { readonly rules: readonly unknown[] }): void;
    buildLookaheadForAlternation(place: Readonly<Record<string, unknown>>): Decide;
}

// Outcomes in a decision tree; zero and more are the number of the branch.
const noBranch = -1;
/** More tokens would have to be seen than a tree can hold. */
const byGrammar = -2;
/** This and every lower number: the next token tells, by the tree that stands first, second … in the list. */
const firstTree = -3;

function choose(trees: DecisionTrees, tree: number, decideByGrammar: () => Decide): Decide {
    let first: Int16Array | undefined;
    let decide: Decide | undefined;
    return function () {
        first ??= trees.get(tree);
        let outcome = first[this.LA_FAST(1).tokenTypeIdx] ?? noBranch;
        if (outcome <= firstTree) outcome = lookFurther(this, trees, outcome);
        if (outcome !== byGrammar) return outcome === noBranch ? undefined : outcome;
        decide ??= decideByGrammar();
        return decide.call(this);
    };
}

function enter(trees: DecisionTrees, tree: number): Decide {
    let first: Int16Array | undefined;
    return function () {
        first ??= trees.get(tree);
        const outcome = first[this.LA_FAST(1).tokenTypeIdx] ?? noBranch;
        return outcome === 0 || (outcome <= firstTree && lookFurther(this, trees, outcome) === 0);
    };
}

function lookFurther(engine: PreparedEngine, trees: DecisionTrees, from: number): number {
    let outcome = from;
    for (let ahead = 2; outcome <= firstTree; ahead += 1) {
        outcome = trees.get(firstTree - outcome)[engine.LA(ahead).tokenTypeIdx] ?? noBranch;
    }
    return outcome;
}

/** The decision trees as arrays by the number of the next token's type, each made when it is first needed. */
class DecisionTrees {
    private readonly made: Int16Array[] = [];
    /** The number of each token's type, by the number of the token in the tables. */
    private readonly numbers: readonly number[];
    private readonly highest: number;

    constructor(
        private readonly tables: ParserTables,
        types: TokenTypes,
    ) {
        this.numbers = tables.tokens.map(name => types[name]?.tokenTypeIdx ?? endOfFile);
        this.highest = Math.max(...this.numbers);
    }

    get(tree: number): Int16Array {
        return (this.made[tree] ??= this.make(this.tables.trees[tree] ?? []));
    }

    private make(pairs: readonly number[]): Int16Array {
        const outcomes = new Int16Array(this.highest + 1).fill(noBranch);
        for (let index = 0; index < pairs.length; index += 2) {
            for (const token of this.tables.sets[pairs[index] ?? -1] ?? []) {
                outcomes[this.numbers[token] ?? 0] = pairs[index + 1] ?? noBranch;
            }
        }
        return outcomes;
    }
}

/** The number of the library's token for the end of the file, which is in no lexer. */
const endOfFile = 1;

// The library keeps the sort of a decision in the bits above its number within the rule.
const bitsOfNumber = 8;
const choiceSort = 1;

function isChoice(decision: number): boolean {
    return decision >> bitsOfNumber === choiceSort;
}

/** Lets the library analyze the grammar only when it is asked for it. Returns how it would take a decision itself. */
function postponeAnalysis(engine: PreparedEngine): (rule: number, decision: number) => Decide {
    const strategy = engine.lookaheadStrategy;
    engine.preComputeLookaheadFunctions = () => undefined;
    engine.selfAnalysisDone = true;
    let analyzed = false;
    const analyze = (): void => {
        if (!analyzed) {
            analyzed = true;
            engine.lookaheadStrategy = { ...strategy, initialize: () => undefined };
            engine.performSelfAnalysis();
        }
    };
    const getProductions = engine.getGAstProductions.bind(engine);
    const getFollowSet = engine.getFollowSetFromFollowKey.bind(engine);
    engine.getGAstProductions = () => {
        analyze();
        return getProductions();
    };
    engine.getFollowSetFromFollowKey = key => {
        analyze();
        return getFollowSet(key);
    };
    makeFast(engine);
    let initialized = false;
    return (rule, decision) => {
        analyze();
        if (!initialized) {
            initialized = true;
            strategy.initialize({ rules: Object.values(engine.gastProductionsCache) });
        }
        return strategy.buildLookaheadForAlternation({
            rule: engine.gastProductionsCache[engine.shortRuleNameToFull[rule] ?? ''],
            prodOccurrence: decision & ((1 << bitsOfNumber) - 1),
            maxLookahead: 1,
            hasPredicates: false,
            dynamicTokensEnabled: false,
        });
    };
}

// The parser has a property for every rule, and V8 looks the properties of so large an object up slowly, unless it has
// seen a few times that the object is the prototype of another.
function makeFast(engine: PreparedEngine): void {
    const heir = Object.create(engine) as PreparedEngine;
    const look = (object: PreparedEngine): boolean => object.selfAnalysisDone;
    for (let time = 0; time < 100; time += 1) look(heir);
}
