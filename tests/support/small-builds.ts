/** Small equipments with options, guards and exclusions, made at random, and all their builds by plain enumeration. */
import fc from 'fast-check';

/** What a guard says, apart from how the language and the model say it. */
export type Guard =
    | { readonly is: string }
    | { readonly not: Guard }
    | { readonly all: readonly Guard[] }
    | { readonly any: readonly Guard[] };

export interface SmallOption {
    readonly name: string;
    readonly choices: readonly string[];
    readonly guard: Guard | undefined;
}

/** The options of an equipment, and what is never built. */
export interface SmallBuilds {
    readonly options: readonly SmallOption[];
    readonly exclusions: readonly (readonly Guard[])[];
}

/** The choices of one build; an option that the build does not have has none. */
export type Build = ReadonlySet<string>;

const optionNames = ['alpha', 'beta', 'gamma', 'delta', 'epsilon'];

/** Up to five options with up to three choices, some of them limited to builds, and up to five exclusions. */
export const smallBuilds: fc.Arbitrary<SmallBuilds> = fc
    .array(fc.integer({ min: 1, max: 3 }), { minLength: 1, maxLength: optionNames.length })
    .chain(counts => {
        const options = counts.map((count, index) => {
            const name = optionNames[index] ?? '';
            return { name, choices: Array.from({ length: count }, (_, number) => `${name}-${number}`) };
        });
        const guard = guardOver(options.flatMap(({ choices }) => choices));
        return fc.record({
            options: fc.tuple(
                ...options.map(option =>
                    fc.oneof(
                        { arbitrary: fc.constant({ ...option, guard: undefined }), weight: 3 },
                        { arbitrary: guard.map(one => ({ ...option, guard: one })), weight: 1 },
                    ),
                ),
            ),
            exclusions: fc.array(fc.array(guard, { minLength: 1, maxLength: 3 }), { maxLength: 5 }),
        });
    });

/** A guard over these choices: mostly one choice, sometimes a small expression. */
export function guardOver(choices: readonly string[]): fc.Arbitrary<Guard> {
    const { guard } = fc.letrec<{ guard: Guard }>(tie => ({
        guard: fc.oneof(
            { maxDepth: 2, depthSize: 'small' },
            { arbitrary: fc.constantFrom(...choices).map(is => ({ is })), weight: 4 },
            { arbitrary: tie('guard').map(not => ({ not })), weight: 1 },
            { arbitrary: fc.array(tie('guard'), { minLength: 2, maxLength: 3 }).map(all => ({ all })), weight: 1 },
            { arbitrary: fc.array(tie('guard'), { minLength: 2, maxLength: 3 }).map(any => ({ any })), weight: 1 },
        ),
    }));
    return guard;
}

/** All choices of an equipment. */
export function choicesOf({ options }: SmallBuilds): string[] {
    return options.flatMap(({ choices }) => choices);
}

/** Every build that is made, by trying all combinations. */
export function enumerateBuilds({ options, exclusions }: SmallBuilds): Build[] {
    let builds: Build[] = [new Set()];
    for (const { choices, guard } of options) {
        const picks: (readonly string[])[] = choices.map(choice => [choice]);
        if (guard) picks.push([]);
        builds = builds.flatMap(build => picks.map(pick => new Set([...build, ...pick])));
    }
    return builds.filter(
        build =>
            !exclusions.some(terms => terms.every(term => holds(term, build))) &&
            options.every(
                ({ choices, guard }) => !guard || holds(guard, build) === choices.some(choice => build.has(choice)),
            ),
    );
}

/** Whether a guard holds in a build. */
export function holds(guard: Guard | undefined, build: Build): boolean {
    if (!guard) return true;
    if ('is' in guard) return build.has(guard.is);
    if ('not' in guard) return !holds(guard.not, build);
    if ('all' in guard) return guard.all.every(one => holds(one, build));
    return guard.any.some(one => holds(one, build));
}

/** A guard as the language writes it, with every bracket. */
export function writeGuard(guard: Guard): string {
    if ('is' in guard) return guard.is;
    if ('not' in guard) return `not ${writeGuard(guard.not)}`;
    if ('all' in guard) return `(${guard.all.map(writeGuard).join(' and ')})`;
    return `(${guard.any.map(writeGuard).join(' or ')})`;
}

/** ` for GUARD`, or nothing. */
export function writeFor(guard: Guard | undefined): string {
    return guard ? ` for ${writeGuard(guard)}` : '';
}

/** The equipment `machine` with these options; `more` stands inside it. */
export function writeEquipment({ options, exclusions }: SmallBuilds, more: readonly string[] = []): string {
    return [
        'equipment machine "Machine" {',
        ...options.map(({ name, choices, guard }) => `  option ${name}${writeFor(guard)} { ${choices.join(' ')} }`),
        ...exclusions.map(terms => `  exclude ${terms.map(writeGuard).join(' with ')}`),
        ...more.map(line => `  ${line}`),
        '}',
    ].join('\n');
}
