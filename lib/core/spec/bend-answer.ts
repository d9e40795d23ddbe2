import type { BareTube } from '@/lib/core/mechanics/bare-tube'
import { bendOnGivenDie, bendOnRightDie } from '@/lib/core/mechanics/bend-in-press'
import type { BendInPress } from '@/lib/core/mechanics/bend-setting'
import type { BentTube } from '@/lib/core/mechanics/bent-tube'
import { flattening } from '@/lib/core/mechanics/flattening'
import { leverAt, ramTravelMm, workingSpanMm } from '@/lib/core/mechanics/press'
import { Impossible } from '@/lib/core/mechanics/refusal'
import { type Stroke, type StrokePoint, stroke, travelsMm } from '@/lib/core/mechanics/stroke'
import type { Trace, TraceInput } from '@/lib/core/mechanics/trace'
import { bentSection, tearRadiusMm, tearUtilisation } from '@/lib/core/mechanics/wall'
import type { BendAnswer, SpecBend } from '@/lib/core/spec/contract'
import { defaultPressUse, type Resolved } from '@/lib/core/spec/resolve'
import { bendVerdicts } from '@/lib/core/spec/verdicts'

export const degrees = (angleRad: number): number => (angleRad * 180) / Math.PI
export const radians = (angleDeg: number): number => (angleDeg * Math.PI) / 180

/** One standard deviation of the strengths, as a share. Source: section 2 of the project's bend model. */
export const strengthSpread = 0.06

/** Points of the stroke in an answer. */
const strokePointsShown = 31

function solve(resolved: Resolved, bent: BentTube, bend: SpecBend, trace?: Trace): BendInPress {
  const setting = {
    bent,
    press: resolved.press,
    wanted: { angleRad: radians(bend.angleDeg), radiusMm: bend.centrelineRadiusMm },
    springbackFactor: resolved.springbackFactor,
    ...(trace && { trace }),
  }
  const { die } = resolved.input
  const made = die ? bendOnGivenDie(setting, die.surfaceRadiusMm) : bendOnRightDie(setting)
  const loaded = 2 * made.phiRad + 2 * made.arm.loadedRad
  if (!(loaded < Math.PI)) {
    throw new Impossible(
      'angle',
      `${degrees(loaded).toFixed(1)} degrees under load`,
      'less than 180 degrees under load',
    )
  }
  return made
}

export type BendAngles = Readonly<{ loaded: number; atPress: number; final: number }>

/** What a protractor on the straight ends reads at full travel, at the press with the ram off, and after melt-out: arc and arms. */
function anglesOf(made: BendInPress, trace?: Trace): BendAngles {
  const arc = 2 * made.phiRad * made.loadedRadiusMm
  const angles = {
    loaded: degrees(2 * made.phiRad + 2 * made.arm.loadedRad),
    atPress: degrees(arc * (1 / made.loadedRadiusMm - made.pressRecovery) + 2 * made.arm.atPressRad),
    final: degrees(arc / made.finalRadiusMm + 2 * made.arm.keptRad),
  }
  if (trace) recordAngles(trace, made, angles)
  return angles
}

/** Springback, force and die radius where the tube is this much weaker or stronger; null where it can't be bent. */
function atStrength(resolved: Resolved, bent: BentTube, bend: SpecBend) {
  try {
    const made = solve(resolved, bent, bend)
    const { loaded, final } = anglesOf(made)
    const force = stroke(bent, resolved.press, made.loadedRadiusMm, made.phiRad, made.balance)
    return {
      springbackDeg: loaded - final,
      pressForceKn: force.mostForceN / 1000,
      dieSurfaceRadiusMm: made.loadedRadiusMm - bent.tube.heightMm / 2,
    }
  } catch (cause) {
    if (cause instanceof Impossible) return null
    throw cause
  }
}

function rangeOf(
  resolved: Resolved,
  tubes: readonly BentTube[],
  bend: SpecBend,
  middle: { springbackDeg: number; pressForceKn: number; dieSurfaceRadiusMm: number },
  trace?: Trace,
): BendAnswer['range'] {
  const ends = tubes.map((bent) => atStrength(resolved, bent, bend))
  const [weak, strong] = ends
  if (!weak || !strong) return null
  const between = (key: keyof typeof middle) => {
    const values = [weak[key], strong[key], middle[key]]
    const range = { low: Math.min(...values), high: Math.max(...values) }
    for (const end of ['low', 'high'] as const)
      trace?.step(`range.${key}.${end}`, {
        formula: `the whole bend again with both strengths ${1 - strengthSpread} and ${1 + strengthSpread} times, uniform strain held; the ${end} end`,
        inputs: [
          ['weaker', weak[key]],
          ['stronger', strong[key]],
          ['typical', middle[key], '', key],
        ],
        value: range[end],
        unit: key === 'springbackDeg' ? '°' : key === 'pressForceKn' ? 'kN' : 'mm',
        source: 'one standard deviation of the strengths: common practice, no source',
        trust: 'mechanics',
      })
    return range
  }
  return {
    springbackDeg: between('springbackDeg'),
    pressForceKn: between('pressForceKn'),
    dieSurfaceRadiusMm: between('dieSurfaceRadiusMm'),
  }
}

/**
 * The shortest span at which the press has the force for a bend: each turn the lever that the last turn's largest force asks for,
 * the whole bend solved again on it. Null where no span does, because arms that long would keep the bend by themselves.
 */
function spanForForceMm(
  resolved: Resolved,
  bent: BentTube,
  bend: SpecBend,
  first: Readonly<{ made: BendInPress; mostForceN: number; atPhiRad: number }>,
  capacityN: number,
): number | null {
  let { press } = resolved
  let { made, mostForceN, atPhiRad } = first
  try {
    for (let turn = 0; turn < 12 && mostForceN > capacityN * 1.0001; turn++) {
      const { leverMm } = leverAt(bent, press, made.loadedRadiusMm, atPhiRad)
      const longerMm = 2 * leverMm * (mostForceN / capacityN - 1) * Math.cos(atPhiRad)
      press = { ...press, supportSpanMm: press.supportSpanMm + longerMm }
      made = solve({ ...resolved, press }, bent, bend)
      const force = stroke(bent, press, made.loadedRadiusMm, made.phiRad, made.balance)
      mostForceN = force.mostForceN
      atPhiRad = force.atPhiRad
    }
  } catch (cause) {
    if (cause instanceof Impossible) return null
    throw cause
  }
  return Math.max(press.supportSpanMm, workingSpanMm(bent, made.lever, made.loadedRadiusMm, made.phiRad))
}

type InPress = Readonly<{
  made: BendInPress
  angles: BendAngles
  force: Stroke
  travelMm: number
  shown: readonly StrokePoint[]
  travels: readonly number[]
  range: BendAnswer['range']
}>

/** One bend in the press: what fills the tube counts here by its moment alone. */
function inPress(
  resolved: Resolved,
  bent: BentTube,
  weakAndStrong: readonly BentTube[],
  bend: SpecBend,
  trace?: Trace,
): InPress {
  const made = solve(resolved, bent, bend, trace)
  const angles = anglesOf(made, trace)
  const force = stroke(bent, resolved.press, made.loadedRadiusMm, made.phiRad, made.balance, trace)
  const travelMm = ramTravelMm(made.lever, made.loadedRadiusMm, made.phiRad, made.arm.bowMm, trace)
  const shown = force.points(strokePointsShown)
  const travels = travelsMm(bent, resolved.press, made.loadedRadiusMm, shown)
  const middle = {
    springbackDeg: angles.loaded - angles.final,
    pressForceKn: force.mostForceN / 1000,
    dieSurfaceRadiusMm: made.loadedRadiusMm - bent.tube.heightMm / 2,
  }
  const range = rangeOf(resolved, weakAndStrong, bend, middle, trace)
  return { made, angles, force, travelMm, shown, travels, range }
}

const mostKept = 32
const unfilled = new WeakMap<BareTube, Map<string, InPress>>()

/** Sand carries no moment, so that hollow and sand-filled are one solution: both ways of a part share it. */
function inPressOnce(...asked: Parameters<typeof inPress>): InPress {
  const [{ press, springbackFactor, input }, bent, , bend, trace] = asked
  if (trace || bent.strap || bent.support.kind === 'lowMelt') return inPress(...asked)
  const known = unfilled.get(bent.bare) ?? new Map<string, InPress>()
  unfilled.set(bent.bare, known)
  const key = JSON.stringify([bend.angleDeg, bend.centrelineRadiusMm, press, springbackFactor, input.die])
  const found = known.get(key) ?? inPress(...asked)
  if (known.size >= mostKept) known.delete(known.keys().next().value as string)
  known.set(key, found)
  return found
}

/**
 * One bend's answer. Throws Impossible where the model has none.
 * With a trace every step is recorded as it is worked out.
 */
export function answerBend(
  resolved: Resolved,
  bent: BentTube,
  weakAndStrong: readonly BentTube[],
  bend: SpecBend,
  trace?: Trace,
): { answer: BendAnswer; made: BendInPress } {
  const { made, angles, force, travelMm, shown, travels, range } = inPressOnce(
    resolved,
    bent,
    weakAndStrong,
    bend,
    trace,
  )
  const section = bentSection(bent, made, trace)
  const flat = flattening(bent, made, trace)
  const spanMm = workingSpanMm(bent, made.lever, made.loadedRadiusMm, made.phiRad, trace)
  const utilisation = tearUtilisation(bent, section.outerStrain, trace)
  const capacityN =
    1000 * resolved.input.press.capacityKn * (resolved.input.press.useFraction ?? defaultPressUse)
  const pressSpanMm =
    force.mostForceN > capacityN ? spanForForceMm(resolved, bent, bend, { made, ...force }, capacityN) : null
  const answer: BendAnswer = {
    wantedAngleDeg: bend.angleDeg,
    wrappedAngleDeg: degrees(2 * made.phiRad),
    loadedAngleDeg: angles.loaded,
    angleAtPressDeg: angles.atPress,
    finalAngleDeg: angles.final,
    springbackDeg: angles.loaded - angles.final,
    meltOutSpringbackDeg: angles.atPress - angles.final,
    armLoadedDeg: degrees(made.arm.loadedRad),
    armKeptDeg: degrees(made.arm.keptRad),
    loadedRadiusMm: made.loadedRadiusMm,
    finalRadiusMm: made.finalRadiusMm,
    dieSurfaceRadiusMm: made.loadedRadiusMm - bent.tube.heightMm / 2,
    neutralAxisShiftMm: made.balance.neutralMm,
    outerStrain: section.outerStrain,
    innerStrain: section.innerStrain,
    wallOutsideMm: section.wallOutsideMm,
    wallInsideMm: section.wallInsideMm,
    ...(section.widthOutsideMm !== null && { widthOutsideMm: section.widthOutsideMm }),
    ...(section.widthInsideMm !== null && { widthInsideMm: section.widthInsideMm }),
    ...(flat.flangeSagMm !== null && { flangeSagMm: flat.flangeSagMm }),
    ...(flat.ovalityPct !== null && { ovalityPct: flat.ovalityPct }),
    tubeMomentNmm: made.balance.tubeMomentNmm,
    fillerMomentNmm: made.balance.fillerMomentNmm,
    strapMomentNmm: made.balance.strapMomentNmm,
    externalMomentNmm: made.balance.externalMomentNmm,
    strapTensionN: made.balance.strapTensionN,
    pressForceKn: force.mostForceN / 1000,
    ramTravelMm: travelMm,
    freeLengthMm: made.lever.freeMm,
    workingSpanMm: spanMm,
    ...(force.mostForceN > capacityN && { pressSpanMm }),
    tearUtilisation: utilisation,
    tearRadiusMm: tearRadiusMm(bent, made.balance.neutralMm, trace),
    ...(flat.fillerBearing !== null && { fillerBearing: flat.fillerBearing }),
    range,
    verdicts: bendVerdicts({
      input: resolved.input,
      bent,
      bend: made,
      flat,
      pressForceN: force.mostForceN,
      ramTravelMm: travelMm,
      workingSpanMm: spanMm,
      pressSpanMm,
      startForceN: shown[0]?.forceN ?? 0,
      tearUtilisation: utilisation,
    }),
    stroke: shown.map((point, index) => ({
      wrappedAngleDeg: degrees(2 * point.phiRad),
      ramTravelMm: travels[index] as number,
      forceKn: point.forceN / 1000,
    })),
  }
  return { answer, made }
}

function recordAngles(trace: Trace, made: BendInPress, angles: BendAngles): void {
  const arc: TraceInput = ['arc wrapped', degrees(2 * made.phiRad), '°', 'wrappedAngleDeg']
  const radius: TraceInput = ['RL', made.loadedRadiusMm, 'mm', 'loadedRadiusMm']
  const add = (key: string, formula: string, inputs: TraceInput[], value: number) =>
    trace.step(key, {
      formula,
      inputs,
      value,
      unit: '°',
      source: 'the arc keeps its length; ends read over arc and arms',
      trust: 'mechanics',
    })
  const loaded: TraceInput = ['loaded', angles.loaded, '°', 'loadedAngleDeg']
  const atPress: TraceInput = ['at the press', angles.atPress, '°', 'angleAtPressDeg']
  const final: TraceInput = ['final', angles.final, '°', 'finalAngleDeg']
  add(
    'loadedAngleDeg',
    'arc wrapped + 2 arm under load',
    [arc, ['arm under load', degrees(made.arm.loadedRad), '°', 'armLoadedDeg']],
    angles.loaded,
  )
  add(
    'angleAtPressDeg',
    'arc RL (1 / RL - dk1) + 2 arm at the press',
    [
      arc,
      radius,
      ['dk1', made.pressRecovery, '1/mm', 'pressRecoveryPerMm'],
      ['arm at the press', degrees(made.arm.atPressRad), '°', 'armAtPressDeg'],
    ],
    angles.atPress,
  )
  add(
    'finalAngleDeg',
    'arc RL / Rf + 2 arm kept',
    [
      arc,
      radius,
      ['Rf', made.finalRadiusMm, 'mm', 'finalRadiusMm'],
      ['arm kept', degrees(made.arm.keptRad), '°', 'armKeptDeg'],
    ],
    angles.final,
  )
  add('springbackDeg', 'loaded - final', [loaded, final], angles.loaded - angles.final)
  add('meltOutSpringbackDeg', 'at the press - final', [atPress, final], angles.atPress - angles.final)
}
