import { describe, expect, it } from 'vitest'
import { angleCapability } from '@/lib/core/inspection/angle-capability'

describe('The capability of a run of bends', () => {
  it('is not said of fewer than five', () => {
    expect(angleCapability([0.1, -0.1, 0.2], 1)).toEqual({ said: 'too-few', count: 3, lacking: 2 })
  })

  it('is not said where the gauge tells nothing apart', () => {
    expect(angleCapability([0.2, 0.2, 0.2, 0.2, 0.2], 1).said).toBe('no-spread')
  })

  // By hand: errors -2 -1 0 1 2 in tenths have mean 0 and s = sqrt(10/4) tenths = 0.158114; Cp = 1 / (3 s) = 2.108185 = Cpk.
  // Bissell one-sided 95 percent: 2.108185 - 1.644854 sqrt(1/45 + 2.108185^2 / 8) = 2.108185 - 1.644854 * 0.760117 = 0.857903.
  it('is only bounded from five on', () => {
    const said = angleCapability([0.1, -0.2, 0, 0.2, -0.1], 1)
    expect(said.said).toBe('bound')
    if (said.said !== 'bound') return
    expect(said.index.cp).toBeCloseTo(2.108185, 5)
    expect(said.index.cpk).toBeCloseTo(2.108185, 5)
    expect(said.cpkAtLeast).toBeCloseTo(0.857903, 4)
  })

  // NIST/SEMATECH e-Handbook 6.1.6: limits 8 and 20, mean 16, s 2 give Cp 1.0 and Cpk 0.6667; here shifted by 14 to limits of +-6.
  it('agrees with the handbook example, of twenty readings with that mean and spread', () => {
    const step = 2 / Math.sqrt(20 / 19)
    const readings = Array.from({ length: 20 }, (_, index) => 2 + (index % 2 === 0 ? step : -step))
    const said = angleCapability(readings, 6)
    expect(said.said).toBe('full')
    if (said.said !== 'full') return
    expect(said.index.cp).toBeCloseTo(1, 9)
    expect(said.index.cpk).toBeCloseTo(0.6667, 4)
  })
})
