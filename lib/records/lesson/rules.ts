import type { Support } from '@/lib/core/cost/ways'
import { type FactorGroup, type LearnedFactor, learnFactor } from '@/lib/core/statistics/springback-factor'

type Tube = { shape: string; widthMm: number; heightMm: number; wallMm: number }

const size = (mm: number): string => String(Number(mm.toFixed(2)))

/** The section of a tube as lessons are kept by it: 'square 38.1x38.1x3.18'. */
export function sectionText({ shape, widthMm, heightMm, wallMm }: Tube): string {
  return `${shape} ${size(widthMm)}x${size(heightMm)}x${size(wallMm)}`
}

/** What held the bore and the tension face, as lessons are kept by it. */
export function methodText(method: { support: Support; strap: boolean }): string {
  const bore = { hollow: 'hollow', sand: 'sand', lowMelt: 'low-melt filler' }[method.support]
  return method.strap ? `${bore} and strap` : bore
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
