// Writes the units that a document uses, so that a reader can compare readings without a table of its own.

import { type Dimension, sameDimensions } from '../../core/quantities/dimensions.js';
import { type Unit, unitFactor, unitOffset, units } from '../../core/quantities/unit.js';
import type { UnitOfMeasure } from '../types.js';
import { fractionToJsonNumber } from './amounts.js';
import { made } from './writer.js';

/** The units that stand anywhere in these, and those of the SI without a prefix that measure the same, by code. */
export function writeUnits(written: unknown): readonly UnitOfMeasure[] {
    const codes = new Set(codesIn(written));
    const used = units.filter(({ ucum }) => ucum !== undefined && codes.has(ucum));
    const plain = units.filter(
        unit =>
            unit.factor === '1' &&
            unit.offset === undefined &&
            // What is counted is never given in what else can be counted.
            !unit.ucum?.startsWith('{') &&
            used.some(other => measuresTheSame(unit, other)),
    );
    const byCode = new Map<string, UnitOfMeasure>();
    for (const unit of [...used, ...plain]) {
        if (unit.ucum !== undefined && !byCode.has(unit.ucum)) byCode.set(unit.ucum, writeUnit(unit, unit.ucum));
    }
    return [...byCode.values()].sort((one, other) => (one.code < other.code ? -1 : 1));
}

function measuresTheSame(one: Unit, other: Unit): boolean {
    return !one.money && sameDimensions(one.dimension, other.dimension);
}

function codesIn(value: unknown): readonly string[] {
    if (Array.isArray(value)) return value.flatMap(codesIn);
    if (typeof value !== 'object' || value === null) return [];
    const own = 'unit' in value && typeof value.unit === 'string' ? [value.unit] : [];
    return [...own, ...Object.values(value).flatMap(codesIn)];
}

function writeUnit(unit: Unit, code: string): UnitOfMeasure {
    const size = unitFactor(unit);
    const isShort = size.n <= BigInt(Number.MAX_SAFE_INTEGER) && size.d <= BigInt(Number.MAX_SAFE_INTEGER);
    const offset = unit.offset === undefined ? undefined : fractionToJsonNumber(unitOffset(unit)).value;
    return made<UnitOfMeasure>({
        code,
        dimension: dimensionText(unit.dimension),
        factor: isShort ? Number(size.n) : fractionToJsonNumber(size).value,
        divisor: isShort && size.d !== 1n ? Number(size.d) : undefined,
        offset,
    });
}

/** Powers of base dimensions as `length2.mass.time-3`; `ratio` for a plain number. */
function dimensionText(dimension: Dimension): string {
    const powers = Object.entries(dimension).filter(([, power]) => power !== 0);
    const parts = powers.map(([base, power]) => (power === 1 ? base : `${base}${power}`)).sort();
    return parts.length === 0 ? 'ratio' : parts.join('.');
}
