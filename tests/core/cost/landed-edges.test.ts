import { describe, expect, it } from 'vitest'
import {
  type Contender,
  compareWays,
  inHundred,
  riskPhrase,
  riskWord,
  shareAtMost,
} from '@/lib/core/cost/compare'
import { landedCost, type OutsideQuote, type ReceivingRates, receivingRatesOf } from '@/lib/core/cost/landed'
import { approximateRunFactor, runFactor } from '@/lib/core/cost/learning'
import { roundPriceCents } from '@/lib/core/cost/money'
import { defaultShopRates } from '@/lib/core/cost/shop-rates'
import { fixed } from '@/lib/core/cost/spread'
import { estimateDifference, operationVariances, plannedOperationMinutes } from '@/lib/core/cost/variance'
import { startsForConfidence } from '@/lib/core/cost/yield'
import { binomialCdf, startsCdf } from '@/lib/core/statistics/counting'

const quote: OutsideQuote = {
  breaks: [{ fromPieceCount: 1, unitPriceCents: 6000 }],
  toolingCents: 50_000,
  setUpCents: 4000,
  freightCents: 12_000,
  leadDays: { low: 10, likely: 15, high: 25 },
  rejectFraction: 0,
  replacesRejects: true,
}
const receiving: ReceivingRates = {
  orderMinutes: fixed(30),
  perDeliveryMinutes: fixed(15),
  perPieceMinutes: { low: 2, likely: 3, high: 6 },
  officeCentsPerH: 6000,
  inspectionCentsPerH: 7500,
  overheadFactor: 0.5,
  contingencyFraction: 0.1,
  hoursPerDay: 8,
}

describe('an outside order', () => {
  it('adds up line by line, overhead on the shop’s own work only, contingency on all', () => {
    // By hand, 20 pieces: 1200.00 + 500.00 + 40.00 + 120.00; ordering 30 min at 60 = 30.00, receiving 15 at 75 = 18.75, looking 60 at 75 = 75.00;
    // own work 123.75, overhead 61.875 -> 61.88; before contingency 2045.63; a tenth 204.56.
    const { lines, totalCents } = landedCost(quote, 20, receiving)
    expect(Object.fromEntries(lines.map(({ key, cents }) => [key, cents]))).toEqual({
      'outside:pieces': 120_000,
      'outside:tooling': 50_000,
      'outside:setUp': 4000,
      'outside:freight': 12_000,
      'orderOutside:setUp': 3000,
      'receive:setUp': 1875,
      'receive:run': 7500,
      overhead: 6188,
      contingency: 20_456,
    })
    expect(totalCents).toBe(225_019)
  })
  it('looks at each piece for its low, likely and high minutes, once more for each that is replaced', () => {
    const run = (more: Partial<OutsideQuote>) =>
      landedCost({ ...quote, ...more }, 18, receiving).model.items.find(({ key }) => key === 'receive:run')
        ?.quantity
    expect(run({})).toEqual({ low: 36, likely: 54, high: 108 })
    // 18 / 0.9 = 20 looked at, either way.
    expect(run({ rejectFraction: 0.1 })).toEqual({ low: 40, likely: 60, high: 120 })
    expect(run({ rejectFraction: 0.1, replacesRejects: false })).toEqual({ low: 40, likely: 60, high: 120 })
  })
  it('takes as long as promised and as late as this source comes', () => {
    const days = (more: Partial<OutsideQuote>) =>
      landedCost({ ...quote, ...more }, 5, receiving)
        .model.items.filter(({ group }) => group === 'waiting')
        .map(({ quantity }) => quantity.likely)
    expect(days({})).toEqual([15])
    expect(days({ lateDays: { low: 0, likely: 2, high: 6 } })).toEqual([15, 2])
  })
  it('leaves out what costs nothing', () => {
    const free = landedCost({ ...quote, toolingCents: 0, setUpCents: 0, freightCents: 0 }, 5, {
      ...receiving,
      overheadFactor: 0,
      contingencyFraction: 0,
    })
    expect(free.lines.map(({ key }) => key)).toEqual([
      'outside:pieces',
      'orderOutside:setUp',
      'receive:setUp',
      'receive:run',
    ])
  })
  it.each([-0.01, 1, 1.2, Number.NaN])('is refused with a reject rate of %f', (rejectFraction) => {
    expect(() => landedCost({ ...quote, rejectFraction }, 5, receiving)).toThrow(/reject rate/)
  })
  it('is refused of part of a piece', () => {
    expect(() => landedCost(quote, 2.5, receiving)).toThrow(/one piece or more/)
    expect(landedCost(quote, 1, receiving).orderedPieceCount).toBe(1)
  })
  it('takes the larger of its least counts', () => {
    expect(landedCost({ ...quote, minimumPieceCount: 12 }, 5, receiving)).toMatchObject({
      orderedPieceCount: 12,
      unitPriceCents: 6000,
    })
  })
  it('puts the shop’s allowance on its own minutes once', () => {
    const rates = receivingRatesOf({ ...defaultShopRates, allowanceFraction: 0.2 })
    expect(rates.orderMinutes.likely).toBeCloseTo(1.2 * defaultShopRates.times.orderOutsideMinutes.likely, 9)
    expect(rates.perPieceMinutes.high).toBeCloseTo(
      1.2 * defaultShopRates.times.receivePerPieceMinutes.high,
      9,
    )
    expect(rates.perDeliveryMinutes.low).toBeCloseTo(1.2 * defaultShopRates.times.receiveSetUpMinutes.low, 9)
  })
})

describe('the words for a chance', () => {
  // IPCC guidance note (2010), table 1: 99, 90, 66, 33, 10 and 1 percent.
  it.each([
    [1, 'surely'],
    [0.99, 'surely'],
    [0.989, 'very likely'],
    [0.9, 'very likely'],
    [0.899, 'likely'],
    [0.66, 'likely'],
    [0.659, 'even'],
    [0.33, 'even'],
    [0.329, 'unlikely'],
    [0.1, 'unlikely'],
    [0.099, 'very unlikely'],
    [0.01, 'very unlikely'],
    [0.009, 'hardly ever'],
    [0, 'hardly ever'],
  ] as const)('%f: %s', (chance, word) => {
    expect(riskWord(chance)).toBe(word)
  })
  it('make a sentence with what they are a chance of', () => {
    expect([0.95, 0.5, 0.2, 0.05, 0].map((chance) => riskPhrase(chance, 'on time'))).toEqual([
      'very likely on time',
      'as likely as not on time',
      'unlikely to be on time',
      'very unlikely to be on time',
      'hardly ever on time',
    ])
  })
  it('never says all or none unless it is', () => {
    expect([0, 0.004, 0.005, 0.667, 0.995, 0.996, 1].map(inHundred)).toEqual([
      '0 in 100',
      'less than 1 in 100',
      '1 in 100',
      '67 in 100',
      'more than 99 in 100',
      'more than 99 in 100',
      '100 in 100',
    ])
    expect(() => riskWord(1.01)).toThrow(RangeError)
    expect(() => riskWord(-0.01)).toThrow(RangeError)
  })
  it('counts draws that are at most a value', () => {
    expect(shareAtMost(Float64Array.of(1, 2, 3, 4), 2)).toBe(0.5)
  })
})

describe('contenders', () => {
  const contender = (key: string, kind: Contender['kind'], cents: number, days: number): Contender => ({
    key,
    name: key,
    kind,
    model: {
      goodPieces: 10,
      yieldFraction: 1,
      learning: { model: 'unit', rateFraction: 1 },
      overheadFactor: 0,
      contingencyFraction: 0,
      hoursPerDay: 8,
      items: [
        {
          key: 'all',
          label: 'All',
          group: 'outside',
          quantity: fixed(1),
          centsPerUnit: cents,
          count: { kind: 'job' },
          from: '',
        },
        {
          key: 'wait',
          label: 'Wait',
          group: 'waiting',
          quantity: fixed(days),
          centsPerUnit: 0,
          daysPerUnit: 1,
          count: { kind: 'job' },
          from: '',
        },
      ],
    },
  })
  const sample = { seed: 1, drawCount: 50 }
  it('are cheapest and on time for sure where nothing is uncertain', () => {
    const found = compareWays(
      [
        contender('saw', 'inHouse', 9000, 3),
        contender('press', 'inHouse', 5000, 12),
        contender('out', 'outside', 7000, 10),
      ],
      { pieceCount: 10, daysToDue: 10, sample },
    )
    expect(found.contenders.map(({ cheapestChance }) => cheapestChance)).toEqual([0, 1, 0])
    expect(found.contenders.map(({ onTimeChance }) => onTimeChance)).toEqual([1, 0, 1])
    expect(found).toMatchObject({ bestInHouseKey: 'press', bestOutsideKey: 'out', inHouseCheaperChance: 1 })
    expect(found.outsideExtraCents?.mean).toBeCloseTo(2000, 9)
    expect(found.contenders[2]?.costPerPieceCents).toEqual({ p10: 700, p50: 700, mean: 700, p90: 700 })
    expect(found.text).toBe('press is surely cheaper than out (100 in 100)')
    expect(found.contenders[0]?.words).toEqual([
      'surely on time (100 in 100)',
      'hardly ever the cheapest (0 in 100)',
    ])
  })
  it('say what is missing to compare', () => {
    const text = (...contenders: Contender[]) => compareWays(contenders, { pieceCount: 1, sample }).text
    expect(text()).toBe('nothing to compare')
    expect(text(contender('a', 'inHouse', 1, 1))).toBe('no outside price to compare with')
    expect(text(contender('a', 'outside', 1, 1))).toBe('no in-house way to compare with')
    const alone = compareWays([contender('a', 'inHouse', 1, 1)], { pieceCount: 1, sample }).contenders[0]
    expect(alone).toMatchObject({ words: [], onTimeChance: null })
  })
})

describe('minutes logged against minutes planned', () => {
  const planned = [
    { operationKey: 'bend', name: 'Bend', minutes: { low: 40, likely: 50, high: 70 } },
    { operationKey: 'saw', name: 'Saw', minutes: { low: 5, likely: 8, high: 12 } },
    { operationKey: 'pack', name: 'Pack', minutes: { low: 0, likely: 0, high: 0 } },
  ]
  it('are within, over or under the plan, summed over entries; the unplanned and unlogged say so', () => {
    const found = operationVariances(planned, [
      { operationKey: 'bend', name: 'Bend', minutes: 45 },
      { operationKey: 'bend', name: 'Bend', minutes: 30 },
      { operationKey: 'pack', name: 'Pack', minutes: 3 },
      { operationKey: 'sweep', name: 'Sweep', minutes: 4 },
      { operationKey: 'sweep', name: 'Sweep', minutes: 5 },
    ])
    expect(
      found.map(({ operationKey, actualMinutes, differenceMinutes, ratio, verdict }) => [
        operationKey,
        actualMinutes,
        differenceMinutes,
        ratio,
        verdict,
      ]),
    ).toEqual([
      ['bend', 75, 25, 1.5, 'over'],
      ['saw', null, null, null, 'notLogged'],
      ['pack', 3, 3, null, 'over'],
      ['sweep', 9, 9, null, 'notPlanned'],
    ])
    const verdict = (minutes: number) =>
      operationVariances(planned.slice(1, 2), [{ operationKey: 'saw', name: 'Saw', minutes }])[0]?.verdict
    expect([4.9, 5, 12, 12.1].map(verdict)).toEqual(['under', 'within', 'within', 'over'])
  })
  it('are planned for the starts made: set-up once, run for each, low with low and high with high', () => {
    const minutes = { low: 1, likely: 2, high: 4 }
    const item = { label: '', group: 'labour' as const, quantity: minutes, centsPerUnit: 1, from: '' }
    const estimate = {
      operations: [{ key: 'bend', name: 'Bend' }],
      starts: { expected: 5 },
      model: {
        goodPieces: 5,
        yieldFraction: 1,
        learning: { model: 'unit' as const, rateFraction: 1 },
        overheadFactor: 0,
        contingencyFraction: 0,
        hoursPerDay: 8,
        items: [
          { ...item, key: 'bend:setUp', count: { kind: 'job' as const } },
          { ...item, key: 'bend:run', count: { kind: 'start' as const, learns: false } },
          { ...item, key: 'bender:run', count: { kind: 'job' as const } },
          { ...item, key: 'bend:wait', group: 'waiting' as const, count: { kind: 'job' as const } },
        ],
      },
    } as unknown as Parameters<typeof plannedOperationMinutes>[0]
    expect(plannedOperationMinutes(estimate, 7)).toEqual([
      { operationKey: 'bend', name: 'Bend', minutes: { low: 8, likely: 16, high: 32 } },
    ])
    expect(plannedOperationMinutes(estimate, 3)[0]?.minutes.likely).toBe(2 + 5 * 2)
  })
})

describe('two versions of an estimate', () => {
  type Compared = Parameters<typeof estimateDifference>[0]
  const version = (lines: readonly (readonly [key: string, cents: number, from: string])[]) =>
    ({
      lines: lines.map(([key, likelyCents, from]) => ({ key, label: key, likelyCents, from })),
      likelyCents: lines.reduce((sum, [, cents]) => sum + cents, 0),
      costCents: { mean: 2 * lines.reduce((sum, [, cents]) => sum + cents, 0) },
    }) as unknown as Compared
  it('differ line by line, the largest change first, and by what is new, gone, changed or the same', () => {
    const found = estimateDifference(
      version([
        ['tube', 1000, 'a bar'],
        ['bend', 500, '2 bends'],
        ['saw', 80, 'a cut'],
        ['fill', 300, 'a pot'],
      ]),
      version([
        ['tube', 1200, 'two bars'],
        ['bend', 500, '2 bends'],
        ['saw', 80, 'a better cut'],
        ['pack', 40, 'a box'],
      ]),
    )
    expect(
      found.lines.map(({ key, changeCents, what, because }) => [key, changeCents, what, because]),
    ).toEqual([
      ['fill', -300, 'gone', 'was: a pot'],
      ['tube', 200, 'changed', 'was: a bar; now: two bars'],
      ['pack', 40, 'new', 'now: a box'],
      ['bend', 0, 'same', 'same basis'],
      ['saw', 0, 'changed', 'was: a cut; now: a better cut'],
    ])
    expect(found).toMatchObject({ likelyChangeCents: -60, meanChangeCents: -120, text: '4 lines changed' })
    const same = version([['tube', 1000, 'a bar']])
    expect(estimateDifference(same, same).text).toBe('nothing changed')
    expect(estimateDifference(same, version([['tube', 1001, 'a bar']])).text).toBe('1 line changed')
  })
})

describe('edges', () => {
  it('of chances, rates and steps', () => {
    expect(() => startsForConfidence(3, 0.9, 0)).toThrow(RangeError)
    expect(() => startsForConfidence(3, 0.9, 1)).toThrow(RangeError)
    expect(() => runFactor(3, { model: 'unit', rateFraction: 0 })).toThrow(RangeError)
    expect(() => runFactor(3, { model: 'unit', rateFraction: -1 })).toThrow(RangeError)
    expect(() => approximateRunFactor(3, 0)).toThrow(RangeError)
    expect(startsCdf(3, 3, 1)).toBe(1)
    expect(startsCdf(2, 3, 1)).toBe(0)
    expect(() => binomialCdf(1, 3, -0.1)).toThrow(RangeError)
    expect(() => binomialCdf(1, 3, 1.1)).toThrow(RangeError)
    expect(Object.is(roundPriceCents(0, { stepCents: 5, direction: 'down' }), 0)).toBe(true)
  })
})
