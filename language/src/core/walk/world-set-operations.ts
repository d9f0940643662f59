// What a walk asks of sets of worlds, whether they are held as diagrams or as formulas.

import type { WorldSets } from './sets/world-sets.js';

/** The operations of `WorldSets` that are used; each set is a number, 0 the empty one and 1 that of all worlds. */
export type WorldSetOperations = Pick<
    WorldSets,
    | 'sizes'
    | 'nodeCount'
    | 'is'
    | 'oneOf'
    | 'and'
    | 'or'
    | 'without'
    | 'divide'
    | 'not'
    | 'meets'
    | 'allMeet'
    | 'forget'
    | 'assign'
    | 'given'
    | 'count'
    | 'weigh'
    | 'pick'
    | 'pickInAll'
    | 'has'
    | 'worlds'
    | 'variablesOf'
>;
