import { hardeningExponent } from '@/lib/core/mechanics/material-curve'
import { bendSpec } from '@/lib/core/spec/bend-spec'
import type { SpecInput, SpecMethod } from '@/lib/core/spec/contract'
import { resolveSpec } from '@/lib/core/spec/resolve'
import { plainBend } from '@/tests/support/plain-bend'

/** Six bends, no two alike, so that nothing is answered from a bend already solved. */
const rail: SpecInput = {
  tube: { shape: 'square', widthMm: 38.1, heightMm: 38.1, wallMm: 3.175 },
  material: { id: '6061-T4' },
  bends: [90, 45, 32, 60, 75, 30].map((angleDeg, index) => ({
    straightBeforeMm: 300,
    angleDeg,
    centrelineRadiusMm: 150 + 10 * index,
    rotationDeg: index === 0 ? 0 : 30,
  })),
  straightAfterMm: 300,
  method: { support: 'hollow' },
  press: { capacityKn: 200, supportSpanMm: 440, supportNoseRadiusMm: 20 },
}
const strap = { thicknessMm: 1.5, widthMm: 38.1, yieldMPa: 350 }
const ways: readonly (readonly [string, SpecMethod])[] = [
  ['hollow', { support: 'hollow' }],
  ['sand', { support: 'sand' }],
  ['low-melt', { support: 'lowMelt' }],
  ['low-melt with a strap', { support: 'lowMelt', strap }],
]

/** The same six bends by thin strips and bisection, three strengths each as the spec has, coarse enough to wait for. */
function plainly(): number {
  const { tube, material, press } = resolveSpec(rail)
  let most = 0
  for (const strength of [0.94, 1, 1.06]) {
    for (const bend of rail.bends) {
      const { pressForceKn } = plainBend(
        {
          ...tube,
          shape: 'rectangular',
          elasticModulusMPa: material.elasticModulusMPa,
          yieldMPa: material.yieldMPa * strength,
          exponent: hardeningExponent(material),
          spanMm: press.supportSpanMm,
          noseRadiusMm: press.supportNoseRadiusMm,
          frictionCoeff: press.supportFrictionCoeff,
          angleRad: (bend.angleDeg * Math.PI) / 180,
          radiusMm: bend.centrelineRadiusMm,
        },
        30,
        16,
        11,
      )
      most = Math.max(most, pressForceKn)
    }
  }
  return most
}

export const cases = [
  ...ways.map(([name, method]) => ({
    title: `bend spec of six bends, ${name}`,
    run: () => bendSpec({ ...rail, method }),
  })),
  { title: 'the same six bends hollow, worked out the plain way (60 strips)', run: plainly },
]
