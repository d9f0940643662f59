// A map for the many places where there is mostly one entry.

/** What can be looked up in a map, whichever kind it is. */
export interface Entries<Key, Value> {
    readonly size: number;
    get(key: Key): Value | undefined;
    has(key: Key): boolean;
    keys(): IterableIterator<Key>;
    values(): IterableIterator<Value>;
    [Symbol.iterator](): IterableIterator<[Key, Value]>;
}

/**
 * A map that makes a table only for its second entry. One table for each station, exit and end was most of the memory of
 * a large walk.
 */
export class SmallMap<Key, Value> implements Entries<Key, Value> {
    private onlyKey: Key | undefined = undefined;
    private onlyValue: Value | undefined = undefined;
    private table: Map<Key, Value> | undefined = undefined;

    get size(): number {
        return this.table?.size ?? (this.onlyKey === undefined ? 0 : 1);
    }

    get(key: Key): Value | undefined {
        if (this.table) return this.table.get(key);
        return this.onlyKey === key ? this.onlyValue : undefined;
    }

    has(key: Key): boolean {
        return this.table?.has(key) ?? this.onlyKey === key;
    }

    set(key: Key, value: Value): void {
        if (this.table) {
            this.table.set(key, value);
        } else if (this.onlyKey === undefined || this.onlyKey === key) {
            this.onlyKey = key;
            this.onlyValue = value;
        } else {
            this.table = new Map([...this, [key, value]]);
        }
    }

    keys(): IterableIterator<Key> {
        return (
            this.table?.keys() ??
            this.only()
                .map(([key]) => key)
                .values()
        );
    }

    values(): IterableIterator<Value> {
        return (
            this.table?.values() ??
            this.only()
                .map(([, value]) => value)
                .values()
        );
    }

    [Symbol.iterator](): IterableIterator<[Key, Value]> {
        return (this.table ?? this.only())[Symbol.iterator]();
    }

    private only(): [Key, Value][] {
        return this.onlyKey === undefined ? [] : [[this.onlyKey, this.onlyValue as Value]];
    }
}
