import { type SelfContact, selfContact } from '@/lib/core/geometry/clearance'
import { inFrame, tubePath } from '@/lib/core/geometry/tube-path'
import { said } from '@/lib/core/sentence'
import type { SpecAnswer, SpecInput } from '@/lib/core/spec/contract'

/** What stands around the tube in the press. Absent: not checked. */
export interface PressSurroundings {
  /** From the top of the supports down to the table. */
  readonly tableBelowMm?: number
  /** From the middle of the press sideways to its columns, tube running between them. */
  readonly columnHalfGapMm?: number
  /** How far the columns reach along the tube, from the middle. */
  readonly columnHalfDepthMm?: number
}

export interface Conflict {
  readonly kind: 'grip' | 'table' | 'column'
  readonly byMm: number
  readonly text: string
}

export interface OrderStep {
  /** Which bend of the part, from 0. */
  readonly bendIndex: number
  readonly conflicts: readonly Conflict[]
}

export interface BendingOrder {
  readonly steps: readonly OrderStep[]
  readonly clear: boolean
  /** The finished part against itself. */
  readonly self: SelfContact
}

/** Up to so many bends every order is weighed; above, each next bend is the one that conflicts least. */
const mostWeighed = 8

/**
 * In which order to make the bends so that supports stand on straight tube and nothing made before hits table or columns.
 * A bend needs its free length and one tube height of straight tube on either side when it is made: up to the nearest bend made before,
 * or to the end of the cut length. Table and columns are asked with the ram up, half way and down, the tube's middle sinking with the ram.
 * From one end to the other is tried first, being easiest to follow; then every order, fewest conflicts first. Exact for the drawing's shape.
 */
export function bendingOrder(
  input: SpecInput,
  answer: SpecAnswer,
  around: PressSurroundings = {},
): BendingOrder {
  const count = input.bends.length
  const self = selfContact(
    tubePath(
      input.bends.map((bend) => ({ ...bend, bentDeg: bend.angleDeg })),
      input.straightAfterMm,
    ),
    input.tube,
  )
  const known = new Map<string, readonly Conflict[]>()
  const conflictsAt = (made: ReadonlySet<number>, next: number): readonly Conflict[] => {
    const key = `${[...made].sort((a, b) => a - b).join()}>${next}`
    const before = known.get(key)
    if (before) return before
    const found = [
      ...gripConflicts(input, answer, made, next),
      ...pressConflicts(input, answer, around, made, next),
    ]
    known.set(key, found)
    return found
  }
  const stepsOf = (order: readonly number[]): OrderStep[] =>
    order.map((bendIndex, place) => ({
      bendIndex,
      conflicts: conflictsAt(new Set(order.slice(0, place)), bendIndex),
    }))
  const forward = Array.from({ length: count }, (_, index) => index)
  const isClear = (steps: readonly OrderStep[]) => steps.every(({ conflicts }) => conflicts.length === 0)
  for (const order of [forward, forward.toReversed()]) {
    const steps = stepsOf(order)
    if (isClear(steps)) return { steps, clear: true, self }
  }
  const steps = stepsOf(
    count <= mostWeighed ? bestOrder(count, conflictsAt) : greedyOrder(count, conflictsAt),
  )
  return { steps, clear: isClear(steps), self }
}

type Ask = (made: ReadonlySet<number>, next: number) => readonly Conflict[]

/** Cheapest way through all subsets of made bends (Held and Karp's recursion, the cost of a step hanging on the set alone). */
function bestOrder(count: number, conflictsAt: Ask): number[] {
  const costs = new Float64Array(2 ** count).fill(Number.POSITIVE_INFINITY)
  const last = new Int32Array(2 ** count).fill(-1)
  costs[0] = 0
  for (let mask = 0; mask < 2 ** count - 1; mask++) {
    const made = new Set(
      Array.from({ length: count }, (_, index) => index).filter((index) => mask & (1 << index)),
    )
    for (let next = 0; next < count; next++) {
      if (made.has(next)) continue
      const then = mask | (1 << next)
      const cost = (costs[mask] ?? 0) + conflictsAt(made, next).length
      if (cost < (costs[then] ?? 0)) {
        costs[then] = cost
        last[then] = next
      }
    }
  }
  const order: number[] = []
  for (let mask = 2 ** count - 1; mask > 0; ) {
    const next = last[mask] ?? 0
    order.unshift(next)
    mask &= ~(1 << next)
  }
  return order
}

function greedyOrder(count: number, conflictsAt: Ask): number[] {
  const order: number[] = []
  while (order.length < count) {
    const made = new Set(order)
    const left = Array.from({ length: count }, (_, index) => index).filter((index) => !made.has(index))
    const weighed = left.map((next) => ({ next, cost: conflictsAt(made, next).length }))
    order.push(weighed.reduce((best, one) => (one.cost < best.cost ? one : best)).next)
  }
  return order
}

/** Straight tube beside a bend's arc, out to the nearest bend made before or the end of the cut length. */
function straightBesideMm(
  input: SpecInput,
  answer: SpecAnswer,
  made: ReadonlySet<number>,
  next: number,
  side: 1 | -1,
): number {
  let lengthMm = 0
  for (let index = next; ; index += side) {
    const straightIndex = side === 1 ? index + 1 : index
    lengthMm += input.bends[straightIndex]?.straightBeforeMm ?? input.straightAfterMm
    const beyond = input.bends[index + side]
    if (!beyond) return lengthMm + (side === 1 ? answer.gripEndMm : answer.gripStartMm)
    if (made.has(index + side)) return lengthMm
    lengthMm += (beyond.centrelineRadiusMm * beyond.angleDeg * Math.PI) / 180
  }
}

function gripConflicts(
  input: SpecInput,
  answer: SpecAnswer,
  made: ReadonlySet<number>,
  next: number,
): Conflict[] {
  const neededMm = (answer.bends[next]?.freeLengthMm ?? 0) + input.tube.heightMm
  return ([-1, 1] as const).flatMap((side) => {
    const lengthMm = straightBesideMm(input, answer, made, next, side)
    const byMm = neededMm - lengthMm
    if (byMm <= 1e-6) return []
    const where = side === 1 ? 'after' : 'before'
    return [
      {
        kind: 'grip' as const,
        byMm,
        text: `bend ${next + 1} needs ${said.mm(Math.ceil(neededMm))} straight ${where} it and has ${said.mm(Math.floor(lengthMm))}`,
      },
    ]
  })
}

function pressConflicts(
  input: SpecInput,
  answer: SpecAnswer,
  around: PressSurroundings,
  made: ReadonlySet<number>,
  next: number,
): Conflict[] {
  const { tableBelowMm, columnHalfGapMm, columnHalfDepthMm } = around
  const drawn = input.bends[next]
  if (!drawn || (tableBelowMm === undefined && columnHalfGapMm === undefined)) return []
  const travelMm = answer.bends[next]?.ramTravelMm ?? 0
  const strapMm = input.method.strap?.thicknessMm ?? 0
  const halfSizeMm = Math.max(input.tube.widthMm, input.tube.heightMm) / 2
  let belowMm = 0
  let besideMm = 0
  for (const share of [0, 0.5, 1]) {
    const path = tubePath(
      input.bends.map((bend, index) => ({
        ...bend,
        straightBeforeMm: bend.straightBeforeMm + (index === 0 ? answer.gripStartMm : 0),
        bentDeg: index === next ? bend.angleDeg * share : made.has(index) ? bend.angleDeg : 0,
      })),
      input.straightAfterMm + answer.gripEndMm,
    )
    const middle = path.bendMiddles[next]
    if (!middle) continue
    for (const edge of path.edges) {
      for (const point of [edge.from, edge.to]) {
        const [along, up, side] = inFrame(middle, point)
        // The tube's underside lies on the supports when the ram is up: centreline and table are one half height and the strap further apart.
        if (tableBelowMm !== undefined)
          belowMm = Math.max(belowMm, travelMm * share - up - strapMm - tableBelowMm)
        if (
          columnHalfGapMm !== undefined &&
          Math.abs(along) <= (columnHalfDepthMm ?? Number.POSITIVE_INFINITY)
        )
          besideMm = Math.max(besideMm, Math.abs(side) + halfSizeMm - columnHalfGapMm)
      }
    }
  }
  const found: Conflict[] = []
  if (belowMm > 1e-6)
    found.push({
      kind: 'table',
      byMm: belowMm,
      text: `bend ${next + 1} would reach ${said.mm(Math.ceil(belowMm))} into the table: raise the supports`,
    })
  if (besideMm > 1e-6)
    found.push({
      kind: 'column',
      byMm: besideMm,
      text: `at bend ${next + 1} the tube would reach ${said.mm(Math.ceil(besideMm))} into a column of the press`,
    })
  return found
}
