import { describe, expect, it } from 'vitest'
import { ledgerMassKg, notReturnedFraction } from '@/lib/records/tooling/rules'
import { forceText, massText, newPressForm, stressText } from '@/lib/records/tooling/schema'

const inches = { lengthUnit: 'in', currency: 'USD' } as const
const metric = { lengthUnit: 'mm', currency: 'EUR' } as const
const balance = { inPotKg: 20, pouredKg: 12, recoveredKg: 11.5, lostKg: 0.5 }

describe('A move in a pot’s ledger', () => {
  it('in is positive, out is negative, a count enters what is missing', () => {
    const enter = (kind: 'bought' | 'poured' | 'recovered' | 'lost' | 'counted', massKg: number) =>
      ledgerMassKg({ kind, massKg }, balance, 'mm')
    expect(enter('bought', 5)).toEqual({ ok: true, massKg: 5 })
    expect(enter('poured', 20)).toEqual({ ok: true, massKg: -20 })
    expect(enter('recovered', 0.5)).toEqual({ ok: true, massKg: 0.5 })
    expect(enter('lost', 0.2)).toEqual({ ok: true, massKg: -0.2 })
    expect(enter('counted', 19.6)).toMatchObject({ ok: true, massKg: expect.closeTo(-0.4, 9) })
    expect(enter('counted', 0)).toEqual({ ok: true, massKg: -20 })
  })

  it('can’t take more than the pot holds, nor bring back more than is out', () => {
    expect(ledgerMassKg({ kind: 'poured', massKg: 20.1 }, balance, 'mm')).toMatchObject({ ok: false })
    expect(ledgerMassKg({ kind: 'lost', massKg: 21 }, balance, 'mm')).toMatchObject({ ok: false })
    expect(ledgerMassKg({ kind: 'recovered', massKg: 0.6 }, balance, 'mm')).toMatchObject({ ok: false })
    expect(ledgerMassKg({ kind: 'poured', massKg: 0 }, balance, 'mm')).toMatchObject({ ok: false })
  })

  // By hand: 20 kg / 0.45359237 = 44.09 lb.
  it('refuses in the unit the shop writes', () => {
    expect(ledgerMassKg({ kind: 'poured', massKg: 30 }, balance, 'in')).toMatchObject({
      message: expect.stringMatching(/^The pot holds 44\.09\slb; you pour 66\.14\slb\./),
    })
  })

  // By hand: (12 - 11.5) / 12.
  it('what has not come back is a share of all that was poured', () => {
    expect(notReturnedFraction(balance)).toBeCloseTo(0.5 / 12, 12)
    expect(notReturnedFraction({ ...balance, pouredKg: 0, recoveredKg: 0 })).toBeNull()
  })
})

describe('What is typed of a tool', () => {
  // Source: NIST SP 811 (2008), App. B.8: ton-force (2000 lbf) 8.896443 kN; kilogram-force 9.80665 N.
  it('a named ton is that ton, and a bare one is asked about', () => {
    const field = forceText(inches, { min: 5, max: 20_000 })
    expect(field.parse('20 US ton')).toBeCloseTo(20 * 8.896443, 4)
    expect(field.parse('20 metric ton')).toBeCloseTo(196.133, 9)
    expect(field.safeParse('20 ton').error?.issues[0]?.message).toMatch(/^Which ton\?/)
  })

  it('a bare number is in the shop’s unit, so that 20 on an inch shop’s press is 20 pounds, and refused', () => {
    expect(forceText(inches, { min: 5, max: 20_000 }).safeParse('20').success).toBe(false)
    expect(forceText(metric, { min: 5, max: 20_000 }).parse('200')).toBe(200)
  })

  // Source: NIST SP 811 (2008), App. B.8: ksi 6.894757 MPa, pound 0.45359237 kg.
  it('strength and mass are in the shop’s unit unless another is typed', () => {
    expect(stressText(inches, { min: 0, max: 2500 }).parse('60')).toBeCloseTo(413.6854, 4)
    expect(stressText(inches, { min: 0, max: 2500 }).parse('276 MPa')).toBe(276)
    expect(massText(inches, { min: 0, max: 100 }).parse('10')).toBeCloseTo(4.5359237, 9)
    expect(massText(metric, { min: 0, max: 100 }).parse('10')).toBe(10)
  })

  it('a press whose longest span is shorter than its shortest is refused at the longest', () => {
    const typed = {
      shopNumber: 'P-1',
      name: 'H-frame',
      capacityKn: '200 kN',
      strokeMm: '',
      supportNoseRadiusMm: '25',
      supportFrictionCoeff: '',
      minimumSpanMm: '600',
      maximumSpanMm: '300',
      notesText: '',
    }
    const parsed = newPressForm(metric).safeParse(typed)
    expect(parsed.error?.issues.map(({ path }) => path.join('.'))).toEqual(['maximumSpanMm'])
    expect(newPressForm(metric).parse({ ...typed, maximumSpanMm: '900' })).toMatchObject({
      strokeMm: null,
      maximumSpanMm: 900,
    })
  })
})
