/** A file's model as plain data without places, to compare what two texts say. */
import type { FileModel } from '../../language/src/core/model/file.js';

const places = new Set(['file', 'start', 'end', 'length']);

/** The model without any place, and with amounts by their number and unit. */
export function plainModel(model: FileModel): unknown {
    return plain(model);
}

function plain(value: unknown): unknown {
    if (Array.isArray(value)) return value.map(plain);
    if (typeof value !== 'object' || value === null) return value;
    const kept = Object.entries(value).filter(([name]) => !places.has(name));
    return Object.fromEntries(kept.map(([name, item]) => [name, name === 'written' ? plainAmount(item) : plain(item)]));
}

// The layout settles the blanks between a number and its unit, which mean nothing; nothing else of an amount may change.
function plainAmount(written: unknown): unknown {
    const parts = typeof written === 'string' ? numberAndUnit.exec(written) : undefined;
    return parts ? parts.slice(1) : written;
}

const numberAndUnit = /^([+\-−]?[0-9.]+(?:[eE][+-]?[0-9]+)?)[ \t]*(.*)$/s;
