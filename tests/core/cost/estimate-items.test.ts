import { describe, expect, it } from 'vitest'
import type { CostItem } from '@/lib/core/cost/cost-model'
import type { CostedPart } from '@/lib/core/cost/costed-part'
import type { EstimateInput } from '@/lib/core/cost/estimate-input'
import { estimateItems, operationItems } from '@/lib/core/cost/estimate-items'
import type { Operation } from '@/lib/core/cost/operation'
import { defaultShopRates, type ShopRates } from '@/lib/core/cost/shop-rates'
import { fixed, type ThreePoint } from '@/lib/core/cost/spread'

const rates: ShopRates = {
  ...defaultShopRates,
  labourCentsPerH: { ...defaultShopRates.labourCentsPerH, saw: 6000, toolmaking: 7200 },
  allowanceFraction: 0.2,
  learning: { model: 'unit', rateFraction: 0.9 },
  materialScrapFraction: 0.05,
  freightInCents: 2500,
  fillerCentsPerKg: 3000,
  fillerLossFraction: { low: 0.01, likely: 0.02, high: 0.05 },
  sandCentsPerLitre: 150,
  sandLossFraction: { low: 0.02, likely: 0.04, high: 0.1 },
  consumablesPerJobCents: 800,
  consumablesPerPieceCents: 150,
  boreOilCentsPerM: 40,
  weldConsumablesCentsPerM: 900,
  dyePenetrantCentsPerBend: 120,
  queueDays: { low: 1, likely: 3, high: 8 },
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
const itemOf = (key: string, change: Partial<EstimateInput> = {}, keys: readonly Operation['key'][] = []) =>
  items(change, keys).find((one) => one.key === key)
const close = ({ low, likely, high }: ThreePoint): ThreePoint => ({
  low: expect.closeTo(low, 9) as number,
  likely: expect.closeTo(likely, 9) as number,
  high: expect.closeTo(high, 9) as number,
})

describe('an operation’s cost', () => {
  const sawn = (more: Partial<Operation>): CostItem[] => operationItems(operation('saw', more), rates)

  it('is nothing where it takes no time', () => {
    expect(sawn({})).toEqual([])
  })

  it('has its set-up once a job, at the rate of its place, the allowance put on', () => {
    // By hand: 10, 20, 30 minutes and a fifth more; 60.00 an hour is 100 cents a minute.
    expect(sawn({ setUpMinutes: { low: 10, likely: 20, high: 30 } })).toEqual([
      {
        key: 'saw:setUp',
        label: 'Saw to length: set-up',
        group: 'labour',
        quantity: close({ low: 12, likely: 24, high: 36 }),
        centsPerUnit: 100,
        minutesPerUnit: 1,
        count: { kind: 'job' },
        from: 'one cut; saw rate, 20 percent allowance',
      },
    ])
  })

  it('has its run with each start or good piece, learnt where a hand does it', () => {
    const run = { runMinutesPerPiece: { low: 1, likely: 2, high: 4 } }
    expect(sawn(run)).toEqual([
      {
        key: 'saw:run',
        label: 'Saw to length',
        group: 'labour',
        quantity: close({ low: 1.2, likely: 2.4, high: 4.8 }),
        centsPerUnit: 100,
        minutesPerUnit: 1,
        count: { kind: 'start', learns: true },
        from: 'one cut; each start, learning 90 percent; saw rate, 20 percent allowance',
      },
    ])
    expect(sawn({ ...run, hand: false, runsPer: 'good' })[0]).toMatchObject({
      count: { kind: 'good', learns: false },
      from: 'one cut; each good piece; saw rate, 20 percent allowance',
    })
    const noLearning = { ...rates, learning: { model: 'unit', rateFraction: 1 } } as const
    expect(operationItems(operation('saw', run), noLearning)[0]).toMatchObject({
      count: { kind: 'start', learns: false },
      from: 'one cut; each start; saw rate, 20 percent allowance',
    })
  })

  it('waits by the batch for no money, without an allowance', () => {
    const wait = { elapsedMinutes: { low: 30, likely: 60, high: 90 }, piecesPerBatch: 3 }
    expect(sawn(wait)).toEqual([
      {
        key: 'saw:elapsed',
        label: 'Saw to length: waiting',
        group: 'waiting',
        quantity: { low: 30, likely: 60, high: 90 },
        centsPerUnit: 0,
        minutesPerUnit: 1,
        count: { kind: 'startBatch', piecesPerBatch: 3 },
        from: 'nobody stands by; 3 pieces at a time',
      },
    ])
    expect(sawn({ ...wait, runsPer: 'good' })[0]?.count).toEqual({ kind: 'goodBatch', piecesPerBatch: 3 })
  })

  it('counts what may take time and most likely takes none', () => {
    const may = { low: 0, likely: 0, high: 5 }
    const all = sawn({ setUpMinutes: may, runMinutesPerPiece: may, elapsedMinutes: may })
    expect(all.map(({ key }) => key)).toEqual(['saw:setUp', 'saw:run', 'saw:elapsed'])
  })
})

describe('an estimate’s items', () => {
  it('stand in order: the queue, the work, tube, filler, consumables, tools, heat treatment', () => {
    const tooling = [
      { key: 'die', label: 'die', makeMinutes: fixed(60), materialCents: 6000, spreadOverJobs: 1 },
    ]
    const found = estimateItems({ ...input, way: 't4ThenAged', tooling }, [
      operation('saw', { setUpMinutes: fixed(1) }),
      operation('cleanBore'),
      operation('fitWeld'),
      operation('dyePenetrant'),
      operation('age'),
    ])
    expect(found.map(({ key }) => key)).toEqual([
      'queue',
      'saw:setUp',
      'material',
      'materialExtra',
      'freightIn',
      'fillerLoss',
      'consumablesJob',
      'consumablesPiece',
      'boreOil',
      'weldConsumables',
      'penetrant',
      'tooling:die:make',
      'tooling:die:material',
      'heatTreat:age',
      'heatTreat:age:freight',
      'heatTreat:age:days',
    ])
  })

  it('wait for their turn in days, for no money', () => {
    expect(itemOf('queue')).toMatchObject({
      group: 'waiting',
      quantity: { low: 1, likely: 3, high: 8 },
      centsPerUnit: 0,
      daysPerUnit: 1,
      count: { kind: 'job' },
    })
  })

  it('hold the tube planned and 5 percent more, once, and each start past it', () => {
    // By hand: 180.00 and 24.00 and a twentieth.
    expect(itemOf('material')).toMatchObject({
      group: 'material',
      quantity: fixed(1),
      centsPerUnit: expect.closeTo(18_900, 9),
      count: { kind: 'job' },
      from: 'two bars; for 8 starts',
    })
    expect(itemOf('materialExtra')).toMatchObject({
      group: 'material',
      quantity: fixed(1),
      centsPerUnit: expect.closeTo(2520, 9),
      count: { kind: 'startBeyond', includedStarts: 8 },
      from: 'each start past 8',
    })
    expect(itemOf('freightIn')).toMatchObject({
      group: 'material',
      centsPerUnit: 2500,
      count: { kind: 'job' },
    })
  })

  it('hold no freight where it or the tube is free', () => {
    expect(itemOf('freightIn', { rates: { ...rates, freightInCents: 0 } })).toBeUndefined()
    expect(itemOf('freightIn', { material: { ...input.material, plannedCents: 0 } })).toBeUndefined()
    expect(itemOf('freightIn', { rates: { ...rates, freightInCents: 1 } })?.centsPerUnit).toBe(1)
  })
})

describe('what is lost of the filling', () => {
  it('is a share of the filler of each start', () => {
    // By hand: 12 kg at 1, 2 and 5 percent.
    expect(itemOf('fillerLoss')).toMatchObject({
      group: 'filler',
      quantity: close({ low: 0.12, likely: 0.24, high: 0.6 }),
      centsPerUnit: 3000,
      count: { kind: 'start', learns: false },
      from: '12 kg poured a start, 2 percent lost',
    })
  })

  it('is a share of the sand that the bore holds', () => {
    // By hand: 1000 mm² over 1500 mm are 1.5 litres; 2, 4 and 10 percent of it.
    expect(itemOf('sandLoss', { way: 'sand' })).toMatchObject({
      group: 'filler',
      quantity: close({ low: 0.03, likely: 0.06, high: 0.15 }),
      centsPerUnit: 150,
      count: { kind: 'start', learns: false },
      from: '1.5 litres a start, 4 percent lost',
    })
    expect(itemOf('fillerLoss', { way: 'sand' })).toBeUndefined()
  })

  it('is nothing of a hollow bore, a straight piece or a piece without filler', () => {
    const lost = (change: Partial<EstimateInput>) =>
      items(change).filter(({ group }) => group === 'filler').length
    expect(lost({ way: 'hollow' })).toBe(0)
    for (const way of ['lowMelt', 'sand'] as const) {
      expect(lost({ way, part: { ...part, bendAnglesDeg: [] } })).toBe(0)
    }
    expect(lost({ part: { ...part, fillerKg: 0 } })).toBe(0)
  })

  it('follows what was chosen where the way leaves it open', () => {
    const lost = (change: Partial<EstimateInput>) =>
      items({ way: 't4ThenAged', ...change }).flatMap(({ key, group }) => (group === 'filler' ? [key] : []))
    expect(lost({})).toEqual(['fillerLoss'])
    expect(lost({ support: 'sand' })).toEqual(['sandLoss'])
    expect(lost({ support: 'hollow' })).toEqual([])
  })
})

describe('consumables', () => {
  it('are once a job and with each start', () => {
    expect(itemOf('consumablesJob')).toMatchObject({ centsPerUnit: 800, count: { kind: 'job' } })
    expect(itemOf('consumablesPiece')).toMatchObject({
      group: 'consumables',
      centsPerUnit: 150,
      count: { kind: 'start', learns: false },
    })
  })

  it('of cleaning and penetrant come with their operations only', () => {
    for (const key of ['boreOil', 'weldConsumables', 'penetrant']) expect(itemOf(key)).toBeUndefined()
    expect(itemOf('boreOil', {}, ['cleanBore'])).toMatchObject({
      quantity: fixed(1.5),
      centsPerUnit: 40,
      count: { kind: 'start', learns: false },
      from: '1.5 m a start',
    })
    expect(itemOf('penetrant', {}, ['dyePenetrant'])).toMatchObject({
      quantity: fixed(2),
      centsPerUnit: 120,
      count: { kind: 'start', learns: false },
      from: '2 bends a start',
    })
  })

  it('of welding go by the length of weld: ends round the tube, mitres on the slant', () => {
    // By hand: two ends of 150 mm are 0.3 m; mitres of 90 and 60 degrees 150 (1 / cos 45 + 1 / cos 30) = 150 x 2.568914 = 385.337 mm.
    const weld = (keys: readonly Operation['key'][], change: Partial<CostedPart> = {}) =>
      itemOf('weldConsumables', { part: { ...part, ...change } }, keys)
    expect(weld(['fitWeld'])).toMatchObject({
      quantity: fixed(0.3),
      centsPerUnit: 900,
      count: { kind: 'good', learns: false },
      from: '0.3 m of weld a piece',
    })
    expect(weld(['fitWeldMitres'])?.quantity.likely).toBeCloseTo(0.385337, 6)
    expect(weld(['fitWeldMitres'])?.count).toEqual({ kind: 'start', learns: false })
    expect(weld(['fitWeldMitres', 'fitWeld'])?.quantity.likely).toBeCloseTo(0.685337, 6)
    expect(weld(['fitWeld'], { weldedEndCount: 0 })).toBeUndefined()
    expect(weld(['fitWeldMitres'], { bendAnglesDeg: [] })).toBeUndefined()
  })
})
