// Makes invented trees about many options and no faults: they only lead each build by the steps that are meant for it.
//
// Such a tree is a commissioning list in chapters. All builds that are not yet done come to each chapter; in it they go by
// different ways, and some of them are done at its end.

import type { GeneratedFile } from './generate-workspace.js';

export interface OptionTreeSize {
    readonly steps: number;
    /** How many options of two choices there are. */
    readonly options: number;
    /**
     * `near`: each guard names one to three options that lie near each other, as parts of one assembly do.
     * `any`: half of the steps are guarded by one to three of all options.
     */
    readonly guards: 'near' | 'any';
    /** Of so many steps one leads further ahead for some builds, past others that are meant for them too. */
    readonly aheadEvery: number;
    /** Other cases of the same kind. */
    readonly seed?: number;
}

/** One file with an equipment and a tree; the same size gives the same text every time. */
export function generateOptionTree({ steps, options, guards, aheadEvery, seed = 1 }: OptionTreeSize): GeneratedFile {
    const random = makeRandom(seed);
    const lines: string[] = [];
    const chapters = Math.ceil(steps / stepsOfChapter);
    for (let chapter = 0; chapter < chapters; chapter += 1) {
        const first = chapter * stepsOfChapter;
        const count = Math.min(stepsOfChapter, steps - first);
        const isLast = chapter === chapters - 1;
        // Chapters go over the machine from one end to the other, several times.
        const around = Math.floor((chapter * options * rounds) / chapters) % options;
        const guard = makeGuards(random, options, guards === 'near' ? around : undefined);
        lines.push(
            ...writeChapter({
                first,
                count,
                isLast,
                hasExit: chapter % chaptersOfExit === chaptersOfExit - 1,
                random,
                guard,
                aheadEvery,
            }),
        );
    }
    const text = [
        '// A commissioning list. The machine and all its options are invented.',
        'equipment machine "Machine of many options" {',
        ...writeOptions(options),
        '  supply spur "Supply of the machine"',
        '  flow power: spur -> [ready]',
        '  test ready "Is the lamp on?" {',
        '    observe by eye',
        '    normal yes',
        '    absent no shows stopped',
        '  }',
        '}',
        '',
        'tree commissioning "The machine is new" of machine {',
        '  complaint ready absent mistaken 100 %',
        ...lines,
        '  refer all-done "Hand it over" because "all is set"',
        '  refer done-early "Hand it over" because "nothing else has to be set"',
        '}',
        '',
    ];
    return { path: `${guards}-options.fault`, text: text.join('\n') };
}

const stepsOfChapter = 50;
/** Some builds are done at the end of each so-many-th chapter. */
const chaptersOfExit = 20;

/** How often the chapters go over the machine. */
const rounds = 3;

/** How far ahead a step leads at most. */
const farthest = 9;

function writeOptions(options: number): readonly string[] {
    const lines: string[] = [];
    for (let option = 0; option < options; option += 1) {
        lines.push(`  option option-${option} { with-${option} share 50 %  without-${option} share 50 % }`);
        if (option % 4 === 3) {
            lines.push(`  exclude with-${option} with with-${option - 1} because "They take one slot."`);
        }
    }
    return lines;
}

interface Chapter {
    readonly first: number;
    readonly count: number;
    readonly isLast: boolean;
    /** Whether some builds are done at its end. */
    readonly hasExit: boolean;
    readonly random: Random;
    readonly aheadEvery: number;
    /** A guard of so many terms, about none of the options of the guards that are given. */
    readonly guard: (terms: number, others: readonly Guard[]) => Guard;
}

/** Choices that a build must all have, by option. */
type Guard = ReadonlyMap<number, 'with' | 'without'>;

/** Every second step is guarded; each way to such a step is for just the builds that it is for. */
function writeChapter({ first, count, isLast, hasExit, random, aheadEvery, guard }: Chapter): readonly string[] {
    const none: Guard = new Map();
    const guards: Guard[] = [];
    for (let index = 0; index < count; index += 1) {
        const isGuarded = index % 2 === 1 && index < count - 1;
        guards.push(isGuarded ? guard(1 + random(3), guards.slice(-3)) : none);
    }
    const lines: string[] = [];
    guards.forEach((own, index) => {
        lines.push(`  step s${first + index}${clause(own)} {`, `    do "Set item ${first + index}."`);
        if (index === count - 1) {
            if (hasExit) lines.push(`    go done-early${clause(guard(3, []))}`);
            lines.push(isLast ? '    go all-done' : `    go s${first + count}`, '  }');
            return;
        }
        // A way ahead that says nothing against where it comes from, nor against the next step.
        const next = guards[index + 1] ?? none;
        const ahead = Math.min(count - 1, index + 2 + random(farthest - 1));
        const beyond = guards[ahead] ?? none;
        const isFree = [own, next].every(one => [...one.keys()].every(option => !beyond.has(option)));
        const way = beyond.size === 0 ? guard(2, [own, next]) : beyond;
        if (isFree && random(aheadEvery) === 0) lines.push(`    go s${first + ahead}${clause(way)}`);
        if (next.size > 0) lines.push(`    go s${first + index + 1}${clause(next)}`);
        lines.push(`    go s${first + index + (next.size > 0 ? 2 : 1)}`, '  }');
    });
    return lines;
}

function clause(guard: Guard): string {
    const terms = [...guard].map(([option, choice]) => `${choice}-${option}`);
    return terms.length === 0 ? '' : ` for ${terms.join(' and ')}`;
}

type Random = (below: number) => number;

function makeRandom(seed: number): Random {
    let state = seed;
    return below => {
        state = (Math.imul(state, 1_103_515_245) + 12_345) & 0x7fff_ffff;
        return (state >>> 8) % below;
    };
}

/** Makes guards over different options: those near one of them, or any. */
function makeGuards(random: Random, options: number, around: number | undefined): Chapter['guard'] {
    return (terms, others) => {
        const guard = new Map<number, 'with' | 'without'>();
        while (guard.size < terms) {
            const option = around === undefined ? random(options) : Math.min(around, options - nearby) + random(nearby);
            if (others.some(other => other.has(option))) continue;
            // Never one that an exclusion is about, so that no two guards contradict each other for that reason.
            guard.set(option, option % 4 !== 3 && random(2) === 0 ? 'with' : 'without');
        }
        return guard;
    };
}

/** How near each other the options of one chapter lie. */
const nearby = 6;
