import { describe, expect, it } from 'vitest'
import { shopFormat } from '@/lib/core/shop-format'

const plain = (text: string) => text.replaceAll('\u202f', ' ')

describe('quantities as a shop reads them', () => {
  // Source: NIST SP 811 (2008), App. B.8: ton-force (2000 lbf) 8.896443 kN, ksi 6.894757 MPa, pound 0.45359237 kg,
  // pound per foot 1.488164 kg/m, inch 25.4 mm, °C = (°F - 32)/1.8.
  it('beside inches: pounds, tons of 2000 lbf, ksi, °F', () => {
    const shop = shopFormat('in')
    expect(plain(shop.length(38.1))).toBe('1.5 in')
    expect(plain(shop.mass(0.45359237))).toBe('1 lb')
    expect(plain(shop.force(20 * 8.896443))).toBe('20 US ton')
    expect(plain(shop.force(40.9))).toBe('4.6 US ton')
    expect(plain(shop.stress(40 * 6.894757))).toBe('40 ksi')
    expect(plain(shop.temperature(70))).toBe('158 °F')
    expect(plain(shop.massPerLength(1.488164))).toBe('1 lb/ft')
  })

  it('beside millimetres: kilograms, kilonewtons, MPa, °C', () => {
    const shop = shopFormat('mm')
    expect(plain(shop.length(38.1))).toBe('38.1 mm')
    expect(plain(shop.mass(13.04))).toBe('13.04 kg')
    expect(plain(shop.force(40.91))).toBe('40.9 kN')
    expect(plain(shop.stress(241.3))).toBe('241 MPa')
    expect(plain(shop.temperature(70))).toBe('70 °C')
    expect(plain(shop.massPerLength(1.204))).toBe('1.2 kg/m')
  })
})
