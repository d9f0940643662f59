// Signal words that say more or less than the hazard does.

import { guardOf, type Resolving } from '../meaning/resolving.js';
import type { UnitHazard } from '../meaning/unit.js';
import type { FileModel } from '../model/file.js';
import type { Model } from '../model/model.js';
import type { SignalWord } from '../model/remarks.js';
import type { SafetyLimits } from '../safety/limit-sets.js';
import { hasEnergyWord, type HazardLevel, levelsOf, storesTooMuch } from './energies.js';
import { type StatementAbout, statementsAbout } from './safety-statements.js';
import { someBuild, unitOf } from './units.js';

/** A statement whose signal word does not fit its hazard. */
export interface UnfitWord {
    readonly about: StatementAbout;
    /** `things`: a notice about a hazard. `low`: a caution about what can kill. `high`: a danger about what is below the limits. */
    readonly why: 'things' | 'low' | 'high';
    /** What the hazard is, for `low`: an amount, or the word for its energy. */
    readonly what: string;
    /** The words that fit, the likeliest first. */
    readonly fitting: readonly SignalWord[];
    readonly build: readonly string[];
}

/** The statements of a file whose signal word does not fit; the meaning of the words is that of ANSI Z535.6. */
export function unfitWords(file: FileModel, model: Model, limits: SafetyLimits): UnfitWord[] {
    return statementsAbout(file, model).flatMap(about => unfitWord(about, model, limits) ?? []);
}

function unfitWord(about: StatementAbout, model: Model, limits: SafetyLimits): UnfitWord | undefined {
    const { statement, equipment } = about;
    const { names } = unitOf(equipment, model);
    switch (statement.level) {
        case 'notice': {
            const build = buildOf(about, names);
            return build && { about, why: 'things', what: '', fitting: ['caution', 'warning'], build };
        }
        case 'caution': {
            const severe = severeIn(about, names, limits);
            return severe && { about, why: 'low', fitting: ['warning', 'danger'], ...severe };
        }
        case 'danger':
            return harmlessIn(about, names, limits);
        default:
            return undefined;
    }
}

function buildOf(
    { guards, hazard, equipment }: StatementAbout,
    names: Resolving,
    more: HazardLevel['guard'] = undefined,
): readonly string[] | undefined {
    const around = guards.map(guard => guardOf(guard, names));
    return someBuild(equipment, names.model, [...around, hazard.guard, more]);
}

/** Energies that can kill or maim whatever their level is. */
const severeWords = ['mechanical', 'gravity', 'gas'];

/** What makes a hazard severe where the statement is made, and a build in which it is. */
function severeIn(
    about: StatementAbout,
    names: Resolving,
    limits: SafetyLimits,
): { readonly what: string; readonly build: readonly string[] } | undefined {
    const { declaration } = about.hazard;
    const levels = levelsOf(about.hazard, names, limits);
    const word = severeWords.find(one => hasEnergyWord(declaration, [one]));
    if (word !== undefined) {
        const build = buildOf(about, names);
        return build && { what: word, build };
    }
    for (const { energy, above, amount, modes, guard } of levels) {
        if (!above || energy === 'thermal') continue;
        const build = buildOf(about, names, guard);
        if (build) return { what: [amount.written, ...modes].join(' '), build };
    }
    const isMeasured = levels.some(({ energy }) => energy === 'pressure');
    if (isMeasured || !hasEnergyWord(declaration, ['pressure'])) return undefined;
    const build = buildOf(about, names);
    return build && { what: 'pressure', build };
}

/** A danger about a hazard whose every level is below the limits. What has no level, or one that no limit tells of, may be one. */
function harmlessIn(about: StatementAbout, names: Resolving, limits: SafetyLimits): UnfitWord | undefined {
    const { declaration } = about.hazard;
    const levels = levelsOf(about.hazard, names, limits);
    const isMeasured = declaration.energies.every(({ levels: written }) => written.length > 0);
    const written = declaration.energies.flatMap(energy => energy.levels).length;
    if (written === 0 || !isMeasured || levels.length < written) return undefined;
    // A level of other builds than those of the statement does not count.
    const here = levels.filter(({ guard }) => buildOf(about, names, guard));
    if (here.length === 0 || here.some(({ above }) => above !== false)) return undefined;
    if (storesTooMuch(about.hazard, here, limits)) return undefined;
    const build = buildOf(about, names);
    return build && { about, why: 'high', what: '', fitting: ['caution', 'warning'], build };
}

/** The word for a hazard that nobody has warned of: the strongest that fits where live parts are within reach, else the next. */
export function fittingWord(
    hazard: UnitHazard,
    isWithinReach: boolean,
    names: Resolving,
    limits: SafetyLimits,
): SignalWord {
    const isSevere =
        hasEnergyWord(hazard.declaration, severeWords) ||
        levelsOf(hazard, names, limits).some(({ above, energy }) => above === true && energy !== 'thermal');
    if (!isSevere) return 'caution';
    return isWithinReach ? 'danger' : 'warning';
}
