import { describe, expect, it } from 'vitest'
import { newPartForm, type PartTyped } from '@/lib/records/part/schema'
import { davitArm, inches, millimetres, parsedArm } from './typed-part'

/** First message of each field that is refused. */
function refusals(
  typed: PartTyped,
  units: typeof inches | typeof millimetres = inches,
): Record<string, string> {
  const parsed = newPartForm(units).safeParse(typed)
  if (parsed.success) return {}
  return Object.fromEntries(
    parsed.error.issues.map(({ path, message }) => [path.join('.'), message] as const).reverse(),
  )
}

describe('a part as it is typed', () => {
  it('reads fractions, feet, gauges and degrees with minutes', () => {
    // 1 in = 25.4 mm exactly: 1.5 x 25.4 = 38.1, 12.25 x 25.4 = 311.15, 14.5 x 25.4 = 368.3, 2.375 x 25.4 = 60.325.
    // 11 gauge is 0.120 in: Birmingham wire gauge, ASTM A513 Table 4 (from memory).
    const part = parsedArm(1)
    expect(part).toMatchObject({ widthMm: 38.1, heightMm: 38.1, straightAfterMm: 368.3 })
    expect(part.wallMm).toBeCloseTo(3.048, 9)
    expect(part.bends).toEqual([
      { straightBeforeMm: 311.15, angleDeg: 32, centrelineRadiusMm: 406.4, rotationDeg: 0 },
      { straightBeforeMm: 254, angleDeg: 20.5, centrelineRadiusMm: 406.4, rotationDeg: -90 },
    ])
  })

  it('means the same length whether typed in inches or millimetres', () => {
    const typed = davitArm(1, { widthMm: '38.1 mm', straightAfterMm: '368.3 mm' })
    expect(newPartForm(inches).parse(typed)).toEqual(parsedArm(1))
  })

  it('reads a bare number in the unit of the shop', () => {
    const [bend] = davitArm(1).bends
    if (!bend) throw new Error('the arm has a bend')
    const typed = davitArm(1, { bends: [{ ...bend, centrelineRadiusMm: '50' }] })
    expect(newPartForm(millimetres).parse(typed).bends[0]?.centrelineRadiusMm).toBe(50)
    expect(newPartForm(inches).parse(typed).bends[0]?.centrelineRadiusMm).toBe(1270)
  })

  it('keeps of an end cut only what its kind has, a saddle at a right angle unless said otherwise', () => {
    const part = parsedArm(1)
    expect(part.startCut).toEqual({ kind: 'mitre', angleDeg: 22.5, rotationDeg: 90 })
    expect(part.endCut).toEqual({ kind: 'saddle', onDiameterMm: 60.325, angleDeg: 90, rotationDeg: 0 })
    const square = parsedArm(1, {
      endCut: { kind: 'square', angleDeg: 'what was typed', rotationDeg: '', onDiameterMm: '' },
    })
    expect(square.endCut).toEqual({ kind: 'square' })
  })

  it('turns percent of flattening into a share, and nothing into none', () => {
    expect(parsedArm(1).sectionToleranceFraction).toBe(0.015)
    expect(parsedArm(1, { sectionTolerancePct: '' }).sectionToleranceFraction).toBeNull()
  })
})

describe('what is refused', () => {
  it('names the field, what is allowed and what was met', () => {
    const bends = davitArm(1).bends.map((bend) => ({ ...bend, angleDeg: '181' }))
    expect(refusals(davitArm(1, { bends, widthMm: '60 in' }))).toEqual({
      widthMm: expect.stringMatching(/^Allowed: 0\.118\sin to 39\.37\sin; met: 60\sin$/u),
      'bends.0.angleDeg': 'Allowed: 0.1° to 179.9°; met: 181°',
      'bends.1.angleDeg': 'Allowed: 0.1° to 179.9°; met: 181°',
    })
  })

  it('refuses a wall of half the tube or more, at the wall', () => {
    expect(Object.keys(refusals(davitArm(1, { wallMm: '3/4' })))).toEqual(['wallMm'])
    expect(refusals(davitArm(1, { wallMm: '0.749' }))).toEqual({})
  })

  it('refuses a corner rounder than the tube', () => {
    expect(Object.keys(refusals(davitArm(1, { cornerRadiusMm: '0.76' })))).toEqual(['cornerRadiusMm'])
  })

  it('refuses a centreline inside the tube, at that bend', () => {
    const [first, second] = davitArm(1).bends
    if (!first || !second) throw new Error('the arm has two bends')
    const bends = [first, { ...second, centrelineRadiusMm: '3/4' }]
    expect(Object.keys(refusals(davitArm(1, { bends })))).toEqual(['bends.1.centrelineRadiusMm'])
  })

  it('refuses a rotation before the first bend: there is no plane yet to turn from', () => {
    const bends = davitArm(1).bends.map((bend) => ({ ...bend, rotationDeg: '10' }))
    expect(Object.keys(refusals(davitArm(1, { bends })))).toEqual(['bends.0.rotationDeg'])
  })

  it('refuses a part without a bend, and a rectangle without a height', () => {
    expect(Object.keys(refusals(davitArm(1, { bends: [] })))).toEqual(['bends'])
    expect(Object.keys(refusals(davitArm(1, { shape: 'rectangular' })))).toEqual(['heightMm'])
  })

  it('refuses an end cut at the number its kind needs', () => {
    const cut = { angleDeg: '', rotationDeg: '', onDiameterMm: '' }
    const typed = davitArm(1, {
      startCut: { ...cut, kind: 'mitre' },
      endCut: { ...cut, kind: 'saddle' },
    })
    expect(Object.keys(refusals(typed)).sort()).toEqual(['endCut.onDiameterMm', 'startCut.angleDeg'])
  })

  it('refuses control characters in notes and a gauge where no wall is', () => {
    expect(
      Object.keys(refusals(davitArm(1, { notesText: 'a\u0000b', straightAfterMm: '11 ga' }))).sort(),
    ).toEqual(['notesText', 'straightAfterMm'])
  })
})
