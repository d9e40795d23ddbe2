import type { Bounds } from './primitive'

/** A window onto the template and where its upper left corner lies on the sheet. */
export interface Tile {
  readonly name: string
  readonly column: number
  readonly row: number
  /** Left edge of the window, in the template's own millimetres. */
  readonly leftMm: number
  /** Top edge of the window; the template's y runs up. */
  readonly topMm: number
  readonly widthMm: number
  readonly heightMm: number
  readonly sheetXMm: number
  readonly sheetYMm: number
  readonly joins: {
    readonly left: boolean
    readonly right: boolean
    readonly above: boolean
    readonly below: boolean
  }
}

export interface TilePlan {
  readonly columns: number
  readonly rows: number
  readonly overlapMm: number
  readonly sheets: readonly { readonly tiles: readonly Tile[] }[]
}

/**
 * Cuts a template into windows that fit the printable part of a sheet, neighbours sharing an overlap.
 * Windows that are lower than half the printable height (long strips) are stacked several to a sheet.
 * Source: arithmetic. Valid: a printable part larger than the overlap both ways. Exact.
 */
export function planTiles(plan: {
  readonly bounds: Bounds
  readonly printableWidthMm: number
  readonly printableHeightMm: number
  readonly overlapMm: number
}): TilePlan {
  const { bounds, printableWidthMm, printableHeightMm, overlapMm } = plan
  if (!(overlapMm >= 0 && printableWidthMm > overlapMm && printableHeightMm > overlapMm))
    throw new RangeError(
      `an overlap of ${overlapMm} mm leaves nothing of a printable ${printableWidthMm} by ${printableHeightMm} mm`,
    )
  const widthMm = bounds.rightMm - bounds.leftMm
  const heightMm = bounds.topMm - bounds.bottomMm
  const columns = windowCount(widthMm, printableWidthMm, overlapMm)
  const rows = windowCount(heightMm, printableHeightMm, overlapMm)
  const windowHeightMm = rows === 1 ? Math.max(heightMm, 1) : printableHeightMm
  const gapMm = 16
  const stacked = Math.max(1, Math.floor((printableHeightMm + gapMm) / (windowHeightMm + gapMm)))
  const tiles = Array.from({ length: rows * columns }, (_, index): Tile => {
    const [row, column] = [Math.floor(index / columns), index % columns]
    return {
      name: tileName(column, row),
      column,
      row,
      leftMm: bounds.leftMm + column * (printableWidthMm - overlapMm),
      topMm: bounds.topMm - row * (printableHeightMm - overlapMm),
      widthMm: columns === 1 ? Math.max(widthMm, 1) : printableWidthMm,
      heightMm: windowHeightMm,
      sheetXMm: 0,
      sheetYMm: (index % stacked) * (windowHeightMm + gapMm),
      joins: { left: column > 0, right: column < columns - 1, above: row > 0, below: row < rows - 1 },
    }
  })
  const sheetCount = Math.ceil(tiles.length / stacked)
  const sheets = Array.from({ length: sheetCount }, (_, sheet) => ({
    tiles: tiles.slice(sheet * stacked, (sheet + 1) * stacked),
  }))
  return { columns, rows, overlapMm, sheets }
}

function windowCount(lengthMm: number, windowMm: number, overlapMm: number): number {
  // A hair over the window is a rounding error, not a reason for another sheet.
  return Math.max(1, Math.ceil((lengthMm - overlapMm - 1e-6) / (windowMm - overlapMm)))
}

/** Columns by letter, rows by number, as on a map: A1, B1, ... Z1, AA1. */
export function tileName(column: number, row: number): string {
  let letters = ''
  for (let left = column + 1; left > 0; left = Math.floor((left - 1) / 26)) {
    letters = String.fromCharCode(65 + ((left - 1) % 26)) + letters
  }
  return `${letters}${row + 1}`
}
