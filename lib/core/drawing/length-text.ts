export type DrawingUnits = 'mm' | 'in'

const mmPerInch = 25.4

/** A number without needless zeros. */
function plain(value: number, decimals: number): string {
  const text = value.toFixed(decimals)
  const short = text.includes('.') ? text.replace(/\.?0+$/, '') : text
  return short === '-0' ? '0' : short.replace('-', '−')
}

/** A length as it stands on a drawing, without its unit: to 0.1 mm or 0.001 in, or finer. */
export function lengthText(lengthMm: number, units: DrawingUnits, decimalsMm = 1): string {
  return units === 'in' ? plain(lengthMm / mmPerInch, decimalsMm + 2) : plain(lengthMm, decimalsMm)
}

export function angleText(angleDeg: number): string {
  return `${plain(angleDeg, 2)}°`
}

/** A round length of about this size for a scale bar: 1, 2 or 5 times a power of ten of the unit. */
export function roundLengthMm(aboutMm: number, units: DrawingUnits): number {
  const unitMm = units === 'in' ? mmPerInch : 1
  const power = 10 ** Math.floor(Math.log10(aboutMm / unitMm))
  const lead = aboutMm / unitMm / power
  return (lead >= 5 ? 5 : lead >= 2 ? 2 : 1) * power * unitMm
}
