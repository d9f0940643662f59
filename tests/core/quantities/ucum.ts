/** The UCUM reference library, with types for the little of it that the tests use. */

import { createRequire } from 'node:module';

interface UcumLibrary {
    readonly UcumLhcUtils: {
        getInstance(): {
            validateUnitString(code: string): { status: string; msg: readonly string[] };
            convertUnitTo(from: string, value: number, to: string): { status: string; toVal: number | null };
        };
    };
    readonly UnitTables: {
        getInstance(): {
            getUnitByCode(code: string): { isMetric_: boolean; isBase_: boolean; source_: string } | undefined;
        };
    };
}

const require = createRequire(import.meta.url);
const library = require('@lhncbc/ucum-lhc') as UcumLibrary;
const utilities = library.UcumLhcUtils.getInstance();

/** True when the library reads the code as a valid one. */
export function isValidCode(code: string): boolean {
    return utilities.validateUnitString(code).status === 'valid';
}

/** The value in another unit as the library converts it; NaN where it refuses. */
export function convertByLibrary(value: number, from: string, to: string): number {
    return utilities.convertUnitTo(from, value, to).toVal ?? Number.NaN;
}

/**
 * What a code does that the library lets pass though UCUM forbids it: an atom that is not in the table,
 * or a prefix before a unit that takes none. Empty when the code keeps to the rules.
 */
export function brokenRules(code: string): readonly string[] {
    const bare = code.replace(/\{[^}]*\}/g, '').replace(/^\//, '');
    return bare
        .split(/[./]/)
        .filter(term => term !== '' && !/^\d+$/.test(term))
        .flatMap(term => {
            const atom = term.replace(/(?<=[A-Za-z%\]])-?\d$/, '');
            if (isAtom(atom)) {
                return [];
            }
            const [, rest = ''] = /^(?:da|[TGMkhdcmunp])(.+)$/.exec(atom) ?? [];
            return isAtom(rest) && takesPrefix(rest) ? [] : [term];
        });
}

// The table also holds units made of others for another use; only those of UCUM itself count as atoms.
function isAtom(atom: string): boolean {
    return library.UnitTables.getInstance().getUnitByCode(atom)?.source_ === 'UCUM';
}

// UCUM's base units take prefixes, though the library's table does not mark them so.
function takesPrefix(atom: string): boolean {
    const unit = library.UnitTables.getInstance().getUnitByCode(atom);
    return unit !== undefined && (unit.isBase_ || unit.isMetric_);
}
