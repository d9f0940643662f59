// What a report on coverage tells, whatever its format, and how amounts and results are called in it.

import type { BuildFigures, Coverage, Equipment, Figures, Portion, Tree, TreeCoverage } from 'halfsplit-language';

export interface CoverageReport {
    /** The names of choices that the builds were limited to. */
    readonly choices: readonly string[];
    readonly equipment: readonly CoveredEquipment[];
}

export interface CoveredEquipment {
    readonly equipment: Equipment;
    readonly coverage: Coverage;
    /** The trees that were asked about. */
    readonly trees: readonly TreeCoverage[];
    /** Whether these are all trees of the equipment; only then is the fleet reported. */
    readonly isWhole: boolean;
    /** Those that were asked about and could not be walked. */
    readonly notWalked: readonly Tree[];
}

/** A part of a whole: `12.3 %`. Only nothing and all are shown as 0 % and 100 %. */
export function percent(part: number, whole = 1): string {
    if (whole === 0) return 'none';
    const ratio = part / whole;
    if (ratio < negligible) return '0 %';
    if (ratio > 1 - negligible) return '100 %';
    if (ratio < 0.0005) return '< 0.1 %';
    if (ratio >= 0.9995) return '> 99.9 %';
    return `${(ratio * 100).toFixed(1)} %`;
}

/** The same for a sentence: `more than 99.9 %`. */
export function percentInWords(part: number, whole = 1): string {
    return percent(part, whole).replace('<', 'less than').replace('>', 'more than');
}

/** What is left over when the same amounts are added in two ways. */
const negligible = 1e-12;

/** Whether there is any of an amount; `whole` is what it is a part of. */
export function isAny(part: number, { rate }: Pick<Figures, 'rate'>): boolean {
    return part > rate * negligible;
}

/** What has become of a fault, in words: `found alone`, `found among 2 parts`, `handed over`, `missed`. */
export function resultWords({ fate, parts }: Portion): string {
    if (fate === 'found') return parts === 1 ? 'found alone' : `found among ${parts} parts`;
    if (fate === 'handed over') return parts === 1 ? 'handed over' : `handed over among ${parts} parts`;
    return fate;
}

/** The names of a build's choices, those that several options have with their option. */
export function choiceNames({ choices }: BuildFigures, equipment: Equipment): string[] {
    return [...choices].map(([option, choice]) => {
        const name = choice.name.text;
        const having = equipment.options.filter(one => one.choices.some(other => other.name.text === name));
        return having.length > 1 || choices.size === 1 ? `${option.name.text}.${name}` : name;
    });
}
