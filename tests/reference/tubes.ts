import { BentTube, type Support } from '@/lib/core/mechanics/bent-tube'
import type { TubeMaterial } from '@/lib/core/mechanics/material-curve'
import type { Tube } from '@/lib/core/mechanics/section'

export const rectangle = (widthMm: number, heightMm: number, wallMm: number, cornerRadiusMm = 0): Tube => ({
  shape: widthMm === heightMm ? 'square' : 'rectangular',
  widthMm,
  heightMm,
  wallMm,
  cornerRadiusMm,
})
export const square = (sideMm: number, wallMm: number, cornerRadiusMm = 0): Tube =>
  rectangle(sideMm, sideMm, wallMm, cornerRadiusMm)
export const round = (diameterMm: number, wallMm: number): Tube => ({
  shape: 'round',
  widthMm: diameterMm,
  heightMm: diameterMm,
  wallMm,
  cornerRadiusMm: 0,
})

/** Of the given Ramberg-Osgood exponent; 30 000 hardens by so little that the tube is as good as perfectly plastic. */
export const metal = (elasticModulusMPa: number, yieldMPa: number, exponent = 30_000): TubeMaterial => ({
  family: 'aluminium',
  elasticModulusMPa,
  yieldMPa,
  tensileMPa: yieldMPa * (0.1 / 0.002) ** (1 / exponent),
  uniformStrain: 0.1,
  elongationPct: 16,
  poisson: 0.33,
  densityKgM3: 2700,
})

export const hollow: Support = { kind: 'hollow' }
export const bare = (tube: Tube, material: TubeMaterial, support = hollow): BentTube =>
  new BentTube(tube, material, support, null)
