import { formatDate, formatDateTime, formatLength, formatMass } from '@/lib/core/format'
import { shopUnits } from '@/lib/core/shop-format'
import type { LengthUnit } from '@/lib/core/units'
import type { ReadJob, readBarsForJob } from '@/lib/records/job/read'
import type { Revision } from '@/lib/records/part/read'
import type { readFillers } from '@/lib/records/tooling/read'
import type { Permission } from '@/lib/server/permissions'

/** What every section of the job's screen is shown from. */
export type JobView = {
  job: ReadJob
  revision: Revision & { part: { id: number; number: string; name: string } }
  shop: { lengthUnit: LengthUnit; currency: string; timeZone: string; kerfMm: number }
  allows: (permission: Permission) => boolean
  /** Tubes the job may take, free or reserved for it; none once it is over. */
  bars: Awaited<ReturnType<typeof readBarsForJob>>
  /** Pots in use, for who may pour. */
  fillers: Awaited<ReturnType<typeof readFillers>>
  /** The section that the next step is in: it is unfolded. */
  openId: string
}

/** The shop's way of writing lengths, masses, days and moments. */
export function wordsOf({ shop }: Pick<JobView, 'shop'>) {
  const place = { locale: 'en-US', timeZone: shop.timeZone }
  return {
    length: (mm: number) => formatLength(mm, shop.lengthUnit),
    mass: (kg: number) => formatMass(kg, { unit: shopUnits[shop.lengthUnit].mass, decimals: 2 }),
    day: (date: Date) => formatDate(date.toISOString().slice(0, 10), place),
    moment: (date: Date) => formatDateTime(date.toISOString(), place),
  }
}
