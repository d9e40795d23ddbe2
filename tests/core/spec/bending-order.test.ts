import { describe, expect, it } from 'vitest'
import { bendSpec } from '@/lib/core/spec/bend-spec'
import { bendingOrder } from '@/lib/core/spec/bending-order'
import type { SpecBend, SpecInput } from '@/lib/core/spec/contract'

const part = (bends: SpecBend[], straightAfterMm = 600): SpecInput => ({
  tube: { shape: 'square', widthMm: 30, heightMm: 30, wallMm: 3 },
  material: { id: '6061-T4' },
  bends,
  straightAfterMm,
  method: { support: 'hollow' },
  press: { capacityKn: 200, supportSpanMm: 360, supportNoseRadiusMm: 15 },
})
const bend = (straightBeforeMm: number, angleDeg: number, rotationDeg = 0): SpecBend => ({
  straightBeforeMm,
  angleDeg,
  centrelineRadiusMm: 150,
  rotationDeg,
})
const order = (input: SpecInput, around = {}) => bendingOrder(input, bendSpec(input), around)

describe('the order of bending', () => {
  it('goes from one end to the other where nothing is in the way', () => {
    const found = order(part([bend(600, 30), bend(600, 40), bend(600, 30)]))
    expect(found.clear).toBe(true)
    expect(found.steps.map(({ bendIndex }) => bendIndex)).toEqual([0, 1, 2])
  })

  it('names the straight that is too short for a support, whichever bend is first', () => {
    const found = order(part([bend(600, 30), bend(40, 40)]))
    expect(found.clear).toBe(false)
    expect(found.steps[0]?.conflicts).toEqual([])
    expect(found.steps[1]?.conflicts[0]?.kind).toBe('grip')
  })

  it('makes the bend that needs more straight first', () => {
    // At one span the smaller angle leaves the longer free length (statics of section 5: s falls as the angle grows).
    const input = part([bend(600, 80), bend(0, 20)])
    const answer = bendSpec(input)
    const [steep, shallow] = answer.bends.map(({ freeLengthMm }) => freeLengthMm + 30)
    const between = ((steep ?? 0) + (shallow ?? 0)) / 2
    expect(shallow).toBeGreaterThan(steep ?? 0)
    const found = order(part([bend(600, 80), bend(between, 20)]))
    expect(found.clear).toBe(true)
    expect(found.steps.map(({ bendIndex }) => bendIndex)).toEqual([1, 0])
  })

  it('keeps a leg that was bent before out of the table', () => {
    // Made first, the 90 degree bend hangs its 600 mm leg under the table while the other is made; made second, the 200 mm end
    // of the other hangs 150 (1 - cos 30) + 200 sin 30 = 120 mm down.
    const input = part([bend(600, 90), bend(500, 30, 180)], 200)
    const found = order(input, { tableBelowMm: 200 })
    expect(found.clear).toBe(true)
    expect(found.steps.map(({ bendIndex }) => bendIndex)).toEqual([1, 0])
  })

  it('says how far the tube would sink into a table that is too near', () => {
    const input = part([bend(600, 60)])
    const answer = bendSpec(input)
    const travelMm = answer.bends[0]?.ramTravelMm ?? 0
    const found = bendingOrder(input, answer, { tableBelowMm: travelMm - 10 })
    expect(found.steps[0]?.conflicts[0]?.kind).toBe('table')
    expect(found.steps[0]?.conflicts[0]?.byMm).toBeCloseTo(10, 6)
  })

  it('keeps a leg that stands out sideways off the columns', () => {
    const input = part([bend(600, 90), bend(500, 30, 90)], 200)
    const found = order(input, { columnHalfGapMm: 250, columnHalfDepthMm: 5000 })
    expect(found.steps.map(({ bendIndex }) => bendIndex)).toEqual([1, 0])
  })

  it('counts half the larger side of the tube against a column', () => {
    // A straight run lies in the middle of the press: half of 50 mm reaches 25 mm, and a gap of 20 lacks 5.
    const tall: SpecInput = {
      ...part([bend(600, 20)]),
      tube: { shape: 'rectangular', widthMm: 25, heightMm: 50, wallMm: 3 },
    }
    const [step] = order(tall, { columnHalfGapMm: 20 }).steps
    expect(step?.conflicts).toEqual([expect.objectContaining({ kind: 'column', byMm: expect.closeTo(5, 6) })])
    expect(order(tall, { columnHalfGapMm: 25.1 }).clear).toBe(true)
  })

  it('says that a part meets itself', () => {
    expect(order(part([bend(600, 120), bend(100, 120)], 900)).self.verdict).toBe('touches')
  })

  it('weighs more bends than it can try in full', () => {
    const found = order(part(Array.from({ length: 10 }, (_, index) => bend(index === 5 ? 60 : 400, 20))))
    expect(found.steps.map(({ bendIndex }) => bendIndex).toSorted((a, b) => a - b)).toEqual([
      0, 1, 2, 3, 4, 5, 6, 7, 8, 9,
    ])
    expect(found.clear).toBe(false)
  })
})
