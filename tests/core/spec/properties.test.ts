import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { bendSpec } from '@/lib/core/spec/bend-spec'
import type { BendAnswer, SpecInput } from '@/lib/core/spec/contract'

const strap = { thicknessMm: 1.5, widthMm: 38, yieldMPa: 350 }
const plain: SpecInput = {
  tube: { shape: 'square', widthMm: 38.1, heightMm: 38.1, wallMm: 3 },
  material: {
    family: 'aluminium',
    elasticModulusMPa: 69_000,
    yieldMPa: 150,
    tensileMPa: 240,
    elongationPct: 16,
    poisson: 0.33,
    densityKgM3: 2700,
  },
  bends: [{ straightBeforeMm: 500, angleDeg: 40, centrelineRadiusMm: 260, rotationDeg: 0 }],
  straightAfterMm: 500,
  method: { support: 'hollow' },
  press: { capacityKn: 200, supportSpanMm: 440, supportNoseRadiusMm: 20 },
}

function bendOf(change: Partial<SpecInput> = {}): BendAnswer {
  const [bend] = bendSpec({ ...plain, ...change }).bends
  if (!bend) throw new Error('no bend')
  return bend
}
const withMaterial = (change: SpecInput['material']): SpecInput['material'] => ({
  ...plain.material,
  ...change,
})
const withBend = (change: Partial<SpecInput['bends'][number]>) =>
  [{ ...plain.bends[0], ...change }] as SpecInput['bends']

const strength = fc.double({ min: 60, max: 400, noNaN: true })
const setting = fc.record({
  yieldMPa: strength,
  angleDeg: fc.double({ min: 15, max: 70, noNaN: true }),
  radiusMm: fc.double({ min: 150, max: 400, noNaN: true }),
  support: fc.constantFrom('hollow' as const, 'sand' as const, 'lowMelt' as const),
  isStrapped: fc.boolean(),
})

function questionOf(asked: typeof setting extends fc.Arbitrary<infer T> ? T : never): SpecInput {
  return {
    ...plain,
    material: withMaterial({ yieldMPa: asked.yieldMPa, tensileMPa: asked.yieldMPa * 1.4 }),
    bends: withBend({ angleDeg: asked.angleDeg, centrelineRadiusMm: asked.radiusMm }),
    method: { support: asked.support, ...(asked.isStrapped && { strap }) },
    press: {
      ...plain.press,
      supportSpanMm: 2 * (asked.radiusMm + 50) * Math.sin((asked.angleDeg * Math.PI) / 360) + 220,
    },
  }
}

describe('any bend', () => {
  it('keeps its own books: springback, melt-out, arc and arms, range', () => {
    fc.assert(
      fc.property(setting, (asked) => {
        const bend = bendOf(questionOf(asked))
        expect(bend.finalAngleDeg).toBeCloseTo(asked.angleDeg, 7)
        expect(bend.springbackDeg).toBeCloseTo(bend.loadedAngleDeg - bend.finalAngleDeg, 9)
        expect(bend.meltOutSpringbackDeg).toBeCloseTo(bend.angleAtPressDeg - bend.finalAngleDeg, 9)
        expect(bend.loadedAngleDeg).toBeCloseTo(bend.wrappedAngleDeg + 2 * bend.armLoadedDeg, 9)
        expect(bend.dieSurfaceRadiusMm).toBeCloseTo(bend.loadedRadiusMm - 19.05, 9)
        expect(bend.loadedRadiusMm).toBeLessThan(bend.finalRadiusMm)
        expect(bend.outerStrain).toBeGreaterThan(0)
        expect(bend.innerStrain).toBeLessThan(0)
        expect(bend.externalMomentNmm).toBeCloseTo(
          bend.tubeMomentNmm + bend.fillerMomentNmm + bend.strapMomentNmm + bend.strapTensionN * 19.8,
          2,
        )
        for (const [key, value] of [
          ['springbackDeg', bend.springbackDeg],
          ['pressForceKn', bend.pressForceKn],
          ['dieSurfaceRadiusMm', bend.dieSurfaceRadiusMm],
        ] as const) {
          expect(bend.range?.[key].low ?? value).toBeLessThanOrEqual(value)
          expect(bend.range?.[key].high ?? value).toBeGreaterThanOrEqual(value)
        }
      }),
      { numRuns: 60 },
    )
  })

  it('of a hollow tube is at the press what it stays: nothing comes with melt-out', () => {
    expect(bendOf().meltOutSpringbackDeg).toBeCloseTo(0, 9)
  })

  it('with a strap stretches less outside and squeezes more inside', () => {
    const [free, held] = [bendOf(), bendOf({ method: { support: 'hollow', strap } })]
    expect(held.outerStrain).toBeLessThan(free.outerStrain)
    expect(held.innerStrain).toBeLessThan(free.innerStrain)
    expect(held.neutralAxisShiftMm).toBeGreaterThan(0)
  })

  it('with a strap that slides without friction takes its moment and no pull', () => {
    const slid = bendOf({ method: { support: 'hollow', strap: { ...strap, frictionCoeff: 0 } } })
    expect([slid.neutralAxisShiftMm, slid.strapTensionN]).toEqual([0, 0])
    expect(slid.strapMomentNmm).toBeGreaterThan(0)
  })

  it('needs more force filled than hollow, and flattens less', () => {
    const [hollow, filled] = [bendOf(), bendOf({ method: { support: 'lowMelt' } })]
    expect(filled.pressForceKn).toBeGreaterThan(hollow.pressForceKn)
    expect(filled.flangeSagMm).toBeLessThan(hollow.flangeSagMm ?? 0)
  })

  it('springs back and presses harder the stronger the tube', () => {
    fc.assert(
      fc.property(strength, fc.double({ min: 1.05, max: 1.5, noNaN: true }), (yieldMPa, more) => {
        const at = (value: number) =>
          bendOf({
            material: withMaterial({ yieldMPa: value, tensileMPa: value * 1.4, uniformStrain: 0.15 }),
          })
        const [weak, strong] = [at(yieldMPa), at(yieldMPa * more)]
        expect(strong.springbackDeg).toBeGreaterThan(weak.springbackDeg)
        expect(strong.pressForceKn).toBeGreaterThan(weak.pressForceKn)
        expect(strong.dieSurfaceRadiusMm).toBeLessThan(weak.dieSurfaceRadiusMm)
      }),
      { numRuns: 30 },
    )
  })

  it('is the same to any scale: lengths, areas and forces grow as they must', () => {
    fc.assert(
      fc.property(setting, fc.double({ min: 0.3, max: 4, noNaN: true }), (asked, size) => {
        const question = questionOf(asked)
        const grown: SpecInput = {
          ...question,
          tube: { ...question.tube, widthMm: 38.1 * size, heightMm: 38.1 * size, wallMm: 3 * size },
          bends: question.bends.map((bend) => ({
            ...bend,
            straightBeforeMm: bend.straightBeforeMm * size,
            centrelineRadiusMm: bend.centrelineRadiusMm * size,
          })),
          straightAfterMm: question.straightAfterMm * size,
          method: {
            ...question.method,
            ...(question.method.strap && {
              strap: { ...strap, thicknessMm: 1.5 * size, widthMm: 38 * size },
            }),
          },
          press: {
            ...question.press,
            supportSpanMm: question.press.supportSpanMm * size,
            supportNoseRadiusMm: 20 * size,
          },
        }
        const [one, other] = [bendOf(question), bendOf(grown)]
        expect(other.loadedAngleDeg).toBeCloseTo(one.loadedAngleDeg, 6)
        expect(other.angleAtPressDeg).toBeCloseTo(one.angleAtPressDeg, 6)
        expect(other.pressForceKn / one.pressForceKn / size ** 2).toBeCloseTo(1, 6)
        expect(other.ramTravelMm / one.ramTravelMm / size).toBeCloseTo(1, 6)
        expect(other.tubeMomentNmm / one.tubeMomentNmm / size ** 3).toBeCloseTo(1, 6)
      }),
      { numRuns: 40 },
    )
  })
})

describe('a given die', () => {
  it('that is the right one moves the part’s end by nothing', () => {
    const right = bendOf()
    const again = bendOf({ die: { surfaceRadiusMm: right.dieSurfaceRadiusMm } })
    expect(again.finalAngleDeg).toBeCloseTo(40, 6)
    expect(again.finalRadiusMm).toBeCloseTo(260, 4)
    expect(again.endShiftMm).toBeLessThan(1e-3)
  })

  it('keeps the wrapped arc as long as on the right one, less what the arms keep', () => {
    const bend = bendOf({ die: { surfaceRadiusMm: 200 } })
    const arcMm = (bend.wrappedAngleDeg * bend.loadedRadiusMm * Math.PI) / 180
    expect(arcMm).toBeCloseTo(((40 - 2 * bend.armKeptDeg) * 260 * Math.PI) / 180, 6)
  })
})

describe('a part of several bends', () => {
  const bends = [90, 45, 90].map((angleDeg, index) => ({
    straightBeforeMm: 600,
    angleDeg,
    centrelineRadiusMm: 100,
    rotationDeg: index === 0 ? 0 : 90,
  }))
  const long = { ...plain, bends, straightAfterMm: 600 }

  it('is as long as its centreline where no strap squeezes anything out', () => {
    const answer = bendSpec(long)
    // 4 · 600 + 100 · (225 degrees) = 2400 + 392.699
    expect(answer.developedLengthMm).toBeCloseTo(2792.699, 3)
  })

  it('is cut longer by what its ends lack of the free length and one height', () => {
    const answer = bendSpec({ ...long, straightAfterMm: 20 })
    const free = answer.bends[2]?.freeLengthMm ?? 0
    expect(answer.cutLengthMm - answer.developedLengthMm).toBeCloseTo(
      Math.max(free + 38.1 - 600, 0) + free + 38.1 - 20,
      6,
    )
  })

  it('takes a filler that fills its bore', () => {
    const answer = bendSpec({ ...long, method: { support: 'lowMelt' } })
    // Bore 32.1 mm square.
    expect(answer.filler?.volumeMm3).toBeCloseTo(32.1 ** 2 * answer.cutLengthMm, 3)
  })

  it('bends alike where alike is asked', () => {
    const [first, , third] = bendSpec(long).bends
    expect(third).toEqual(first)
  })

  it('warns of a straight that puts a support on a bent part', () => {
    const near = bendSpec({
      ...long,
      bends: bends.map((bend, index) => ({ ...bend, straightBeforeMm: index === 1 ? 30 : 600 })),
    })
    expect(near.warnings.join()).toMatch(/between bends 1 and 2/)
  })
})
