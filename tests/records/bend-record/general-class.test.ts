import { beforeEach, describe, expect, it } from 'vitest'
import { generalLinearMm } from '@/lib/core/inspection/general-tolerances'
import { logTry } from '@/lib/records/bend-record/write'
import { openJob } from '@/lib/records/job/write'
import { db } from '@/lib/server/db'
import { actorWithRole } from '@/tests/support/actor'
import { freshDatabase } from '@/tests/support/database'
import { bentPart, dueOn } from '../job/bent-part'
import { nothingRead } from './bench-piece'

// ISO 2768-1:1989 table 1, over 120 to 400 mm: f 0.2, m 0.5, c 1.2, v 2.5. ISO 13920:1996 table 1, the same range: A 1, C 4.
it('a general class is read as a drawing has it', () => {
  const of300 = (classText: string) => generalLinearMm(300, classText)
  expect(['f', 'm', 'c', 'v'].map((letter) => of300(`ISO 2768-${letter}`))).toEqual([0.2, 0.5, 1.2, 2.5])
  expect(['A', 'C'].map((letter) => of300(`ISO 13920-${letter}`))).toEqual([1, 4])
  expect([of300('ISO 2768-A'), of300('DIN 7168-m'), generalLinearMm(5000, 'ISO 2768-m')]).toEqual([
    null,
    null,
    null,
  ])
})

describe('A bend’s radius without a tolerance of its own', () => {
  beforeEach(async () => {
    await freshDatabase()
  })

  async function radiusJudged(radiusMm: number, own: number | null) {
    const part = await bentPart()
    const actor = await actorWithRole('office')
    await db.partRevision.update({
      where: { id: part.revisionId },
      data: { generalTolerance: 'ISO 13920-C', radiusToleranceMm: own },
    })
    await openJob({ revisionId: part.revisionId, quantity: 1, dueOn, way: '' }, actor)
    const { scanCode } = await db.piece.findFirstOrThrow()
    const { reasons } = await logTry(
      {
        ...nothingRead,
        kind: 'try',
        clientKey: 'a-radius-is-read',
        scanCode,
        bendPosition: 1,
        targetAtPressDeg: null,
        angleFinalDeg: 32,
        radiusMm,
      },
      actor,
    )
    return reasons.find(({ quantity }) => quantity === 'radiusMm')
  }

  // The part asks 300 mm; class C of ISO 13920 gives plus or minus 4 mm over 120 to 400 mm.
  it('is judged by the part’s general class, and says so', async () => {
    expect(await radiusJudged(305, null)).toMatchObject({
      verdict: 'fail',
      text: expect.stringMatching(/296 to 304.*, by ISO 13920-C$/),
    })
  })

  it('passes inside the class, and is judged by its own tolerance where it has one', async () => {
    expect((await radiusJudged(303, null))?.verdict).toBe('pass')
    await freshDatabase()
    const own = await radiusJudged(303, 1)
    expect(own?.verdict).toBe('fail')
    expect(own?.text).not.toContain('ISO')
  })
})
