import { describe, expect, it } from 'vitest'
import { patternOf } from '@/lib/core/stock/cut-patterns'
import { lengthBoundCents, nestPieces, nestProblem } from '@/lib/core/stock/nest'
import {
  type BarKind,
  buildPlan,
  type ChosenPattern,
  leftoverValueCents,
  type NestInput,
} from '@/lib/core/stock/nest-plan'

const input: NestInput = {
  pieces: [
    { key: 'rail', lengthMm: 1000, pieceCount: 3 },
    { key: 'none', lengthMm: 700, pieceCount: 0 },
    { key: 'stay', lengthMm: 400, pieceCount: 2 },
  ],
  rack: [],
  buyable: [
    { key: 'three', lengthMm: 3000, priceCents: 3300 },
    { key: 'six', lengthMm: 6000, priceCents: 6000 },
  ],
  kerfMm: 3,
  endTrimMm: 0,
  trimFarEnd: false,
  keepOffcutFromMm: 1097,
  offcutValueCentsPerM: 500,
}
const bar = (barLengthMm: number, more: Partial<BarKind> = {}): BarKind => ({
  source: 'buy',
  kind: 'bar',
  keys: ['six'],
  costCents: 6000,
  barCount: null,
  cutting: { barLengthMm, kerfMm: 3, endTrimMm: 0, trimFarEnd: false },
  ...more,
})
const chosen = (kind: BarKind, counts: readonly number[], barCount = 1): ChosenPattern => {
  const pattern = patternOf(counts, [1000, 400], kind.cutting)
  if (!pattern) throw new Error('does not fit')
  return { kind, pattern, barCount }
}
const exact = { method: 'exact', proven: true, lowerBoundCents: 0, patternCount: 7 } as const

describe('a plan from chosen patterns', () => {
  const rack = bar(2100, { source: 'rack', kind: 'offcut', keys: ['R1', 'R2'], costCents: 500, barCount: 2 })
  const six = bar(6000)
  const made = () =>
    buildPlan(input, [chosen(rack, [2, 0], 2), chosen(six, [0, 2]), chosen(six, [1, 1])], exact)

  it('cuts no more than was asked, takes rack bars in turn and leaves out a bar with nothing to cut', () => {
    const plan = made()
    expect(plan.bars.map(({ barKey, source, kind, lengthMm }) => [barKey, source, kind, lengthMm])).toEqual([
      ['R1', 'rack', 'offcut', 2100],
      ['R2', 'rack', 'offcut', 2100],
      ['six', 'buy', 'bar', 6000],
    ])
    expect(plan.bars.map(({ cuts }) => cuts)).toEqual([
      [{ pieceKey: 'rail', lengthMm: 1000, pieceCount: 2 }],
      [{ pieceKey: 'rail', lengthMm: 1000, pieceCount: 1 }],
      [{ pieceKey: 'stay', lengthMm: 400, pieceCount: 2 }],
    ])
  })

  it('keeps a leftover from the length kept on, worth no more than its bar cost', () => {
    const plan = made()
    // By hand: 2100 - 2 x 1003 = 94; 2100 - 1003 = 1097, 1.097 m at 5.00 = 5.49, but the bar cost 5.00; 6000 - 2 x 403 = 5194, 25.97.
    expect(
      plan.bars.map((one) => [one.leftoverMm, one.leftover, one.leftoverValueCents, one.costCents]),
    ).toEqual([
      [94, 'scrap', 0, 500],
      [1097, 'back-to-rack', 500, 500],
      [5194, 'back-to-rack', 2597, 6000],
    ])
    expect(plan.returned).toEqual([
      { barKey: 'R2', lengthMm: 1097, valueCents: 500 },
      { barKey: 'six', lengthMm: 5194, valueCents: 2597 },
    ])
  })

  it('adds up money and length', () => {
    const plan = made()
    // By hand: 60.00 bought, 10.00 off the rack, 30.97 back. 10 200 mm used, 3800 in pieces, 6291 back: 109 lost, 94 of scrap and five kerfs.
    expect(plan).toMatchObject({
      boughtCents: 6000,
      rackCents: 1000,
      returnedCents: 3097,
      netCents: 3903,
      usedLengthMm: 10_200,
      piecesLengthMm: 3800,
      wasteMm: 109,
    })
    expect(plan.wasteFraction).toBeCloseTo(109 / 10_200, 12)
    expect(plan.toBuy).toEqual([{ key: 'six', lengthMm: 6000, barCount: 1, costCents: 6000 }])
  })

  it('prices two bars of a length twice', () => {
    const two = buildPlan(input, [chosen(six, [2, 1]), chosen(six, [1, 1])], exact)
    expect(two.toBuy).toEqual([{ key: 'six', lengthMm: 6000, barCount: 2, costCents: 12_000 }])
  })

  it('buys no bar that lies on the rack, though it is called alike', () => {
    const alike = bar(6000, { source: 'rack', keys: ['six'], barCount: 1 })
    expect(buildPlan(input, [chosen(alike, [2, 1])], exact)).toMatchObject({ toBuy: [], rackCents: 6000 })
  })

  it('without a bar wastes nothing', () => {
    expect(buildPlan(input, [], exact)).toMatchObject({
      bars: [],
      netCents: 0,
      usedLengthMm: 0,
      wasteFraction: 0,
    })
  })

  it('says how it was found', () => {
    const text = (method: 'exact' | 'search-stopped' | 'first-fit-decreasing') =>
      buildPlan(input, [], { ...exact, method, lowerBoundCents: 88 }).proof.text
    expect(text('exact')).toBe('proven: no cutting plan out of 7 patterns costs less')
    expect(text('search-stopped')).toMatch(/not proven; none costs less than 88 cents/)
    expect(text('first-fit-decreasing')).toMatch(/longest pieces first.*not proven/)
  })
})

describe('what is left of a bar', () => {
  const left = (barMm: number, keepOffcutFromMm: number) =>
    buildPlan({ ...input, keepOffcutFromMm }, [chosen(bar(barMm), [2, 1])], exact).bars[0]

  it('is none where the cuts fill it, even where any length is kept', () => {
    // By hand: 2 x 1003 + 400 = 2406, and up to a kerf more.
    for (const barMm of [2406, 2409]) {
      expect(left(barMm, 0)).toMatchObject({ leftoverMm: 0, leftover: 'none', leftoverValueCents: 0 })
    }
    expect(left(2410, 0)).toMatchObject({ leftoverMm: 1, leftover: 'back-to-rack' })
    expect(left(2410, 300)).toMatchObject({ leftoverMm: 1, leftover: 'scrap' })
  })

  it('goes back to the rack at the length kept and is scrap below it', () => {
    expect(left(2709, 300)).toMatchObject({
      leftoverMm: 300,
      leftover: 'back-to-rack',
      leftoverValueCents: 150,
    })
    expect(left(2708, 300)).toMatchObject({ leftoverMm: 299, leftover: 'scrap', leftoverValueCents: 0 })
    // The last digit of a length in inches is no lack.
    expect(left(2709 - 5e-7, 300)).toMatchObject({ leftover: 'back-to-rack', leftoverValueCents: 150 })
    expect(left(2709 - 2e-6, 300)).toMatchObject({ leftover: 'scrap', leftoverValueCents: 0 })
  })

  it('is worth whole cents, never more than the bar', () => {
    // 1.097 m at 5.00 a metre are 5.485: 5.49.
    expect(leftoverValueCents(input, 6000, 1097)).toBe(549)
    expect(leftoverValueCents(input, 549, 1097)).toBe(549)
    expect(leftoverValueCents(input, 548, 1097)).toBe(548)
    expect(leftoverValueCents(input, 0, 1097)).toBe(0)
    expect(leftoverValueCents(input, 6000, 1096)).toBe(0)
  })
})

describe('the bars there are', () => {
  const onRack = (key: string, lengthMm: number, costCents: number, kind: 'bar' | 'offcut' = 'bar') => ({
    key,
    lengthMm,
    costCents,
    kind,
  })

  it('are taken together where length, cost and kind are alike, rack before bought', () => {
    const { kinds, pieces } = nestProblem({
      ...input,
      rack: [
        onRack('a', 3000, 900),
        onRack('b', 3000, 900),
        onRack('c', 3000, 800),
        onRack('d', 3000, 900, 'offcut'),
        onRack('e', 2000, 900),
        onRack('f', 3000, 900),
      ],
      buyable: [
        { key: 'three', lengthMm: 3000, priceCents: 3300, availableCount: 2 },
        { key: 'six', lengthMm: 6000, priceCents: 6000 },
      ],
    })
    expect(
      kinds.map(({ source, kind, keys, costCents, barCount }) => [source, kind, keys, costCents, barCount]),
    ).toEqual([
      ['rack', 'bar', ['a', 'b', 'f'], 900, 3],
      ['rack', 'bar', ['c'], 800, 1],
      ['rack', 'offcut', ['d'], 900, 1],
      ['rack', 'bar', ['e'], 900, 1],
      ['buy', 'bar', ['three'], 3300, 2],
      ['buy', 'bar', ['six'], 6000, null],
    ])
    expect(kinds[3]?.cutting).toEqual({ barLengthMm: 2000, kerfMm: 3, endTrimMm: 0, trimFarEnd: false })
    expect(pieces.map(({ key }) => key)).toEqual(['rail', 'stay'])
  })

  it('have a least cost by the length of all pieces', () => {
    // By hand, kerf 2: 2 x 1002 + 502 = 2506 mm; a six has room for 6002, at 60.02 a cent a millimetre; a three for 3002, at 33.00 dearer.
    const wanted = [
      { key: 'a', lengthMm: 1000, pieceCount: 2 },
      { key: 'b', lengthMm: 500, pieceCount: 1 },
    ]
    const cutting = (barLengthMm: number, endTrimMm = 0) => ({
      barLengthMm,
      kerfMm: 2,
      endTrimMm,
      trimFarEnd: false,
    })
    const kinds = [
      bar(3000, { costCents: 3300, cutting: cutting(3000) }),
      bar(6000, { costCents: 6002, cutting: cutting(6000) }),
    ]
    expect(lengthBoundCents(wanted, kinds, 0)).toBe(2506)
    // Where leftovers are worth money, less half a cent a piece: 2504.5, rounded up.
    expect(lengthBoundCents(wanted, kinds, 999)).toBe(2505)
    // A leftover worth as much as the bar: nothing is sure to be lost.
    expect(lengthBoundCents(wanted, kinds, 1000)).toBe(0)
    // A bar that the crop takes whole gives no cheap room.
    const cropped = bar(6000, { costCents: 6000, cutting: cutting(6000, 7000) })
    expect(lengthBoundCents(wanted, [...kinds, cropped], 0)).toBe(2506)
    // A bar given free.
    expect(lengthBoundCents(wanted, [...kinds, bar(6000, { costCents: 0, cutting: cutting(6000) })], 0)).toBe(
      0,
    )
  })
})

describe('a cutting that is asked for', () => {
  it('of nothing is an empty plan, proven', async () => {
    for (const pieces of [[], [{ key: 'far', lengthMm: 9000, pieceCount: 0 }]]) {
      const found = await nestPieces({ ...input, pieces })
      expect(found).toMatchObject({
        found: true,
        plan: { bars: [], toBuy: [], netCents: 0, proof: { proven: true, text: 'nothing to cut' } },
      })
    }
  })

  it('names the first piece that no bar holds, and takes one as long as the bar', async () => {
    const of = (...lots: [string, number][]) =>
      nestPieces({ ...input, pieces: lots.map(([key, lengthMm]) => ({ key, lengthMm, pieceCount: 1 })) })
    expect(await of(['short', 500], ['long', 6001], ['longer', 7000])).toEqual({
      found: false,
      because: 'piece-longer-than-any-bar',
      pieceKey: 'long',
    })
    expect(await of(['just', 6000])).toMatchObject({ found: true })
  })

  it('buys no more of a length than there is', async () => {
    const buyable = (availableCount: number) => [
      { key: 'six', lengthMm: 6000, priceCents: 6000, availableCount },
    ]
    const pieces = [{ key: 'long', lengthMm: 5000, pieceCount: 2 }]
    expect(await nestPieces({ ...input, pieces, buyable: buyable(1) })).toEqual({
      found: false,
      because: 'not-enough-tube',
      pieceKey: null,
    })
    expect(await nestPieces({ ...input, pieces, buyable: buyable(2) })).toMatchObject({
      found: true,
      plan: { netCents: 12_000, proof: { lowerBoundCents: 12_000 } },
    })
  })

  it('keeps no worth in leftovers where they have none', async () => {
    // Two of 2000 from a six leave 2000; by hand 6000 without worth, 6000 - 2 x 499.5 less with 2.50 a metre at kerf 1.
    const pieces = [{ key: 'a', lengthMm: 2000, pieceCount: 2 }]
    const six = { ...input, pieces, kerfMm: 0, buyable: [{ key: 'six', lengthMm: 6000, priceCents: 6000 }] }
    const net = async (offcutValueCentsPerM: number, keepOffcutFromMm: number) => {
      const found = await nestPieces({ ...six, offcutValueCentsPerM, keepOffcutFromMm })
      return found.found && [found.plan.netCents, found.plan.returned.length]
    }
    expect(await net(0, 1000)).toEqual([6000, 1])
    expect(await net(250, 1000)).toEqual([5500, 1])
    expect(await net(250, 2001)).toEqual([6000, 0])
  })

  it.each([
    [
      'a piece without length',
      { pieces: [{ key: 'a', lengthMm: 0, pieceCount: 1 }] },
      'A piece has a length, not 0 mm.',
    ],
    [
      'less than no pieces',
      { pieces: [{ key: 'a', lengthMm: 5, pieceCount: -1 }] },
      'Pieces are counted from 0, not -1.',
    ],
    [
      'half a piece',
      { pieces: [{ key: 'a', lengthMm: 5, pieceCount: 0.5 }] },
      'Pieces are counted from 0, not 0.5.',
    ],
    [
      'a rack bar without length',
      { rack: [{ key: 'r', lengthMm: 0, kind: 'bar', costCents: 1 }] },
      'A bar has a length, not 0 mm.',
    ],
    [
      'a bought bar without length',
      { buyable: [{ key: 'b', lengthMm: -2, priceCents: 1 }] },
      'A bar has a length, not -2 mm.',
    ],
    [
      'a rack bar below nothing',
      { rack: [{ key: 'r', lengthMm: 9, kind: 'bar', costCents: -1 }] },
      'A bar costs whole cents, not -1.',
    ],
    [
      'a part of a cent',
      { buyable: [{ key: 'b', lengthMm: 9, priceCents: 0.5 }] },
      'A bar costs whole cents, not 0.5.',
    ],
    [
      'a kerf below nothing',
      { kerfMm: -1 },
      'Kerf, end trim, the offcut length kept and its value are zero or more.',
    ],
    [
      'a crop below nothing',
      { endTrimMm: -1 },
      'Kerf, end trim, the offcut length kept and its value are zero or more.',
    ],
    [
      'a kept length below nothing',
      { keepOffcutFromMm: -1 },
      'Kerf, end trim, the offcut length kept and its value are zero or more.',
    ],
    [
      'a worth below nothing',
      { offcutValueCentsPerM: -1 },
      'Kerf, end trim, the offcut length kept and its value are zero or more.',
    ],
  ] as [string, Partial<NestInput>, string][])('is refused for %s', async (_what, change, message) => {
    await expect(nestPieces({ ...input, ...change })).rejects.toThrow(new RangeError(message))
  })

  it('takes bars given free, no kerf, no crop and any offcut', async () => {
    const free = {
      ...input,
      rack: [{ key: 'r', lengthMm: 9000, kind: 'bar' as const, costCents: 0 }],
      buyable: [{ key: 'b', lengthMm: 1, priceCents: 0 }],
      kerfMm: 0,
      keepOffcutFromMm: 0,
      offcutValueCentsPerM: 0,
    }
    // By hand: 9000 - 3 x 1000 - 2 x 400 = 5200 goes back.
    expect(await nestPieces(free)).toMatchObject({
      found: true,
      plan: { netCents: 0, returned: [{ barKey: 'r', lengthMm: 5200, valueCents: 0 }] },
    })
  })
})
