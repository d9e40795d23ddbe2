import fs from 'node:fs'
import path from 'node:path'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { z } from 'zod'
import { cleanText, pieces } from '@/app/_paper/clean-text'
import { readQuestionText } from '@/app/api/spec/question-text'
import { csvText } from '@/lib/core/csv'
import { dxfText } from '@/lib/core/templates/dxf'
import { templateSvg } from '@/lib/core/templates/svg'
import { readAngle } from '@/lib/core/typed/angle'
import { readDuration } from '@/lib/core/typed/duration'
import { readForce } from '@/lib/core/typed/force'
import { readLength } from '@/lib/core/typed/length'
import { readMoney } from '@/lib/core/typed/money'
import { readNumber } from '@/lib/core/typed/number'
import { readMass, readPercent, readStress, readTemperature } from '@/lib/core/typed/quantity'
import { staleDifferences } from '@/lib/records/audit/rules'
import { cleanFileName, dispositionHeader, sniffedKind } from '@/lib/records/file/rules'
import { ownSitePath } from '@/lib/records/session/rules'
import { parseSpec } from '@/lib/records/spec/schema'
import { fuzzRuns, fuzzSeed, hostileForm, hostileJson, hostileText } from '@/tests/support/hostile'

const units = { lengthUnit: 'in', currency: 'USD' } as const
const recordsFolder = path.resolve(import.meta.dirname, '../../lib/records')

type Named = readonly [name: string, schema: z.ZodType]

/** Every schema that any lib/records/<noun>/schema.ts gives out, found by looking. */
async function allSchemas(): Promise<Named[]> {
  const found: Named[] = []
  for (const noun of fs.readdirSync(recordsFolder)) {
    const file = path.join(recordsFolder, noun, 'schema.ts')
    if (!fs.existsSync(file)) continue
    const exported = (await import(/* @vite-ignore */ file)) as Record<string, unknown>
    for (const [name, value] of Object.entries(exported)) {
      let made: unknown = value
      // A field made with a range of its own is tried within the forms that use it.
      if (typeof value === 'function' && !name.endsWith('Text')) {
        try {
          made = (value as (given: typeof units) => unknown)(units)
        } catch {
          continue
        }
      }
      if (made instanceof z.ZodType) found.push([`${noun} ${name}`, made])
    }
  }
  return found
}

const schemas = await allSchemas()

const read: Readonly<Record<string, (text: string) => { ok: boolean }>> = {
  length: (text) => readLength(text, { defaultUnit: 'in', gauge: true }),
  angle: readAngle,
  duration: (text) => readDuration(text, { defaultUnit: 'min' }),
  force: (text) => readForce(text, { defaultUnit: 'kN' }),
  money: (text) => readMoney(text, units),
  number: readNumber,
  mass: (text) => readMass(text, { defaultUnit: 'lb' }),
  stress: (text) => readStress(text, { defaultUnit: 'ksi' }),
  temperature: (text) => readTemperature(text, { defaultUnit: 'F' }),
  percent: readPercent,
}

const parserCount = Object.keys(read).length + schemas.length + 8
const numRuns = Math.ceil(fuzzRuns(6000) / parserCount)
const check = <Value>(arbitrary: fc.Arbitrary<Value>, holds: (value: Value) => void): void =>
  fc.assert(fc.property(arbitrary, holds), { numRuns, seed: fuzzSeed })

function namesOf(schema: z.ZodType): string[] {
  return schema instanceof z.ZodObject ? Object.keys(schema.shape) : []
}

function expectFinite(value: unknown): void {
  if (typeof value === 'number') expect(Number.isFinite(value)).toBe(true)
  else if (typeof value === 'object' && value !== null) Object.values(value).forEach(expectFinite)
}

/** Plain RFC 4180, written from the standard: the cells of a text, to see what a spreadsheet would be given. */
function cellsOf(text: string): string[] {
  return [...text.matchAll(/(?:"((?:[^"]|"")*)"|([^",\r\n]*))(?:,|\r\n)/g)].map(([, quoted, bare]) =>
    quoted === undefined ? (bare ?? '') : quoted.replaceAll('""', '"'),
  )
}

describe('what people type', () => {
  it.each(Object.entries(read))('%s is read as finite numbers or refused in words', (_name, reader) => {
    check(hostileText, (text) => {
      const answer = reader(text) as { ok: boolean; message?: string }
      if (answer.ok) expectFinite(answer)
      else expect(answer.message).toMatch(/\S/)
    })
  })
})

describe('every form', () => {
  it('is found', () => expect(schemas.length).toBeGreaterThan(60))

  it.each(schemas)(
    '%s takes or refuses whatever comes, and lets no number through that is none',
    (_name, schema) => {
      const names = namesOf(schema)
      check(names.length > 0 ? fc.oneof(hostileForm(names), hostileJson) : hostileJson, (typed) => {
        const parsed = schema.safeParse(typed)
        if (parsed.success) expectFinite(parsed.data)
        else expect(parsed.error.issues.length).toBeGreaterThan(0)
      })
    },
  )
})

describe('files, addresses and papers', () => {
  it('a question for a bend spec is answered with its faults', () => {
    check(hostileJson, (json) => {
      parseSpec(json)
    })
    check(fc.uint8Array({ maxLength: 300 }), (bytes) => {
      readQuestionText(bytes)
    })
  })

  it('a file is known by its bytes or not kept, and its name is no path and ends no header', () => {
    check(fc.uint8Array({ maxLength: 1200 }), (bytes) => {
      sniffedKind(bytes)
    })
    check(hostileText, (name) => {
      expect(cleanFileName(name)).not.toMatch(/[/\\\u0000-\u001f]|^\.*$/)
      expect(dispositionHeader(name, true)).toMatch(/^[\x20-\x7e]+$/)
    })
  })

  it('signing in leads nowhere but to this site', () => {
    check(hostileText, (text) => {
      for (const typed of [text, `/${text}`, `//${text}`, `/\\${text}`]) {
        expect(new URL(ownSitePath(typed), 'https://shop.test').origin).toBe('https://shop.test')
      }
    })
  })

  it('no text becomes a formula in a spreadsheet, and every cell comes back', () => {
    check(fc.array(hostileText, { minLength: 1, maxLength: 4 }), (row) => {
      const cells = cellsOf(csvText([row]))
      expect(cells).toHaveLength(row.length)
      for (const [index, cell] of cells.entries()) {
        expect(cell).not.toMatch(/^[=+\-@\t\r\n＝＋－＠]/)
        expect([row[index], `'${row[index]}`]).toContain(cell)
      }
    })
  })

  it('text on papers, in DXF and in SVG stays text', () => {
    check(hostileText, (text) => {
      expect(cleanText(text)).not.toMatch(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\u202e]/)
      expect(pieces(text).join('')).toBe(text)
      expect(dxfText(text)).not.toMatch(/[\r\n\u0000-\u001f]/)
      const at = [0, 0] as const
      const words = {
        kind: 'text',
        layer: 'TEXT',
        at,
        text,
        heightMm: 3,
        rotationDeg: 0,
        anchor: 'start',
      } as const
      const svg = templateSvg({ title: text, notes: [text], primitives: [words] })
      expect(svg).not.toContain('<script')
    })
  })

  it('what others saved is told from any history', () => {
    check(fc.array(fc.record({ before: hostileJson, after: hostileJson }), { maxLength: 3 }), (saves) => {
      staleDifferences(saves, saves[0]?.after)
    })
  })
})
