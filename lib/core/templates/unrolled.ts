/** The outside of a tube as paper is wrapped round it. Across the plane of the first bend and in it. */
export interface WrappedTube {
  readonly shape: 'square' | 'rectangular' | 'round'
  readonly widthMm: number
  readonly heightMm: number
  readonly cornerRadiusMm?: number
}

export interface UnrolledPoint {
  /** Along the paper, from the middle of the upper side. */
  readonly girthMm: number
  /** Where on the section: up, and to the side. */
  readonly at: readonly [up: number, side: number]
  /** The middle of one of the four sides. */
  readonly isMiddle: boolean
  /** The middle of a corner's arc, where the edge of a sharp tube would be. */
  readonly isFold: boolean
}

/** Even, so that the middle of every flat and every corner is a point. */
const FLAT_STEPS = 32
const CORNER_STEPS = 12
const ROUND_STEPS = 360

/**
 * A tube's outside laid flat: from the middle of the upper side over its side, back to where it began.
 *   a flat runs as long as it is, a corner r b over an angle b, a round tube r phi
 * Source: unrolling of a prism with quarter-circle edges. Valid: corner radius up to half the smaller side. Exact at its points.
 */
export function unrolled(tube: WrappedTube): UnrolledPoint[] {
  const { widthMm, heightMm, cornerRadiusMm: r = 0 } = tube
  if (!(widthMm > 0 && heightMm > 0)) throw new RangeError('a tube needs a width and a height above 0 mm')
  if (tube.shape === 'round') {
    return Array.from({ length: ROUND_STEPS + 1 }, (_, step) => {
      const phi = (2 * Math.PI * step) / ROUND_STEPS
      return {
        girthMm: (widthMm / 2) * phi,
        at: [(widthMm / 2) * Math.cos(phi), (widthMm / 2) * Math.sin(phi)],
        isMiddle: step < ROUND_STEPS && step % (ROUND_STEPS / 4) === 0,
        isFold: false,
      }
    })
  }
  if (!(r >= 0 && r <= Math.min(widthMm, heightMm) / 2))
    throw new RangeError(`a corner radius of ${r} mm does not fit: at most half the smaller side`)
  const [halfUp, halfSide] = [heightMm / 2, widthMm / 2]
  const points: UnrolledPoint[] = []
  let girthMm = 0
  /** A flat from one point to another, both on the section. */
  const flat = (
    from: readonly [number, number],
    to: readonly [number, number],
    firstStep: number,
    lastStep: number,
  ) => {
    const lengthMm = Math.hypot(to[0] - from[0], to[1] - from[1])
    for (let step = firstStep; step <= lastStep; step++) {
      const share = step / FLAT_STEPS
      points.push({
        girthMm: girthMm + lengthMm * (share - firstStep / FLAT_STEPS),
        at: [from[0] + (to[0] - from[0]) * share, from[1] + (to[1] - from[1]) * share],
        isMiddle: step === FLAT_STEPS / 2 && !(firstStep === 0 && lastStep === FLAT_STEPS / 2),
        isFold: r === 0 && step === FLAT_STEPS,
      })
    }
    girthMm += (lengthMm * (lastStep - firstStep)) / FLAT_STEPS
  }
  /** A corner about its centre, turning from one of the four sides to the next. */
  const corner = (quarter: number, up: 1 | -1, side: 1 | -1) => {
    for (let step = 1; r > 0 && step < CORNER_STEPS; step++) {
      const turn = (Math.PI / 2) * (quarter + step / CORNER_STEPS)
      points.push({
        girthMm: girthMm + ((r * Math.PI) / 2) * (step / CORNER_STEPS),
        at: [up * (halfUp - r) + r * Math.cos(turn), side * (halfSide - r) + r * Math.sin(turn)],
        isMiddle: false,
        isFold: step === CORNER_STEPS / 2,
      })
    }
    girthMm += (r * Math.PI) / 2
  }
  const upper = [
    [halfUp, r - halfSide],
    [halfUp, halfSide - r],
  ] as const
  flat(...upper, FLAT_STEPS / 2, FLAT_STEPS)
  corner(0, 1, 1)
  flat([halfUp - r, halfSide], [r - halfUp, halfSide], 0, FLAT_STEPS)
  corner(1, -1, 1)
  flat([-halfUp, halfSide - r], [-halfUp, r - halfSide], 0, FLAT_STEPS)
  corner(2, -1, -1)
  flat([r - halfUp, -halfSide], [halfUp - r, -halfSide], 0, FLAT_STEPS)
  corner(3, 1, -1)
  flat(...upper, 0, FLAT_STEPS / 2)
  return points
}
