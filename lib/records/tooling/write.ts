import 'server-only'
import { fillerById } from '@/lib/core/materials/fillers'
import { fillerBalances } from '@/lib/records/tooling/read'
import { ledgerMassKg } from '@/lib/records/tooling/rules'
import type {
  DieChange,
  FillerChange,
  FillerMoved,
  NewDie,
  NewFiller,
  NewPress,
  NewStrap,
  PressChange,
  Retire,
  StrapChange,
} from '@/lib/records/tooling/schema'
import { db, type Tx } from '@/lib/server/db'
import { changedMeanwhile, Refused } from '@/lib/server/errors'
import { recordChange } from '@/lib/server/history'
import type { Actor } from '@/lib/server/session'

type Kind = Retire['kind']
type Added = { id: number }
type Saved = { version: number }

const entities = { press: 'Press', die: 'Die', strap: 'Strap', filler: 'Filler' } as const

export function addPress(input: NewPress, actor: Actor): Promise<Added> {
  return add('press', input, actor, (tx) => tx.press.create({ data: input, select: { id: true } }))
}

export function changePress({ id, version, ...data }: PressChange, actor: Actor): Promise<Saved> {
  const save = (tx: Tx) => tx.press.updateMany({ where: { id, version }, data: { ...data, ...next } })
  return change('press', { id, version, data }, actor, save)
}

export function addDie(input: NewDie, actor: Actor): Promise<Added> {
  return add('die', input, actor, (tx) => tx.die.create({ data: input, select: { id: true } }))
}

export function changeDie({ id, version, ...data }: DieChange, actor: Actor): Promise<Saved> {
  const save = (tx: Tx) => tx.die.updateMany({ where: { id, version }, data: { ...data, ...next } })
  return change('die', { id, version, data }, actor, save)
}

export function addStrap(input: NewStrap, actor: Actor): Promise<Added> {
  return add('strap', input, actor, (tx) => tx.strap.create({ data: input, select: { id: true } }))
}

export function changeStrap({ id, version, ...data }: StrapChange, actor: Actor): Promise<Saved> {
  const save = (tx: Tx) => tx.strap.updateMany({ where: { id, version }, data: { ...data, ...next } })
  return change('strap', { id, version, data }, actor, save)
}

export function addFiller(input: NewFiller, actor: Actor): Promise<Added> {
  return add('filler', input, actor, async (tx) => {
    const data = { ...input, ownAlloyId: await ownAlloyId(tx, input.fillerId) }
    return tx.filler.create({ data, select: { id: true } })
  })
}

/** The shop's own alloy of that name; null for one of the table. Locked, so that it stays while a pot of it is saved. */
async function ownAlloyId(tx: Tx, fillerId: string): Promise<string | null> {
  const own = await tx.$queryRaw<{ id: string }[]>`
    select id from "FillerAlloy" where id = ${fillerId} for key share`
  if (own[0]) return own[0].id
  if (fillerById(fillerId)) return null
  throw new Refused('bad-input', 'There is no such filler any more: choose what is in the pot', 'fillerId')
}

/** What is in a pot stays what it is once the ledger has begun: another alloy is another pot. */
export function changeFiller({ id, version, ...data }: FillerChange, actor: Actor): Promise<Saved> {
  return change('filler', { id, version, data }, actor, async (tx) => {
    const before = await tx.filler.findUnique({ where: { id }, select: { fillerId: true } })
    if (
      before &&
      before.fillerId !== data.fillerId &&
      (await tx.fillerEntry.count({ where: { fillerId: id } })) > 0
    ) {
      throw new Refused(
        'wrong-state',
        'This pot’s ledger has begun with the alloy it has. Make another pot for another alloy.',
        'fillerId',
      )
    }
    const own = { ownAlloyId: await ownAlloyId(tx, data.fillerId) }
    return tx.filler.updateMany({ where: { id, version }, data: { ...data, ...own, ...next } })
  })
}

/** Takes a tool out of the lists that set-ups are chosen from, or puts it back. Set-ups that have it keep it. */
export async function retireTool(input: Retire, actor: Actor): Promise<void> {
  const { kind, id, retired } = input
  const where = { id, retiredAt: retired ? null : { not: null } }
  const data = { retiredAt: retired ? new Date() : null }
  await db.$transaction(async (tx) => {
    const { count } = await {
      press: () => tx.press.updateMany({ where, data }),
      die: () => tx.die.updateMany({ where, data }),
      strap: () => tx.strap.updateMany({ where, data }),
      filler: () => tx.filler.updateMany({ where, data }),
    }[kind]()
    if (count !== 1)
      throw new Refused('already-done', `This ${kind} is ${retired ? 'out of' : 'in'} use already.`)
    const action = retired ? 'retired' : 'took back into use'
    await recordChange(tx, { by: actor, action, entity: entities[kind], entityId: id })
  })
}

/** Enters one move of a pot's alloy. */
export async function enterFillerMove(input: FillerMoved, actor: Actor): Promise<Added> {
  return db.$transaction((tx) => moveFiller(tx, input, actor))
}

/** The same inside a larger intention, such as a pour that is logged on a job. */
export async function moveFiller(tx: Tx, input: FillerMoved, actor: Actor): Promise<Added> {
  // Two pours at once must not both count on the same alloy.
  const pots = await tx.$queryRaw<{ id: number; retired: boolean }[]>`
    select id, "retiredAt" is not null as retired from "Filler" where id = ${input.fillerId} for update`
  const pot = pots[0]
  if (!pot) throw new Refused('not-found', 'There is no such pot.')
  if (pot.retired) throw new Refused('wrong-state', 'This pot is out of use. Take it back into use first.')
  const { lengthUnit } = await tx.shop.findUniqueOrThrow({ where: { id: 1 }, select: { lengthUnit: true } })
  const balances = await fillerBalances(tx, input.fillerId)
  const balance = balances.get(input.fillerId) ?? { inPotKg: 0, pouredKg: 0, recoveredKg: 0, lostKg: 0 }
  const entered = ledgerMassKg(input, balance, lengthUnit)
  if (!entered.ok) throw new Refused('not-enough', entered.message, 'massKg')
  const data = {
    fillerId: input.fillerId,
    kind: input.kind,
    massKg: entered.massKg,
    byId: actor.userId,
    jobId: input.jobId ?? null,
    noteText: input.noteText,
  }
  const { id } = await tx.fillerEntry.create({ data, select: { id: true } })
  await recordChange(tx, { by: actor, action: input.kind, entity: 'FillerEntry', entityId: id, after: data })
  return { id }
}

const next = { version: { increment: 1 } } as const

function add(
  kind: Kind,
  input: { shopNumber: string },
  actor: Actor,
  create: (tx: Tx) => Promise<Added>,
): Promise<Added> {
  return db.$transaction(async (tx) => {
    await refuseTakenNumber(tx, kind, input.shopNumber)
    const { id } = await create(tx)
    await recordChange(tx, { by: actor, action: 'added', entity: entities[kind], entityId: id, after: input })
    return { id }
  })
}

function change(
  kind: Kind,
  which: { id: number; version: number; data: { shopNumber: string } },
  actor: Actor,
  save: (tx: Tx) => Promise<{ count: number }>,
): Promise<Saved> {
  return db.$transaction(async (tx) => {
    await refuseTakenNumber(tx, kind, which.data.shopNumber, which.id)
    const before = await findTool(tx, kind, { id: which.id })
    const { count } = await save(tx)
    if (count !== 1) throw changedMeanwhile(kind)
    await recordChange(tx, {
      by: actor,
      action: 'changed',
      entity: entities[kind],
      entityId: which.id,
      before,
      after: which.data,
    })
    return { version: which.version + 1 }
  })
}

function findTool(
  tx: Tx,
  kind: Kind,
  where: { id: number } | { shopNumber: string },
): Promise<{ id: number } | null> {
  return {
    press: () => tx.press.findUnique({ where }),
    die: () => tx.die.findUnique({ where }),
    strap: () => tx.strap.findUnique({ where }),
    filler: () => tx.filler.findUnique({ where }),
  }[kind]()
}

async function refuseTakenNumber(tx: Tx, kind: Kind, shopNumber: string, ownId?: number): Promise<void> {
  const taken = await findTool(tx, kind, { shopNumber })
  if (taken && taken.id !== ownId) {
    throw new Refused('bad-input', `There is a ${kind} ${shopNumber} already`, 'shopNumber')
  }
}
