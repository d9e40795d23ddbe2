export const dispositions = ['rework', 'repair', 'scrap', 'regrade', 'concession'] as const

/** What is decided about a piece that does not conform. */
export type Disposition = (typeof dispositions)[number]

/**
 * What each disposition means and what must follow it.
 * Source: ISO 9000:2015, 3.12 (terms; wording ours), and ISO 9001:2015, 8.7 (what to record).
 */
export const dispositionNotes: Readonly<
  Record<
    Disposition,
    { name: string; meaning: string; then: string; measureAgain: boolean; releasable: boolean }
  >
> = {
  rework: {
    name: 'Rework',
    meaning: 'Made to conform by more work',
    then: 'a new try, measured again',
    measureAgain: true,
    releasable: false,
  },
  repair: {
    name: 'Repair',
    meaning: 'Made fit for its use; it may still not conform',
    then: 'measured again, and a concession where it still does not conform',
    measureAgain: true,
    releasable: false,
  },
  scrap: {
    name: 'Scrap',
    meaning: 'Kept from its intended use for good',
    then: 'marked, set apart, and a replacement piece started',
    measureAgain: false,
    releasable: false,
  },
  regrade: {
    name: 'Regrade',
    meaning: 'Given other requirements, which it meets',
    then: 'judged against the other requirements',
    measureAgain: true,
    releasable: false,
  },
  concession: {
    name: 'Concession',
    meaning: 'Permission to release a piece that does not conform, given by one who may',
    then: 'who gave it, when and within what limits stands on the inspection record',
    measureAgain: false,
    releasable: true,
  },
}
