import { describe, expect, it } from 'vitest'
import type { CostedPart } from '@/lib/core/cost/costed-part'
import type { OperationOverride } from '@/lib/core/cost/operation'
import { operationsByKey } from '@/lib/core/cost/operation-drivers'
import { defaultOperationTimes } from '@/lib/core/cost/operation-times'
import { type RoutingInput, routing } from '@/lib/core/cost/operations'
import { type RateUse, rateAt, usesRate, withRateOverrides } from '@/lib/core/cost/rate-overrides'
import { meanSlant, sawCutMinutes, slantOf, throughWallMinutes } from '@/lib/core/cost/saw-and-weld'
import { defaultShopRates } from '@/lib/core/cost/shop-rates'
import { fixed } from '@/lib/core/cost/spread'

const times = defaultOperationTimes
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
  startCut: 'mitre',
  endCut: 'saddle',
  holeCount: 2,
  featureCount: 7,
  fillerKg: 12,
  weldedEndCount: 1,
  dyePenetrant: true,
}
const route = (
  way: RoutingInput['way'],
  change: Partial<CostedPart> = {},
  more: Partial<RoutingInput> = {},
) => routing({ way, part: { ...part, ...change }, times, ...more }).map(({ key }) => key)

describe('the way through the shop', () => {
  const before = ['readJob', 'saw', 'deburr', 'mark']
  const press = ['setUpPress', 'trial', 'bend']
  const ends = ['mitreEnds', 'saddleEnds', 'fitWeld', 'drill', 'inspect', 'pack']

  it('of a bent part goes from sawing over filling, bending, emptying and checking to its ends', () => {
    const check = ['checkAngles', 'dyePenetrant']
    expect(route('hollow')).toEqual([...before, ...press, ...check, ...ends])
    expect(route('sand')).toEqual([...before, 'packSand', ...press, 'emptySand', ...check, ...ends])
    const filled = [...before, 'cleanBore', 'fill', ...press, 'meltOut', ...check]
    expect(route('lowMelt')).toEqual([...filled, ...ends])
    expect(route('lowMeltStrap')).toEqual([...filled, ...ends])
    expect(route('t4ThenAged')).toEqual([...filled, 'age', ...ends])
    expect(route('annealedThenSolutionAged', {}, { support: 'hollow' })).toEqual([
      ...before,
      'anneal',
      ...press,
      ...check,
      'solutionAge',
      ...ends,
    ])
  })

  it('of a mitred part is sawn and welded from straights, a straight one only sawn', () => {
    expect(route('mitredWelded')).toEqual(['readJob', 'sawMitres', 'deburr', 'fitWeldMitres', ...ends])
    expect(route('mitredWelded', { bendAnglesDeg: [] })).toEqual(['readJob', 'saw', 'deburr', ...ends])
  })

  it('of a straight part leaves the press, the filling and the heat treatment out', () => {
    for (const way of ['hollow', 'lowMelt', 'sand', 't4ThenAged'] as const) {
      expect(route(way, { bendAnglesDeg: [] })).toEqual([...before, ...ends])
    }
  })

  it('of a part sent out is ordered, received and finished', () => {
    expect(route('outside')).toEqual([
      'readJob',
      'orderOutside',
      'receive',
      'mitreEnds',
      'saddleEnds',
      'fitWeld',
      'inspect',
      'pack',
    ])
    expect(route('outside', { weldedEndCount: 0 })).not.toContain('fitWeld')
  })

  it('has no operation for what the part has not', () => {
    const plain = {
      holeCount: 0,
      weldedEndCount: 0,
      dyePenetrant: false,
      startCut: 'square',
      endCut: 'square',
    } as const
    expect(route('hollow', plain)).toEqual([
      ...before,
      ...press,
      'checkAngles',
      'trimEnds',
      'inspect',
      'pack',
    ])
    expect(route('hollow', { ...plain, endCut: 'mitre' })).toContain('trimEnds')
    expect(route('hollow', { ...plain, endCut: 'mitre' })).toContain('mitreEnds')
    expect(route('hollow', { ...plain, endCut: 'mitre' })).not.toContain('saddleEnds')
  })
})

describe('times set by hand', () => {
  const override = (more: Partial<OperationOverride> = {}): OperationOverride => ({
    operationKey: 'saw',
    field: 'setUpMinutes',
    value: { low: 1, likely: 2, high: 3 },
    reason: 'new saw',
    ...more,
  })
  const saw = (...overrides: OperationOverride[]) =>
    routing({ way: 'hollow', part, times, overrides }).find(({ key }) => key === 'saw')

  it('stand for the computed ones, the last of a field, each with what was computed', () => {
    const computed = saw()
    const found = saw(
      override(),
      override({ field: 'runMinutesPerPiece', value: fixed(4) }),
      override({ value: fixed(9), reason: 'measured again' }),
    )
    expect(found?.setUpMinutes).toEqual(fixed(9))
    expect(found?.runMinutesPerPiece).toEqual(fixed(4))
    expect(found?.overridden).toEqual([
      {
        ...override({ field: 'runMinutesPerPiece', value: fixed(4) }),
        original: computed?.runMinutesPerPiece,
      },
      { ...override({ value: fixed(9), reason: 'measured again' }), original: computed?.setUpMinutes },
    ])
    expect(computed?.overridden).toEqual([])
  })

  it('leave the other operations alone', () => {
    const others = (overrides: OperationOverride[]) =>
      routing({ way: 'hollow', part, times, overrides }).filter(({ key }) => key !== 'saw')
    expect(others([override()])).toEqual(others([]))
  })

  it('may be nothing and all alike, and are refused below nothing, downwards, without end and without reason', () => {
    expect(saw(override({ value: fixed(0) }))?.setUpMinutes).toEqual(fixed(0))
    for (const [low, likely, high] of [
      [-1, 2, 3],
      [3, 2, 4],
      [1, 4, 3],
      [1, 2, Number.POSITIVE_INFINITY],
    ] as const) {
      expect(() => saw(override({ value: { low, likely, high } }))).toThrow(
        new RangeError(`Minutes go upwards from zero, not ${low}, ${likely}, ${high}.`),
      )
    }
    for (const reason of ['', '  ']) {
      expect(() => saw(override({ reason }))).toThrow(
        new RangeError('A time that is set by hand needs a reason.'),
      )
    }
    expect(() => saw(override(), override({ operationKey: 'fill' }))).toThrow(
      new RangeError('This way has no operation "fill" to set a time for.'),
    )
  })
})

describe('what drives an operation, in words', () => {
  const driver = (key: keyof typeof operationsByKey, change: Partial<CostedPart> = {}, strap = false) =>
    operationsByKey[key]({ part: { ...part, ...change }, times, support: 'lowMelt', strap, way: 'lowMelt' })
      .driver

  it('counts one and many', () => {
    expect([[], [90], [90, 60]].map((bendAnglesDeg) => driver('mark', { bendAnglesDeg }))).toEqual([
      '0 bends',
      '1 bend',
      '2 bends',
    ])
    expect([1, 2].map((holeCount) => driver('drill', { holeCount }))).toEqual(['1 hole', '2 holes'])
  })

  it('says what holds the tube and how tight the angle is', () => {
    expect(driver('setUpPress')).toBe('die, supports and span, once')
    expect(driver('setUpPress', {}, true)).toBe('die, supports, span and strap, once')
    const tight = { angleToleranceDeg: times.tightAngleToleranceDeg }
    expect(driver('bend')).toBe('2 bends of 90, 60 degrees, 1 plane change')
    expect(driver('bend', tight)).toBe('2 bends of 90, 60 degrees, 1 plane change, held to a tight angle')
    expect(driver('bend', { planeChangeCount: 0 }, true)).toBe(
      '2 bends of 90, 60 degrees, 0 plane changes, with strap',
    )
  })

  it('names lengths, weights and the bore to three figures', () => {
    // By hand: two ends, inside and outside, 2 x 2 x 150 mm; 1.5 m; a bore of sqrt(4 x 1000 / pi) = 35.68 mm.
    expect(driver('deburr')).toBe('0.6 m of edge, inside and outside, 2 ends of 150 mm perimeter')
    expect(driver('cleanBore')).toBe('1.5 m of tube')
    expect(driver('meltOut')).toBe('12 kg out of a 35.7 mm bore past 2 bends')
    expect(driver('packSand')).toBe('1.5 litres of bore')
    const own = {
      ...times,
      weldSpeedMmPerMin: 100,
      weldOperatingFactor: { low: 0.2, likely: 0.25, high: 0.5 },
    }
    expect(
      operationsByKey.fitWeld({ part, times: own, support: 'hollow', strap: false, way: 'hollow' }).driver,
    ).toBe('1 joint, 150 mm of weld at 100 mm/min and 25 percent arc time')
    // Straights of two bends: three, six cuts; 400 mm² on slants of 1.414214 and 1.154701, mean 1.284457.
    expect(driver('sawMitres')).toBe('6 cuts a piece (3 straights), wall area 514 mm² on the slant')
  })
})

describe('a saw cut', () => {
  it('is longer on the slant, by the mean of a part’s mitres', () => {
    // 1 / cos 45 = 1.414214, 1 / cos 30 = 1.154701.
    expect(slantOf(90)).toBeCloseTo(1.414214, 6)
    expect(slantOf(0)).toBe(1)
    expect(meanSlant(part)).toBeCloseTo((1.414214 + 1.154701) / 2, 6)
    expect(meanSlant({ ...part, bendAnglesDeg: [] })).toBe(1)
  })

  it('takes its handling and its way through the wall', () => {
    // By hand: 400 mm² at 800 mm²/min are half a minute, twice that on a slant of 2; handling 1 to 3 minutes.
    const own = {
      ...times,
      sawHandlingMinutes: { low: 1, likely: 2, high: 3 },
      sawRateMm2PerMin: { ...times.sawRateMm2PerMin, aluminium: 800 },
    }
    expect(throughWallMinutes(part, own)).toBeCloseTo(0.5, 12)
    expect(sawCutMinutes(part, own, 2)).toEqual({ low: 2, likely: 3, high: 4 })
  })
})

describe('a rate set for one estimate', () => {
  const set = (
    path: string,
    value: Parameters<typeof withRateOverrides>[1][number]['value'],
    reason = 'said so',
  ) => withRateOverrides(defaultShopRates, [{ path, value, reason }])

  it('may be nothing and of equal ends', () => {
    expect(set('freightInCents', 0).freightInCents).toBe(0)
    expect(set('queueDays', fixed(0)).queueDays).toEqual(fixed(0))
    expect(set('queueDays', { low: 1, likely: 1, high: 2 }).queueDays).toEqual({ low: 1, likely: 1, high: 2 })
  })

  it('is refused where it is no number, below nothing, downwards or of another kind', () => {
    expect(() => set('freightInCents', Number.POSITIVE_INFINITY)).toThrow(
      'A rate is zero or more, not Infinity.',
    )
    expect(() => set('freightInCents', Number.NaN)).toThrow('A rate is zero or more, not NaN.')
    expect(() => set('queueDays', { low: -1, likely: 1, high: 2 })).toThrow(
      'A rate is zero or more, not -1, 1, 2.',
    )
    expect(() => set('queueDays', { low: 2, likely: 1, high: 3 })).toThrow('go upwards, not 2, 1, 3.')
    expect(() => set('queueDays', { low: 1, likely: 4, high: 3 })).toThrow('go upwards, not 1, 4, 3.')
    expect(() => set('freightInCents', 'up')).toThrow('"freightInCents" is a rate of another kind.')
    expect(() => set('priceRounding.direction', 5)).toThrow(
      '"priceRounding.direction" is a rate of another kind.',
    )
    expect(() => set('freightInCents', 5, ' ')).toThrow('A rate that is set for one estimate needs a reason.')
  })

  it('has a place of its own in the rates', () => {
    for (const path of ['', 'freightInCents.low', 'heatTreat.age', 'queueDays.toString', 'nothing.at.all']) {
      expect(() => rateAt(defaultShopRates, path)).toThrow(new RangeError(`There is no rate "${path}".`))
    }
    expect(rateAt(defaultShopRates, 'queueDays.low')).toBe(defaultShopRates.queueDays.low)
    expect(rateAt(defaultShopRates, 'priceRounding.direction')).toBe('up')
  })

  it('counts where something of it stands behind the estimate', () => {
    const use = (way: RoutingInput['way'], more: Partial<RateUse> = {}): RateUse => ({
      operations: routing({ way, part, times }),
      support: 'hollow',
      fillerKg: 0,
      toolKinds: [],
      ...more,
    })
    const counts = (path: string, ...uses: RateUse[]) => uses.map((one) => usesRate(path, one))
    expect(counts('weldConsumablesCentsPerM', use('hollow'), use('mitredWelded'))).toEqual([true, true])
    expect(counts('boreOilCentsPerM', use('hollow'), use('lowMelt'))).toEqual([false, true])
    expect(counts('dyePenetrantCentsPerBend', use('hollow'), use('mitredWelded'))).toEqual([true, false])
    expect(counts('labourCentsPerH.press', use('hollow'), use('mitredWelded'))).toEqual([true, false])
    expect(
      counts('labourCentsPerH.toolmaking', use('hollow'), use('hollow', { toolKinds: ['strap'] })),
    ).toEqual([false, true])
    expect(counts('labourCentsPerH.oven', use('hollow', { toolKinds: ['die'] }))).toEqual([false])
    // Filled with alloy, but with none in it; sand counts without a weight.
    const filled = { support: 'lowMelt' as const }
    expect(
      counts('fillerCentsPerKg', use('lowMelt', filled), use('lowMelt', { ...filled, fillerKg: 0.1 })),
    ).toEqual([false, true])
    expect(counts('strapMaterialCents', use('hollow', { toolKinds: ['strap'] }), use('hollow'))).toEqual([
      true,
      false,
    ])
    expect(counts('dieMaterialCents', use('hollow', { toolKinds: ['strap'] }))).toEqual([false])
    // Learning counts where hands work at each piece: not where the machine paces all, nor where hands only set up.
    const only = (hand: boolean, high: number): RateUse =>
      use('hollow', {
        operations: use('hollow')
          .operations.slice(0, 1)
          .map((one) => ({
            ...one,
            hand,
            runMinutesPerPiece: { low: 0, likely: 0, high },
          })),
      })
    expect(counts('learning.rateFraction', only(true, 1), only(false, 1), only(true, 0))).toEqual([
      true,
      false,
      false,
    ])
  })
})
