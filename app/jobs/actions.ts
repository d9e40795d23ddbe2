'use server'

import { decideForm } from '@/lib/records/fault/schema'
import { decideFault } from '@/lib/records/fault/write'
import { jobPress } from '@/lib/records/job/schema'
import { reissueTraveller } from '@/lib/records/job/write'
import { releaseForm } from '@/lib/records/release/schema'
import { releasePieces } from '@/lib/records/release/write'
import { formAction } from '@/lib/server/action'

export const decideFaultAction = formAction('fault.decide', decideForm, (input, actor) =>
  decideFault(input, actor),
)
export const releaseAction = formAction('release.write', releaseForm, (input, actor) =>
  releasePieces(input, actor),
)
export const reissueTravellerAction = formAction('job.write', jobPress, (input, actor) =>
  reissueTraveller(input, actor),
)
