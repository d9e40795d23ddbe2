import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { sectionProperties, type Tube } from '@/lib/core/mechanics/section'

const hollow = (widthMm: number, heightMm: number, wallMm: number, cornerRadiusMm: number): Tube => ({
  shape: widthMm === heightMm ? 'square' : 'rectangular',
  widthMm,
  heightMm,
  wallMm,
  cornerRadiusMm,
})
const size = fc.double({ min: 20, max: 120, noNaN: true })
const anyTube = fc
  .tuple(
    size,
    size,
    fc.double({ min: 0.02, max: 0.45, noNaN: true }),
    fc.double({ min: 0, max: 0.5, noNaN: true }),
  )
  .map(([widthMm, heightMm, wall, corner]) => {
    const smaller = Math.min(widthMm, heightMm)
    return hollow(widthMm, heightMm, wall * smaller, corner * smaller)
  })

describe('any section', () => {
  it('scales with the square, third and fourth power of its size', () => {
    fc.assert(
      fc.property(anyTube, fc.double({ min: 0.1, max: 30, noNaN: true }), (tube, factor) => {
        const found = sectionProperties(tube)
        const grown = sectionProperties({
          ...tube,
          widthMm: tube.widthMm * factor,
          heightMm: tube.heightMm * factor,
          wallMm: tube.wallMm * factor,
          cornerRadiusMm: tube.cornerRadiusMm * factor,
        })
        expect(grown.areaMm2 / found.areaMm2 / factor ** 2).toBeCloseTo(1, 9)
        expect(grown.plasticModulusMm3 / found.plasticModulusMm3 / factor ** 3).toBeCloseTo(1, 9)
        expect(grown.inertiaMm4 / found.inertiaMm4 / factor ** 4).toBeCloseTo(1, 9)
      }),
    )
  })

  it('has a plastic modulus of 1 to 1.698 elastic ones (a solid circle has the most)', () => {
    fc.assert(
      fc.property(anyTube, (tube) => {
        const { plasticModulusMm3, elasticModulusMm3 } = sectionProperties(tube)
        expect(plasticModulusMm3 / elasticModulusMm3).toBeGreaterThan(1)
        expect(plasticModulusMm3 / elasticModulusMm3).toBeLessThan(1.6977)
      }),
    )
  })

  it('agrees with thin strips of its own outline', () => {
    // An independent route: 60 000 strips of a 60 x 40 x 4 tube with 9 mm corners outside, 5 mm inside.
    const tube = hollow(40, 60, 4, 9)
    const chord = (y: number, width: number, height: number, radius: number) => {
      const into = Math.abs(y) - (height / 2 - radius)
      if (Math.abs(y) > height / 2) return 0
      return into <= 0 ? width : width - 2 * radius + 2 * Math.sqrt(radius ** 2 - into ** 2)
    }
    const count = 60_000
    let [area, inertia, plastic] = [0, 0, 0]
    for (let index = 0; index < count; index++) {
      const y = -30 + (60 * (index + 0.5)) / count
      const strip = ((chord(y, 40, 60, 9) - chord(y, 32, 52, 5)) * 60) / count
      area += strip
      inertia += strip * y ** 2
      plastic += strip * Math.abs(y)
    }
    const found = sectionProperties(tube)
    expect(found.areaMm2 / area).toBeCloseTo(1, 5)
    expect(found.inertiaMm4 / inertia).toBeCloseTo(1, 5)
    expect(found.plasticModulusMm3 / plastic).toBeCloseTo(1, 5)
  })
})
