import type { AlloyFamily } from '@/lib/core/materials/alloys'
import type { Trace } from '@/lib/core/mechanics/trace'

export type TubeMaterial = Readonly<{
  family: AlloyFamily
  elasticModulusMPa: number
  yieldMPa: number
  tensileMPa: number
  /** Plastic part of the uniform strain; absent: by the family's rule. */
  uniformStrain?: number
  elongationPct: number
  reductionOfAreaPct?: number
  poisson: number
  densityKgM3: number
}>

/** Least uniform strain taken, given or worked out. */
const leastUniformStrain = 0.01

/**
 * Plastic part of the uniform strain.
 *   aluminium: 0.30 - 0.22 Fty / 400, 0.08 from 400 MPa up; otherwise half the elongation at break; never under 0.01
 * Source: EN 1999-1-1 Annex E (aluminium); half the elongation: common practice, no source.
 */
export function uniformStrain(material: TubeMaterial): number {
  const own = material.uniformStrain
  if (own !== undefined) return Math.max(own, leastUniformStrain)
  const ruled =
    material.family === 'aluminium'
      ? material.yieldMPa < 400
        ? 0.3 - (0.22 * material.yieldMPa) / 400
        : 0.08
      : material.elongationPct / 200
  return Math.max(ruled, leastUniformStrain)
}

/**
 * The Ramberg-Osgood exponent, at least 1.
 *   n = ln(eu / 0.002) / ln(Ftu / Fty)
 * Source: EN 1999-1-1 Annex E. Valid: Ftu > Fty > 0; RangeError otherwise.
 */
export function hardeningExponent(material: TubeMaterial, trace?: Trace): number {
  const { yieldMPa, tensileMPa } = material
  if (!(tensileMPa > yieldMPa && yieldMPa > 0)) {
    throw new RangeError(
      `The tensile strength (${tensileMPa} MPa) is above the yield (${yieldMPa} MPa), and both above 0.`,
    )
  }
  const strain = uniformStrain(material)
  const exponent = Math.max(Math.log(strain / 0.002) / Math.log(tensileMPa / yieldMPa), 1)
  trace?.step('/material.uniformStrain', {
    formula:
      material.uniformStrain !== undefined
        ? 'eu as given, at least 0.01'
        : material.family === 'aluminium'
          ? 'eu = 0.30 - 0.22 Fty / 400, 0.08 from 400 MPa up, at least 0.01'
          : 'eu = half the elongation at break, at least 0.01',
    inputs: [
      ['Fty', yieldMPa, 'MPa'],
      ['elongation', material.elongationPct, '%'],
    ],
    value: strain,
    unit: '',
    source: material.family === 'aluminium' ? 'EN 1999-1-1 Annex E' : 'common practice, no source',
    trust: 'mechanics',
  })
  trace?.step('/material.exponent', {
    formula: 'n = ln(eu / 0.002) / ln(Ftu / Fty), at least 1;  strain = s / E + 0.002 (s / Fty)^n',
    inputs: [
      ['eu', strain, '', '/material.uniformStrain'],
      ['Ftu', tensileMPa, 'MPa'],
      ['Fty', yieldMPa, 'MPa'],
    ],
    value: exponent,
    unit: '',
    source: 'Ramberg and Osgood, NACA TN 902 (1943), in the offset form of EN 1999-1-1 Annex E',
    trust: 'mechanics',
  })
  return exponent
}

/**
 * Strain at a stress.
 *   e = s / E + 0.002 (s / Fty)^n
 * Source: Ramberg & Osgood, NACA TN 902 (1943), in the offset form of EN 1999-1-1 Annex E. Odd in s.
 */
export function strainAtStress(
  stressMPa: number,
  material: TubeMaterial,
  exponent = hardeningExponent(material),
): number {
  const size = Math.abs(stressMPa)
  return (
    Math.sign(stressMPa) *
    (size / material.elasticModulusMPa + 0.002 * (size / material.yieldMPa) ** exponent)
  )
}

const nodeCount = 320
/** Largest strain in the table: far past what any tube survives. */
const mostStrain = 4

/** Room for the stress and its two integrals, so that a sum over a section makes no objects. */
export type StressIntegrals = { stressMPa: number; force: number; moment: number }

/**
 * Stress at any strain and its integrals: the Ramberg-Osgood curve turned round at nodes, joined by cubics. A node is worked
 * out when it is first needed, always from the same start, so that no answer hangs on what was asked before.
 */
export class StressCurve {
  readonly material: TubeMaterial
  readonly exponent: number
  private readonly bend: number
  private readonly step: number
  private readonly perStep: number
  private readonly strain = new Float64Array(nodeCount + 1)
  private readonly stress = new Float64Array(nodeCount + 1)
  /** 0 where the node is not worked out yet: the curve rises everywhere. */
  private readonly slope = new Float64Array(nodeCount + 1)

  constructor(material: TubeMaterial) {
    this.material = material
    this.exponent = hardeningExponent(material)
    this.bend = (0.5 * material.yieldMPa) / material.elasticModulusMPa
    this.step = Math.log1p(mostStrain / this.bend) / nodeCount
    this.perStep = 1 / this.step
  }

  private fill(node: number): void {
    const strain = this.bend * Math.expm1(node * this.step)
    const stress = node === 0 ? 0 : this.solve(strain)
    this.strain[node] = strain
    this.stress[node] = stress
    this.slope[node] = this.tangentOfStress(stress)
  }

  /** Slope of the curve at a stress, MPa; even in the stress. */
  tangentOfStress(stressMPa: number): number {
    const { elasticModulusMPa: modulus, yieldMPa } = this.material
    const share = Math.abs(stressMPa) / yieldMPa
    return 1 / (1 / modulus + ((0.002 * this.exponent) / yieldMPa) * share ** (this.exponent - 1))
  }

  /**
   * Halley from above the root of a rising, hollow-up function: never overshoots. Both parts of the strain alone bound
   * the stress from above, and no power of it overflows however hard the knee. The error is cubed at each step, so
   * that a step of 1e-6 is the last that matters.
   */
  private solve(strain: number): number {
    const { elasticModulusMPa: modulus, yieldMPa } = this.material
    let stress = Math.min(modulus * strain, yieldMPa * (strain / 0.002) ** (1 / this.exponent))
    for (let turn = 0; turn < 60; turn++) {
      const power = 0.002 * (stress / yieldMPa) ** this.exponent
      const over = stress / modulus + power - strain
      const slope = 1 / modulus + (this.exponent * power) / stress
      const turning = (this.exponent * (this.exponent - 1) * power) / (stress * stress)
      const change = (2 * over * slope) / (2 * slope * slope - over * turning)
      stress -= change
      if (Math.abs(change) <= 1e-6 * stress) break
    }
    return stress
  }

  /** Stress, MPa, odd in the strain. */
  stressMPa(strain: number): number {
    const size = strain < 0 ? -strain : strain
    const node = (Math.log1p(size / this.bend) * this.perStep) | 0
    if (node >= nodeCount) return Math.sign(strain) * this.solve(size)
    if (this.slope[node] === 0) this.fill(node)
    if (this.slope[node + 1] === 0) this.fill(node + 1)
    const low = this.strain[node] as number
    const gap = (this.strain[node + 1] as number) - low
    const part = (size - low) / gap
    const s0 = this.stress[node] as number
    const d0 = (this.slope[node] as number) * gap
    const d1 = (this.slope[node + 1] as number) * gap
    const rise = (this.stress[node + 1] as number) - s0
    const value = s0 + part * (d0 + part * (3 * rise - 2 * d0 - d1 + part * (d0 + d1 - 2 * rise)))
    return strain < 0 ? -value : value
  }

  /** Stress over strain; the elastic modulus at no strain. */
  secantMPa(strain: number): number {
    return strain === 0 ? this.material.elasticModulusMPa : this.stressMPa(strain) / strain
  }

  /**
   * Integrals of the stress and of stress times strain from 0 to a strain, in closed form; the plastic part of the strain is p = e - s/E.
   *   integral s de = s e - (s^2 / 2E + s p / (n+1))
   *   integral s e de = (s e^2 - (s^3 / 3E^2 + 2 s^2 p / (E (n+2)) + s p^2 / (2n+1))) / 2
   * Source: integration by parts of the curve above. The first is even in the strain, the stress and the second odd.
   */
  integrals(strain: number, into: StressIntegrals = { stressMPa: 0, force: 0, moment: 0 }): StressIntegrals {
    const e = strain < 0 ? -strain : strain
    const s = this.stressMPa(e)
    const n = this.exponent
    const elastic = s / this.material.elasticModulusMPa
    const plastic = e - elastic
    into.stressMPa = strain < 0 ? -s : s
    into.force = s * (e - elastic / 2 - plastic / (n + 1))
    const squares =
      (elastic * elastic) / 3 + (2 * elastic * plastic) / (n + 2) + (plastic * plastic) / (2 * n + 1)
    const moment = (s * (e * e - squares)) / 2
    into.moment = strain < 0 ? -moment : moment
    return into
  }
}
