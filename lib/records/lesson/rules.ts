import type { Support } from '@/lib/core/cost/ways'
import { formatNumber } from '@/lib/core/format'
import { type FactorGroup, type LearnedFactor, learnFactor } from '@/lib/core/statistics/springback-factor'
import type { LengthUnit } from '@/lib/core/units'
import { sizeWords } from '@/lib/records/stock/rules'

type Tube = { shape: string; widthMm: number; heightMm: number; wallMm: number }

const size = (mm: number): string => String(Number(mm.toFixed(2)))

/** The section of a tube as lessons are kept by it: 'square 38.1x38.1x3.18'. */
export function sectionText({ shape, widthMm, heightMm, wallMm }: Tube): string {
  return `${shape} ${size(widthMm)}x${size(heightMm)}x${size(wallMm)}`
}

/** A kept section as the shop writes it: 'square 1.5 × 0.125 in'. */
export function sectionWords(kept: string, unit: LengthUnit): string {
  const read = /^(square|rectangular|round) ([\d.]+)x([\d.]+)x([\d.]+)$/.exec(kept)
  if (!read) return kept
  const [, shape, widthMm, heightMm, wallMm] = read
  return sizeWords(
    {
      shape: shape as 'square' | 'rectangular' | 'round',
      widthMm: Number(widthMm),
      heightMm: Number(heightMm),
      wallMm: Number(wallMm),
    },
    unit,
  )
}

/** What held the bore and the tension face, as lessons are kept by it. */
export function methodText(method: { support: Support; strap: boolean }): string {
  const bore = { hollow: 'hollow', sand: 'sand', lowMelt: 'low-melt filler' }[method.support]
  return method.strap ? `${bore} and strap` : bore
}

/** Which bends a way's springback was learned from: 'learned from 7 bends of this section and method'. */
export function springbackSource(
  learned: Readonly<Record<string, { text: string }>>,
  held: { support: Support; strap: boolean; factor: number | undefined },
): string {
  const known = held.factor === undefined ? undefined : learned[methodText(held)]
  if (held.factor === undefined || !known)
    return 'Springback by the model: no finished bend speaks for this way.'
  return `Springback ${formatNumber(held.factor, { decimals: 3 })} times the model’s, learned from ${known.text}.`
}

/** Standard deviation that a kept factor counts with when the bend behind it names none. Common practice, no source. */
export const unknownFactorSd = 0.05

/** How much bends made alike differ, as a share of springback. Common practice, no source. */
export const bendScatterSd = 0.03

/** One bend that showed a springback factor. */
export type FactorEvidence = { sectionText: string; method: string; value: number; sd: number | null }

/** The factor to plan with, from every bend of one material that counts. */
export function factorFrom(
  evidence: readonly FactorEvidence[],
  own: { sectionText: string; method: string },
): LearnedFactor {
  const groups = new Map<string, { value: number; sd: number }[]>()
  for (const one of evidence) {
    const key = `${one.sectionText} / ${one.method}`
    const group = groups.get(key) ?? []
    group.push({ value: one.value, sd: one.sd ?? unknownFactorSd })
    groups.set(key, group)
  }
  const listed: FactorGroup[] = [...groups].map(([key, observations]) => ({ key, observations }))
  return learnFactor(listed, `${own.sectionText} / ${own.method}`)
}

/** A finished job, as lessons are drawn from it. */
export type FinishedJob = {
  method: string
  records: readonly {
    id: number
    tryNumber: number
    verdict: 'pass' | 'fail' | 'cannotSay' | 'waiting'
    setup: unknown
  }[]
  operations: readonly { key: string; logs: readonly LoggedSpan[] }[]
}

export type LoggedSpan = { pieceId: number | null; startedAt: Date; endedAt: Date | null }

export type DrawnLesson = {
  kind: 'springbackFactor' | 'firstTry' | 'operationMinutes'
  method: string
  bendRecordId: number | null
  operationKey: string
  value: number
}

type KeptSetup = { method?: string; observed?: { value: number; sd: number } | null } | null

/** Everything a finished job taught. A first try whose verdict is that the gauge can't say teaches no yield. */
export function lessonsOf(job: FinishedJob): DrawnLesson[] {
  const fromBends = job.records.flatMap((record): DrawnLesson[] => {
    if (record.verdict === 'waiting') return []
    const setup = record.setup as KeptSetup
    const bend = { method: setup?.method ?? job.method, bendRecordId: record.id, operationKey: '' }
    const observed = setup?.observed
    return [
      ...(observed ? [{ ...bend, kind: 'springbackFactor' as const, value: observed.value }] : []),
      ...(record.tryNumber === 1 && record.verdict !== 'cannotSay'
        ? [{ ...bend, kind: 'firstTry' as const, value: record.verdict === 'pass' ? 1 : 0 }]
        : []),
    ]
  })
  const fromClocks = job.operations.flatMap(({ key, logs }): DrawnLesson[] => {
    const minutes = loggedMinutes(logs)
    return minutes > 0
      ? [
          {
            kind: 'operationMinutes',
            method: job.method,
            bendRecordId: null,
            operationKey: key,
            value: minutes,
          },
        ]
      : []
  })
  return [...fromBends, ...fromClocks]
}

/** Minutes of all clocks that were stopped. */
export function loggedMinutes(logs: readonly LoggedSpan[]): number {
  return logs.reduce((sum, { startedAt, endedAt }) => sum + (endedAt ? +endedAt - +startedAt : 0), 0) / 60_000
}

/** How many pieces the clocks ran for: those named, or all that were started where a clock names none. */
export function clockedPieces(logs: readonly LoggedSpan[], startedCount: number): number {
  const named = new Set(logs.flatMap(({ pieceId }) => (pieceId === null ? [] : [pieceId])))
  return logs.some(({ pieceId }) => pieceId === null) ? startedCount : named.size
}

/** Pieces whose every first try was good, of those that had one. */
export function firstTryPieces(tries: readonly { pieceId: number; good: boolean }[]): {
  goodCount: number
  badCount: number
} {
  const pieces = new Map<number, boolean>()
  for (const { pieceId, good } of tries) pieces.set(pieceId, (pieces.get(pieceId) ?? true) && good)
  const goodCount = [...pieces.values()].filter(Boolean).length
  return { goodCount, badCount: pieces.size - goodCount }
}

/** One lesson with what it was drawn from. */
export type KeptLesson = {
  kind: 'springbackFactor' | 'firstTry' | 'operationMinutes'
  materialId: string
  sectionText: string
  method: string
  operationKey: string
  value: number
  acceptedAt: Date | null
  declinedAt: Date | null
  bendRecord: { pieceId: number } | null
  job: { id: number; number: string } | null
}

export type LessonState = 'open' | 'accepted' | 'declined'

/** What one job taught of one thing: decided as a whole. */
export type LessonGroup = Omit<KeptLesson, 'value' | 'acceptedAt' | 'declinedAt' | 'bendRecord' | 'job'> & {
  job: { id: number; number: string }
  state: LessonState
  values: readonly number[]
  tries: readonly { pieceId: number; good: boolean }[]
}

export function lessonGroups(lessons: readonly KeptLesson[]): LessonGroup[] {
  const groups = new Map<
    string,
    LessonGroup & { values: number[]; tries: { pieceId: number; good: boolean }[] }
  >()
  for (const lesson of lessons) {
    const { kind, materialId, sectionText: section, method, operationKey, job } = lesson
    if (!job) continue
    const state = lesson.acceptedAt ? 'accepted' : lesson.declinedAt ? 'declined' : 'open'
    const key = [job.id, kind, method, operationKey, state].join('|')
    const group = groups.get(key) ?? {
      job,
      kind,
      materialId,
      sectionText: section,
      method,
      operationKey,
      state,
      values: [],
      tries: [],
    }
    group.values.push(lesson.value)
    if (lesson.bendRecord) group.tries.push({ pieceId: lesson.bendRecord.pieceId, good: lesson.value === 1 })
    groups.set(key, group)
  }
  return [...groups.values()]
}

/** The tubes and ways of holding them that accepted lessons of a kind are about, each once with its lessons. */
export function byTube(
  lessons: readonly KeptLesson[],
  kind: KeptLesson['kind'],
): { materialId: string; sectionText: string; method: string; values: number[] }[] {
  const tubes = new Map<
    string,
    { materialId: string; sectionText: string; method: string; values: number[] }
  >()
  for (const { kind: its, materialId, sectionText: section, method, value, acceptedAt } of lessons) {
    if (its !== kind || !acceptedAt) continue
    const key = [materialId, section, method].join('|')
    const tube = tubes.get(key) ?? { materialId, sectionText: section, method, values: [] }
    tube.values.push(value)
    tubes.set(key, tube)
  }
  return [...tubes.values()].sort((one, other) =>
    `${one.materialId} ${one.sectionText}`.localeCompare(`${other.materialId} ${other.sectionText}`),
  )
}
