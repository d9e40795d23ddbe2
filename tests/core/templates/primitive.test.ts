import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  arc,
  boundsOf,
  line,
  movedToOrigin,
  pointOnCircle,
  polyline,
  type Template,
  text,
} from '@/lib/core/templates/primitive'
import { scaleBars, withScaleBars } from '@/lib/core/templates/scale-bars'

const box = (leftMm: number, bottomMm: number, rightMm: number, topMm: number) => ({
  leftMm: expect.closeTo(leftMm, 4),
  bottomMm: expect.closeTo(bottomMm, 4),
  rightMm: expect.closeTo(rightMm, 4),
  topMm: expect.closeTo(topMm, 4),
})

describe('the room a drawing takes', () => {
  it('of lines reaches to their ends', () => {
    expect(
      boundsOf([
        line('CUT', [5, -2], [1, 7]),
        polyline('CUT', [
          [0, 0],
          [9, 3],
          [4, -6],
        ]),
      ]),
    ).toEqual(box(0, -6, 9, 7))
  })

  // About (10, 20) with radius 8; cos 30 = sin 60 = 0.8660254.
  it.each([
    { what: 'over its top', startDeg: 30, endDeg: 150, wanted: box(3.0718, 24, 16.9282, 28) },
    { what: 'under its foot', startDeg: 210, endDeg: 330, wanted: box(3.0718, 12, 16.9282, 16) },
    { what: 'past its right side', startDeg: -30, endDeg: 30, wanted: box(16.9282, 16, 18, 24) },
    { what: 'past its right side, counted on', startDeg: 330, endDeg: 390, wanted: box(16.9282, 16, 18, 24) },
    { what: 'past its left side', startDeg: 150, endDeg: 210, wanted: box(2, 16, 3.0718, 24) },
    { what: 'between two quarters', startDeg: 30, endDeg: 60, wanted: box(14, 24, 16.9282, 26.9282) },
    { what: 'of a quarter', startDeg: 0, endDeg: 90, wanted: box(10, 20, 18, 28) },
    { what: 'of three quarters', startDeg: -90, endDeg: 180, wanted: box(2, 12, 18, 28) },
  ])('of an arc $what is what it covers, not what its circle does', ({ startDeg, endDeg, wanted }) => {
    expect(boundsOf([arc('CUT', { centre: [10, 20], radiusMm: 8, startDeg, endDeg })])).toEqual(wanted)
  })

  // Four letters 5 high: 4 · 5 · 0.8 = 16 wide, a quarter of 5 under the line.
  it.each([
    { how: {}, wanted: box(10, 18.75, 26, 25) },
    { how: { anchor: 'middle' as const }, wanted: box(2, 18.75, 18, 25) },
    { how: { anchor: 'end' as const }, wanted: box(-6, 18.75, 10, 25) },
    { how: { rotationDeg: 90 }, wanted: box(5, 20, 11.25, 36) },
    { how: { rotationDeg: -90 }, wanted: box(8.75, 4, 15, 20) },
    { how: { rotationDeg: 180 }, wanted: box(-6, 15, 10, 21.25) },
    // Corners (0, -1.25), (16, -1.25), (0, 5), (16, 5) turned: x from -5/2 to 16 · 0.8660 + 1.25/2, y from -1.25 · 0.8660 to 8 + 5 · 0.8660.
    { how: { rotationDeg: 30 }, wanted: box(7.5, 18.9175, 24.4814, 32.3301) },
  ])('of words $how is that of their letters', ({ how, wanted }) => {
    expect(boundsOf([text([10, 20], 'ABCD', { heightMm: 5, ...how })])).toEqual(wanted)
  })

  it('grows with what is added and holds it', () => {
    const point = fc.tuple(fc.integer({ min: -500, max: 500 }), fc.integer({ min: -500, max: 500 }))
    fc.assert(
      fc.property(fc.array(point, { minLength: 1, maxLength: 8 }), (points) => {
        const all = boundsOf(points.map((at) => line('MARK', at, at)))
        expect(all).toEqual({
          leftMm: points.map(([x]) => x).sort((a, b) => a - b)[0],
          bottomMm: points.map(([, y]) => y).sort((a, b) => a - b)[0],
          rightMm: points.map(([x]) => x).sort((a, b) => b - a)[0],
          topMm: points.map(([, y]) => y).sort((a, b) => b - a)[0],
        })
      }),
    )
  })

  it('is unknown for nothing drawn', () => {
    expect(() => boundsOf([])).toThrow(/has no size/)
  })
})

describe('what a template is drawn with', () => {
  it('words are 3 mm high, level, on the layer of words and start at their point unless told otherwise', () => {
    expect(text([1, 2], 'saw here')).toEqual({
      kind: 'text',
      layer: 'TEXT',
      at: [1, 2],
      text: 'saw here',
      heightMm: 3,
      rotationDeg: 0,
      anchor: 'start',
    })
    const told = { heightMm: 4, rotationDeg: 45, anchor: 'end', layer: 'SCALE' } as const
    expect(text([1, 2], 'saw here', told)).toMatchObject(told)
  })

  it('a point on a circle goes counter-clockwise from the right', () => {
    expect(pointOnCircle([10, 20], 8, 0)).toEqual([18, 20])
    expect(pointOnCircle([10, 20], 8, 90)).toEqual([expect.closeTo(10, 9), 28])
    expect(pointOnCircle([10, 20], 8, 30)).toEqual([expect.closeTo(16.928203, 6), expect.closeTo(24, 9)])
  })
})

describe('a template moved to its sheet’s corner', () => {
  const drawn = (): Template => ({
    title: 'T',
    notes: ['n'],
    primitives: [
      line('CUT', [-30, -40], [10, 0]),
      polyline('MARK', [
        [0, 0],
        [5, 6],
      ]),
      arc('CUT', { centre: [2, 3], radiusMm: 1, startDeg: 10, endDeg: 80 }),
      text([7, 8], 'x'),
    ],
  })
  it('keeps everything in its place to everything else', () => {
    expect(movedToOrigin(drawn())).toEqual({
      title: 'T',
      notes: ['n'],
      primitives: [
        line('CUT', [0, 0], [40, 40]),
        polyline('MARK', [
          [30, 40],
          [35, 46],
        ]),
        arc('CUT', { centre: [32, 43], radiusMm: 1, startDeg: 10, endDeg: 80 }),
        text([37, 48], 'x'),
      ],
    })
  })
  it('keeps a margin where one is asked for', () => {
    expect(movedToOrigin(drawn(), 5).primitives[0]).toEqual(line('CUT', [5, 5], [45, 45]))
  })
})

describe('the bars to check a print by', () => {
  const bars = () => scaleBars([20, 30])
  const barLines = () => bars().flatMap((one) => (one.kind === 'line' ? [one] : []))

  it('are one of 100 mm with eleven ticks and, 8 mm under it, one of 4 in with seventeen', () => {
    const lines = barLines()
    const upper = lines.slice(0, 12)
    expect(upper[0]).toEqual(line('SCALE', [20, 30], [120, 30]))
    expect(upper.slice(1).map(({ from }) => from)).toEqual(
      Array.from({ length: 11 }, (_, cm) => [20 + 10 * cm, 30]),
    )
    const lower = lines.slice(12)
    expect(lower[0]).toMatchObject({ from: [20, 22], to: [expect.closeTo(121.6, 9), 22] })
    // A quarter of an inch is 6.35 mm.
    expect(lower.slice(1).map(({ from }) => from)).toEqual(
      Array.from({ length: 17 }, (_, quarter) => [expect.closeTo(20 + 6.35 * quarter, 9), 22]),
    )
  })

  it('have ticks straight up, 2 mm high and 4 at both ends', () => {
    const lines = barLines()
    const heights = (ticks: typeof lines) => ticks.map(({ from, to }) => to[1] - from[1])
    expect(heights(lines.slice(1, 12))).toEqual([4, ...Array(9).fill(2), 4])
    expect(heights(lines.slice(13))).toEqual([4, ...Array(15).fill(2), 4])
    for (const { from, to } of [...lines.slice(1, 12), ...lines.slice(13)]) expect(to[0]).toBe(from[0])
  })

  it('say their length 2 mm past their right end', () => {
    expect(bars().filter(({ kind }) => kind === 'text')).toMatchObject([
      { at: [122, 30], text: '100 mm', layer: 'SCALE', heightMm: 3 },
      { at: [expect.closeTo(123.6, 9), 22], text: '4 in', layer: 'SCALE', heightMm: 3 },
    ])
  })

  it('stand 10 mm under what is drawn, from its left edge, and leave it as it was', () => {
    const drawn = [line('CUT', [3, 50], [80, 90])]
    const { primitives } = withScaleBars({ title: '', notes: [], primitives: drawn })
    expect(primitives.slice(0, 1)).toEqual(drawn)
    expect(primitives[1]).toEqual(line('SCALE', [3, 40], [103, 40]))
    expect(primitives).toHaveLength(1 + 1 + 11 + 1 + 1 + 17 + 1)
  })
})
