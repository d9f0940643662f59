// How long what a thermal overload protects must cool before the trip is reset.

/**
 * A motor that has tripped its thermal overload cools at least this long before it is started again. Common practice, no source:
 * the equipment's own figure, `cools in` of the hazard, comes first.
 */
export const overloadCooling = '30 min';
