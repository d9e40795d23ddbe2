import { describe, expect, it } from 'vitest'
import { type Contender, compareWays, riskWord } from '@/lib/core/cost/compare'
import {
  invoiceTaxCents,
  marginAndMarkup,
  marginFromMarkup,
  markupFromMargin,
  minorUnitDigits,
  priceByMarginCents,
  priceByMarkupCents,
  roundDecimalText,
  roundedQuotient,
  roundPriceCents,
  splitCents,
  taxCents,
  wholeCents,
} from '@/lib/core/cost/money'
import { fixed } from '@/lib/core/cost/spread'
import { estimateDifference, operationVariances } from '@/lib/core/cost/variance'

describe('rounding', () => {
  it('of a fraction goes up past the half, and at the half by the rule, on both sides of nothing', () => {
    // Fifths: 7/5 is below a half over, 8/5 above; 5/2, 7/2 and 3/2 are halves.
    expect([7n, 8n, -7n, -8n].map((n) => roundedQuotient(n, 5n))).toEqual([1n, 2n, -1n, -2n])
    expect([3n, 5n, -3n, -5n].map((n) => roundedQuotient(n, 2n))).toEqual([2n, 3n, -2n, -3n])
    expect([3n, 5n, -3n, -5n].map((n) => roundedQuotient(n, 2n, 'halfEven'))).toEqual([2n, 2n, -2n, -2n])
    expect([8n, 7n].map((n) => roundedQuotient(n, 5n, 'halfEven'))).toEqual([2n, 1n])
    expect(roundedQuotient(0n, 3n)).toBe(0n)
    for (const denominator of [0n, -2n]) {
      expect(() => roundedQuotient(1n, denominator)).toThrow(
        new RangeError('An amount can only be divided by something above zero.'),
      )
    }
  })

  it('of text takes plain decimals with blanks about them, and nothing else', () => {
    expect(roundDecimalText(' 12.345 ', 2)).toBe(1235n)
    expect(roundDecimalText('-0.004', 2)).toBe(0n)
    expect(roundDecimalText('3', 0)).toBe(3n)
    for (const text of ['', '.5', '5.', '1,5', '+1', '1e3', '--1', '1.2.3', 'x1', '1x']) {
      expect(() => roundDecimalText(text, 2)).toThrow(
        new RangeError(`"${text}" is not a plain decimal number.`),
      )
    }
  })

  it('of a computed cost has no cents below nothing that are nothing', () => {
    expect(Object.is(wholeCents(-0.4), 0)).toBe(true)
    expect(Object.is(wholeCents(-0), 0)).toBe(true)
    expect([2.4999, 2.5, -2.4999, -2.5].map(wholeCents)).toEqual([2, 3, -2, -3])
    expect([9e13, -9e13].map(wholeCents)).toEqual([9e13, -9e13])
    for (const cents of [9.1e13, -9.1e13, Number.POSITIVE_INFINITY]) {
      expect(() => wholeCents(cents)).toThrow(new RangeError(`${cents} is not an amount of money.`))
    }
  })

  it('of a price goes to the step, up, down or to the nearest', () => {
    const to = (direction: 'nearest' | 'up' | 'down') =>
      [1201, 1249, 1250, 1299, 1300].map((cents) => roundPriceCents(cents, { stepCents: 100, direction }))
    expect(to('up')).toEqual([1300, 1300, 1300, 1300, 1300])
    expect(to('down')).toEqual([1200, 1200, 1200, 1200, 1300])
    expect(to('nearest')).toEqual([1200, 1200, 1300, 1300, 1300])
    expect(roundPriceCents(1234, { stepCents: 1, direction: 'nearest' })).toBe(1234)
    for (const stepCents of [0, -5]) {
      expect(() => roundPriceCents(1, { stepCents, direction: 'up' })).toThrow(
        new RangeError('A rounding step is one cent or more.'),
      )
    }
  })
})

describe('amounts that are not whole', () => {
  it('are refused by name', () => {
    const whole = (what: string) => new RangeError(`${what} is a whole number, not 0.5.`)
    expect(() => priceByMarkupCents(0.5, 1)).toThrow(whole('A cost in cents'))
    expect(() => priceByMarkupCents(1, 0.5)).toThrow(whole('A markup in parts per million'))
    expect(() => priceByMarginCents(0.5, 1)).toThrow(whole('A cost in cents'))
    expect(() => priceByMarginCents(1, 0.5)).toThrow(whole('A margin in parts per million'))
    expect(() => roundPriceCents(0.5, { stepCents: 1, direction: 'up' })).toThrow(whole('A price in cents'))
    expect(() => roundPriceCents(1, { stepCents: 0.5, direction: 'up' })).toThrow(
      whole('A rounding step in cents'),
    )
    expect(() => splitCents(0.5, [1])).toThrow(whole('An amount in cents'))
    expect(() => taxCents(0.5, 1)).toThrow(whole('An amount in cents'))
    expect(() => taxCents(1, 0.5)).toThrow(whole('A tax rate in parts per million'))
    expect(() => priceByMarkupCents(2 ** 53, 1)).toThrow('A cost in cents is a whole number')
  })
})

describe('margin and markup', () => {
  it('have a price rounded to the nearest cent', () => {
    // By hand: 1.01 and a half is 1.515, up to 1.52; 1.00 at a third of margin 1.499998.., 1.50.
    expect(priceByMarkupCents(101, 500_000)).toBe(152)
    expect(priceByMarginCents(100, 333_333)).toBe(150)
    expect(() => priceByMarkupCents(100, -1)).toThrow(new RangeError('A markup is zero or more.'))
  })

  it('below nothing are a loss, down to giving it away', () => {
    // Half the cost lost: a margin of -1; a margin of -1 is that markup again.
    expect(marginFromMarkup(-0.5)).toBe(-1)
    expect(markupFromMargin(-1)).toBe(-0.5)
    for (const markup of [-1, -2]) {
      expect(() => marginFromMarkup(markup)).toThrow(new RangeError('A markup is above -100 percent.'))
    }
    for (const margin of [1, 2]) {
      expect(() => markupFromMargin(margin)).toThrow(
        new RangeError('A margin is below 100 percent of the price.'),
      )
    }
  })

  it('have no share of nothing', () => {
    expect(marginAndMarkup(0, 500)).toEqual({ profitCents: 500, marginFraction: 1, markupFraction: null })
    expect(marginAndMarkup(500, 0)).toEqual({ profitCents: -500, marginFraction: null, markupFraction: -1 })
  })
})

describe('a split', () => {
  it('gives the cents left to the largest remainders, earlier first', () => {
    // By hand: 100 by 1, 2, 3: 16.67, 33.33, 50; 2 by 1, 1, 1: two thirds each; 7 by 3, 3, 1: 3, 3, 1.
    expect(splitCents(100, [1, 2, 3])).toEqual([17, 33, 50])
    expect(splitCents(2, [1, 1, 1])).toEqual([1, 1, 0])
    expect(splitCents(1, [1, 1])).toEqual([1, 0])
    expect(splitCents(7, [3, 3, 1])).toEqual([3, 3, 1])
    // 10 by 1, 5, 4 of 10 exactly; by 15, 16, 69: 1.5, 1.6, 6.9 leave two for the last and the middle.
    expect(splitCents(10, [15, 16, 69])).toEqual([1, 2, 7])
    expect(splitCents(-10, [15, 16, 69])).toEqual([-1, -2, -7])
  })

  it('of nothing is nothing, without a sign', () => {
    expect(splitCents(0, [1, 2]).every((part) => Object.is(part, 0))).toBe(true)
    expect(splitCents(-1, [1, 1]).map((part) => Object.is(part, -0))).toEqual([false, false])
  })

  it('needs weights from zero, one of them above', () => {
    for (const weights of [[], [0], [0, 0], [-1, 2], [Number.NaN, 1]]) {
      expect(() => splitCents(100, weights)).toThrow(
        new RangeError('The weights of a split are zero or more, and not all zero.'),
      )
    }
  })
})

describe('tax', () => {
  it('at a half cent goes up, or to the even one where asked', () => {
    // 0.50 at 1 percent is half a cent, 1.50 at 1 percent one and a half.
    expect([50, 150].map((cents) => taxCents(cents, 10_000))).toEqual([1, 2])
    expect([50, 150].map((cents) => taxCents(cents, 10_000, 'halfEven'))).toEqual([0, 2])
  })

  it('of an invoice is taken on each rate’s sum once', () => {
    // By hand: 5 percent of 0.10 + 0.10 is 1 cent, of each half a cent, up to 1; 10 percent of 0.07 is 0.7 cents.
    const lines = [
      { amountCents: 10, ratePpm: 50_000 },
      { amountCents: 7, ratePpm: 100_000 },
      { amountCents: 10, ratePpm: 50_000 },
    ]
    expect(invoiceTaxCents(lines, 'perInvoice')).toBe(2)
    expect(invoiceTaxCents(lines, 'perLine')).toBe(3)
    expect(invoiceTaxCents([], 'perLine')).toBe(0)
    expect(invoiceTaxCents([], 'perInvoice')).toBe(0)
  })

  it('is in a currency of three capital letters', () => {
    for (const code of ['usd', 'US', 'USDX', 'U5D', ' USD', 'xUSD']) {
      expect(() => minorUnitDigits(code)).toThrow(
        new RangeError(`A currency is three capital letters such as USD, not "${code}".`),
      )
    }
  })
})

describe('ways that come to the same', () => {
  const way = (key: string, kind: Contender['kind'], cents: number): Contender => ({
    key,
    name: key,
    kind,
    model: {
      goodPieces: 1,
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
      ],
    },
  })
  const sample = { seed: 1, drawCount: 20 }
  const compare = (...ways: Contender[]) => compareWays(ways, { pieceCount: 1, sample })

  it('leave the first the cheapest and the best of its side', () => {
    const found = compare(way('a', 'inHouse', 500), way('b', 'inHouse', 500), way('c', 'outside', 500))
    expect(found.contenders.map(({ cheapestChance }) => cheapestChance)).toEqual([1, 0, 0])
    expect(found.bestInHouseKey).toBe('a')
    expect(found.bestOutsideKey).toBe('c')
    // No cheaper in house where both cost the same.
    expect(found.inHouseCheaperChance).toBe(0)
    expect(found.outsideExtraCents?.mean).toBe(0)
  })

  it('are told apart by a cent, whichever stands first', () => {
    expect(compare(way('a', 'inHouse', 500), way('b', 'inHouse', 499)).bestInHouseKey).toBe('b')
    expect(compare(way('a', 'inHouse', 499), way('b', 'inHouse', 500)).bestInHouseKey).toBe('a')
    expect(compare(way('a', 'inHouse', 499), way('c', 'outside', 500)).inHouseCheaperChance).toBe(1)
    expect(compare(way('a', 'outside', 500), way('b', 'outside', 499)).bestInHouseKey).toBeNull()
  })

  it('have a chance of being on time, and say it alone where there is one only', () => {
    const alone = compareWays([way('a', 'inHouse', 500)], { pieceCount: 2, daysToDue: 0, sample })
    expect(alone.contenders[0]).toMatchObject({
      onTimeChance: 1,
      words: ['surely on time (100 in 100)'],
      costPerPieceCents: { p10: 250, p50: 250, mean: 250, p90: 250 },
    })
    expect(alone.sample).toBe(sample)
    for (const chance of [-0.01, 1.01, Number.NaN]) {
      expect(() => riskWord(chance)).toThrow(new RangeError(`A chance lies between 0 and 1, not ${chance}.`))
    }
  })
})

describe('two versions', () => {
  type Version = Parameters<typeof estimateDifference>[0]
  const version = (...lines: { key: string; label: string; likelyCents: number; from: string }[]): Version =>
    ({
      lines,
      likelyCents: lines.reduce((sum, { likelyCents }) => sum + likelyCents, 0),
      costCents: { mean: 0 },
    }) as unknown as Version
  const line = (key: string, label: string, likelyCents: number, from = '') => ({
    key,
    label,
    likelyCents,
    from,
  })

  it('call a line as it is called now, or as it was called where it is gone', () => {
    const found = estimateDifference(
      version(line('tube', 'Tube', 100), line('saw', 'Saw', 50)),
      version(line('tube', 'Tube, 6 m', 100), line('pack', 'Pack', 70)),
    )
    expect(found.lines.map((one) => [one.key, one.label, one.beforeCents, one.afterCents])).toEqual([
      ['pack', 'Pack', null, 70],
      ['saw', 'Saw', 50, null],
      ['tube', 'Tube, 6 m', 100, 100],
    ])
    expect(found).toMatchObject({ likelyChangeCents: 20, text: '2 lines changed' })
  })

  it('keep lines that change as much in the order they stand, cheaper or dearer', () => {
    const found = estimateDifference(
      version(line('a', 'A', 100), line('b', 'B', 100), line('c', 'C', 100)),
      version(line('a', 'A', 90), line('b', 'B', 110), line('c', 'C', 111)),
    )
    expect(found.lines.map(({ key, changeCents }) => [key, changeCents])).toEqual([
      ['c', 11],
      ['a', -10],
      ['b', 10],
    ])
  })

  it('name what was logged and not planned as it was logged', () => {
    const planned = [{ operationKey: 'saw', name: 'Saw', minutes: { low: 4, likely: 5, high: 6 } }]
    const found = operationVariances(planned, [
      { operationKey: 'sweep', name: 'Sweep', minutes: 4 },
      { operationKey: 'saw', name: 'Sawing', minutes: 6 },
    ])
    expect(found).toEqual([
      {
        operationKey: 'saw',
        name: 'Saw',
        plannedMinutes: { low: 4, likely: 5, high: 6 },
        actualMinutes: 6,
        differenceMinutes: 1,
        ratio: 1.2,
        verdict: 'within',
      },
      {
        operationKey: 'sweep',
        name: 'Sweep',
        plannedMinutes: { low: 0, likely: 0, high: 0 },
        actualMinutes: 4,
        differenceMinutes: 4,
        ratio: null,
        verdict: 'notPlanned',
      },
    ])
  })
})
