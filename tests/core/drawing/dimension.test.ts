import { describe, expect, it } from 'vitest'
import { alignedDimension, leaderNote } from '@/lib/core/drawing/dimension'
import type { Ink } from '@/lib/core/drawing/ink'
import type { Taken } from '@/lib/core/drawing/placing'

type Point = readonly [number, number]
type Text = Extract<Ink, { kind: 'text' }>
const near = (...points: readonly Point[]) => points.map((at) => at.map((px) => expect.closeTo(px, 6)))
const linesOf = (inks: readonly Ink[], line: string) =>
  inks.flatMap((ink) => (ink.kind === 'line' && ink.line === line ? [ink.points] : []))
const textsOf = (inks: readonly Ink[]) => inks.filter((ink): ink is Text => ink.kind === 'text')

/** Letters 10 high: three of them are 18 wide and stand 10 · 0.36 + 4 = 7.6 over the line. */
const dimension = (change: Partial<Parameters<typeof alignedDimension>[0]> = {}) =>
  alignedDimension({
    a: [0, 0],
    b: [100, 0],
    text: '200',
    sizePx: 10,
    startPx: 5,
    distancesPx: [30, 60],
    sides: [1, -1],
    taken: [],
    ...change,
  })
const lineOf = (change: Parameters<typeof dimension>[0]) => linesOf(dimension(change).inks, 'dimension')[0]
const wordsAt = (change: Parameters<typeof dimension>[0]) => textsOf(dimension(change).inks)[0]?.at
const at = (x: number, y: number, radius = 5): Taken => ({ at: [x, y], radius })

describe('a dimension along a line', () => {
  it('to the right of the sheet stands above it on its left side, below on its right', () => {
    // y runs down the sheet.
    expect(lineOf({ sides: [1] })).toEqual(near([0, -30], [100, -30]))
    expect(lineOf({ sides: [-1] })).toEqual(near([0, 30], [100, 30]))
    expect(wordsAt({ sides: [1] })).toEqual(near([50, -37.6])[0])
    expect(wordsAt({ sides: [-1] })).toEqual(near([50, 22.4])[0])
  })

  it('up the sheet stands to its left, words reading from the right of the sheet', () => {
    const up = { a: [0, 0], b: [0, -100] } as const
    expect(lineOf({ ...up, sides: [1] })).toEqual(near([-30, 0], [-30, -100]))
    expect(lineOf({ ...up, sides: [-1] })).toEqual(near([30, 0], [30, -100]))
    const [words] = textsOf(dimension({ ...up, sides: [1] }).inks)
    expect(words?.angleRad).toBeCloseTo(-Math.PI / 2, 9)
    // Over the line is to its left then.
    expect(words?.at).toEqual(near([-37.6, -50])[0])
  })

  it('down the sheet reads the same way, from the right', () => {
    const [words] = textsOf(dimension({ a: [0, -100], b: [0, 0], sides: [1] }).inks)
    expect(words?.angleRad).toBeCloseTo(-Math.PI / 2, 9)
    expect(words?.at).toEqual(near([30 - 7.6, -50])[0])
  })

  it('aslant stands square to it: 60 over and 80 down', () => {
    // Along (0.6, 0.8), its left (0.8, -0.6): ten of that is (8, -6). Words 7.6 further the same way, from the middle (38, 34).
    const aslant = { a: [0, 0], b: [60, 80], sides: [1], distancesPx: [10] } as const
    const { inks } = dimension(aslant)
    expect(lineOf(aslant)).toEqual(near([8, -6], [68, 74]))
    expect(wordsAt(aslant)).toEqual(near([44.08, 29.44])[0])
    expect(textsOf(inks)[0]?.angleRad).toBeCloseTo(Math.atan2(4, 3), 9)
    // Extension lines from 5 + 4 off the part to 5 past the line.
    expect(linesOf(inks, 'extension')).toEqual([near([7.2, -5.4], [12, -9]), near([67.2, 74.6], [72, 71])])
    const ticks = inks.flatMap((ink) => (ink.kind === 'tick' ? [ink] : []))
    expect(ticks.map((tick) => tick.at)).toEqual(near([8, -6], [68, 74]))
    for (const tick of ticks) expect(tick.angleRad).toBeCloseTo(Math.atan2(4, 3) - Math.PI / 4, 9)
  })

  it('takes the room of its words and its line', () => {
    // 18 - 12.4 = 5.6 between the first and last spot, in one step.
    expect(dimension({ sides: [-1] }).spots).toEqual([
      { at: near([47.2, 22.4])[0], radius: 6.2 },
      { at: near([52.8, 22.4])[0], radius: 6.2 },
      { from: near([0, 30])[0], to: near([100, 30])[0], radius: 2 },
    ])
  })

  it('says which bend it belongs to on its line and words', () => {
    const { inks } = dimension({ bend: 3 })
    const owned = inks.flatMap((ink) => ('bend' in ink && ink.bend === 3 ? [ink.kind] : []))
    expect(owned).toEqual(['line', 'text'])
  })

  it('of no length lies level', () => {
    expect(lineOf({ a: [5, 5], b: [5, 5], sides: [1], distancesPx: [10] })?.[0]?.[1]).toBeCloseTo(-5, 9)
  })
})

describe('a dimension too short for its words', () => {
  // Words of 18 and 12 for the ticks: 30.
  it('is one of 30, not one a hair longer', () => {
    expect(wordsAt({ b: [30.01, 0], sides: [1] })?.[0]).toBeCloseTo(15.005, 9)
    expect(wordsAt({ b: [30, 0], sides: [1] })?.[0]).toBeCloseTo(30 + 19, 9)
  })

  it('puts them 10 past its end, on a line that runs on under them', () => {
    // Middle of 18 wide words: 20 + 10 + 9 = 39; the line ends at 48.
    expect(wordsAt({ b: [20, 0], sides: [-1] })).toEqual(near([39, 22.4])[0])
    expect(lineOf({ b: [20, 0], sides: [-1] })).toEqual(near([0, 30], [48, 30]))
  })

  it('puts them before its beginning where its end is taken', () => {
    const change = { b: [20, 0], sides: [-1], taken: [at(39, 22)] } as const
    expect(wordsAt(change)).toEqual(near([-19, 22.4])[0])
    expect(lineOf(change)).toEqual(near([-28, 30], [20, 30]))
  })

  it('keeps them at its middle where both ends are taken', () => {
    const change = { b: [20, 0], sides: [-1], taken: [at(39, 15), at(-19, 15)], distancesPx: [30] } as const
    expect(wordsAt(change)).toEqual(near([10, 22.4])[0])
    expect(lineOf(change)).toEqual(near([0, 30], [20, 30]))
  })

  it('does so along its own direction', () => {
    // 20 along (0.6, 0.8) to (12, 16); its right side is (-0.8, 0.6): the line at 10 from (-8, 6), its words' middle 39 along.
    const change = { b: [12, 16], sides: [-1], distancesPx: [10] } as const
    expect(lineOf(change)).toEqual(near([-8, 6], [-8 + 0.6 * 48, 6 + 0.8 * 48]))
    expect(wordsAt(change)).toEqual(near([-8 + 0.6 * 39 + 0.8 * 7.6, 6 + 0.8 * 39 - 0.6 * 7.6])[0])
  })
})

describe('where a dimension stands', () => {
  it('is the first distance on the first side, then the next, then the other side', () => {
    expect(lineOf({})?.[0]?.[1]).toBeCloseTo(-30, 9)
    expect(lineOf({ taken: [at(50, -30)] })?.[0]?.[1]).toBeCloseTo(-60, 9)
    expect(lineOf({ taken: [at(50, -30), at(50, -60)] })?.[0]?.[1]).toBeCloseTo(30, 9)
    expect(lineOf({ taken: [at(50, -30), at(50, -60), at(50, 30)] })?.[0]?.[1]).toBeCloseTo(60, 9)
  })
  it('leaves room for its line, not for its words alone', () => {
    // At (5, -26): 4 off the line with radii 2 + 5, far from the words.
    expect(lineOf({ taken: [at(5, -26)] })?.[0]?.[1]).toBeCloseTo(-60, 9)
  })
})

/** Two lines, the longer of ten letters: 60 wide and 2 · 12.5 high. A number's circle adds 19 before them. */
const note = (change: Partial<Parameters<typeof leaderNote>[0]> = {}) =>
  leaderNote({
    tip: [0, 0],
    lines: ['R 100', 'turned 90°'],
    sizePx: 10,
    directionsRad: [0],
    distancesPx: [60],
    taken: [],
    ...change,
  })
const leaderOf = (change: Parameters<typeof note>[0]) => linesOf(note(change).inks, 'leader')[0]
const startsOf = (change: Parameters<typeof note>[0]) => textsOf(note(change).inks).map((text) => text.at)
const toward = (x: number, y: number) => [Math.atan2(y, x)]

describe('a note at the end of a leader', () => {
  it('to the right begins 4 past the leader’s length, its lines about the leader’s height', () => {
    expect(startsOf({})).toEqual(near([64, -6.25], [64, 6.25]))
    expect(leaderOf({})).toEqual(near([0, 0], [61, 0]))
    expect(textsOf(note({}).inks).map(({ text, anchor, angleRad }) => ({ text, anchor, angleRad }))).toEqual([
      { text: 'R 100', anchor: 'start', angleRad: 0 },
      { text: 'turned 90°', anchor: 'start', angleRad: 0 },
    ])
  })

  it('to the left ends there, and is reached from its right', () => {
    expect(startsOf({ directionsRad: [Math.PI] })).toEqual(near([-124, -6.25], [-124, 6.25]))
    expect(leaderOf({ directionsRad: [Math.PI] })).toEqual(near([0, 0], [-61, 0]))
  })

  it('flatter than 60 degrees rises by a third of its own height more, as far aside as it is long', () => {
    // (0.8, 0.6): to (48, 36), its middle 34 on and 0.6 · 12.5 · 0.35 = 2.625 down.
    expect(startsOf({ directionsRad: toward(0.8, 0.6) })).toEqual(
      near([82 - 30, 38.625 - 6.25], [52, 38.625 + 6.25]),
    )
  })

  it('steeper stands clear by its whole height and less aside, the more so the steeper', () => {
    // (0.28, 0.96) of 50: (14, 48); 34 · 3 · 0.28 = 28.56 aside, 0.96 · 12.5 = 12 down: middle (42.56, 60).
    const steep = { distancesPx: [50] }
    expect(startsOf({ ...steep, directionsRad: toward(0.28, 0.96) })[0]).toEqual(near([12.56, 53.75])[0])
    expect(startsOf({ ...steep, directionsRad: toward(-0.28, 0.96) })[0]).toEqual(near([-72.56, 53.75])[0])
    expect(startsOf({ ...steep, directionsRad: toward(0.28, -0.96) })[0]).toEqual(near([12.56, -66.25])[0])
  })

  it('all but upright goes to the right', () => {
    const aside = (cos: number) => {
      const [first] = startsOf({ distancesPx: [50], directionsRad: [Math.acos(cos)] })
      return (first?.[0] ?? 0) + 30
    }
    // -0.04 · 50 + 34 · 0.12 = 2.08; -0.06 · 50 - 34 · 0.18 = -9.12.
    expect(aside(-0.04)).toBeCloseTo(2.08, 6)
    expect(aside(-0.06)).toBeCloseTo(-9.12, 6)
  })

  it('with a number has it in a circle before its lines, and the leader run to its middle', () => {
    const numbered = { balloon: '2', bend: 1 }
    const { inks } = note(numbered)
    expect(inks.find((ink) => ink.kind === 'balloon')).toEqual({
      kind: 'balloon',
      at: near([72.5, 0])[0],
      text: '2',
      bend: 1,
    })
    expect(leaderOf(numbered)).toEqual(near([0, 0], [72.5, 0]))
    expect(startsOf(numbered)).toEqual(near([83, -6.25], [83, 6.25]))
    expect(inks.every((ink) => !('bend' in ink) || ink.bend === 1)).toBe(true)
  })

  it('with a number to the left is reached from its right, its number at its left', () => {
    const numbered = { balloon: '2', bend: 1, directionsRad: [Math.PI] }
    // 79 wide, from -143 to -64.
    expect(leaderOf(numbered)).toEqual(near([0, 0], [-61, 0]))
    expect(note(numbered).inks.find((ink) => ink.kind === 'balloon')).toMatchObject({
      at: near([-134.5, 0])[0],
    })
  })

  it('of a number alone is reached at its middle from either side', () => {
    const alone = { balloon: '2', bend: 1, lines: [] }
    expect(leaderOf(alone)).toEqual(near([0, 0], [72.5, 0]))
    // 19 wide, from -83.
    expect(leaderOf({ ...alone, directionsRad: [Math.PI] })).toEqual(near([0, 0], [-74.5, 0]))
    // Down: half its circle, 9.5, further.
    expect(
      leaderOf({ ...alone, directionsRad: toward(0.28, 0.96), distancesPx: [50] })?.[1]?.[1],
    ).toBeCloseTo(48 + 0.96 * 9.5, 9)
  })

  it('has a circle only for a number of a bend', () => {
    const kinds = (change: Parameters<typeof note>[0]) => note(change).inks.map(({ kind }) => kind)
    expect(kinds({ bend: 1 })).toEqual(['line', 'text', 'text'])
    expect(kinds({ balloon: '2' })).toEqual(['line', 'text', 'text'])
  })

  it('takes the room of all its lines, its circle and its leader', () => {
    const { spots } = note({ balloon: '2', bend: 1 })
    // 79 wide about 103.5: 79 - 12.4 = 66.6 in eleven steps for each of two lines.
    const rows = spots.slice(0, 24)
    expect(rows.slice(0, 12).map((spot) => 'at' in spot && spot.at[1])).toEqual(Array(12).fill(-6.25))
    expect(rows.slice(12).map((spot) => 'at' in spot && spot.at[1])).toEqual(Array(12).fill(6.25))
    expect(rows[0]).toMatchObject({ at: near([103.5 - 33.3, -6.25])[0], radius: 6.2 })
    expect(spots.slice(24)).toEqual([
      { at: near([72.5, 0])[0], radius: 9 },
      { from: [0, 0], to: near([72.5, 0])[0], radius: 1 },
    ])
    expect(note({}).spots.filter((spot) => 'at' in spot && spot.radius === 9)).toEqual([])
    const alone = note({ lines: [], balloon: '2', bend: 0 }).spots
    expect(alone[0]).toMatchObject({ at: [expect.closeTo(64 + 6.2, 6), 0] })
  })

  it('is tried in all directions at one distance before the next', () => {
    const change = { directionsRad: [0, Math.PI], distancesPx: [60, 90] }
    expect(startsOf(change)[0]?.[0]).toBeCloseTo(64, 9)
    expect(startsOf({ ...change, taken: [at(94, 0)] })[0]?.[0]).toBeCloseTo(-124, 9)
    expect(startsOf({ ...change, taken: [at(74, 0), at(-74, 0)] })[0]?.[0]).toBeCloseTo(94, 9)
  })
})
