/** Damages texts at random, as slips of the hand, bad merges and broken disks do. */
import fc from 'fast-check';
import { createParserServices } from '../../language/src/lower/parse/parser-module.js';
import { samples, type Sample } from './samples.js';

/** One change. `at` is the share of the text before the change, in millionths, so that it fits any text. */
type Operation = {
    readonly at: number;
    /** Whether the change begins where a word does. */
    readonly atWord: boolean;
} & (
    | { readonly sort: 'delete'; readonly length: number }
    | { readonly sort: 'insert'; readonly text: string }
    | { readonly sort: 'cut'; readonly keep: 'beginning' | 'end' }
);

/** A sample after damage. */
export interface Damaged {
    readonly sample: Sample;
    readonly text: string;
    /** What was done to the sample, one change a line. */
    readonly changes: readonly string[];
    /** What fast-check prints of it. */
    readonly [fc.toStringMethod]: () => string;
}

/** One of the samples with one to five changes. */
export function damaged(among: readonly Sample[]): fc.Arbitrary<Damaged> {
    const operations = fc.array(operation, { minLength: 1, maxLength: 5 });
    return fc.tuple(fc.constantFrom(...among), operations).map(([sample, some]) => applyAll(sample, some));
}

const mostPrinted = 2500;

function applyAll(sample: Sample, operations: readonly Operation[]): Damaged {
    let { text } = sample;
    const changes: string[] = [];
    for (const one of operations) {
        const [start, end, inserted] = changeOf(text, one);
        const removed = text.slice(start, end);
        changes.push(`at ${start}: ${JSON.stringify(removed)} becomes ${JSON.stringify(inserted)}`);
        text = text.slice(0, start) + inserted + text.slice(end);
    }
    const shown = text.length > mostPrinted ? [] : ['that is', JSON.stringify(text)];
    return {
        sample,
        text,
        changes,
        [fc.toStringMethod]: () => ['', sample.name, ...changes, ...shown].join('\n    '),
    };
}

/** The stretch to replace, and by what. */
function changeOf(text: string, one: Operation): [start: number, end: number, inserted: string] {
    const place = Math.floor((one.at / millionths) * (text.length + 1));
    const start = one.atWord ? wordFrom(text, place) : place;
    switch (one.sort) {
        case 'delete':
            return [start, Math.min(text.length, start + one.length), ''];
        case 'insert':
            return [start, start, one.text];
        case 'cut':
            return one.keep === 'beginning' ? [start, text.length, ''] : [0, start, ''];
    }
}

function wordFrom(text: string, place: number): number {
    const gap = /\s\S/g;
    gap.lastIndex = place;
    return (gap.exec(text)?.index ?? place - 1) + 1;
}

const millionths = 1_000_000;

const lexer = createParserServices().parser.Lexer;
/** Every word and sign of the language. */
const words = Object.values(lexer.definition)
    .map(({ PATTERN }) => PATTERN)
    .filter(pattern => typeof pattern === 'string');

const brackets = ['{', '}', '(', ')', '[', ']', '{ }', '} {', '{{', '}}'];
const quotesAndComments = ['"', '"""', '""', '//', '/*', '*/', "'", '`', '\\', '\\"', '“', '”', '«'];
const otherLetters = [
    'é',
    'Ω',
    '±',
    '−',
    '…',
    '\u00a0',
    '\u200b',
    '\u202e',
    '\ufeff',
    '日本',
    '\u2028',
    '\u0301',
    'İ',
    'ß',
];
const halves = ['😀', '\ud83d', '\ude00', '\ufffd', '\uffff'];
const controls = ['\0', '\u0001', '\u0007', '\u001b', '\u007f', '\u0085', '\r', '\r\n', '\t', '\v', '\f', '\n'];
const numbers = [
    '0',
    '-1',
    '0 V',
    '1e99',
    '1e-99',
    '1e999999999',
    '9'.repeat(60),
    '0.',
    '.5',
    '1,5 V',
    '24 V .. 5 V',
    '100 %',
];
const repeated = ['(', '{ ', 'not ', '"', 'a', ' ', '\n', '+ 1 V ', ', x', '9', '- ', '.', '/*', '// x\n'];
// These names lead somewhere in every JavaScript object.
const inheritedNames = ['constructor', '__proto__', 'toString', 'hasOwnProperty', 'valueOf'];

const fragment: fc.Arbitrary<string> = fc
    .tuple(fc.constantFrom(...samples), fc.nat(millionths - 1), fc.integer({ min: 1, max: 300 }))
    .map(([{ text }, from, length]) => {
        const start = Math.floor((from / millionths) * text.length);
        return text.slice(start, start + length);
    });

const insertedText: fc.Arbitrary<string> = fc.oneof(
    { arbitrary: fc.string({ minLength: 1, maxLength: 3 }), weight: 3 },
    { arbitrary: fc.constantFrom(...words).map(word => ` ${word} `), weight: 5 },
    { arbitrary: fc.constantFrom(...brackets), weight: 3 },
    { arbitrary: fc.constantFrom(...quotesAndComments), weight: 3 },
    { arbitrary: fragment, weight: 4 },
    { arbitrary: fc.constantFrom(...otherLetters), weight: 2 },
    { arbitrary: fc.constantFrom(...halves), weight: 1 },
    { arbitrary: fc.constantFrom(...controls), weight: 1 },
    { arbitrary: fc.constantFrom(...numbers).map(number => ` ${number} `), weight: 2 },
    {
        arbitrary: fc
            .tuple(fc.constantFrom(...repeated), fc.integer({ min: 2, max: 2000 }))
            .map(([one, count]) => one.repeat(count)),
        weight: 1,
    },
    { arbitrary: fc.constantFrom(...inheritedNames).map(name => ` ${name} `), weight: 1 },
);

const place = { at: fc.nat(millionths - 1), atWord: fc.boolean() };

const operation: fc.Arbitrary<Operation> = fc.oneof(
    {
        arbitrary: fc.record({
            ...place,
            sort: fc.constant('delete' as const),
            length: fc.oneof(fc.integer({ min: 1, max: 12 }), fc.integer({ min: 1, max: 400 })),
        }),
        weight: 8,
    },
    { arbitrary: fc.record({ ...place, sort: fc.constant('insert' as const), text: insertedText }), weight: 10 },
    {
        arbitrary: fc.record({
            ...place,
            sort: fc.constant('cut' as const),
            keep: fc.constantFrom('beginning' as const, 'end' as const),
        }),
        weight: 1,
    },
);
