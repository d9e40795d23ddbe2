import type { Support } from '@/lib/core/cost/ways'
import type { SpecInput, SpecMethod, SpecStrap } from '@/lib/core/spec/contract'
import { type Governing, type JudgedSpec, judgeSpec, type WayWord } from '@/lib/core/ways/judge-spec'
import { type Remedy, remedies, spanThatWorksMm } from '@/lib/core/ways/remedy'

export interface PressOnHand {
  readonly id: number
  readonly name: string
  readonly capacityKn: number
  readonly supportNoseRadiusMm: number
  readonly supportFrictionCoeff?: number
  readonly strokeMm?: number
  readonly minimumSpanMm: number
  readonly maximumSpanMm: number
}

export interface DieOnHand {
  readonly id: number
  readonly name: string
  readonly surfaceRadiusMm: number
  readonly grooveWidthMm?: number
  readonly arcDeg?: number
}

export interface StrapOnHand extends SpecStrap {
  readonly id: number
  readonly name: string
}

export interface FillerOnHand {
  readonly id: number
  readonly name: string
  readonly method: Pick<SpecMethod, 'fillerId' | 'fillerYieldMPa' | 'fillerModulusMPa'>
  readonly stockKg: number
}

export interface SetupsQuestion {
  /** The part; its method, press and die are put aside. */
  readonly spec: SpecInput
  readonly presses: readonly PressOnHand[]
  readonly dies: readonly DieOnHand[]
  readonly straps: readonly StrapOnHand[]
  readonly fillers: readonly FillerOnHand[]
  readonly angleToleranceDeg: number
  readonly endShiftToleranceMm: number
}

/** A set-up that has been computed: what it uses, what is still to make, and what decides it. */
export interface FoundSetup {
  readonly key: string
  readonly name: string
  readonly pressId: number
  readonly supportSpanMm: number
  readonly support: Support
  readonly fillerId: number | null
  readonly strapId: number | null
  readonly dieId: number | null
  /** Surface radii of dies to make; empty where the rack has it. */
  readonly diesToMakeMm: readonly number[]
  readonly word: Exclude<WayWord, 'no'>
  readonly governing: Governing | null
  readonly fillerKgShort: number
}

/** Where nothing works: the smallest single change that would, or none that was found. */
export interface SetupChange {
  readonly name: string
  readonly change: Remedy['change']
  readonly text: string
}

export type SetupsAnswer =
  | { readonly found: true; readonly setups: readonly FoundSetup[] }
  | { readonly found: false; readonly changes: readonly SetupChange[] }

interface Hold {
  readonly support: Support
  readonly filler: FillerOnHand | null
  readonly strap: StrapOnHand | null
}

/**
 * Set-ups that make the part from what the shop has, best first.
 *   each support with and without a strap on each press, at the shortest span that works, on a die of the rack where one gives the angles
 *   and the end within tolerance; ranked by word, dies to make, filler short, how much there is to handle, and the share of the limit used
 * Valid: dies wide enough for the tube and, where their arc is known, long enough.
 */
export function findSetups(question: SetupsQuestion): SetupsAnswer {
  const holds = holdsOf(question)
  const setups: FoundSetup[] = []
  const changes: (SetupChange & { stepFraction: number })[] = []
  for (const press of question.presses) {
    for (const hold of holds) {
      const base = specOn(question, press, hold)
      const spanMm = spanThatWorksMm(base, press.maximumSpanMm)
      const tried = judgeSpec(spanMm === null ? base : withSpan(base, spanMm))
      if (spanMm !== null && tried.solved && tried.word !== 'no') {
        setups.push(setupOf(question, press, hold, tried, tried.word))
      } else if (setups.length === 0) {
        const remedy = remedies(
          {
            spec: base,
            angleToleranceDeg: question.angleToleranceDeg,
            spanLimits: { lowMm: press.minimumSpanMm, highMm: press.maximumSpanMm },
          },
          tried,
        )[0]
        if (remedy) {
          changes.push({
            name: `${press.name}, ${holdName(hold)}`,
            change: remedy.change,
            text: remedy.text,
            stepFraction: remedy.stepFraction,
          })
        }
      }
    }
  }
  if (setups.length > 0) return { found: true, setups: setups.sort(bySetup) }
  return {
    found: false,
    changes: changes
      .sort((one, other) => one.stepFraction - other.stepFraction)
      .slice(0, 3)
      .map(({ name, change, text }) => ({ name, change, text })),
  }
}

function holdsOf(question: SetupsQuestion): Hold[] {
  const straps = [
    null,
    ...question.straps.filter(({ widthMm }) => widthMm >= 0.8 * question.spec.tube.widthMm),
  ]
  const plain: Hold[] = (['hollow', 'sand'] as const).map((support) => ({
    support,
    filler: null,
    strap: null,
  }))
  const filled = question.fillers.flatMap((filler) =>
    straps.map((strap): Hold => ({ support: 'lowMelt', filler, strap })),
  )
  return [...plain, ...filled]
}

function specOn(question: SetupsQuestion, press: PressOnHand, hold: Hold): SpecInput {
  const { die: _die, ...spec } = question.spec
  return {
    ...spec,
    method: {
      support: hold.support,
      ...(hold.filler && hold.filler.method),
      ...(hold.strap && {
        strap: {
          thicknessMm: hold.strap.thicknessMm,
          widthMm: hold.strap.widthMm,
          yieldMPa: hold.strap.yieldMPa,
          ...(hold.strap.frictionCoeff !== undefined && { frictionCoeff: hold.strap.frictionCoeff }),
        },
      }),
    },
    press: {
      capacityKn: press.capacityKn,
      supportSpanMm: press.minimumSpanMm,
      supportNoseRadiusMm: press.supportNoseRadiusMm,
      ...(press.supportFrictionCoeff !== undefined && { supportFrictionCoeff: press.supportFrictionCoeff }),
      ...(press.strokeMm !== undefined && { strokeMm: press.strokeMm }),
      ...(spec.press.useFraction !== undefined && { useFraction: spec.press.useFraction }),
    },
  }
}

function withSpan(spec: SpecInput, supportSpanMm: number): SpecInput {
  return { ...spec, press: { ...spec.press, supportSpanMm } }
}

function setupOf(
  question: SetupsQuestion,
  press: PressOnHand,
  hold: Hold,
  judged: JudgedSpec & { solved: true },
  word: Exclude<WayWord, 'no'>,
): FoundSetup {
  const wanted = judged.answer.bends.map(({ dieSurfaceRadiusMm }) => dieSurfaceRadiusMm)
  const onRack = fittingDie(question, judged)
  const needKg = hold.filler ? (judged.answer.filler?.massKg ?? 0) : 0
  const final = onRack ?? { die: null, judged, word }
  return {
    key: [press.id, hold.support, hold.filler?.id ?? 0, hold.strap?.id ?? 0].join('-'),
    name: `${press.name}, ${holdName(hold)}`,
    pressId: press.id,
    supportSpanMm: judged.input.press.supportSpanMm,
    support: hold.support,
    fillerId: hold.filler?.id ?? null,
    strapId: hold.strap?.id ?? null,
    dieId: final.die?.id ?? null,
    diesToMakeMm: final.die ? [] : [...new Set(wanted.map((radius) => Number(radius.toFixed(1))))],
    word: final.word,
    governing: final.judged.governing,
    fillerKgShort: hold.filler ? Math.max(0, needKg - hold.filler.stockKg) : 0,
  }
}

/** The die of the rack that bends the part within its tolerances, the nearest to the radius wanted first. */
function fittingDie(
  question: SetupsQuestion,
  judged: JudgedSpec & { solved: true },
): { die: DieOnHand; judged: JudgedSpec & { solved: true }; word: Exclude<WayWord, 'no'> } | null {
  const { bends } = judged.answer
  const wantedMm = bends[0]?.dieSurfaceRadiusMm ?? 0
  const near = question.dies
    .filter(
      (die) =>
        Math.abs(die.surfaceRadiusMm - wantedMm) <= 0.1 * wantedMm &&
        (die.grooveWidthMm ?? Number.POSITIVE_INFINITY) >= question.spec.tube.widthMm &&
        (die.arcDeg ?? 180) >= Math.max(...bends.map(({ wrappedAngleDeg }) => wrappedAngleDeg)),
    )
    .sort(
      (one, other) => Math.abs(one.surfaceRadiusMm - wantedMm) - Math.abs(other.surfaceRadiusMm - wantedMm),
    )
    .slice(0, 2)
  for (const die of near) {
    const on = judgeSpec({ ...judged.input, die: { surfaceRadiusMm: die.surfaceRadiusMm } })
    if (!on.solved || on.word === 'no') continue
    const fits = on.answer.bends.every(
      (bend) =>
        Math.abs(bend.finalAngleDeg - bend.wantedAngleDeg) <= question.angleToleranceDeg &&
        (bend.endShiftMm ?? 0) <= question.endShiftToleranceMm,
    )
    if (fits) return { die, judged: on, word: on.word }
  }
  return null
}

/** How much there is to handle: nothing, sand, hot metal, hot metal and a strap. */
function handling(setup: FoundSetup): number {
  return { hollow: 0, sand: 1, lowMelt: 2 }[setup.support] + (setup.strapId === null ? 0 : 1)
}

function bySetup(one: FoundSetup, other: FoundSetup): number {
  const parts = (setup: FoundSetup): number[] => [
    setup.word === 'yes' ? 0 : 1,
    setup.diesToMakeMm.length,
    setup.fillerKgShort > 0 ? 1 : 0,
    handling(setup),
    setup.governing?.usedFraction ?? 0,
  ]
  const mine = parts(one)
  const theirs = parts(other)
  const place = mine.findIndex((value, index) => value !== theirs[index])
  return place === -1 ? 0 : (mine[place] ?? 0) - (theirs[place] ?? 0)
}

function holdName(hold: Hold): string {
  const filled =
    hold.support === 'hollow'
      ? 'hollow'
      : hold.support === 'sand'
        ? 'packed with sand'
        : (hold.filler?.name ?? 'low-melt')
  return hold.strap ? `${filled}, strap ${hold.strap.name}` : filled
}
