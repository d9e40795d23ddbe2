import { describe, expect, it } from 'vitest'
import type { BendAnswer, SpecAnswer } from '@/lib/core/spec/contract'
import { chooseDies, trySetUp } from '@/lib/core/spec/set-up-try'
import type { Method, PartToBend, ShopPress } from '@/lib/core/spec/shop-tools'

const rail: PartToBend = {
  tube: { shape: 'square', widthMm: 38.1, heightMm: 38.1, wallMm: 3.175 },
  material: { id: '6061-T4' },
  bends: [
    { straightBeforeMm: 500, angleDeg: 32, centrelineRadiusMm: 380, rotationDeg: 0 },
    { straightBeforeMm: 700, angleDeg: 20, centrelineRadiusMm: 380, rotationDeg: 90 },
  ],
  straightAfterMm: 500,
}
const press: ShopPress = {
  id: 'H-frame',
  capacityKn: 300,
  spanMinMm: 150,
  spanMaxMm: 900,
  noseRadiusMm: 20,
}
const sand: Method = { method: { support: 'sand' }, strapId: null, effort: 1 }
const spanOf = (part: PartToBend, on: ShopPress, method: Method) =>
  trySetUp(part, on, method).input.press.supportSpanMm

describe('the span that is asked about first', () => {
  // Half of the larger bend, 16 degrees: 2 (419.05 sin 16 + 38.1 cos 16) = 304.26, and a tenth more.
  // 419.05 = 380 + 38.1 / 2 + 20, centreline to the support's middle.
  const firstMm = 1.1 * 2 * (419.05 * 0.275637 + 38.1 * 0.961262)

  it('holds the arc and a tube height of the largest bend, and stays where everything passes', () => {
    expect(firstMm).toBeCloseTo(334.69, 1)
    const tried = trySetUp(rail, press, sand)
    expect(tried.works).toBe(true)
    expect(tried.input.press.supportSpanMm).toBeCloseTo(firstMm, 2)
  })

  it('grows by the strap that lies between', () => {
    const strap = { thicknessMm: 2, widthMm: 38.1, yieldMPa: 350 }
    const strapped: Method = { method: { support: 'sand', strap }, strapId: 's', effort: 2 }
    // 2 mm more to the support's middle: 1.1 * 2 * 2 sin 16 = 1.2128 mm.
    expect(spanOf(rail, press, strapped) - spanOf(rail, press, sand)).toBeCloseTo(1.2128, 3)
  })

  it('is the press’s own nearest where that reaches no such span', () => {
    expect(spanOf(rail, { ...press, spanMinMm: 400 }, sand)).toBe(400)
    expect(spanOf(rail, { ...press, spanMaxMm: 320 }, sand)).toBe(320)
  })
})

describe('the search for a span', () => {
  it('lengthens until the press has the force, by a twentieth at least, and no further than the press reaches', () => {
    const weak = { ...press, capacityKn: 40 }
    const tried = trySetUp(rail, weak, sand)
    expect(tried.works).toBe(true)
    // A short span was too much for the press: the one found is longer, and uses less than the press has.
    expect(tried.input.press.supportSpanMm).toBeGreaterThan(1.05 * 334.69)
    const forces = tried.answer?.bends.map(({ pressForceKn }) => pressForceKn) ?? []
    expect(Math.max(...forces)).toBeLessThanOrEqual(40)
    const short = { ...weak, spanMaxMm: 345 }
    expect(trySetUp(rail, short, sand).works).toBe(false)
    expect(spanOf(rail, short, sand)).toBeLessThanOrEqual(345)
  })

  it('goes on by three tenths where a span has no answer at all', () => {
    // Ninety degrees on a press whose range ends before the arc's chord: nothing to answer, and it says why.
    const elbow = { ...rail, bends: rail.bends.map((bend) => ({ ...bend, angleDeg: 90 })) }
    const tried = trySetUp(elbow, { ...press, spanMaxMm: 400 }, sand)
    expect(tried).toMatchObject({ works: false, answer: null })
    expect(tried.answer === null && tried.because).toMatch(/press\.supportSpanMm: .*no free length/)
    // With reach enough it is found.
    expect(trySetUp(elbow, press, sand).works).toBe(true)
  })

  it('asks with the press’s and the part’s own values', () => {
    const own = { ...press, supportFrictionCoeff: 0.2, strokeMm: 250, useFraction: 0.7 }
    const part = { ...rail, sectionToleranceFraction: 0.03, springbackFactorOf: () => 1.08 }
    const { input } = trySetUp(part, own, sand)
    expect(input).toMatchObject({
      press: {
        capacityKn: 300,
        supportNoseRadiusMm: 20,
        supportFrictionCoeff: 0.2,
        strokeMm: 250,
        useFraction: 0.7,
      },
      springbackFactor: 1.08,
      sectionToleranceFraction: 0.03,
      straightAfterMm: 500,
    })
    const plain = trySetUp(rail, press, sand).input
    expect(Object.keys(plain.press).sort()).toEqual(['capacityKn', 'supportNoseRadiusMm', 'supportSpanMm'])
    expect(plain).not.toHaveProperty('springbackFactor')
    expect(plain).not.toHaveProperty('sectionToleranceFraction')
  })
})

describe('a die of the shop', () => {
  const tube = { widthMm: 38, heightMm: 40 }
  const answer = { bends: [{ dieSurfaceRadiusMm: 380 } as BendAnswer] } as unknown as SpecAnswer
  const chosen = (...dies: { id: string; surfaceRadiusMm: number; grooveWidthMm?: number }[]) =>
    chooseDies(answer, tube, dies)[0]

  it('is used to two hundredths of the loaded radius on either side, and one is made beyond that', () => {
    // The loaded radius is 380 + 40 / 2 = 400; two hundredths of it are 8 mm.
    expect(chosen({ id: 'large', surfaceRadiusMm: 388 })).toEqual({
      dieId: 'large',
      surfaceRadiusMm: 388,
      offFraction: 0.02,
    })
    expect(chosen({ id: 'small', surfaceRadiusMm: 372 })).toMatchObject({ dieId: 'small' })
    const toMake = { dieId: null, surfaceRadiusMm: 380, offFraction: 0 }
    expect(chosen({ id: 'large', surfaceRadiusMm: 388.1 })).toEqual(toMake)
    expect(chosen({ id: 'small', surfaceRadiusMm: 371.9 })).toEqual(toMake)
    expect(chosen()).toEqual(toMake)
  })

  it('is the nearest that takes the tube in its groove', () => {
    const narrow = { id: 'narrow', surfaceRadiusMm: 380, grooveWidthMm: 37.9 }
    const snug = { id: 'snug', surfaceRadiusMm: 385, grooveWidthMm: 38 }
    const open = { id: 'open', surfaceRadiusMm: 376 }
    expect(chosen(narrow, snug, open)).toEqual({ dieId: 'open', surfaceRadiusMm: 376, offFraction: 0.01 })
    expect(chosen(narrow, snug)).toEqual({ dieId: 'snug', surfaceRadiusMm: 385, offFraction: 0.0125 })
    expect(chosen(narrow)).toMatchObject({ dieId: null })
  })
})
