import { describe, expect, it } from 'vitest'
import { angleErrors, hindrances, type JobPiece, nextStep, readyPieces } from '@/lib/records/progress/rules'

const piece = (number: number, given: Partial<JobPiece> = {}): JobPiece => ({
  id: number,
  number,
  status: 'open',
  scanCode: `code-${number}`,
  stockPiece: { id: 9 },
  bendRecords: [],
  ...given,
})
const tried = (verdict: 'pass' | 'fail' | 'cannotSay' | 'waiting') => [
  { bendPosition: 1, tryNumber: 1, verdict, faults: [] },
]
const job = (pieces: JobPiece[], given: object = {}) => ({
  id: 1,
  status: 'open' as const,
  bendCount: 1,
  pieces,
  faults: [],
  reservedCount: 0,
  openLessons: false,
  ...given,
})

describe('The next step of a job', () => {
  it('is the open fault before anything else', () => {
    const faults = [{ id: 7, pieceId: 1, number: 'N-0007', disposition: null }]
    expect(nextStep(job([piece(1, { bendRecords: tried('waiting') })], { faults })).text).toBe(
      'Decide about N-0007',
    )
  })

  it('is the reading that is waited for before the next bend', () => {
    const pieces = [piece(1), piece(2, { bendRecords: tried('waiting') })]
    expect(nextStep(job(pieces))).toMatchObject({
      text: 'Measure: piece 2, bend 1',
      href: '/bench/code-2',
    })
  })

  it('is stock for pieces that have none, then the cut of them, then the bend', () => {
    const uncut = [piece(1, { stockPiece: null }), piece(2, { stockPiece: null })]
    expect(nextStep(job(uncut)).text).toBe('Reserve stock for pieces 1, 2')
    expect(nextStep(job(uncut, { reservedCount: 1 })).text).toBe('Note what pieces 1, 2 are cut from')
    expect(nextStep(job([piece(1), piece(2)])).text).toBe('Bend: piece 1, bend 1')
  })

  it('is the release of what has passed, then the closing', () => {
    expect(nextStep(job([piece(1, { bendRecords: tried('pass') })])).text).toBe('Release piece 1')
    expect(nextStep(job([piece(1, { status: 'released' }), piece(2, { status: 'scrapped' })])).text).toBe(
      'Close the job',
    )
  })
})

describe('The release of a job’s pieces', () => {
  const whole = job([
    piece(1, { bendRecords: tried('pass') }),
    piece(2, { bendRecords: tried('waiting') }),
    piece(3, { status: 'scrapped' }),
  ])

  it('offers what has passed, and says of each other open piece what holds it up', () => {
    expect(readyPieces(whole).map(({ number }) => number)).toEqual([1])
    expect(hindrances(whole)).toEqual([{ number: 2, why: ['bend 1 waits for its measurement'] }])
  })

  it('is held up as a whole by an open fault of the job', () => {
    const faults = [{ pieceId: null, number: 'N-0008', disposition: null }]
    expect(readyPieces({ ...whole, faults })).toEqual([])
    expect(hindrances({ ...whole, faults })[0]?.why).toEqual(['has the open fault N-0008'])
  })
})

it('the errors are measured less wanted, in the order made, without tries that wait', () => {
  const record = { tryNumber: 1, angleFinalDeg: 31.5 as number | null, bendPosition: 1 }
  const errors = angleErrors(
    [
      { number: 1, bendRecords: [{ ...record, at: new Date(2000) }] },
      {
        number: 2,
        bendRecords: [
          { ...record, angleFinalDeg: 32.25, at: new Date(1000) },
          { ...record, angleFinalDeg: null, at: new Date(500) },
        ],
      },
    ],
    [32],
  )
  expect(errors.map(({ pieceNumber, errorDeg }) => [pieceNumber, errorDeg])).toEqual([
    [2, 0.25],
    [1, -0.5],
  ])
})
