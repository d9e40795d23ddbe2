import { describe, expect, it } from 'vitest'
import { fieldName, fieldText } from '@/lib/core/field-words'

const inch = { lengthUnit: 'in', currency: 'USD' } as const
const metric = { lengthUnit: 'mm', currency: 'USD' } as const

describe('a value as the shop reads it', () => {
  it.each([null, undefined, ''])('is a dash where there is none: %s', (none) => {
    expect(fieldText('noteText', none, inch)).toBe('–')
    expect(fieldText('widthMm', none, inch)).toBe('–')
  })

  it('is no dash where it is nought or no', () => {
    expect(fieldText('holeCount', 0, inch)).toBe('0')
    expect(fieldText('weldedAfter', false, inch)).toBe('no')
    expect(fieldText('weldedAfter', true, inch)).toBe('yes')
  })

  it('comes in the shop’s unit by the unit in its name', () => {
    // 25.4 mm is an inch; 6.894757 MPa a ksi (NIST SP 811).
    expect(fieldText('widthMm', 38.1, inch)).toMatch(/^1\.5\s*in$/)
    expect(fieldText('widthMm', 38.1, metric)).toMatch(/^38\.1\s*mm$/)
    expect(fieldText('yieldMPa', 275.79, inch)).toMatch(/^40\s*ksi$/)
    expect(fieldText('yieldMPa', 276, metric)).toMatch(/^276\s*MPa$/)
    expect(fieldText('angleDeg', 32, inch)).toMatch(/^32(\.0)?\s*°$/)
    expect(fieldText('priceCents', 123_456, inch)).toBe('$1,234.56')
    expect(fieldText('latentHeatKJPerKg', 20, inch)).toBe('20 kJ/kg')
    // 70 °C is 158 °F.
    expect(fieldText('solidusC', 70, inch)).toMatch(/^158\s°F$/)
    expect(fieldText('liquidusC', 70, metric)).toMatch(/^70\s°C$/)
    expect(fieldName(['latentHeatKJPerKg'])).toBe('latent heat')
    expect(fieldText('marginPpm', 300_000, inch)).toMatch(/^30\s*%$/)
    expect(fieldText('sectionToleranceFraction', 0.05, inch)).toMatch(/^5\s*%$/)
  })

  it('is a day where its name says so, a choice in words, and else as it was typed', () => {
    expect(fieldText('dueOn', '2026-12-04', inch)).toBe('Dec 4, 2026')
    expect(fieldText('noteText', '2026-12-04', inch)).toBe('2026-12-04')
    expect(fieldText('support', 'lowMelt', inch)).toBe('low melt')
    expect(fieldText('noteText', 'Watch the weld', inch)).toBe('Watch the weld')
  })
})
