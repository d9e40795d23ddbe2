import { wayNames } from '@/lib/core/cost/ways'
import { formatAngle, formatLength } from '@/lib/core/format'
import type { Disposition } from '@/lib/core/inspection/disposition'
import type { SpecInput } from '@/lib/core/spec/contract'
import type { LengthUnit } from '@/lib/core/units'
import type { BendLook, PenetrantResult, TryVerdict } from '@/lib/records/bend-record/rules'
import { toldOfOwn } from '@/lib/records/filler-alloy/rules'
import { type JobPlan, sawnForPieceMm } from '@/lib/records/job/rules'
import type { SetPoint } from '@/lib/records/operation/rules'
import type { RevisionFacts } from '@/lib/records/part/rules'

type PaperLot = {
  number: string
  heatNumber: string
  place: string
  certificateFile: { name: string } | null
}

/** What a job's papers are filled from. */
export type JobPapers = {
  number: string
  quantity: number
  dueOn: Date
  travellerIssue: number
  plan: JobPlan
  customer: { name: string; addressText: string }
  quoteLine: { quote: { number: string } } | null
  revision: RevisionFacts & {
    letter: string
    part: { number: string; name: string; customerRef: string }
  }
  operations: readonly {
    position: number
    key: string
    name: string
    instruction: string
    setPoints: readonly SetPoint[]
    plannedSetUpMinutes: number
    plannedRunMinutesPerPiece: number
  }[]
  pieces: readonly {
    number: number
    status: 'open' | 'released' | 'scrapped'
    scanCode: string
    stockPiece: { lot: PaperLot } | null
  }[]
  stockPieces: readonly { lot: PaperLot }[]
}

type MeasuredTry = {
  bendPosition: number
  tryNumber: number
  verdict: TryVerdict
  at: Date
  by: { name: string }
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
  gaugeText: string
  gaugeUncertaintyDeg: number
  faults: { disposition: Disposition | null }[]
}

/** The piece a first-article report is about, with all its tries. */
export type FirstArticlePiece = {
  number: number
  openFaults: { number: string; description: string }[]
  bendRecords: MeasuredTry[]
}

export type TravellerStanding = {
  /** What changed since it was made; while there is any, no print of it may be worked from. */
  changes: string[]
  /** The part's newest revision, where the job makes an older one. */
  newerRevision: string | null
  /** When the issue that is in force was made. */
  madeAt: string
}

type Told = readonly (readonly [what: string, value: string])[]

/** What of a plan stands on the traveller, in words that two plans can be compared by. */
function toldByPlan(plan: JobPlan, unit: LengthUnit): Told {
  const length = (mm: number | null | undefined) => (mm == null ? 'none' : formatLength(mm, unit))
  const { setUp, input } = plan
  const strap = setUp?.strap
  const filler = setUp?.filler
  const sawMm = sawnForPieceMm(plan)
  return [
    ['way', wayNames[plan.way]],
    ['press', setUp?.press.shopNumber ?? 'none'],
    ['press capacity', setUp ? `${setUp.press.capacityKn} kN` : 'none'],
    ['support nose radius', length(setUp?.press.supportNoseRadiusMm)],
    ['span', length(setUp?.supportSpanMm)],
    ['die', setUp?.die?.shopNumber ?? 'none'],
    ['die surface radius', length(setUp?.die?.surfaceRadiusMm)],
    ['strap', strap?.shopNumber ?? 'none'],
    ['strap size', strap ? `${length(strap.widthMm)} × ${length(strap.thicknessMm)}` : 'none'],
    ['bore', setUp?.support ?? 'none'],
    ['filler', filler?.shopNumber ?? 'none'],
    ['filler alloy', filler?.fillerId ?? 'none'],
    ...toldOfOwn(filler?.own, unit),
    ['certificate of the stock', plan.certificateText || 'none'],
    ['material values', materialText(input)],
    ['trim', length(input?.trimMm)],
    ['saw kerf', length(input?.kerfMm)],
    ['saw length', length(sawMm)],
    ...(plan.mitred?.longLengthsMm ?? []).map((mm, index): Told[number] => [
      `straight ${index + 1} over the long points`,
      length(mm),
    ]),
    ...(input?.bends ?? []).map((bend, index): Told[number] => [
      `bend ${index + 1}`,
      `${length(bend.straightBeforeMm)}, ${formatAngle(bend.angleDeg)}, ${length(bend.centrelineRadiusMm)}, turned ${formatAngle(bend.rotationDeg)}`,
    ]),
    ['last straight', length(input?.straightAfterMm)],
    ['angle tolerance', formatAngle(plan.tolerances.angleDeg)],
    ['way the numbers are worked out', plan.spec?.modelVersion ?? plan.refusal],
  ]
}

function materialText(input: SpecInput | null): string {
  if (!input) return 'none'
  return Object.entries(input.material)
    .map(([key, value]) => `${key} ${value}`)
    .sort()
    .join(', ')
}

/**
 * What has changed since the traveller was made, in words; empty while it holds. The springback factor is left out: it moves
 * with every try, and the bench screen gives each try its target with the newest.
 */
export function planChanges(made: JobPlan, now: JobPlan, unit: LengthUnit): string[] {
  const before = new Map(toldByPlan(made, unit))
  const after = new Map(toldByPlan(now, unit))
  return [...new Set([...before.keys(), ...after.keys()])].flatMap((what) => {
    const [was, is] = [before.get(what) ?? 'none', after.get(what) ?? 'none']
    return was === is ? [] : [`${what} was ${was}, is ${is}`]
  })
}
