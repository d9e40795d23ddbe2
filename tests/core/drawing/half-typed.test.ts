import { describe, expect, it } from 'vitest'
import { drawablePart, type TypedPart } from '@/lib/core/drawing/part'

const bend = { straightBeforeMm: 100, angleDeg: 30, centrelineRadiusMm: 60, rotationDeg: 15 }
const typed = (change: Partial<TypedPart> = {}): TypedPart => ({
  tube: { shape: 'rectangular', widthMm: 30, heightMm: 40, wallMm: 2, cornerRadiusMm: 3 },
  bends: [bend],
  straightAfterMm: 50,
  ...change,
})
const tubeOf = (tube: Partial<TypedPart['tube']>) =>
  drawablePart(typed({ tube: { shape: 'rectangular', ...tube } })).part?.tube

describe('a part with all its numbers', () => {
  it('is drawn as typed, with nothing missing', () => {
    const cuts = {
      startCut: { kind: 'mitre', angleDeg: 45 },
      endCut: { kind: 'saddle', onDiameterMm: 60 },
    } as const
    expect(drawablePart(typed(cuts))).toEqual({
      part: {
        tube: { shape: 'rectangular', widthMm: 30, heightMm: 40, wallMm: 2, cornerRadiusMm: 3 },
        bends: [bend],
        straightAfterMm: 50,
        ...cuts,
      },
      missing: [],
    })
  })

  it('takes a missing turn of the bend plane for none', () => {
    const { rotationDeg: _, ...unturned } = bend
    expect(drawablePart(typed({ bends: [unturned] })).part?.bends[0]?.rotationDeg).toBe(0)
    expect(drawablePart(typed({ bends: [{ ...bend, rotationDeg: null }] })).part?.bends[0]?.rotationDeg).toBe(
      0,
    )
  })

  it('may have straights of no length', () => {
    const bends = [{ ...bend, straightBeforeMm: 0 }]
    expect(drawablePart(typed({ bends, straightAfterMm: 0 }))).toMatchObject({
      part: { bends, straightAfterMm: 0 },
      missing: [],
    })
  })
})

describe('a bend that cannot be drawn', () => {
  const second = (change: object) => drawablePart(typed({ bends: [bend, { ...bend, ...change }] }))

  it.each([
    { fault: 'angle', change: { angleDeg: 0 } },
    { fault: 'angle', change: { angleDeg: 180 } },
    { fault: 'angle', change: { angleDeg: null } },
    { fault: 'angle', change: { angleDeg: Number.NaN } },
    { fault: 'angle', change: { angleDeg: -20, centrelineRadiusMm: 0, rotationDeg: Number.NaN } },
    // Half of 40 in the plane of the bend.
    { fault: 'radius', change: { centrelineRadiusMm: 20 } },
    { fault: 'radius', change: { centrelineRadiusMm: null, rotationDeg: Number.NaN } },
    { fault: 'radius', change: { centrelineRadiusMm: 1.1e7 } },
    { fault: 'rotation', change: { rotationDeg: Number.NaN } },
    { fault: 'rotation', change: { rotationDeg: Number.POSITIVE_INFINITY } },
  ])('for its $fault ends the part at the straight before it: $change', ({ fault, change }) => {
    const { part, missing } = second({ ...change, straightBeforeMm: 70 })
    expect(part?.bends).toEqual([bend])
    expect(part?.straightAfterMm).toBe(70)
    expect(missing).toEqual([`bend 2 on: its ${fault} cannot be drawn`])
  })

  it.each([
    { angleDeg: 0.1 },
    { angleDeg: 179.9 },
    { centrelineRadiusMm: 20.001 },
    { centrelineRadiusMm: 1e7 },
  ])('is not one with %o', (change) => {
    expect(second(change).missing).toEqual([])
  })

  it('for its straight ends the part at the bend before it', () => {
    for (const straightBeforeMm of [null, undefined, -1, Number.NaN, 1.1e7]) {
      const { part, missing } = second({ straightBeforeMm })
      expect(part?.bends).toEqual([bend])
      expect(part?.straightAfterMm).toBe(0)
      expect(missing).toEqual(['bend 2 on: its straight is missing'])
    }
  })

  it('leaves the cut at the start and takes none for the end that is not there', () => {
    const cut = { kind: 'mitre', angleDeg: 30 } as const
    const { part } = drawablePart(typed({ startCut: cut, endCut: cut, straightAfterMm: null }))
    expect(part).toMatchObject({ startCut: cut, straightAfterMm: 0 })
    expect(part?.endCut).toBeUndefined()
    expect(drawablePart(typed({ straightAfterMm: null })).missing).toEqual(['the last straight'])
  })

  it('and nothing before it leaves nothing to draw; a straight before it is drawn', () => {
    const first = (straightBeforeMm: number) =>
      drawablePart(typed({ bends: [{ ...bend, straightBeforeMm, angleDeg: 0 }] }))
    expect(first(0)).toEqual({ part: null, missing: ['bend 1 on: its angle cannot be drawn'] })
    expect(first(25).part).toMatchObject({ bends: [], straightAfterMm: 25 })
    expect(drawablePart(typed({ bends: [], straightAfterMm: null })).part).toBeNull()
    // A bend and no straight after it is something.
    expect(drawablePart(typed({ straightAfterMm: null })).part?.bends).toHaveLength(1)
  })
})

describe('a half-typed tube', () => {
  it('is as high as wide, or as wide as high, while one of them is missing', () => {
    expect(tubeOf({ widthMm: 30 })).toMatchObject({ widthMm: 30, heightMm: 30 })
    expect(tubeOf({ heightMm: 40 })).toMatchObject({ widthMm: 40, heightMm: 40 })
    expect(tubeOf({ widthMm: 0, heightMm: 40 })).toMatchObject({ widthMm: 40, heightMm: 40 })
    expect(tubeOf({ widthMm: 30, heightMm: -1 })).toMatchObject({ widthMm: 30, heightMm: 30 })
  })

  it('without any size is not drawn', () => {
    for (const size of [{}, { widthMm: 0 }, { heightMm: null }, { widthMm: -3, heightMm: Number.NaN }])
      expect(drawablePart(typed({ tube: { shape: 'round', ...size } }))).toEqual({
        part: null,
        missing: ['the tube has no size yet'],
      })
  })

  it('has a wall only where one fits: less than half its smaller side', () => {
    const wall = (wallMm: number | null) => tubeOf({ widthMm: 30, heightMm: 40, wallMm })?.wallMm
    expect([14.9, 15, 0, -1, null, Number.NaN].map(wall)).toEqual([
      14.9,
      undefined,
      undefined,
      undefined,
      undefined,
      undefined,
    ])
  })

  it('has its corners held to half its smaller side, and sharp where none are given', () => {
    const corner = (cornerRadiusMm: number | null) => tubeOf({ widthMm: 30, heightMm: 40, cornerRadiusMm })
    expect([5, 15, 16, 0, -1, null].map((mm) => corner(mm)?.cornerRadiusMm)).toEqual([5, 15, 15, 0, 0, 0])
  })
})

describe('a cut that cannot be drawn', () => {
  const start = (startCut: TypedPart['startCut']) => drawablePart(typed({ startCut })).part?.startCut
  it('is a mitre 80 degrees from square or more, to either side', () => {
    for (const angleDeg of [80, -80, Number.NaN]) expect(start({ kind: 'mitre', angleDeg })).toBeUndefined()
    for (const angleDeg of [79.9, -79.9, 0])
      expect(start({ kind: 'mitre', angleDeg })).toEqual({ kind: 'mitre', angleDeg })
  })
  it('is a saddle on a tube without a diameter', () => {
    for (const onDiameterMm of [0, -1, Number.NaN])
      expect(start({ kind: 'saddle', onDiameterMm })).toBeUndefined()
    expect(start({ kind: 'saddle', onDiameterMm: 0.1 })).toEqual({ kind: 'saddle', onDiameterMm: 0.1 })
    expect(start({ kind: 'square' })).toEqual({ kind: 'square' })
  })
})
