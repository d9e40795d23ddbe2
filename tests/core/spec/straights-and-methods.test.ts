import { describe, expect, it } from 'vitest'
import { bendSpec } from '@/lib/core/spec/bend-spec'
import type { SpecInput } from '@/lib/core/spec/contract'
import { resolveSpec } from '@/lib/core/spec/resolve'
import { methodsOf, type ShopTools } from '@/lib/core/spec/shop-tools'
import { afterTrialPieces } from '@/lib/core/spec/uncertainty'

/** Two bends, one small and one large: the free length left of the span differs by a lot. */
const rail = (anglesDeg: readonly [number, number], betweenMm: number): SpecInput => ({
  tube: { shape: 'square', widthMm: 38.1, heightMm: 38.1, wallMm: 3.175 },
  material: { id: '6061-T4' },
  bends: anglesDeg.map((angleDeg, index) => ({
    straightBeforeMm: index === 0 ? 400 : betweenMm,
    angleDeg,
    centrelineRadiusMm: 200,
    rotationDeg: 0,
  })),
  straightAfterMm: 400,
  method: { support: 'hollow' },
  press: { capacityKn: 200, supportSpanMm: 460, supportNoseRadiusMm: 20 },
})
const warned = (input: SpecInput) =>
  bendSpec(input).warnings.some((text) => text.includes('a support would stand on a bent part'))

describe('a straight between two bends', () => {
  it.each([
    ['the first', [15, 70]],
    ['the second', [70, 15]],
  ] as const)(
    'must be as long as the larger free length and the tube’s height, where %s bend leaves more',
    (_, angles) => {
      const free = bendSpec(rail(angles, 900)).bends.map(({ freeLengthMm }) => freeLengthMm)
      expect(Math.abs((free[0] ?? 0) - (free[1] ?? 0))).toBeGreaterThan(40)
      // Section 5 of the model: s + h, s the longer of the two.
      const neededMm = Math.max(...free) + 38.1
      expect(warned(rail(angles, neededMm - 0.01))).toBe(true)
      expect(warned(rail(angles, neededMm + 0.01))).toBe(false)
    },
  )

  it('before the first bend is nobody’s: it may be as short as it likes', () => {
    const short = rail([40, 40], 900)
    const [first, ...others] = short.bends
    if (!first) throw new Error('no bend')
    expect(warned({ ...short, bends: [{ ...first, straightBeforeMm: 1 }, ...others] })).toBe(false)
  })
})

describe('values that are given', () => {
  const of = (material: SpecInput['material']) => resolveSpec({ ...rail([40, 40], 900), material }).material
  it('stand before the table’s, each for itself', () => {
    expect(of({ id: '6061-T4', uniformStrain: 0.12, reductionOfAreaPct: 33 })).toMatchObject({
      uniformStrain: 0.12,
      reductionOfAreaPct: 33,
      yieldMPa: 145,
    })
    expect(of({ id: '6061-T4', yieldMPa: 150 })).toMatchObject({ yieldMPa: 150, tensileMPa: 241 })
  })
})

describe('ways of holding the tube that the shop’s tools allow', () => {
  const tools: ShopTools = {
    presses: [],
    dies: [],
    straps: [
      { id: 'S-1', thicknessMm: 1.5, widthMm: 38, yieldMPa: 350, frictionCoeff: 0.22 },
      { id: 'S-2', thicknessMm: 3, widthMm: 50, yieldMPa: 250 },
    ],
    lowMelts: [{ fillerId: 'bi-158' }],
    hasSand: true,
  }
  it('are each support with and without each strap, the least trouble first', () => {
    const found = methodsOf(tools)
    expect(found.map(({ method, strapId }) => `${method.support} ${strapId ?? ''}`.trim())).toEqual(
      expect.arrayContaining(['hollow', 'hollow S-1', 'hollow S-2', 'sand', 'lowMelt', 'lowMelt S-2']),
    )
    expect(found).toHaveLength(9)
    const efforts = found.map(({ effort }) => effort)
    expect(efforts).toEqual(efforts.toSorted((a, b) => a - b))
    expect(found[0]).toMatchObject({ method: { support: 'hollow' }, strapId: null })
  })
  it('carry a strap’s own friction, and none where none is known', () => {
    const strapOf = (id: string) => methodsOf(tools).find(({ strapId }) => strapId === id)?.method.strap
    expect(strapOf('S-1')).toEqual({ thicknessMm: 1.5, widthMm: 38, yieldMPa: 350, frictionCoeff: 0.22 })
    expect(strapOf('S-2')).toEqual({ thicknessMm: 3, widthMm: 50, yieldMPa: 250 })
  })
  it('hold sand and alloy only where the shop has them', () => {
    const bare = methodsOf({ ...tools, straps: [], lowMelts: [], hasSand: false })
    expect(bare.map(({ method }) => method.support)).toEqual(['hollow'])
  })
})

describe('trial pieces', () => {
  it('need spreads of nought or more and a whole number of pieces', () => {
    const trial = { sdDeg: 0.4, pieceSdDeg: 0.1, pieceCount: 2 }
    for (const wrong of [
      { sdDeg: -0.1 },
      { sdDeg: Number.NaN },
      { pieceSdDeg: 0 },
      { pieceCount: -1 },
      { pieceCount: 1.5 },
    ])
      expect(() => afterTrialPieces({ ...trial, ...wrong }), JSON.stringify(wrong)).toThrow(RangeError)
    expect(afterTrialPieces({ ...trial, sdDeg: 0 })).toEqual({ setUpSdDeg: 0, nextPieceSdDeg: 0.1 })
    expect(afterTrialPieces({ ...trial, pieceCount: 0 }).setUpSdDeg).toBeCloseTo(0.4, 12)
    // 1 / sqrt(1 / 0.16 + 2 / 0.01) = 0.06963, by hand.
    expect(afterTrialPieces(trial).setUpSdDeg).toBeCloseTo(0.06963, 5)
  })
})
