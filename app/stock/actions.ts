'use server'

import {
  addBarsForm,
  adjustForm,
  certificateForm,
  cutForm,
  lotForm,
  newLotForm,
  piecePress,
  scrapForm,
} from '@/lib/records/stock/schema'
import {
  addBars,
  addCertificate,
  adjustStock,
  changeLot,
  cutStock,
  receiveLot,
  restoreStock,
  scrapStock,
} from '@/lib/records/stock/write'
import { formAction } from '@/lib/server/action'

export const receiveLotAction = formAction('stock.write', newLotForm, (input, actor) =>
  receiveLot(input, actor),
)
export const changeLotAction = formAction('stock.write', lotForm, (input, actor) => changeLot(input, actor))
export const addBarsAction = formAction('stock.write', addBarsForm, (input, actor) => addBars(input, actor))
export const cutStockAction = formAction('stock.write', cutForm, (input, actor) => cutStock(input, actor))
export const adjustStockAction = formAction('stock.write', adjustForm, (input, actor) =>
  adjustStock(input, actor),
)
export const scrapStockAction = formAction('stock.write', scrapForm, (input, actor) =>
  scrapStock(input, actor),
)
export const restoreStockAction = formAction('stock.write', piecePress, (input, actor) =>
  restoreStock(input, actor),
)
export const addCertificateAction = formAction('stock.write', certificateForm, (input, actor) =>
  addCertificate(input, actor),
)
