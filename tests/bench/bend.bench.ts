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
const round: SpecInput = { ...rail, tube: { ...rail.tube, shape: 'round' } }
const ways: readonly (readonly [string, SpecMethod])[] = [
  ['hollow', { support: 'hollow' }],
  ['sand', { support: 'sand' }],
  ['low-melt', { support: 'lowMelt' }],
  ['low-melt with a strap', { support: 'lowMelt', strap }],
]

let turn = 0
/** A yield a little off at each turn, as by a certificate: nothing is answered from a tube kept from the turn before. */
const fresh = (input: SpecInput): SpecInput => ({
  ...input,
  material: { id: '6061-T4', yieldMPa: 145 + (turn++ % 10_000) * 1e-4 },
})

function allWays(part: SpecInput): void {
  const asked = fresh(part)
  for (const [, method] of ways) bendSpec({ ...asked, method })
}

/** The same six bends by thin strips and bisection, three strengths each as the spec has, coarse enough to wait for. */
function plainly(method: 'hollow' | 'lowMelt'): number {
  const { tube, material, press, support } = resolveSpec({ ...rail, method: { support: method } })
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
          ...(support.kind === 'lowMelt' && { filler: support }),
          spanMm: press.supportSpanMm,
          noseRadiusMm: press.supportNoseRadiusMm,
          frictionCoeff: press.supportFrictionCoeff,
          angleRad: (bend.angleDeg * Math.PI) / 180,
          radiusMm: bend.centrelineRadiusMm,
        },
        20,
        8,
        7,
      )
      most = Math.max(most, pressForceKn)
    }
  }
  return most
}

const plain = {
  hollow: 'the same hollow, worked out the plain way (40 strips)',
  'low-melt': 'the same low-melt, worked out the plain way (40 strips)',
}

export const cases = [
  ...ways.map(([name, method]) => ({
    title: `bend spec of six bends, ${name}`,
    run: () => bendSpec(fresh({ ...rail, method })),
    ...(name in plain && { plainly: plain[name as keyof typeof plain] }),
  })),
  {
    title: 'bend spec of six bends, round, low-melt with a strap',
    run: () => bendSpec(fresh({ ...round, method: { support: 'lowMelt', strap } })),
  },
  { title: 'all four ways of six bends', run: () => allWays(rail) },
  { title: 'all four ways of six bends, round', run: () => allWays(round) },
  { title: plain.hollow, run: () => plainly('hollow'), fewestRuns: 3 },
  { title: plain['low-melt'], run: () => plainly('lowMelt'), fewestRuns: 3 },
]
