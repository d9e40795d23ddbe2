import { describe, expect, it } from 'vitest'
import { readSentence, said } from '@/lib/core/sentence'

describe('a sentence of the core, read in a shop’s units', () => {
  // Source: NIST SP 811 (2008), App. B.8: inch 25.4 mm, foot 0.3048 m, ton-force (2000 lbf) 8.896443 kN,
  // ksi 6.894757 MPa, pound 0.45359237 kg.
  it('says inches, pounds, US tons and ksi where the tape is in inches', () => {
    expect(readSentence(`needs ${said.kN(40.91)} of the ${said.kN(142.34)} the press may give`, 'in')).toBe(
      'needs 4.6 US ton of the 16 US ton the press may give',
    )
    expect(readSentence(`${said.kg(13.04)} of low-melt alloy a piece`, 'in')).toBe(
      '28.75 lb of low-melt alloy a piece',
    )
    expect(readSentence(`yield beside the welds is ${said.mpa(115)} of ${said.mpa(241)}`, 'in')).toBe(
      'yield beside the welds is 16.7 ksi of 35 ksi',
    )
    expect(readSentence('3.05 m of edge, 438.7 mm² of wall', 'in')).toBe('10.01 ft of edge, 0.68 in² of wall')
  })

  // 100.06 mm is 3.9394 in; rounded to 100.1 mm first it would read 3.941 in.
  it('rounds a length once', () => {
    expect(readSentence(`${said.mm(100.06)} free`, 'in')).toBe('3.939 in free')
    expect(readSentence(`${said.mm(100.06)} free`, 'mm')).toBe('100.1 mm free')
  })

  it('reads two lengths in one, by a cross or by a word', () => {
    expect(readSentence('strap, 3.175 × 38.1 mm', 'in')).toBe('strap, 0.125 × 1.5 in')
    expect(readSentence('a strap of 3.2 by 38.1 mm, 350 MPa', 'in')).toBe(
      'a strap of 0.126 by 1.5 in, 50.8 ksi',
    )
  })

  it('keeps a round number of millimetres round, and fine ones fine', () => {
    expect(readSentence('Keep welds at least 25 mm from the bend.', 'in')).toBe(
      'Keep welds at least 0.98 in from the bend.',
    )
    expect(readSentence(`${said.mm(0.184)} sag a face`, 'mm')).toBe('0.18 mm sag a face')
    expect(readSentence(`the wall presses ${said.mpa(3.6712)} on the filler`, 'mm')).toBe(
      'the wall presses 3.67 MPa on the filler',
    )
  })

  // Source: NIST SP 811 (2008), App. B.8: t/°C = (t/°F - 32) / 1.8; a difference of 28 °C is one of 50.4 °F.
  it('says degrees Fahrenheit where the tape is in inches: one, a range, and a rate that is a difference', () => {
    expect(readSentence('Burns: molten at 47.2 °C. Face shield.', 'in')).toBe(
      'Burns: molten at 117 °F. Face shield.',
    )
    expect(readSentence('Heat to 870 to 980 °C, cherry red.', 'in')).toBe(
      'Heat to 1598 to 1796 °F, cherry red.',
    )
    expect(readSentence('cool 28 °C an hour to 260 °C, then in air', 'in')).toBe(
      'cool 50 °F an hour to 500 °F, then in air',
    )
    expect(readSentence('Warm to 200 to 315 °C within 6 mm', 'mm')).toBe('Warm to 200 to 315 °C within 6 mm')
    expect(readSentence('pour at 70–90 °C, kept within 5 °C of it', 'in')).toBe(
      'pour at 158–194 °F, kept within 9 °F of it',
    )
    expect(readSentence('X-70 °C is a name, -40 °C is cold', 'in')).toBe('X-70 °C is a name, -40 °F is cold')
  })

  it('leaves alone what is no quantity it knows', () => {
    for (const text of [
      'bend 2: ISO 2768-m',
      '12 minutes',
      'M6 thread',
      '90° between 1 and 2 mounts',
      '5 mmm',
    ])
      expect(readSentence(text, 'in')).toBe(text)
  })

  it('takes the speed of a saw and of a weld with their lengths', () => {
    expect(readSentence('wall at 5800 mm²/min, weld at 254.0 mm/min', 'in')).toBe(
      'wall at 8.99 in²/min, weld at 10 in/min',
    )
  })
})
