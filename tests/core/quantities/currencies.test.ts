/** Checks the list of currency codes against the one that comes with the runtime. */

import { expect, test } from 'vitest';
import { currencies } from '../../../language/src/core/quantities/currencies.js';
import { findUnit, nearUnits } from '../../../language/src/core/quantities/unit-spellings.js';

test('every code is three capital letters and stands once', () => {
    expect(currencies.filter(code => !/^[A-Z]{3}$/.test(code))).toEqual([]);
    expect(new Set(currencies).size).toBe(currencies.length);
});

test('every code is known to the runtime', () => {
    // The list of the Unicode CLDR, which Intl brings with it, also holds currencies that are no longer used.
    // It leaves out VED, the second code that ISO 4217 keeps for the currency of Venezuela (from memory).
    const known = new Set([...Intl.supportedValuesOf('currency'), 'VED']);
    expect(currencies.filter(code => !known.has(code))).toEqual([]);
});

test('the currency of every larger country is there', () => {
    // From memory, as the whole list is.
    for (const code of 'EUR USD GBP CHF JPY CNY INR BRL CAD AUD MXN SEK NOK DKK PLN CZK TRY ZAR KRW IDR'.split(' ')) {
        expect(findUnit(code)?.money).toBe(true);
    }
});

test('currencies that were replaced are not taken', () => {
    for (const code of ['DEM', 'FRF', 'HRK', 'SLL', 'ZWL', 'VEF', 'CUC', 'ANG', 'BGN']) {
        expect(findUnit(code)).toBeUndefined();
    }
});

test('a sign of money or small letters lead to the code', () => {
    expect(nearUnits('€')).toEqual(['EUR']);
    expect(nearUnits('$')).toEqual(['USD', 'CAD', 'AUD']);
    expect(nearUnits('eur')).toEqual(['EUR']);
});
