import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { sectionProperties, type Tube } from '@/lib/core/mechanics/section'

type Row = readonly [
  name: string,
  tube: Tube,
  areaCm2: number,
  inertiaCm4: number,
  elasticCm3: number,
  plasticCm3: number,
]

const hollow = (widthMm: number, heightMm: number, wallMm: number, cornerRadiusMm: number): Tube => ({
  shape: widthMm === heightMm ? 'square' : 'rectangular',
  widthMm,
  heightMm,
  wallMm,
  cornerRadiusMm,
})
const round = (diameterMm: number, wallMm: number): Tube => ({
  shape: 'round',
  widthMm: diameterMm,
  heightMm: diameterMm,
  wallMm,
  cornerRadiusMm: 0,
})

/** EN 10219-2:2006, cold formed: outside corner radius 2 T up to 6 mm. cm2, cm4, cm3; one unit of the last printed digit. */
const en10219: readonly Row[] = [
  ['SHS 30x30x2.5', hollow(30, 30, 2.5, 5), 2.59, 3.16, 2.1, 2.61],
  ['SHS 40x40x2', hollow(40, 40, 2, 4), 2.94, 6.94, 3.47, 4.13],
  ['SHS 40x40x3', hollow(40, 40, 3, 6), 4.21, 9.32, 4.66, 5.72],
  ['SHS 40x40x4', hollow(40, 40, 4, 8), 5.35, 11.07, 5.54, 7.01],
  ['SHS 50x50x3', hollow(50, 50, 3, 6), 5.41, 19.47, 7.79, 9.39],
  ['SHS 80x80x4', hollow(80, 80, 4, 8), 11.75, 111.04, 27.76, 33.07],
  ['RHS 40x20x2, the hard way', hollow(20, 40, 2, 4), 2.14, 4.05, 2.02, 2.61],
  ['RHS 40x20x2, the easy way', hollow(40, 20, 2, 4), 2.14, 1.34, 1.34, 1.6],
  ['RHS 60x40x3, the hard way', hollow(40, 60, 3, 6), 5.41, 25.38, 8.46, 10.53],
  ['RHS 60x40x3, the easy way', hollow(60, 40, 3, 6), 5.41, 13.44, 6.72, 7.94],
  ['RHS 60x40x4, the hard way', hollow(40, 60, 4, 8), 6.95, 30.99, 10.33, 13.16],
  ['RHS 80x40x4, the hard way', hollow(40, 80, 4, 8), 8.55, 64.79, 16.2, 20.91],
  ['CHS 33.7x3.0', round(33.7, 3), 2.89, 3.44, 2.04, 2.84],
  ['CHS 48.3x3.0', round(48.3, 3), 4.27, 11.0, 4.55, 6.17],
]

describe('section properties in EN 10219-2:2006', () => {
  it.each(en10219)('of %s', (_, tube, areaCm2, inertiaCm4, elasticCm3, plasticCm3) => {
    const found = sectionProperties(tube)
    expect(Math.abs(found.areaMm2 / 100 - areaCm2)).toBeLessThan(0.011)
    expect(Math.abs(found.inertiaMm4 / 1e4 - inertiaCm4)).toBeLessThan(0.011)
    expect(Math.abs(found.elasticModulusMm3 / 1e3 - elasticCm3)).toBeLessThan(0.011)
    expect(Math.abs(found.plasticModulusMm3 / 1e3 - plasticCm3)).toBeLessThan(0.011)
  })
})

/** AISC Shapes Database v15.0: design wall 0.93 of nominal, outside corner 2 t. Inches; within 0.5 percent. */
const aisc: readonly Row[] = [
  ['HSS2x2x1/8', hollow(2, 2, 0.116, 0.232), 0.84, 0.486, 0.486, 0.584],
  ['HSS2x2x1/4', hollow(2, 2, 0.233, 0.466), 1.51, 0.747, 0.747, 0.964],
  ['HSS3x3x1/8', hollow(3, 3, 0.116, 0.232), 1.3, 1.78, 1.19, 1.4],
  ['HSS3x3x1/4', hollow(3, 3, 0.233, 0.466), 2.44, 3.02, 2.01, 2.48],
  ['HSS10x6x3/16, the hard way', hollow(6, 10, 0.174, 0.348), 5.37, 74.6, 14.9, 18.0],
  ['HSS2.375x0.154', round(2.375, 0.143), 1.0, 0.627, 0.528, 0.713],
]

describe('section properties in the AISC Shapes Database v15.0', () => {
  it.each(aisc)('of %s', (_, tube, area, inertia, elastic, plastic) => {
    const found = sectionProperties(tube)
    expect(Math.abs(found.areaMm2 / area - 1)).toBeLessThan(0.005)
    expect(Math.abs(found.inertiaMm4 / inertia - 1)).toBeLessThan(0.005)
    expect(Math.abs(found.elasticModulusMm3 / elastic - 1)).toBeLessThan(0.005)
    expect(Math.abs(found.plasticModulusMm3 / plastic - 1)).toBeLessThan(0.005)
  })
})

describe('sharp-cornered mechanical tube', () => {
  it('1 x 2 x 0.065 in has the area and second moments of the trade table', () => {
    // Mechanical tube tables: A 0.3731 in2, I 0.1926 and 0.0640 in4.
    const hard = sectionProperties(hollow(1, 2, 0.065, 0))
    expect(hard.areaMm2).toBeCloseTo(0.3731, 4)
    expect(hard.inertiaMm4).toBeCloseTo(0.1926, 4)
    expect(sectionProperties(hollow(2, 1, 0.065, 0)).inertiaMm4).toBeCloseTo(0.064, 3)
  })
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
