// The dimension of a product and of a quotient.

import { baseDimensions, type Dimension } from '../quantities/dimensions.js';

/** The powers of both added, or those of the divisor taken away. */
export function productDimension(operator: '*' | '/', left: Dimension, right: Dimension): Dimension {
    const sign = operator === '*' ? 1 : -1;
    const powers = baseDimensions.flatMap(base => {
        const power = (left[base] ?? 0) + sign * (right[base] ?? 0);
        return power === 0 ? [] : [[base, power] as const];
    });
    return Object.fromEntries(powers);
}
