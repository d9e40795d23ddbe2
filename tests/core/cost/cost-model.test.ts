import { describe, expect, it } from 'vitest'
import {
  type CostCount,
  type CostItem,
  type CostModel,
  costAtCents,
  countFactor,
  daysAt,
  itemCents,
} from '@/lib/core/cost/cost-model'
import { estimateModel } from '@/lib/core/cost/estimate'
import type { EstimateInput } from '@/lib/core/cost/estimate-input'
import { defaultShopRates } from '@/lib/core/cost/shop-rates'
import { fixed } from '@/lib/core/cost/spread'

const item = (count: CostCount, more: Partial<CostItem> = {}): CostItem => ({
  key: 'one',
  label: 'One',
  group: 'material',
  quantity: fixed(3),
  centsPerUnit: 100,
  count,
  from: '',
  ...more,
})
const model = (items: readonly CostItem[], more: Partial<CostModel> = {}): CostModel => ({
  goodPieces: 5,
  yieldFraction: 0.9,
  learning: { model: 'unit', rateFraction: 0.8 },
  overheadFactor: 0.5,
  contingencyFraction: 0.1,
  hoursPerDay: 8,
  items,
  ...more,
})

describe('how often an item comes', () => {
  const times = (count: CostCount, starts: number) => countFactor(item(count), model([]), starts)
  it('is once a job, with each start, with each good piece', () => {
    expect([5, 9].map((starts) => times({ kind: 'job' }, starts))).toEqual([1, 1])
    expect([5, 9].map((starts) => times({ kind: 'start', learns: false }, starts))).toEqual([5, 9])
    expect([5, 9].map((starts) => times({ kind: 'good', learns: false }, starts))).toEqual([5, 5])
  })
  it('is less where hands learn: 1 + 0.8 + 0.7021 + 0.64 + 0.5956 for five at 80 percent', () => {
    // The learning-curve tables' 3.7377 of five, 4.2994 of six.
    expect(times({ kind: 'start', learns: true }, 5)).toBeCloseTo(3.7377, 4)
    expect(times({ kind: 'start', learns: true }, 6)).toBeCloseTo(4.2994, 4)
    expect(times({ kind: 'good', learns: true }, 6)).toBeCloseTo(3.7377, 4)
  })
  it('is only past those paid for, and by the batch begun', () => {
    expect([5, 6, 9].map((starts) => times({ kind: 'startBeyond', includedStarts: 6 }, starts))).toEqual([
      0, 0, 3,
    ])
    expect([5, 6, 7].map((starts) => times({ kind: 'startBatch', piecesPerBatch: 3 }, starts))).toEqual([
      2, 2, 3,
    ])
    expect([5, 9].map((starts) => times({ kind: 'goodBatch', piecesPerBatch: 2 }, starts))).toEqual([3, 3])
  })
})

describe('what a job comes to', () => {
  const likely = (one: CostItem) => one.quantity.likely
  it('puts overhead on labour, contingency on all, and least charges before both', () => {
    // By hand, 6 starts: labour 6 · 3 · 100 = 1800, with overhead 2700; material 3 · 100 = 300 raised to 450; together 3150, with a tenth 3465.
    const both = model([
      item({ kind: 'start', learns: false }, { group: 'labour' }),
      item({ kind: 'job' }, { minimumCents: 450 }),
    ])
    expect(costAtCents(both, 6, likely)).toBeCloseTo(3465, 9)
    expect(itemCents(both.items[1] ?? item({ kind: 'job' }), both, 6, 3)).toBe(450)
    expect(itemCents(both.items[1] ?? item({ kind: 'job' }), both, 6, 5)).toBe(500)
  })
  it('takes days of minutes and days of waiting', () => {
    // By hand: 6 starts of 3 units of 40 minutes are 720 of 480 a day: 1.5; and 3 days once.
    const both = model([
      item({ kind: 'start', learns: false }, { minutesPerUnit: 40 }),
      item({ kind: 'job' }, { daysPerUnit: 1 }),
      item({ kind: 'job' }),
    ])
    expect(daysAt(both, 6, likely)).toBeCloseTo(4.5, 9)
  })
})

describe('the materials of an estimate', () => {
  const input: EstimateInput = {
    way: 'lowMelt',
    pieceCount: 6,
    part: {
      family: 'aluminium',
      sectionAreaMm2: 443.5,
      wallMm: 3.175,
      perimeterMm: 152.4,
      boreAreaMm2: 1008,
      cutLengthMm: 1400,
      massKg: 1.68,
      bendAnglesDeg: [32, 45],
      planeChangeCount: 1,
      angleToleranceDeg: 1,
      startCut: 'square',
      endCut: 'mitre',
      holeCount: 0,
      featureCount: 8,
      fillerKg: 13.2,
      weldedEndCount: 0,
      dyePenetrant: false,
    },
    rates: {
      ...defaultShopRates,
      materialScrapFraction: 0.05,
      freightInCents: 2500,
      boreOilCentsPerM: 40,
      fillerLossFraction: { low: 0.01, likely: 0.02, high: 0.03 },
      fillerCentsPerKg: 3000,
    },
    material: { plannedStarts: 8, plannedCents: 18_000, extraStartCents: 2400, from: 'two bars of 6 m' },
  }
  const itemOf = (key: string, change: Partial<EstimateInput> = {}) =>
    estimateModel({ ...input, ...change }).items.find((one) => one.key === key)
  it('are the bars planned and 5 percent of scrap, more for each start past them, and freight', () => {
    expect(itemOf('material')?.centsPerUnit).toBeCloseTo(18_900, 9)
    expect(itemOf('materialExtra')).toMatchObject({
      centsPerUnit: expect.closeTo(2520, 9),
      count: { kind: 'startBeyond', includedStarts: 8 },
    })
    expect(itemOf('freightIn')?.centsPerUnit).toBe(2500)
    const given = { ...input.material, plannedCents: 0, extraStartCents: 0 }
    expect(itemOf('freightIn', { material: given })).toBeUndefined()
    expect(itemOf('materialExtra', { material: given })).toBeUndefined()
  })
  it('lose 2 percent of 13.2 kg of filler a start, and oil 1.4 m of bore', () => {
    expect(itemOf('fillerLoss')).toMatchObject({ centsPerUnit: 3000, count: { kind: 'start' } })
    expect(itemOf('fillerLoss')?.quantity.likely).toBeCloseTo(0.264, 9)
    expect(itemOf('boreOil')).toMatchObject({ centsPerUnit: 40 })
    expect(itemOf('boreOil')?.quantity.likely).toBeCloseTo(1.4, 9)
    expect(itemOf('fillerLoss', { way: 'hollow' })).toBeUndefined()
    expect(itemOf('boreOil', { way: 'hollow' })).toBeUndefined()
  })
})
