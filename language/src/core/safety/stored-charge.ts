// What a charged capacitor holds, and how long a resistor needs to empty it.

/** A capacitor, what empties it, and the voltage that it is charged to: farads, ohms, volts. */
export interface StoredCharge {
    readonly capacitance: number;
    readonly resistance: number;
    readonly voltage: number;
}

/** The energy of a capacitor in joules: E = C·V²/2. */
export function storedEnergy({ capacitance, voltage }: Omit<StoredCharge, 'resistance'>): number {
    return (capacitance * voltage * voltage) / 2;
}

/** How long until the voltage has fallen to this one, in seconds: t = R·C·ln(V/limit). No time where it is there already. */
export function dischargeTime({ capacitance, resistance, voltage }: StoredCharge, limit: number): number {
    if (voltage <= limit) return 0;
    return resistance * capacitance * Math.log(voltage / limit);
}

/** The largest resistance in ohms that empties it to this voltage in this time. Any does where it is there already. */
export function largestResistance(
    { capacitance, voltage }: Omit<StoredCharge, 'resistance'>,
    limit: number,
    time: number,
): number {
    if (voltage <= limit) return Number.POSITIVE_INFINITY;
    return time / (capacitance * Math.log(voltage / limit));
}

/** The voltage at which it can hurt no more: that of the limit, or less where so large a capacitor still holds too much energy. */
export function harmlessVoltage(capacitance: number, voltageLimit: number, energyLimit: number): number {
    return capacitance > 0 ? Math.min(voltageLimit, Math.sqrt((2 * energyLimit) / capacitance)) : voltageLimit;
}
