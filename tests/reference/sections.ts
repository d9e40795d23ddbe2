import { sectionProperties, type Tube } from '@/lib/core/mechanics/section'
import { outsideCheck, printed, within } from '@/tests/support/outside-check'
import { rectangle, round, square } from './tubes'

const rows = (
  source: string,
  kind: 'published' | 'second hand',
  sections: readonly (readonly [
    name: string,
    tube: Tube,
    area: string,
    inertia: string,
    elastic: string,
    plastic: string,
  ])[],
) => {
  for (const [name, tube, area, inertia, elastic, plastic] of sections) {
    const check = (what: string, text: string, unit: string, got: () => number) =>
      // One unit in the last printed digit: the tables round walls and corners before they round the result.
      outsideCheck(
        { part: 'section', claim: `${name}: ${what}`, source, kind, ...printed(text, 2), unit },
        got,
      )
    check('area', area, 'cm²', () => sectionProperties(tube).areaMm2 / 100)
    check('second moment', inertia, 'cm⁴', () => sectionProperties(tube).inertiaMm4 / 1e4)
    check('elastic modulus', elastic, 'cm³', () => sectionProperties(tube).elasticModulusMm3 / 1e3)
    check('plastic modulus', plastic, 'cm³', () => sectionProperties(tube).plasticModulusMm3 / 1e3)
  }
}

/** Cold formed, outside corner 2 t up to 6 mm. Read in an open structural-shapes library that copies the standard's tables. */
export function sectionChecks(): void {
  rows('EN 10219-2:2006, tables of cold formed hollow sections', 'second hand', [
    ['SHS 30x30x2.5', square(30, 2.5, 5), '2.59', '3.16', '2.10', '2.61'],
    ['SHS 40x40x3', square(40, 3, 6), '4.21', '9.32', '4.66', '5.72'],
    ['SHS 50x50x3', square(50, 3, 6), '5.41', '19.47', '7.79', '9.39'],
    ['SHS 80x80x4', square(80, 4, 8), '11.75', '111.04', '27.76', '33.07'],
    ['RHS 40x20x2 the hard way', rectangle(20, 40, 2, 4), '2.14', '4.05', '2.02', '2.61'],
    ['RHS 60x40x3 the easy way', rectangle(60, 40, 3, 6), '5.41', '13.44', '6.72', '7.94'],
    ['RHS 80x40x4 the hard way', rectangle(40, 80, 4, 8), '8.55', '64.79', '16.20', '20.91'],
    ['CHS 33.7x3', round(33.7, 3), '2.89', '3.44', '2.04', '2.84'],
    ['CHS 48.3x3', round(48.3, 3), '4.27', '11.00', '4.55', '6.17'],
  ])
  // Design wall 0.93 of the nominal, outside corner 2 t; inches. AISC rounds the wall to three digits: half a percent.
  for (const [name, tube, area, inertia, elastic, plastic] of [
    ['HSS2x2x1/8', square(2, 0.116, 0.232), 0.84, 0.486, 0.486, 0.584],
    ['HSS2x2x1/4', square(2, 0.233, 0.466), 1.51, 0.747, 0.747, 0.964],
    ['HSS3x3x1/4', square(3, 0.233, 0.466), 2.44, 3.02, 2.01, 2.48],
    ['HSS2.375x0.154', round(2.375, 0.143), 1, 0.627, 0.528, 0.713],
  ] as const) {
    const source = 'AISC Shapes Database v15.0'
    const check = (what: string, expected: number, unit: string, got: () => number) =>
      outsideCheck(
        {
          part: 'section',
          claim: `${name}: ${what}`,
          source,
          kind: 'second hand',
          ...within(expected, 0.5),
          unit,
        },
        got,
      )
    check('A', area, 'in²', () => sectionProperties(tube).areaMm2)
    check('I', inertia, 'in⁴', () => sectionProperties(tube).inertiaMm4)
    check('S', elastic, 'in³', () => sectionProperties(tube).elasticModulusMm3)
    check('Z', plastic, 'in³', () => sectionProperties(tube).plasticModulusMm3)
  }

  const tube = rectangle(1, 2, 0.065)
  const mechanical = {
    part: 'section',
    source: 'A distributor’s mechanical tubing table',
    kind: 'published',
  } as const
  outsideCheck(
    { ...mechanical, claim: '1 x 2 x 0.065 in: area', ...printed('0.3731'), unit: 'in²' },
    () => sectionProperties(tube).areaMm2,
  )
  outsideCheck(
    { ...mechanical, claim: '1 x 2 x 0.065 in: I', ...printed('0.1926'), unit: 'in⁴' },
    () => sectionProperties(tube).inertiaMm4,
  )
  outsideCheck(
    { ...mechanical, claim: '2 x 1 x 0.065 in: I', ...printed('0.0640', 2), unit: 'in⁴' },
    () => sectionProperties(rectangle(2, 1, 0.065)).inertiaMm4,
  )

  const factor = (shape: Tube) => {
    const { plasticModulusMm3, elasticModulusMm3 } = sectionProperties(shape)
    return plasticModulusMm3 / elasticModulusMm3
  }
  const shapeFactor = {
    part: 'section',
    source: 'Shape factors of plastic design texts',
    kind: 'closed form',
    unit: '',
  } as const
  for (const [claim, shape, expected] of [
    ['Thin square tube: 9/8', square(100, 0.001), 9 / 8],
    ['Thin round tube: 4/π', round(100, 0.001), 4 / Math.PI],
    ['Nearly solid square bar: 3/2', square(100, 49.9), 1.5],
    ['Nearly solid round bar: 16/(3π)', round(100, 49.9), 16 / (3 * Math.PI)],
  ] as const)
    outsideCheck({ ...shapeFactor, claim, expected: Number(expected.toFixed(6)), tolerance: 1e-4 }, () =>
      factor(shape),
    )
}
