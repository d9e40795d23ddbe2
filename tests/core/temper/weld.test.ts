import { describe, expect, it } from 'vitest'
import { alloyById, alloys } from '@/lib/core/materials/alloys'
import { weldStrength } from '@/lib/core/temper/weld'

function weldOf(id: string, wallMm?: number) {
  const alloy = alloyById(id)
  if (!alloy) throw new RangeError(id)
  return weldStrength(alloy, wallMm)
}

describe('strength beside a weld', () => {
  it.each([
    // EN 1999-1-1 Table 3.2b: yield and tensile of the heat-affected zone, MPa.
    ['6061-T4', 95, 150],
    ['6061-T6', 115, 175],
    ['6063-T5', 60, 100],
    ['6063-T6', 65, 110],
    ['6005A-T61', 115, 165],
    ['6082-T6', 125, 185],
  ])('of %s is %d/%d MPa', (id, yieldMPa, tensileMPa) => {
    expect(weldOf(id)).toMatchObject({ weldable: true, yieldMPa, tensileMPa })
  })
  it('keeps the factors EN 1999-1-1 prints for 6061-T6, 0.48 of 240 and 0.67 of 260 MPa', () => {
    const weld = weldOf('6061-T6')
    if (!weld.weldable) throw new RangeError('6061 welds')
    expect(weld.yieldMPa / 240).toBeCloseTo(0.48, 2)
    expect(weld.tensileMPa / 260).toBeCloseTo(0.67, 2)
  })
  it('reaches 25 mm, or three walls where that is more (Aluminum Association)', () => {
    expect(weldOf('6061-T6', 3)).toMatchObject({ extentMm: 25 })
    expect(weldOf('6061-T6', 10)).toMatchObject({ extentMm: 30 })
  })
  it('refuses 2024, and aluminium nobody has a welded strength for', () => {
    expect(weldOf('2024-T3')).toMatchObject({ weldable: false })
    expect(
      weldStrength({ id: '', family: 'aluminium', temper: 'T6', yieldMPa: 300, tensileMPa: 350 }),
    ).toMatchObject({ weldable: false })
  })
  it('never makes the tube stronger than its lowest specified strength', () => {
    for (const alloy of alloys) {
      const weld = weldStrength(alloy)
      if (!weld.weldable) continue
      expect(weld.yieldMPa, alloy.id).toBeLessThanOrEqual(alloy.minimumYieldMPa ?? alloy.yieldMPa)
      expect(weld.tensileMPa, alloy.id).toBeLessThanOrEqual(alloy.minimumTensileMPa ?? alloy.tensileMPa)
    }
  })
})
