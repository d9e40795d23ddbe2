import type { EstimateGround, EstimateInputs } from '@/lib/records/estimate/rules'

/** What has changed since a version was made: it may no longer be the estimate of this part. */
export type EstimateAge = { part: boolean; setup: boolean; rates: boolean }

export function estimateAge(
  made: Pick<EstimateInputs, 'ground'>['ground'],
  now: Pick<EstimateGround, 'revision' | 'setup' | 'rateSheetId'>,
): EstimateAge {
  const differs = (one: unknown, other: unknown) => stable(one) !== stable(other)
  return {
    part: differs(costed(made.revision), costed(now.revision)),
    setup: differs(made.setup, now.setup),
    rates: made.rateSheetId !== now.rateSheetId,
  }
}

/** What of a revision costs anything: a note or the usual quantity does not. */
function costed({ notesText: _notes, typicalQuantity: _usual, ...facts }: EstimateGround['revision']) {
  return facts
}

/** JSON with its keys in order: what went through the database comes back with them in another. */
function stable(value: unknown): string {
  return JSON.stringify(value, (_key, node: unknown) =>
    typeof node === 'object' && node !== null && !Array.isArray(node)
      ? Object.fromEntries(Object.entries(node).sort(([one], [other]) => (one < other ? -1 : 1)))
      : node,
  )
}

/** An estimate's age in words; empty where nothing has changed. */
export function ageWords({ part, setup, rates }: EstimateAge): string {
  const changed = [part && 'the part', setup && 'its set-up', rates && 'the rates'].filter(
    (word) => word !== false,
  )
  if (changed.length === 0) return ''
  const last = changed.pop() ?? ''
  const list = changed.length > 0 ? `${changed.join(', ')} and ${last}` : last
  return `${list.charAt(0).toUpperCase()}${list.slice(1)} changed since this estimate was made.`
}
