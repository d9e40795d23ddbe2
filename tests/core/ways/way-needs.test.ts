import { describe, expect, it } from 'vitest'
import { waySupport } from '@/lib/core/cost/ways'
import { readSentence } from '@/lib/core/sentence'
import type { SpecInput } from '@/lib/core/spec/contract'
import { answerBentWay, type BentWay, specOfWay, temperOf } from '@/lib/core/ways/bent-way'
import { answerWay } from '@/lib/core/ways/compare-ways'
import { boughtMaterialId, costedPiece, cutLengthOf } from '@/lib/core/ways/costed-piece'
import { judgeSpec } from '@/lib/core/ways/judge-spec'
import type { WaysQuestion } from '@/lib/core/ways/question'
import { spanThatWorksMm } from '@/lib/core/ways/remedy'
import { strapBlankMm, wayBasis } from '@/lib/core/ways/way-basis'

const arm: SpecInput = {
  tube: { shape: 'square', widthMm: 38.1, heightMm: 38.1, wallMm: 3.175 },
  material: { id: '6061-T6' },
  bends: [
    { straightBeforeMm: 400, angleDeg: 32, centrelineRadiusMm: 480, rotationDeg: 0 },
    { straightBeforeMm: 900, angleDeg: 20, centrelineRadiusMm: 520, rotationDeg: 90 },
  ],
  straightAfterMm: 400,
  method: { support: 'hollow' },
  press: { capacityKn: 180, supportSpanMm: 600, supportNoseRadiusMm: 25 },
  trimMm: 10,
  kerfMm: 2,
}
const question: WaysQuestion = { spec: arm, angleToleranceDeg: 1 }
const needs = (way: BentWay, more: Partial<WaysQuestion> = {}) => {
  const found = answerBentWay({ ...question, ...more }, way).needs
  return (what: string) =>
    found
      .filter((need) => need.what === what)
      .map((need) => ({ ...need, text: readSentence(need.text, 'mm') }))
}
const dieRadii = (way: BentWay) =>
  answerBentWay(question, way).spec?.answer.bends.map((bend) => bend.dieSurfaceRadiusMm) ?? []

describe('the tube of a mitred part', () => {
  it('is sawn in its straights, which together are as long as the way says', () => {
    const answer = answerWay(question, 'mitredWelded')
    const sawn = wayBasis(question, answer).sawnPieces
    const wholeMm = sawn.reduce((sum, { lengthMm, pieceCount }) => sum + lengthMm * pieceCount, 0)
    expect(answer.mitred?.pieces.length).toBe(sawn.reduce((sum, { pieceCount }) => sum + pieceCount, 0))
    expect(wholeMm).toBeCloseTo(answer.mitred?.totalLongMm ?? 0, 1)
  })
})

describe('what a way needs', () => {
  it('is a pot that holds enough: enough, too little, unknown', () => {
    const massKg = answerBentWay(question, 'lowMelt').spec?.answer.filler?.massKg ?? 0
    expect(massKg).toBeGreaterThan(5)
    expect(needs('lowMelt', { fillerStockKg: massKg + 0.1 })('filler')).toMatchObject([{ have: true }])
    expect(needs('lowMelt', { fillerStockKg: massKg })('filler')).toMatchObject([{ have: true }])
    const [short] = needs('lowMelt', { fillerStockKg: massKg - 0.1 })('filler')
    expect(short).toMatchObject({ have: false })
    expect(short?.text).toContain(`the pot holds ${(massKg - 0.1).toFixed(2)} kg`)
    expect(needs('lowMelt')('filler')).toMatchObject([{ have: false }])
    expect(needs('lowMelt')('filler')[0]?.text).not.toContain('the pot holds')
  })
  it('is sand, which a shop has, and nothing hollow', () => {
    const [sand] = needs('sand', { fillerStockKg: 0 })('filler')
    expect(sand).toMatchObject({ have: true })
    expect(sand?.text).toMatch(/dry sand/)
    expect(needs('hollow')('filler')).toEqual([])
  })
  it('is a die within 1 percent of the radius, one for each radius', () => {
    const [first, second] = dieRadii('lowMelt')
    if (first === undefined || second === undefined) throw new Error('no dies')
    expect(needs('lowMelt')('die').map(({ have }) => have)).toEqual([false, false])
    expect(needs('lowMelt', { dieRadiiMm: [first * 1.009] })('die').some(({ have }) => have)).toBe(true)
    expect(
      needs('lowMelt', { dieRadiiMm: [Math.max(first, second) * 1.02] })('die').every(({ have }) => !have),
    ).toBe(true)
    expect(needs('lowMelt', { dieRadiiMm: [first] })('die')[0]?.text).toBe(
      `die, surface radius ${first.toFixed(1)} mm`,
    )
  })
  it('is a strap only with a strap, from the rack or to make, 3.2 mm and as wide as the tube', () => {
    expect(needs('lowMelt')('strap')).toEqual([])
    expect(needs('lowMeltStrap')('strap')).toMatchObject([
      { have: false, text: 'a strap to make, 3.2 × 38.1 mm' },
    ])
    const strap = { thicknessMm: 2, widthMm: 40, yieldMPa: 300 }
    expect(needs('lowMeltStrap', { strap })('strap')).toMatchObject([
      { have: true, text: 'strap, 2 × 40 mm' },
    ])
  })
  it('is the press within its share, and heat where a way calls for it', () => {
    const mostKn = Math.max(
      ...(answerBentWay(question, 'lowMelt').spec?.answer.bends.map(({ pressForceKn }) => pressForceKn) ??
        []),
    )
    expect(needs('lowMelt')('press')).toMatchObject([
      { have: true, text: `${mostKn.toFixed(1)} kN on a span of 600 mm` },
    ])
    const weak = { ...arm, press: { ...arm.press, capacityKn: mostKn / 0.81 } }
    expect(needs('lowMelt', { spec: weak })('press')).toMatchObject([{ have: false }])
    const just = { ...arm, press: { ...arm.press, capacityKn: mostKn / 0.79 } }
    expect(needs('lowMelt', { spec: just })('press')).toMatchObject([{ have: true }])
    expect(needs('t4ThenAged')('heatTreat')[0]?.text).toMatch(/T4 tube/)
    expect(needs('annealedThenSolutionAged')('heatTreat')[0]?.text).toMatch(/annealing before/)
    expect(needs('hollow')('heatTreat')).toEqual([])
  })
})

describe('the angle a way can promise', () => {
  it('is half the springback’s range of the worst bend, the quench’s 2 degrees in by squares', () => {
    const hollow = answerBentWay(question, 'lowMelt')
    const halves = hollow.spec?.answer.bends.map(
      ({ range }) => ((range?.springbackDeg.high ?? 0) - (range?.springbackDeg.low ?? 0)) / 2,
    )
    expect(hollow.tolerance.angleDeg).toBeCloseTo(Math.max(...(halves ?? [])), 9)
    const soft = answerBentWay(question, 'annealedThenSolutionAged')
    const softHalves = soft.spec?.answer.bends.map(
      ({ range }) => ((range?.springbackDeg.high ?? 0) - (range?.springbackDeg.low ?? 0)) / 2,
    )
    expect(soft.tolerance.angleDeg).toBeCloseTo(Math.hypot(2, Math.max(...(softHalves ?? []))), 9)
    expect(soft.word).not.toBe('yes')
    expect(soft.warnings.join()).toMatch(/straighten before it ages/)
  })
  it('warns to bend a trial piece first where a first piece may be out', () => {
    const tight = answerBentWay({ ...question, angleToleranceDeg: 0.01 }, 'lowMelt')
    expect(tight.warnings.join()).toMatch(/trial piece of the same lot/)
    const wide = answerBentWay({ ...question, angleToleranceDeg: 5 }, 'lowMelt')
    expect(wide.warnings.join()).not.toMatch(/trial piece/)
    expect(wide.tolerance.text).toMatch(/closer once a trial piece/)
  })
  it('comes with the worst bend’s loss of section', () => {
    const answer = answerBentWay(question, 'hollow')
    const losses = answer.spec?.answer.bends.map(
      (bend) => bend.verdicts.find(({ check }) => check === 'flattening')?.value ?? 0,
    )
    expect(answer.tolerance.sectionLossFraction).toBeCloseTo(Math.max(...(losses ?? [])), 12)
  })
})

describe('a way that does not come into question', () => {
  it('says why, with no numbers', () => {
    const steel = answerBentWay({ ...question, spec: { ...arm, material: { id: '1020-DOM' } } }, 't4ThenAged')
    expect(steel).toMatchObject({
      way: 't4ThenAged',
      word: 'no',
      spec: null,
      needs: [],
      warnings: [],
      tolerance: { angleDeg: null, sectionLossFraction: null, text: 'not worked out' },
      ...waySupport('t4ThenAged'),
    })
    expect(steel.name.length).toBeGreaterThan(3)
    expect(steel.because.length).toBeGreaterThan(10)
  })
  it('that the model refuses says what was met and what is allowed', () => {
    const short = { ...arm, press: { ...arm.press, supportSpanMm: 200 } }
    const answer = answerBentWay({ ...question, spec: short }, 'lowMelt')
    expect(answer).toMatchObject({ word: 'no', spec: null, needs: [] })
    expect(answer.because).toMatch(/no free length at the full angle; a span of at least/)
  })
  it('names the bend that decides where there are several', () => {
    expect(answerBentWay(question, 'hollow').because).toMatch(/^bend [12]: /)
    const one = { ...question, spec: { ...arm, bends: arm.bends.slice(0, 1) } }
    expect(answerBentWay(one, 'hollow').because).not.toMatch(/^bend/)
  })
})

describe('the question of a way', () => {
  it('has its own support, strap and temper, and leaves the die open', () => {
    const given = { ...question, spec: { ...arm, die: { surfaceRadiusMm: 400 } } }
    expect(specOfWay(given, 'lowMeltStrap')).toMatchObject({
      method: { support: 'lowMelt', strap: { thicknessMm: 3.2 } },
    })
    expect(specOfWay(given, 'lowMeltStrap')).not.toHaveProperty('die')
    expect(specOfWay(given, 'sand')?.method).toEqual({ support: 'sand' })
    expect(specOfWay(given, 't4ThenAged')?.material).toEqual({ id: '6061-T4' })
    expect(specOfWay(given, 'annealedThenSolutionAged')?.material).toEqual({ id: '6061-O' })
    const pot = { ...given, lowMelt: { fillerId: '158', fillerYieldMPa: 30 } }
    expect(specOfWay(pot, 'lowMelt')?.method).toEqual({
      support: 'lowMelt',
      fillerId: '158',
      fillerYieldMPa: 30,
    })
    expect(specOfWay(pot, 'hollow')?.method).toEqual({ support: 'hollow' })
  })
  it('of a material of one’s own takes its strengths', () => {
    const own = { family: 'steel' as const, yieldMPa: 300, tensileMPa: 420 }
    expect(temperOf({ ...question, spec: { ...arm, material: own } }, 'hollow').temper?.yieldMPa).toBe(300)
  })
})

describe('the piece behind a way', () => {
  const bare = {
    startCut: 'square',
    endCut: 'square',
    holeCount: 0,
    weldedEndCount: 0,
    dyePenetrant: false,
  } as const
  it('bent is cut as the spec says; mitred is its straights from long point to long point', () => {
    const bent = costedPiece(question, answerWay(question, 'lowMelt'), bare)
    const spec = answerWay(question, 'lowMelt').spec?.answer
    expect(bent.cutLengthMm).toBeGreaterThan((spec?.developedLengthMm ?? 0) - 1)
    // By hand: tangents 480 tan 16 = 137.638 and 520 tan 10 = 91.690; long side 19.05 tan 16 = 5.4625 and 19.05 tan 10 = 3.3590 a joint.
    const mitred = answerWay(question, 'mitredWelded').mitred
    expect(mitred?.pieces.map(({ longLengthMm }) => longLengthMm)).toEqual([
      expect.closeTo(400 + 137.638 + 5.4625, 2),
      expect.closeTo(900 + 137.638 + 91.69 + 5.4625 + 3.359, 2),
      expect.closeTo(400 + 91.69 + 3.359, 2),
    ])
  })
  it('without a bend spec is as long as its drawing: 400 + 900 + 400 and both arcs', () => {
    // By hand: 480 · 32 pi / 180 = 268.0826 and 520 · 20 pi / 180 = 181.5142.
    const answer = { ...answerWay(question, 'outside'), mitred: null, spec: null }
    expect(cutLengthOf(question, answer)).toBeCloseTo(1700 + 268.0826 + 181.5142, 3)
    const mitred = answerWay(question, 'mitredWelded')
    expect(cutLengthOf(question, mitred)).toBeCloseTo((mitred.mitred?.totalLongMm ?? 0) + 2 * 2, 9)
  })
  it('bought soft is another material; annealed in the shop it is the part’s own', () => {
    expect(boughtMaterialId(question, answerWay(question, 't4ThenAged'))).toBe('6061-T4')
    expect(boughtMaterialId(question, answerWay(question, 'annealedThenSolutionAged'))).toBe('6061-T6')
    expect(boughtMaterialId(question, answerWay(question, 'lowMelt'))).toBe('6061-T6')
  })
  it('is sawn without the kerf that the cut length counts in', () => {
    const answer = answerWay(question, 'lowMeltStrap')
    const basis = wayBasis(question, answer)
    const spec = answer.spec?.answer
    expect(basis.length?.sawnMm).toBeCloseTo((spec?.cutLengthMm ?? 0) - 2, 9)
    expect(basis.length).toMatchObject({ trimMm: 10, developedMm: spec?.developedLengthMm })
    expect(basis.sawnPieces).toEqual([
      { lengthMm: expect.closeTo((spec?.cutLengthMm ?? 0) - 2, 3), pieceCount: 1 },
    ])
    expect(basis.filler).toEqual({ id: 'bi-158', massKg: spec?.filler?.massKg })
    expect(wayBasis(question, answerWay(question, 'sand')).filler).toBeNull()
  })
  it('lists dies and strap that the rack lacks, the strap long enough for the longest arc and a span', () => {
    const answer = answerWay(question, 'lowMeltStrap')
    const tools = wayBasis(question, answer).toolsToMake
    expect(tools.map(({ kind }) => kind)).toEqual(['die', 'die', 'strap'])
    const arcs =
      answer.spec?.answer.bends.map(
        (bend) => ((bend.finalRadiusMm + 19.05) * bend.wrappedAngleDeg * Math.PI) / 180,
      ) ?? []
    expect(tools[2]?.strap?.lengthMm).toBeCloseTo(Math.max(...arcs) + 600, 9)
    expect(strapBlankMm(question, answer)).toBeCloseTo(Math.max(...arcs) + 600, 9)
    const racked = {
      ...question,
      strap: { thicknessMm: 3.2, widthMm: 38.1, yieldMPa: 350 },
      dieRadiiMm: dieRadii('lowMeltStrap'),
    }
    expect(wayBasis(racked, answerWay(racked, 'lowMeltStrap')).toolsToMake).toEqual([])
    expect(wayBasis(question, answerWay(question, 'mitredWelded'))).toMatchObject({
      toolsToMake: [],
      materialId: expect.anything(),
    })
  })
  it('sent outside is not costed here', () => {
    expect(() => wayBasis(question, answerWay(question, 'outside'))).toThrow(RangeError)
  })
})

describe('the check that decides', () => {
  it('is the worst, of equals the one nearest its limit, with its share', () => {
    const judged = judgeSpec({ ...arm, method: { support: 'lowMelt' } })
    if (!judged.solved || !judged.governing) throw new Error('not solved')
    const { governing, answer } = judged
    const verdict = answer.bends[governing.bendIndex]?.verdicts.find(({ check }) => check === governing.check)
    expect(governing).toMatchObject({ value: verdict?.value, limit: verdict?.limit, text: verdict?.text })
    const share =
      governing.check === 'span' ? governing.limit / governing.value : governing.value / governing.limit
    expect(governing.usedFraction).toBeCloseTo(share, 9)
    const same = answer.bends.flatMap((bend) =>
      bend.verdicts.filter((one) => one.verdict === governing.verdict && one.check !== 'ramBearing'),
    )
    for (const one of same) {
      const other =
        one.check === 'span' || one.check === 'reduction' ? one.limit / one.value : one.value / one.limit
      expect(other).toBeLessThanOrEqual(governing.usedFraction + 1e-9)
    }
  })
})

describe('a span that works', () => {
  it('is in steps of 10 mm, no longer than allowed, and as it is where it works', () => {
    const filled = { ...arm, method: { support: 'lowMelt' as const } }
    expect(spanThatWorksMm(filled, 2000)).toBe(600)
    const short = { ...filled, press: { ...arm.press, supportSpanMm: 250 } }
    const found = spanThatWorksMm(short, 2000) ?? 0
    expect(found % 10).toBe(0)
    expect(found).toBeGreaterThan(250)
    expect(judgeSpec({ ...short, press: { ...short.press, supportSpanMm: found } }).word).not.toBe('no')
    expect(spanThatWorksMm(short, found - 10)).toBeNull()
    expect(spanThatWorksMm(short, found)).toBe(found)
  })
  it('lies near where a weak press bears the force: in proportion, and 2 percent', () => {
    const filled = { ...arm, bends: arm.bends.slice(0, 1), method: { support: 'lowMelt' as const } }
    const kn = judgeSpec(filled)
    const force = kn.solved ? (kn.answer.bends[0]?.pressForceKn ?? 0) : 0
    const weak = { ...filled, press: { ...arm.press, capacityKn: force / 0.8 / 1.2 } }
    const found = spanThatWorksMm(weak, 2000) ?? 0
    expect(found).toBeGreaterThan(620)
    expect(found).toBeLessThan(600 * 1.2 * 1.02 + 20)
    const judged = judgeSpec({ ...weak, press: { ...weak.press, supportSpanMm: found } })
    expect(judged.word).not.toBe('no')
  })
})
