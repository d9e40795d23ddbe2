import fs from 'node:fs'
import Ajv2020 from 'ajv/dist/2020.js'
import { describe, expect, it } from 'vitest'
import { answerSpec, parseSpec, specJsonSchema } from '@/lib/records/spec/schema'

const question = {
  tube: { shape: 'square', widthMm: 38.1, heightMm: 38.1, wallMm: 3.175 },
  material: { id: '6061-T6' },
  bends: [{ straightBeforeMm: 300, angleDeg: 32, centrelineRadiusMm: 305, rotationDeg: 0 }],
  straightAfterMm: 250,
  method: { support: 'lowMelt' },
  press: { capacityKn: 178, supportSpanMm: 400, supportNoseRadiusMm: 25 },
}

describe('the question of a bend spec', () => {
  it('has its JSON Schema in the repo as the program has it', () => {
    const kept: unknown = JSON.parse(fs.readFileSync('public/bend-spec.schema.json', 'utf8'))
    expect(kept).toEqual(JSON.parse(JSON.stringify(specJsonSchema())))
  })

  it('is taken and refused by an independent JSON Schema checker as by the program', () => {
    // Ajv, draft 2020-12.
    const takes = new Ajv2020({ strict: false }).compile(specJsonSchema())
    expect(takes(question)).toBe(true)
    expect(takes({ ...question, straightAfterMm: '250' })).toBe(false)
    expect(takes({ ...question, colour: 'blue' })).toBe(false)
  })

  it('names each fault’s field, what was met and what is allowed', () => {
    const parsed = parseSpec({ ...question, straightAfterMm: -1, colour: 'blue' })
    expect(parsed.ok ? [] : parsed.faults).toEqual([
      { path: 'straightAfterMm', met: '-1', allowed: '0 or more' },
      { path: 'colour', met: 'an unknown field', allowed: 'no such field' },
    ])
  })

  it('is answered with every default it used named', () => {
    const answered = answerSpec(question)
    expect(answered.ok ? answered.answer.defaultsUsed : []).toContain('springbackFactor 1')
  })
})
