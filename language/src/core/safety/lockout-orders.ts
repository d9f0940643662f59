// In which order the elements of a gate are done: named orders out of published rules for lockouts.

import type { GateElementSort } from '../model/gates.js';

/** A named order of the elements of a gate. */
export interface LockoutOrder {
    /** The name under which the workspace chooses it. */
    readonly name: string;
    /** The document that it comes from, as messages name it. */
    readonly title: string;
    /** From first to last; elements of one group may stand in any order. An element of no group may stand anywhere. */
    readonly groups: readonly (readonly GateElementSort[])[];
    /** The elements that stand in the order only where they are for an electrical energy. */
    readonly electricalOnly: readonly GateElementSort[];
}

/**
 * The orders that a workspace can choose from; the first holds where it chooses none.
 * They differ in where stored energy goes: 29 CFR 1910.147 lets it go after the lock is on, NFPA 70E before.
 * In all of them earth comes after the proof, because earthing before it could join live conductors, and `restore` comes last.
 */
export const lockoutOrders: readonly [LockoutOrder, ...LockoutOrder[]] = [
    {
        name: 'osha-1910-147',
        title: '29 CFR 1910.147',
        // Paragraph (d): preparation, shutdown, isolation, lock or tag, stored energy, verification. Order and wording seen
        // second-hand, the numbers of the paragraphs from memory. Holding up what can fall is part of stored energy there.
        groups: [
            ['prepare'],
            ['shut-down'],
            ['isolate'],
            ['lock'],
            ['release', 'block'],
            ['prove'],
            ['earth'],
            ['restore'],
        ],
        electricalOnly: ['earth'],
    },
    {
        name: 'nfpa-70e',
        title: 'NFPA 70E',
        // Article 120.5: find the sources, open the disconnects, let stored energy go, lock and tag, test for the absence of
        // voltage, earth where needed. The order seen second-hand; how the items are numbered differs by edition.
        groups: [
            ['prepare'],
            ['shut-down'],
            ['isolate'],
            ['release', 'block'],
            ['lock'],
            ['prove'],
            ['earth'],
            ['restore'],
        ],
        electricalOnly: ['earth'],
    },
    {
        name: 'en-50110-1',
        title: 'EN 50110-1',
        // Clause 6.2, five rules: disconnect, secure against reconnection, verify that no voltage is there, earth and
        // short-circuit, protect against adjacent live parts. The rules from memory; that there are five in this clause seen
        // second-hand. Where stored energy goes is left open there, but voltage is gone only when it is.
        groups: [
            ['prepare'],
            ['shut-down'],
            ['isolate'],
            ['lock', 'release', 'block'],
            ['prove'],
            ['earth'],
            ['shield'],
            ['restore'],
        ],
        electricalOnly: ['earth', 'shield'],
    },
];

/** The place of an element in an order, from 0; undefined where it may stand anywhere. */
export function rankOf(order: LockoutOrder, element: GateElementSort): number | undefined {
    const rank = order.groups.findIndex(group => group.includes(element));
    return rank < 0 ? undefined : rank;
}
