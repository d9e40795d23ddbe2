import { describe, expect, it } from 'vitest'
import { type BlankPart, blankMarks } from '@/lib/core/templates/blank-marks'

/** One quarter bend between two straights; all numbers below are worked out by hand. */
const part: BlankPart = {
  tube: { shape: 'square', widthMm: 40, heightMm: 40 },
  bends: [
    {
      straightBeforeMm: 200,
      angleDeg: 90,
      centrelineRadiusMm: 100,
      neutralAxisShiftMm: 0,
      wrappedAngleDeg: 95,
    },
  ],
  straightAfterMm: 300,
  startCut: { kind: 'square' },
  endCut: { kind: 'square' },
  gripStartMm: 10,
  gripEndMm: 0,
  trimMm: 4,
  cutLengthMm: 200 + 157.0796 + 300 + 10 + 4 + 2,
  kerfMm: 2,
  countedForCutsMm: 0,
}

const at = (marks: readonly { atMm: number; label: string }[], label: string) =>
  marks.find((mark) => mark.label === label)?.atMm

describe('Marks on the blank', () => {
  it('begin after grip and half the trim; a quarter bend of 100 mm is 157.08 mm long', () => {
    // 10 + 4/2 = 12; 12 + 200 = 212; arc = pi/2 * 100 = 157.0796; middle 212 + 78.5398; end 369.0796 + 300
    const { marks } = blankMarks(part)
    expect(at(marks, 'trim line, datum end')).toBeCloseTo(12, 9)
    expect(at(marks, 'bend 1 begins')).toBeCloseTo(212, 9)
    expect(at(marks, 'bend 1 centre')).toBeCloseTo(290.5398, 4)
    expect(at(marks, 'bend 1 ends')).toBeCloseTo(369.0796, 4)
    expect(at(marks, 'trim line, far end')).toBeCloseTo(669.0796, 4)
  })

  it('count the neutral fibre over the wrapped angle: 1 mm off over 90 degrees is 1.5708 mm', () => {
    const bends = part.bends.map((bend) => ({ ...bend, neutralAxisShiftMm: 1, wrappedAngleDeg: 90 }))
    const { marks } = blankMarks({ ...part, bends })
    expect((at(marks, 'bend 1 ends') ?? 0) - 369.0796).toBeCloseTo(1.5708, 3)
  })

  it('give a 45 degree mitre the 20 mm it stands out on a 40 mm tube', () => {
    // h/2 * tan 45 = 20; 2 mm of trim is there already, so 18 mm more
    const { marks, blankLengthMm, extraForCutsMm } = blankMarks({
      ...part,
      endCut: { kind: 'mitre', angleDeg: 45 },
    })
    expect(extraForCutsMm).toBeCloseTo(18, 9)
    // The kerf of 2 mm is the saw's and not on the blank.
    expect(blankLengthMm).toBeCloseTo(part.cutLengthMm + 18 - 2, 9)
    const middle = at(marks, 'far mitre, middle') ?? 0
    expect((at(marks, 'far mitre, long side') ?? 0) - middle).toBeCloseTo(20, 9)
    expect(middle - (at(marks, 'far mitre, short side') ?? 0)).toBeCloseTo(20, 9)
  })

  it('do not count twice what the bend spec counted already', () => {
    const endCut = { kind: 'mitre', angleDeg: 45 } as const
    const { blankLengthMm } = blankMarks({
      ...part,
      endCut,
      cutLengthMm: part.cutLengthMm + 18,
      countedForCutsMm: 18,
    })
    expect(blankLengthMm).toBeCloseTo(part.cutLengthMm + 18 - 2, 9)
  })

  it('all lie on the blank', () => {
    for (const cut of [
      { kind: 'square' } as const,
      { kind: 'mitre', angleDeg: 60, rotationDeg: 30 } as const,
      { kind: 'saddle', onDiameterMm: 60 } as const,
    ]) {
      const { marks, blankLengthMm } = blankMarks({ ...part, startCut: cut, endCut: cut })
      for (const { atMm } of marks) {
        expect(atMm).toBeGreaterThanOrEqual(-1e-9)
        // The cut length above has the arc to four decimals.
        expect(atMm).toBeLessThanOrEqual(blankLengthMm + 1e-4)
      }
    }
  })

  it('add at each end only what grip and half the trim do not hold of the cut already', () => {
    // A 45 degree mitre on 40 mm stands out 20. Start: 20 - 10 - 2 = 8; end: 20 - 5 - 2 = 13.
    const mitre = { kind: 'mitre', angleDeg: 45 } as const
    const { marks, extraForCutsMm, blankLengthMm } = blankMarks({
      ...part,
      startCut: mitre,
      endCut: mitre,
      gripEndMm: 5,
    })
    expect(extraForCutsMm).toBeCloseTo(8 + 13, 9)
    expect(blankLengthMm).toBeCloseTo(part.cutLengthMm - 2 + 21, 9)
    // The part starts at 10 + 2 + 8 = 20, so that its long side is the blank's very end, and its short side 40 in.
    expect(at(marks, 'datum mitre, long side')).toBeCloseTo(0, 9)
    expect(at(marks, 'datum mitre, middle')).toBeCloseTo(20, 9)
    expect(at(marks, 'datum mitre, short side')).toBeCloseTo(40, 9)
    expect(at(marks, 'bend 1 begins')).toBeCloseTo(220, 9)
  })

  it('add nothing where grip and trim hold the cut', () => {
    const mitre = { kind: 'mitre', angleDeg: 45 } as const
    const grips = { gripStartMm: 18, gripEndMm: 30 }
    const { marks, extraForCutsMm } = blankMarks({ ...part, ...grips, startCut: mitre, endCut: mitre })
    expect(extraForCutsMm).toBe(0)
    expect(at(marks, 'datum mitre, middle')).toBeCloseTo(20, 9)
  })

  it('name the sides of a saddle by how near they are, and a short side only where it falls short', () => {
    const labels = (endCut: BlankPart['endCut']) =>
      blankMarks({ ...part, endCut })
        .marks.map(({ label }) => label)
        .filter((label) => label.startsWith('far'))
    // Square on, no point of the end lies short of the other tube's near side.
    expect(labels({ kind: 'saddle', onDiameterMm: 100 })).toEqual([
      'far saddle, long side',
      'far saddle, nearest side',
    ])
    expect(labels({ kind: 'saddle', onDiameterMm: 100, angleDeg: 60 })).toEqual([
      'far saddle, long side',
      'far saddle, nearest side',
      'far saddle, short side',
    ])
  })

  it('carry their kind, the datum first and the far end last', () => {
    expect(blankMarks(part).marks.map(({ kind }) => kind)).toEqual([
      'datum',
      'trim',
      'tangent',
      'bendCentre',
      'tangent',
      'trim',
    ])
    expect(blankMarks(part).marks[0]).toEqual({ atMm: 0, kind: 'datum', label: 'datum end' })
    const mitred = blankMarks({ ...part, bends: [], startCut: { kind: 'mitre', angleDeg: 10 } }).marks
    expect(mitred.map(({ kind }) => kind)).toEqual(['datum', 'mitre', 'mitre', 'mitre', 'trim'])
  })

  it('go on from bend to bend by straights and neutral fibres', () => {
    // 12 + 200 = 212; a half-radian of R 100 is 50: 262; then 80 on, 342; 60 degrees of R 30 is 31.4159: 373.4159; 300 on.
    const [first] = part.bends
    if (!first) throw new Error('no bend')
    const bends = [
      { ...first, angleDeg: 90 / Math.PI },
      { ...first, straightBeforeMm: 80, angleDeg: 60, centrelineRadiusMm: 30 },
    ]
    const { marks } = blankMarks({ ...part, bends })
    expect(at(marks, 'bend 1 ends')).toBeCloseTo(262, 9)
    expect(at(marks, 'bend 2 begins')).toBeCloseTo(342, 9)
    expect(at(marks, 'bend 2 centre')).toBeCloseTo(357.708, 4)
    expect(at(marks, 'bend 2 ends')).toBeCloseTo(373.4159, 4)
    expect(at(marks, 'trim line, far end')).toBeCloseTo(673.4159, 4)
  })
})
