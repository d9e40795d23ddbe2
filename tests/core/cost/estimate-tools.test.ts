import { describe, expect, it } from 'vitest'
import type { CostedPart } from '@/lib/core/cost/costed-part'
import type { EstimateInput } from '@/lib/core/cost/estimate-input'
import { estimateItems } from '@/lib/core/cost/estimate-items'
import type { Operation } from '@/lib/core/cost/operation'
import { defaultShopRates, type ShopRates } from '@/lib/core/cost/shop-rates'
import { fixed, type ThreePoint } from '@/lib/core/cost/spread'

const rates: ShopRates = {
  ...defaultShopRates,
  labourCentsPerH: { ...defaultShopRates.labourCentsPerH, toolmaking: 7200 },
  allowanceFraction: 0.2,
  heatTreat: {
    anneal: { centsPerKg: 600, minimumLotCents: 15_000, freightCents: 4100, days: fixed(5) },
    age: { centsPerKg: 500, minimumLotCents: 12_500, freightCents: 4200, days: fixed(4) },
    solutionAge: { centsPerKg: 1200, minimumLotCents: 25_000, freightCents: 4300, days: fixed(7) },
  },
}
const part: CostedPart = {
  family: 'aluminium',
  sectionAreaMm2: 400,
  wallMm: 3,
  perimeterMm: 150,
  boreAreaMm2: 1000,
  cutLengthMm: 1500,
  massKg: 1.62,
  bendAnglesDeg: [90, 60],
  planeChangeCount: 1,
  angleToleranceDeg: 1,
  startCut: 'square',
  endCut: 'square',
  holeCount: 0,
  featureCount: 7,
  fillerKg: 12,
  weldedEndCount: 2,
  dyePenetrant: true,
}
const input: EstimateInput = {
  way: 'lowMelt',
  pieceCount: 6,
  part,
  rates,
  material: { plannedStarts: 8, plannedCents: 18_000, extraStartCents: 2400, from: 'two bars' },
}
const operation = (key: Operation['key'], more: Partial<Operation> = {}): Operation => ({
  key,
  name: 'Saw to length',
  workCentre: 'saw',
  setUpMinutes: fixed(0),
  runMinutesPerPiece: fixed(0),
  elapsedMinutes: fixed(0),
  piecesPerBatch: 1,
  runsPer: 'start',
  driver: 'one cut',
  source: 'the shop',
  hand: true,
  overridden: [],
  ...more,
})
const items = (change: Partial<EstimateInput> = {}, keys: readonly Operation['key'][] = []) =>
  estimateItems(
    { ...input, ...change },
    keys.map((key) => operation(key)),
  )
const close = ({ low, likely, high }: ThreePoint): ThreePoint => ({
  low: expect.closeTo(low, 9) as number,
  likely: expect.closeTo(likely, 9) as number,
  high: expect.closeTo(high, 9) as number,
})

describe('a tool to make', () => {
  const tool = {
    key: 'die',
    label: 'die R200',
    makeMinutes: { low: 30, likely: 60, high: 90 },
    materialCents: 6000,
  }
  const made = (more: object) => items({ tooling: [{ ...tool, spreadOverJobs: 1, ...more }] })
  const toolItems = (more: object) => made(more).filter(({ key }) => key.startsWith('tooling:'))

  it('is minutes at the tool maker’s rate, with the allowance, and its material', () => {
    // By hand: 30, 60, 90 minutes and a fifth more at 72.00 an hour, 120 cents a minute.
    expect(toolItems({})).toEqual([
      {
        key: 'tooling:die:make',
        label: 'Make die R200',
        group: 'labour',
        quantity: close({ low: 36, likely: 72, high: 108 }),
        centsPerUnit: 120,
        minutesPerUnit: 1,
        count: { kind: 'job' },
        from: 'tool making rate, 20 percent allowance; charged to this job',
      },
      {
        key: 'tooling:die:material',
        label: 'Material for die R200',
        group: 'tooling',
        quantity: fixed(1),
        centsPerUnit: 6000,
        count: { kind: 'job' },
        from: 'charged to this job',
      },
    ])
  })

  it('spread over four jobs costs this one a quarter', () => {
    expect(
      toolItems({ spreadOverJobs: 4 }).map((one) => [one.quantity.likely, one.centsPerUnit, one.from]),
    ).toEqual([
      [expect.closeTo(72, 9), 30, 'tool making rate, 20 percent allowance; one part in 4'],
      [0.25, 6000, 'one part in 4'],
    ])
  })

  it('has no line for what it does not take', () => {
    expect(toolItems({ makeMinutes: fixed(0) }).map(({ key }) => key)).toEqual(['tooling:die:material'])
    expect(toolItems({ materialCents: 0 }).map(({ key }) => key)).toEqual(['tooling:die:make'])
    expect(toolItems({ makeMinutes: { low: 0, likely: 0, high: 9 }, materialCents: 1 })).toHaveLength(2)
  })

  it('is spread over one job or more', () => {
    for (const spreadOverJobs of [0.5, 0, Number.NaN]) {
      expect(() => toolItems({ spreadOverJobs })).toThrow(
        new RangeError(`A tool is spread over one job or more, not ${spreadOverJobs}.`),
      )
    }
    expect(toolItems({ spreadOverJobs: 1.5 })[1]?.quantity.likely).toBeCloseTo(2 / 3, 12)
  })
})

describe('heat treatment outside', () => {
  it.each([
    ['anneal', 600, 15_000, 4100, 5],
    ['age', 500, 12_500, 4200, 4],
    ['solutionAge', 1200, 25_000, 4300, 7],
  ] as const)(
    '%s: by the kilogram with a least charge, freight and days away',
    (key, kg, least, freight, days) => {
      const treatment = estimateItems(input, [
        operation(key, { runsPer: key === 'anneal' ? 'start' : 'good' }),
      ])
      const found = treatment.filter((one) => one.key.startsWith('heatTreat:'))
      expect(found).toMatchObject([
        {
          key: `heatTreat:${key}`,
          group: 'outside',
          quantity: fixed(1.62),
          centsPerUnit: kg,
          minimumCents: least,
          count: { kind: key === 'anneal' ? 'start' : 'good', learns: false },
          from: '1.62 kg a piece, at least the lot charge',
        },
        { key: `heatTreat:${key}:freight`, group: 'outside', centsPerUnit: freight, count: { kind: 'job' } },
        {
          key: `heatTreat:${key}:days`,
          group: 'waiting',
          quantity: fixed(days),
          centsPerUnit: 0,
          daysPerUnit: 1,
          count: { kind: 'job' },
        },
      ])
      expect(found).toHaveLength(3)
    },
  )

  it('is not charged where the way has none', () => {
    expect(items({}, ['saw']).filter(({ key }) => key.startsWith('heatTreat:'))).toEqual([])
  })
})
