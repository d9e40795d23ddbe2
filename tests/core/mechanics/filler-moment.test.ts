import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { FillerMoment } from '@/lib/core/mechanics/filler-moment'
import type { Tube } from '@/lib/core/mechanics/section'

const filler = { modulusMPa: 12_700, yieldMPa: 26 }
const round: Tube = { shape: 'round', widthMm: 50, heightMm: 50, wallMm: 3, cornerRadiusMm: 25 }
const rounded: Tube = { shape: 'rectangular', widthMm: 40, heightMm: 60, wallMm: 3, cornerRadiusMm: 12 }

/** Chord of the bore at a height, by the outline alone. */
function boreChordMm(tube: Tube, y: number): number {
  const outside = tube.shape === 'round' ? tube.heightMm / 2 : tube.cornerRadiusMm
  const radius = Math.max(outside - tube.wallMm, 0)
  const into = Math.abs(y) - (tube.heightMm / 2 - tube.wallMm - radius)
  const width = tube.widthMm - 2 * tube.wallMm
  return into <= 0 ? width : width - 2 * radius + 2 * Math.sqrt(Math.max(radius ** 2 - into ** 2, 0))
}

describe('the filler in the bore', () => {
  it('reaches 16 / (3 pi) of its yield moment in a round bore bent far', () => {
    const yieldMoment = (26 * Math.PI * 44 ** 3) / 32
    expect(new FillerMoment(round, filler).at(10) / yieldMoment).toBeCloseTo(16 / (3 * Math.PI), 5)
  })

  it.each([
    ['round', round],
    ['rounded', rounded],
  ])('agrees with thin strips of a %s bore at any curvature', (_, tube) => {
    const half = tube.heightMm / 2 - tube.wallMm
    for (const ratio of [0.5, 1.05, 1.2, 2, 6, 40]) {
      const curvature = (ratio * filler.yieldMPa) / (filler.modulusMPa * half)
      const count = 60_000
      let moment = 0
      for (let index = 0; index < count; index++) {
        const y = -half + (2 * half * (index + 0.5)) / count
        const stress = Math.max(Math.min(filler.modulusMPa * curvature * y, 26), -26)
        moment += (stress * y * boreChordMm(tube, y) * 2 * half) / count
      }
      expect(new FillerMoment(tube, filler).at(curvature) / moment).toBeCloseTo(1, 5)
    }
  })

  it('gives back elastically what it can: (M_tube + M_filler) / (E I + Ef If)', () => {
    const held = new FillerMoment(rounded, filler)
    const tubeStiffness = 2e9
    expect(held.recovery(1e5, 2e4, tubeStiffness)).toBeCloseTo(1.2e5 / (tubeStiffness + held.stiffness), 12)
  })

  it('yielding backwards balances M_tube - E I x + M_filler - 2 M_f(x / 2)', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1e5, max: 5e7, noNaN: true }),
        fc.double({ min: 1e4, max: 5e5, noNaN: true }),
        (tubeMoment, fillerMoment) => {
          const held = new FillerMoment(rounded, filler)
          const x = held.recovery(tubeMoment, fillerMoment, 2e9)
          const left = tubeMoment - 2e9 * x + fillerMoment - 2 * held.at(x / 2)
          expect(Math.abs(left) / (tubeMoment + fillerMoment)).toBeLessThan(1e-9)
        },
      ),
    )
  })
})
