import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { cleanText, pieces } from '@/app/_paper/clean-text'

describe('text for paper', () => {
  it('turns line breaks and control characters into one space', () => {
    expect(cleanText('one\r\n\u0000\u001b two')).toBe('one two')
  })

  it('drops marks that turn the reading direction', () => {
    expect(cleanText('a\u202Eb\u2066c\u200Bd')).toBe('abcd')
  })

  it('shows one mark for each run of letters the fonts have not', () => {
    expect(cleanText('hull 船舶 🧨 done')).toBe('hull \ufffd done')
  })

  it('keeps accented Latin, Greek and Cyrillic, and says signs in plain letters', () => {
    expect(cleanText('Łódź Ωμ Иван ≤ 5 → ⌀38')).toBe('Łódź Ωμ Иван <= 5 -> Ø38')
  })

  it('never lets a control, format or unpaired character through', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (words) => !/[\p{Cc}\p{Cf}\p{Cs}]/u.test(cleanText(words))),
    )
  })

  it('leaves words whole up to 18 letters and cuts longer ones without losing any', () => {
    expect(pieces('counterclockwise')).toEqual(['counterclockwise'])
    expect(pieces('W'.repeat(40)).join('')).toBe('W'.repeat(40))
  })
})
