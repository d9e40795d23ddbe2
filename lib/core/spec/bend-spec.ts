import { endShiftMm, intersectionPoints } from '@/lib/core/geometry/centreline'
import { type BendInPress, bendOnGivenDie, bendOnRightDie } from '@/lib/core/mechanics/bend-in-press'
import type { BentTube } from '@/lib/core/mechanics/bent-tube'
import { flattening } from '@/lib/core/mechanics/flattening'
import { ramTravelMm, workingSpanMm } from '@/lib/core/mechanics/press'
import { Impossible, type ImpossibleAt } from '@/lib/core/mechanics/refusal'
import { stroke } from '@/lib/core/mechanics/stroke'
import { bentSection, tearRadiusMm, tearUtilisation } from '@/lib/core/mechanics/wall'
import {
  type BendAnswer,
  modelVersion,
  type SpecAnswer,
  type SpecBend,
  type SpecInput,
  SpecRefusal,
} from '@/lib/core/spec/contract'
import { type Resolved, resolveSpec } from '@/lib/core/spec/resolve'
import { specTemper } from '@/lib/core/spec/spec-temper'
import { bendVerdicts } from '@/lib/core/spec/verdicts'

const degrees = (angleRad: number): number => (angleRad * 180) / Math.PI
const radians = (angleDeg: number): number => (angleDeg * Math.PI) / 180

/** One standard deviation of the strengths, as a share. Source: section 2 of the project's bend model. */
export const strengthSpread = 0.06

function solve(resolved: Resolved, bent: BentTube, bend: SpecBend): BendInPress {
  const setting = {
    bent,
    press: resolved.press,
    wanted: { angleRad: radians(bend.angleDeg), radiusMm: bend.centrelineRadiusMm },
    springbackFactor: resolved.springbackFactor,
  }
  const { die } = resolved.input
  const made = die ? bendOnGivenDie(setting, die.surfaceRadiusMm) : bendOnRightDie(setting)
  const loaded = 2 * made.phiRad + 2 * made.armLoadedRad
  if (!(loaded < Math.PI)) {
    throw new Impossible(
      'angle',
      `${degrees(loaded).toFixed(1)} degrees under load`,
      'less than 180 degrees under load',
    )
  }
  return made
}

type Angles = { loaded: number; atPress: number; final: number }

function anglesOf(made: BendInPress): Angles {
  const arc = 2 * made.phiRad * made.loadedRadiusMm
  const armAtPress = made.arm.atPressRadPerMm * made.lever.freeMm
  return {
    loaded: degrees(2 * made.phiRad + 2 * made.armLoadedRad),
    atPress: degrees(arc * (1 / made.loadedRadiusMm - made.pressRecovery) + 2 * armAtPress),
    final: degrees(arc / made.finalRadiusMm + 2 * made.armKeptRad),
  }
}

/** Springback, force and die radius where the tube is this much weaker or stronger; null where it can't be bent. */
function atStrength(resolved: Resolved, bent: BentTube, bend: SpecBend) {
  try {
    const made = solve(resolved, bent, bend)
    const loaded = degrees(2 * made.phiRad + 2 * made.armLoadedRad)
    const final = degrees((2 * made.phiRad * made.loadedRadiusMm) / made.finalRadiusMm + 2 * made.armKeptRad)
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
): BendAnswer['range'] {
  const ends = tubes.map((bent) => atStrength(resolved, bent, bend))
  const [weak, strong] = ends
  if (!weak || !strong) return null
  const between = (key: keyof typeof middle) => {
    const values = [weak[key], strong[key], middle[key]]
    return { low: Math.min(...values), high: Math.max(...values) }
  }
  return {
    springbackDeg: between('springbackDeg'),
    pressForceKn: between('pressForceKn'),
    dieSurfaceRadiusMm: between('dieSurfaceRadiusMm'),
  }
}

function answerBend(
  resolved: Resolved,
  bent: BentTube,
  weakAndStrong: readonly BentTube[],
  bend: SpecBend,
): { answer: BendAnswer; made: BendInPress } {
  const made = solve(resolved, bent, bend)
  const angles = anglesOf(made)
  const section = bentSection(bent, made)
  const flat = flattening(bent, made)
  const force = stroke(bent, resolved.press, made.loadedRadiusMm, made.phiRad, made.balance)
  const bowMm = made.arm.bowPerMm * made.lever.freeMm ** 2
  const travelMm = ramTravelMm(made.lever, made.loadedRadiusMm, made.phiRad, bowMm)
  const spanMm = workingSpanMm(bent, made.lever, made.loadedRadiusMm, made.phiRad)
  const utilisation = tearUtilisation(bent, section.outerStrain)
  const middle = {
    springbackDeg: angles.loaded - angles.final,
    pressForceKn: force.mostForceN / 1000,
    dieSurfaceRadiusMm: made.loadedRadiusMm - bent.tube.heightMm / 2,
  }
  const answer: BendAnswer = {
    wantedAngleDeg: bend.angleDeg,
    wrappedAngleDeg: degrees(2 * made.phiRad),
    loadedAngleDeg: angles.loaded,
    angleAtPressDeg: angles.atPress,
    finalAngleDeg: angles.final,
    springbackDeg: middle.springbackDeg,
    meltOutSpringbackDeg: angles.atPress - angles.final,
    armLoadedDeg: degrees(made.armLoadedRad),
    armKeptDeg: degrees(made.armKeptRad),
    loadedRadiusMm: made.loadedRadiusMm,
    finalRadiusMm: made.finalRadiusMm,
    dieSurfaceRadiusMm: middle.dieSurfaceRadiusMm,
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
    pressForceKn: middle.pressForceKn,
    ramTravelMm: travelMm,
    freeLengthMm: made.lever.freeMm,
    workingSpanMm: spanMm,
    tearUtilisation: utilisation,
    tearRadiusMm: tearRadiusMm(bent, made.balance.neutralMm),
    ...(flat.fillerBearing !== null && { fillerBearing: flat.fillerBearing }),
    range: rangeOf(resolved, weakAndStrong, bend, middle),
    verdicts: bendVerdicts({
      input: resolved.input,
      bent,
      bend: made,
      flat,
      pressForceN: force.mostForceN,
      ramTravelMm: travelMm,
      workingSpanMm: spanMm,
      tearUtilisation: utilisation,
    }),
    stroke: force.points
      .filter((_, index) => index % 4 === 0)
      .map(({ phiRad, forceN }) => ({ wrappedAngleDeg: degrees(2 * phiRad), forceKn: forceN / 1000 })),
  }
  return { answer, made }
}

const faultPath: Readonly<Record<ImpossibleAt, (bend: number) => string>> = {
  strap: () => 'method.strap',
  span: () => 'press.supportSpanMm',
  angle: (bend) => `bends[${bend}].angleDeg`,
  radius: (bend) => `bends[${bend}].centrelineRadiusMm`,
  die: () => 'die.surfaceRadiusMm',
}

/** Each bend solved; bends that are alike in angle and radius are solved once. */
function solveBends(resolved: Resolved): { answer: BendAnswer; made: BendInPress }[] {
  const bent = resolved.bentTube(1)
  const weakAndStrong = [resolved.bentTube(1 - strengthSpread), resolved.bentTube(1 + strengthSpread)]
  const done = new Map<string, { answer: BendAnswer; made: BendInPress }>()
  const faults: SpecRefusal['faults'][number][] = []
  const solved = resolved.input.bends.map((bend, index) => {
    const key = `${bend.angleDeg} ${bend.centrelineRadiusMm}`
    const known = done.get(key)
    if (known) return known
    try {
      const fresh = answerBend(resolved, bent, weakAndStrong, bend)
      done.set(key, fresh)
      return fresh
    } catch (cause) {
      if (!(cause instanceof Impossible)) throw cause
      const path = faultPath[cause.at](index)
      if (!faults.some((fault) => fault.path === path))
        faults.push({ path, met: cause.met, allowed: cause.allowed })
      return null
    }
  })
  if (faults.length > 0) throw new SpecRefusal(faults)
  return solved.filter((bend) => bend !== null)
}

function shiftOf(input: SpecInput, index: number, answer: BendAnswer): number {
  const made = input.bends.map((bend, place) =>
    place === index
      ? { ...bend, angleDeg: answer.finalAngleDeg, centrelineRadiusMm: answer.finalRadiusMm }
      : bend,
  )
  return endShiftMm(input.bends, made, input.straightAfterMm)
}

function warningsOf(
  resolved: Resolved,
  solved: readonly { answer: BendAnswer; made: BendInPress }[],
): string[] {
  const { input, tube } = resolved
  const warnings: string[] = []
  for (const [index, bend] of input.bends.entries()) {
    if (index === 0) continue
    const needed =
      Math.max(solved[index]?.made.lever.freeMm ?? 0, solved[index - 1]?.made.lever.freeMm ?? 0) +
      tube.heightMm
    if (bend.straightBeforeMm < needed) {
      warnings.push(
        `The straight of ${bend.straightBeforeMm.toFixed(1)} mm between bends ${index} and ${index + 1} is shorter than ${needed.toFixed(1)} mm: a support would stand on a bent part.`,
      )
    }
  }
  if (resolved.support.kind === 'lowMelt') {
    warnings.push(
      'The filler creeps at room temperature: over hours the angle at the press drifts toward the final one. Measure right after bending, and melt out the same day.',
    )
  }
  return warnings
}

/**
 * The whole bend spec of a part: what the press, die and filler will do to it.
 * Source: the project's bend model; each number's trust stands in its chain. Throws SpecRefusal where the model has no answer.
 */
export function bendSpec(input: SpecInput): SpecAnswer {
  const resolved = resolveSpec(input)
  const solved = solveBends(resolved)
  const { section } = resolved.bentTube(1)
  const straights = input.bends.reduce((sum, bend) => sum + bend.straightBeforeMm, input.straightAfterMm)
  const developedLengthMm = input.bends.reduce((sum, bend, index) => {
    const made = solved[index]?.made
    return (
      sum +
      bend.centrelineRadiusMm * radians(bend.angleDeg) +
      (made ? made.balance.neutralMm * 2 * made.phiRad : 0)
    )
  }, straights)
  const first = solved[0]?.made.lever.freeMm ?? 0
  const last = solved.at(-1)?.made.lever.freeMm ?? 0
  const gripStartMm = Math.max(first + resolved.tube.heightMm - (input.bends[0]?.straightBeforeMm ?? 0), 0)
  const gripEndMm = Math.max(last + resolved.tube.heightMm - input.straightAfterMm, 0)
  const cutLengthMm = developedLengthMm + gripStartMm + gripEndMm + (input.trimMm ?? 0) + (input.kerfMm ?? 0)
  const volumeMm3 = section.boreAreaMm2 * cutLengthMm
  const { filler } = resolved
  return {
    section: {
      areaMm2: section.areaMm2,
      inertiaMm4: section.inertiaMm4,
      elasticModulusMm3: section.elasticModulusMm3,
      plasticModulusMm3: section.plasticModulusMm3,
      massKgPerM: (section.areaMm2 * resolved.material.densityKgM3) / 1e6,
      boreAreaMm2: section.boreAreaMm2,
    },
    developedLengthMm,
    cutLengthMm,
    gripStartMm,
    gripEndMm,
    points: intersectionPoints(input.bends, input.straightAfterMm).map(([x, y, z]) => [x, y, z]),
    bends: solved.map(({ answer }, index) =>
      input.die ? { ...answer, endShiftMm: shiftOf(input, index, answer) } : { ...answer },
    ),
    ...(filler && {
      filler: {
        id: filler.id,
        volumeMm3,
        massKg: (volumeMm3 * filler.densityKgM3) / 1e9,
        densityKgM3: filler.densityKgM3,
        ...(filler.kind === 'lowMelt' && { liquidusC: filler.liquidusC }),
      },
    }),
    temper: specTemper(resolved),
    defaultsUsed: resolved.defaultsUsed,
    warnings: warningsOf(resolved, solved),
    modelVersion,
  }
}
