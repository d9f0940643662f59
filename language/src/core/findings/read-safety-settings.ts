// Reads the settings for safety: the named limits and order of lockouts, and values that are stricter than the named ones.

import { sameDimensions } from '../quantities/dimensions.js';
import { coherentValue, parseQuantity, display, type Quantity } from '../quantities/quantity.js';
import { type LimitName, type SafetyLimits, safetyLimitSets } from '../safety/limit-sets.js';
import { limitKinds, limitNames, limitValue, withStricter } from '../safety/limits.js';
import { type LockoutOrder, lockoutOrders } from '../safety/lockout-orders.js';
import type { JsonTree } from '../text/json-tree.js';
import { quoteName } from '../text/words.js';
import { namePlace, readNamed, type Reading, reportName, singleProperties } from './setting-parts.js';

/** The set of limits that the workspace chooses; the first where it names none that there is. */
export function readSafetyLimits(reading: Reading, value: JsonTree): SafetyLimits {
    return readNamed(reading, 'safetyLimits', 'set of limits', safetyLimitSets, value);
}

/** The order of lockouts that the workspace chooses; the first where it names none that there is. */
export function readLockoutOrder(reading: Reading, value: JsonTree): LockoutOrder {
    return readNamed(reading, 'lockoutOrder', 'lockout order', lockoutOrders, value);
}

/** The limits with the stricter values of the workspace; a laxer one is reported, and the set's own value stays. */
export function readStricter(reading: Reading, value: JsonTree, limits: SafetyLimits): SafetyLimits {
    if (value.sort !== 'object') {
        reading.report(value, '`stricter` must be an object: a limit and its amount, in braces.', {
            advice: 'Write it as in `"stricter": { "dcVoltage": "50 V" }`.',
        });
        return limits;
    }
    const values: Partial<Record<LimitName, string>> = {};
    for (const { name, value: written, ...place } of singleProperties(reading, value)) {
        const limit = limitNames.find(one => one === name);
        if (!limit) reportName(reading, 'limit', name, limitNames, namePlace(place));
        else {
            const stricter = readLimit(reading, limit, written, limits);
            if (stricter !== undefined) values[limit] = stricter;
        }
    }
    return withStricter(limits, values);
}

function readLimit(reading: Reading, name: LimitName, written: JsonTree, limits: SafetyLimits): string | undefined {
    const quantity = written.sort === 'scalar' && typeof written.value === 'string' && parseQuantity(written.value);
    const named = limits.values[name];
    const value = quantity ? valueFor(quantity, name) : undefined;
    if (!quantity || value === undefined) {
        reading.report(written, `${quoteName(name)} must be an amount in quotes, such as \`"${named}"\`.`);
        return undefined;
    }
    if (value.compare(limitValue(limits, name)) > 0) {
        reading.report(
            written,
            `${quoteName(name)} is laxer than in ${quoteName(limits.name)}, where it is ${named}: a workspace can only be stricter.`,
            { advice: `Write ${named} or less, or take this setting out.` },
        );
        return undefined;
    }
    return display(quantity);
}

/** The value in the coherent SI unit, where the amount is of the right kind and not below nothing. */
function valueFor(quantity: Quantity, name: LimitName) {
    const { unit } = quantity;
    const { dimension } = limitKinds[name];
    if (!unit || !sameDimensions(unit.dimension, dimension)) return undefined;
    const value = coherentValue(quantity);
    return value && value.compare(0) >= 0 ? value : undefined;
}
