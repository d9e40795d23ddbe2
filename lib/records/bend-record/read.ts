import 'server-only'
import type { AimLine } from '@/lib/core/statistics/re-aim'
import { type Aim, aimAt, aimLine } from '@/lib/records/bend-record/rules'
import type { JobPlan } from '@/lib/records/job/rules'
import { readLearnedFactor } from '@/lib/records/lesson/read'
import { db } from '@/lib/server/db'

export type BendAim = { planned: Aim; now: Aim; line: AimLine | null }

/** What to bend to at one bend: as it was planned, and after everything that the job's tries have taught by now. */
export async function readAim(plan: JobPlan, jobId: number, position: number): Promise<BendAim | null> {
  const learned = await readLearnedFactor(db, {
    materialId: plan.materialId,
    sectionText: plan.sectionText,
    method: plan.method,
    jobId,
  })
  const planned = aimAt(plan, position, plan.factor.value)
  const now = aimAt(plan, position, learned.mean)
  return planned && now ? { planned, now, line: aimLine(plan, position, learned) } : null
}
