import 'server-only'
import { ownAlloyColumns, withOwn } from '@/lib/records/filler-alloy/rules'
import { setupFault } from '@/lib/records/setup/rules'
import type { SetupChoice } from '@/lib/records/setup/schema'
import { db, type Tx } from '@/lib/server/db'
import { changedMeanwhile, Refused } from '@/lib/server/errors'
import { recordChange } from '@/lib/server/history'
import type { Actor } from '@/lib/server/session'

/** Chooses press, span, die, strap and filler for a revision, or changes the choice. */
export async function saveSetup(input: SetupChoice, actor: Actor): Promise<{ version: number }> {
  return db.$transaction(async (tx) => {
    await requireUsable(tx, input)
    const { revisionId, version, ...choice } = input
    const before = await tx.setup.findUnique({
      where: { revisionId },
      select: {
        support: true,
        pressId: true,
        supportSpanMm: true,
        dieId: true,
        strapId: true,
        fillerId: true,
        version: true,
      },
    })
    if (!before) {
      if (version !== 0) throw changedMeanwhile('set-up')
      const { count } = await tx.setup.createMany({
        data: [{ revisionId, ...choice, version: 1 }],
        skipDuplicates: true,
      })
      if (count !== 1) throw changedMeanwhile('set-up')
    } else {
      const { count } = await tx.setup.updateMany({
        where: { revisionId, version },
        data: { ...choice, version: { increment: 1 } },
      })
      if (count !== 1) throw changedMeanwhile('set-up')
    }
    await recordChange(tx, {
      by: actor,
      action: before ? 'changed the set-up' : 'chose a set-up',
      entity: 'Setup',
      entityId: revisionId,
      before,
      after: choice,
    })
    return { version: version + 1 }
  })
}

/** Everything named is there, in use (or was chosen before), and fits together. */
async function requireUsable(tx: Tx, input: SetupChoice): Promise<void> {
  const chosenBefore = { setups: { some: { revisionId: input.revisionId } } }
  const usable = (id: number) => ({ id, OR: [{ retiredAt: null }, chosenBefore] })
  // One after another: a transaction has one connection.
  const shop = await tx.shop.findUniqueOrThrow({ where: { id: 1 }, select: { lengthUnit: true } })
  const revision = await tx.partRevision.findUnique({
    where: { id: input.revisionId },
    select: { id: true },
  })
  const press = await tx.press.findFirst({ where: usable(input.pressId) })
  const die = input.dieId === null ? null : await tx.die.findFirst({ where: usable(input.dieId) })
  const strap = input.strapId === null ? null : await tx.strap.findFirst({ where: usable(input.strapId) })
  const filler =
    input.fillerId === null
      ? null
      : await tx.filler.findFirst({ where: usable(input.fillerId), include: ownAlloyColumns })
  if (!revision) throw new Refused('not-found', 'There is no such revision of a part.')
  const gone = 'This is not in use any more: choose another'
  if (!press) throw new Refused('bad-input', gone, 'pressId')
  if (input.dieId !== null && !die) throw new Refused('bad-input', gone, 'dieId')
  if (input.strapId !== null && !strap) throw new Refused('bad-input', gone, 'strapId')
  if (input.fillerId !== null && !filler) throw new Refused('bad-input', gone, 'fillerId')
  const fault = setupFault({ ...input, press, filler: filler && withOwn(filler) }, shop.lengthUnit)
  if (fault) throw new Refused('bad-input', fault.message, fault.field)
}
