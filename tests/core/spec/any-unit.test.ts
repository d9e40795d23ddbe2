import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { formatMass } from '@/lib/core/format'
import { bendSpec } from '@/lib/core/spec/bend-spec'
import type { SpecAnswer } from '@/lib/core/spec/contract'
import { allowedMinutes } from '@/lib/core/temper/reheat'
import { readAngle } from '@/lib/core/typed/angle'
import { readForce } from '@/lib/core/typed/force'
import { readLength } from '@/lib/core/typed/length'
import { readMass, readStress, readTemperature } from '@/lib/core/typed/quantity'
import { parseSpec } from '@/lib/records/spec/schema'

// Factors of NIST SP 811: 25.4 mm an inch and 4.4482216152605 N a pound-force are exact, and so is ksi in MPa by both.
const mmPerInch = 25.4
const kNPerLbf = 0.0044482216152605
const mPaPerKsi = (1000 * kNPerLbf * 1000) / mmPerInch ** 2
const kgPerLb = 0.45359237

type Read<Key extends string> = { ok: false; message: string } | ({ ok: true } & Record<Key, number>)
function taken<Key extends string>(read: Read<Key>, key: Key): number {
  if (!read.ok) throw new Error(read.message)
  return read[key]
}

/** What two people would type of one bend: thousandths of an inch, tenths of a ksi, hundreds of pounds. */
const typedBend = fc.record({
  widthThou: fc.integer({ min: 1250, max: 2500 }),
  wallThou: fc.integer({ min: 65, max: 188 }),
  radiusThou: fc.integer({ min: 7000, max: 14_000 }),
  straightThou: fc.integer({ min: 10_000, max: 30_000 }),
  yieldTenths: fc.integer({ min: 120, max: 500 }),
  angleTenths: fc.integer({ min: 150, max: 600 }),
  capacityHundreds: fc.integer({ min: 200, max: 800 }),
  support: fc.constantFrom('hollow' as const, 'sand' as const, 'lowMelt' as const),
  isStrapped: fc.boolean(),
})
type TypedBend = typeof typedBend extends fc.Arbitrary<infer T> ? T : never

const digits = (value: number): string => value.toFixed(9)
const inInches = {
  length: (thou: number) => taken(readLength(`${thou / 1000} in`, { defaultUnit: 'mm' }), 'lengthMm'),
  stress: (ksi: number) => taken(readStress(`${ksi} ksi`, { defaultUnit: 'MPa' }), 'stressMPa'),
  force: (lbf: number) => taken(readForce(`${lbf} lbf`, { defaultUnit: 'kN' }), 'forceKn'),
  angle: (tenths: number) =>
    taken(readAngle(`${Math.floor(tenths / 10)}° ${(tenths % 10) * 6}'`), 'angleDeg'),
}
const inMm: typeof inInches = {
  length: (thou) => taken(readLength(digits((thou * mmPerInch) / 1000), { defaultUnit: 'mm' }), 'lengthMm'),
  stress: (ksi) => taken(readStress(digits(ksi * mPaPerKsi), { defaultUnit: 'MPa' }), 'stressMPa'),
  force: (lbf) => taken(readForce(digits(lbf * kNPerLbf), { defaultUnit: 'kN' }), 'forceKn'),
  angle: (tenths) => taken(readAngle(String(tenths / 10)), 'angleDeg'),
}

function specTyped(asked: TypedBend, as: typeof inInches): SpecAnswer {
  const spanThou = Math.round(
    2 * (asked.radiusThou + asked.widthThou + 2000) * Math.sin((asked.angleTenths * Math.PI) / 3600) +
      3.5 * asked.widthThou +
      2000,
  )
  const strap = {
    thicknessMm: as.length(60),
    widthMm: as.length(1500),
    yieldMPa: as.stress(50),
  }
  const parsed = parseSpec({
    tube: {
      shape: 'square',
      widthMm: as.length(asked.widthThou),
      heightMm: as.length(asked.widthThou),
      wallMm: as.length(asked.wallThou),
    },
    material: {
      family: 'aluminium',
      elasticModulusMPa: as.stress(10_000),
      yieldMPa: as.stress(asked.yieldTenths / 10),
      tensileMPa: as.stress((asked.yieldTenths * 14) / 100),
      elongationPct: 15,
      poisson: 0.33,
      densityKgM3: 2700,
    },
    bends: [
      {
        straightBeforeMm: as.length(asked.straightThou),
        angleDeg: as.angle(asked.angleTenths),
        centrelineRadiusMm: as.length(asked.radiusThou),
        rotationDeg: 0,
      },
    ],
    straightAfterMm: as.length(asked.straightThou),
    method: { support: asked.support, ...(asked.isStrapped && { strap }) },
    press: {
      capacityKn: as.force(asked.capacityHundreds * 100),
      supportSpanMm: as.length(spanThou),
      supportNoseRadiusMm: as.length(750),
    },
  })
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.faults))
  return bendSpec(parsed.input)
}

/** Every number of an answer by its path; words stay out, they name numbers already rounded. */
function numbersOf(value: unknown, path = ''): [string, number][] {
  if (typeof value === 'number') return [[path, value]]
  if (typeof value !== 'object' || value === null) return []
  return Object.entries(value).flatMap(([key, inner]) => numbersOf(inner, `${path}.${key}`))
}

describe('the unit somebody types in', () => {
  it('changes no number of a bend: inches, ksi, pounds and minutes of arc, or mm, MPa, kN and decimals', () => {
    fc.assert(
      fc.property(typedBend, (asked) => {
        const [inch, metric] = [
          numbersOf(specTyped(asked, inInches)),
          new Map(numbersOf(specTyped(asked, inMm))),
        ]
        expect(inch.length).toBe(metric.size)
        expect(inch.length).toBeGreaterThan(40)
        for (const [path, value] of inch) {
          const other = metric.get(path) ?? Number.NaN
          // Typed to nine decimals; the solvers' own end is at about 1e-9.
          expect(Math.abs(value - other), `${path}: ${value} and ${other}`).toBeLessThan(
            1e-6 * Math.max(1, Math.abs(value)),
          )
        }
      }),
      { numRuns: 40 },
    )
  })

  it('changes no mass of filler that is weighed in and out: pounds read back are the kilograms shown', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 500, noNaN: true }), (massKg) => {
        const shown = formatMass(massKg, { unit: 'lb', decimals: 6 })
        expect(taken(readMass(shown, { defaultUnit: 'kg' }), 'massKg')).toBeCloseTo(massKg, 5)
        const [kg, lb] = [
          readMass(`${massKg.toFixed(8)} kg`, { defaultUnit: 'lb' }),
          readMass(`${(massKg / kgPerLb).toFixed(8)} lb`, { defaultUnit: 'kg' }),
        ]
        expect(taken(kg, 'massKg')).toBeCloseTo(taken(lb, 'massKg'), 6)
      }),
    )
  })

  it('changes nothing of how long a temper may stay hot: °F and °C use up the same budget', () => {
    fc.assert(
      fc.property(fc.integer({ min: 300, max: 440 }), (fahrenheit) => {
        const inF = taken(readTemperature(`${fahrenheit} F`, { defaultUnit: 'C' }), 'temperatureC')
        const inC = taken(
          readTemperature(`${(((fahrenheit - 32) * 5) / 9).toFixed(9)} °C`, { defaultUnit: 'F' }),
          'temperatureC',
        )
        expect(allowedMinutes(inF) / allowedMinutes(inC)).toBeCloseTo(1, 8)
      }),
    )
  })
})
