import type { Point } from './vector'

export type LineKind = 'dimension' | 'extension' | 'construction' | 'leader'

/** What the sheet is drawn with, besides the tube itself. Sheet units, y down. */
export type Ink =
  | { kind: 'line'; line: LineKind; points: readonly Point[]; bend?: number }
  | { kind: 'tick'; at: Point; angleRad: number }
  | { kind: 'dot'; at: Point; bend?: number }
  | {
      kind: 'text'
      at: Point
      text: string
      angleRad: number
      anchor: 'start' | 'middle' | 'end'
      look: 'dimension' | 'note' | 'title'
      bend?: number
    }
  | { kind: 'balloon'; at: Point; text: string; bend: number }

export interface Box {
  left: number
  top: number
  right: number
  bottom: number
}

export function growBox(box: Box, [x, y]: Point, by = 0): Box {
  return {
    left: Math.min(box.left, x - by),
    top: Math.min(box.top, y - by),
    right: Math.max(box.right, x + by),
    bottom: Math.max(box.bottom, y + by),
  }
}

export const noBox: Box = {
  left: Number.POSITIVE_INFINITY,
  top: Number.POSITIVE_INFINITY,
  right: Number.NEGATIVE_INFINITY,
  bottom: Number.NEGATIVE_INFINITY,
}

/** The text's angle turned so that it reads from the foot or the right of the sheet. */
export function uprightRad(angleRad: number): number {
  let angle = angleRad
  while (angle > Math.PI / 2 - 1e-6) angle -= Math.PI
  while (angle < -Math.PI / 2 - 1e-6) angle += Math.PI
  return angle
}
