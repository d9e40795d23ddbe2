import { describe, expect, it } from 'vitest'
import { compareWays, riskWord, shareAtMost } from '@/lib/core/cost/compare'
import { type CostModel, costMoments, sampleCostModel } from '@/lib/core/cost/cost-model'
import type { CostedPart } from '@/lib/core/cost/costed-part'
import { estimateCost, estimateModel, startsOutlook } from '@/lib/core/cost/estimate'
import type { EstimateInput } from '@/lib/core/cost/estimate-input'
import { landedCost } from '@/lib/core/cost/landed'
import { defaultOperationTimes, operationTimeNotes } from '@/lib/core/cost/operation-times'
import { routing } from '@/lib/core/cost/operations'
import { outsideAnswerModel } from '@/lib/core/cost/outside-answer'
import { weldLabourMinutes } from '@/lib/core/cost/saw-and-weld'
import { defaultShopRates, type ShopRates, shopRateNotes } from '@/lib/core/cost/shop-rates'
import { fixed, summariseDraws } from '@/lib/core/cost/spread'
import { tornado } from '@/lib/core/cost/tornado'
import { estimateDifference, operationVariances, plannedOperationMinutes } from '@/lib/core/cost/variance'
import { wayKeys } from '@/lib/core/cost/ways'

/** A davit arm of 1-1/2 x 1/8 in square tube: two bends in two planes, one mitred end. */
const davitArm: CostedPart = {
  family: 'aluminium',
  sectionAreaMm2: 443.5,
  wallMm: 3.175,
  perimeterMm: 152.4,
  boreAreaMm2: 1008,
  cutLengthMm: 1400,
  massKg: 1.68,
  bendAnglesDeg: [32, 45],
  planeChangeCount: 1,
  angleToleranceDeg: 0.5,
  startCut: 'square',
  endCut: 'mitre',
  holeCount: 0,
  featureCount: 8,
  fillerKg: 13.2,
  weldedEndCount: 1,
  dyePenetrant: true,
}

const input: EstimateInput = {
  way: 'lowMelt',
  pieceCount: 6,
  part: davitArm,
  rates: defaultShopRates,
  material: { plannedStarts: 8, plannedCents: 18_000, extraStartCents: 2400, from: 'two bars of 6 m' },
}

/** Rates with no spread, no learning, no overhead, so that a hand calculation is short. */
const plainRates: ShopRates = {
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
  consumablesPerPieceCents: 0,
  freightInCents: 0,
  firstPassYieldFraction: 1,
}

describe('routing', () => {
  it('takes each way through its own operations in order', () => {
    const keys = (way: (typeof wayKeys)[number]): string[] =>
      routing({ way, part: davitArm, times: defaultOperationTimes }).map(({ key }) => key)
    expect(keys('hollow')).not.toContain('fill')
    const filling = ['packSand', 'emptySand', 'cleanBore', 'fill', 'meltOut']
    const fillingOf = (way: (typeof wayKeys)[number]) => keys(way).filter((key) => filling.includes(key))
    expect(fillingOf('hollow')).toEqual([])
    expect(fillingOf('sand')).toEqual(['packSand', 'emptySand'])
    expect(fillingOf('lowMelt')).toEqual(['cleanBore', 'fill', 'meltOut'])
    expect(fillingOf('lowMeltStrap')).toEqual(['cleanBore', 'fill', 'meltOut'])
    // A way that bends soft is filled unless it is told otherwise.
    expect(fillingOf('t4ThenAged')).toEqual(['cleanBore', 'fill', 'meltOut'])
    const lowMelt = keys('lowMelt')
    expect(
      ['cleanBore', 'fill', 'bend', 'meltOut', 'checkAngles', 'mitreEnds'].map((key) => lowMelt.indexOf(key)),
    ).toEqual(
      [
        ...['cleanBore', 'fill', 'bend', 'meltOut', 'checkAngles', 'mitreEnds'].map((key) =>
          lowMelt.indexOf(key),
        ),
      ].sort((a, b) => a - b),
    )
    expect(keys('t4ThenAged')).toContain('age')
    const annealed = keys('annealedThenSolutionAged')
    expect(annealed.indexOf('anneal')).toBeLessThan(annealed.indexOf('bend'))
    expect(annealed.indexOf('solutionAge')).toBeGreaterThan(annealed.indexOf('checkAngles'))
    expect(keys('mitredWelded')).toContain('fitWeldMitres')
    expect(keys('mitredWelded')).not.toContain('bend')
    expect(keys('outside')).toEqual([
      'readJob',
      'orderOutside',
      'receive',
      'trimEnds',
      'mitreEnds',
      'fitWeld',
      'inspect',
      'pack',
    ])
  })

  it('leaves the press out of a straight piece', () => {
    const straight = { ...davitArm, bendAnglesDeg: [], planeChangeCount: 0 }
    const keys = routing({ way: 'hollow', part: straight, times: defaultOperationTimes }).map(
      ({ key }) => key,
    )
    expect(keys).not.toContain('setUpPress')
  })

  it('names a driver and a source for every operation of every way', () => {
    for (const way of wayKeys) {
      for (const operation of routing({
        way,
        part: { ...davitArm, holeCount: 2, startCut: 'saddle' },
        times: defaultOperationTimes,
      })) {
        expect(operation.driver.length).toBeGreaterThan(3)
        expect(operation.source.length).toBeGreaterThan(3)
        expect(operation.runMinutesPerPiece.low).toBeLessThanOrEqual(operation.runMinutesPerPiece.high)
      }
    }
  })

  it('saws by wall area over rate: .6145 square inch at 2.5 a minute is .246 min', () => {
    // 1.75 x .120 tube: area pi (OD - t) t = .6145 in2; band saw makers' charts, no handling
    const times = {
      ...defaultOperationTimes,
      sawHandlingMinutes: fixed(0),
      sawRateMm2PerMin: { ...defaultOperationTimes.sawRateMm2PerMin, stainless: 2.5 * 645.16 },
    }
    const part = {
      ...davitArm,
      family: 'stainless' as const,
      sectionAreaMm2: Math.PI * (1.75 - 0.12) * 0.12 * 645.16,
    }
    const saw = routing({ way: 'hollow', part, times }).find(({ key }) => key === 'saw')
    expect(saw?.runMinutesPerPiece.likely).toBeCloseTo(0.246, 3)
  })

  it('welds 5.498 in at 4 in a minute and 30 percent arc time in 4.58 labour minutes', () => {
    // TIG handbook: 12 / (4 * .30) = 10.0 min a foot
    const times = { ...defaultOperationTimes, weldSpeedMmPerMin: 101.6, weldOperatingFactor: fixed(0.3) }
    expect(weldLabourMinutes(5.498 * 25.4, times).likely).toBeCloseTo(4.58, 2)
    expect(weldLabourMinutes(304.8, times).likely).toBeCloseTo(10, 9)
  })

  it('takes more minutes for more tube, more bends, more filler and a tighter angle', () => {
    const bend = (part: CostedPart): number =>
      routing({ way: 'lowMelt', part, times: defaultOperationTimes }).find(({ key }) => key === 'bend')
        ?.runMinutesPerPiece.likely ?? 0
    expect(bend({ ...davitArm, bendAnglesDeg: [32, 45, 20] })).toBeGreaterThan(bend(davitArm))
    expect(bend({ ...davitArm, angleToleranceDeg: 1 })).toBeLessThan(bend(davitArm))
    const fill = (fillerKg: number): number =>
      routing({ way: 'lowMelt', part: { ...davitArm, fillerKg }, times: defaultOperationTimes }).find(
        ({ key }) => key === 'fill',
      )?.runMinutesPerPiece.likely ?? 0
    expect(fill(20)).toBeGreaterThan(fill(10))
  })

  it('keeps what was computed beside a time set by hand', () => {
    const value = { low: 1, likely: 2, high: 3 }
    const override = { operationKey: 'saw', field: 'runMinutesPerPiece', value, reason: 'new saw' } as const
    const before = routing({ way: 'hollow', part: davitArm, times: defaultOperationTimes }).find(
      ({ key }) => key === 'saw',
    )
    const after = routing({
      way: 'hollow',
      part: davitArm,
      times: defaultOperationTimes,
      overrides: [override],
    }).find(({ key }) => key === 'saw')
    expect(after?.runMinutesPerPiece).toEqual(value)
    expect(after?.overridden).toEqual([{ ...override, original: before?.runMinutesPerPiece }])
  })

  it('refuses an override without a reason, out of order or of an operation that is not there', () => {
    const run = (override: object) => () =>
      routing({
        way: 'hollow',
        part: davitArm,
        times: defaultOperationTimes,
        overrides: [
          { operationKey: 'saw', field: 'setUpMinutes', value: fixed(1), reason: 'x', ...override },
        ],
      })
    expect(run({ reason: ' ' })).toThrow(RangeError)
    expect(run({ value: { low: 2, likely: 1, high: 3 } })).toThrow(RangeError)
    expect(run({ operationKey: 'fill' })).toThrow(RangeError)
    expect(run({})).not.toThrow()
  })

  it('says of every time and every rate what it means and where it comes from', () => {
    expect(Object.keys(operationTimeNotes).sort()).toEqual(Object.keys(defaultOperationTimes).sort())
    expect(Object.keys(shopRateNotes).sort()).toEqual(Object.keys(defaultShopRates).sort())
  })
})

describe('estimate', () => {
  it('of a straight sawn piece is what a hand calculation gives', () => {
    // Overrides to round minutes; 60.00 an hour = 1.00 a minute, four pieces:
    // set-up 10 + run 4 * 2 for each of readJob, saw, deburr, mark, trimEnds, inspect, pack = 7 * 18 = 126.00; tube 40.00
    // overhead half of 126.00 = 63.00; contingency a tenth of 229.00 = 22.90; total 251.90
    const part: CostedPart = {
      ...davitArm,
      bendAnglesDeg: [],
      planeChangeCount: 0,
      endCut: 'square',
      weldedEndCount: 0,
      fillerKg: 0,
    }
    const keys = ['readJob', 'saw', 'deburr', 'mark', 'trimEnds', 'inspect', 'pack'] as const
    const overrides = keys.flatMap((operationKey) => [
      { operationKey, field: 'setUpMinutes' as const, value: fixed(10), reason: 'hand calculation' },
      { operationKey, field: 'runMinutesPerPiece' as const, value: fixed(2), reason: 'hand calculation' },
    ])
    const estimate = estimateCost({
      way: 'hollow',
      pieceCount: 4,
      part,
      rates: plainRates,
      material: { plannedStarts: 4, plannedCents: 4000, extraStartCents: 0, from: 'hand' },
      overrides,
    })
    expect(estimate.likelyCents).toBe(25_190)
    expect(estimate.costCents.mean).toBeCloseTo(25_190, 6)
    expect(estimate.costCents.sd).toBeCloseTo(0, 6)
    expect(estimate.lines.reduce((sum, { likelyCents }) => sum + likelyCents, 0)).toBe(25_190)
    expect(estimate.labourHours.likely).toBeCloseTo(126 / 60, 9)
  })

  it('agrees with its closed form within four standard errors', () => {
    for (const way of [
      'hollow',
      'sand',
      'lowMelt',
      'lowMeltStrap',
      't4ThenAged',
      'annealedThenSolutionAged',
      'mitredWelded',
    ] as const) {
      const estimate = estimateCost({ ...input, way })
      const closed = estimate.closedForm
      if (!closed) throw new Error('a closed form was expected')
      expect(Math.abs(estimate.costCents.mean - closed.meanCents)).toBeLessThan(
        4 * estimate.costCents.standardError,
      )
      expect(Math.abs(estimate.costCents.sd / closed.sdCents - 1)).toBeLessThan(0.06)
      const days = costMoments(estimate.model)
      expect(Math.abs(estimate.sampledDays.mean - days.meanDays)).toBeLessThan(
        4 * estimate.sampledDays.standardError,
      )
    }
  })

  it('expects the starts of the negative binomial and says what is enough nine times in ten', () => {
    // Q 5, p .8: mean 6.25, sd 1.25, 90th percentile 8
    expect(startsOutlook(5, 0.8)).toMatchObject({ expected: 6.25, likely: 7, p90: 8 })
    expect(startsOutlook(5, 0.8).sd).toBeCloseTo(1.25, 12)
    const draws = sampleCostModel(estimateModel({ ...input, pieceCount: 5, firstPassYieldFraction: 0.8 }))
    const summary = summariseDraws(draws.starts)
    expect(Math.abs(summary.mean - 6.25)).toBeLessThan(4 * summary.standardError)
    expect(summary.p90).toBe(8)
  })

  it('is the same twice, and as data survives being stored', () => {
    const model = JSON.parse(JSON.stringify(estimateModel(input))) as CostModel
    expect(sampleCostModel(model).costCents).toEqual(sampleCostModel(estimateModel(input)).costCents)
  })

  it('charges the lot minimum of outside heat treatment until the weight passes it', () => {
    // By hand: 1.68 kg * 6 * 5.00 = 50.40, under the lot charge of 125.00; 100 pieces: 840.00
    const line = (pieceCount: number): number | undefined =>
      estimateCost({ ...input, way: 't4ThenAged', pieceCount }).lines.find(
        ({ key }) => key === 'heatTreat:age',
      )?.likelyCents
    expect(line(6)).toBe(12_500)
    expect(line(100)).toBe(84_000)
  })

  it('spreads a die over the jobs that will use it', () => {
    const tool = { key: 'die', label: 'die R200', makeMinutes: fixed(60), materialCents: 6000 }
    const lines = (spreadOverJobs: number) =>
      estimateCost({ ...input, tooling: [{ ...tool, spreadOverJobs }] }).lines
    const cents = (jobs: number, key: string): number | undefined =>
      lines(jobs).find((line) => line.key === key)?.likelyCents
    // 60 min * 1.15 at 80.00 an hour = 92.00, and 60.00 of material
    expect(cents(1, 'tooling:die:make')).toBe(9200)
    expect(cents(4, 'tooling:die:make')).toBe(2300)
    expect(cents(4, 'tooling:die:material')).toBe(1500)
    expect(() => lines(0.5)).toThrow(RangeError)
  })

  it('costs less a piece as the run grows, and more with a lower yield', () => {
    const each = (pieceCount: number): number => estimateCost({ ...input, pieceCount }).costPerPieceCents.mean
    expect(each(1)).toBeGreaterThan(each(5))
    expect(each(5)).toBeGreaterThan(each(25))
    const poor = estimateCost({ ...input, firstPassYieldFraction: 0.5 })
    expect(poor.costCents.mean).toBeGreaterThan(estimateCost(input).costCents.mean)
  })

  it('has low, likely and high going upwards in every line and in the days', () => {
    const { lines, days } = estimateCost(input)
    for (const line of lines)
      expect([line.lowCents <= line.likelyCents, line.likelyCents <= line.highCents]).toEqual([true, true])
    expect(days.low).toBeLessThan(days.likely)
    expect(days.likely).toBeLessThan(days.high)
  })

  it('refuses an order of nothing, a yield of nothing and a part that cannot be', () => {
    expect(() => estimateCost({ ...input, pieceCount: 0 })).toThrow(RangeError)
    expect(() => estimateCost({ ...input, firstPassYieldFraction: 0 })).toThrow(RangeError)
    expect(() => estimateCost({ ...input, part: { ...davitArm, wallMm: 0 } })).toThrow(RangeError)
    expect(() => estimateCost({ ...input, part: { ...davitArm, bendAnglesDeg: [180] } })).toThrow(RangeError)
    expect(() => estimateCost({ ...input, part: { ...davitArm, holeCount: 0.5 } })).toThrow(RangeError)
  })
})

const outside = landedCost(
  {
    breaks: [
      { fromPieceCount: 1, unitPriceCents: 19_000 },
      { fromPieceCount: 5, unitPriceCents: 12_000 },
      { fromPieceCount: 20, unitPriceCents: 8500 },
    ],
    toolingCents: 45_000,
    setUpCents: 0,
    freightCents: 9000,
    leadDays: { low: 10, likely: 15, high: 30 },
    rejectFraction: 0.05,
    replacesRejects: false,
  },
  6,
  {
    orderMinutes: defaultOperationTimes.orderOutsideMinutes,
    perDeliveryMinutes: defaultOperationTimes.receiveSetUpMinutes,
    perPieceMinutes: defaultOperationTimes.receivePerPieceMinutes,
    officeCentsPerH: 6000,
    inspectionCentsPerH: 7000,
    overheadFactor: 0.35,
    contingencyFraction: 0.05,
    hoursPerDay: 8,
  },
)

describe('comparison', () => {
  const contenders = [
    { key: 'lowMelt', name: 'Low-melt', kind: 'inHouse' as const, model: estimateModel(input) },
    { key: 'sand', name: 'Sand', kind: 'inHouse' as const, model: estimateModel({ ...input, way: 'sand' }) },
    { key: 'ask1', name: 'Harbour Bending', kind: 'outside' as const, model: outside.model },
  ]

  it('puts every contender on one scale, with chances that add up to one', () => {
    const comparison = compareWays(contenders, { pieceCount: 6, daysToDue: 15 })
    expect(comparison.contenders.reduce((sum, { cheapestChance }) => sum + cheapestChance, 0)).toBeCloseTo(
      1,
      12,
    )
    for (const { onTimeChance } of comparison.contenders) expect(onTimeChance).toBeGreaterThanOrEqual(0)
    expect(comparison.bestOutsideKey).toBe('ask1')
    expect(comparison.inHouseCheaperChance).not.toBeNull()
  })

  it('pairs draws: two ways that differ by a fixed amount differ by it in every draw', () => {
    const dearer: CostModel = {
      ...outside.model,
      items: [
        ...outside.model.items,
        {
          key: 'more',
          label: 'more',
          group: 'outside',
          quantity: fixed(1),
          centsPerUnit: 1000,
          count: { kind: 'job' },
          from: 'test',
        },
      ],
    }
    const comparison = compareWays(
      [
        { key: 'a', name: 'A', kind: 'inHouse', model: outside.model },
        { key: 'b', name: 'B', kind: 'outside', model: dearer },
      ],
      { pieceCount: 6 },
    )
    expect(comparison.inHouseCheaperChance).toBe(1)
    expect(comparison.outsideExtraCents?.sd).toBeCloseTo(0, 6)
    // the added 10.00 carries the contingency of 5 percent
    expect(comparison.outsideExtraCents?.mean).toBeCloseTo(1050, 6)
  })

  it('gives the chance of two independent normal-like costs as the normal distribution does', () => {
    // A sum of thirty equal PERT items is near normal: the chance that A < B is Phi((mB - mA) / sqrt(sA^2 + sB^2))
    const model = (name: string, shift: number): CostModel => ({
      ...outside.model,
      overheadFactor: 0,
      contingencyFraction: 0,
      items: Array.from({ length: 30 }, (_, i) => ({
        key: `${name}${i}`,
        label: name,
        group: 'outside' as const,
        quantity: { low: 0, likely: 50, high: 100 },
        centsPerUnit: 1,
        count: { kind: 'job' as const },
        from: 'test',
      })).concat({
        key: `${name}shift`,
        label: name,
        group: 'outside',
        quantity: { low: shift, likely: shift, high: shift },
        centsPerUnit: 1,
        count: { kind: 'job' as const },
        from: 'test',
      }),
    })
    // PERT (0, 50, 100): variance 2500 / 7; 30 of them: sd 103.51; difference sd 146.39, shift 146.39 -> Phi(1) = .8413
    const comparison = compareWays(
      [
        { key: 'a', name: 'A', kind: 'inHouse', model: model('a', 0) },
        { key: 'b', name: 'B', kind: 'outside', model: model('b', 146.39) },
      ],
      { pieceCount: 1 },
    )
    expect(Math.abs((comparison.inHouseCheaperChance ?? 0) - 0.8413)).toBeLessThan(
      4 * Math.sqrt((0.8413 * 0.1587) / 10_000),
    )
  })

  it('says a chance in a word', () => {
    expect([0.995, 0.9, 0.7, 0.5, 0.2, 0.05, 0].map(riskWord)).toEqual([
      'surely',
      'very likely',
      'likely',
      'even',
      'unlikely',
      'very unlikely',
      'hardly ever',
    ])
    expect(() => riskWord(1.1)).toThrow(RangeError)
    expect(shareAtMost(Float64Array.of(1, 2, 3, 4), 2)).toBe(0.5)
  })

  it('says so where one side is missing', () => {
    expect(compareWays(contenders.slice(0, 2), { pieceCount: 6 }).text).toBe(
      'no outside price to compare with',
    )
    expect(compareWays(contenders.slice(2), { pieceCount: 6 }).text).toBe('no in-house way to compare with')
    expect(compareWays([], { pieceCount: 6 }).text).toBe('nothing to compare')
  })

  it('orders what moves the answer by how far', () => {
    const bars = tornado(estimateModel(input))
    expect(bars.map(({ swingCents }) => swingCents)).toEqual(
      [...bars.map(({ swingCents }) => swingCents)].sort((a, b) => b - a),
    )
    expect(bars.some(({ key }) => key === 'starts')).toBe(true)
    expect(tornado({ ...outside.model, items: outside.model.items.slice(0, 1) })).toEqual([])
  })
})

describe('an outside answer', () => {
  it('carries the shop\u2019s own end cuts, welding and inspection, but not what the source does', () => {
    const keys = (model: CostModel): string[] => model.items.map(({ key }) => key)
    const whole = outsideAnswerModel(outside, { part: davitArm, rates: defaultShopRates })
    expect(keys(whole)).toEqual(
      expect.arrayContaining(['outside:pieces', 'mitreEnds:run', 'fitWeld:run', 'inspect:run']),
    )
    // ordering and receiving are counted once
    expect(
      keys(whole)
        .filter((key) => key.startsWith('receive:'))
        .sort(),
    ).toEqual(['receive:run', 'receive:setUp'])
    const bySource = outsideAnswerModel(outside, { part: davitArm, rates: defaultShopRates }, [
      'mitreEnds',
      'trimEnds',
    ])
    expect(keys(bySource)).not.toContain('mitreEnds:run')
    expect(costMoments(bySource).meanCents).toBeLessThan(costMoments(whole).meanCents)
  })
})

describe('differences', () => {
  it('of two versions add up line by line', () => {
    const before = estimateCost(input)
    const after = estimateCost({ ...input, material: { ...input.material, plannedCents: 25_000 } })
    const difference = estimateDifference(before, after)
    expect(difference.lines.find(({ key }) => key === 'material')).toMatchObject({
      changeCents: 7000,
      what: 'changed',
    })
    // material 70.00 and contingency of 5 percent on it
    expect(difference.lines.reduce((sum, { changeCents }) => sum + changeCents, 0)).toBe(7350)
    expect(Math.abs(difference.likelyChangeCents - 7350)).toBeLessThanOrEqual(1)
    expect(estimateDifference(before, before).text).toBe('nothing changed')
  })

  it('name lines that came and went', () => {
    const difference = estimateDifference(estimateCost(input), estimateCost({ ...input, way: 'sand' }))
    expect(difference.lines.find(({ key }) => key === 'fillerLoss')?.what).toBe('gone')
    expect(difference.lines.find(({ key }) => key === 'sandLoss')?.what).toBe('new')
  })

  it('of logged minutes are over, under, within, not logged or not planned', () => {
    const planned = ['a', 'b', 'c', 'd'].map((operationKey) => ({
      operationKey,
      name: operationKey,
      minutes: { low: 5, likely: 10, high: 20 },
    }))
    const found = operationVariances(planned, [
      { operationKey: 'a', name: 'a', minutes: 15 },
      { operationKey: 'a', name: 'a', minutes: 10 },
      { operationKey: 'b', name: 'b', minutes: 4 },
      { operationKey: 'c', name: 'c', minutes: 12 },
      { operationKey: 'z', name: 'z', minutes: 3 },
    ])
    expect(found.map(({ verdict }) => verdict)).toEqual([
      'over',
      'under',
      'within',
      'notLogged',
      'notPlanned',
    ])
    expect(found[0]).toMatchObject({ actualMinutes: 25, differenceMinutes: 15, ratio: 2.5 })
  })

  it('plan the minutes of each operation for the starts that were made', () => {
    const estimate = estimateCost({
      ...input,
      rates: { ...defaultShopRates, learning: { model: 'unit', rateFraction: 1 }, allowanceFraction: 0 },
    })
    const saw = plannedOperationMinutes(estimate, 9).find(({ operationKey }) => operationKey === 'saw')
    const operation = estimate.operations.find(({ key }) => key === 'saw')
    expect(saw?.minutes.likely).toBeCloseTo(
      (operation?.setUpMinutes.likely ?? 0) + 9 * (operation?.runMinutesPerPiece.likely ?? 0),
      9,
    )
  })
})
