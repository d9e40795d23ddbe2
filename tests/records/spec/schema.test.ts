import fs from 'node:fs'
import path from 'node:path'
import { Ajv2020 } from 'ajv/dist/2020'
import { describe, expect, it } from 'vitest'
import { answerSpec, parseSpec, specJsonSchema } from '@/lib/records/spec/schema'

const rail = {
  tube: { shape: 'square', widthMm: 38.1, heightMm: 38.1, wallMm: 3.175 },
  material: { id: '6061-T4' },
  bends: [{ straightBeforeMm: 400, angleDeg: 32, centrelineRadiusMm: 260, rotationDeg: 0 }],
  straightAfterMm: 400,
  method: { support: 'hollow' },
  press: { capacityKn: 200, supportSpanMm: 420, supportNoseRadiusMm: 20 },
}

/** The question with one field set, or taken away where the value is undefined. */
function withField(field: string, value: unknown): unknown {
  const copy = structuredClone(rail) as Record<string, unknown>
  const keys = field.split('.')
  let at: Record<string, unknown> = copy
  for (const key of keys.slice(0, -1)) {
    at[key] ??= {}
    at = at[key] as Record<string, unknown>
  }
  const last = keys.at(-1) ?? ''
  if (value === undefined) delete at[last]
  else at[last] = value
  return copy
}

function faultsOf(json: unknown) {
  const answered = answerSpec(json)
  return answered.ok ? [] : answered.faults
}

describe('a bad question', () => {
  it.each([
    ['bends.0.angleDeg', 0, 'bends[0].angleDeg'],
    ['bends.0.angleDeg', 180, 'bends[0].angleDeg'],
    ['bends.0.angleDeg', '32', 'bends[0].angleDeg'],
    ['bends.0.angleDeg', null, 'bends[0].angleDeg'],
    ['bends.0.angleDeg', undefined, 'bends[0].angleDeg'],
    ['bends.0.centrelineRadiusMm', 19.05, 'bends[0].centrelineRadiusMm'],
    ['bends.0.rotationDeg', 10, 'bends[0].rotationDeg'],
    ['bends.0.straightBeforeMm', -0.1, 'bends[0].straightBeforeMm'],
    ['bends.0.colour', 'red', 'bends[0].colour'],
    ['bends', [], 'bends'],
    ['bends', Array.from({ length: 101 }, () => rail.bends[0]), 'bends'],
    ['straightAfterMm', -1, 'straightAfterMm'],
    ['straightAfterMm', 10_000_001, 'straightAfterMm'],
    ['tube.heightMm', 40, 'tube.heightMm'],
    ['tube.wallMm', 19.05, 'tube.wallMm'],
    ['tube.wallMm', 0, 'tube.wallMm'],
    ['tube.cornerRadiusMm', 19.06, 'tube.cornerRadiusMm'],
    ['tube.cornerRadiusMm', -1, 'tube.cornerRadiusMm'],
    ['tube.shape', 'oval', 'tube.shape'],
    ['material', { id: 'unobtainium' }, 'material.id'],
    ['material.yieldMPa', 500, 'material.tensileMPa'],
    ['material.tensileMPa', 10, 'material.tensileMPa'],
    ['method.support', 'ice', 'method.support'],
    ['method.fillerId', 'bi-0', 'method.fillerId'],
    ['press.capacityKn', 0, 'press.capacityKn'],
    ['press.supportSpanMm', 150, 'press.supportSpanMm'],
    ['die', { surfaceRadiusMm: 0 }, 'die.surfaceRadiusMm'],
    ['springbackFactor', -1, 'springbackFactor'],
    ['units', 'mm', 'units'],
  ])('%s of %j is told at %s', (field, value, told) => {
    const faults = faultsOf(withField(field, value))
    expect(faults.map((fault) => fault.path)).toContain(told)
    for (const fault of faults) {
      expect(fault.met).not.toBe('')
      expect(fault.allowed).not.toBe('')
    }
  })

  it('is told every fault at once', () => {
    const bad = {
      ...rail,
      straightAfterMm: -1,
      springbackFactor: 0,
      bends: [{ ...rail.bends[0], angleDeg: 200 }],
    }
    expect(faultsOf(bad).map(({ path: at }) => at)).toEqual([
      'bends[0].angleDeg',
      'straightAfterMm',
      'springbackFactor',
    ])
  })

  it('names what a material without an id still lacks', () => {
    const faults = faultsOf({ ...rail, material: { family: 'steel', yieldMPa: 300, tensileMPa: 400 } })
    expect(faults.map(({ path: at }) => at)).toEqual([
      'material.elasticModulusMPa',
      'material.elongationPct',
      'material.poisson',
      'material.densityKgM3',
    ])
  })

  it('is shown a number too large to hold as it was met', () => {
    const read: unknown = JSON.parse('{"straightAfterMm": 1e999}')
    expect(faultsOf({ ...rail, ...(read as object) })[0]).toMatchObject({
      path: 'straightAfterMm',
      met: 'Infinity',
    })
  })

  it('that is no object is told so', () => {
    for (const json of [null, 7, 'x', [], undefined]) expect(parseSpec(json).ok).toBe(false)
  })

  it('takes no numbers in quotes, no NaN and no infinity', () => {
    for (const value of ['400', Number.NaN, Number.POSITIVE_INFINITY])
      expect(faultsOf({ ...rail, straightAfterMm: value })[0]?.path).toBe('straightAfterMm')
  })
})

describe('what the model has no solution for is bad input too', () => {
  const bend = (angleDeg: number, centrelineRadiusMm = 260) => [
    { straightBeforeMm: 400, angleDeg, centrelineRadiusMm, rotationDeg: 0 },
  ]
  it('180 degrees or more under load, at the angle', () => {
    const faults = faultsOf({ ...rail, bends: bend(178), press: { ...rail.press, supportSpanMm: 900 } })
    expect(faults.map(({ path: at }) => at)).toEqual(['bends[0].angleDeg'])
  })
  it('arms that alone keep the wanted angle, at the angle', () => {
    const faults = faultsOf({ ...rail, bends: bend(1, 200), press: { ...rail.press, supportSpanMm: 3000 } })
    expect(faults.map(({ path: at }) => at)).toEqual(['bends[0].angleDeg'])
  })
  it('a die so large that the tube springs straight, at the die', () => {
    // A springback factor above 1 takes more curvature off than so slight a bend has.
    const faults = faultsOf({ ...rail, die: { surfaceRadiusMm: 90_000 }, springbackFactor: 1.3 })
    expect(faults.map(({ path: at }) => at)).toEqual(['die.surfaceRadiusMm'])
  })
  it('supports far too close, at the span, whatever the strap would do there', () => {
    const method = { support: 'sand', strap: { thicknessMm: 5, widthMm: 38, yieldMPa: 600 } }
    const faults = faultsOf({ ...rail, method, press: { ...rail.press, supportSpanMm: 1 } })
    expect(faults.map(({ path: at }) => at)).toEqual(['press.supportSpanMm'])
  })
  it('a strap that pulls more than the tube can carry, at the strap', () => {
    const strap = { thicknessMm: 12, widthMm: 38, yieldMPa: 1200, frictionCoeff: 0.9 }
    const faults = faultsOf({
      ...rail,
      method: { support: 'hollow', strap },
      press: { ...rail.press, supportSpanMm: 215 },
    })
    expect(faults.map(({ path: at }) => at)).toEqual(['method.strap'])
  })
})

describe('a good question', () => {
  it('is answered', () => {
    const answered = answerSpec(rail)
    expect(answered.ok).toBe(true)
  })
  it('takes an alloy by its id in either case', () => {
    expect(answerSpec({ ...rail, material: { id: '6061-t4' } }).ok).toBe(true)
  })
  it('takes values that win over the table', () => {
    const answered = answerSpec({ ...rail, material: { id: '6061-T4', densityKgM3: 3000 } })
    const plain = answerSpec(rail)
    if (!answered.ok || !plain.ok) throw new Error('refused')
    expect(answered.answer.section.massKgPerM / plain.answer.section.massKgPerM).toBeCloseTo(3000 / 2700, 6)
  })
  it('has its defaults named', () => {
    const answered = answerSpec(rail)
    if (!answered.ok) throw new Error('refused')
    expect(answered.answer.defaultsUsed.join()).toMatch(/cornerRadiusMm 0.*supportFrictionCoeff 0.15/)
  })
})

describe('the published JSON Schema', () => {
  const file = path.resolve(import.meta.dirname, '../../../public/bend-spec.schema.json')
  it('is the one the program checks by', () => {
    expect(JSON.parse(fs.readFileSync(file, 'utf8'))).toEqual(specJsonSchema())
  })
  it('lets the good question pass and stops an unknown field and a number in quotes', () => {
    const validate = new Ajv2020({ strict: false }).compile(JSON.parse(fs.readFileSync(file, 'utf8')))
    expect(validate(rail)).toBe(true)
    expect(validate({ ...rail, units: 'mm' })).toBe(false)
    expect(validate({ ...rail, straightAfterMm: '400' })).toBe(false)
  })
})

describe('what to expect of a bend', () => {
  it('is in the answer: angle, force and width, and what two trial pieces leave of the angle', () => {
    const answered = answerSpec(rail)
    const [bend] = answered.ok ? answered.answer.bends : []
    if (!bend) throw new Error('the rail has a bend')
    const { angleAtPressDeg, finalAngleDeg, pressForceKn, widthOutsideMm, trialPieces } = bend.expect
    for (const [spread, plain] of [
      [angleAtPressDeg, bend.angleAtPressDeg],
      [finalAngleDeg, bend.finalAngleDeg],
      [pressForceKn, bend.pressForceKn],
      [widthOutsideMm, bend.widthOutsideMm],
    ] as const) {
      expect(spread?.expected).toBe(plain)
      expect(spread?.low).toBeLessThan(plain ?? 0)
      expect(spread?.high).toBeGreaterThan(plain ?? 0)
    }
    // 0.1 degrees a piece, two pieces: the set-up is then known to 1 / sqrt(1 / sd^2 + 2 / 0.01), the next piece 0.1 beside it.
    const setUp = 1 / Math.sqrt(1 / finalAngleDeg.sd ** 2 + 2 / 0.1 ** 2)
    expect(trialPieces).toEqual({ pieceCount: 2, nextPiecePlusMinusDeg: 2 * Math.hypot(setUp, 0.1) })
  })
})
