/** What the cases of the conformance vectors share: the form of a case, and small texts that they are made of. */

/** An answer, `{ finish }` or `{ back }`, and the screen that follows. */
export type Stop = readonly [
    (
        | string
        | { readonly reading: number; readonly unit: string }
        | { readonly finish: string }
        | { readonly back: true }
    ),
    string,
];

export interface Case {
    readonly name: string;
    readonly about: string;
    readonly text: string;
    readonly build: readonly string[];
    readonly first: string;
    readonly stops: readonly Stop[];
    /** Changes the exported document, for what no text can say. */
    readonly change?: (document: Record<string, unknown>) => unknown;
}

/** Adds a case to a list: its name, what it is about, the text, the first screen, and what follows. */
export type Add = (
    name: string,
    about: string,
    text: string,
    first: string,
    stops?: readonly Stop[],
    rest?: Partial<Pick<Case, 'build' | 'change'>>,
) => void;

/** A new list of cases, and how they are added to it. */
export function listCases(): { readonly cases: readonly Case[]; readonly add: Add } {
    const cases: Case[] = [];
    return {
        cases,
        add: (name, about, text, first, stops = [], { build = [], change } = {}) => {
            cases.push({ name, about, text, build, first, stops, ...(change ? { change } : {}) });
        },
    };
}

export const reading = (value: number, unit: string) => ({ reading: value, unit });

export interface Parts {
    /** Before the equipment. */
    readonly top?: string;
    readonly equipment?: string;
    readonly clauses?: string;
    readonly steps: string;
    readonly ends?: string;
}

/** A lamp with a cell and a bulb, and what a case adds to it. */
export function lamp({ top = '', equipment = '', clauses = '', steps, ends = '' }: Parts): string {
    return `${top}
equipment lamp "Lamp, invented" {
  ${equipment}
  part cell "Cell" { replace "Fit a new cell." takes 1 min fault flat "Flat" rate 9 per 1e6 h }
  part bulb "Bulb" { replace "Fit a new bulb." takes 1 min fault broken "Broken" rate 9 per 1e6 h }
  test light "Does it light?" { checks cell.flat as absent, bulb.broken as absent observe by eye takes 1 min normal yes absent no }
}
tree dark "It is dark" of lamp {
  complaint light absent
  ${clauses}
  ${steps}
  conclude bad-cell "The cell is flat" { cell.flat }
  conclude bad-bulb "The bulb is broken" { bulb.broken }
  ${ends}
  refer fine "No fault found" because "it lights"
  refer ask "Ask the workshop" because "it cannot be told"
}
`;
}

export const lightAsked = 'look: test light (normal, absent)';
export const voltage = (bands: string): string =>
    `test volts "Voltage" { checks cell.flat as low measure voltage DC takes 1 min ${bands} }`;

export const plain = lamp({ steps: 'step look "Look" { test light { normal -> fine  absent -> bad-cell } }' });
export const option = 'option size "Size" { small "Small"  large "Large" }';
export const switched = 'condition knob "Knob" { off on }';
export const flat = 'conclude bad-cell; faults cell.flat; repairs replace';
export const celsius = ['temperature', '°C'] as const;
export const ohms = ['resistance', 'Ω'] as const;
