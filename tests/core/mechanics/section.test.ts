import { describe, expect, it } from 'vitest'
import { sectionProperties, type Tube } from '@/lib/core/mechanics/section'

const square = (sideMm: number, wallMm: number, cornerRadiusMm: number): Tube => ({
  shape: 'square',
  widthMm: sideMm,
  heightMm: sideMm,
  wallMm,
  cornerRadiusMm,
})
const rectangle = (widthMm: number, heightMm: number, wallMm: number, cornerRadiusMm: number): Tube => ({
  shape: 'rectangular',
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
  cornerRadiusMm: diameterMm / 2,
})

/** Half a unit in the table's last printed digit, as a share, but at least half a percent: the table rounds. */
function expectTable(value: number, printed: number) {
  expect(Math.abs(value - printed) / printed).toBeLessThan(0.005)
}

describe('section properties against published tables', () => {
  // EN 10219-2:2006 tables of cold formed hollow sections, outside corner 2 t: A cm2, I cm4, Wel cm3, Wpl cm3.
  it.each([
    ['SHS 30x30x2.5', square(30, 2.5, 5), 2.59, 3.16, 2.1, 2.61],
    ['SHS 40x40x2', square(40, 2, 4), 2.94, 6.94, 3.47, 4.13],
    ['SHS 40x40x3', square(40, 3, 6), 4.21, 9.32, 4.66, 5.72],
    ['SHS 40x40x4', square(40, 4, 8), 5.35, 11.07, 5.54, 7.01],
    ['SHS 50x50x3', square(50, 3, 6), 5.41, 19.47, 7.79, 9.39],
    ['SHS 80x80x4', square(80, 4, 8), 11.75, 111.04, 27.76, 33.07],
    ['RHS 40x20x2 the hard way', rectangle(20, 40, 2, 4), 2.14, 4.05, 2.02, 2.61],
    ['RHS 40x20x2 the easy way', rectangle(40, 20, 2, 4), 2.14, 1.34, 1.34, 1.6],
    ['RHS 60x40x3 the hard way', rectangle(40, 60, 3, 6), 5.41, 25.38, 8.46, 10.53],
    ['RHS 60x40x3 the easy way', rectangle(60, 40, 3, 6), 5.41, 13.44, 6.72, 7.94],
    ['RHS 60x40x4 the hard way', rectangle(40, 60, 4, 8), 6.95, 30.99, 10.33, 13.16],
    ['RHS 80x40x4 the hard way', rectangle(40, 80, 4, 8), 8.55, 64.79, 16.2, 20.91],
  ] as const)('%s is as EN 10219-2 prints it', (_name, tube, areaCm2, inertiaCm4, elasticCm3, plasticCm3) => {
    const section = sectionProperties(tube)
    expectTable(section.areaMm2 / 100, areaCm2)
    expectTable(section.inertiaMm4 / 1e4, inertiaCm4)
    expectTable(section.elasticModulusMm3 / 1e3, elasticCm3)
    expectTable(section.plasticModulusMm3 / 1e3, plasticCm3)
  })

  // AISC Shapes Database v15.0, design wall 0.93 nominal, outside corner 2 t; inches.
  it.each([
    ['HSS2x2x1/8', 2, 0.116, 0.84, 0.486, 0.486, 0.584],
    ['HSS2x2x1/4', 2, 0.233, 1.51, 0.747, 0.747, 0.964],
    ['HSS3x3x1/8', 3, 0.116, 1.3, 1.78, 1.19, 1.4],
    ['HSS3x3x1/4', 3, 0.233, 2.44, 3.02, 2.01, 2.48],
  ] as const)('%s is as the AISC table prints it', (_name, side, wall, area, inertia, elastic, plastic) => {
    const section = sectionProperties(square(side * 25.4, wall * 25.4, 2 * wall * 25.4))
    expectTable(section.areaMm2 / 25.4 ** 2, area)
    expectTable(section.inertiaMm4 / 25.4 ** 4, inertia)
    expectTable(section.elasticModulusMm3 / 25.4 ** 3, elastic)
    expectTable(section.plasticModulusMm3 / 25.4 ** 3, plastic)
  })

  it('a sharp 1 x 2 x 0.065 in tube has the area and second moments of the mechanical tube table', () => {
    // Mechanical tubing table of a distributor (sharp corners): A 0.3731 in2, I 0.1926 and 0.0640 in4.
    const hard = sectionProperties(rectangle(25.4, 50.8, 1.651, 0))
    const easy = sectionProperties(rectangle(50.8, 25.4, 1.651, 0))
    expect(hard.areaMm2 / 25.4 ** 2).toBeCloseTo(0.3731, 4)
    expect(hard.inertiaMm4 / 25.4 ** 4).toBeCloseTo(0.1926, 4)
    expect(easy.inertiaMm4 / 25.4 ** 4).toBeCloseTo(0.064, 3)
  })

  // EN 10219-2:2006 circular hollow sections.
  it.each([
    ['CHS 33.7x3.0', 33.7, 3, 2.89, 3.44, 2.04, 2.84],
    ['CHS 48.3x3.0', 48.3, 3, 4.27, 11.0, 4.55, 6.17],
  ] as const)('%s is as EN 10219-2 prints it', (_name, diameter, wall, area, inertia, elastic, plastic) => {
    const section = sectionProperties(round(diameter, wall))
    expectTable(section.areaMm2 / 100, area)
    expectTable(section.inertiaMm4 / 1e4, inertia)
    expectTable(section.elasticModulusMm3 / 1e3, elastic)
    expectTable(section.plasticModulusMm3 / 1e3, plastic)
  })
})

describe('plastic shape factors', () => {
  it('a thin square tube tends to 9/8', () => {
    // From memory; the limit of Z/S for t -> 0 of a thin box, by hand: (3/2) (1/4 + 1/2) ... = 9/8.
    const section = sectionProperties(square(100, 0.01, 0))
    expect(section.plasticModulusMm3 / section.elasticModulusMm3).toBeCloseTo(9 / 8, 3)
  })

  it('a thin round tube tends to 4/pi', () => {
    // Any text on plastic design: 1.27.
    const section = sectionProperties(round(100, 0.01))
    expect(section.plasticModulusMm3 / section.elasticModulusMm3).toBeCloseTo(4 / Math.PI, 3)
  })

  it('a nearly solid round bar tends to 16/(3 pi)', () => {
    // Any text on plastic design: 1.7.
    const section = sectionProperties(round(100, 49.99))
    expect(section.plasticModulusMm3 / section.elasticModulusMm3).toBeCloseTo(16 / (3 * Math.PI), 3)
  })

  it('the bore is what the tube leaves of its outline', () => {
    const tube = square(50, 3, 6)
    const section = sectionProperties(tube)
    // Outline less bore, by hand: 2500 - (4 - pi) 36 = 2469.10 mm2.
    expect(section.areaMm2 + section.boreAreaMm2).toBeCloseTo(2469.1, 1)
  })
})
