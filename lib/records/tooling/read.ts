import 'server-only'
import { ownAlloyColumns, withOwn } from '@/lib/records/filler-alloy/rules'
import type { FillerBalance } from '@/lib/records/tooling/rules'
import { db, type Tx } from '@/lib/server/db'

/** In use first, then by number. */
const order = [{ retiredAt: { sort: 'desc', nulls: 'first' } }, { shopNumber: 'asc' }] as const
/** More tools than any such shop has; a list that long is no list to choose from. */
const most = 500

/** retired: those out of use as well. */
type Which = { retired?: boolean }
const inUse = ({ retired = false }: Which) => (retired ? {} : { retiredAt: null })

export function readPresses(which: Which = {}) {
  return db.press.findMany({ where: inUse(which), orderBy: [...order], take: most })
}

export function readPress(id: number) {
  return db.press.findUnique({ where: { id } })
}

export function readDies(which: Which = {}) {
  return db.die.findMany({ where: inUse(which), orderBy: [...order], take: most })
}

export function readDie(id: number) {
  return db.die.findUnique({ where: { id } })
}

export function readStraps(which: Which = {}) {
  return db.strap.findMany({ where: inUse(which), orderBy: [...order], take: most })
}

export function readStrap(id: number) {
  return db.strap.findUnique({ where: { id } })
}

/** The pots with what is in them. */
export async function readFillers(which: Which = {}) {
  const [fillers, balances] = await Promise.all([
    db.filler.findMany({
      where: inUse(which),
      orderBy: [...order],
      take: most,
      include: ownAlloyColumns,
    }),
    fillerBalances(db),
  ])
  return fillers.map(withOwn).map((filler) => ({ ...filler, balance: balances.get(filler.id) ?? empty }))
}

export async function readFiller(id: number) {
  const filler = await db.filler.findUnique({ where: { id }, include: ownAlloyColumns })
  if (!filler) return null
  const balances = await fillerBalances(db, id)
  return { ...withOwn(filler), balance: balances.get(id) ?? empty }
}

/** Everything in use that a set-up can be chosen from. */
export async function readToolChoices() {
  const [presses, dies, straps, fillers] = await Promise.all([
    readPresses(),
    readDies(),
    readStraps(),
    readFillers(),
  ])
  return { presses, dies, straps, fillers }
}

/** How many of each are in use. */
export async function readToolCounts() {
  const where = { retiredAt: null }
  const [presses, dies, straps, fillers] = await Promise.all([
    db.press.count({ where }),
    db.die.count({ where }),
    db.strap.count({ where }),
    db.filler.count({ where }),
  ])
  return { presses, dies, straps, fillers }
}

const empty: FillerBalance = { inPotKg: 0, pouredKg: 0, recoveredKg: 0, lostKg: 0 }

/** To a milligram: the database adds in any order it likes, and the last digits of a sum hang on that. Never -0. */
const toMilligrams = (massKg: number) => Math.round(massKg * 1e6) / 1e6 + 0

/** Sums of the ledger by pot; what left the pot is counted positive here. */
export async function fillerBalances(on: Tx, fillerId?: number): Promise<Map<number, FillerBalance>> {
  const sums = await on.fillerEntry.groupBy({
    by: ['fillerId', 'kind'],
    where: fillerId === undefined ? {} : { fillerId },
    _sum: { massKg: true },
  })
  const balances = new Map<number, FillerBalance>()
  for (const { fillerId: id, kind, _sum } of sums) {
    const massKg = _sum.massKg ?? 0
    const before = balances.get(id) ?? empty
    balances.set(id, {
      inPotKg: toMilligrams(before.inPotKg + massKg),
      pouredKg: toMilligrams(before.pouredKg - (kind === 'poured' ? massKg : 0)),
      recoveredKg: toMilligrams(before.recoveredKg + (kind === 'recovered' ? massKg : 0)),
      lostKg: toMilligrams(before.lostKg - (kind === 'lost' ? massKg : 0)),
    })
  }
  return balances
}

const pageSize = 50

/** A page of a pot's ledger, newest first, each line with what the pot held after it. */
export async function readFillerLedger(fillerId: number, page: number) {
  const [count, entries] = await Promise.all([
    db.fillerEntry.count({ where: { fillerId } }),
    db.fillerEntry.findMany({
      where: { fillerId },
      select: {
        id: true,
        kind: true,
        massKg: true,
        at: true,
        noteText: true,
        by: { select: { name: true } },
        job: { select: { id: true, number: true } },
      },
      orderBy: { id: 'desc' },
      skip: (page - 1) * pageSize,
      take: pageSize,
    }),
  ])
  const upTo = entries[0]?.id
  const sum = await db.fillerEntry.aggregate({
    where: { fillerId, ...(upTo === undefined ? {} : { id: { lte: upTo } }) },
    _sum: { massKg: true },
  })
  let held = sum._sum.massKg ?? 0
  const lines = entries.map((entry) => {
    const line = { ...entry, afterKg: held }
    held -= entry.massKg
    return line
  })
  return { lines, count, pageCount: Math.max(1, Math.ceil(count / pageSize)) }
}
