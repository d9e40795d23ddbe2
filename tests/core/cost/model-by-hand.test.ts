import { describe, expect, it } from 'vitest'
import { type CostItem, type CostModel, costMoments, sampleCostModel } from '@/lib/core/cost/cost-model'
import type { CostedPart } from '@/lib/core/cost/costed-part'
import { estimateCost, estimateModel, startsOutlook } from '@/lib/core/cost/estimate'
import type { OperationOverride } from '@/lib/core/cost/operation'
import { defaultShopRates, type ShopRates } from '@/lib/core/cost/shop-rates'
import { fixed, type ThreePoint } from '@/lib/core/cost/spread'

const item = (more: Partial<CostItem>): CostItem => ({
  key: 'one',
  label: 'One',
  group: 'material',
  quantity: fixed(1),
  centsPerUnit: 100,
  count: { kind: 'job' },
  from: '',
  ...more,
})
const model = (items: readonly CostItem[], more: Partial<CostModel> = {}): CostModel => ({
  goodPieces: 1,
  yieldFraction: 0.5,
  learning: { model: 'unit', rateFraction: 1 },
  overheadFactor: 0.5,
  contingencyFraction: 0.1,
  hoursPerDay: 8,
  items,
  ...more,
})
const perStart = { kind: 'start', learns: false } as const

describe('the mean and spread of a cost, worked by hand', () => {
  // PERT 0, 1, 5: mean 9/6 = 1.5, variance 1.5 x 3.5 / 7 = .75. Starts for one good piece at a half: mean 2, variance 2, mean square 6.
  const spread = { low: 0, likely: 1, high: 5 }

  it('is that of starts and quantity together', () => {
    // Mean 100 x 1.5 x 2 = 300; variance 10^4 (6 x .75 + 2 x 1.5^2) = 90 000. A day a unit: 3 days, spread 3.
    const found = costMoments(
      model([item({ quantity: spread, count: perStart, daysPerUnit: 1 })], { contingencyFraction: 0 }),
    )
    expect(found.meanCents).toBeCloseTo(300, 4)
    expect(found.sdCents).toBeCloseTo(300, 3)
    expect(found.meanDays).toBeCloseTo(3, 6)
    expect(found.sdDays).toBeCloseTo(3, 5)
  })

  it('puts overhead on labour and contingency on all, and neither on days', () => {
    // Labour 1.5 x 1.1 = 1.65 times: 495; minutes 240 a unit of an eight-hour day: half a day.
    const labour = item({ quantity: spread, count: perStart, group: 'labour', minutesPerUnit: 240 })
    const found = costMoments(model([labour]))
    expect(found.meanCents).toBeCloseTo(495, 4)
    expect(found.sdCents).toBeCloseTo(495, 3)
    expect(found.meanDays).toBeCloseTo(1.5, 6)
    expect(found.sdDays).toBeCloseTo(1.5, 5)
  })

  it('adds variances of what is independent', () => {
    // Without bad pieces: two at 10 cents a unit, 10^2 x .75 each, sd sqrt(150) = 12.247, times 1.1.
    const two = [
      item({ quantity: spread, centsPerUnit: 10 }),
      item({ key: 'two', quantity: spread, centsPerUnit: 10 }),
    ]
    const found = costMoments(model(two, { yieldFraction: 1 }))
    expect(found.meanCents).toBeCloseTo(1.1 * 30, 9)
    expect(found.sdCents).toBeCloseTo(1.1 * Math.sqrt(150), 9)
  })

  it('raises what is certain to its least charge, and does not know a spread one’s mean', () => {
    const least = item({ minimumCents: 450 })
    expect(costMoments(model([least], { yieldFraction: 1 })).meanCents).toBeCloseTo(495, 9)
    expect(costMoments(model([item({ minimumCents: 50 })], { yieldFraction: 1 })).meanCents).toBeCloseTo(
      110,
      9,
    )
    expect(() => costMoments(model([item({ minimumCents: 450, quantity: spread })]))).toThrow(
      new RangeError('"One" has a spread and a least charge: its mean is known by sampling only.'),
    )
    expect(() => costMoments(model([item({ minimumCents: 0, quantity: spread })]))).not.toThrow()
  })
})

describe('drawn orders', () => {
  const run = { seed: 7, drawCount: 4000 }

  it('of what is certain all cost the same', () => {
    // By hand: labour 2 x 100 x 1.5, material raised to 450, a tenth on both: 825; 120 minutes and 3 days.
    const certain = model(
      [
        item({ quantity: fixed(2), group: 'labour', minutesPerUnit: 60 }),
        item({ key: 'two', minimumCents: 450, daysPerUnit: 3 }),
      ],
      { yieldFraction: 1 },
    )
    const draws = sampleCostModel(certain, run)
    expect([...new Set(draws.costCents)]).toEqual([expect.closeTo(825, 9)])
    expect([...new Set(draws.days)]).toEqual([expect.closeTo(3.25, 9)])
    expect([...new Set(draws.starts)]).toEqual([1])
    expect(draws.costCents).toHaveLength(4000)
  })

  it('cost by their starts, which come half and half of what is left', () => {
    const draws = sampleCostModel(model([item({ count: perStart })], { contingencyFraction: 0 }), run)
    draws.costCents.forEach((cents, i) => expect(cents).toBe(100 * (draws.starts[i] ?? 0)))
    // One start in half the orders, two in a quarter, three in an eighth: within four standard errors of 4000 draws.
    for (const [starts, chance] of [
      [1, 0.5],
      [2, 0.25],
      [3, 0.125],
    ] as const) {
      const share = draws.starts.filter((one) => one === starts).length / 4000
      expect(Math.abs(share - chance)).toBeLessThan(4 * Math.sqrt((chance * (1 - chance)) / 4000))
    }
    expect(Math.min(...draws.starts)).toBe(1)
  })

  it('of a spread quantity keep its ends and its least charge', () => {
    const spread = { low: 2, likely: 3, high: 6 }
    const bare = { yieldFraction: 1, contingencyFraction: 0 }
    const draws = sampleCostModel(model([item({ quantity: spread, daysPerUnit: 1 })], bare), run)
    expect(Math.min(...draws.costCents)).toBeGreaterThan(200)
    expect(Math.max(...draws.costCents)).toBeLessThan(600)
    draws.days.forEach((days, i) => expect(100 * days).toBeCloseTo(draws.costCents[i] ?? 0, 9))
    const least = sampleCostModel(model([item({ quantity: spread, minimumCents: 300 })], bare), run)
    least.costCents.forEach((cents, i) =>
      expect(cents).toBeCloseTo(Math.max(300, draws.costCents[i] ?? 0), 9),
    )
  })

  it('are refused of no good piece, of a yield or a day that cannot be', () => {
    for (const ask of [costMoments, (one: CostModel) => sampleCostModel(one, run)]) {
      for (const goodPieces of [0, 1.5]) {
        expect(() => ask(model([], { goodPieces }))).toThrow(
          new RangeError(`A job makes one good piece or more, not ${goodPieces}.`),
        )
      }
      for (const yieldFraction of [0, -0.5, 1.1]) {
        expect(() => ask(model([], { yieldFraction }))).toThrow(
          new RangeError(`A first-pass yield lies above 0 and up to 1, not ${yieldFraction}.`),
        )
      }
      for (const hoursPerDay of [0, -8]) {
        expect(() => ask(model([], { hoursPerDay }))).toThrow(
          new RangeError(`A working day has hours, not ${hoursPerDay}.`),
        )
      }
    }
  })
})

describe('an estimate of pieces that may fail', () => {
  const part: CostedPart = {
    family: 'aluminium',
    sectionAreaMm2: 400,
    wallMm: 3,
    perimeterMm: 150,
    boreAreaMm2: 1000,
    cutLengthMm: 1500,
    massKg: 1.62,
    bendAnglesDeg: [],
    planeChangeCount: 0,
    angleToleranceDeg: 1,
    startCut: 'square',
    endCut: 'square',
    holeCount: 0,
    featureCount: 7,
    fillerKg: 0,
    weldedEndCount: 0,
    dyePenetrant: false,
  }
  const rates: ShopRates = {
    ...defaultShopRates,
    labourCentsPerH: {
      ...defaultShopRates.labourCentsPerH,
      saw: 6000,
      bench: 6000,
      office: 6000,
      inspection: 6000,
    },
    allowanceFraction: 0,
    learning: { model: 'unit', rateFraction: 1 },
    overheadFactor: 0.5,
    contingencyFraction: 0.1,
    consumablesPerJobCents: 0,
    consumablesPerPieceCents: 150,
    freightInCents: 0,
    firstPassYieldFraction: 0.8,
    queueDays: { low: 1, likely: 2, high: 3 },
  }
  const none = ['readJob', 'deburr', 'mark', 'trimEnds', 'inspect', 'pack'] as const
  const byHand = (
    operationKey: OperationOverride['operationKey'],
    field: OperationOverride['field'],
    value: ThreePoint,
  ) => ({
    operationKey,
    field,
    value,
    reason: 'by hand',
  })
  const overrides: OperationOverride[] = [
    ...none.flatMap((key) => [
      byHand(key, 'setUpMinutes', fixed(0)),
      byHand(key, 'runMinutesPerPiece', fixed(0)),
    ]),
    byHand('saw', 'setUpMinutes', fixed(0)),
    byHand('saw', 'runMinutesPerPiece', { low: 4, likely: 6, high: 12 }),
    byHand('saw', 'elapsedMinutes', fixed(60)),
  ]
  const input = {
    way: 'hollow',
    pieceCount: 5,
    part,
    rates,
    material: { plannedStarts: 6, plannedCents: 4000, extraStartCents: 500, from: 'by hand' },
    overrides,
    sample: { seed: 1, drawCount: 200 },
  } as const
  const estimate = () => estimateCost(input)
  // Five good at 0.8: 6.25 starts expected, 7 likely, 8 in nine of ten. A minute costs 100 cents.

  it('has low lines of five starts, likely ones of seven and high ones of eight', () => {
    // Sawing 5 x 4, 7 x 6, 8 x 12 minutes; consumables 1.50 each; tube 40.00 and 5.00 for each start past six; half on labour; a tenth on all.
    expect(
      estimate().lines.map((line) => [line.key, line.lowCents, line.likelyCents, line.highCents]),
    ).toEqual([
      ['saw:run', 2000, 4200, 9600],
      ['material', 4000, 4000, 4000],
      ['materialExtra', 0, 500, 1000],
      ['consumablesJob', 0, 0, 0],
      ['consumablesPiece', 750, 1050, 1200],
      ['overhead', 1000, 2100, 4800],
      ['contingency', 775, 1185, 2060],
    ])
    expect(estimate().likelyCents).toBe(13_035)
    expect(estimate().lines.at(-2)?.from).toBe('50 percent of labour')
    expect(estimate().lines.at(-1)?.from).toBe('10 percent of all above')
  })

  it('has hours and days of as many starts', () => {
    // 20, 42 and 96 minutes of work; in days of 480 with an hour's wait a start, and 1, 2 and 3 days in the queue.
    expect(estimate().labourHours).toEqual({
      low: expect.closeTo(20 / 60, 9),
      likely: expect.closeTo(0.7, 9),
      high: expect.closeTo(1.6, 9),
    })
    expect(estimate().days).toEqual({
      low: expect.closeTo(1 + (20 + 5 * 60) / 480, 9),
      likely: expect.closeTo(2 + (42 + 7 * 60) / 480, 9),
      high: expect.closeTo(3 + (96 + 8 * 60) / 480, 9),
    })
  })

  it('costs a piece its fifth of the order', () => {
    const { costPerPieceCents, costCents } = estimate()
    for (const key of ['p10', 'p50', 'mean', 'p90'] as const) {
      expect(costPerPieceCents[key]).toBeCloseTo(costCents[key] / 5, 9)
    }
    expect(estimate()).toMatchObject({ way: 'hollow', pieceCount: 5, sample: { seed: 1, drawCount: 200 } })
  })

  it('takes the yield it is given before the shop’s', () => {
    expect(estimateModel(input).yieldFraction).toBe(0.8)
    expect(estimateModel({ ...input, firstPassYieldFraction: 0.95 }).yieldFraction).toBe(0.95)
  })

  it('expects whole starts where they come out whole, and refuses part of a piece', () => {
    // 9 / 0.9 = 10; 4 / 0.8 = 5.
    expect(startsOutlook(9, 0.9)).toMatchObject({ expected: expect.closeTo(10, 12), likely: 10 })
    expect(startsOutlook(4, 1)).toEqual({ expected: 4, sd: 0, likely: 4, p90: 4 })
    for (const pieceCount of [0, 1.5]) {
      expect(() => estimateModel({ ...input, pieceCount })).toThrow(
        new RangeError(`An order is for one piece or more, not ${pieceCount}.`),
      )
    }
  })
})
