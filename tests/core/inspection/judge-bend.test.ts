import { describe, expect, it } from 'vitest'
import { fullGuard } from '@/lib/core/inspection/decision'
import { type BendTolerances, judgeBend, type MeasuredBend, worst } from '@/lib/core/inspection/judge-bend'

const tolerances: BendTolerances = {
  limits: {},
  required: [],
  allowedLooks: ['wrinkle', 'crack', 'clean', 'flat'],
  penetrantRequired: false,
  rule: fullGuard,
}
const clean: MeasuredBend = { look: 'clean' }
const reasons = (
  record: MeasuredBend,
  change: Partial<BendTolerances> = {},
  gauges: Parameters<typeof judgeBend>[2] = undefined,
) => judgeBend(record, { ...tolerances, ...change }, gauges).reasons
const seen = { quantity: 'look', verdict: 'pass', text: 'pass: look clean' } as const

describe('why a bend is judged as it is', () => {
  it('is told of each quantity with limits, in one order, with the chance where a gauge is known', () => {
    // By hand: 90.5 between 89 and 91 at u = .25: Phi(2) - Phi(-6) = .97725.
    const limits = {
      angleDeg: { lower: 89, upper: 91 },
      wallOuterMm: { lower: 2.7 },
      ovalityPct: { upper: 5 },
    }
    const record = { ...clean, ovalityPct: 5.1, wallOuterMm: 2.7, angleDeg: 90.5 }
    expect(reasons(record, { limits }, { angleDeg: 0.5 })).toEqual([
      {
        quantity: 'angleDeg',
        verdict: 'pass',
        text: 'pass: angle 90.5°, allowed 89 to 91°, gauge ±0.5°',
        conformance: expect.closeTo(0.97725, 5),
      },
      {
        quantity: 'wallOuterMm',
        verdict: 'pass',
        text: 'pass: wall at the outer face 2.7 mm, at least 2.7 mm',
      },
      { quantity: 'ovalityPct', verdict: 'fail', text: 'fail: ovality 5.1 percent, at most 5 percent' },
      seen,
    ])
  })

  it('has values to a thousandth, without needless noughts', () => {
    const limits = { radiusMm: { lower: 99.12345, upper: 101 } }
    expect(reasons({ ...clean, radiusMm: 100.0006 }, { limits })[0]?.text).toBe(
      'pass: centreline radius 100.001 mm, allowed 99.123 to 101 mm',
    )
  })

  it('is silent of what has no limits or was not measured, unless it must be', () => {
    const open = { radiusMm: {}, angleDeg: { upper: 91 } }
    expect(reasons({ ...clean, radiusMm: 5, widthMiddleMm: 40 }, { limits: open })).toEqual([seen])
    expect(reasons(clean, { limits: open, required: ['angleDeg'] })).toEqual([
      { quantity: 'angleDeg', verdict: 'cannotSay', text: 'angle not measured' },
      seen,
    ])
    expect(judgeBend(clean, { ...tolerances, required: ['angleDeg'] }).verdict).toBe('cannotSay')
    // Measured without limits it is enough that it was.
    expect(judgeBend({ ...clean, angleDeg: 5 }, { ...tolerances, required: ['angleDeg'] }).verdict).toBe(
      'pass',
    )
  })

  it.each([
    ['clean', 'pass', 'pass: look clean'],
    ['wrinkle', 'pass', 'pass: look wrinkle'],
    ['flat', 'pass', 'pass: look flat'],
    ['marks', 'fail', 'fail: look marks, the part allows clean or wrinkle or flat'],
    // Whatever the part allows.
    ['crack', 'fail', 'fail: cracked'],
    [undefined, 'cannotSay', 'look not recorded'],
  ] as const)('a look of %s is a %s', (look, verdict, text) => {
    const record = look === undefined ? {} : { look }
    expect(reasons(record)).toEqual([{ quantity: 'look', verdict, text }])
  })

  it('allows a clean look where the part allows none', () => {
    expect(reasons(clean, { allowedLooks: [] })).toEqual([seen])
    expect(reasons({ look: 'flat' }, { allowedLooks: [] })[0]?.text).toBe(
      'fail: look flat, the part allows clean',
    )
  })

  it.each([
    ['clear', false, 'pass', 'pass: dye penetrant clear'],
    ['clear', true, 'pass', 'pass: dye penetrant clear'],
    ['indication', false, 'fail', 'fail: dye penetrant shows an indication'],
    ['indication', true, 'fail', 'fail: dye penetrant shows an indication'],
    ['notDone', true, 'cannotSay', 'dye penetrant not done yet'],
    [undefined, true, 'cannotSay', 'dye penetrant not done yet'],
  ] as const)('a penetrant test %s, asked for %s, is a %s', (penetrant, penetrantRequired, verdict, text) => {
    const record = penetrant === undefined ? clean : { ...clean, penetrant }
    expect(reasons(record, { penetrantRequired })).toEqual([seen, { quantity: 'penetrant', verdict, text }])
    expect(judgeBend(record, { ...tolerances, penetrantRequired }).verdict).toBe(verdict)
  })

  it('asks for no penetrant test where the part does not', () => {
    expect(reasons({ ...clean, penetrant: 'notDone' })).toEqual([seen])
    expect(reasons(clean)).toEqual([seen])
  })
})

it('a fail stands over a cannot say, a cannot say over a pass, and nothing judged is no pass', () => {
  const of = (...verdicts: ('pass' | 'fail' | 'cannotSay')[]) =>
    worst(verdicts.map((verdict) => ({ verdict })))
  expect([of('pass', 'cannotSay', 'fail'), of('pass', 'cannotSay'), of('pass', 'pass'), of()]).toEqual([
    'fail',
    'cannotSay',
    'pass',
    'cannotSay',
  ])
})
