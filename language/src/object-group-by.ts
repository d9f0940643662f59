/**
 * Gives Node 20 the `Object.groupBy` of later versions, which the parser library uses.
 *
 * The bundles load it before anything else. Source: ECMAScript 2024, section 20.1.2.13.
 */
type GroupBy = <Item>(items: Iterable<Item>, keyOf: (item: Item, index: number) => PropertyKey) => object;

const target = Object as unknown as { groupBy?: GroupBy };

target.groupBy ??= (items, keyOf) => {
    // As in the standard, the result has no prototype, so that no key can meet an inherited one.
    const groups = Object.create(null) as Record<PropertyKey, unknown[]>;
    let index = 0;
    for (const item of items) {
        (groups[keyOf(item, index)] ??= []).push(item);
        index += 1;
    }
    return groups;
};
