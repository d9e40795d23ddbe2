import { describe, expect, it } from 'vitest'
import { dispositionNotes, dispositions } from '@/lib/core/inspection/disposition'
import {
  iso2768AngleDeg,
  iso2768EdgeRadiusMm,
  iso2768LinearMm,
  iso13920AngleDeg,
  iso13920FormMm,
  iso13920LinearMm,
  type TableTolerance,
} from '@/lib/core/inspection/general-tolerances'
import { missProbability, samplePlan, sampleToCatch, successRunCount } from '@/lib/core/inspection/sampling'

const value = (found: TableTolerance): number | string => (found.found ? found.plusMinus : found.because)

describe('ISO 2768-1', () => {
  it('gives the linear classes range by range (table 1)', () => {
    const sizes = [2, 5, 20, 100, 300, 800, 1500, 3000]
    expect(sizes.map((size) => value(iso2768LinearMm(size, 'f')))).toEqual([
      0.05,
      0.05,
      0.1,
      0.15,
      0.2,
      0.3,
      0.5,
      'no-value-in-class',
    ])
    expect(sizes.map((size) => value(iso2768LinearMm(size, 'm')))).toEqual([
      0.1, 0.1, 0.2, 0.3, 0.5, 0.8, 1.2, 2,
    ])
    expect(sizes.map((size) => value(iso2768LinearMm(size, 'c')))).toEqual([0.2, 0.3, 0.5, 0.8, 1.2, 2, 3, 4])
    expect(sizes.map((size) => value(iso2768LinearMm(size, 'v')))).toEqual([
      'no-value-in-class',
      0.5,
      1,
      1.5,
      2.5,
      4,
      6,
      8,
    ])
  })

  it('puts a size at a range\u2019s end into that range', () => {
    // "over 6 up to and including 30": exactly 30 is .2 in class m, 30.1 is .3
    expect(value(iso2768LinearMm(30, 'm'))).toBe(0.2)
    expect(value(iso2768LinearMm(30.1, 'm'))).toBe(0.3)
    expect(value(iso2768LinearMm(0.4, 'm'))).toBe('below-table')
    expect(value(iso2768LinearMm(4000.1, 'm'))).toBe('above-table')
  })

  it('gives angles by the shorter side (table 3)', () => {
    const minutes = (side: number, one: 'f' | 'm' | 'c' | 'v'): number =>
      Math.round(60 * Number(value(iso2768AngleDeg(side, one))))
    expect([10, 50, 120, 400, 401].map((side) => minutes(side, 'm'))).toEqual([60, 30, 20, 10, 5])
    expect([10, 50, 120, 400, 401].map((side) => minutes(side, 'c'))).toEqual([90, 60, 30, 15, 10])
    expect([10, 50, 120, 400, 401].map((side) => minutes(side, 'v'))).toEqual([180, 120, 60, 30, 20])
    expect(minutes(100, 'f')).toBe(20)
    expect(value(iso2768AngleDeg(0, 'm'))).toBe('below-table')
  })

  it('gives edge radii (table 2, from memory)', () => {
    expect([2, 5, 9].map((size) => value(iso2768EdgeRadiusMm(size, 'm')))).toEqual([0.2, 0.5, 1])
    expect([2, 5, 9].map((size) => value(iso2768EdgeRadiusMm(size, 'v')))).toEqual([0.4, 1, 2])
    expect(value(iso2768EdgeRadiusMm(0.1, 'v'))).toBe('below-table')
  })
})

describe('ISO 13920', () => {
  it('gives the linear classes range by range (table 1)', () => {
    const sizes = [30, 120, 400, 1000, 2000, 4000, 8000, 12_000, 16_000, 20_000, 20_001]
    expect(sizes.map((size) => value(iso13920LinearMm(size, 'A')))).toEqual([1, 1, 1, 2, 3, 4, 5, 6, 7, 8, 9])
    expect(sizes.map((size) => value(iso13920LinearMm(size, 'B')))).toEqual([
      1, 2, 2, 3, 4, 6, 8, 10, 12, 14, 16,
    ])
    expect(sizes.map((size) => value(iso13920LinearMm(size, 'C')))).toEqual([
      1, 3, 4, 6, 8, 11, 14, 18, 21, 24, 27,
    ])
    expect(sizes.map((size) => value(iso13920LinearMm(size, 'D')))).toEqual([
      1, 4, 7, 9, 12, 16, 21, 27, 32, 36, 40,
    ])
    expect(value(iso13920LinearMm(1, 'A'))).toBe('below-table')
  })

  it('gives angles whose slopes are those printed beside them', () => {
    // table 2 prints mm a metre: A 6, B 13, C 18, D 26 for legs to 400 (C is 17.5 rounded up in print)
    const slope = (one: 'A' | 'B' | 'C' | 'D'): number =>
      1000 * Math.tan((Number(value(iso13920AngleDeg(400, one))) * Math.PI) / 180)
    expect([slope('A'), slope('B'), slope('D')].map(Math.round)).toEqual([6, 13, 26])
    expect(Math.ceil(slope('C'))).toBe(18)
    expect([401, 1001].map((leg) => Math.round(60 * Number(value(iso13920AngleDeg(leg, 'B')))))).toEqual([
      30, 20,
    ])
    for (const none of [-1, 0]) expect(value(iso13920AngleDeg(none, 'B'))).toBe('below-table')
    expect(value(iso13920AngleDeg(0.5, 'B'))).not.toBe('below-table')
  })

  it('gives straightness and flatness to 2000 mm (table 3)', () => {
    expect([120, 400, 1000, 2000].map((size) => value(iso13920FormMm(size, 'E')))).toEqual([0.5, 1, 1.5, 2])
    expect([120, 400, 1000, 2000].map((size) => value(iso13920FormMm(size, 'F')))).toEqual([1, 1.5, 3, 4.5])
    expect([value(iso13920FormMm(30, 'E')), value(iso13920FormMm(2001, 'E'))]).toEqual([
      'below-table',
      'above-table',
    ])
  })
})

describe('sampling of small lots', () => {
  it('has the code letters and sizes of ISO 2859-1', () => {
    // level II: lots to 8 A 2, 15 B 3, 25 C 5, 50 D 8, 90 E 13, 150 F 20, 280 G 32, 500 H 50
    expect([8, 15, 25, 50, 90, 150, 280, 500].map((lot) => samplePlan(lot).sampleCount)).toEqual([
      2, 3, 5, 8, 13, 20, 32, 50,
    ])
    expect(samplePlan(26, 'I')).toEqual({ kind: 'sample', sampleCount: 5, letter: 'C' })
    expect(samplePlan(500, 'III')).toEqual({ kind: 'sample', sampleCount: 80, letter: 'J' })
    expect(samplePlan(300, 'S-1')).toEqual({ kind: 'sample', sampleCount: 3, letter: 'B' })
  })

  it('inspects the whole lot where the sample reaches it', () => {
    expect(samplePlan(2)).toEqual({ kind: 'all', sampleCount: 2, letter: 'A' })
    expect(samplePlan(1)).toEqual({ kind: 'all', sampleCount: 1, letter: null })
    expect(() => samplePlan(501)).toThrow(RangeError)
    expect(() => samplePlan(0)).toThrow(RangeError)
  })

  it.each([
    [0.95, 0.95, 59],
    [0.9, 0.9, 22],
    [0.95, 0.9, 29],
    [0.95, 0.99, 299],
  ])(
    'needs, to show with %f confidence a reliability of %f, %i good ones in a row',
    (confidence, reliability, count) => {
      // n = ceil(ln(1 - C) / ln R)
      expect(successRunCount(confidence, reliability)).toBe(count)
    },
  )

  it('misses both bad ones of twenty with a sample of five in .55263', () => {
    // C(18, 5) / C(20, 5) = 8568 / 15504
    expect(missProbability(20, 2, 5)).toBeCloseTo(8568 / 15_504, 10)
    expect(missProbability(5, 1, 5)).toBe(0)
    expect(() => missProbability(5, 6, 1)).toThrow(RangeError)
  })

  it.each([
    [5, 1, 5],
    [10, 1, 9],
    [15, 2, 10],
    [20, 2, 14],
    [25, 2, 17],
    [25, 3, 13],
    [50, 5, 18],
  ])('of a lot of %i with %i bad takes %i to catch one nine times in ten', (lot, bad, count) => {
    // least n with C(N-D, n) / C(N, n) <= .1, whole-number binomials
    expect(sampleToCatch(lot, bad, 0.9)).toBe(count)
  })

  it('refuses to catch nothing, or for sure', () => {
    expect(() => sampleToCatch(10, 0, 0.9)).toThrow(RangeError)
    expect(() => sampleToCatch(10, 1, 1)).toThrow(RangeError)
  })
})

describe('dispositions', () => {
  it('are the words of ISO 9000:2015, 3.12, and only a concession releases as it is', () => {
    expect([...dispositions]).toEqual(['rework', 'repair', 'scrap', 'regrade', 'concession'])
    expect(dispositions.filter((one) => dispositionNotes[one].releasable)).toEqual(['concession'])
    // ISO 9001:2015, 8.7.1: conformity is verified again after correction
    expect(dispositions.filter((one) => dispositionNotes[one].measureAgain)).toEqual([
      'rework',
      'repair',
      'regrade',
    ])
  })
})
