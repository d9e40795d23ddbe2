import 'server-only'
import type { Estimate } from '@/lib/core/cost/estimate'
import { compareWays } from '@/lib/core/ways/compare-ways'
import type { WayAnswer } from '@/lib/core/ways/way-answer'
import { makeEstimates, readEstimateGround, readEstimates } from '@/lib/records/estimate/read'
import { askOfWay, type EstimateGround } from '@/lib/records/estimate/rules'
import { wayBases, waysQuestionOf } from '@/lib/records/way/rules'

export type WayRow = {
  answer: WayAnswer
  /** Hours, cost and days of the order; null where there is nothing to cost. */
  estimate: Estimate | null
  /** Whether the tube could be costed: without a price for a bar it is left out and said so. */
  tubeCosted: boolean
}

/** Every way of making a revision with what an order of it would take; null where there is no revision or no press. */
export async function readWays(
  revisionId: number,
  pieceCount: number,
): Promise<{ ground: EstimateGround; rows: WayRow[] } | null> {
  const read = await readEstimateGround(revisionId)
  const question = read && waysQuestionOf(read.ground)
  if (!read || !question) return null
  const { ground } = read
  const answers = compareWays(question)
  const bases = wayBases(ground, answers)
  const versions = await readEstimates(revisionId)
  const rows: WayRow[] = []
  for (const answer of answers) {
    const basis = bases.find(({ way }) => way === answer.way)
    const ask = basis && askOfWay(ground, basis, versions)
    const made = ask ? await makeEstimates(ground, { ...ask, quantities: [pieceCount] }, bases) : null
    const one = made?.quantities[0]
    rows.push({
      answer,
      estimate: one?.estimate ?? null,
      tubeCosted: one ? one.tube.material !== null : true,
    })
  }
  return { ground, rows }
}
