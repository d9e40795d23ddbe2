import { groundMark, readEstimateGround } from '@/lib/records/estimate/read'
import { firstAsk } from '@/lib/records/estimate/rules'
import { type EstimateTyped, estimateForm } from '@/lib/records/estimate/schema'
import { saveEstimate } from '@/lib/records/estimate/write'
import { wayBases } from '@/lib/records/way/rules'
import { db } from '@/lib/server/db'
import type { Actor } from '@/lib/server/session'

type Units = Parameters<typeof estimateForm>[0]
type DemoEstimate = { part: number; barPrice: string; overrides: EstimateTyped['overrides'] }

/** Which demo parts are estimated, in order; the davit arm twice, the second time with a time set by hand. */
const demoEstimates: readonly DemoEstimate[] = [
  { part: 0, barPrice: '142.00', overrides: [] },
  {
    part: 0,
    barPrice: '142.00',
    overrides: [
      {
        operationKey: 'setUpPress',
        field: 'setUpMinutes',
        low: '20',
        likely: '25',
        high: '40',
        reason: 'Die and strap stay on from the starboard arm',
      },
    ],
  },
  { part: 1, barPrice: '142.00', overrides: [] },
  { part: 15, barPrice: '96.00', overrides: [] },
  { part: 20, barPrice: '118.00', overrides: [] },
]

/** The newest estimate of each demo part that has one, by the part's place in the list. */
export async function loadDemoEstimates(
  parts: readonly { revisionId: number; quantity: number }[],
  units: Units,
  owner: Actor,
): Promise<Map<number, number>> {
  const newest = new Map<number, number>()
  // A shop that the app set up has rates; a bare one has nothing to estimate with.
  if ((await db.rateSheet.count()) === 0) return newest
  for (const { part: place, barPrice, overrides } of demoEstimates) {
    const part = parts[place]
    const read = part && (await readEstimateGround(part.revisionId))
    if (!read) continue
    const bases = wayBases(read.ground)
    const ask = firstAsk(read.ground, bases)
    if (!ask) continue
    const typed: EstimateTyped = {
      revisionId: part.revisionId,
      mark: groundMark(read.ground),
      way: ask.way,
      quantities: `1, ${part.quantity}, ${part.quantity * 3}`,
      yieldPct: '85',
      yieldReason: '',
      holeCount: '0',
      weldedEndCount: '0',
      dyePenetrant: ask.dyePenetrant,
      buyable: [{ lengthMm: "20'", priceCents: barPrice }],
      tools: [],
      overrides,
      rateOverrides: [],
      pricingBy: 'margin',
      pricingPct: '30',
    }
    newest.set(place, (await saveEstimate(estimateForm(units).parse(typed), owner)).id)
  }
  return newest
}
