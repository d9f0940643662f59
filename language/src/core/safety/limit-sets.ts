// The named sets of published limits, as they are written: plain data, because the settings of every start hold one of them.

/** One limit; the workspace may set each to a stricter value under this name. */
export type LimitName =
    'acVoltage' | 'peakVoltage' | 'dcVoltage' | 'storedEnergy' | 'longContact' | 'accidentalTouch' | 'gaugePressure';

/** A named set of limits, each an amount as it is shown. Whatever is above a limit can hurt; the limit itself cannot. */
export interface SafetyLimits {
    /** The name under which the workspace chooses it. */
    readonly name: string;
    /** The document that gives the set its voltages. */
    readonly title: string;
    readonly values: Readonly<Record<LimitName, string>>;
}

// These do not depend on which document gives the voltages.
const others = {
    // NFPA 70E, article 360: a capacitor below 100 V is a hazard above 100 J. From memory; check before use.
    storedEnergy: '100 J',
    // ISO 13732-1: bare smooth metal, contact of 10 min. Seen second-hand.
    longContact: '48 °C',
    // ISO 13732-1: bare smooth metal, contact of 1 s, the low end of 65 °C to 70 °C. From memory, to be read off the curve.
    accidentalTouch: '65 °C',
    // Directive 2014/68/EU, article 1(1): pressure equipment begins above 0.5 bar over the air. From memory.
    gaugePressure: '0.5 bar',
} as const;

/** The sets that a workspace can choose from; the first holds where it chooses none. */
export const safetyLimitSets: readonly [SafetyLimits, ...SafetyLimits[]] = [
    {
        name: 'iec-61010-1',
        title: 'IEC 61010-1, normal condition, dry',
        // 30 V rms, 42.4 V peak, 60 V DC: seen second-hand.
        values: { acVoltage: '30 V', peakVoltage: '42.4 V', dcVoltage: '60 V', ...others },
    },
    {
        name: 'iec-61010-1-wet',
        title: 'IEC 61010-1, normal condition, wet places',
        // 16 V rms, 22.6 V peak, 35 V DC: from memory.
        values: { acVoltage: '16 V', peakVoltage: '22.6 V', dcVoltage: '35 V', ...others },
    },
    {
        name: 'iec-61140',
        title: 'IEC 61140, extra-low voltage',
        // 50 V AC, 120 V ripple-free DC: from memory. The peak is that of a sine of 50 V, rounded down.
        values: { acVoltage: '50 V', peakVoltage: '70.7 V', dcVoltage: '120 V', ...others },
    },
];
