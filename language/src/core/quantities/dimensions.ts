// What a unit measures, as powers of base dimensions, so that unlike things are never compared.

/**
 * The base dimensions. The first six are those of the SI that the trade needs.
 * The others stand for things that the SI counts as plain numbers but that a reader must not mix up.
 */
export const baseDimensions = [
    'length',
    'mass',
    'time',
    'current',
    'temperature',
    'light',
    'angle',
    'information',
    'count',
    'money',
    'level',
    'powerLevel',
    'soundLevel',
    'acidity',
    'explosiveLimit',
    'voltageLevel',
    'soundLevelC',
    'normalVolume',
    'standardVolume',
    'turbidity',
    'hardness',
] as const;

export type BaseDimension = (typeof baseDimensions)[number];

/** Powers of base dimensions; a base that is absent has the power 0. A plain number or ratio has none. */
export type Dimension = { readonly [Base in BaseDimension]?: number };

/** The dimensions that units and quantities use, by name. */
export const dimensions = {
    ratio: {},
    length: { length: 1 },
    area: { length: 2 },
    volume: { length: 3 },
    mass: { mass: 1 },
    time: { time: 1 },
    temperature: { temperature: 1 },
    current: { current: 1 },
    voltage: { length: 2, mass: 1, time: -3, current: -1 },
    resistance: { length: 2, mass: 1, time: -3, current: -2 },
    conductance: { length: -2, mass: -1, time: 3, current: 2 },
    conductivity: { length: -3, mass: -1, time: 3, current: 2 },
    capacitance: { length: -2, mass: -1, time: 4, current: 2 },
    inductance: { length: 2, mass: 1, time: -2, current: -2 },
    charge: { time: 1, current: 1 },
    fluxDensity: { mass: 1, time: -2, current: -1 },
    frequency: { time: -1 },
    power: { length: 2, mass: 1, time: -3 },
    energy: { length: 2, mass: 1, time: -2 },
    pressure: { length: -1, mass: 1, time: -2 },
    volumeFlow: { length: 3, time: -1 },
    massFlow: { mass: 1, time: -1 },
    velocity: { length: 1, time: -1 },
    acceleration: { length: 1, time: -2 },
    force: { length: 1, mass: 1, time: -2 },
    density: { length: -3, mass: 1 },
    kinematicViscosity: { length: 2, time: -1 },
    dynamicViscosity: { length: -1, mass: 1, time: -1 },
    irradiance: { mass: 1, time: -3 },
    luminousFlux: { light: 1 },
    illuminance: { light: 1, length: -2 },
    angle: { angle: 1 },
    dataRate: { information: 1, time: -1 },
    count: { count: 1 },
    money: { money: 1 },
    level: { level: 1 },
    powerLevel: { powerLevel: 1 },
    soundLevel: { soundLevel: 1 },
    acidity: { acidity: 1 },
    explosiveLimit: { explosiveLimit: 1 },
    resistivity: { length: 3, mass: 1, time: -3, current: -2 },
    magneticFlux: { length: 2, mass: 1, time: -2, current: -1 },
    perCurrent: { current: -1 },
    voltagePerTemperature: { length: 2, mass: 1, time: -3, current: -1, temperature: -1 },
    perTemperature: { temperature: -1 },
    temperatureRate: { temperature: 1, time: -1 },
    angularVelocity: { angle: 1, time: -1 },
    stiffness: { mass: 1, time: -2 },
    luminousIntensity: { light: 1, angle: -2 },
    luminance: { light: 1, length: -2, angle: -2 },
    voltageLevel: { voltageLevel: 1 },
    soundLevelC: { soundLevelC: 1 },
    normalFlow: { normalVolume: 1, time: -1 },
    standardFlow: { standardVolume: 1, time: -1 },
    turbidity: { turbidity: 1 },
    hardness: { hardness: 1 },
} as const satisfies Record<string, Dimension>;

const namesInWords: Readonly<Record<keyof typeof dimensions, string>> = {
    ratio: 'a ratio',
    length: 'length',
    area: 'area',
    volume: 'volume',
    mass: 'mass',
    time: 'time',
    temperature: 'temperature',
    current: 'electric current',
    voltage: 'voltage',
    resistance: 'resistance',
    conductance: 'conductance',
    conductivity: 'conductivity',
    capacitance: 'capacitance',
    inductance: 'inductance',
    charge: 'electric charge',
    fluxDensity: 'magnetic flux density',
    frequency: 'frequency or turning speed',
    power: 'power',
    energy: 'energy or torque',
    pressure: 'pressure',
    volumeFlow: 'volume flow',
    massFlow: 'mass flow',
    velocity: 'speed',
    acceleration: 'acceleration',
    force: 'force',
    density: 'density',
    kinematicViscosity: 'kinematic viscosity',
    dynamicViscosity: 'dynamic viscosity',
    irradiance: 'irradiance',
    luminousFlux: 'luminous flux',
    illuminance: 'illuminance',
    angle: 'angle',
    dataRate: 'data rate',
    count: 'a count',
    money: 'money',
    level: 'a level ratio in decibels',
    powerLevel: 'signal power in decibels',
    soundLevel: 'sound level',
    acidity: 'acidity',
    explosiveLimit: 'a share of the lower explosive limit',
    resistivity: 'resistivity',
    magneticFlux: 'voltage for each hertz',
    perCurrent: 'resistance for each volt of range',
    voltagePerTemperature: 'voltage for each degree',
    perTemperature: 'change for each degree',
    temperatureRate: 'temperature change in time',
    angularVelocity: 'angular velocity',
    stiffness: 'stiffness',
    luminousIntensity: 'luminous intensity',
    luminance: 'luminance',
    voltageLevel: 'signal voltage in decibels',
    soundLevelC: 'C-weighted sound level',
    normalFlow: 'gas flow at normal conditions',
    standardFlow: 'gas flow at standard conditions',
    turbidity: 'turbidity',
    hardness: 'hardness of water',
};

/** True when both dimensions have the same powers. */
export function sameDimensions(a: Dimension, b: Dimension): boolean {
    return a === b || baseDimensions.every(base => (a[base] ?? 0) === (b[base] ?? 0));
}

/** The dimension in words for a message, such as `pressure`; undefined for a dimension that no unit of the trade has. */
export function dimensionInWords(dimension: Dimension): string | undefined {
    for (const [name, known] of Object.entries(dimensions)) {
        if (sameDimensions(dimension, known)) {
            return namesInWords[name as keyof typeof dimensions];
        }
    }
    return undefined;
}
