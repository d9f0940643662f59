/** The files that the properties are tried on: the examples and the worlds of the tests, whole and in pieces. */
import { listFiles } from '../house/project.mjs';
import { readFolder } from '../support/read-folder.js';
import type { Texts } from '../support/read-texts.js';

/** How many members of a declaration stand together in a piece. */
const mostMembers = 8;

/** A folder of files that belong together, by their path in it; pictures among them. */
export interface World {
    readonly folder: string;
    readonly texts: Texts;
}

/** A file of a world, or a piece of one that could stand alone. */
export interface Sample {
    readonly name: string;
    readonly world: World;
    readonly file: string;
    readonly text: string;
}

/** Every world that has a `.fault` file. */
export const worlds: readonly World[] = ['examples', 'tests/worlds'].flatMap(parent => {
    const sources = listFiles(parent).filter(isSource);
    const folders = new Set(sources.map(path => path.slice(0, path.indexOf('/', parent.length + 1))));
    return [...folders].map(folder => ({ folder, texts: readFolder(folder) }));
});

/** Every `.fault` file of every world. */
export const samples: readonly Sample[] = worlds.flatMap(world =>
    sourcesOf(world.texts).map(([file, text]) => ({ name: `${world.folder}/${file}`, world, file, text })),
);

/** Pieces of the samples: a heading with some of what stands in its braces, and what the file uses. */
export const pieces: readonly Sample[] = samples.flatMap(sample => piecesOf(sample));

/** The same world with a file for each declaration; each file uses all others. */
export function spread({ folder, texts }: World): World {
    const declarations = sourcesOf(texts).flatMap(([, text]) => declarationsIn(text.split('\n')));
    const fileOf = (index: number): string => `piece-${index}.fault`;
    const uses = declarations.map((_, index) => `uses "${fileOf(index)}"`);
    const files = declarations.map(({ heading, members, closing }, index) => {
        const others = uses.filter((_, other) => other !== index);
        return [fileOf(index), `${[...others, ...heading, ...members.flat(), ...closing].join('\n')}\n`] as const;
    });
    const rest = Object.entries(texts).filter(([file]) => !isSource(file));
    return { folder: `${folder}, spread over ${files.length} files`, texts: Object.fromEntries([...files, ...rest]) };
}

/** The `.fault` files among texts, with their paths. */
export function sourcesOf(texts: Texts): readonly [string, string][] {
    return Object.entries(texts).filter(([file]) => isSource(file));
}

function isSource(path: string): boolean {
    return path.endsWith('.fault');
}

function piecesOf(sample: Sample): Sample[] {
    const lines = sample.text.split('\n');
    const uses = lines.filter(line => line.startsWith('uses '));
    return declarationsIn(lines).flatMap(({ heading, members, closing }) => {
        const count = Math.max(1, Math.ceil(members.length / mostMembers));
        return Array.from({ length: count }, (_, index) => {
            const some = members.slice(index * mostMembers, (index + 1) * mostMembers).flat();
            const text = `${[...uses, ...heading, ...some, ...closing].join('\n')}\n`;
            return { ...sample, name: `${sample.name}, \`${heading[0] ?? ''}\`, piece ${index + 1}`, text };
        });
    });
}

interface Declaration {
    readonly heading: string[];
    /** The lines of each member. */
    readonly members: string[][];
    readonly closing: string[];
}

// The samples have the one layout, so the indentation tells where a declaration or a member begins and ends.
function declarationsIn(lines: readonly string[]): Declaration[] {
    const declarations: Declaration[] = [];
    for (const line of lines) {
        const last = declarations.at(-1);
        const open = last && last.closing.length === 0 ? last : undefined;
        if (/^[a-z]/.test(line) && !line.startsWith('uses ')) {
            declarations.push({ heading: [line], members: [], closing: [] });
        } else if (open && line === '}') {
            open.closing.push(line);
        } else if (open && /^ {2}[^\s})\]]/.test(line)) {
            open.members.push([line]);
        } else if (open) {
            (open.members.at(-1) ?? open.heading).push(line);
        }
    }
    return declarations;
}
