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
})
