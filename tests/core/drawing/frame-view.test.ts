import { describe, expect, it } from 'vitest'
import type { Ink } from '@/lib/core/drawing/ink'
import type { DrawnBend, DrawnPart } from '@/lib/core/drawing/part'
import { drawView, type ViewSettings } from '@/lib/core/drawing/part-view'
import { type Taken, textSpots, textWidthPx } from '@/lib/core/drawing/placing'
import { seeTube, views } from '@/lib/core/drawing/projection'
import { tubeMesh } from '@/lib/core/drawing/tube-mesh'

type Point = readonly [number, number]
const at = (x: number, y: number) => [expect.closeTo(x, 3), expect.closeTo(y, 3)]
const lines = (inks: readonly Ink[], line: string) =>
  inks.flatMap((ink) => (ink.kind === 'line' && ink.line === line ? [ink.points] : []))
const texts = (inks: readonly Ink[]) => inks.flatMap((ink) => (ink.kind === 'text' ? [ink] : []))
const tube = { shape: 'square', widthMm: 40, heightMm: 40 } as const
const quarter = (straightBeforeMm: number, centrelineRadiusMm = 60, rotationDeg = 0): DrawnBend => ({
  straightBeforeMm,
  angleDeg: 90,
  centrelineRadiusMm,
  rotationDeg,
})
const seen = (part: DrawnPart, change: Partial<ViewSettings> = {}) =>
  drawView(part, tubeMesh(part), 'elevation', {
    scalePxPerMm: 1,
    units: 'mm',
    sizePx: 14,
    dimensionPieces: new Set([0, 1, 2, 3, 4, 5, 6, 7, 8]),
    overall: { across: false, up: false },
    ...change,
  })
const dimensionsOf = (part: DrawnPart, change: Partial<ViewSettings> = {}) =>
  lines(seen(part, change).inks, 'dimension').filter((points) => points.length === 2)

/** 300 to the right, 200 up, 300 back and 200 down, corners of R 60: a rectangle of 420 by 320 on the sheet, x -60 to 360, y -320 to 0. */
const frame: DrawnPart = { tube, bends: [quarter(300), quarter(200), quarter(300)], straightAfterMm: 200 }
const turned: DrawnPart = { ...frame, bends: [quarter(300, 60, 180), quarter(200), quarter(300)] }

describe('a frame', () => {
  it('has the length of each side outside of it', () => {
    const sides = dimensionsOf(frame)
    expect(sides).toHaveLength(4)
    const [foot, right, top, left] = sides as [Point[], Point[], Point[], Point[]]
    // Half the tube is 20. At the foot letters over a line at 38 would touch it. At the right they would too, and a line at 54 would touch
    // the corner's angle at (412.969, -52.969), so 70.
    expect(foot).toEqual([at(0, 54), at(300, 54)])
    expect(right).toEqual([at(430, -60), at(430, -260)])
    expect(top).toEqual([at(300, -358), at(0, -358)])
    expect(left).toEqual([at(-98, -260), at(-98, -60)])
  })

  it('turned over has them outside too', () => {
    const [foot, right, top, left] = dimensionsOf(turned) as [Point[], Point[], Point[], Point[]]
    expect(foot).toEqual([at(0, -38), at(300, -38)])
    expect(right).toEqual([at(430, 60), at(430, 260)])
    // At 374 its end would touch the angle at (307.031, 372.969).
    expect(top).toEqual([at(300, 390), at(0, 390)])
    expect(left).toEqual([at(-98, 260), at(-98, 60)])
  })

  it('has an angle at each of its corners, outside, where its sides would meet', () => {
    const arms = lines(seen(frame).inks, 'construction')
    // Sides run on 56 past the corner; the next begins at the corner.
    expect(arms).toEqual([
      [at(300, 0), at(416, 0)],
      [at(360, 0), at(360, -60)],
      [at(360, -260), at(360, -376)],
      [at(360, -320), at(300, -320)],
      [at(0, -320), at(-116, -320)],
      [at(-60, -320), at(-60, -260)],
    ])
    const angles = texts(seen(frame).inks).filter(({ text }) => text === '90°')
    // 74.9095 half way between them: 52.969 each way, as at an elbow alone.
    expect(angles.map((angle) => angle.at)).toEqual([
      at(412.969, -52.969),
      at(307.031, -372.969),
      at(-112.969, -267.031),
    ])
  })

  it('turned over has them at the other corners', () => {
    const arms = lines(seen(turned).inks, 'construction')
    expect(arms[0]).toEqual([at(300, 0), at(416, 0)])
    expect(arms[2]).toEqual([at(360, 260), at(360, 376)])
    expect(arms[4]).toEqual([at(0, 320), at(-116, 320)])
  })
})

describe('a spiral whose first side has another close outside of it', () => {
  // 100 to the right, 40 up, 100 back, 100 down and 100 to the right again, 70 under the first: from 10 to 110.
  const spiral: DrawnPart = {
    tube,
    bends: [quarter(100), quarter(40), quarter(100), quarter(100, 70)],
    straightAfterMm: 100,
  }
  it('has its length inside, where every distance outside is taken', () => {
    // Under it the other tube covers 49 to 91: lines at 54, 70 and 86 cross it, letters over one at 38 touch the first, over 104 the other.
    expect(dimensionsOf(spiral)[0]).toEqual([at(0, -38), at(100, -38)])
  })
  it('is measured over all from its left side, not from its beginning', () => {
    // From -60 - 20 to 160 + 20, from -70 - 20 to 160 + 20.
    const words = texts(
      seen(spiral, { dimensionPieces: new Set(), overall: { across: true, up: true } }).inks,
    )
    expect(words.map(({ text }) => text)).toEqual(['260', '270'])
  })
})

describe('a part at half the scale', () => {
  it('has its angle marked where its tangents are short on the sheet, and said once', () => {
    const wide: DrawnPart = { tube, bends: [quarter(400, 300)], straightAfterMm: 300 }
    const half = seen(wide, { scalePxPerMm: 0.5 })
    expect(lines(half.inks, 'construction')).toHaveLength(2)
    expect(texts(half.inks).map(({ text }) => text)).toEqual(['90°', '400', '300', 'R 300'])
    expect(texts(seen(wide).inks).map(({ text }) => text)).toEqual(['400', '300', '90°', 'R 300'])
  })
})

describe('a tube higher than wide', () => {
  it('has its dimensions clear of its height', () => {
    // Half of 60 and 34: at 18 the letters would touch it.
    const high: DrawnPart = {
      tube: { shape: 'rectangular', widthMm: 20, heightMm: 60 },
      bends: [],
      straightAfterMm: 150,
    }
    expect(dimensionsOf(high)[0]).toEqual([at(0, 64), at(150, 64)])
    // The same lying: the room of its larger side is kept free all the same.
    const low: DrawnPart = { ...high, tube: { shape: 'rectangular', widthMm: 60, heightMm: 20 } }
    expect(dimensionsOf(low)[0]).toEqual([at(0, 64), at(150, 64)])
  })
})

describe('an angle of 30 degrees bent downward', () => {
  it('is written on the level of the first straight, where half way would touch the second', () => {
    const bend = { ...quarter(200, 100, 180), angleDeg: 30 }
    const { inks } = seen({ tube, bends: [bend], straightAfterMm: 150 })
    // 200 + 100 tan 15 and 56 + 10 + 12.6.
    expect(texts(inks).find(({ text }) => text === '30°')?.at).toEqual(at(305.395, 0))
  })
})

describe('the cut of an end that runs back', () => {
  it('is noted ahead of it', () => {
    // The end of the frame's third side, at (0, -320) going left: 44 along pi + 0.9 up and left of it.
    const hook: DrawnPart = {
      tube,
      bends: [quarter(300), quarter(200)],
      straightAfterMm: 300,
      endCut: { kind: 'mitre', angleDeg: 30 },
    }
    const { inks } = seen(hook, { dimensionPieces: new Set() })
    expect(texts(inks).find(({ text }) => text === 'mitre 30°')?.at).toEqual(at(-106.951, -356.865))
  })
})

describe('cuts of ends that come close to each other', () => {
  const mitre = { kind: 'mitre', angleDeg: 30 } as const
  const notesOf = (straightAfterMm: number) =>
    texts(seen({ ...frame, straightAfterMm, startCut: mitre, endCut: mitre }).inks)
      .filter(({ text }) => text === 'mitre 30°')
      .map((words) => words.at)

  it('are noted on the other side where the first is taken', () => {
    // Up and left of the start its words would lie 23 from the end of the fourth side, at (-60, -60): so down and left. Those of the end
    // go 44 along (-0.78333, 0.62161) from there.
    expect(notesOf(200)).toEqual([at(-106.951, 36.865), at(-174.066, -30.745)])
  })

  it('leave each other’s notes free', () => {
    // With the end at (-60, 0) its words would touch those of the start; on the other side the first straight; so 1.3 rad off its way:
    // 44 along (-0.96356, 0.26750), half of 75.6 and 4 further left.
    expect(notesOf(260)).toEqual([at(-106.951, 36.865), at(-181.997, 12.589)])
  })
})

describe('notes of an ordinary part', () => {
  const spotsOf = (words: Extract<Ink, { kind: 'text' }>): Taken[] => {
    const widthPx = textWidthPx(words.text, 14)
    const middle: Point = words.anchor === 'start' ? [words.at[0] + widthPx / 2, words.at[1]] : words.at
    return textSpots(middle, { widthPx, sizePx: 14, angleRad: words.angleRad })
  }
  it.each([
    {
      name: 'rail',
      bends: [
        { ...quarter(420, 228.6), angleDeg: 32 },
        { ...quarter(310, 200), angleDeg: 55 },
      ],
      scalePxPerMm: 0.7,
    },
    { name: 'hoop', bends: [quarter(250, 150), quarter(400, 150)], scalePxPerMm: 0.8 },
    { name: 'davit', bends: [{ ...quarter(600, 300), angleDeg: 75 }], scalePxPerMm: 0.6 },
    {
      name: 'joggle',
      bends: [
        { ...quarter(300, 120), angleDeg: 30 },
        { ...quarter(250, 120, 180), angleDeg: 30 },
      ],
      scalePxPerMm: 0.9,
    },
  ])('keep off each other and off the tube: $name', ({ bends, scalePxPerMm }) => {
    const part: DrawnPart = { tube, bends, straightAfterMm: 300 }
    const { inks, pieces } = seen(part, { scalePxPerMm, overall: { across: true, up: true } })
    const words = texts(inks)
    expect(words.length).toBeGreaterThan(4)
    const apart = (a: Taken, b: Taken) =>
      'at' in a && 'at' in b ? Math.hypot(a.at[0] - b.at[0], a.at[1] - b.at[1]) - a.radius - b.radius : 0
    for (const [index, one] of words.entries()) {
      for (const other of words.slice(index + 1)) {
        // Lines of one note stand closer than their round spots.
        if (one.anchor === 'start' && other.anchor === 'start' && one.bend === other.bend) continue
        for (const a of spotsOf(one))
          for (const b of spotsOf(other)) expect(apart(a, b)).toBeGreaterThan(-1e-6)
      }
      for (const spot of spotsOf(one))
        for (const [x, y] of pieces.flatMap(({ centreline }) => centreline))
          if ('at' in spot)
            expect(Math.hypot(spot.at[0] - x, spot.at[1] - y)).toBeGreaterThan(20 * scalePxPerMm)
    }
  })
})

describe('faces that turn away within a bend', () => {
  // 135 degrees up and back: seen from above the inner face up to 90 degrees, from there the outer one.
  const hook: DrawnPart = {
    tube,
    bends: [{ straightBeforeMm: 200, angleDeg: 135, centrelineRadiusMm: 100, rotationDeg: 0 }],
    straightAfterMm: 150,
  }
  it('end their edges there, and the others begin', () => {
    const arc = seeTube(tubeMesh(hook), views.plan).find(({ piece }) => piece === 1)
    // 27 strips: edges of the inner face over 18 of them, of the outer over 9, and a line across each at the turn.
    const long = (arc?.lines ?? []).filter((line) => line.length > 2)
    expect(long.map((line) => line.length).sort((a, b) => a - b)).toEqual([10, 10, 19, 19])
    // The inner edges run from the bend's beginning to 80 right of its centre, the outer from 120 right of it.
    for (const line of long.filter(({ length }) => length === 19)) {
      expect([line[0]?.[0], line.at(-1)?.[0]]).toEqual([expect.closeTo(200, 6), expect.closeTo(280, 6)])
    }
    for (const line of long.filter(({ length }) => length === 10)) expect(line[0]?.[0]).toBeCloseTo(320, 6)
    const across = (arc?.lines ?? []).filter((line) => line.length === 2).map((line) => line.map(([x]) => x))
    expect(across).toHaveLength(2)
    expect(across).toContainEqual([expect.closeTo(280, 6), expect.closeTo(280, 6)])
    expect(across).toContainEqual([expect.closeTo(320, 6), expect.closeTo(320, 6)])
  })

  it('have the rim of each end as that end is turned', () => {
    const part: DrawnPart = { tube, bends: [quarter(200, 100)], straightAfterMm: 150 }
    // From the far end the first straight shows nothing, the last its outer face with its rim at 250.
    const [first, , last] = seeTube(tubeMesh(part), views.end)
    expect(first?.lines).toEqual([])
    const rims = (last?.lines ?? []).filter((line) => line.every(([, y]) => Math.abs(y - 250) < 1e-6))
    expect(rims).toHaveLength(1)
    // From above, a part bent downward shows of its start the upper face alone.
    const down: DrawnPart = { ...part, bends: [quarter(200, 100, 180)] }
    expect(seeTube(tubeMesh(down), views.plan).find(({ piece }) => piece === 0)?.lines).toHaveLength(3)
  })

  it('are seen from outside even where a cut runs back past the bend', () => {
    // Last straight of 10 cut at 45 degrees: its outer face ends at 110 - 20, under where it begins at 100.
    const short: DrawnPart = {
      tube,
      bends: [quarter(200, 100)],
      straightAfterMm: 10,
      endCut: { kind: 'mitre', angleDeg: 45 },
    }
    const last = seeTube(tubeMesh(short), views.end).find(({ piece }) => piece === 2)
    const long = (last?.lines ?? []).filter(
      (line) => Math.abs((line[0]?.[1] ?? 0) - (line.at(-1)?.[1] ?? 0)) > 5,
    )
    expect(long).toContainEqual([at(-20, 100), at(-20, 90)])
    expect(long).toContainEqual([at(20, 100), at(20, 90)])
  })
})
