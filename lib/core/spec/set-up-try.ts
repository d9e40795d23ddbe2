import { bendSpec } from '@/lib/core/spec/bend-spec'
import { type SpecAnswer, type SpecInput, SpecRefusal, type Verdict } from '@/lib/core/spec/contract'
import type { Method, PartToBend, ShopDie, ShopPress } from '@/lib/core/spec/shop-tools'

/** Which check of which bend leaves least to spare. */
export interface Margin {
  readonly check: Verdict['check']
  readonly bendIndex: number
  /** 0 at the limit, under 0 past it, 1 with nothing used. */
  readonly marginFraction: number
  readonly text: string
}

export type Tried =
  | {
      readonly works: boolean
      readonly input: SpecInput
      readonly answer: SpecAnswer
      readonly worst: Margin
    }
  | { readonly works: false; readonly input: SpecInput; readonly answer: null; readonly because: string }

/** Out of shape by more than this share of the height is not a part. Source: the model's word "flattens" begins here. */
const mostFlattening = 0.02
/** Asked beyond the bare need, so that a set-up is not laid out to the millimetre. Source: common practice, no source. */
const spanReserve = 1.05

function marginOf(verdict: Verdict, own: number | undefined): number {
  if (verdict.check === 'span') return verdict.value / verdict.limit - 1
  if (verdict.check === 'flattening') return 1 - verdict.value / (own ?? mostFlattening)
  return 1 - verdict.value / verdict.limit
}

/** The check that leaves least to spare over all bends. What only warns, side walls and the textbook radius, does not count. */
export function worstMargin(answer: SpecAnswer, sectionToleranceFraction?: number): Margin {
  let worst: Margin | null = null
  for (const [bendIndex, bend] of answer.bends.entries()) {
    for (const verdict of bend.verdicts) {
      if (verdict.check === 'ramBearing' || verdict.check === 'reduction') continue
      const marginFraction = marginOf(verdict, sectionToleranceFraction)
      if (!worst || marginFraction < worst.marginFraction)
        worst = {
          check: verdict.check,
          bendIndex,
          marginFraction,
          text: `bend ${bendIndex + 1}: ${verdict.text}`,
        }
    }
  }
  if (!worst) throw new RangeError('a part without bends needs no set-up')
  return worst
}

function questionFor(part: PartToBend, press: ShopPress, method: Method, spanMm: number): SpecInput {
  const springbackFactor = part.springbackFactorOf?.(method.method)
  return {
    tube: part.tube,
    material: part.material,
    bends: [...part.bends],
    straightAfterMm: part.straightAfterMm,
    method: method.method,
    press: {
      capacityKn: press.capacityKn,
      supportSpanMm: spanMm,
      supportNoseRadiusMm: press.noseRadiusMm,
      ...(press.supportFrictionCoeff !== undefined && { supportFrictionCoeff: press.supportFrictionCoeff }),
      ...(press.strokeMm !== undefined && { strokeMm: press.strokeMm }),
      ...(press.useFraction !== undefined && { useFraction: press.useFraction }),
    },
    ...(springbackFactor !== undefined && { springbackFactor }),
    ...(part.sectionToleranceFraction !== undefined && {
      sectionToleranceFraction: part.sectionToleranceFraction,
    }),
  }
}

function tryAt(part: PartToBend, press: ShopPress, method: Method, spanMm: number): Tried {
  const input = questionFor(part, press, method, spanMm)
  try {
    const answer = bendSpec(input)
    const worst = worstMargin(answer, part.sectionToleranceFraction)
    const works = worst.marginFraction >= 0 && answer.fillerRefusal === undefined
    return { works, input, answer, worst }
  } catch (cause) {
    if (!(cause instanceof SpecRefusal)) throw cause
    return {
      works: false,
      input,
      answer: null,
      because: cause.faults.map(({ path, met }) => `${path}: ${met}`).join('; '),
    }
  }
}

/** A first span to ask about: room for the arc at the wanted radius and one tube height beside it. */
function firstSpanMm(part: PartToBend, press: ShopPress, method: Method): number {
  const { heightMm } = part.tube
  const strapMm = method.method.strap?.thicknessMm ?? 0
  const needs = part.bends.map(({ angleDeg, centrelineRadiusMm }) => {
    const phi = (angleDeg * Math.PI) / 360
    const reachMm = centrelineRadiusMm + heightMm / 2 + strapMm + press.noseRadiusMm
    return 2 * (reachMm * Math.sin(phi) + heightMm * Math.cos(phi))
  })
  return 1.1 * Math.max(...needs)
}

/** The span the answer asks for: room at full angle, and the force within the press's. */
function neededSpanMm(answer: SpecAnswer): number {
  const needs = answer.bends.map(({ workingSpanMm, pressSpanMm }) =>
    Math.max(workingSpanMm, pressSpanMm ?? 0),
  )
  return Math.max(...needs) * spanReserve
}

/** The best span of a press for one way to support the tube: the shortest that leaves room and keeps the force down. */
export function trySetUp(part: PartToBend, press: ShopPress, method: Method): Tried {
  const inReach = (spanMm: number) => Math.min(Math.max(spanMm, press.spanMinMm), press.spanMaxMm)
  let spanMm = inReach(firstSpanMm(part, press, method))
  let best = tryAt(part, press, method, spanMm)
  for (let round = 0; round < 5; round++) {
    const next = inReach(best.answer ? nextSpanMm(best.answer, spanMm) : spanMm * 1.3)
    if (Math.abs(next - spanMm) <= 0.02 * spanMm) break
    const tried = tryAt(part, press, method, next)
    if (isBetter(tried, best)) best = tried
    else if (best.answer) break
    spanMm = next
  }
  return best
}

function nextSpanMm(answer: SpecAnswer, spanMm: number): number {
  const short = answer.bends.some((bend) =>
    bend.verdicts.some(
      ({ check, verdict }) => (check === 'span' || check === 'press') && verdict === 'refuse',
    ),
  )
  const needed = neededSpanMm(answer)
  return short ? Math.max(needed, spanMm * 1.05) : spanMm
}

function isBetter(a: Tried, b: Tried): boolean {
  if (!a.answer) return false
  if (!b.answer) return true
  if (a.works !== b.works) return a.works
  return a.worst.marginFraction > b.worst.marginFraction
}

export type DieChoice =
  | { readonly dieId: string; readonly surfaceRadiusMm: number; readonly offFraction: number }
  | { readonly dieId: null; readonly surfaceRadiusMm: number; readonly offFraction: 0 }

/** How far a die's radius may be from the right one, as a share of the loaded radius. Source: common practice, no source. */
export const dieReach = 0.02

/** For each bend the shop's die that is near enough to the right one and wide enough, or the one to make. */
export function chooseDies(
  answer: SpecAnswer,
  tube: { readonly widthMm: number; readonly heightMm: number },
  dies: readonly ShopDie[],
): readonly DieChoice[] {
  return answer.bends.map((bend): DieChoice => {
    const offOf = (die: ShopDie) =>
      Math.abs(die.surfaceRadiusMm - bend.dieSurfaceRadiusMm) / (bend.dieSurfaceRadiusMm + tube.heightMm / 2)
    const [nearest] = dies
      .filter((die) => (die.grooveWidthMm ?? Number.POSITIVE_INFINITY) >= tube.widthMm)
      .toSorted((a, b) => offOf(a) - offOf(b))
    if (nearest && offOf(nearest) <= dieReach)
      return { dieId: nearest.id, surfaceRadiusMm: nearest.surfaceRadiusMm, offFraction: offOf(nearest) }
    return { dieId: null, surfaceRadiusMm: bend.dieSurfaceRadiusMm, offFraction: 0 }
  })
}
