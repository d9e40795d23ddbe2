import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { hardeningExponent } from '@/lib/core/mechanics/material-curve'
import { bendSpec } from '@/lib/core/spec/bend-spec'
import type { SpecInput } from '@/lib/core/spec/contract'
import { resolveSpec } from '@/lib/core/spec/resolve'
import { type PlainBend, plainBend, plainSection } from '@/tests/support/plain-bend'

const strap = { thicknessMm: 1.5, widthMm: 38, yieldMPa: 350 }

const asked = fc.record({
  shape: fc.constantFrom('round' as const, 'square' as const, 'rectangular' as const),
  heightMm: fc.double({ min: 30, max: 50, noNaN: true }),
  wallMm: fc.double({ min: 2, max: 4, noNaN: true }),
  corner: fc.double({ min: 0, max: 2.5, noNaN: true }),
  yieldMPa: fc.double({ min: 80, max: 300, noNaN: true }),
  hardening: fc.double({ min: 1.15, max: 1.7, noNaN: true }),
  angleDeg: fc.double({ min: 20, max: 60, noNaN: true }),
  heights: fc.double({ min: 5, max: 10, noNaN: true }),
  support: fc.constantFrom('hollow' as const, 'sand' as const, 'lowMelt' as const),
  isStrapped: fc.boolean(),
})
type Asked = typeof asked extends fc.Arbitrary<infer T> ? T : never

function questionOf(one: Asked): SpecInput {
  const radiusMm = one.heights * one.heightMm
  return {
    tube: {
      shape: one.shape,
      widthMm: one.shape === 'rectangular' ? one.heightMm * 0.8 : one.heightMm,
      heightMm: one.heightMm,
      wallMm: one.wallMm,
      ...(one.shape !== 'round' && { cornerRadiusMm: one.corner * one.wallMm }),
    },
    material: {
      family: 'aluminium',
      elasticModulusMPa: 69_000,
      yieldMPa: one.yieldMPa,
      tensileMPa: one.yieldMPa * one.hardening,
      elongationPct: 14,
      poisson: 0.33,
      densityKgM3: 2700,
    },
    bends: [{ straightBeforeMm: 500, angleDeg: one.angleDeg, centrelineRadiusMm: radiusMm, rotationDeg: 0 }],
    straightAfterMm: 500,
    method: { support: one.support, ...(one.isStrapped && { strap }) },
    press: {
      capacityKn: 300,
      supportSpanMm: 2 * (radiusMm + 60) * Math.sin((one.angleDeg * Math.PI) / 360) + 200,
      supportNoseRadiusMm: 20,
    },
  }
}

function plainly(input: SpecInput): PlainBend {
  const { tube, material, press, support, strap: held } = resolveSpec(input)
  const [bend] = input.bends
  if (!bend) throw new Error('no bend')
  return {
    shape: tube.shape === 'round' ? 'round' : 'rectangular',
    widthMm: tube.widthMm,
    heightMm: tube.heightMm,
    wallMm: tube.wallMm,
    cornerRadiusMm: tube.cornerRadiusMm,
    elasticModulusMPa: material.elasticModulusMPa,
    yieldMPa: material.yieldMPa,
    exponent: hardeningExponent(material),
    ...(support.kind === 'lowMelt' && { filler: support }),
    ...(held && { strap: held }),
    spanMm: press.supportSpanMm,
    noseRadiusMm: press.supportNoseRadiusMm,
    frictionCoeff: press.supportFrictionCoeff,
    angleRad: (bend.angleDeg * Math.PI) / 180,
    radiusMm: bend.centrelineRadiusMm,
  }
}

const close = (value: number | undefined, wanted: number, share: number, what: string) =>
  expect(Math.abs((value ?? Number.NaN) / wanted - 1), `${what}: ${value} against ${wanted}`).toBeLessThan(
    share,
  )
const closeDeg = (value: number, wanted: number, what: string) =>
  expect(Math.abs(value - wanted), `${what}: ${value} against ${wanted}`).toBeLessThan(0.04)

describe('every number of a bend', () => {
  it('is what thin strips, bisection and the model’s formulas give, round and rectangular, filled and strapped', () => {
    fc.assert(
      fc.property(asked, (one) => {
        const input = questionOf(one)
        const answer = bendSpec(input)
        const [fast] = answer.bends
        if (!fast) throw new Error('no bend')
        const given = plainly(input)
        const plain = plainBend(given, 140, 30, 9)
        close(fast.loadedRadiusMm, plain.loadedRadiusMm, 4e-4, 'loaded radius')
        close(fast.externalMomentNmm, plain.externalMomentNmm, 3e-3, 'moment')
        close(fast.pressForceKn, plain.pressForceKn, 3e-3, 'force')
        close(fast.freeLengthMm, plain.freeLengthMm, 1e-3, 'free length')
        close(fast.ramTravelMm, plain.ramTravelMm, 1e-3, 'travel')
        closeDeg(fast.wrappedAngleDeg, plain.wrappedAngleDeg, 'wrapped')
        closeDeg(fast.loadedAngleDeg, plain.loadedAngleDeg, 'loaded')
        closeDeg(fast.angleAtPressDeg, plain.angleAtPressDeg, 'at the press')
        closeDeg(fast.finalAngleDeg, one.angleDeg, 'final')
        closeDeg(fast.springbackDeg, plain.loadedAngleDeg - one.angleDeg, 'springback')
        closeDeg(fast.meltOutSpringbackDeg, plain.angleAtPressDeg - one.angleDeg, 'melt-out')
        expect(Math.abs(fast.neutralAxisShiftMm - plain.neutralAxisShiftMm)).toBeLessThan(0.05)

        const support =
          one.support === 'sand'
            ? ({ kind: 'sand', modulusMPa: 60 } as const)
            : one.support === 'lowMelt'
              ? ({ kind: 'lowMelt', modulusMPa: 12_700, yieldMPa: 26 } as const)
              : ({ kind: 'hollow' } as const)
        // From the answer's own radius and neutral axis, so that only what comes after them is compared.
        const after = plainSection(given, {
          loadedRadiusMm: fast.loadedRadiusMm,
          neutralMm: fast.neutralAxisShiftMm,
          recovery: 1 / fast.loadedRadiusMm - 1 / fast.finalRadiusMm,
          poisson: 0.33,
          support,
        })
        const tight = 2e-4
        close(fast.outerStrain, after.outerStrain, 1e-9, 'outer strain')
        close(fast.innerStrain, after.innerStrain, 1e-9, 'inner strain')
        for (const bound of ['low', 'expected', 'high'] as const) {
          close(fast.wallOutsideMm[bound], after.wallOutsideMm[bound], tight, `outside wall ${bound}`)
          close(fast.wallInsideMm[bound], after.wallInsideMm[bound], tight, `inside wall ${bound}`)
        }
        if (one.shape === 'round') {
          close(fast.ovalityPct, after.ovalityPct ?? Number.NaN, tight, 'ovality')
          expect(fast.flangeSagMm).toBeUndefined()
          expect(fast.widthOutsideMm).toBeUndefined()
        } else {
          close(fast.flangeSagMm, after.flangeSagMm ?? Number.NaN, 2e-3, 'sag')
          close(fast.widthOutsideMm, after.widthOutsideMm, tight, 'outer width')
          close(fast.widthInsideMm, after.widthInsideMm, tight, 'inner width')
          expect(fast.ovalityPct).toBeUndefined()
        }
        if (after.fillerBearing === null) expect(fast.fillerBearing).toBeUndefined()
        else close(fast.fillerBearing, after.fillerBearing, 2e-3, 'bearing on the filler')
        const factor = one.isStrapped ? 0.9 : 0.7
        close(fast.tearUtilisation, after.outerStrain / (factor * 0.14), 1e-9, 'stretch used')
        const y = fast.neutralAxisShiftMm
        close(fast.tearRadiusMm, (one.heightMm / 2 - y) / (factor * 0.14) - y, 1e-9, 'tear radius')
        // Developed: straights, drawn arc and what the shifted axis adds over the wrapped arc.
        const drawnArc = ((input.bends[0]?.centrelineRadiusMm ?? 0) * one.angleDeg * Math.PI) / 180
        close(
          answer.developedLengthMm,
          1000 + drawnArc + (y * fast.wrappedAngleDeg * Math.PI) / 180,
          1e-9,
          'developed length',
        )
      }),
      { numRuns: 12, seed: 20260 },
    )
  }, 240_000)
})
