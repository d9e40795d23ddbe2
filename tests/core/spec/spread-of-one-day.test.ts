import { describe, expect, it } from 'vitest'
import { bendSpec } from '@/lib/core/spec/bend-spec'
import type { SpecInput } from '@/lib/core/spec/contract'
import { figuresOff, questionOff, specUncertainty, usualSpreads } from '@/lib/core/spec/uncertainty'

const strap = { thicknessMm: 1.5, widthMm: 38, yieldMPa: 350, frictionCoeff: 0.12 }
const arm: SpecInput = {
  tube: { shape: 'square', widthMm: 38.1, heightMm: 38.1, wallMm: 3.175 },
  material: { id: '6061-T6' },
  bends: [
    { straightBeforeMm: 400, angleDeg: 32, centrelineRadiusMm: 330, rotationDeg: 0 },
    { straightBeforeMm: 700, angleDeg: 20, centrelineRadiusMm: 400, rotationDeg: 90 },
  ],
  straightAfterMm: 400,
  method: { support: 'hollow', strap },
  press: { capacityKn: 200, supportSpanMm: 420, supportNoseRadiusMm: 20, supportFrictionCoeff: 0.2 },
  springbackFactor: 1.1,
}
const spreads = {
  strengthFraction: 0.05,
  wallMm: 0.1,
  supportFriction: 0.06,
  strapFriction: 0.04,
  dieRadiusMm: 0.3,
  springbackFactor: 0.08,
}

describe('the question of one day', () => {
  const plain = bendSpec(arm)
  const off = (sources: Parameters<typeof questionOff>[4], index = 0) =>
    questionOff(arm, index, plain, spreads, sources)

  it('with nothing off asks for the plain bend on the plain die', () => {
    const same = off({})
    expect(same.bends).toEqual([{ ...arm.bends[0], rotationDeg: 0 }])
    expect(off({}, 1).bends).toEqual([{ ...arm.bends[1], rotationDeg: 0 }])
    expect(same.die?.surfaceRadiusMm).toBeCloseTo(plain.bends[0]?.dieSurfaceRadiusMm ?? Number.NaN, 9)
    expect(bendSpec(same).bends[0]?.finalAngleDeg).toBeCloseTo(32, 5)
    expect(same.tube).toEqual({ ...arm.tube, cornerRadiusMm: 0 })
  })
  it('moves each source by so many of its own deviations', () => {
    // 6061-T6 typical: 276 and 310 MPa; by hand 276 · (1 + 2 · 0.05) = 303.6.
    expect(off({ strength: 2 }).material.yieldMPa).toBeCloseTo(1.1 * 276, 0)
    expect(off({ strength: 2 }).material.tensileMPa).toBeCloseTo(1.1 * 310, 0)
    expect(off({ wall: -1 }).tube.wallMm).toBeCloseTo(3.075, 9)
    expect(off({ supportFriction: 2 }).press.supportFrictionCoeff).toBeCloseTo(0.32, 9)
    expect(off({ supportFriction: -4 }).press.supportFrictionCoeff).toBe(0)
    expect(off({ strapFriction: 1 }).method.strap?.frictionCoeff).toBeCloseTo(0.16, 9)
    expect(off({ strapFriction: -9 }).method.strap?.frictionCoeff).toBe(0)
    expect(
      (off({ dieRadius: 2 }).die?.surfaceRadiusMm ?? 0) - (off({}).die?.surfaceRadiusMm ?? 0),
    ).toBeCloseTo(0.6, 9)
    expect(off({ springbackFactor: -1 }).springbackFactor).toBeCloseTo(1.02, 9)
  })
  it('holds the corners as they are when the wall moves, and gives a round tube none', () => {
    const steel = { ...arm, material: { id: 'A500-B-shaped' } }
    const moved = questionOff(steel, 0, bendSpec(steel), spreads, { wall: 1 })
    expect(moved.tube).toMatchObject({ wallMm: expect.closeTo(3.275, 9), cornerRadiusMm: 6.35 })
    const round: SpecInput = { ...arm, tube: { shape: 'round', widthMm: 38.1, heightMm: 38.1, wallMm: 3 } }
    expect(questionOff(round, 0, bendSpec(round), spreads, {}).tube).not.toHaveProperty('cornerRadiusMm')
  })
  it('is refused for a bend that is not there', () => {
    expect(() => off({}, 2)).toThrow(RangeError)
  })
  it('reads the angles at the plain loaded angle: on that day’s spring, in proportion', () => {
    const [bend] = plain.bends
    if (!bend) throw new Error('no bend')
    const stronger = off({ strength: 1 })
    const [made] = bendSpec(stronger).bends
    if (!made) throw new Error('no bend')
    const figures = figuresOff(stronger, bend)
    const share = bend.loadedAngleDeg / made.loadedAngleDeg
    expect(figures?.finalAngleDeg).toBeCloseTo(
      bend.loadedAngleDeg - (made.loadedAngleDeg - made.finalAngleDeg) * share,
      9,
    )
    expect(figures?.angleAtPressDeg).toBeCloseTo(
      bend.loadedAngleDeg - (made.loadedAngleDeg - made.angleAtPressDeg) * share,
      9,
    )
    expect(figures).toMatchObject({
      pressForceKn: made.pressForceKn,
      wallOutsideMm: made.wallOutsideMm.expected,
      widthOutsideMm: made.widthOutsideMm,
      widthInsideMm: made.widthInsideMm,
    })
    expect(figures?.finalAngleDeg).toBeLessThan(bend.finalAngleDeg)
  })
  it('that cannot be bent has no figures', () => {
    const [bend] = plain.bends
    if (!bend) throw new Error('no bend')
    expect(figuresOff({ ...off({}), press: { ...arm.press, supportSpanMm: 120 } }, bend)).toBeNull()
  })
})

describe('the usual spreads', () => {
  it('are the strengths’ 6 percent, a quarter of the wall’s band, a third of each friction', () => {
    // ANSI H35.2 extruded, 0.125 in of 1.5: mean 0.009, then a tenth of 0.116 and 0.134: -0.0206, +0.0224 in; a quarter of 0.043 in = 0.27305 mm.
    const usual = usualSpreads(arm)
    expect(usual.strengthFraction).toBe(0.06)
    expect(usual.wallMm).toBeCloseTo(0.27305, 5)
    expect(usual.supportFriction).toBeCloseTo(0.2 / 3, 9)
    expect(usual.strapFriction).toBeCloseTo(0.04, 9)
    expect(usual.springbackFactor).toBe(0.15)
    expect(usualSpreads({ ...arm, method: { support: 'hollow' } }, 0.07)).toMatchObject({
      strapFriction: 0,
      springbackFactor: 0.07,
    })
  })
  it('of a material nobody has listed takes 10 percent of the wall for its limit', () => {
    const own: SpecInput = {
      ...arm,
      material: {
        family: 'steel',
        elasticModulusMPa: 200_000,
        yieldMPa: 300,
        tensileMPa: 400,
        elongationPct: 20,
        poisson: 0.3,
        densityKgM3: 7850,
      },
    }
    expect(usualSpreads(own).wallMm).toBeCloseTo((2 * 0.3175) / 4, 9)
  })
})

describe('the shares of a spread', () => {
  const none = {
    strengthFraction: 0,
    wallMm: 0,
    supportFriction: 0,
    strapFriction: 0,
    dieRadiusMm: 0,
    springbackFactor: 0,
  }
  it('name only what is off, and are half of what the model differs by from one side to the other', () => {
    const plain = bendSpec(arm)
    const [bend] = plain.bends
    if (!bend) throw new Error('no bend')
    for (const [source, key, size] of [
      ['strength', 'strengthFraction', 0.05],
      ['wall', 'wallMm', 0.1],
      ['supportFriction', 'supportFriction', 0.06],
      ['strapFriction', 'strapFriction', 0.04],
      ['dieRadius', 'dieRadiusMm', 0.3],
      ['springbackFactor', 'springbackFactor', 0.08],
    ] as const) {
      const only = { ...none, [key]: size }
      const [spread] = specUncertainty(arm, only)
      const at = (side: 1 | -1) => figuresOff(questionOff(arm, 0, plain, only, { [source]: side }), bend)
      const half = Math.abs((at(1)?.pressForceKn ?? 0) - (at(-1)?.pressForceKn ?? 0)) / 2
      expect(spread?.pressForceKn.shares).toEqual([{ source, sd: expect.closeTo(half, 9) }])
      const angle = Math.abs((at(1)?.finalAngleDeg ?? 0) - (at(-1)?.finalAngleDeg ?? 0)) / 2
      expect(spread?.finalAngleDeg.sd).toBeCloseTo(angle, 9)
      expect(spread?.finalAngleDeg.high).toBeCloseTo(32 + 2 * angle, 5)
    }
  })
  it('come largest first', () => {
    const [spread] = specUncertainty(arm, spreads)
    const sizes = spread?.finalAngleDeg.shares.map(({ sd }) => sd) ?? []
    expect(sizes).toHaveLength(6)
    expect(sizes).toEqual([...sizes].sort((a, b) => b - a))
  })
  it('take the side that can be bent where the other cannot', () => {
    // Near half a turn under load: a stronger tube would be past it, a weaker one is not.
    const only = { ...none, strengthFraction: 0.3 }
    const question = (angleDeg: number): SpecInput => ({
      ...arm,
      bends: [{ straightBeforeMm: 900, angleDeg, centrelineRadiusMm: 330, rotationDeg: 0 }],
      method: { support: 'hollow' },
      press: { ...arm.press, supportSpanMm: 1000 },
    })
    const sides = (angleDeg: number) => {
      const plain = bendSpec(question(angleDeg))
      const [bend] = plain.bends
      if (!bend) throw new Error('no bend')
      return [-1, 0, 1].map((off) =>
        figuresOff(questionOff(question(angleDeg), 0, plain, only, { strength: off }), bend),
      )
    }
    let angleDeg = 140
    while (sides(angleDeg)[2]) angleDeg += 0.5
    const [low, middle, high] = sides(angleDeg)
    expect(high).toBeNull()
    const [spread] = specUncertainty(question(angleDeg), only)
    expect(spread?.finalAngleDeg.sd).toBeCloseTo(
      Math.abs((middle?.finalAngleDeg ?? Number.NaN) - (low?.finalAngleDeg ?? Number.NaN)),
      9,
    )
  })
})
