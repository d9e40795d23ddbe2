import { beforeEach, describe, expect, it, vi } from 'vitest'
import { nestPieces } from '@/lib/core/stock/nest'
import type { NestInput } from '@/lib/core/stock/nest-plan'
import { type SolverAnswer, solveWholeNumbers } from '@/lib/core/stock/solver'

vi.mock('@/lib/core/stock/solver', () => ({ solveWholeNumbers: vi.fn() }))
const solver = vi.mocked(solveWholeNumbers)
beforeEach(() => {
  solver.mockReset()
})

/** Bars of 10 at 60 cents; a plan is remembered, so every question here is its own. */
const input = (six: number, four: number, more: Partial<NestInput> = {}): NestInput => ({
  pieces: [
    { key: 'six', lengthMm: 6, pieceCount: six },
    { key: 'four', lengthMm: 4, pieceCount: four },
  ],
  rack: [],
  buyable: [{ key: 'bar', lengthMm: 10, priceCents: 60 }],
  kerfMm: 0,
  endTrimMm: 0,
  trimFarEnd: false,
  keepOffcutFromMm: 100,
  offcutValueCentsPerM: 0,
  ...more,
})
const ask = async (question: NestInput, answer: SolverAnswer) => {
  solver.mockResolvedValueOnce(answer)
  return nestPieces(question)
}
const stopped: SolverAnswer = { found: false, because: 'stopped-without-solution' }

describe('what the search is asked', () => {
  it('has a column for each pattern and kind of bar, a row for each length and each kind that runs out', async () => {
    // By hand: 6 + 4 or 4 + 4 out of 10; one such bar on the rack at 20, the others at 60: in units of 20 cents 1 and 3.
    const rack = [{ key: 'R', lengthMm: 10, kind: 'bar' as const, costCents: 20 }]
    // Leftovers are kept from 4 on, but have no worth: a bar cut less full is no pattern of its own.
    await ask(input(2, 2, { rack, keepOffcutFromMm: 4 }), stopped)
    const [problem] = solver.mock.calls[0] ?? []
    expect(problem?.columns.map(({ cost, most }) => [cost, most])).toEqual([
      [1, 1],
      [1, 1],
      [3, 4],
      [3, 4],
    ])
    expect(problem?.columns.map(({ entries }) => entries.map(({ row, value }) => [row, value]))).toEqual([
      [
        [0, 1],
        [1, 1],
        [2, 1],
      ],
      [
        [1, 2],
        [2, 1],
      ],
      [
        [0, 1],
        [1, 1],
      ],
      [[1, 2]],
    ])
    expect(problem?.rows).toEqual([
      { least: 2, most: Number.POSITIVE_INFINITY },
      { least: 2, most: Number.POSITIVE_INFINITY },
      { least: 0, most: 1 },
    ])
    expect(problem?.proofGap).toBeLessThan(1)
    // Longest first: 6 and 4 off the rack, 6 and 4 out of a new bar.
    expect(problem?.start).toEqual([1, 0, 1, 0])
  })

  it('begins from longest-first, each of its bars as the first pattern that covers it', async () => {
    const start = async (six: number, four: number) => {
      solver.mockClear()
      await ask(input(six, four), stopped)
      return solver.mock.calls[0]?.[0].start
    }
    // Patterns 6 + 4, then 4 + 4. Three sixes and two fours: two bars of both and one of a six, which 6 + 4 covers.
    expect(await start(3, 2)).toEqual([3, 0])
    // One six and three fours: 6 + 4, then 4 + 4, which only the second covers.
    expect(await start(1, 3)).toEqual([1, 1])
  })

  it('has worth of leftovers taken off the cost', async () => {
    // By hand, from 4 mm on at 5 cents a millimetre: 6 + 4 leaves nothing, 60; a single 6 leaves 4, 60 - 20; a single 4 leaves 6, 60 - 30.
    await ask(input(1, 1, { keepOffcutFromMm: 4, offcutValueCentsPerM: 5000 }), stopped)
    const [problem] = solver.mock.calls[0] ?? []
    // In units of 10 cents.
    expect(problem?.columns.map(({ cost, entries }) => [cost, entries.length])).toEqual([
      [6, 2],
      [4, 1],
      [3, 1],
    ])
  })
})

describe('what the search answers', () => {
  it('is a proven plan, or the best one found where it was stopped', async () => {
    const proven = await ask(input(2, 1), { found: true, amounts: [2, 0], proven: true, lowerBound: 2 })
    expect(proven).toMatchObject({
      found: true,
      plan: {
        netCents: 120,
        proof: { method: 'exact', proven: true, lowerBoundCents: 120, patternCount: 1 },
      },
    })
    // No less than 1.2 units of 60 cents is no less than two.
    const best = await ask(input(2, 4), { found: true, amounts: [2, 1], proven: false, lowerBound: 1.2 })
    expect(best).toMatchObject({
      found: true,
      plan: {
        netCents: 180,
        proof: { method: 'search-stopped', proven: false, lowerBoundCents: 120, patternCount: 2 },
      },
    })
  })

  it('has no bound below nothing, nor a unit more for the last digit of a float', async () => {
    const bound = async (four: number, lowerBound: number) => {
      const found = await ask(input(1, four), { found: true, amounts: [1, four], proven: true, lowerBound })
      return found.found && found.plan.proof.lowerBoundCents
    }
    expect(await bound(5, 2.0000001)).toBe(120)
    expect(await bound(6, 2.1)).toBe(180)
    expect(await bound(7, -3)).toBe(0)
  })

  it('is replaced by longest-first where it was stopped without a plan, said to be not proven', async () => {
    // By hand: 6 + 4 twice; the length bound is 20 mm at 6 cents, 120.
    expect(await ask(input(2, 2, { keepOffcutFromMm: 99 }), stopped)).toMatchObject({
      found: true,
      plan: {
        netCents: 120,
        proof: { method: 'first-fit-decreasing', proven: false, lowerBoundCents: 120, patternCount: 0 },
      },
    })
  })

  it('is not enough tube where nothing satisfies it, or where longest-first runs out too', async () => {
    const short = { found: false, because: 'not-enough-tube', pieceKey: null }
    expect(
      await ask(input(2, 2, { keepOffcutFromMm: 98 }), { found: false, because: 'no-solution' }),
    ).toEqual(short)
    const one = { buyable: [{ key: 'bar', lengthMm: 10, priceCents: 60, availableCount: 1 }] }
    expect(await ask(input(2, 2, one), stopped)).toEqual(short)
    // Without longest-first there is nothing to begin from.
    expect(solver.mock.calls.at(-1)?.[0]).not.toHaveProperty('start')
  })
})
