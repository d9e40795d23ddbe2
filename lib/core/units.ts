/**
 * The one unit each quantity has inside the program. What people type is turned into it on the way in (lib/core/typed),
 * and out of it on the way to a screen or a paper (lib/core/format.ts). The suffix goes in every name that holds it.
 */
export const canonicalUnits = {
  length: { unit: 'mm', suffix: 'Mm' },
  area: { unit: 'mm²', suffix: 'Mm2' },
  volume: { unit: 'mm³', suffix: 'Mm3' },
  secondMoment: { unit: 'mm⁴', suffix: 'Mm4' },
  angle: { unit: '°', suffix: 'Deg' },
  mass: { unit: 'kg', suffix: 'Kg' },
  massPerLength: { unit: 'kg/m', suffix: 'KgPerM' },
  density: { unit: 'kg/m³', suffix: 'KgM3' },
  force: { unit: 'kN', suffix: 'Kn' },
  moment: { unit: 'N·mm', suffix: 'Nmm' },
  stress: { unit: 'MPa', suffix: 'MPa' },
  temperature: { unit: '°C', suffix: 'C' },
  heat: { unit: 'kJ', suffix: 'Kj' },
  duration: { unit: 'min', suffix: 'Minutes' },
  money: { unit: 'smallest unit of the currency', suffix: 'Cents' },
} as const

/** The unit a shop writes lengths in. */
export type LengthUnit = 'mm' | 'in'

/** Millimetres in an inch. Exact. Source: NIST SP 811 (2008), App. B.8. */
export const MM_PER_INCH = 25.4

/** Millimetres in a foot. Exact. Source: NIST SP 811 (2008), App. B.8. */
export const MM_PER_FOOT = 304.8

/** Kilograms in a pound. Exact. Source: NIST SP 811 (2008), App. B.8. */
export const KG_PER_POUND = 0.45359237

/** Standard acceleration of free fall, m/s². Exact. Source: NIST SP 811 (2008), App. B.8; CGPM 1901. */
export const STANDARD_GRAVITY_M_PER_S2 = 9.80665

/** Newtons in a pound-force: pound times standard gravity. Exact. */
export const NEWTON_PER_POUND_FORCE = 4.4482216152605

/** Newtons in a kip (1000 pounds-force). Exact. */
export const NEWTON_PER_KIP = 4448.2216152605

/** Megapascals in a ksi: kip over square inch. Source: NIST SP 811 (2008), App. B.8, 6.894757 to seven digits. */
export const MPA_PER_KSI = NEWTON_PER_KIP / MM_PER_INCH ** 2

/** Litres in a US gallon: 231 cubic inches. Exact. */
export const LITRE_PER_US_GALLON = 3.785411784

/** Kilojoules in a British thermal unit (International Table). Exact. Source: NIST SP 811 (2008), App. B.8. */
export const KILOJOULE_PER_BTU = 1.05505585262

/** Kilograms per cubic metre in a pound per cubic inch. */
export const KG_M3_PER_POUND_PER_CUBIC_INCH = KG_PER_POUND / (MM_PER_INCH / 1000) ** 3

/** Degrees in a radian. */
export const DEGREES_PER_RADIAN = 180 / Math.PI

export type PressTon = 'usShort' | 'metric' | 'long'

/**
 * What a "ton" on a press plate may mean, in kilonewtons. The three lie 12 percent apart, so a bare "ton" is a question, not a number.
 *   US short 2000 lbf, metric 1000 kgf, long 2240 lbf
 * Source: NIST SP 811 (2008), App. B.8 (ton-force 8.896443 kN; kilogram-force and pound-force exact).
 */
export const pressTons: Readonly<Record<PressTon, Readonly<{ label: string; kilonewtons: number }>>> = {
  usShort: { label: 'US ton (2000 lbf)', kilonewtons: (2000 * NEWTON_PER_POUND_FORCE) / 1000 },
  metric: { label: 'metric ton (1000 kgf)', kilonewtons: STANDARD_GRAVITY_M_PER_S2 },
  long: { label: 'long ton (2240 lbf)', kilonewtons: (2240 * NEWTON_PER_POUND_FORCE) / 1000 },
}

export const mmFromInch = (lengthIn: number): number => lengthIn * MM_PER_INCH
export const inchFromMm = (lengthMm: number): number => lengthMm / MM_PER_INCH
export const kgFromPound = (massLb: number): number => massLb * KG_PER_POUND
export const poundFromKg = (massKg: number): number => massKg / KG_PER_POUND
export const kilonewtonFromPoundForce = (forceLbf: number): number =>
  (forceLbf * NEWTON_PER_POUND_FORCE) / 1000
export const poundForceFromKilonewton = (forceKn: number): number => (forceKn * 1000) / NEWTON_PER_POUND_FORCE
export const mpaFromKsi = (stressKsi: number): number => stressKsi * MPA_PER_KSI
export const ksiFromMpa = (stressMPa: number): number => stressMPa / MPA_PER_KSI
/** Degrees Fahrenheit in a difference of one kelvin. */
export const FAHRENHEIT_PER_KELVIN = 1.8
export const celsiusFromFahrenheit = (temperatureF: number): number =>
  (temperatureF - 32) / FAHRENHEIT_PER_KELVIN
export const fahrenheitFromCelsius = (temperatureC: number): number =>
  temperatureC * FAHRENHEIT_PER_KELVIN + 32
export const radFromDeg = (angleDeg: number): number => angleDeg / DEGREES_PER_RADIAN
export const degFromRad = (angleRad: number): number => angleRad * DEGREES_PER_RADIAN

/** Kelvin at zero Celsius. Exact. Source: NIST SP 811 (2008), App. B.8. */
export const KELVIN_AT_ZERO_CELSIUS = 273.15
export const kelvinFromCelsius = (temperatureC: number): number => temperatureC + KELVIN_AT_ZERO_CELSIUS
