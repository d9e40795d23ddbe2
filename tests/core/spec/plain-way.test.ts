import { describe, expect, it } from 'vitest'
import { hardeningExponent } from '@/lib/core/mechanics/material-curve'
import { bendSpec } from '@/lib/core/spec/bend-spec'
import type { SpecInput } from '@/lib/core/spec/contract'
import { resolveSpec } from '@/lib/core/spec/resolve'
import { type PlainBend, plainBend } from '@/tests/support/plain-bend'

const square = { shape: 'square' as const, widthMm: 38.1, heightMm: 38.1, wallMm: 3.175 }
const strap = { thicknessMm: 1.5, widthMm: 38, yieldMPa: 350 }

function question(change: Partial<SpecInput>): SpecInput {
  return {
    tube: square,
    material: { id: '6061-T4' },
    bends: [{ straightBeforeMm: 400, angleDeg: 42, centrelineRadiusMm: 220, rotationDeg: 0 }],
    straightAfterMm: 400,
    method: { support: 'hollow' },
    press: { capacityKn: 200, supportSpanMm: 420, supportNoseRadiusMm: 20 },
    ...change,
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

describe('the model worked out the plain way gives the same bend', () => {
  it.each([
    ['hollow square', question({})],
    ['hollow square in a hard temper', question({ material: { id: '6061-T6' } })],
    ['round', question({ tube: { shape: 'round', widthMm: 42.4, heightMm: 42.4, wallMm: 3.2 } })],
    [
      'rectangular the hard way, round corners',
      question({
        tube: { shape: 'rectangular', widthMm: 30, heightMm: 50, wallMm: 3.125, cornerRadiusMm: 6 },
      }),
    ],
    ['low-melt filled', question({ method: { support: 'lowMelt' } })],
    ['low-melt filled with a strap', question({ method: { support: 'lowMelt', strap } })],
    [
      'hollow round with a strap',
      question({
        tube: { shape: 'round', widthMm: 42.4, heightMm: 42.4, wallMm: 3.2 },
        method: { support: 'hollow', strap },
      }),
    ],
  ])(
    '%s',
    (_, input) => {
      const [fast] = bendSpec(input).bends
      // 200 strips of the outside and as many of the bore: a part in a thousand, 0.02 degrees.
      const plain = plainBend(plainly(input), 200, 40, 11)
      if (!fast) throw new Error('no bend')
      expect(Math.abs(fast.loadedRadiusMm / plain.loadedRadiusMm - 1)).toBeLessThan(2e-4)
      expect(Math.abs(fast.wrappedAngleDeg - plain.wrappedAngleDeg)).toBeLessThan(0.02)
      expect(Math.abs(fast.armKeptDeg - plain.armKeptDeg)).toBeLessThan(0.02)
      expect(Math.abs(fast.armLoadedDeg - plain.armLoadedDeg)).toBeLessThan(0.02)
      expect(Math.abs(fast.externalMomentNmm / plain.externalMomentNmm - 1)).toBeLessThan(1e-3)
      expect(Math.abs(fast.pressForceKn / plain.pressForceKn - 1)).toBeLessThan(1e-3)
      expect(Math.abs(fast.neutralAxisShiftMm - plain.neutralAxisShiftMm)).toBeLessThan(5e-3)
    },
    120_000,
  )
})
