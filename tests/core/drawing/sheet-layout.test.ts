import { describe, expect, it } from 'vitest'
import type { DrawnPart } from '@/lib/core/drawing/part'
import { type PartSheet, partSheet, type SheetOptions } from '@/lib/core/drawing/part-sheet'
import type { ViewName } from '@/lib/core/drawing/projection'

const options: SheetOptions = {
  widthPx: 900,
  mostHeightPx: 400,
  sizePx: 14,
  units: 'mm',
  arrangement: 'wide',
}
let asked = 0
/** Asked anew each time: a sheet keeps the answers to questions alike. */
const sheetOf = (part: DrawnPart, change: Partial<SheetOptions> = {}) => {
  asked += 1
  const question = { ...options, ...change, asked }
  return partSheet(part, question)
}
const tube = { shape: 'square', widthMm: 40, heightMm: 40 } as const
const straight = (straightAfterMm: number): DrawnPart => ({ tube, bends: [], straightAfterMm })
/**
 * 200 along x, a quarter of R 100 up, 150, a quarter of R 100 toward the viewer, 120. From the side 0 to 320 across and -20 to 370 up;
 * from above 320 by 240; from the end 240 by 390.
 */
const corner: DrawnPart = {
  tube,
  bends: [
    { straightBeforeMm: 200, angleDeg: 90, centrelineRadiusMm: 100, rotationDeg: 0 },
    { straightBeforeMm: 150, angleDeg: 90, centrelineRadiusMm: 100, rotationDeg: 90 },
  ],
  straightAfterMm: 120,
}
const elbow: DrawnPart = { ...corner, bends: corner.bends.slice(0, 1), straightAfterMm: 150 }
const wordsOf = (sheet: PartSheet, name: ViewName) =>
  (sheet.views.find((view) => view.name === name)?.inks ?? [])
    .flatMap((ink) => (ink.kind === 'text' ? [ink.text] : []))
    .sort()
const boxesOf = (sheet: PartSheet) =>
  sheet.views.map(({ name, box, originPx: [x, y], titlePx }) => ({
    name,
    x,
    y,
    titlePx,
    left: x + box.left,
    right: x + box.right,
    top: y + box.top,
    bottom: y + box.bottom,
  }))
const boxOf = (sheet: PartSheet, wanted: ViewName) => {
  const found = boxesOf(sheet).find(({ name }) => name === wanted)
  if (!found) throw new Error(`no ${wanted}`)
  return found
}

describe('the scale of a sheet', () => {
  it.each([
    { why: 'the width less 130: 770 for 500 mm', longMm: 500, change: {}, scale: 1.54 },
    {
      why: 'no less than 0.4 of the width: 80 for 500 mm',
      longMm: 500,
      change: { widthPx: 200 },
      scale: 0.16,
    },
    { why: 'the height: 20 for 40 mm', longMm: 500, change: { mostHeightPx: 20 }, scale: 0.5 },
    { why: '4 at the most', longMm: 100, change: {}, scale: 4 },
  ])('of a straight tube is by $why', ({ longMm, change, scale }) => {
    expect(sheetOf(straight(longMm), change).scalePxPerMm).toBeCloseTo(scale, 9)
  })

  it('counts heights of views under each other: from above 240 and from the side 390', () => {
    expect(sheetOf(corner, { widthPx: 3000, mostHeightPx: 315 }).scalePxPerMm).toBeCloseTo(0.5, 9)
  })

  it('counts the view from the end too where it stands under the others: 390 more', () => {
    const change = { arrangement: 'narrow', views: ['plan', 'elevation', 'end'], widthPx: 3000 } as const
    expect(sheetOf(corner, { ...change, mostHeightPx: 510 }).scalePxPerMm).toBeCloseTo(0.5, 9)
  })

  it('counts widths of views beside each other, 320 and 240, and 130 for each', () => {
    // (1300 - 260) / 560.
    expect(sheetOf(corner, { widthPx: 1300, mostHeightPx: 5000 }).scalePxPerMm).toBeCloseTo(1040 / 560, 9)
  })

  it('counts the wider of side view and plan, however wide the one from the end is', () => {
    // 60 along x, a quarter of R 100 toward the viewer, 600: 180 wide from the side and from above, -20 to 700 from the end.
    const [first] = elbow.bends
    if (!first) throw new Error('no bend')
    const deep: DrawnPart = {
      ...elbow,
      bends: [{ ...first, straightBeforeMm: 60, rotationDeg: 90 }],
      straightAfterMm: 600,
    }
    expect(sheetOf(deep, { widthPx: 1300, mostHeightPx: 5000 }).scalePxPerMm).toBeCloseTo(1040 / 900, 9)
  })

  it('counts the widest alone where they stand under each other', () => {
    // (700 - 130) / 320.
    const change = { arrangement: 'narrow', widthPx: 700, mostHeightPx: 5000 } as const
    expect(sheetOf(corner, change).scalePxPerMm).toBeCloseTo(570 / 320, 9)
    expect(sheetOf(elbow, { widthPx: 700, mostHeightPx: 5000 }).scalePxPerMm).toBeCloseTo(570 / 320, 9)
  })

  it('gives way where dimensions need more than that, and no more than they need', () => {
    for (const [part, widthPx, first] of [
      [elbow, 640, 510 / 320],
      [corner, 680, 420 / 560],
    ] as const) {
      const sheet = sheetOf(part, { widthPx, mostHeightPx: 5000, sizePx: 28 })
      const boxes = boxesOf(sheet)
      const used = Math.max(...boxes.map(({ right }) => right)) - Math.min(...boxes.map(({ left }) => left))
      expect(sheet.scalePxPerMm).toBeLessThan(first)
      expect(used).toBeLessThanOrEqual(widthPx + 1e-6)
      expect(used).toBeGreaterThan(0.93 * widthPx)
      expect(sheet.widthPx).toBe(widthPx)
    }
  })

  it('shrinks to 0.6 at each of three attempts at the most', () => {
    // 0.4 of the width for 560, times 0.6 · 0.6 · 0.6.
    for (const widthPx of [200, 240])
      expect(sheetOf(corner, { widthPx }).scalePxPerMm).toBeCloseTo(((0.4 * widthPx) / 560) * 0.216, 9)
  })

  it('is left where even the smallest is too wide: the sheet is wider then than asked for', () => {
    const sheet = sheetOf(corner, { widthPx: 120 })
    const boxes = boxesOf(sheet)
    expect(sheet.widthPx).toBeGreaterThan(120)
    expect(Math.min(...boxes.map(({ left }) => left))).toBeCloseTo(0, 6)
    expect(Math.max(...boxes.map(({ right }) => right))).toBeCloseTo(sheet.widthPx, 6)
  })
})

describe('which view carries a number', () => {
  it('is the one that shows it true, side view before that from above before that from the end', () => {
    const sheet = sheetOf(corner)
    expect(sheet.views.map(({ name }) => name)).toEqual(['plan', 'elevation', 'end'])
    expect(wordsOf(sheet, 'elevation')).toEqual(['150', '200', '320', '390', '90°', 'R 100'])
    expect(wordsOf(sheet, 'plan')).toEqual(['120', '240'])
    expect(wordsOf(sheet, 'end')).toEqual(['90°', 'R 100', 'turned 90°'])
  })

  it('is the first where none shows more of it than another', () => {
    const sheet = sheetOf(corner, { arrangement: 'narrow' })
    expect(wordsOf(sheet, 'elevation')).toEqual([
      '150',
      '200',
      '320',
      '390',
      '90°',
      '90°',
      'R 100',
      'R 100',
      'turned 90°',
    ])
    expect(wordsOf(sheet, 'plan')).toEqual(['120', '240'])
  })

  it('is the one that shows most where none shows it true', () => {
    // Turned 70 degrees out of the side view's plane and bent by 45: bend and second straight lie nearest to level.
    const turned: DrawnPart = {
      tube,
      bends: [{ straightBeforeMm: 200, angleDeg: 45, centrelineRadiusMm: 100, rotationDeg: 70 }],
      straightAfterMm: 150,
    }
    const sheet = sheetOf(turned)
    expect(wordsOf(sheet, 'elevation')).toContain('200')
    expect(wordsOf(sheet, 'elevation')).not.toContain('150')
    expect(wordsOf(sheet, 'plan')).toEqual(expect.arrayContaining(['150', '45°', 'R 100', 'turned 70°']))
    expect(wordsOf(sheet, 'end')).toEqual([])
    // The second bend's plane turned 60 degrees: seen best from the end, where the sine of it shows.
    const [first, second] = corner.bends
    if (!first || !second) throw new Error('no bends')
    const skew = sheetOf({ ...corner, bends: [first, { ...second, rotationDeg: 60 }] })
    expect(wordsOf(skew, 'end')).toContain('turned 60°')
  })

  it('over all: across and up from the side, up alone from above, none from the end or of a straight tube', () => {
    expect(wordsOf(sheetOf(straight(500)), 'elevation')).toEqual(['500'])
    expect(wordsOf(sheetOf(elbow), 'elevation')).toEqual(['150', '200', '270', '320', '90°', 'R 100'])
    const sheet = sheetOf(straight(500), { views: ['plan', 'elevation', 'end'] })
    expect([...wordsOf(sheet, 'plan'), ...wordsOf(sheet, 'end')]).toEqual([])
  })
})

describe('where the views stand', () => {
  const parts = [0, 45, 90, 135, 180 - 20, -60, -90].map((rotationDeg): DrawnPart => {
    const [first, second] = corner.bends
    if (!first || !second) throw new Error('no bends')
    return { ...corner, bends: [first, { ...second, rotationDeg }] }
  })
  const three = { views: ['plan', 'elevation', 'end'] } as const

  it('is one under the other with 30 between them and 22 for the title, on one centreline', () => {
    for (const part of parts) {
      const sheet = sheetOf(part, three)
      const [plan, elevation] = [boxOf(sheet, 'plan'), boxOf(sheet, 'elevation')]
      expect(elevation.top - plan.bottom).toBeCloseTo(52, 6)
      expect(elevation.x).toBeCloseTo(plan.x, 6)
    }
  })

  it('is the end’s beside the side view, level with it and 30 right of the wider one', () => {
    for (const part of parts) {
      const sheet = sheetOf(part, three)
      const [plan, elevation, end] = [boxOf(sheet, 'plan'), boxOf(sheet, 'elevation'), boxOf(sheet, 'end')]
      expect(end.y).toBeCloseTo(elevation.y, 6)
      expect(end.left - Math.max(plan.right, elevation.right)).toBeCloseTo(30, 6)
    }
  })

  it('on a narrow sheet has the end’s under the others', () => {
    const sheet = sheetOf(corner, { ...three, arrangement: 'narrow' })
    expect(boxOf(sheet, 'end').top - boxOf(sheet, 'elevation').bottom).toBeCloseTo(52, 6)
    expect(boxOf(sheet, 'end').x).toBeCloseTo(boxOf(sheet, 'elevation').x, 6)
  })

  it('leaves room for the highest one’s title and ends with the lowest one', () => {
    const pushed: number[] = []
    for (const views of [three.views, ['elevation', 'end'], ['elevation']] as const)
      for (const part of parts) {
        const sheet = sheetOf(part, { views })
        const boxes = boxesOf(sheet)
        expect(Math.min(...boxes.map(({ top }) => top))).toBeCloseTo(22, 6)
        expect(Math.max(...boxes.map(({ bottom }) => bottom))).toBeCloseTo(sheet.heightPx, 6)
        if (views.length === 2) pushed.push(boxOf(sheet, 'elevation').top - 22)
      }
    // Some of them are pushed down by what stands over the end's view, some are not.
    expect(Math.max(...pushed)).toBeGreaterThan(1)
    expect(Math.min(...pushed)).toBeCloseTo(0, 6)
  })

  it('is in the middle of the sheet’s width', () => {
    for (const part of parts) {
      const sheet = sheetOf(part, { ...three, widthPx: 1500 })
      const boxes = boxesOf(sheet)
      const left = Math.min(...boxes.map((box) => box.left))
      expect(left).toBeGreaterThan(0)
      expect(Math.max(...boxes.map((box) => box.right))).toBeCloseTo(1500 - left, 6)
    }
  })

  it('has each title 8 over its view, from its left edge', () => {
    for (const views of [three.views, ['elevation', 'end']] as const)
      for (const part of parts)
        for (const { left, top, titlePx } of boxesOf(sheetOf(part, { views, widthPx: 1500 })))
          expect(titlePx).toEqual([expect.closeTo(left, 6), expect.closeTo(top - 8, 6)])
  })
})
