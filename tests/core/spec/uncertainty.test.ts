import { describe, expect, it } from 'vitest'
import { bendSpec } from '@/lib/core/spec/bend-spec'
import type { SpecInput } from '@/lib/core/spec/contract'
import {
  afterTrialPieces,
  type Figure,
  figuresOff,
  questionOff,
  type SpreadSource,
  specUncertainty,
  usualSpreads,
} from '@/lib/core/spec/uncertainty'
import { normalQuantile } from '@/lib/core/statistics/normal'
import { uniformStream } from '@/lib/core/statistics/random'

const rail: SpecInput = {
  tube: { shape: 'square', widthMm: 38.1, heightMm: 38.1, wallMm: 3.175 },
  material: { id: '6061-T6' },
  bends: [{ straightBeforeMm: 400, angleDeg: 32, centrelineRadiusMm: 330, rotationDeg: 0 }],
  straightAfterMm: 400,
  method: { support: 'hollow' },
  press: { capacityKn: 200, supportSpanMm: 420, supportNoseRadiusMm: 20 },
}
const sources: readonly SpreadSource[] = [
  'strength',
  'wall',
  'supportFriction',
  'dieRadius',
  'springbackFactor',
]

describe('the spread of what comes out', () => {
  it('agrees with sampling every source at once', () => {
    const plain = bendSpec(rail)
    const [bend] = plain.bends
    if (!bend) throw new Error('no bend')
    const spreads = usualSpreads(rail)
    const uniform = uniformStream(20260)
    const figures: readonly Figure[] = [
      'angleAtPressDeg',
      'finalAngleDeg',
      'pressForceKn',
      'wallOutsideMm',
      'widthOutsideMm',
    ]
    const sampled = figures.map(() => [] as number[])
    const count = 600
    for (let draw = 0; draw < count; draw++) {
      const off = Object.fromEntries(sources.map((source) => [source, normalQuantile(uniform())]))
      const one = figuresOff(questionOff(rail, 0, plain, spreads, off), bend)
      for (const [index, figure] of figures.entries()) sampled[index]?.push(one?.[figure] ?? Number.NaN)
    }
    const [spread] = specUncertainty(rail)
    for (const [index, figure] of figures.entries()) {
      const values = sampled[index] ?? []
      const mean = values.reduce((sum, value) => sum + value, 0) / count
      const sd = Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (count - 1))
      // A sample's sd of 600 has itself a standard error of 1 / sqrt(2 · 599) = 2.9 percent; three of them.
      expect(Math.abs((spread?.[figure]?.sd ?? 0) / sd - 1), figure).toBeLessThan(0.09)
      expect(Math.abs((spread?.[figure]?.expected ?? 0) - mean), figure).toBeLessThan(0.3 * sd)
    }
  }, 120_000)

  it('adds the sources as squares', () => {
    const [spread] = specUncertainty(rail)
    const { sd, shares, low, high } = spread?.pressForceKn ?? { sd: 0, shares: [], low: 0, high: 0 }
    expect(sd ** 2).toBeCloseTo(
      shares.reduce((sum, share) => sum + share.sd ** 2, 0),
      9,
    )
    expect(high - low).toBeCloseTo(4 * sd, 9)
  })

  it('is nothing where nothing is uncertain', () => {
    const none = {
      strengthFraction: 0,
      wallMm: 0,
      supportFriction: 0,
      strapFriction: 0,
      dieRadiusMm: 0,
      springbackFactor: 0,
    }
    const [spread] = specUncertainty(rail, none)
    expect(spread?.angleAtPressDeg.sd).toBe(0)
    expect(spread?.pressForceKn.sd).toBe(0)
  })

  it('gives a round tube no face widths', () => {
    const [spread] = specUncertainty({
      ...rail,
      tube: { shape: 'round', widthMm: 38.1, heightMm: 38.1, wallMm: 3 },
    })
    expect(spread?.widthOutsideMm).toBeUndefined()
  })
})

describe('a day that is not as planned', () => {
  it('is asked of a bend the part has', () => {
    const plain = bendSpec(rail)
    expect(() => questionOff(rail, 1, plain, usualSpreads(rail), {})).toThrow(/no bend 2/)
    const off = questionOff(rail, 0, plain, usualSpreads(rail), { wall: 2, strength: -1 })
    const spreads = usualSpreads(rail)
    expect(off.tube.wallMm).toBeCloseTo(3.175 + 2 * spreads.wallMm, 12)
    expect(off.material.yieldMPa).toBeCloseTo(276 * (1 - spreads.strengthFraction), 9)
    expect(off.die?.surfaceRadiusMm).toBe(plain.bends[0]?.dieSurfaceRadiusMm)
  })
})

describe('trial pieces', () => {
  it('leave the spread of a normal mean after n readings', () => {
    // By hand: 1 / (1 / 0.7^2 + 2 / 0.3^2) = 1 / (2.0408 + 22.2222) = 0.041215, root 0.20301; with 0.3: sqrt(0.041215 + 0.09) = 0.36224
    const left = afterTrialPieces({ sdDeg: 0.7, pieceSdDeg: 0.3, pieceCount: 2 })
    expect(left.setUpSdDeg).toBeCloseTo(0.20301, 4)
    expect(left.nextPieceSdDeg).toBeCloseTo(0.36224, 4)
  })
  it('change nothing before the first', () => {
    expect(afterTrialPieces({ sdDeg: 0.7, pieceSdDeg: 0.3, pieceCount: 0 }).setUpSdDeg).toBeCloseTo(0.7, 12)
  })
  it('are refused without a spread of the pieces', () => {
    expect(() => afterTrialPieces({ sdDeg: 0.7, pieceSdDeg: 0, pieceCount: 2 })).toThrow(RangeError)
  })
})
