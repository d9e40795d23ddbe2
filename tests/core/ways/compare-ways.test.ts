import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { wayKeys } from '@/lib/core/cost/ways'
import type { SpecInput } from '@/lib/core/spec/contract'
import { answerWay, compareWays } from '@/lib/core/ways/compare-ways'
import { costedPiece, outsidePerimeterMm } from '@/lib/core/ways/costed-piece'
import { judgeSpec, usedFraction, worseWord } from '@/lib/core/ways/judge-spec'
import { mitredBuild } from '@/lib/core/ways/mitred'
import type { WaysQuestion } from '@/lib/core/ways/question'
import { sameAlloyInTemper } from '@/lib/core/ways/soft-material'

const arm: SpecInput = {
  tube: { shape: 'square', widthMm: 38.1, heightMm: 38.1, wallMm: 3.175 },
  material: { id: '6061-T6' },
  bends: [{ straightBeforeMm: 300, angleDeg: 32, centrelineRadiusMm: 480, rotationDeg: 0 }],
  straightAfterMm: 300,
  method: { support: 'hollow' },
  press: { capacityKn: 180, supportSpanMm: 600, supportNoseRadiusMm: 25 },
}
const question: WaysQuestion = { spec: arm, angleToleranceDeg: 1 }

describe('what bends taught', () => {
  const taught = compareWays({
    ...question,
    springbackFactorOf: ({ support, strap }) =>
      strap ? undefined : { hollow: 1.2, sand: 1.1, lowMelt: 0.8 }[support],
  })
  const plain = compareWays(question)
  const back = (answers: typeof plain, way: string) =>
    answers.find((one) => one.way === way)?.spec?.answer.bends[0]?.springbackDeg ?? Number.NaN

  it('moves the springback of the way that it was seen in, each by its own', () => {
    expect(back(taught, 'hollow')).toBeGreaterThan(back(plain, 'hollow') * 1.1)
    expect(back(taught, 'lowMelt')).toBeLessThan(back(plain, 'lowMelt') * 0.9)
    expect(back(taught, 'lowMeltStrap')).toBe(back(plain, 'lowMeltStrap'))
  })

  it('says nothing of another temper: a way that bends it soft is asked without', () => {
    for (const way of ['t4ThenAged', 'annealedThenSolutionAged'])
      expect(back(taught, way)).toBe(back(plain, way))
    expect(back(plain, 't4ThenAged')).toBeGreaterThan(0)
  })
})

describe('ways side by side', () => {
  const answers = compareWays(question)

  it('every way is answered once, in the order a shop thinks of them', () => {
    expect(answers.map(({ way }) => way)).toEqual([...wayKeys])
  })

  it('every answer has a word, a reason and a tolerance in words', () => {
    for (const answer of answers) {
      expect(['yes', 'doubtful', 'no']).toContain(answer.word)
      expect(answer.because.length).toBeGreaterThan(10)
      expect(answer.tolerance.text.length).toBeGreaterThan(5)
    }
  })

  it('T4 tube is weaker, so it springs back less than the T6 it is aged to', () => {
    const t6 = answers.find(({ way }) => way === 'lowMelt')?.spec?.answer.bends[0]?.springbackDeg ?? 0
    const t4 = answers.find(({ way }) => way === 't4ThenAged')
    expect(t4?.spec?.input.material.id).toBe('6061-T4')
    expect(t4?.spec?.answer.bends[0]?.springbackDeg).toBeLessThan(t6)
    expect(t4?.temper?.endTemper).toContain('T6')
  })

  it('welded corners keep the heat-affected yield of EN 1999-1-1 Table 3.2b for 6061-T6, 115 MPa', () => {
    const welded = answers.find(({ way }) => way === 'mitredWelded')
    expect(welded?.temper?.yieldMPa).toBe(115)
    expect(welded?.word).toBe('doubtful')
  })

  it('2024, which cracks when fusion welded, is not mitred and welded', () => {
    const riveted = answerWay({ ...question, spec: { ...arm, material: { id: '2024-T3' } } }, 'mitredWelded')
    expect(riveted.word).toBe('no')
    expect(riveted.because).toContain('cracks')
  })

  it('steel has no T4 to bend in', () => {
    const steel = answerWay({ ...question, spec: { ...arm, material: { id: '1020-DOM' } } }, 't4ThenAged')
    expect(steel.word).toBe('no')
  })

  it('a price from outside turns sending out into a yes', () => {
    expect(answerWay(question, 'outside').word).toBe('doubtful')
    expect(answerWay({ ...question, outsideQuoteCount: 1 }, 'outside').word).toBe('yes')
  })
})

describe('what would make a no a yes', () => {
  it('a span too short for the free length is answered with one that works when it is tried', () => {
    const short = { ...question, spec: { ...arm, press: { ...arm.press, supportSpanMm: 250 } } }
    const answer = answerWay(short, 'lowMelt')
    expect(answer.word).toBe('no')
    const span = answer.remedies.find(({ change }) => change === 'span')
    expect(span?.valueMm).toBeGreaterThan(250)
    const tried = judgeSpec({
      ...arm,
      method: { support: 'lowMelt' },
      press: { ...arm.press, supportSpanMm: span?.valueMm ?? 0 },
    })
    expect(tried.word).not.toBe('no')
  })

  it('a radius too tight to stretch is answered with a larger one, and every remedy works when it is tried', () => {
    const bend = { straightBeforeMm: 300, angleDeg: 32, centrelineRadiusMm: 120, rotationDeg: 0 }
    const answer = answerWay({ ...question, spec: { ...arm, bends: [bend] } }, 'lowMelt')
    expect(answer.word).toBe('no')
    expect(answer.governing?.check).toBe('tear')
    const radius = answer.remedies.find(({ change }) => change === 'radius')
    expect(radius?.valueMm).toBeGreaterThan(120)
    const larger = { ...bend, centrelineRadiusMm: radius?.valueMm ?? 0 }
    expect(judgeSpec({ ...arm, bends: [larger], method: { support: 'lowMelt' } }).word).not.toBe('no')
  })

  it('a thin hollow tube that flattens is told the gauge that would hold', () => {
    const thin = { ...arm, tube: { ...arm.tube, wallMm: 1.245 } }
    const answer = answerWay({ ...question, spec: thin }, 'hollow')
    expect(answer.word).toBe('no')
    for (const { change, valueMm } of answer.remedies.filter((remedy) => remedy.change === 'wall')) {
      expect(change).toBe('wall')
      expect(judgeSpec({ ...thin, tube: { ...thin.tube, wallMm: valueMm } }).word).not.toBe('no')
    }
  })

  it('whatever the part, remedies stand only with a no and are smallest first', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1.2, max: 5, noNaN: true }),
        fc.double({ min: 80, max: 600, noNaN: true }),
        fc.double({ min: 5, max: 80, noNaN: true }),
        (wallMm, centrelineRadiusMm, angleDeg) => {
          const spec = {
            ...arm,
            tube: { ...arm.tube, wallMm },
            bends: [{ straightBeforeMm: 400, angleDeg, centrelineRadiusMm, rotationDeg: 0 }],
          }
          const answer = answerWay({ spec, angleToleranceDeg: 1 }, 'hollow')
          if (answer.word !== 'no') expect(answer.remedies).toEqual([])
          const steps = answer.remedies.map(({ stepFraction }) => stepFraction)
          expect(steps).toEqual([...steps].sort((one, other) => one - other))
        },
      ),
      { numRuns: 12 },
    )
  })
})

describe('judging', () => {
  it('the share used is value over limit, and limit over value where more is better', () => {
    // By hand: 72 of 144 kN is half; 76.2 mm free where 38.1 are needed is half.
    expect(usedFraction({ check: 'press', value: 72, limit: 144 })).toBe(0.5)
    expect(usedFraction({ check: 'span', value: 76.2, limit: 38.1 })).toBe(0.5)
  })

  it('of two words the worse counts', () => {
    expect(worseWord('yes', 'doubtful')).toBe('doubtful')
    expect(worseWord('no', 'doubtful')).toBe('no')
  })
})

describe('mitred from straights', () => {
  it('a right-angle bend is two straights sawn at 45 degrees, a tangent length longer each', () => {
    // By hand: T = 100 tan 45 = 100; centre length 200 + 100 = 300; long 300 + 20 tan 45 = 320; corner 100 (sqrt 2 - 1) = 41.4214
    const build = mitredBuild(
      { heightMm: 40 },
      [{ straightBeforeMm: 200, angleDeg: 90, centrelineRadiusMm: 100, rotationDeg: 0 }],
      200,
    )
    expect(build.pieces.map(({ centreLengthMm }) => centreLengthMm)).toEqual([
      expect.closeTo(300, 9),
      expect.closeTo(300, 9),
    ])
    expect(build.pieces[0]?.longLengthMm).toBeCloseTo(320, 9)
    expect(build.joints[0]?.sawAngleDeg).toBe(45)
    expect(build.joints[0]?.cornerOffsetMm).toBeCloseTo(41.4214, 4)
  })

  it('a way round by corners is never shorter than the arc', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 170, noNaN: true }),
        fc.double({ min: 50, max: 500, noNaN: true }),
        (angleDeg, centrelineRadiusMm) => {
          const build = mitredBuild(
            { heightMm: 40 },
            [{ straightBeforeMm: 100, angleDeg, centrelineRadiusMm, rotationDeg: 0 }],
            100,
          )
          const corners = build.pieces.reduce((sum, { centreLengthMm }) => sum + centreLengthMm, 0)
          expect(corners).toBeGreaterThanOrEqual(200 + (centrelineRadiusMm * angleDeg * Math.PI) / 180 - 1e-9)
        },
      ),
    )
  })
})

describe('the piece as the money side sees it', () => {
  it('a sharp-cornered 38.1 x 3.175 square weighs its wall area times its cut length', () => {
    // By hand: area 38.1^2 - 31.75^2 = 443.5475 mm2; perimeter 152.4 mm
    const answer = answerWay(question, 'lowMelt')
    const piece = costedPiece(question, answer, {
      startCut: 'mitre',
      endCut: 'square',
      holeCount: 0,
      weldedEndCount: 0,
      dyePenetrant: false,
    })
    expect(piece.sectionAreaMm2).toBeCloseTo(443.5475, 4)
    expect(piece.perimeterMm).toBeCloseTo(152.4, 9)
    expect(piece.massKg).toBeCloseTo((443.5475 * piece.cutLengthMm * 2700) / 1e9, 6)
    expect(piece.fillerKg).toBeGreaterThan(0)
  })

  it('rounded corners shorten the way round by (8 - 2 pi) of their radius', () => {
    // By hand: 160 - (8 - 2 pi) 5 = 151.4159
    const tube = { shape: 'square', widthMm: 40, heightMm: 40, wallMm: 2, cornerRadiusMm: 5 } as const
    expect(outsidePerimeterMm(tube)).toBeCloseTo(151.4159, 4)
  })

  it('the soft state of 6061-T6 is 6061-T4 and 6061-O; steel has none', () => {
    expect(sameAlloyInTemper('6061-T6-drawn', 'T4')?.id).toBe('6061-T4')
    expect(sameAlloyInTemper('6061-T6', 'O')?.id).toBe('6061-O')
    expect(sameAlloyInTemper('1020-DOM', 'T4')).toBeNull()
  })
})
