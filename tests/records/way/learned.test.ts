import { beforeEach, describe, expect, it } from 'vitest'
import { defaultShopRates } from '@/lib/core/cost/shop-rates'
import { groundMark, readEstimate, readEstimateGround } from '@/lib/records/estimate/read'
import { estimateForm } from '@/lib/records/estimate/schema'
import { saveEstimate } from '@/lib/records/estimate/write'
import type { JobPlan } from '@/lib/records/job/rules'
import { openJob } from '@/lib/records/job/write'
import { sectionText, springbackSource } from '@/lib/records/lesson/rules'
import { readRevision } from '@/lib/records/part/read'
import { readSpecInput } from '@/lib/records/spec/read'
import { readWays } from '@/lib/records/way/read'
import { wayBases, waysQuestionOf } from '@/lib/records/way/rules'
import { db } from '@/lib/server/db'
import { asJson } from '@/lib/server/json'
import { bentPart, dueOn } from '@/tests/records/job/bent-part'
import { actorWithRole } from '@/tests/support/actor'
import { freshDatabase } from '@/tests/support/database'

let revisionId: number

beforeEach(async () => {
  await freshDatabase()
  await db.rateSheet.create({ data: { rates: asJson(defaultShopRates), reasonText: 'starting figures' } })
  ;({ revisionId } = await bentPart())
})

/** Nine accepted bends of the part's tube in a filler and a strap, springing back a fifth less than the model says. */
async function teach(): Promise<void> {
  const revision = await readRevision(revisionId)
  if (!revision) throw new Error('no revision')
  await db.lesson.createMany({
    data: Array.from({ length: 9 }, () => ({
      kind: 'springbackFactor' as const,
      materialId: revision.materialId,
      sectionText: sectionText(revision),
      method: 'low-melt filler and strap',
      value: 0.8,
      acceptedAt: new Date('2026-03-02T12:00:00Z'),
    })),
  })
}

const wayOf = async (way: string) =>
  (await readWays(revisionId, 6))?.rows.find(({ answer }) => answer.way === way)?.answer.spec

describe('What bends taught', () => {
  it('is what the ways are judged by, the same as the part’s own spec, and only the way it was seen in', async () => {
    const before = await wayOf('lowMeltStrap')
    const hollow = await wayOf('hollow')
    expect(before?.input.springbackFactor).toBeUndefined()
    await teach()
    const after = await wayOf('lowMeltStrap')
    expect(after?.input.springbackFactor).toBeCloseTo(0.8, 1)
    expect(after?.answer.bends[0]?.springbackDeg).toBeLessThan(before?.answer.bends[0]?.springbackDeg ?? 0)
    const revision = await readRevision(revisionId)
    const ownSpec = revision && (await readSpecInput(revision))
    expect(ownSpec?.springbackFactor).toBe(after?.input.springbackFactor)
    // Of another way of holding the same material a bend says something too, but less.
    const other = await wayOf('hollow')
    expect(other?.input.springbackFactor).toBeGreaterThan(after?.input.springbackFactor ?? 1)
    expect(other?.answer.bends[0]?.springbackDeg).not.toBe(hollow?.answer.bends[0]?.springbackDeg)
  })

  it('stands in the question an estimate is made from, and leaves a kept estimate as it was', async () => {
    const office = await actorWithRole('office')
    const read = await readEstimateGround(revisionId)
    const typed = estimateForm({ lengthUnit: 'mm', currency: 'USD' }).parse({
      revisionId,
      mark: read ? groundMark(read.ground) : '',
      way: 'lowMeltStrap',
      quantities: '6',
      yieldPct: '85',
      yieldReason: '',
      holeCount: '0',
      weldedEndCount: '0',
      dyePenetrant: false,
      buyable: [{ lengthMm: '6000', priceCents: '140' }],
      tools: [],
      overrides: [],
      rateOverrides: [],
      pricingBy: 'margin',
      pricingPct: '30',
    })
    const { id } = await saveEstimate(typed, office)
    const kept = await readEstimate(id)
    await teach()
    expect(await readEstimate(id)).toEqual(kept)
    const now = await readEstimateGround(revisionId)
    const question = now && waysQuestionOf(now.ground)
    const strap = { thicknessMm: 3, widthMm: 38, yieldMPa: 250 }
    expect(question?.springbackFactorOf?.({ support: 'lowMelt', strap })).toBeCloseTo(0.8, 1)
    // The estimate says which bends stand behind it, and of a way nobody bent yet that it is the model's.
    const said = now && wayBases(now.ground).find(({ way }) => way === 'lowMeltStrap')
    expect(said && springbackSource(now.ground.learned, { ...said, factor: said.springbackFactor })).toMatch(
      /^Springback 0\.8\d* times the model’s, learned from 9 bends of this section and method\.$/,
    )
    expect(springbackSource({}, { support: 'hollow', strap: false, factor: undefined })).toMatch(/the model/)
    // Whoever has the form open is told that what it rests on has changed.
    await expect(saveEstimate(typed, office)).rejects.toMatchObject({ code: 'changed-meanwhile' })
  })

  it('is no matter for tube that is bent in another temper, and what that teaches is kept by its own', async () => {
    await teach()
    const planOf = async (way: JobPlan['way']) => {
      const office = await actorWithRole('office')
      const { jobId } = await openJob({ revisionId, quantity: 1, dueOn, way }, office)
      const { plan } = await db.job.findUniqueOrThrow({ where: { id: jobId }, select: { plan: true } })
      return plan as unknown as JobPlan
    }
    const cold = await planOf('lowMeltStrap')
    expect([cold.materialId, cold.input?.material.id]).toEqual(['6061-T6', '6061-T6'])
    expect(cold.factor.value).toBeCloseTo(0.8, 1)
    const soft = await planOf('t4ThenAged')
    expect([soft.materialId, soft.input?.material.id]).toEqual(['6061-T4', '6061-T4'])
    expect(soft.factor.value).toBe(1)
    const annealed = await planOf('annealedThenSolutionAged')
    expect([annealed.materialId, annealed.factor.value]).toEqual(['6061-O', 1])
  })
})
