/**
 * How a tabulated value was obtained.
 * verified: read in the source itself or an excerpt of it. secondary: read where someone else quotes it; a cross-check.
 * memory: not read, to be confirmed before anything rests on it. computed: worked out from other values, by the rule named.
 */
export type SourceStatus = 'verified' | 'secondary' | 'memory' | 'computed'

export type Provenance = Readonly<{ source: string; status: SourceStatus }>

/** A provenance, its status first, as a table of values is written. */
export const from = (status: SourceStatus, source: string): Provenance => ({ source, status })

/** Words for a status, as shown beside a number on a screen or a paper. */
export const statusWords: Readonly<Record<SourceStatus, string>> = {
  verified: 'read in the source',
  secondary: 'quoted second hand',
  memory: 'from memory, not checked',
  computed: 'worked out from other values',
}
