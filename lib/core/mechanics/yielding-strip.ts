/** Elastic modulus of a steel strap, MPa. Source: common handbook value for carbon steel. */
export const strapModulusMPa = 205_000

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

/**
 * Moment of the strap about its own middle at a curvature, with a tension in it, N·mm; c = ts/2, core half depth yy = Fys / (E k), q = T / (As Fys).
 *   both faces yielding (q c + yy <= c):  ws Fys (c^2 - (q c)^2 - yy^2 / 3)
 *   none (c + q yy <= yy):                E k ws ts^3 / 12
 *   the outer face only:                  elastic depth D = 2 sqrt(yy c (1 - q)),  ws Fys D^2 / (2 yy) (c - D / 3)
 * Fully plastic: Mp (1 - q^2), Mp = ws ts^2 Fys / 4. Source: elementary plasticity of a rectangle under axial force and bending.
 * Valid: 0 <= T <= As Fys.
 */
export function strapMomentNmm(strap: Strap, curvature: number, tensionN: number): number {
  if (curvature <= 0) return 0
  const share = tensionN / strapCapacityN(strap)
  // To a billionth: whoever seeks the tension that yields it whole comes no nearer.
  if (share >= 1 - 1e-9) return 0
  const half = strap.thicknessMm / 2
  const coreMm = strap.yieldMPa / (strapModulusMPa * curvature)
  const pull = strap.widthMm * strap.yieldMPa
  if (share * half + coreMm <= half) return pull * (half * half * (1 - share * share) - (coreMm * coreMm) / 3)
  if (half + share * coreMm <= coreMm) return ((2 / 3) * pull * half * half * half) / coreMm
  const depthMm = 2 * Math.sqrt(coreMm * half * (1 - share))
  return ((pull * depthMm * depthMm) / (2 * coreMm)) * (half - depthMm / 3)
}
