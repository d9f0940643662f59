// Which unit a technician reads the same thing in where the other system of units is used.

import { type Unit, units } from './unit.js';

/** The two systems that readers are used to. `SI` takes in the metric units that are used beside it: bar, liter, °C. */
export type UnitSystem = 'SI' | 'US customary';

/** What makes a choice of units, beside the unit that was written. */
export interface Measured {
    /** The name of the quantity, as `measure` has it: a `vacuum` is read in inches of mercury, a `pressure` in psi. */
    readonly quantity?: string | undefined;
    /** True for a difference of temperatures, which takes no notice of where a scale begins. */
    readonly asDifference?: boolean | undefined;
    /**
     * True where a power or an energy is known to be heat. Only heat in watts has another unit (Btu/h);
     * the electrical watt is the same everywhere.
     */
    readonly heat?: boolean | undefined;
}

/** A unit alone, or several by size: each but the last up to (not including) so many of its own. Zero takes the last. */
type Choice = string | readonly (readonly [unit: string, below: number] | string)[];

type Choices = Readonly<Record<string, Choice>>;

// Trade practice, no source: which unit a gauge, a manual or a supplier's list has for this on the other side.
const customaryToSI: Choices = {
    psi: [['kPa', 1000], 'bar'],
    ksi: 'MPa',
    psf: [['Pa', 1000], 'kPa'],
    'ozf/in²': 'kPa',
    inHg: 'kPa',
    inH2O: [['Pa', 1000], 'kPa'],
    ftH2O: 'kPa',
    micron: 'Pa',
    '°F': '°C',
    '°R': 'K',
    '°F/min': 'K/min',
    '°F/h': 'K/h',
    in: [['µm', 100], 'mm'],
    ft: 'm',
    yd: 'm',
    mi: 'km',
    mil: [['µm', 1000], 'mm'],
    µin: 'µm',
    'in/ft': 'mm/m',
    'mil/in': 'mm/m',
    'in²': 'cm²',
    'ft²': 'm²',
    cmil: 'mm²',
    kcmil: 'mm²',
    gal: 'L',
    qt: 'L',
    pt: 'mL',
    'fl oz': 'mL',
    'ft³': [['L', 1000], 'm³'],
    'in³': 'mL',
    bbl: [['L', 1000], 'm³'],
    lb: 'kg',
    oz: 'g',
    gr: 'g',
    ston: 't',
    lbf: [['N', 10_000], 'kN'],
    ozf: 'N',
    'lbf/in': 'N/mm',
    'lbf·ft': 'N·m',
    'lbf·in': 'N·m',
    'ozf·in': [['mN·m', 1000], 'N·m'],
    gpm: 'L/min',
    gph: 'L/h',
    gpd: 'L/h',
    cfm: 'm³/h',
    cfh: 'm³/h',
    cfs: 'm³/s',
    'lb/h': 'kg/h',
    'lb/min': 'kg/min',
    'lb/s': 'kg/s',
    'oz/min': 'g/min',
    'oz/yr': 'g/yr',
    'ft/min': 'm/s',
    'ft/s': 'm/s',
    'in/s': 'mm/s',
    'in/min': 'mm/min',
    mph: 'km/h',
    'ft/s²': 'm/s²',
    'in/s²': 'm/s²',
    hp: [['W', 1000], 'kW'],
    'Btu/h': [['W', 1000], 'kW'],
    'kBtu/h': 'kW',
    TR: 'kW',
    'MMBtu/h': [['kW', 1000], 'MW'],
    BoHP: 'kW',
    Btu: [['kJ', 10_000], 'MJ'],
    kBtu: 'MJ',
    MMBtu: 'GJ',
    therm: 'MJ',
    fc: 'lx',
    'lb/ft³': 'kg/m³',
    'lb/gal': 'kg/L',
    'gr/lb': 'g/kg',
};

const metricToCustomary: Choices = {
    Pa: [['inH2O', 30], 'psi'],
    hPa: [['inH2O', 30], 'psi'],
    mbar: [['inH2O', 30], 'psi'],
    kPa: [['inH2O', 30], 'psi'],
    MPa: 'psi',
    'N/mm²': 'psi',
    bar: 'psi',
    mmH2O: 'inH2O',
    cmH2O: 'inH2O',
    mH2O: 'ftH2O',
    '°C': '°F',
    K: '°F',
    'K/min': '°F/min',
    'K/s': '°F/min',
    'K/h': '°F/h',
    µm: 'mil',
    mm: 'in',
    cm: 'in',
    m: 'ft',
    km: 'mi',
    'mm/m': 'in/ft',
    'mm²': 'in²',
    'cm²': 'in²',
    'm²': 'ft²',
    L: [['fl oz', 32], 'gal'],
    mL: 'fl oz',
    cL: 'fl oz',
    dL: 'fl oz',
    'm³': 'ft³',
    g: 'oz',
    kg: 'lb',
    t: 'ston',
    N: 'lbf',
    daN: 'lbf',
    kN: 'lbf',
    'N·m': [['lbf·in', 50], 'lbf·ft'],
    'mN·m': [['ozf·in', 100], 'lbf·in'],
    'N·cm': 'lbf·in',
    'N·mm': 'lbf·in',
    'cN·m': 'lbf·in',
    'daN·m': 'lbf·ft',
    'N/mm': 'lbf/in',
    'N/m': 'lbf/in',
    'kN/m': 'lbf/in',
    'kN·m': 'lbf·ft',
    'L/min': 'gpm',
    'mL/min': 'gph',
    'L/s': 'gpm',
    'L/h': 'gph',
    'm³/h': 'cfm',
    'm³/min': 'cfm',
    'm³/s': 'cfm',
    'kg/h': 'lb/h',
    'kg/min': 'lb/min',
    'kg/s': 'lb/s',
    't/h': 'lb/h',
    'g/h': 'lb/h',
    'g/yr': 'oz/yr',
    'g/kg': 'gr/lb',
    'g/s': 'lb/min',
    'g/min': 'lb/h',
    'm/s': 'ft/min',
    'mm/s': 'in/s',
    'cm/s': 'in/s',
    'm/min': 'ft/min',
    'mm/min': 'in/min',
    'km/h': 'mph',
    'm/s²': 'ft/s²',
    lx: 'fc',
    'kg/m³': 'lb/ft³',
    'kg/L': 'lb/gal',
    'g/cm³': 'lb/gal',
};

// Units that belong to neither system of today: an older metric one, or an imperial one whose name misleads a reader in the United States.
const neitherToSI: Choices = {
    mmHg: 'kPa',
    Torr: 'Pa',
    mTorr: 'Pa',
    'kgf/cm²': 'bar',
    kgf: 'N',
    'kgf·m': 'N·m',
    'kgf·cm': 'N·m',
    gf: 'N',
    'gf·cm': 'mN·m',
    PS: 'kW',
    'kcal/h': [['W', 1000], 'kW'],
    kcal: [['kJ', 10_000], 'MJ'],
    'gal (UK)': 'L',
    igpm: 'L/min',
    lton: 't',
};

const neitherToCustomary: Choices = {
    mmHg: 'inHg',
    Torr: [['micron', 1000], 'inHg'],
    mTorr: 'micron',
    'kgf/cm²': 'psi',
    kgf: 'lbf',
    'kgf·m': 'lbf·ft',
    'kgf·cm': 'lbf·in',
    gf: 'ozf',
    'gf·cm': 'ozf·in',
    PS: 'hp',
    'kcal/h': 'Btu/h',
    kcal: 'Btu',
    'gal (UK)': 'gal',
    igpm: 'gpm',
    lton: 'ston',
};

const heatToCustomary: Choices = {
    W: 'Btu/h',
    kW: 'Btu/h',
    MW: 'MMBtu/h',
    kJ: 'Btu',
    MJ: 'Btu',
    GJ: 'MMBtu',
    kWh: 'Btu',
};

// A vacuum is read below the air pressure in inches of mercury, and a deep one in microns. The deep ones are below 1.3 mbar.
const vacuumChoice: Choice = [['micron', 1000], 'inHg'];
const vacuumToCustomary: Choices = Object.fromEntries(
    ['Pa', 'hPa', 'mbar', 'kPa', 'bar', 'MPa'].map(symbol => [symbol, vacuumChoice]),
);

const differenceToSI: Choices = { '°F': 'K', '°R': 'K' };

const unitsBySymbol: ReadonlyMap<string, Unit> = new Map(units.map(unit => [unit.symbol, unit]));

/** The units that come into question for a value written in `unit`, the first that fits its size to be taken; empty where it stays as it is. */
export function unitsIn(system: UnitSystem, unit: Unit, measured: Measured): readonly CandidateUnit[] {
    const choice = tablesFor(system, measured).find(table => Object.hasOwn(table, unit.symbol))?.[unit.symbol];
    if (choice === undefined) {
        return [];
    }
    return (typeof choice === 'string' ? [choice] : choice).map(one =>
        typeof one === 'string' ? { unit: named(one), below: undefined } : { unit: named(one[0]), below: one[1] },
    );
}

/** A unit to take for numbers smaller than `below`, or for all. */
export interface CandidateUnit {
    readonly unit: Unit;
    readonly below: number | undefined;
}

// The tables of a narrower case come first.
function tablesFor(system: UnitSystem, { quantity, asDifference, heat }: Measured): readonly Choices[] {
    return system === 'SI'
        ? [...(asDifference === true ? [differenceToSI] : []), customaryToSI, neitherToSI]
        : [
              ...(quantity === 'vacuum' ? [vacuumToCustomary] : []),
              ...(heat === true ? [heatToCustomary] : []),
              metricToCustomary,
              neitherToCustomary,
          ];
}

// The tables are ours, and a test reads every row; a slip in one must stop that test rather than hide a unit.
function named(symbol: string): Unit {
    const unit = unitsBySymbol.get(symbol);
    if (unit === undefined) {
        throw new Error(`the table of other units names ${symbol}, which is no unit`);
    }
    return unit;
}
