// Which fault a world arrived with and which faults are present in it now, each combination kept once under a number.

/** What is kept beside a world set: everything of a world that concerns faults. */
export interface Presence {
    readonly number: number;
    /** None for a healthy unit, two in the analysis of double faults. */
    readonly arrival: readonly number[];
    /** In ascending order, as in all lists here. */
    readonly present: readonly number[];
    /** Faults that were cleared and can come back, with how long the equipment has run since, in milliseconds. */
    readonly cleared: readonly { readonly fault: number; readonly time: number }[];
    /** For each test that remembers, the faults that it remembers. */
    readonly memory: ReadonlyMap<number, readonly number[]>;
    /** The part of the arrival fault has been replaced. */
    readonly replaced: boolean;
}

/** All presences met so far. */
export class Presences {
    private readonly known = new Map<string, Presence>();
    private readonly list: Presence[] = [];

    /** The presence with these contents. */
    of(contents: Omit<Presence, 'number'>): Presence {
        const key = presenceKey(contents);
        let presence = this.known.get(key);
        if (!presence) {
            presence = { ...contents, number: this.list.length };
            this.known.set(key, presence);
            this.list.push(presence);
        }
        return presence;
    }

    at(number: number): Presence {
        const presence = this.list[number];
        if (!presence) throw new Error(`There is no presence ${number}.`);
        return presence;
    }
}

function presenceKey({ arrival, present, cleared, memory, replaced }: Omit<Presence, 'number'>): string {
    const times = cleared.map(({ fault, time }) => `${fault}@${time}`).join(',');
    const remembered = [...memory].map(([test, faults]) => `${test}=${faults.join('.')}`).join(',');
    return `${arrival.join(',')}|${present.join(',')}|${times}|${remembered}|${replaced ? 1 : 0}`;
}
