import 'server-only'
import { cache } from 'react'
import { ownAlloyColumns, withOwn } from '@/lib/records/filler-alloy/rules'
import type { Tooling } from '@/lib/records/setup/rules'
import { db } from '@/lib/server/db'

/** The set-up chosen for a revision, or null. */
export async function readSetup(revisionId: number) {
  const setup = await db.setup.findUnique({
    where: { revisionId },
    select: {
      id: true,
      version: true,
      support: true,
      supportSpanMm: true,
      pressId: true,
      dieId: true,
      strapId: true,
      fillerId: true,
      press: true,
      die: true,
      strap: true,
      filler: { include: ownAlloyColumns },
    },
  })
  return setup && { ...setup, filler: setup.filler && withOwn(setup.filler) }
}

export type ChosenSetup = NonNullable<Awaited<ReturnType<typeof readSetup>>>

/** What may be chosen: everything not retired, and what this revision's set-up has even if it is. */
export const readTooling = cache(async (revisionId: number): Promise<Tooling> => {
  const where = { OR: [{ retiredAt: null }, { setups: { some: { revisionId } } }] }
  const orderBy = { shopNumber: 'asc' } as const
  const [presses, dies, straps, fillers] = await Promise.all([
    db.press.findMany({
      where,
      orderBy,
      select: {
        id: true,
        shopNumber: true,
        name: true,
        capacityKn: true,
        strokeMm: true,
        supportNoseRadiusMm: true,
        supportFrictionCoeff: true,
        minimumSpanMm: true,
        maximumSpanMm: true,
        retiredAt: true,
      },
    }),
    db.die.findMany({
      where,
      orderBy,
      select: {
        id: true,
        shopNumber: true,
        surfaceRadiusMm: true,
        grooveWidthMm: true,
        arcDeg: true,
        retiredAt: true,
      },
    }),
    db.strap.findMany({
      where,
      orderBy,
      select: {
        id: true,
        shopNumber: true,
        thicknessMm: true,
        widthMm: true,
        lengthMm: true,
        yieldMPa: true,
        frictionCoeff: true,
        retiredAt: true,
      },
    }),
    db.filler.findMany({
      where,
      orderBy,
      select: {
        id: true,
        shopNumber: true,
        name: true,
        fillerId: true,
        densityKgM3: true,
        yieldMPa: true,
        modulusMPa: true,
        retiredAt: true,
        ...ownAlloyColumns,
      },
    }),
  ])
  const marked = <Row extends { retiredAt: Date | null }>(rows: Row[]) =>
    rows.map(({ retiredAt, ...row }) => ({ ...row, retired: retiredAt !== null }))
  return {
    presses: marked(presses),
    dies: marked(dies),
    straps: marked(straps),
    fillers: marked(fillers.map(withOwn)),
  }
})
