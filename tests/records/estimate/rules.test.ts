import { describe, expect, it } from 'vitest'
import { answerWay } from '@/lib/core/ways/compare-ways'
import { boughtMaterialId } from '@/lib/core/ways/costed-piece'
import {
  calendarDays,
  type EstimateGround,
  estimateInputOf,
  firstAsk,
  noTube,
  priceOfCost,
  usualBarMm,
} from '@/lib/records/estimate/rules'
import { quantitiesText } from '@/lib/records/estimate/schema'
import { ageWords, estimateAge } from '@/lib/records/estimate-age/rules'
import { wayBases, waysQuestionOf } from '@/lib/records/way/rules'
import { davitGround } from './ground'

const bases = wayBases(davitGround)
const basisOf = (way: string) => bases.find((one) => one.way === way)

describe('What an estimate starts from', () => {
  it('is the way of the set-up that was chosen, the usual quantity and its neighbours', () => {
    const ask = firstAsk(davitGround, bases)
    expect(ask?.way).toBe('lowMeltStrap')
    expect(ask?.quantities).toEqual([1, 6, 18])
  })

  it('names every way but outside, and each that can be costed has a length to saw', () => {
    expect(bases.map(({ way }) => way)).not.toContain('outside')
    for (const { part, length } of bases) expect((length?.sawnMm ?? 0) > 0).toBe(part !== null)
  })

  it('saws a piece its cut length less the kerf that the saw takes beside it', () => {
    const basis = basisOf('lowMeltStrap')
    expect(basis?.length?.sawnMm).toBeCloseTo((basis?.part?.cutLengthMm ?? 0) - 2, 9)
  })

  it('buys the softer temper where the way bends that', () => {
    const question = waysQuestionOf(davitGround)
    expect(question && boughtMaterialId(question, answerWay(question, 't4ThenAged'))).toBe('6061-T4')
    expect(basisOf('t4ThenAged')?.materialId).toBe('6061-T4')
    expect(basisOf('lowMeltStrap')?.materialId).toBe('6061-T6')
  })

  it('asks nothing of a shop without a press', () => {
    const bare: EstimateGround = { ...davitGround, setup: null }
    expect(wayBases(bare)).toEqual([])
    expect(firstAsk(bare, [])).toBeNull()
  })

  it('takes the shortest usual bar that a piece comes out of', () => {
    const piece = (lengthMm: number) => ({ sawnPieces: [{ lengthMm, pieceCount: 1 }] })
    expect(usualBarMm(piece(1000), 'in', 5)).toBeCloseTo(20 * 304.8, 9)
    expect(usualBarMm(piece(6500), 'in', 5)).toBeCloseTo(24 * 304.8, 9)
    expect(usualBarMm(piece(6500), 'mm', 5)).toBe(7000)
  })
})

describe('A die to make', () => {
  const from = {
    rates: davitGround.rates,
    lengthUnit: 'in' as const,
    startCut: 'square' as const,
    endCut: 'square' as const,
  }
  const toolingWith = (charge: 'job' | 'spread' | 'none') => {
    const basis = basisOf('lowMeltStrap')
    const ask = firstAsk(davitGround, bases)
    if (!basis || !ask) return []
    const key = basis.toolsToMake[0]?.key ?? ''
    const tools = { [key]: { charge, overJobs: 4 } }
    return estimateInputOf(basis, { ...ask, tools }, from, { pieceCount: 6, material: noTube })?.tooling ?? []
  }

  it('is charged to the job, shared over several, or left out', () => {
    expect(toolingWith('job').map(({ spreadOverJobs }) => spreadOverJobs)).toEqual([1])
    expect(toolingWith('spread').map(({ spreadOverJobs }) => spreadOverJobs)).toEqual([4])
    expect(toolingWith('none')).toEqual([])
  })
})

describe('A price', () => {
  const exact = { stepCents: 1, direction: 'nearest' } as const

  it('by margin is cost / (1 - g), by markup cost (1 + k): 30 percent of each differ', () => {
    // By hand: 70 / 0.7 = 100; 70 * 1.3 = 91.
    expect(priceOfCost(7000, { by: 'margin', ppm: 300_000 }, exact)).toBe(10_000)
    expect(priceOfCost(7000, { by: 'markup', ppm: 300_000 }, exact)).toBe(9100)
  })

  it('is brought to the shop’s round figure last', () => {
    expect(priceOfCost(7001, { by: 'margin', ppm: 300_000 }, { stepCents: 500, direction: 'up' })).toBe(
      10_500,
    )
  })
})

describe('Days and ages', () => {
  it('turns five working days into a week', () => {
    expect([calendarDays(5), calendarDays(6), calendarDays(0)]).toEqual([7, 9, 0])
  })

  it('says what changed since a version was made, and nothing where nothing did', () => {
    const stored = JSON.parse(JSON.stringify(davitGround)) as EstimateGround
    expect(ageWords(estimateAge(stored, davitGround))).toBe('')
    const moved = { ...davitGround, rateSheetId: 2, revision: { ...davitGround.revision, wallMm: 3 } }
    expect(ageWords(estimateAge(stored, moved))).toBe(
      'The part and the rates changed since this estimate was made.',
    )
  })
})

describe('Quantities as they are typed', () => {
  it('are sorted, each once', () => {
    expect(quantitiesText.parse('20/1, 6 6')).toEqual([1, 6, 20])
  })

  it('refuses none, fractions, nought and more than six', () => {
    for (const text of ['', '1.5', '0, 2', '1 2 3 4 5 6 7', '5000']) {
      expect(quantitiesText.safeParse(text).success).toBe(false)
    }
  })
})
