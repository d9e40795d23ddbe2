import { nextThickerGauge } from '@/lib/core/materials/wall-gauge'
import { said } from '@/lib/core/sentence'
import { type BendingOrder, bendingOrder, type PressSurroundings } from '@/lib/core/spec/bending-order'
import type { SpecAnswer, SpecInput } from '@/lib/core/spec/contract'
import { chooseDies, type DieChoice, type Margin, trySetUp } from '@/lib/core/spec/set-up-try'
import {
  type Method,
  methodsOf,
  type PartToBend,
  type ShopPress,
  type ShopTools,
} from '@/lib/core/spec/shop-tools'

export interface SetUp {
  readonly pressId: string
  readonly spanMm: number
  readonly method: Method['method']
  readonly strapId: string | null
  /** One for each bend. */
  readonly dies: readonly DieChoice[]
  /** Different dies the shop would have to make. */
  readonly diesToMake: number
  readonly effort: number
  readonly worst: Margin
  readonly input: SpecInput
  readonly answer: SpecAnswer
  readonly order: BendingOrder
}

/** A set-up that was tried and does not make the part, with the number that fails. */
export interface Blocked {
  readonly pressId: string
  readonly method: Method['method']
  readonly strapId: string | null
  readonly because: string
}

export interface Change {
  readonly kind: 'span' | 'strap' | 'wall' | 'radius' | 'press'
  readonly text: string
  /** The value that would do: span, strap thickness, wall, radius factor, capacity. */
  readonly value: number
  readonly unit: 'mm' | 'kN' | 'times'
  readonly setUp: SetUp
}

export interface SetUpsFound {
  /** Best first: fewest dies to make, least trouble, most to spare. */
  readonly setUps: readonly SetUp[]
  readonly blocked: readonly Blocked[]
  /** Only where no set-up makes the part: what would, smallest change first. */
  readonly changes: readonly Change[]
}

/**
 * The shop's set-ups that make a part, ranked, and where none does, the smallest changes that would.
 * A set-up makes the part when no check of any bend is past its limit: force, free length, stroke, tearing, flattening, filler;
 * and when the filler may go into the tube at all.
 * Order: fewest dies to make, then least trouble (hollow, sand, alloy; a strap one more), then the largest least margin. Screening.
 */
export function findSetUps(part: PartToBend, tools: ShopTools, around?: PressSurroundings): SetUpsFound {
  const { setUps, blocked } = tryAll(part, tools, around)
  return { setUps, blocked, changes: setUps.length > 0 ? [] : smallestChanges(part, tools, around) }
}

function tryAll(
  part: PartToBend,
  tools: ShopTools,
  around: PressSurroundings | undefined,
): { setUps: SetUp[]; blocked: Blocked[] } {
  const setUps: SetUp[] = []
  const blocked: Blocked[] = []
  for (const press of tools.presses) {
    for (const method of methodsOf(tools)) {
      const tried = trySetUp(part, press, method)
      const { strapId } = method
      if (!tried.works || !tried.answer) {
        const because = tried.answer ? (tried.answer.fillerRefusal ?? tried.worst.text) : tried.because
        blocked.push({ pressId: press.id, method: method.method, strapId, because })
        continue
      }
      const dies = chooseDies(tried.answer, part.tube, tools.dies)
      setUps.push({
        pressId: press.id,
        spanMm: tried.input.press.supportSpanMm,
        method: method.method,
        strapId,
        dies,
        diesToMake: new Set(
          dies.filter((die) => die.dieId === null).map((die) => die.surfaceRadiusMm.toFixed(1)),
        ).size,
        effort: method.effort,
        worst: tried.worst,
        input: tried.input,
        answer: tried.answer,
        order: bendingOrder(tried.input, tried.answer, around),
      })
    }
  }
  return { setUps: setUps.sort(byRank), blocked }
}

function byRank(a: SetUp, b: SetUp): number {
  return a.diesToMake - b.diesToMake || a.effort - b.effort || b.worst.marginFraction - a.worst.marginFraction
}

function bestWith(
  part: PartToBend,
  tools: ShopTools,
  around: PressSurroundings | undefined,
): SetUp | undefined {
  return tryAll(part, tools, around).setUps[0]
}

/** Straps a shop can buy as bar stock: cold-rolled strip of 350 MPa as wide as the tube. Source: common practice, no source. */
const strapThicknessesMm = [0.8, 1.2, 1.5, 2, 3]
const stripYieldMPa = 350
const gaugeSteps = 4
const mostRadiusFactor = 4

function smallestChanges(
  part: PartToBend,
  tools: ShopTools,
  around: PressSurroundings | undefined,
): Change[] {
  const changes: Change[] = []
  const longer: ShopPress[] = tools.presses.map((press) => ({
    ...press,
    spanMinMm: 0,
    spanMaxMm: 5 * press.spanMaxMm,
  }))
  const spanned = bestWith(part, { ...tools, presses: longer }, around)
  if (spanned)
    changes.push({
      kind: 'span',
      value: spanned.spanMm,
      unit: 'mm',
      text: `supports ${said.mm(Math.round(spanned.spanMm))} apart on ${spanned.pressId}`,
      setUp: spanned,
    })
  const strap = strapChange(part, tools, around)
  if (strap) changes.push(strap)
  const wall = wallChange(part, tools, around)
  if (wall) changes.push(wall)
  const radius = radiusChange(part, tools, around)
  if (radius) changes.push(radius)
  const press = pressChange(part, tools, around)
  if (press) changes.push(press)
  return changes
}

function strapChange(
  part: PartToBend,
  tools: ShopTools,
  around: PressSurroundings | undefined,
): Change | null {
  for (const thicknessMm of strapThicknessesMm) {
    const strap = {
      id: `strip ${thicknessMm} mm`,
      thicknessMm,
      widthMm: part.tube.widthMm,
      yieldMPa: stripYieldMPa,
    }
    const setUp = bestWith(part, { ...tools, straps: [strap] }, around)
    if (!setUp) continue
    const size = `${thicknessMm} by ${said.mm(part.tube.widthMm)}, ${said.mpa(stripYieldMPa)}`
    return { kind: 'strap', value: thicknessMm, unit: 'mm', text: `a strap of ${size}`, setUp }
  }
  return null
}

function wallChange(
  part: PartToBend,
  tools: ShopTools,
  around: PressSurroundings | undefined,
): Change | null {
  let wallMm = part.tube.wallMm
  for (let step = 0; step < gaugeSteps; step++) {
    const thicker = nextThickerGauge(wallMm)
    if (!thicker || 2 * thicker.wallMm >= Math.min(part.tube.widthMm, part.tube.heightMm)) return null
    wallMm = thicker.wallMm
    const setUp = bestWith({ ...part, tube: { ...part.tube, wallMm } }, tools, around)
    if (setUp)
      return {
        kind: 'wall',
        value: wallMm,
        unit: 'mm',
        text: `a wall of ${said.mm(wallMm)}, ${thicker.gauge} gauge`,
        setUp,
      }
  }
  return null
}

/** The least common factor on all radii that makes the part, to one percent. */
function radiusChange(
  part: PartToBend,
  tools: ShopTools,
  around: PressSurroundings | undefined,
): Change | null {
  const at = (factor: number) =>
    bestWith(
      {
        ...part,
        bends: part.bends.map((bend) => ({ ...bend, centrelineRadiusMm: bend.centrelineRadiusMm * factor })),
      },
      tools,
      around,
    )
  let high = 1.25
  let found = at(high)
  while (!found && high < mostRadiusFactor) {
    high *= 1.25
    found = at(high)
  }
  if (!found) return null
  let low = high / 1.25
  while (high / low > 1.01) {
    const middle = Math.sqrt(low * high)
    const better = at(middle)
    if (better) {
      found = better
      high = middle
    } else low = middle
  }
  const radii = [...new Set(found.input.bends.map((bend) => Math.ceil(bend.centrelineRadiusMm)))].join(', ')
  return {
    kind: 'radius',
    value: high,
    unit: 'times',
    text: `a centreline radius of ${radii} mm offered instead`,
    setUp: found,
  }
}

function pressChange(
  part: PartToBend,
  tools: ShopTools,
  around: PressSurroundings | undefined,
): Change | null {
  const stronger = tools.presses.map((press) => ({ ...press, capacityKn: 1e6 }))
  const setUp = bestWith(part, { ...tools, presses: stronger }, around)
  if (!setUp) return null
  const share = tools.presses.find(({ id }) => id === setUp.pressId)?.useFraction ?? 0.8
  const value = Math.max(...setUp.answer.bends.map(({ pressForceKn }) => pressForceKn)) / share
  return {
    kind: 'press',
    value,
    unit: 'kN',
    text: `a press of ${Math.ceil(value)} kN with the supports of ${setUp.pressId}`,
    setUp,
  }
}
