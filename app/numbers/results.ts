import type { CheckedPart, CheckKind, OutsideResult } from '@/lib/core/spec/outside-check'
import recorded from './outside-results.json'

/** Written by the tests of tests/reference, which fail when it is not what they find. */
export const outsideResults = recorded as readonly OutsideResult[]

export const kindWords: Readonly<Record<CheckKind, string>> = {
  published: 'printed in the source, read there',
  'second hand': 'printed in the source, read where another quotes it',
  memory: 'from memory, not checked',
  'closed form': 'exact solution of the texts',
  'by hand': 'worked by hand',
  independent: 'another program or method',
  practice: 'common practice, no source',
}

const fromPrint: ReadonlySet<CheckKind> = new Set(['published', 'second hand', 'memory'])

export type SourceCount = { source: string; kind: CheckKind; count: number }

/** How many numbers each source gave, in the order of the tests; a source read in two ways stands twice. */
export function sourcesOf(results: readonly OutsideResult[]): SourceCount[] {
  const counts = new Map<string, SourceCount>()
  for (const { source, kind } of results) {
    const found = counts.get(`${source} ${kind}`)
    if (found) found.count += 1
    else counts.set(`${source} ${kind}`, { source, kind, count: 1 })
  }
  return [...counts.values()]
}

/** Sources that somebody else printed: standards, handbooks, papers, certified data. */
export const publishedSourceCount = new Set(
  outsideResults.filter(({ kind }) => fromPrint.has(kind)).map(({ source }) => source),
).size

export const resultsOf = (parts: readonly CheckedPart[]): OutsideResult[] =>
  outsideResults.filter(({ part }) => parts.includes(part))
