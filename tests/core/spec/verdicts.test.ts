import { describe, expect, it } from 'vitest'
import { balanceAlone } from '@/lib/core/mechanics/balance'
import { BentTube, type Support } from '@/lib/core/mechanics/bent-tube'
import type { SpecInput } from '@/lib/core/spec/contract'
import { bendVerdicts, type Judged } from '@/lib/core/spec/verdicts'

const material = {
  family: 'steel' as const,
  elasticModulusMPa: 200_000,
  yieldMPa: 250,
  tensileMPa: 400,
  elongationPct: 20,
  poisson: 0.3,
  densityKgM3: 7850,
}
const tube = { shape: 'square' as const, widthMm: 40, heightMm: 40, wallMm: 3, cornerRadiusMm: 0 }
const input: SpecInput = {
  tube,
  material,
  bends: [{ straightBeforeMm: 300, angleDeg: 40, centrelineRadiusMm: 200, rotationDeg: 0 }],
  straightAfterMm: 300,
  method: { support: 'hollow' },
  press: { capacityKn: 100, supportSpanMm: 400, supportNoseRadiusMm: 20 },
}
const hollow = { flangeSagMm: 0.1, ovalityPct: null, unsupportedMm: 0.1, pressureMPa: 1, fillerBearing: null }

function judge(
  change: Partial<Omit<Judged, 'bent' | 'bend'>> = {},
  how: { support?: Support; freeMm?: number; reductionOfAreaPct?: number; shape?: 'square' | 'round' } = {},
) {
  const { reductionOfAreaPct, shape = 'square' } = how
  const bent = new BentTube(
    { ...tube, shape },
    { ...material, ...(reductionOfAreaPct !== undefined && { reductionOfAreaPct }) },
    how.support ?? { kind: 'hollow' },
    null,
  )
  const verdicts = bendVerdicts({
    input,
    bent,
    bend: {
      loadedRadiusMm: 200,
      finalRadiusMm: 205,
      phiRad: 0.35,
      balance: balanceAlone(bent, 200),
      lever: { freeMm: how.freeMm ?? 100, leverMm: 100, sense: 1, offsetMm: 40 },
      arm: { loadedRad: 0, atPressRad: 0, keptRad: 0, bowMm: 0 },
      recovery: 0,
      pressRecovery: 0,
    },
    flat: hollow,
    pressForceN: 20_000,
    startForceN: 10_000,
    ramTravelMm: 50,
    workingSpanMm: 380,
    pressSpanMm: null,
    tearUtilisation: 0.5,
    ...change,
  })
  return (check: string) => verdicts.find((one) => one.check === check)
}

describe('the press', () => {
  it('may give 80 percent of its rating where nothing else is said: 80 of 100 kN', () => {
    expect(judge({ pressForceN: 80_000 })('press')).toMatchObject({ verdict: 'ok', value: 80, limit: 80 })
    expect(judge({ pressForceN: 80_001 })('press')?.verdict).toBe('refuse')
    expect(judge({ pressForceN: 79_000 })('press')?.verdict).toBe('ok')
  })
  it('names the span that brings the force down, or says that none does', () => {
    expect(judge({ pressForceN: 100_000, pressSpanMm: 500 })('press')?.text).toContain(
      'a span of about 500 mm would bring it down',
    )
    expect(judge({ pressForceN: 100_000 })('press')?.text).toContain('no span brings it down')
    expect(judge({ pressForceN: 20_000 })('press')?.text).toBe('needs 20 kN of the 80 kN the press may give')
  })
  it('has the share the shop sets', () => {
    const eager = { ...input, press: { ...input.press, useFraction: 0.9 } }
    expect(judge({ input: eager, pressForceN: 85_000 })('press')).toMatchObject({ verdict: 'ok', limit: 90 })
  })
})

describe('span and stroke', () => {
  it('a free length of one height or more will do', () => {
    expect(judge({}, { freeMm: 40 })('span')?.verdict).toBe('ok')
    expect(judge({}, { freeMm: 39.9 })('span')).toMatchObject({ verdict: 'refuse', value: 39.9, limit: 40 })
    expect(judge({}, { freeMm: 39.9 })('span')?.text).toContain('a span of 380 mm would work')
  })
  it('is asked of the stroke only where one is entered', () => {
    expect(judge()('stroke')).toBeUndefined()
    const short = { ...input, press: { ...input.press, strokeMm: 50 } }
    expect(judge({ input: short })('stroke')).toMatchObject({ verdict: 'ok', value: 50, limit: 50 })
    expect(judge({ input: short, ramTravelMm: 50.1 })('stroke')?.verdict).toBe('refuse')
    expect(judge({ input: short, ramTravelMm: 50.1 })('stroke')?.text).toContain('block the supports up')
  })
})

describe('tearing', () => {
  it.each([
    [0.8, 'ok'],
    [0.81, 'warn'],
    [1, 'warn'],
    [1.01, 'refuse'],
  ] as const)('%f of the stretch used: %s', (tearUtilisation, verdict) => {
    expect(judge({ tearUtilisation })('tear')).toMatchObject({ verdict, value: tearUtilisation, limit: 1 })
  })
  it('says by the reduction of area too where it is known: 50 / 10 - 1 = 4 heights inside, 180 mm', () => {
    expect(judge()('reduction')).toBeUndefined()
    expect(judge({}, { reductionOfAreaPct: 10 })('reduction')).toMatchObject({
      verdict: 'ok',
      value: 200,
      limit: 180,
    })
    // 50 / 9 - 1 = 4.556 heights, 202.2 mm.
    expect(judge({}, { reductionOfAreaPct: 9 })('reduction')?.verdict).toBe('warn')
  })
})

describe('flattening', () => {
  const sag = (flangeSagMm: number, more: Partial<SpecInput> = {}, support?: Support) =>
    judge(
      { input: { ...input, ...more }, flat: { ...hollow, flangeSagMm } },
      support && { support },
    )('flattening')
  // The shop's words by sag over height, 40 mm: under 0.5 percent 0.2 mm, under 2 percent 0.8 mm, under 5 percent 2 mm.
  it.each([
    [0.199, 'holds'],
    [0.2, 'marks'],
    [0.799, 'marks'],
    [0.8, 'flattens'],
    [1.999, 'flattens'],
    [2, 'collapses'],
  ] as const)('%f mm of 40: %s', (flangeSagMm, verdict) => {
    expect(sag(flangeSagMm)).toMatchObject({ verdict, value: flangeSagMm / 40, limit: 0.005 })
  })
  it('is held to the part’s own tolerance where it has one', () => {
    expect(sag(1.2, { sectionToleranceFraction: 0.03 })).toMatchObject({ verdict: 'holds', limit: 0.03 })
    expect(sag(1.21, { sectionToleranceFraction: 0.03 })?.verdict).toBe('flattens')
    expect(sag(0.05, { sectionToleranceFraction: 0.001 })).toMatchObject({
      verdict: 'flattens',
      limit: 0.001,
    })
    expect(sag(0.05, { sectionToleranceFraction: 0 })).toMatchObject({ verdict: 'flattens', limit: 0 })
  })
  it('says the sag and what is allowed, with a remedy where it does not hold', () => {
    expect(sag(0.1)?.text).toBe('0.1 mm sag a face, 0.2 mm allowed')
    expect(sag(0.5)?.text).toContain('a filler, a thicker wall or a larger radius would hold it')
  })
  it('calls a filled face held below what a caliper reads, 0.02 mm', () => {
    const filled: Support = { kind: 'lowMelt', modulusMPa: 12_700, yieldMPa: 26 }
    expect(sag(0.019, {}, filled)?.text).toContain('held: less than the 0.02 mm')
    expect(sag(0.02, {}, filled)?.text).toContain('0.02 mm sag a face')
    expect(sag(0.019)?.text).toContain('0.019 mm sag a face')
  })
  it('tells of a round tube how far out of round it is', () => {
    const oval = judge(
      { flat: { ...hollow, flangeSagMm: null, ovalityPct: 3 } },
      { shape: 'round' },
    )('flattening')
    expect(oval).toMatchObject({ verdict: 'flattens', value: 0.03 })
    expect(oval?.text).toMatch(/^3.00 % out of round, 0.50 % allowed/)
    const filled: Support = { kind: 'lowMelt', modulusMPa: 12_700, yieldMPa: 26 }
    const held = judge(
      { flat: { ...hollow, flangeSagMm: null, ovalityPct: 0.001 } },
      { shape: 'round', support: filled },
    )
    expect(held('flattening')?.text).toMatch(/^0.00 % out of round/)
  })
})

describe('bearing', () => {
  it('on the filler stays below one', () => {
    const bears = (fillerBearing: number) => judge({ flat: { ...hollow, fillerBearing } })('fillerBearing')
    expect(bears(0.99)).toMatchObject({ verdict: 'ok', value: 0.99, limit: 1 })
    expect(bears(1)?.verdict).toBe('refuse')
    expect(judge()('fillerBearing')).toBeUndefined()
  })
  it('of the side walls is the less of AISC 360 K1-9 and K1-10, and warns only hollow', () => {
    // By hand, kN: wrapped 0.7 · 180 = 126 mm. Yielding 2 · 250 · 3 · (22.5 + 126) = 222.75; crippling 1.6 · 9 · (1 + 378 / 31) · sqrt(5e7) = 1343.
    // As a line: 2 · 250 · 3 · 22.5 = 33.75 and 1.6 · 9 · sqrt(5e7) = 101.8.
    const walls = judge({ pressForceN: 80_000 })('ramBearing')
    expect(walls?.limit).toBeCloseTo(222.75, 6)
    expect(walls).toMatchObject({ verdict: 'ok', value: 80 })
    expect(walls?.text).toContain(
      '33.75 kN as a line at the start, where 10 kN press, and 222.75 kN over the wrapped die',
    )
    expect(judge({ pressForceN: 222_751 })('ramBearing')?.verdict).toBe('warn')
    const dented = judge({ startForceN: 33_751 })('ramBearing')
    expect(dented).toMatchObject({ verdict: 'warn', value: 33.751 })
    expect(dented?.limit).toBeCloseTo(33.75, 6)
    expect(judge({ startForceN: 33_749 })('ramBearing')?.verdict).toBe('ok')
    const filled: Support = { kind: 'sand', modulusMPa: 60 }
    expect(judge({ pressForceN: 222_751 }, { support: filled })('ramBearing')?.verdict).toBe('ok')
    expect(judge({}, { support: filled })('ramBearing')?.text).toContain('the filler carries part')
    expect(
      judge({ flat: { ...hollow, flangeSagMm: null, ovalityPct: 1 } }, { shape: 'round' })('ramBearing'),
    ).toBeUndefined()
  })
})
