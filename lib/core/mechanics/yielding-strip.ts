import { rootBetween } from '@/lib/core/mechanics/root'
import type { Fibres } from '@/lib/core/mechanics/section'

/** Elastic modulus of a steel strap, MPa. Source: common handbook value for carbon steel. */
export const strapModulusMPa = 205_000

/**
 * Moment of a doubly symmetric elastic-perfectly-plastic section (given by its upper half) at a curvature, N·mm.
 *   M = 2 sum( min(E k y, sy) y dA )
 * Source: elementary plasticity, e.g. Beer & Johnston, Mechanics of Materials, ch. 4.
 */
export function yieldingMomentNmm(
  half: Fibres,
  filler: { modulusMPa: number; yieldMPa: number },
  curvature: number,
): number {
  let sum = 0
  for (let i = 0; i < half.yMm.length; i++) {
    const y = half.yMm[i] as number
    sum += Math.min(filler.modulusMPa * curvature * y, filler.yieldMPa) * y * (half.areaMm2[i] as number)
  }
  return 2 * sum
}

export type Strap = Readonly<{
  thicknessMm: number
  widthMm: number
  yieldMPa: number
  frictionCoeff: number
}>

/** What the strap carries when it yields over its whole section, N. */
export function strapCapacityN(strap: Strap): number {
  return strap.thicknessMm * strap.widthMm * strap.yieldMPa
}

/** Integrals of the clamped stress over the strip's thickness at a middle strain: force and moment. */
function stripForces(
  strap: Strap,
  middleStrain: number,
  curvature: number,
): { forceN: number; momentNmm: number } {
  const half = strap.thicknessMm / 2
  const yieldStrain = strap.yieldMPa / strapModulusMPa
  const upperY = Math.min(Math.max((yieldStrain - middleStrain) / curvature, -half), half)
  const lowerY = Math.min(Math.max((-yieldStrain - middleStrain) / curvature, -half), half)
  const elasticForce =
    strapModulusMPa * (middleStrain * (upperY - lowerY) + (curvature * (upperY ** 2 - lowerY ** 2)) / 2)
  const elasticMoment =
    strapModulusMPa *
    ((middleStrain * (upperY ** 2 - lowerY ** 2)) / 2 + (curvature * (upperY ** 3 - lowerY ** 3)) / 3)
  return {
    forceN:
      strap.widthMm * (elasticForce + strap.yieldMPa * (half - upperY) - strap.yieldMPa * (lowerY + half)),
    momentNmm:
      strap.widthMm *
      (elasticMoment +
        (strap.yieldMPa * (half ** 2 - upperY ** 2)) / 2 -
        (strap.yieldMPa * (lowerY ** 2 - half ** 2)) / 2),
  }
}

/**
 * Moment of the strap about its own middle at a curvature, with a tension in it, N·mm.
 *   elastic-perfectly-plastic; fully plastic: Mp (1 - (T / (As Fys))^2), Mp = ws ts^2 Fys / 4
 * Source: elementary plasticity of a rectangle under axial force and bending. Valid: 0 <= T <= As Fys.
 */
export function strapMomentNmm(strap: Strap, curvature: number, tensionN: number): number {
  if (curvature <= 0) return 0
  const share = tensionN / strapCapacityN(strap)
  if (share >= 1) return 0
  const half = strap.thicknessMm / 2
  const coreMm = strap.yieldMPa / (strapModulusMPa * curvature)
  const shiftMm = share * half
  if (shiftMm + coreMm <= half) {
    return strap.widthMm * strap.yieldMPa * (half ** 2 - shiftMm ** 2 - coreMm ** 2 / 3)
  }
  const reach = strap.yieldMPa / strapModulusMPa + curvature * half
  const middle = rootBetween(
    (strain) => stripForces(strap, strain, curvature).forceN - tensionN,
    -reach,
    reach,
  )
  return stripForces(strap, middle, curvature).momentNmm
}
