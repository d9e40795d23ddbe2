import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { readLength } from '@/lib/core/typed/length'
import { lengthText } from '@/lib/records/fields'
import {
  lengthForField,
  nextRevisionLetter,
  revisionDifferences,
  type SetupFacts,
  specInputOf,
  typedPart,
} from '@/lib/records/part/rules'
import { newPartForm } from '@/lib/records/part/schema'
import { specInput } from '@/lib/records/spec/schema'
import { inches, millimetres, parsedArm } from './typed-part'

describe('revision letters', () => {
  // ASME Y14.35: I, O, Q, S, X and Z are not used; after Y comes AA.
  it('leave out the letters that read as figures or marks', () => {
    const letters = ['A']
    for (let count = 0; count < 20; count++) letters.push(nextRevisionLetter(letters.at(-1) ?? ''))
    expect(letters.join(' ')).toBe('A B C D E F G H J K L M N P R T U V W Y AA')
  })

  it('go on after AY with BA and after YY with AAA', () => {
    expect(nextRevisionLetter('AY')).toBe('BA')
    expect(nextRevisionLetter('YY')).toBe('AAA')
  })

  it('are refused when they are none', () => {
    expect(() => nextRevisionLetter('')).toThrow(RangeError)
    expect(() => nextRevisionLetter('B1')).toThrow(RangeError)
  })
})

describe('a stored length in a field', () => {
  it('stands as the fraction a fabricator would write', () => {
    expect(lengthForField(38.1, 'in')).toBe('1-1/2')
    expect(lengthForField(3.175, 'in')).toBe('1/8')
    expect(lengthForField(3.048, 'in')).toBe('0.12')
    expect(lengthForField(0, 'in')).toBe('0')
  })

  it('says its unit where it is no plain number of the shop’s', () => {
    expect(lengthForField(40, 'in')).toBe('40 mm')
    expect(lengthForField(40, 'mm')).toBe('40')
    expect(lengthForField(38.1, 'mm')).toBe('38.1')
  })

  it('reads back as the same length in either unit', () => {
    const lengthMm = fc.integer({ min: 1, max: 10_000_000_000 }).map((nanometres) => nanometres / 1e6)
    fc.assert(
      fc.property(lengthMm, fc.constantFrom('in' as const, 'mm' as const), (mm, unit) => {
        const read = readLength(lengthForField(mm, unit), { defaultUnit: unit })
        expect(read.ok && read.lengthMm).toBeCloseTo(mm, 5)
        const field = lengthText({ lengthUnit: unit, currency: 'USD' }, { min: 0, max: 1e6 })
        expect(Math.abs(field.parse(lengthForField(mm, unit)) - mm)).toBeLessThanOrEqual(1.5e-6)
      }),
    )
  })
})

describe('a revision in the form', () => {
  it.each([inches, millimetres])('is read back as it was kept, in $lengthUnit', (units) => {
    const kept = parsedArm(7)
    const again = newPartForm(units).parse(typedPart(kept, kept, units))
    expect(revisionDifferences(kept, again, 'mm')).toEqual([])
    expect(again).toMatchObject({ customerId: 7, name: kept.name })
  })
})

describe('differences between revisions', () => {
  it('name what changed, before and after, in the shop’s unit', () => {
    const before = parsedArm(1)
    const after = { ...before, wallMm: 3.175, couldHurt: true }
    const text = (from: string) => expect.stringMatching(new RegExp(`^${from}\\s?in$`, 'u'))
    expect(revisionDifferences(before, after, 'in')).toEqual([
      { what: 'Wall', before: text('0\\.12'), after: text('0\\.125') },
      { what: 'Failure could hurt somebody', before: 'no', after: 'yes' },
    ])
  })

  it('name each number of a bend that came or went', () => {
    const before = parsedArm(1)
    const after = { ...before, bends: before.bends.slice(0, 1) }
    expect(revisionDifferences(before, after, 'mm').map(({ what }) => what)).toEqual([
      'Bends',
      'Bend 2, straight before',
      'Bend 2, angle',
      'Bend 2, radius',
      'Bend 2, rotation',
    ])
    expect(revisionDifferences(before, before, 'mm')).toEqual([])
  })
})

describe('the question for the bend spec', () => {
  const shop = { pressUseFraction: 0.8, trimMm: 3, kerfMm: 2 }
  const press = { capacityKn: 178, strokeMm: null, supportNoseRadiusMm: 19, supportFrictionCoeff: null }
  const bare: SetupFacts = {
    support: 'hollow',
    supportSpanMm: 480,
    press,
    die: null,
    strap: null,
    filler: null,
  }

  it('is one the bend spec accepts, and leaves out what the set-up leaves open', () => {
    const input = specInputOf(parsedArm(1), bare, shop)
    expect(specInput.safeParse(input).success).toBe(true)
    expect(input.method).toEqual({ support: 'hollow' })
    expect(input.press).toEqual({
      capacityKn: 178,
      supportSpanMm: 480,
      supportNoseRadiusMm: 19,
      useFraction: 0.8,
    })
    expect(input).not.toHaveProperty('die')
    expect(input).not.toHaveProperty('springbackFactor')
    expect(input).toMatchObject({ trimMm: 3, kerfMm: 2, sectionToleranceFraction: 0.015, weldedAfter: true })
  })

  it('takes die, strap and the pot’s own measured values', () => {
    const input = specInputOf(
      parsedArm(1),
      {
        ...bare,
        support: 'lowMelt',
        die: { surfaceRadiusMm: 380 },
        strap: { thicknessMm: 3.2, widthMm: 38, yieldMPa: 350, frictionCoeff: 0.12 },
        filler: { fillerId: 'bi-158', yieldMPa: 24, modulusMPa: null, densityKgM3: 9410 },
      },
      shop,
    )
    expect(specInput.safeParse(input).success).toBe(true)
    expect(input.die).toEqual({ surfaceRadiusMm: 380 })
    expect(input.method).toEqual({
      support: 'lowMelt',
      strap: { thicknessMm: 3.2, widthMm: 38, yieldMPa: 350, frictionCoeff: 0.12 },
      fillerId: 'bi-158',
      fillerYieldMPa: 24,
      fillerDensityKgM3: 9410,
    })
  })

  it('lets the lot’s certificate and finished bends stand in for the tables', () => {
    const input = specInputOf(parsedArm(1), bare, shop, {
      certificate: { yieldMPa: 288, tensileMPa: 321, elongationPct: null },
      springbackFactor: 1.07,
    })
    expect(input.material).toEqual({ id: '6061-T6', yieldMPa: 288, tensileMPa: 321 })
    expect(input.springbackFactor).toBe(1.07)
  })

  it('leaves a filler out of a hollow tube', () => {
    const input = specInputOf(
      parsedArm(1),
      { ...bare, filler: { fillerId: 'bi-158', yieldMPa: null, modulusMPa: null } },
      shop,
    )
    expect(input.method).toEqual({ support: 'hollow' })
  })
})
