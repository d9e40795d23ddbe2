import { alloyById } from '@/lib/core/materials/alloys'
import { wallToleranceMm } from '@/lib/core/materials/tube-tolerance'
import { uniformStrain } from '@/lib/core/mechanics/material-curve'
import { remembered } from '@/lib/core/remembered'
import { strengthSpread } from '@/lib/core/spec/bend-answer'
import { bendSpec } from '@/lib/core/spec/bend-spec'
import { type BendAnswer, type SpecAnswer, type SpecInput, SpecRefusal } from '@/lib/core/spec/contract'
import { resolveSpec } from '@/lib/core/spec/resolve'

export type SpreadSource =
  | 'strength'
  | 'wall'
  | 'supportFriction'
  | 'strapFriction'
  | 'dieRadius'
  | 'springbackFactor'

/** One standard deviation of what is never quite as entered. */
export interface Spreads {
  /** Both strengths together, as a share. */
  readonly strengthFraction: number
  readonly wallMm: number
  readonly supportFriction: number
  readonly strapFriction: number
  readonly dieRadiusMm: number
  readonly springbackFactor: number
}

export interface Spread {
  readonly expected: number
  readonly sd: number
  /** Two standard deviations either side. */
  readonly low: number
  readonly high: number
  /** What each source alone would make of it, one standard deviation, largest first. */
  readonly shares: readonly { readonly source: SpreadSource; readonly sd: number }[]
}

export interface BendSpread {
  /** At the loaded angle aimed for, the angle to expect before melt-out. */
  readonly angleAtPressDeg: Spread
  /** At the loaded angle aimed for, the angle after melt-out. */
  readonly finalAngleDeg: Spread
  readonly pressForceKn: Spread
  readonly wallOutsideMm: Spread
  /** Rectangular and square tube only. */
  readonly widthOutsideMm?: Spread
  readonly widthInsideMm?: Spread
}

export type Figure = keyof BendSpread

/** How far the die's radius is off after turning or grinding, mm. Source: common practice, no source. */
const dieRadiusSdMm = 0.25
/** A coefficient of friction is known to a third of itself. Source: common practice, no source. */
const frictionSdShare = 1 / 3

/**
 * The usual spreads for a question: strengths by the model, wall by its tube standard, friction and die by common practice,
 * springback factor as before the first bend.
 * The standard's limit is taken as two standard deviations. Source: JCGM 100:2008 (GUM), 4.3.5, in the form "19 in 20 lie within".
 */
export function usualSpreads(input: SpecInput, springbackFactorSd = 0.15): Spreads {
  const { tube, press, strap } = resolveSpec(input)
  const standard = (input.material.id && alloyById(input.material.id)?.tubeTolerance) || 'assumed-10-percent'
  const outsideMm = Math.max(tube.widthMm, tube.heightMm)
  const limit = wallToleranceMm({ shape: tube.shape, outsideMm, wallMm: tube.wallMm }, standard)
  return {
    strengthFraction: strengthSpread,
    wallMm: (limit.minusMm + limit.plusMm) / 4,
    supportFriction: press.supportFrictionCoeff * frictionSdShare,
    strapFriction: (strap?.frictionCoeff ?? 0) * frictionSdShare,
    dieRadiusMm: dieRadiusSdMm,
    springbackFactor: springbackFactorSd,
  }
}

/** The question as it truly is on one day: every source this many standard deviations off, on the die the plain answer asks for. */
export function questionOff(
  input: SpecInput,
  bendIndex: number,
  plain: SpecAnswer,
  spreads: Spreads,
  off: Readonly<Partial<Record<SpreadSource, number>>>,
): SpecInput {
  const { material, tube, press, strap, springbackFactor } = resolveSpec(input)
  const bend = input.bends[bendIndex]
  const die = plain.bends[bendIndex]?.dieSurfaceRadiusMm
  if (!bend || die === undefined) throw new RangeError(`the part has no bend ${bendIndex + 1}`)
  const strength = 1 + (off.strength ?? 0) * spreads.strengthFraction
  const least = (value: number) => Math.max(value, 0)
  return {
    ...input,
    tube: {
      ...input.tube,
      ...(input.tube.shape !== 'round' && { cornerRadiusMm: tube.cornerRadiusMm }),
      wallMm: tube.wallMm + (off.wall ?? 0) * spreads.wallMm,
    },
    material: {
      ...input.material,
      uniformStrain: uniformStrain(material),
      yieldMPa: material.yieldMPa * strength,
      tensileMPa: material.tensileMPa * strength,
    },
    bends: [{ ...bend, rotationDeg: 0 }],
    method: {
      ...input.method,
      ...(strap &&
        input.method.strap && {
          strap: {
            ...input.method.strap,
            frictionCoeff: least(strap.frictionCoeff + (off.strapFriction ?? 0) * spreads.strapFriction),
          },
        }),
    },
    press: {
      ...input.press,
      supportFrictionCoeff: least(
        press.supportFrictionCoeff + (off.supportFriction ?? 0) * spreads.supportFriction,
      ),
    },
    die: { surfaceRadiusMm: die + (off.dieRadius ?? 0) * spreads.dieRadiusMm },
    springbackFactor: springbackFactor + (off.springbackFactor ?? 0) * spreads.springbackFactor,
  }
}

/**
 * The figures of one bend as they come out on such a day, the bench bending to the plain answer's loaded angle by the protractor.
 * Null where the tube can't be bent.
 */
export function figuresOff(
  question: SpecInput,
  plainBend: BendAnswer,
): Readonly<Partial<Record<Figure, number>>> | null {
  try {
    const [bend] = bendSpec(question).bends
    if (!bend) return null
    const kept = plainBend.loadedAngleDeg / bend.loadedAngleDeg
    return {
      angleAtPressDeg: plainBend.loadedAngleDeg - (bend.loadedAngleDeg - bend.angleAtPressDeg) * kept,
      finalAngleDeg: plainBend.loadedAngleDeg - bend.springbackDeg * kept,
      pressForceKn: bend.pressForceKn,
      wallOutsideMm: bend.wallOutsideMm.expected,
      ...(bend.widthOutsideMm !== undefined && { widthOutsideMm: bend.widthOutsideMm }),
      ...(bend.widthInsideMm !== undefined && { widthInsideMm: bend.widthInsideMm }),
    }
  } catch (cause) {
    if (cause instanceof SpecRefusal) return null
    throw cause
  }
}

const sources: readonly SpreadSource[] = [
  'strength',
  'wall',
  'supportFriction',
  'strapFriction',
  'dieRadius',
  'springbackFactor',
]

/** Change of each figure for one standard deviation of a source; one-sided where the other side can't be bent. */
function slopes(
  input: SpecInput,
  index: number,
  plain: SpecAnswer,
  spreads: Spreads,
  source: SpreadSource,
): Readonly<Partial<Record<Figure, number>>> {
  const plainBend = plain.bends[index]
  if (!plainBend) throw new RangeError(`the part has no bend ${index + 1}`)
  const at = (off: number) =>
    figuresOff(questionOff(input, index, plain, spreads, { [source]: off }), plainBend)
  const [less, more] = [at(-1), at(1)]
  if (!less && !more) return {}
  const middle = less && more ? null : at(0)
  const low = less ?? middle
  const high = more ?? middle
  if (!low || !high) return {}
  const width = less && more ? 2 : 1
  const change: Partial<Record<Figure, number>> = {}
  for (const figure of Object.keys(high) as Figure[])
    change[figure] = ((high[figure] ?? 0) - (low[figure] ?? 0)) / width
  return change
}

function isOff(input: SpecInput, spreads: Spreads, source: SpreadSource): boolean {
  if (source === 'strapFriction') return input.method.strap !== undefined && spreads.strapFriction > 0
  const size: Record<SpreadSource, number> = {
    strength: spreads.strengthFraction,
    wall: spreads.wallMm,
    supportFriction: spreads.supportFriction,
    strapFriction: spreads.strapFriction,
    dieRadius: spreads.dieRadiusMm,
    springbackFactor: spreads.springbackFactor,
  }
  return size[source] > 0
}

/**
 * How far angle, force, wall and width may lie from the plain answer, from the spread of what goes in.
 *   sd^2 = sum over the sources of (change for one standard deviation)^2, each by a central difference of the whole model
 * Source: JCGM 100:2008 (GUM), 5.1.2, uncorrelated inputs. Valid: while the model is near enough a straight line over one
 * standard deviation; checked against seeded sampling. Mechanics.
 */
export const specUncertainty: (input: SpecInput, given?: Partial<Spreads>) => readonly BendSpread[] =
  remembered(workedOut, 64)

function workedOut(input: SpecInput, given?: Partial<Spreads>): readonly BendSpread[] {
  const spreads = { ...usualSpreads(input), ...given }
  const plain = bendSpec(input)
  const known = new Map<string, BendSpread>()
  return plain.bends.map((bend, index) => {
    const drawn = input.bends[index]
    const key = `${drawn?.angleDeg} ${drawn?.centrelineRadiusMm}`
    const before = known.get(key)
    if (before) return before
    const changes = sources
      .filter((source) => isOff(input, spreads, source))
      .map((source) => ({ source, change: slopes(input, index, plain, spreads, source) }))
    const spread = (figure: Figure, expected: number): Spread => {
      const shares = changes
        .map(({ source, change }) => ({ source, sd: Math.abs(change[figure] ?? 0) }))
        .sort((a, b) => b.sd - a.sd)
      const sd = Math.hypot(...shares.map((share) => share.sd))
      return { expected, sd, low: expected - 2 * sd, high: expected + 2 * sd, shares }
    }
    const found: BendSpread = {
      angleAtPressDeg: spread('angleAtPressDeg', bend.angleAtPressDeg),
      finalAngleDeg: spread('finalAngleDeg', bend.finalAngleDeg),
      pressForceKn: spread('pressForceKn', bend.pressForceKn),
      wallOutsideMm: spread('wallOutsideMm', bend.wallOutsideMm.expected),
      ...(bend.widthOutsideMm !== undefined && {
        widthOutsideMm: spread('widthOutsideMm', bend.widthOutsideMm),
      }),
      ...(bend.widthInsideMm !== undefined && { widthInsideMm: spread('widthInsideMm', bend.widthInsideMm) }),
    }
    known.set(key, found)
    return found
  })
}

/** Two trial pieces; piece to piece and protractor together 0.1 degrees, one standard deviation. Source: common practice, no source. */
export const usualTrial = { pieceSdDeg: 0.1, pieceCount: 2 }

/**
 * The spread left in an angle once trial pieces of the same lot were bent on the same set-up and measured.
 *   set-up sd = 1 / sqrt(1 / sd^2 + n / piece^2);  the next piece then lies within sqrt(set-up^2 + piece^2)
 * What all pieces of a lot share (strength, wall, friction, die, factor) is learned; pieceSdDeg, gauge and piece to piece, is not.
 * Source: A. Gelman et al., Bayesian Data Analysis, 3rd ed., section 2.5 (normal mean, known variance).
 */
export function afterTrialPieces(trial: {
  readonly sdDeg: number
  readonly pieceSdDeg: number
  readonly pieceCount: number
}): { readonly setUpSdDeg: number; readonly nextPieceSdDeg: number } {
  const { sdDeg, pieceSdDeg, pieceCount } = trial
  if (!(sdDeg >= 0 && pieceSdDeg > 0 && Number.isInteger(pieceCount) && pieceCount >= 0))
    throw new RangeError('a trial needs spreads in degrees and a whole number of pieces')
  const setUpSdDeg = sdDeg === 0 ? 0 : 1 / Math.sqrt(1 / sdDeg ** 2 + pieceCount / pieceSdDeg ** 2)
  return { setUpSdDeg, nextPieceSdDeg: Math.hypot(setUpSdDeg, pieceSdDeg) }
}
