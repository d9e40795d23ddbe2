'use server'

import { decideForm, faultForm } from '@/lib/records/fault/schema'
import { decideFault, openFaultByHand } from '@/lib/records/fault/write'
import { faultPictureForm } from '@/lib/records/file/schema'
import { addFaultPicture } from '@/lib/records/file/write'
import { fillerUseForm } from '@/lib/records/filler-use/schema'
import { enterJobFiller } from '@/lib/records/filler-use/write'
import { jobDueForm, jobForm, jobPress, reissueForm } from '@/lib/records/job/schema'
import { changeDue, openJob, reissueTraveller } from '@/lib/records/job/write'
import { cancelForm, closeForm } from '@/lib/records/job-end/schema'
import { cancelJob, closeJob, reopenJob } from '@/lib/records/job-end/write'
import { operationDone } from '@/lib/records/operation/schema'
import { markOperation } from '@/lib/records/operation/write'
import { cutPiecesForm, stockChoice, undoCutForm } from '@/lib/records/piece/schema'
import { cutPieces, freeStock, reserveStock, undoCut } from '@/lib/records/piece/write'
import { releaseForm } from '@/lib/records/release/schema'
import { releasePieces } from '@/lib/records/release/write'
import { formAction } from '@/lib/server/action'

export const openJobAction = formAction('job.write', jobForm, (input, actor) => openJob(input, actor))
export const changeDueAction = formAction('job.write', jobDueForm, (input, actor) => changeDue(input, actor))
export const reissueTravellerAction = formAction('job.write', reissueForm, (input, actor) =>
  reissueTraveller(input, actor),
)
export const closeJobAction = formAction('job.write', closeForm, (input, actor) => closeJob(input, actor))
export const cancelJobAction = formAction('job.write', cancelForm, (input, actor) => cancelJob(input, actor))
export const reopenJobAction = formAction('job.write', jobPress, (input, actor) => reopenJob(input, actor))
export const openFaultAction = formAction('fault.write', faultForm, (input, actor) =>
  openFaultByHand(input, actor),
)
export const faultPictureAction = formAction('fault.write', faultPictureForm, (input, actor) =>
  addFaultPicture(input, actor),
)
export const decideFaultAction = formAction('fault.decide', decideForm, (input, actor) =>
  decideFault(input, actor),
)
export const releaseAction = formAction('release.write', releaseForm, (input, actor) =>
  releasePieces(input, actor),
)
export const reserveStockAction = formAction('stock.write', stockChoice, (input, actor) =>
  reserveStock(input, actor),
)
export const freeStockAction = formAction('stock.write', stockChoice, (input, actor) =>
  freeStock(input, actor),
)
export const cutPiecesAction = formAction('bench.write', cutPiecesForm, (input, actor) =>
  cutPieces(input, actor),
)
export const undoCutAction = formAction('bench.write', undoCutForm, (input, actor) => undoCut(input, actor))
export const jobFillerAction = formAction('filler.write', fillerUseForm, (input, actor) =>
  enterJobFiller(input, actor),
)
export const markOperationAction = formAction('bench.write', operationDone, (input, actor) =>
  markOperation(input, actor),
)
