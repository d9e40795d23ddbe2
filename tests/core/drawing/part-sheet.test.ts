import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { lengthText, roundLengthMm } from '@/lib/core/drawing/length-text'
import { drawablePart } from '@/lib/core/drawing/part'
import { partSheet } from '@/lib/core/drawing/part-sheet'
import { bestPlace, overlapPx } from '@/lib/core/drawing/placing'

const options = { widthPx: 900, mostHeightPx: 400, sizePx: 14, units: 'mm', arrangement: 'wide' } as const
const tube = { shape: 'square', widthMm: 38.1, heightMm: 38.1, wallMm: 3 } as const

describe('the sheet', () => {
  it('gives every straight and bend its number exactly once', () => {
    const sheet = partSheet(
      {
        tube,
        bends: [
          { straightBeforeMm: 420, angleDeg: 32, centrelineRadiusMm: 228.6, rotationDeg: 0 },
          { straightBeforeMm: 310, angleDeg: 55, centrelineRadiusMm: 200, rotationDeg: 90 },
        ],
        straightAfterMm: 260,
      },
      options,
    )
    const texts = sheet.views.flatMap((view) =>
      view.inks.flatMap((ink) => (ink.kind === 'text' ? [ink.text] : [])),
    )
    for (const wanted of ['420', '310', '260', '32°', '55°', 'R 228.6', 'R 200', 'turned 90°']) {
      expect(texts.filter((text) => text === wanted)).toHaveLength(1)
    }
  })

  it('a flat part needs one view only', () => {
    const bends = [{ straightBeforeMm: 100, angleDeg: 45, centrelineRadiusMm: 200, rotationDeg: 0 }]
    expect(partSheet({ tube, bends, straightAfterMm: 100 }, options).views.map((view) => view.name)).toEqual([
      'elevation',
    ])
  })

  it('has a finite size for any part that can be drawn', () => {
    const bend = fc.record({
      straightBeforeMm: fc.double({ min: 0, max: 3000, noNaN: true }),
      angleDeg: fc.double({ min: 0.5, max: 179, noNaN: true }),
      centrelineRadiusMm: fc.double({ min: 25, max: 2000, noNaN: true }),
      rotationDeg: fc.double({ min: -360, max: 360, noNaN: true }),
    })
    fc.assert(
      fc.property(fc.array(bend, { maxLength: 4 }), (bends) => {
        const sheet = partSheet({ tube, bends, straightAfterMm: 100 }, options)
        expect(sheet.widthPx).toBeLessThan(1e5)
        expect(sheet.heightPx).toBeLessThan(1e5)
      }),
      { numRuns: 40, seed: 7 },
    )
  })
})

describe('a half-typed part', () => {
  it('is drawn up to the first bend that lacks a number, and says which', () => {
    const { part, missing } = drawablePart({
      tube,
      bends: [
        { straightBeforeMm: 100, angleDeg: 30, centrelineRadiusMm: 100, rotationDeg: 0 },
        { straightBeforeMm: 50, angleDeg: Number.NaN, centrelineRadiusMm: 100, rotationDeg: 0 },
      ],
      straightAfterMm: 10,
    })
    expect(part?.bends).toHaveLength(1)
    expect(part?.straightAfterMm).toBe(50)
    expect(missing).toEqual(['bend 2 on: its angle cannot be drawn'])
  })

  it('without a size is not drawn at all', () => {
    expect(drawablePart({ tube: { shape: 'round' }, bends: [], straightAfterMm: 5 }).part).toBeNull()
  })
})

describe('lengths on a drawing', () => {
  it('are written without needless zeros, inches to a thousandth', () => {
    expect(lengthText(228.6, 'in')).toBe('9')
    expect(lengthText(38.1, 'in')).toBe('1.5')
    expect(lengthText(100, 'in')).toBe('3.937')
    expect(lengthText(420, 'mm')).toBe('420')
  })

  it('a scale bar is 1, 2 or 5 times a power of ten', () => {
    expect(roundLengthMm(137, 'mm')).toBe(100)
    expect(roundLengthMm(260, 'mm')).toBe(200)
    expect(roundLengthMm(25.4 * 7, 'in')).toBeCloseTo(25.4 * 5, 9)
  })
})

describe('placing labels', () => {
  it('takes the first free place and measures how deep a taken one is overlapped', () => {
    const taken = [{ at: [0, 0], radius: 5 }] as const
    expect(overlapPx([{ at: [6, 0], radius: 3 }], taken)).toBe(2)
    const places = [0, 20, 40].map((x) => ({ spots: [{ at: [x, 0] as const, radius: 3 }] }))
    expect(bestPlace(places, (place) => place, taken)).toBe(places[1])
  })
})
