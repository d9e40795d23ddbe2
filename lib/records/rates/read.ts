import 'server-only'
import { cache } from 'react'
import type { ShopRates } from '@/lib/core/cost/shop-rates'
import { wholeRates } from '@/lib/records/rates/rules'
import { db } from '@/lib/server/db'

export type RatesInForce = { id: number; createdAt: Date; rates: ShopRates }

/** The rates that count now, read once a request. */
export const readRates = cache(async (): Promise<RatesInForce> => {
  const sheet = await db.rateSheet.findFirstOrThrow({
    select: { id: true, createdAt: true, rates: true },
    orderBy: { id: 'desc' },
  })
  return { ...sheet, rates: wholeRates(sheet.rates) }
})

/** Sheets before `beforeId` (or the newest), newest first, one more than asked so that differences can be told. */
export async function readRateHistory(options: { beforeId?: number; take: number }) {
  const sheets = await db.rateSheet.findMany({
    where: options.beforeId === undefined ? {} : { id: { lt: options.beforeId } },
    select: {
      id: true,
      createdAt: true,
      reasonText: true,
      rates: true,
      createdBy: { select: { name: true } },
    },
    orderBy: { id: 'desc' },
    take: options.take + 1,
  })
  return sheets.map((sheet) => ({ ...sheet, rates: wholeRates(sheet.rates) }))
}
