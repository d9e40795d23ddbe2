import { beforeEach, describe, expect, it } from 'vitest'
import { defaultShopRates } from '@/lib/core/cost/shop-rates'
import { bendSpec } from '@/lib/core/spec/bend-spec'
import { readRevision } from '@/lib/records/part/read'
import { specInputOf } from '@/lib/records/part/rules'
import { readTooling } from '@/lib/records/setup/read'
import { chosenTools } from '@/lib/records/setup/rules'
import { setupForm } from '@/lib/records/setup/schema'
import { saveSetup } from '@/lib/records/setup/write'
import { readWays } from '@/lib/records/way/read'
import { laidOutSpanMm, setUpsFor, typedSetUp } from '@/lib/records/way/rules'
import { db } from '@/lib/server/db'
import { asJson } from '@/lib/server/json'
import type { Actor } from '@/lib/server/session'
import { bentPart } from '@/tests/records/job/bent-part'
import { actorWithRole } from '@/tests/support/actor'
import { freshDatabase } from '@/tests/support/database'

const units = { lengthUnit: 'mm', currency: 'USD' } as const
let office: Actor
let revisionId: number

beforeEach(async () => {
  await freshDatabase()
  office = await actorWithRole('office')
  await db.rateSheet.create({ data: { rates: asJson(defaultShopRates), reasonText: 'starting figures' } })
  ;({ revisionId } = await bentPart())
})

async function found(learned: Record<string, { factor: number }> = {}) {
  const [revision, tooling, shop] = await Promise.all([
    readRevision(revisionId),
    readTooling(revisionId),
    db.shop.findUniqueOrThrow({ where: { id: 1 } }),
  ])
  if (!revision) throw new Error('no revision')
  const setUps = setUpsFor(revision, tooling, shop, { learned })
  return { revision, tooling, shop, setUps }
}

describe('Ways of a revision', () => {
  it('are eight, each with a word, and those that can be costed with hours and money', async () => {
    const read = await readWays(revisionId, 6)
    expect(read?.rows).toHaveLength(8)
    for (const { answer, estimate } of read?.rows ?? []) {
      expect(['yes', 'doubtful', 'no']).toContain(answer.word)
      if (answer.way === 'outside') expect(estimate).toBeNull()
    }
    expect(read?.rows.some(({ estimate }) => estimate !== null && estimate.labourHours.likely > 0)).toBe(true)
  })

  it('are none where the shop has no press', async () => {
    await db.setup.deleteMany()
    await db.press.updateMany({ data: { retiredAt: new Date() } })
    expect(await readWays(revisionId, 6)).toBeNull()
    expect((await found()).setUps).toBeNull()
  })
})

describe('Set-ups found from the shop’s own tools', () => {
  it('are taken as they stand: saved through the set-up form, the spec refuses none of their bends', async () => {
    const { revision, tooling, shop, setUps } = await found()
    const best = setUps?.setUps[0]
    if (!best) throw new Error('no set-up makes the part')
    const version = (await db.setup.findUnique({ where: { revisionId } }))?.version ?? 0
    const choice = setupForm(units).parse(typedSetUp(best, tooling, { revisionId, version, units }))
    await saveSetup(choice, office)
    const tools = chosenTools(choice, tooling)
    if (!tools) throw new Error('no press')
    const answer = bendSpec(specInputOf(revision, tools, shop))
    const words = answer.bends.flatMap(({ verdicts }) => verdicts.map(({ verdict }) => verdict))
    expect(words).not.toContain('refuse')
    expect(words).not.toContain('collapses')
  })

  it('take a pot for what the shop measured of it, as the ways and the part’s own spec do', async () => {
    const measured = { yieldMPa: 13, densityKgM3: 9410 }
    await db.filler.updateMany({ data: measured })
    const asked = { fillerYieldMPa: 13, fillerDensityKgM3: 9410 }
    const { setUps } = await found()
    const filled = [...(setUps?.setUps ?? []), ...(setUps?.blocked ?? [])].flatMap(({ method }) =>
      method.support === 'lowMelt' ? [method] : [],
    )
    expect(filled.length).toBeGreaterThan(0)
    for (const method of filled) expect(method).toMatchObject(asked)
    const rows = (await readWays(revisionId, 6))?.rows ?? []
    const way = rows.find(({ answer }) => answer.way === 'lowMeltStrap')
    expect(way?.answer.spec?.input.method).toMatchObject(asked)
    expect(way?.answer.spec?.answer.filler?.densityKgM3).toBe(9410)
  })

  it('leave out tools that are retired', async () => {
    await db.strap.updateMany({ data: { retiredAt: new Date() } })
    await db.setup.deleteMany()
    const { setUps } = await found()
    for (const one of [...(setUps?.setUps ?? []), ...(setUps?.blocked ?? [])]) expect(one.strapId).toBeNull()
  })
})

describe('What finished bends taught', () => {
  it('reaches the set-ups that hold the tube that way, and no others', async () => {
    const factorsOf = async (learned: Record<string, { factor: number }>) =>
      ((await found(learned)).setUps?.setUps ?? []).map(({ method, input }) => ({
        held: `${method.support}${method.strap ? ' strapped' : ''}`,
        factor: input.springbackFactor,
      }))
    // Of this shop's tools only the low-melt filler with the strap makes the part.
    expect(
      await factorsOf({ 'low-melt filler and strap': { factor: 0.8 }, hollow: { factor: 1.2 } }),
    ).toEqual([{ held: 'lowMelt strapped', factor: 0.8 }])
    expect(await factorsOf({ hollow: { factor: 1.2 } })).toEqual([
      { held: 'lowMelt strapped', factor: undefined },
    ])
  })
})

describe('A span laid out with a rule', () => {
  it.each([
    // By hand: the next quarter inch over 294.3 mm (11.586 in) is 11.75 in; the next 5 mm is 295 mm.
    [294.3, 1000, 'in', 298.45],
    [294.3, 1000, 'mm', 295],
    [300, 1000, 'mm', 300],
    [598, 599, 'mm', 598],
  ] as const)('of %f mm on a press up to %i mm in %s is %f mm', (spanMm, highMm, unit, laidOutMm) => {
    expect(laidOutSpanMm(spanMm, highMm, unit)).toBeCloseTo(laidOutMm, 9)
  })
})
