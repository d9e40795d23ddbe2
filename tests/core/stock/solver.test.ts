import { expect, it } from 'vitest'
import { type SolverColumn, type SolverProblem, solveWholeNumbers } from '@/lib/core/stock/solver'

const column = (cost: number, most: number, ...values: number[]): SolverColumn => ({
  cost,
  most,
  entries: values.flatMap((value, row) => (value === 0 ? [] : [{ row, value }])),
})
const atLeast = (least: number) => ({ least, most: Number.POSITIVE_INFINITY })
const solve = (problem: Omit<SolverProblem, 'proofGap'>) => solveWholeNumbers({ ...problem, proofGap: 0.999 })

// By hand: 2x + y >= 5 at 3 and 2 each: five y 10, one x and three y 9, two x and one y 8, three x 9.
it('finds the cheapest whole numbers, not the cheapest of all', async () => {
  const answer = await solve({ columns: [column(3, 9, 2), column(2, 9, 1)], rows: [atLeast(5)] })
  expect(answer).toMatchObject({ found: true, amounts: [2, 1], proven: true })
  // Parts of x would do for 7.5; the proof ends within a whole unit of 8.
  expect(answer.found && answer.lowerBound).toBeGreaterThan(7)
  expect(answer.found && answer.lowerBound).toBeLessThanOrEqual(8)
})

it('takes no more of a column than there is', async () => {
  const answer = await solve({ columns: [column(3, 1, 2), column(2, 9, 1)], rows: [atLeast(5)] })
  expect(answer).toMatchObject({ found: true, amounts: [1, 3] })
})

it('keeps every row between its limits, each column in its own rows', async () => {
  // By hand: a gives 2 and 1, b gives 0 and 1, c 1 and 0; at least 4 of the first, exactly 1 of the second: one a and two c, 5 + 4.
  const answer = await solve({
    columns: [column(5, 9, 2, 1), column(1, 9, 0, 1), column(2, 9, 1, 0)],
    rows: [atLeast(4), { least: 1, most: 1 }],
  })
  expect(answer.found && answer.amounts).toEqual([1, 0, 2])
  const cheapSecond = await solve({
    columns: [column(5, 9, 2, 1), column(1, 9, 0, 1), column(1, 9, 1, 0)],
    rows: [atLeast(4), { least: 1, most: 1 }],
  })
  // Four c and one b, 4 + 1, beat one a and two c, 5 + 2.
  expect(cheapSecond.found && cheapSecond.amounts.map((amount) => amount + 0)).toEqual([0, 1, 4])
})

it('begins from a solution and still finds the best', async () => {
  const problem = { columns: [column(3, 9, 2), column(2, 9, 1)], rows: [atLeast(5)] }
  expect(await solve({ ...problem, start: [0, 5] })).toMatchObject({
    found: true,
    amounts: [2, 1],
    proven: true,
  })
})

it('says where nothing satisfies the rows', async () => {
  expect(await solve({ columns: [column(3, 2, 2)], rows: [atLeast(5)] })).toEqual({
    found: false,
    because: 'no-solution',
  })
})
