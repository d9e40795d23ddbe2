import type { DrawnTube } from './part'
import type { Point } from './vector'

/** One closed ring of a section: points are [up, side] from the centre, anticlockwise looking along the tube. */
export interface SectionRing {
  points: readonly Point[]
  /** Whether the edge running along the tube from this point is a real corner. */
  corner: readonly boolean[]
}

const roundSides = 40

/**
 * A tube's outline as a ring of points. `cornerSteps` 0 draws a rectangle's corners sharp at full size, as they look
 * when seen square on; more steps follow the corner radius. `insetMm` moves the ring inward: the bore.
 */
export function sectionRing(tube: DrawnTube, cornerSteps: number, insetMm = 0): SectionRing {
  const halfUp = tube.heightMm / 2 - insetMm
  const halfSide = tube.widthMm / 2 - insetMm
  if (tube.shape === 'round') {
    const points = Array.from({ length: roundSides }, (_, index): Point => {
      const angle = (2 * Math.PI * index) / roundSides
      return [halfUp * Math.cos(angle), halfSide * Math.sin(angle)]
    })
    return { points, corner: points.map(() => false) }
  }
  const cornerRadiusMm = tube.cornerRadiusMm ?? 0
  // A bore whose wall takes its radius up is sharp, but keeps a point for each of the outside's.
  const radius = Math.max(cornerRadiusMm - insetMm, 0)
  const quarters: readonly Point[] = [
    [1, 1],
    [-1, 1],
    [-1, -1],
    [1, -1],
  ]
  if (cornerSteps === 0 || cornerRadiusMm === 0) {
    return {
      points: quarters.map(([up, side]) => [up * halfUp, side * halfSide]),
      corner: quarters.map(() => true),
    }
  }
  const points = quarters.flatMap(([up, side], quarter) =>
    Array.from({ length: cornerSteps + 1 }, (_, step): Point => {
      const angle = (Math.PI / 2) * (quarter + step / cornerSteps)
      return [
        up * (halfUp - radius) + radius * Math.cos(angle),
        side * (halfSide - radius) + radius * Math.sin(angle),
      ]
    }),
  )
  return { points, corner: points.map(() => false) }
}
