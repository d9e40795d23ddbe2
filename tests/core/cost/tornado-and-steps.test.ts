import { describe, expect, it } from 'vitest'
import type { CostItem, CostModel } from '@/lib/core/cost/cost-model'
import { estimateCost } from '@/lib/core/cost/estimate'
import type { EstimateInput } from '@/lib/core/cost/estimate-input'
import { estimateSteps, withFittingOverrides } from '@/lib/core/cost/estimate-steps'
import { defaultShopRates } from '@/lib/core/cost/shop-rates'
import { fixed } from '@/lib/core/cost/spread'
import { tornado } from '@/lib/core/cost/tornado'

describe('what moves an order’s cost', () => {
  const item = (key: string, more: Partial<CostItem>): CostItem => ({
    key,
    label: `the ${key}`,
    group: 'material',
    quantity: fixed(1),
    centsPerUnit: 1,
    count: { kind: 'job' },
    from: '',
    ...more,
  })
  const model = (items: CostItem[], yieldFraction = 1): CostModel => ({
    goodPieces: 5,
    yieldFraction,
    learning: { model: 'unit', rateFraction: 1 },
    overheadFactor: 0,
    contingencyFraction: 0,
    hoursPerDay: 8,
    items,
  })
  // A likely value at the low end is Beta(1, 5): a share 1 - (1 - x)^5 below x. Tenths: 1 - .9^.2 = .0208516, 1 - .1^.2 = .3690427; mean 1/6.
  const few = item('few', { quantity: { low: 0, likely: 0, high: 1200 } })
  const many = item('many', { quantity: { low: 0, likely: 0, high: 6000 } })

  it('is each thing in turn at its tenths, the others at their means, the largest first', () => {
    // By hand: 50 fixed; few 25.022 to 442.851, mean 200; many 125.110 to 2214.256, mean 1000.
    const bars = tornado(model([few, item('fixed', { centsPerUnit: 50 }), many]))
    expect(bars.map(({ key, label }) => [key, label])).toEqual([
      ['many', 'the many'],
      ['few', 'the few'],
    ])
    expect(bars[0]?.lowCents).toBeCloseTo(50 + 200 + 125.11, 2)
    expect(bars[0]?.highCents).toBeCloseTo(50 + 200 + 2214.256, 2)
    expect(bars[0]?.swingCents).toBeCloseTo(2214.256 - 125.11, 2)
    expect(bars[1]?.lowCents).toBeCloseTo(50 + 25.022 + 1000, 2)
    expect(bars[1]?.highCents).toBeCloseTo(50 + 442.851 + 1000, 2)
  })

  it('is neither what is certain nor what only waits', () => {
    const waits = item('waits', { group: 'waiting', quantity: { low: 0, likely: 1, high: 9 } })
    expect(tornado(model([item('fixed', {}), waits]))).toEqual([])
  })

  it('is also the starts, where some come out bad', () => {
    // Five good at 0.8: five starts .328, six .655, seven .852, eight .944: tenths at 5 and 8, the middle at 6.
    const each = item('each', { centsPerUnit: 100, count: { kind: 'start', learns: false } })
    expect(tornado(model([each], 0.8))).toEqual([
      { key: 'starts', label: 'Starts for the good pieces', lowCents: 500, highCents: 800, swingCents: 300 },
    ])
    const bars = tornado(model([each, few], 0.8))
    expect(bars.map(({ key }) => key)).toEqual(['few', 'starts'])
    expect(bars[0]?.lowCents).toBeCloseTo(600 + 25.022, 2)
    // 500 and 800 with the mean of the few.
    expect(bars[1]).toMatchObject({ lowCents: 700, highCents: 1000 })
  })

  it('is told of the first so many', () => {
    expect(tornado(model([few, many]), 1).map(({ key }) => key)).toEqual(['many'])
    const twenty = Array.from({ length: 20 }, (_, i) => ({ ...few, key: `few ${i}` }))
    expect(tornado(model(twenty))).toHaveLength(12)
  })
})

const before: EstimateInput = {
  way: 'hollow',
  pieceCount: 6,
  part: {
    family: 'aluminium',
    sectionAreaMm2: 444,
    wallMm: 3.175,
    perimeterMm: 152.4,
    boreAreaMm2: 1000,
    cutLengthMm: 1300,
    massKg: 1.56,
    bendAnglesDeg: [32],
    planeChangeCount: 0,
    angleToleranceDeg: 1,
    startCut: 'square',
    endCut: 'square',
    holeCount: 0,
    featureCount: 7,
    fillerKg: 10,
    weldedEndCount: 0,
    dyePenetrant: false,
  },
  rates: { ...defaultShopRates, overheadFactor: 0.5, contingencyFraction: 0.1 },
  material: { plannedStarts: 8, plannedCents: 20_000, extraStartCents: 2500, from: 'by hand' },
  firstPassYieldFraction: 0.9,
  sample: { seed: 1, drawCount: 400 },
}
const expected = (input: EstimateInput) => Math.round(estimateCost(input).costCents.mean)
const moved = (one: EstimateInput, other: EstimateInput) =>
  Object.fromEntries(estimateSteps(one, other).map(({ key, changeCents }) => [key, changeCents]))
const none = { way: 0, tools: 0, tube: 0, rates: 0, yield: 0, times: 0 }

describe('the steps from one estimate to another', () => {
  it('begin at the one, end at the other, each where the last ended', () => {
    const after: EstimateInput = {
      ...before,
      way: 'sand',
      material: { ...before.material, plannedCents: 26_000 },
      firstPassYieldFraction: 0.7,
    }
    const steps = estimateSteps(before, after)
    expect(steps.map(({ key }) => key)).toEqual(['way', 'tools', 'tube', 'rates', 'yield', 'times'])
    expect(steps[0]?.beforeCents).toBe(expected(before))
    expect(steps.at(-1)?.afterCents).toBe(expected(after))
    steps.forEach((step, index) => {
      expect(step.changeCents).toBe(step.afterCents - step.beforeCents)
      if (index > 0) expect(step.beforeCents).toBe(steps[index - 1]?.afterCents)
    })
  })

  it('count a die to make as tools: 60 minutes and 60.00 are 217.80 with all that goes on them', () => {
    // By hand: 60 x 1.15 at 80.00 an hour = 92.00, overhead a half: 138.00; with 60.00 of material 198.00, a tenth more 217.80.
    const tooling = [
      { key: 'die', label: 'die', makeMinutes: fixed(60), materialCents: 6000, spreadOverJobs: 1 },
    ]
    expect(moved(before, { ...before, tooling })).toEqual({ ...none, tools: 21_780 })
    expect(moved({ ...before, tooling }, before)).toEqual({ ...none, tools: -21_780 })
  })

  it('count another part, support or strap with the way', () => {
    const way = (after: EstimateInput) => {
      const { way: change, ...others } = moved(before, after)
      expect(Object.values(others)).toEqual([0, 0, 0, 0, 0])
      return change
    }
    expect(way({ ...before, part: { ...before.part, holeCount: 4 } })).toBeGreaterThan(0)
    expect(way({ ...before, strap: true })).toBeGreaterThan(0)
    const soft: EstimateInput = { ...before, way: 't4ThenAged', support: 'lowMelt' }
    expect(way(soft)).toBeGreaterThan(way({ ...soft, support: 'hollow' }) ?? 0)
  })

  it('count a yield that the shop’s rates bring as yield, not as rates', () => {
    // Nobody set a yield: it is the shop's, before and after.
    const { firstPassYieldFraction: _, ...shop } = before
    const poorer = { ...shop, rates: { ...shop.rates, firstPassYieldFraction: 0.6 } }
    const change = moved(shop, poorer)
    expect(change.rates).toBe(0)
    expect(change.yield).toBe(expected(poorer) - expected(shop))
    expect(change.yield).toBeGreaterThan(0)
    expect(estimateSteps(shop, shop)[0]?.beforeCents).toBe(expected(shop))
    // One that was set stands against the shop's.
    expect(moved(before, shop).yield).toBe(expected(shop) - expected(before))
  })

  it('count times set by hand and taken back as times', () => {
    const overrides = [
      { operationKey: 'setUpPress', field: 'setUpMinutes', value: fixed(0), reason: 'stays on' },
    ] as const
    const set = moved(before, { ...before, overrides })
    expect(set).toEqual({ ...none, times: expected({ ...before, overrides }) - expected(before) })
    expect(set.times).toBeLessThan(0)
    expect(moved({ ...before, overrides }, before)).toEqual({ ...none, times: -(set.times ?? 0) })
  })

  it('are refused between two quantities, with both named', () => {
    expect(() => estimateSteps(before, { ...before, pieceCount: 7 })).toThrow(
      new RangeError('Only estimates of one quantity are set against each other, not 6 and 7.'),
    )
  })
})

describe('times set by hand', () => {
  const overrides = [
    { operationKey: 'fill', field: 'setUpMinutes', value: fixed(5), reason: 'pot is hot' },
    { operationKey: 'saw', field: 'setUpMinutes', value: fixed(5), reason: 'new saw' },
  ] as const

  it('wait where the way has no such operation', () => {
    const keys = (way: 'hollow' | 'lowMelt') =>
      withFittingOverrides({ ...before, way, overrides }).overrides?.map(({ operationKey }) => operationKey)
    expect(keys('hollow')).toEqual(['saw'])
    expect(keys('lowMelt')).toEqual(['fill', 'saw'])
  })

  it('leave an estimate without any as it is', () => {
    expect(withFittingOverrides(before)).toBe(before)
    const empty = { ...before, overrides: [] }
    expect(withFittingOverrides(empty)).toBe(empty)
  })
})
