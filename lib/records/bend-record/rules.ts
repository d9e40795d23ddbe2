import { type DecisionRule, judge, ninetyFiveGuard, verdictWords } from '@/lib/core/inspection/decision'
import { type Disposition, dispositionNotes } from '@/lib/core/inspection/disposition'
import { generalLinearMm } from '@/lib/core/inspection/general-tolerances'
import { type BendTolerances, judgeBend, type Look, worst } from '@/lib/core/inspection/judge-bend'
import { rememberedSpec } from '@/lib/core/spec/bend-spec'
import { type BendAnswer, SpecRefusal } from '@/lib/core/spec/contract'
import type { NormalBelief } from '@/lib/core/statistics/normal-update'
import type { AimLine } from '@/lib/core/statistics/re-aim'
import { type FactorObservation, observedFactor } from '@/lib/core/statistics/springback-factor'
import type { JobPlan } from '@/lib/records/job/rules'
import { bendScatterSd } from '@/lib/records/lesson/rules'

export const bendLooks = ['clean', 'marked', 'wrinkled', 'flattened', 'cracked'] as const
export type BendLook = (typeof bendLooks)[number]

export const bendLookWords: Readonly<Record<BendLook, string>> = {
  clean: 'clean',
  marked: 'tool marks',
  wrinkled: 'a wrinkle inside',
  flattened: 'a flat spot',
  cracked: 'a crack or tear',
}

export const penetrantWords = { notDone: 'not done', clear: 'clear', indication: 'an indication' } as const
export type PenetrantResult = keyof typeof penetrantWords

/** What is read off one try; null: not measured. */
export type TryReadings = {
  loadedAngleDeg: number | null
  angleAtPressDeg: number | null
  angleFinalDeg: number | null
  radiusMm: number | null
  widthOutsideMm: number | null
  widthMiddleMm: number | null
  widthInsideMm: number | null
  heightMm: number | null
  wallOutsideMm: number | null
  wallInsideMm: number | null
  look: BendLook | null
  dyePenetrant: PenetrantResult
  gaugeUncertaintyDeg: number
}

export type TryVerdict = 'pass' | 'fail' | 'cannotSay' | 'waiting'
export type TryReason = { quantity: string; verdict: TryVerdict; text: string; conformance?: number }
export type TryJudgement = { verdict: TryVerdict; reasons: TryReason[]; ruleText: string }

/** The shop's rule: 95 percent sure before it says pass or fail. Source: default of ISO 14253-1:2017. */
export const shopRule: DecisionRule = ninetyFiveGuard

const coreLooks: Readonly<Record<BendLook, Look>> = {
  clean: 'clean',
  marked: 'marks',
  wrinkled: 'wrinkle',
  flattened: 'flat',
  cracked: 'crack',
}

/** Whether the angle moves once more after the press lets go, because a filling is melted out. */
export function meltsOut(plan: JobPlan): boolean {
  return plan.method.startsWith('low-melt')
}

/** Whether the shop's own press makes the bends; otherwise only what comes of the welding or from outside is measured. */
export function isBentHere(plan: Pick<JobPlan, 'way'>): boolean {
  return plan.way !== 'mitredWelded' && plan.way !== 'outside'
}

export function wantedBend(plan: JobPlan, position: number) {
  const bend = plan.input?.bends[position - 1]
  const answer = plan.spec?.bends[position - 1]
  return { bend, answer }
}

/** The part's numbers that one bend is judged against. */
export type BendWanted = {
  angleDeg: number
  radiusMm: number
  widthMm: number
  heightMm: number
  shape: string
}

/** Plus or minus on the bend's radius: the part's own, or else by its general class; null where neither gives one. */
function radiusTolerance(plan: JobPlan, wanted: BendWanted): { mm: number; byText: string } | null {
  const { radiusMm, general } = plan.tolerances
  if (radiusMm !== null) return { mm: radiusMm, byText: '' }
  const mm = general === undefined ? null : generalLinearMm(wanted.radiusMm, general)
  return mm === null || general === undefined ? null : { mm, byText: `, by ${general}` }
}

/** What the part asks of one bend. Light tool marks are let pass; a share of the section that may be lost counts from below. */
export function bendTolerances(plan: JobPlan, wanted: BendWanted): BendTolerances {
  const { angleDeg, sectionFraction, penetrant } = plan.tolerances
  const radiusMm = radiusTolerance(plan, wanted)?.mm ?? null
  const least = sectionFraction === null ? null : { lower: wanted.widthMm * (1 - sectionFraction) }
  return {
    limits: {
      angleDeg: { lower: wanted.angleDeg - angleDeg, upper: wanted.angleDeg + angleDeg },
      ...(radiusMm !== null && {
        radiusMm: { lower: wanted.radiusMm - radiusMm, upper: wanted.radiusMm + radiusMm },
      }),
      ...(least && { widthInnerMm: least, widthMiddleMm: least, widthOuterMm: least }),
      ...(sectionFraction !== null &&
        wanted.shape === 'round' && { ovalityPct: { upper: sectionFraction * 100 } }),
    },
    required: ['angleDeg'],
    allowedLooks: ['clean', 'marks'],
    penetrantRequired: penetrant,
    rule: shopRule,
  }
}

/** What must still be measured before the try can be judged; empty once it can. */
function missingOf(plan: JobPlan, read: TryReadings): string[] {
  const angle = meltsOut(plan)
    ? 'the angle after melt-out'
    : isBentHere(plan)
      ? 'the angle off the press'
      : 'the finished angle'
  return [
    ...(read.angleFinalDeg === null ? [angle] : []),
    ...(read.look === null ? ['the look'] : []),
    ...(plan.tolerances.penetrant && read.dyePenetrant === 'notDone' ? ['the dye penetrant'] : []),
  ]
}

/** One try judged: pass, fail, cannot say, or waiting while something is not measured yet. A crack fails at once. */
export function judgeTry(plan: JobPlan, wanted: BendWanted, read: TryReadings): TryJudgement {
  const missing = missingOf(plan, read)
  const broken = read.look === 'cracked' || read.dyePenetrant === 'indication'
  const tolerances = bendTolerances(plan, wanted)
  const ovalityPct =
    wanted.shape === 'round' && read.widthMiddleMm !== null && read.heightMm !== null
      ? (Math.abs(read.widthMiddleMm - read.heightMm) / wanted.widthMm) * 100
      : null
  const judged = judgeBend(
    {
      ...given('angleDeg', read.angleFinalDeg),
      ...given('radiusMm', read.radiusMm),
      ...given('widthInnerMm', read.widthInsideMm),
      ...given('widthMiddleMm', read.widthMiddleMm),
      ...given('widthOuterMm', read.widthOutsideMm),
      ...given('wallOuterMm', read.wallOutsideMm),
      ...given('wallInnerMm', read.wallInsideMm),
      ...given('ovalityPct', ovalityPct),
      ...(read.look !== null && { look: coreLooks[read.look] }),
      penetrant: read.dyePenetrant,
    },
    broken ? { ...tolerances, required: [] } : tolerances,
    { angleDeg: read.gaugeUncertaintyDeg },
  )
  const byText = radiusTolerance(plan, wanted)?.byText ?? ''
  const reasons: TryReason[] = [
    ...judged.reasons.map((reason) =>
      reason.quantity === 'radiusMm' ? { ...reason, text: `${reason.text}${byText}` } : reason,
    ),
    ...heightReasons(plan, wanted, read),
  ]
  if (missing.length > 0 && !broken) {
    const text = `waits for ${missing.join(', ')}`
    return {
      verdict: 'waiting',
      reasons: [{ quantity: 'waiting', verdict: 'waiting', text }],
      ruleText: judged.ruleText,
    }
  }
  const said = reasons.flatMap(({ verdict }) => (verdict === 'waiting' ? [] : [{ verdict }]))
  return { verdict: worst(said), reasons, ruleText: judged.ruleText }
}

function given<Key extends string>(key: Key, value: number | null): { [K in Key]?: number } {
  return (value === null ? {} : { [key]: value }) as { [K in Key]?: number }
}

/** The height in the bend plane may shrink by the same share as a face; of a round tube the ovality says it already. */
function heightReasons(plan: JobPlan, wanted: BendWanted, read: TryReadings): TryReason[] {
  const { sectionFraction } = plan.tolerances
  if (sectionFraction === null || read.heightMm === null || wanted.shape === 'round') return []
  const lower = wanted.heightMm * (1 - sectionFraction)
  const verdict = judge({ value: read.heightMm, lower, expandedUncertainty: 0, rule: shopRule })
  const size = (mm: number) => String(Number(mm.toFixed(2)))
  return [
    {
      quantity: 'heightMm',
      verdict,
      text: `${verdictWords[verdict]}: height ${size(read.heightMm)} mm, at least ${size(lower)} mm`,
    },
  ]
}

export type Aim = { loadedDeg: number; atPressDeg: number; finalDeg: number; factor: number }

/** One bend alone on the die that the plan names or asks for, at this factor and this much to bend. */
function bendOnItsDie(plan: JobPlan, position: number, factor: number, angleDeg: number): BendAnswer | null {
  const { bend, answer } = wantedBend(plan, position)
  if (!plan.input || !bend || !answer) return null
  const die = plan.input.die ?? { surfaceRadiusMm: answer.dieSurfaceRadiusMm }
  const input = {
    ...plan.input,
    die,
    springbackFactor: factor,
    bends: [{ ...bend, angleDeg, rotationDeg: 0 }],
  }
  try {
    return rememberedSpec(input).bends[0] ?? null
  } catch (cause) {
    if (cause instanceof SpecRefusal) return null
    throw cause
  }
}

/** The angles to work to so that the wanted one is left: the die stays what it is, the factor is what was learned. */
export function aimAt(plan: JobPlan, position: number, factor: number): Aim | null {
  const { bend } = wantedBend(plan, position)
  if (!bend) return null
  const first = bendOnItsDie(plan, position, factor, bend.angleDeg)
  if (!first) return null
  const corrected = bend.angleDeg + (bend.angleDeg - first.finalAngleDeg)
  const second = bendOnItsDie(plan, position, factor, corrected) ?? first
  return {
    loadedDeg: second.loadedAngleDeg,
    atPressDeg: second.angleAtPressDeg,
    finalDeg: second.finalAngleDeg,
    factor,
  }
}

/** The model's springback at a loaded angle that was reached on the same die, with factor 1. */
function modelSpringback(plan: JobPlan, position: number, loadedAngleDeg: number): number | null {
  const { bend } = wantedBend(plan, position)
  const first = bend && bendOnItsDie(plan, position, 1, bend.angleDeg)
  if (!bend || !first) return null
  const reached = bend.angleDeg + (loadedAngleDeg - first.loadedAngleDeg)
  const model = reached > 0 && reached < 180 ? bendOnItsDie(plan, position, 1, reached) : null
  return (model ?? first).springbackDeg
}

/** A gauge's expanded uncertainty is two standard ones; none reads better than 0.05 degrees. Common practice, no source. */
export function gaugeSdOf(gaugeUncertaintyDeg: number): number {
  return Math.max(gaugeUncertaintyDeg / 2, 0.05)
}

const factorStep = 0.05

/** How the aim at one bend moves with the factor, for a device that has to correct it alone; null where there is no aim. */
export function aimLine(plan: JobPlan, position: number, belief: NormalBelief): AimLine | null {
  const now = aimAt(plan, position, belief.mean)
  const beside = aimAt(plan, position, belief.mean + factorStep)
  if (!now || !beside) return null
  const springbackDeg = modelSpringback(plan, position, now.loadedDeg)
  const further = modelSpringback(plan, position, now.loadedDeg + 1)
  if (springbackDeg === null || further === null) return null
  return {
    belief: { mean: belief.mean, sd: belief.sd },
    loadedDeg: now.loadedDeg,
    atPressDeg: now.atPressDeg,
    loadedPerFactorDeg: (beside.loadedDeg - now.loadedDeg) / factorStep,
    atPressPerFactorDeg: (beside.atPressDeg - now.atPressDeg) / factorStep,
    modelSpringbackDeg: springbackDeg,
    modelSpringbackPerDeg: further - springbackDeg,
    scatterSd: bendScatterSd,
  }
}

/**
 * The springback factor this try shows; null where it can't: no loaded or final angle, no spec, or a bend that broke.
 * The model's springback is taken at the loaded angle that was reached, on the same die, with factor 1.
 */
export function factorOfTry(plan: JobPlan, position: number, read: TryReadings): FactorObservation | null {
  const { loadedAngleDeg, angleFinalDeg } = read
  const { bend } = wantedBend(plan, position)
  if (!bend || loadedAngleDeg === null || angleFinalDeg === null || read.look === 'cracked') return null
  const modelSpringbackDeg = modelSpringback(plan, position, loadedAngleDeg)
  if (modelSpringbackDeg === null || !(modelSpringbackDeg > 0)) return null
  return observedFactor({
    loadedAngleDeg,
    measuredFinalAngleDeg: angleFinalDeg,
    modelFinalAngleDeg: loadedAngleDeg - modelSpringbackDeg,
    gaugeSdDeg: gaugeSdOf(read.gaugeUncertaintyDeg),
    scatterSd: bendScatterSd,
  })
}

/** Where one bend of one piece stands. `again`: a decision asked for more work, and a new try is due. */
export type BendState = 'none' | 'waiting' | 'pass' | 'fail' | 'cannotSay' | 'conceded' | 'again'

export const bendStateWords: Readonly<Record<BendState, string>> = {
  none: 'not bent yet',
  waiting: 'waiting',
  pass: 'pass',
  fail: 'fail',
  cannotSay: 'cannot say',
  conceded: 'conceded',
  again: 'to do again',
}

export type TryOfBend = {
  bendPosition: number
  tryNumber: number
  verdict: TryVerdict
  faults: readonly { disposition: Disposition | null }[]
}

/** Where a bend stands, by its last try and what was decided about it. */
export function bendState(tries: readonly TryOfBend[], position: number): BendState {
  const last = tries
    .filter((one) => one.bendPosition === position)
    .reduce<TryOfBend | null>(
      (latest, one) => (!latest || one.tryNumber > latest.tryNumber ? one : latest),
      null,
    )
  if (!last) return 'none'
  if (last.verdict === 'waiting') return 'waiting'
  if (last.faults.some(({ disposition }) => disposition === null)) return 'fail'
  const decided = last.faults.flatMap(({ disposition }) => (disposition ? [disposition] : []))
  if (decided.includes('concession')) return 'conceded'
  if (decided.some((disposition) => dispositionNotes[disposition].measureAgain)) return 'again'
  return last.verdict
}

/** What comes next at the bench for a piece whose bends stand so; null where every bend is done. */
export function nextStepText(states: readonly BendState[]): string | null {
  const index = states.findIndex((state) => state !== 'pass' && state !== 'conceded')
  const bend = `bend ${index + 1}`
  switch (states[index]) {
    case undefined:
      return null
    case 'waiting':
      return `Complete the try at ${bend}`
    case 'fail':
      return `The office decides about ${bend}`
    case 'again':
      return `Do ${bend} again`
    case 'cannotSay':
      return `Measure ${bend} again, with a better gauge`
    default:
      return `Bend ${index + 1}`
  }
}

/** Whether the next entry at this bend begins a new try; otherwise why not. */
export function newTryRefusal(state: BendState): string | null {
  if (state === 'waiting') return 'The last try still waits for its measurement: complete that one.'
  if (state === 'fail') return 'The last try failed and its fault is open: the office decides first.'
  if (state === 'pass') return 'This bend has passed already.'
  if (state === 'conceded') return 'This bend was let pass by a concession.'
  return null
}
