import { describe, expect, it } from 'vitest'
import { benchWaits } from '@/lib/records/today/rules'

const tried = (
  bendPosition: number,
  tryNumber: number,
  verdict: 'pass' | 'fail' | 'waiting',
  open = false,
) => ({
  bendPosition,
  tryNumber,
  verdict,
  faults: open ? [{ disposition: null }] : [],
})
const piece = (number: number, bendRecords: ReturnType<typeof tried>[], jobNumber = 'J-0001') => ({
  number,
  scanCode: `${jobNumber}-${number}`,
  job: { number: jobNumber, revision: { part: { name: 'Davit arm' }, bends: [1, 2] } },
  bendRecords,
})

describe('what waits at the bench', () => {
  it('is a bend whose last try waits, not one that was tried again since', () => {
    const { toMeasure } = benchWaits([
      piece(1, [tried(1, 1, 'waiting'), tried(1, 2, 'pass'), tried(2, 1, 'waiting')]),
    ])
    expect(toMeasure.map(({ pieceNumber, bend }) => [pieceNumber, bend])).toEqual([[1, 2]])
  })

  it('is counted by job, with the first bend that can be gone on with', () => {
    const { toBend } = benchWaits([
      piece(1, [tried(1, 1, 'pass'), tried(2, 1, 'fail', true)]),
      piece(2, [tried(1, 1, 'pass')]),
      piece(1, [tried(1, 1, 'pass'), tried(2, 1, 'pass')], 'J-0002'),
    ])
    // Of four bends of J-0001 two have passed; bend 2 of piece 1 waits for the office. J-0002 has nothing left to bend.
    expect(toBend).toMatchObject([
      { jobNumber: 'J-0001', doneCount: 2, bendCount: 4, next: { pieceNumber: 2, bend: 2 } },
    ])
  })

  it('goes on with nothing where all that is left waits for the office', () => {
    const { toBend } = benchWaits([piece(1, [tried(1, 1, 'pass'), tried(2, 1, 'fail', true)])])
    expect(toBend).toMatchObject([{ doneCount: 1, next: null }])
  })
})
