import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { planTiles, tileName } from '@/lib/core/templates/tile'

const sheet = { printableWidthMm: 190, printableHeightMm: 240, overlapMm: 10 }
const bounds = (widthMm: number, heightMm: number) => ({
  leftMm: 0,
  bottomMm: 0,
  rightMm: widthMm,
  topMm: heightMm,
})

describe('tiling', () => {
  it('needs one sheet for what fits, and a second for a millimetre more', () => {
    expect(planTiles({ bounds: bounds(190, 240), ...sheet }).sheets).toHaveLength(1)
    expect(planTiles({ bounds: bounds(191, 240), ...sheet })).toMatchObject({ columns: 2, rows: 1 })
  })

  it('covers 900 mm with five 190 mm windows that overlap by 10 mm', () => {
    // By hand: 190 + 4 * 180 = 910, and 190 + 3 * 180 = 730 is too short
    expect(planTiles({ bounds: bounds(900, 200), ...sheet }).columns).toBe(5)
  })

  it('stacks the windows of a low strip on one sheet', () => {
    // By hand: 40 mm windows with 16 mm between them: (240 + 16) / 56 = 4.57, so 4 to a sheet; 5 windows take 2 sheets
    const { sheets } = planTiles({ bounds: bounds(900, 40), ...sheet })
    expect(sheets.map(({ tiles }) => tiles.length)).toEqual([4, 1])
  })

  it('leaves no point of the drawing uncovered and lets every window fit the sheet', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 3000, noNaN: true }),
        fc.double({ min: 1, max: 3000, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (widthMm, heightMm, shareX, shareY) => {
          const { sheets } = planTiles({ bounds: bounds(widthMm, heightMm), ...sheet })
          const tiles = sheets.flatMap((one) => one.tiles)
          const [xMm, yMm] = [shareX * widthMm, shareY * heightMm]
          expect(
            tiles.some(
              (tile) =>
                xMm >= tile.leftMm - 1e-5 &&
                xMm <= tile.leftMm + tile.widthMm + 1e-5 &&
                yMm <= tile.topMm + 1e-5 &&
                yMm >= tile.topMm - tile.heightMm - 1e-5,
            ),
          ).toBe(true)
          for (const tile of tiles) {
            expect(tile.sheetXMm + tile.widthMm).toBeLessThanOrEqual(sheet.printableWidthMm + 1e-9)
            expect(tile.sheetYMm + tile.heightMm).toBeLessThanOrEqual(sheet.printableHeightMm + 1e-9)
          }
        },
      ),
    )
  })

  it('says of each window on which sides another joins it: three by four', () => {
    // By hand: 190 + 2 · 180 = 550 covers 500; 240 + 3 · 230 = 930 covers 900.
    const { columns, rows, sheets } = planTiles({ bounds: bounds(500, 900), ...sheet })
    expect([columns, rows]).toEqual([3, 4])
    const tiles = sheets.flatMap((one) => one.tiles)
    const joins = (name: string) => tiles.find((tile) => tile.name === name)?.joins
    expect(joins('A1')).toEqual({ left: false, right: true, above: false, below: true })
    expect(joins('B2')).toEqual({ left: true, right: true, above: true, below: true })
    expect(joins('C4')).toEqual({ left: true, right: false, above: true, below: false })
    expect(joins('A4')).toEqual({ left: false, right: true, above: true, below: false })
    expect(joins('C1')).toEqual({ left: true, right: false, above: false, below: true })
    expect(tiles.map(({ column, row }) => [column, row]).slice(0, 4)).toEqual([
      [0, 0],
      [1, 0],
      [2, 0],
      [0, 1],
    ])
    const alone = planTiles({ bounds: bounds(100, 100), ...sheet }).sheets[0]?.tiles[0]
    expect(alone?.joins).toEqual({ left: false, right: false, above: false, below: false })
    expect(alone).toMatchObject({ widthMm: 100, heightMm: 100, leftMm: 0, topMm: 100 })
  })

  it('lets neighbours share exactly the overlap', () => {
    const tiles = planTiles({ bounds: bounds(500, 700), ...sheet }).sheets.flatMap((one) => one.tiles)
    const first = tiles.find(({ name }) => name === 'A1')
    const right = tiles.find(({ name }) => name === 'B1')
    const below = tiles.find(({ name }) => name === 'A2')
    expect((first?.leftMm ?? 0) + 190 - (right?.leftMm ?? 0)).toBe(10)
    expect((below?.topMm ?? 0) - ((first?.topMm ?? 0) - 240)).toBe(10)
  })

  it('names columns by letter and goes on after Z', () => {
    expect([tileName(0, 0), tileName(25, 1), tileName(26, 0), tileName(51, 0), tileName(52, 0)]).toEqual([
      'A1',
      'Z2',
      'AA1',
      'AZ1',
      'BA1',
    ])
  })

  it('refuses an overlap that eats the sheet', () => {
    expect(() =>
      planTiles({ bounds: bounds(10, 10), printableWidthMm: 10, printableHeightMm: 10, overlapMm: 10 }),
    ).toThrow(RangeError)
  })

  it('takes no overlap at all, and any that leaves a hair both ways', () => {
    const plan = (printableWidthMm: number, printableHeightMm: number, overlapMm: number) => () =>
      planTiles({ bounds: bounds(10, 10), printableWidthMm, printableHeightMm, overlapMm })
    expect(plan(5, 5, 0)().sheets.flatMap(({ tiles }) => tiles)).toHaveLength(4)
    expect(plan(10.5, 10.5, 10)).not.toThrow()
    for (const [w, h, overlap] of [
      [10, 20, 10],
      [20, 10, 10],
      [20, 20, -1],
      [9, 20, 10],
      [20, 20, Number.NaN],
    ] as const)
      expect(plan(w, h, overlap)).toThrow(/leaves nothing/)
  })

  it('looks at where the drawing lies, not at where the paper begins', () => {
    // 300 wide from -200: 190 + 180 = 370 covers it in two columns; 100 high from -500 to -400 in one row.
    const { columns, rows, sheets } = planTiles({
      bounds: { leftMm: -200, rightMm: 100, bottomMm: -500, topMm: -400 },
      ...sheet,
    })
    expect([columns, rows]).toEqual([2, 1])
    expect(
      sheets.flatMap(({ tiles }) => tiles).map(({ leftMm, topMm, heightMm }) => [leftMm, topMm, heightMm]),
    ).toEqual([
      [-200, -400, 100],
      [-20, -400, 100],
    ])
  })

  it('puts stacked windows under each other with 16 mm between them, and starts each sheet at its top', () => {
    // Windows 60 high: (240 + 16) / 76 = 3.37, so three to a sheet, at 0, 76 and 152.
    const { sheets } = planTiles({ bounds: bounds(900, 60), ...sheet })
    expect(sheets.map(({ tiles }) => tiles.map(({ sheetXMm, sheetYMm }) => [sheetXMm, sheetYMm]))).toEqual([
      [
        [0, 0],
        [0, 76],
        [0, 152],
      ],
      [
        [0, 0],
        [0, 76],
      ],
    ])
    // 112 + 16 + 112 = 240: two fit to the very edge, 113 no longer.
    const perSheet = (heightMm: number) =>
      planTiles({ bounds: bounds(900, heightMm), ...sheet }).sheets[0]?.tiles.length
    expect([112, 113].map(perSheet)).toEqual([2, 1])
  })

  it('never stacks windows of a drawing that is more than one sheet high', () => {
    const { sheets } = planTiles({ bounds: bounds(500, 300), ...sheet })
    expect(sheets.map(({ tiles }) => tiles.map(({ name }) => name))).toEqual([
      ['A1'],
      ['B1'],
      ['C1'],
      ['A2'],
      ['B2'],
      ['C2'],
    ])
    for (const { tiles } of sheets)
      expect(tiles[0]).toMatchObject({ sheetYMm: 0, widthMm: 190, heightMm: 240 })
  })

  it('opens a window a millimetre wide on a drawing without width or height', () => {
    expect(planTiles({ bounds: bounds(0, 0), ...sheet }).sheets[0]?.tiles[0]).toMatchObject({
      widthMm: 1,
      heightMm: 1,
    })
  })
})
