import jStat from 'jstat'
import { costMoments, sampleCostModel } from '@/lib/core/cost/cost-model'
import {
  marginAndMarkup,
  marginFromMarkup,
  markupFromMargin,
  priceByMarginCents,
  priceByMarkupCents,
  roundPriceCents,
} from '@/lib/core/cost/money'
import { sampleSpread, summariseDraws } from '@/lib/core/cost/spread'
import { startsForConfidence } from '@/lib/core/cost/yield'
import { outsideCheck } from '@/tests/support/outside-check'

export function quotingChecks(): void {
  const pairs = {
    part: 'cost',
    source: 'Definitions of margin and markup, m = k / (1 + k)',
    kind: 'by hand',
  } as const
  // A fifth on the price is a quarter on the cost, and so on: the pairs every price book has.
  for (const [markupPct, marginPct] of [
    [25, 20],
    [50, 100 / 3],
    [200 / 3, 40],
    [100, 50],
    [300, 75],
  ] as const) {
    const shown = `${Number(markupPct.toFixed(1))} percent on the cost`
    outsideCheck(
      {
        ...pairs,
        claim: `${shown}, as a share of the price`,
        expected: marginPct,
        tolerance: 1e-9,
        unit: '%',
      },
      () => 100 * marginFromMarkup(markupPct / 100),
    )
    outsideCheck(
      {
        ...pairs,
        claim: `${Number(marginPct.toFixed(1))} percent of the price, as a share on the cost`,
        expected: markupPct,
        tolerance: 1e-9,
        unit: '%',
      },
      () => 100 * markupFromMargin(marginPct / 100),
    )
  }
  const price = { ...pairs, tolerance: 0, unit: '¢' } as const
  outsideCheck({ ...price, claim: 'Cost 70.00 at a margin of 30 percent: price', expected: 10_000 }, () =>
    priceByMarginCents(7000, 300_000),
  )
  outsideCheck({ ...price, claim: 'Cost 70.00 at a markup of 30 percent: price', expected: 9100 }, () =>
    priceByMarkupCents(7000, 300_000),
  )
  outsideCheck(
    { ...price, claim: 'Cost 70.00 sold at 91.00: profit', expected: 2100 },
    () => marginAndMarkup(7000, 9100).profitCents,
  )
  const cash = {
    part: 'cost',
    source: 'Cash rounding to 0.05, Canada, 2013: 1 and 2 down, 3 and 4 up to 5',
    kind: 'second hand',
    tolerance: 0,
    unit: '¢',
  } as const
  for (const [cents, rounded] of [
    [1001, 1000],
    [1002, 1000],
    [1003, 1005],
    [1006, 1005],
    [1008, 1010],
  ] as const) {
    outsideCheck(
      { ...cash, claim: `${(cents / 100).toFixed(2)} to the nearest 0.05`, expected: rounded },
      () => roundPriceCents(cents, { stepCents: 5, direction: 'nearest' }),
    )
  }
  startsChecks()
  samplingChecks()
}

/** The least count of starts at which the library's distribution reaches the share asked for. */
function libraryStarts(good: number, yieldFraction: number, share: number): number {
  let failures = 0
  while (jStat.negbin.cdf(failures, good, yieldFraction) < share) failures += 1
  return good + failures
}

function startsChecks(): void {
  for (const [good, yieldFraction, share] of [
    [1, 0.85, 0.9],
    [6, 0.85, 0.9],
    [20, 0.85, 0.9],
    [6, 0.5, 0.99],
    [60, 0.95, 0.9],
  ] as const) {
    outsideCheck(
      {
        part: 'cost',
        claim: `${good} good at ${yieldFraction}: starts that do ${100 * share} times in 100`,
        source: 'jstat 1.9.6, negative binomial',
        kind: 'independent',
        expected: libraryStarts(good, yieldFraction, share),
        tolerance: 0,
        unit: '',
      },
      () => startsForConfidence(good, yieldFraction, share),
    )
  }
}

/** Seeded draws against what is known without drawing: off by four standard errors at most, which one seed in 16,000 is. */
function samplingChecks(): void {
  const run = { seed: 20_260_101, drawCount: 10_000 }
  const sampled = {
    part: 'cost',
    source: 'Closed form, ± four standard errors of 10,000 draws',
    kind: 'closed form',
    unit: '',
  } as const
  // Triangular 2, 5, 11: mean 6, variance 3.5. Beta of weight 4 on 2, 5, 11: mean 5.5, variance 2.75.
  outsideCheck(
    {
      ...sampled,
      claim: 'Sampled triangle 2, 5, 11: mean',
      expected: 6,
      tolerance: 4 * Math.sqrt(3.5 / run.drawCount),
    },
    () => summariseDraws(sampleSpread({ shape: 'triangular', low: 2, likely: 5, high: 11 }, run)).mean,
  )
  outsideCheck(
    {
      ...sampled,
      claim: 'Sampled beta 2, 5, 11: mean',
      expected: 5.5,
      tolerance: 4 * Math.sqrt(2.75 / run.drawCount),
    },
    () => summariseDraws(sampleSpread({ shape: 'pert', low: 2, likely: 5, high: 11 }, run)).mean,
  )
  // The error of a variance is about its own size times sqrt(2 / n) where tails are no heavier than the normal's.
  outsideCheck(
    {
      ...sampled,
      claim: 'Sampled beta 2, 5, 11: variance',
      expected: 2.75,
      tolerance: Number((4 * 2.75 * Math.sqrt(2 / run.drawCount)).toPrecision(4)),
    },
    () => summariseDraws(sampleSpread({ shape: 'pert', low: 2, likely: 5, high: 11 }, run)).sd ** 2,
  )
  // By hand: n starts for 5 good at .8, each 60.00 of hand labour with overhead 50 percent: mean 6.25 x 90.00, and its spread 1.25 x 90.00.
  const model = {
    goodPieces: 5,
    yieldFraction: 0.8,
    learning: { model: 'unit', rateFraction: 1 },
    overheadFactor: 0.5,
    contingencyFraction: 0,
    hoursPerDay: 8,
    items: [
      {
        key: 'bend',
        label: 'Bend',
        group: 'labour',
        quantity: { low: 60, likely: 60, high: 60 },
        centsPerUnit: 100,
        minutesPerUnit: 1,
        count: { kind: 'start', learns: false },
        from: '',
      },
    ],
  } as const
  const order = { ...sampled, source: 'Negative binomial: Q / p, sqrt(Q (1 − p)) / p', unit: '¢' } as const
  outsideCheck(
    { ...order, claim: 'Cost of 5 good at 0.8, 90.00 a start: mean', expected: 56_250, tolerance: 1e-4 },
    () => costMoments(model).meanCents,
  )
  outsideCheck(
    { ...order, claim: 'Cost of 5 good at 0.8, 90.00 a start: deviation', expected: 11_250, tolerance: 1e-2 },
    () => costMoments(model).sdCents,
  )
  outsideCheck(
    {
      ...order,
      claim: 'The same sampled: mean',
      expected: 56_250,
      tolerance: (4 * 11_250) / Math.sqrt(run.drawCount),
    },
    () => summariseDraws(sampleCostModel(model, run).costCents).mean,
  )
}
