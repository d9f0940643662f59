/**
 * Works out from the grammar what the parser library would otherwise work out at every start.
 * `npm run generate` bundles this file and runs it.
 */
import {
    createDefaultCoreModule,
    createDefaultSharedCoreModule,
    EmptyFileSystem,
    GrammarAST,
    GrammarUtils,
    inject,
    LangiumParser,
    type LangiumCoreServices,
    type Module,
    type PartialLangiumCoreServices,
} from 'langium';
import { HalfsplitGeneratedModule, HalfsplitGeneratedSharedModule } from '../../language/src/generated/module.js';
import { allWordsAsNames } from '../../language/src/lower/parse/name-rules.js';
import { buildRules } from '../../language/src/lower/parse/rule-builder.js';

/** The tables, in the form in which they are written; the generated file says what each list means. */
export interface WorkedOutTables {
    readonly words: readonly (readonly string[])[];
    readonly wordsAsNames: readonly string[];
    readonly rules: readonly (readonly [name: string, type: string])[];
    readonly defaults: Readonly<Record<string, readonly (readonly [property: string, value: unknown])[]>>;
    readonly tokens: readonly string[];
    readonly sets: readonly (readonly number[])[];
    readonly trees: readonly (readonly number[])[];
    readonly decisions: readonly (readonly number[])[];
    readonly afterRepetitions: readonly (readonly number[])[];
}

/** Asks the library's own parser for every decision and for every sequence of tokens that may come. */
export function workOutParserTables(): WorkedOutTables {
    const services = createServices();
    const { wrapper } = services.parser.LangiumParser as unknown as { readonly wrapper: LibraryParser };
    const types = Object.values(wrapper.tokensMap);
    const tables = new TableWriter(types.map(({ name }) => name));
    const decisions = Array.from(wrapper.lookAheadFuncsCache, functions =>
        Object.entries(functions ?? {}).flatMap(([number, decide]) => [
            Number(number),
            tables.addTree(askAll(decide, types, isChoice(Number(number)))),
        ]),
    );
    return {
        words: types
            .filter(({ PATTERN }) => typeof PATTERN === 'string')
            .map(({ name, LONGER_ALT }) => [name, ...[LONGER_ALT ?? []].flat().map(longer => longer.name)]),
        wordsAsNames: [...allWordsAsNames(services.Grammar)],
        rules: findRules(services),
        defaults: findDefaults(services),
        tokens: tables.tokens,
        sets: tables.sets,
        trees: tables.trees,
        decisions,
        afterRepetitions: wrapper.getSerializedGastProductions().map(rule => findAfterRepetitions(rule, tables.tokens)),
    };
}

interface TokenType {
    readonly name: string;
    readonly tokenTypeIdx: number;
    readonly PATTERN: unknown;
    readonly LONGER_ALT?: TokenType | TokenType[];
}

interface Token {
    readonly tokenTypeIdx: number;
    readonly image: string;
}

type Decide = (this: { LA(ahead: number): Token; LA_FAST(ahead: number): Token }) => number | boolean | undefined;

interface Production {
    readonly type: string;
    readonly name?: string;
    readonly idx?: number;
    readonly definition?: readonly Production[];
}

/** The parts of the parser library that are asked. */
interface LibraryParser {
    readonly tokensMap: Readonly<Record<string, TokenType>>;
    /** By the number of the rule; a rule without decisions has none. */
    readonly lookAheadFuncsCache: readonly (Readonly<Record<string, Decide>> | undefined)[];
    getSerializedGastProductions(): readonly Production[];
}

function createServices(): LangiumCoreServices {
    const module: Module<LangiumCoreServices, PartialLangiumCoreServices> = {
        parser: {
            LangiumParser: services => {
                const parser = new LangiumParser(services);
                buildRules(reachableRules(services.Grammar), parser, services.parser.Lexer.definition);
                parser.finalize();
                return parser;
            },
        },
    };
    const shared = inject(createDefaultSharedCoreModule(EmptyFileSystem), HalfsplitGeneratedSharedModule);
    return inject(createDefaultCoreModule({ shared }), HalfsplitGeneratedModule, module);
}

/** The rules that the language can reach, in the order of the grammar. */
function reachableRules(grammar: GrammarAST.Grammar): readonly GrammarAST.ParserRule[] {
    const reachable = GrammarUtils.getAllReachableRules(grammar, false);
    return grammar.rules.filter(GrammarAST.isParserRule).filter(rule => reachable.has(rule));
}

/** Each rule with the type of its nodes; with none where it gives a text. */
function findRules({ Grammar, parser }: LangiumCoreServices): WorkedOutTables['rules'] {
    const inside = parser.LangiumParser as unknown as { computeRuleType(rule: GrammarAST.ParserRule): unknown };
    return reachableRules(Grammar).map(rule => {
        const type = inside.computeRuleType(rule);
        return [rule.name, typeof type === 'string' ? type : ''];
    });
}

/** For each type of nodes the properties that are there even where nothing is written for them. */
function findDefaults({ shared }: LangiumCoreServices): WorkedOutTables['defaults'] {
    const types = shared.AstReflection.getAllTypes().map(type => {
        const properties = Object.values(shared.AstReflection.getTypeMetaData(type).properties);
        const defaults = properties.flatMap(({ name, defaultValue }): [string, unknown][] =>
            defaultValue === undefined ? [] : [[name, defaultValue]],
        );
        return [type, defaults] as const;
    });
    return Object.fromEntries(types.filter(([, defaults]) => defaults.length > 0));
}

/** What comes of a decision by the next token: a number, or for some tokens what comes by the one after it. */
interface Tree {
    readonly outcomes: ReadonlyMap<number, number | Tree>;
}

// Outcomes that are no number of a branch, as in language/src/lower/parse/prepared-parser.ts.
const noBranch = -1;
const byGrammar = -2;
const firstTree = -3;

const mostTokensAhead = 4;
const mostTreesOfDecision = 200;

/**
 * The tree for one decision: as deep as it must be. Where it would grow too large, it is shallow and leaves the rest to
 * the grammar; that is meant for choices only.
 */
function askAll(decide: Decide, types: readonly TokenType[], choice: boolean): Tree {
    for (let depth = mostTokensAhead; depth > 0; depth -= 1) {
        const asking: Asking = { decide, types, depth, trees: 0, unanswered: 0 };
        const tree = ask(asking, []);
        if (asking.trees <= mostTreesOfDecision && typeof tree !== 'number' && (choice || asking.unanswered === 0)) {
            return tree;
        }
    }
    throw new Error('For a decision of the grammar no tree can be worked out.');
}

function isChoice(decision: number): boolean {
    return decision >> 8 === 1;
}

interface Asking {
    readonly decide: Decide;
    readonly types: readonly TokenType[];
    readonly depth: number;
    trees: number;
    unanswered: number;
}

class MoreTokensWanted extends Error {}

function ask(asking: Asking, ahead: readonly TokenType[]): number | Tree {
    const look = (distance: number): Token => {
        const type = ahead[distance - 1];
        if (type === undefined) throw new MoreTokensWanted();
        return { tokenTypeIdx: type.tokenTypeIdx, image: type.name };
    };
    try {
        return toOutcome(asking.decide.call({ LA: look, LA_FAST: look }));
    } catch (error) {
        if (!(error instanceof MoreTokensWanted)) throw error;
    }
    asking.trees += 1;
    if (ahead.length >= asking.depth || asking.trees > mostTreesOfDecision) {
        asking.unanswered += 1;
        return byGrammar;
    }
    return { outcomes: new Map(asking.types.map((type, token) => [token, ask(asking, [...ahead, type])])) };
}

function toOutcome(decided: number | boolean | undefined): number {
    if (typeof decided === 'number') return decided;
    return decided === true ? 0 : noBranch;
}

/** Collects trees and sets of tokens, each only once. */
class TableWriter {
    readonly sets: number[][] = [];
    readonly trees: number[][] = [];
    private readonly known = new Map<string, number>();

    constructor(readonly tokens: readonly string[]) {}

    /** Returns the number of the tree: a list of pairs of the number of a set of tokens, and the outcome for them. */
    addTree(tree: Tree): number {
        const byOutcome = new Map<number, number[]>();
        for (const [token, result] of tree.outcomes) {
            const outcome = typeof result === 'number' ? result : firstTree - this.addTree(result);
            const tokens = byOutcome.get(outcome) ?? [];
            byOutcome.set(outcome, [...tokens, token]);
        }
        byOutcome.delete(noBranch);
        const pairs = [...byOutcome].flatMap(([outcome, tokens]) => [this.add(this.sets, tokens, 'set'), outcome]);
        return this.add(this.trees, pairs, 'tree');
    }

    private add(list: number[][], numbers: number[], sort: string): number {
        const key = `${sort} ${numbers.join(' ')}`;
        const number = this.known.get(key) ?? list.push(numbers) - 1;
        this.known.set(key, number);
        return number;
    }
}

// How the library numbers repetitions within a rule: the sort in the upper bits.
const repetitionSorts: Readonly<Record<string, number>> = { Repetition: 3 << 8, RepetitionMandatory: 4 << 8 };

/** For each repetition: its number, the token that must follow it in its rule or -1, which of these, and whether the rule ends. */
function findAfterRepetitions(rule: Production, tokens: readonly string[]): readonly number[] {
    const found: number[] = [];
    const walk = (definition: readonly Production[], after: readonly Production[]): void => {
        definition.forEach((production, index) => {
            const rest = [...definition.slice(index + 1), ...after];
            const inner = production.definition ?? [];
            const sort = repetitionSorts[production.type];
            if (production.type === 'Alternation') {
                inner.forEach(branch => walk(branch.definition ?? [], rest));
            } else if (sort === undefined) {
                walk(inner, rest);
            } else {
                const [next] = rest;
                const token = next?.type === 'Terminal' ? tokens.indexOf(next.name ?? '') : -1;
                found.push(
                    sort | (production.idx ?? 0),
                    token,
                    token < 0 ? 0 : (next?.idx ?? 0),
                    next === undefined ? 1 : 0,
                );
                // Within a repetition, another round may follow.
                walk(inner, [{ type: 'Option' }, ...rest]);
            }
        });
    };
    walk(rule.definition ?? [], []);
    return found;
}
