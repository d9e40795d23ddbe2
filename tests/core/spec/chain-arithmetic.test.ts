import { describe, expect, it } from 'vitest'
import type { SpecInput } from '@/lib/core/spec/contract'
import { explainedSpec } from '@/lib/core/spec/explain'

const arm: SpecInput = {
  tube: { shape: 'square', widthMm: 38.1, heightMm: 38.1, wallMm: 3.175 },
  material: { id: '6061-T4' },
  bends: [
    { straightBeforeMm: 120, angleDeg: 32, centrelineRadiusMm: 260, rotationDeg: 0 },
    { straightBeforeMm: 500, angleDeg: 75, centrelineRadiusMm: 200, rotationDeg: 90 },
  ],
  straightAfterMm: 130,
  method: {
    support: 'lowMelt',
    strap: { thicknessMm: 1.5, widthMm: 38.1, yieldMPa: 350, frictionCoeff: 0.2 },
  },
  press: { capacityKn: 200, supportSpanMm: 440, supportNoseRadiusMm: 20, supportFrictionCoeff: 0.1 },
  trimMm: 3,
  kerfMm: 2.5,
  springbackFactor: 1.1,
}
const parts: readonly (readonly [string, SpecInput])[] = [
  ['with a filler and a strap', arm],
  ['hollow', { ...arm, method: { support: 'hollow' } }],
  [
    'of round tube with sand on a die that is there',
    {
      ...arm,
      tube: { shape: 'round', widthMm: 38.1, heightMm: 38.1, wallMm: 3 },
      method: { support: 'sand' },
      die: { surfaceRadiusMm: 180 },
    },
  ],
  [
    'of a strap that yields, rounded corners and steel',
    {
      ...arm,
      tube: { shape: 'rectangular', widthMm: 50, heightMm: 30, wallMm: 2, cornerRadiusMm: 4 },
      material: { id: '1020-DOM' },
      method: {
        support: 'lowMelt',
        strap: { thicknessMm: 0.5, widthMm: 20, yieldMPa: 100, frictionCoeff: 0.9 },
      },
    },
  ],
]

type Put = (symbol: string) => number
const radians = (put: Put, symbol = 'phi') => (put(symbol) * Math.PI) / 180
/** Square less what four rounded corners take away; a disc where the corner is half of both sides. */
const rounded = (b: number, h: number, r: number) => b * h - (4 - Math.PI) * r ** 2
/** Four corners of side r turned round a quarter circle each. Source: EN 10219-2:2019 Annex B. */
const roundedInertia = (b: number, h: number, r: number) =>
  (b * h ** 3) / 12 - 4 * (0.007545 * r ** 4 + 0.21460184 * r ** 2 * (h / 2 - 0.22337 * r) ** 2)
const roundedPlastic = (b: number, h: number, r: number) =>
  (b * h ** 2) / 4 - 0.85840735 * r ** 2 * (h / 2 - 0.22337 * r)
const outsideLessBore = (put: Put, of: (b: number, h: number, r: number) => number) => {
  const [b, h, t, ro] = [put('b'), put('h'), put('t'), put('ro')]
  return of(b, h, ro) - of(b - 2 * t, h - 2 * t, Math.max(ro - t, 0))
}
const bore = (put: Put, of: (b: number, h: number, r: number) => number) =>
  of(put('b') - 2 * put('t'), put('h') - 2 * put('t'), Math.max(put('ro') - put('t'), 0))
const effectivePoisson = (put: Put) => 0.5 - (0.5 - put('nu')) * put('s / (E e)')
const freeSection = (put: Put, size: string, y: number) =>
  put(size) * (1 - effectivePoisson(put) * put('e') + put('nu') * put('dk') * y)

/** Each formula as the chain states it, worked out here from what the chain says was put in. Half the height stands in y. */
const byHand: Readonly<Record<string, (put: Put, halfMm: number) => number>> = {
  freeLengthMm: (put) =>
    (put('L') / 2 - (put('R') + put('d')) * Math.sin(radians(put))) / Math.cos(radians(put)),
  leverMm: (put) => put('s') + put('g') * put('mu') * put('a'),
  recoveryPerMm: (put) => (put('c') * put('M_tube')) / put('E I'),
  finalRadiusMm: (put) => 1 / (1 / put('RL') - put('dk')),
  loadedRadiusMm: (put) => 1 / (1 / put('Rf') + put('dk')),
  dieSurfaceRadiusMm: (put) => put('RL') - put('h') / 2,
  wrappedAngleDeg: (put) => ((put('wanted angle') - 2 * put('arm kept')) * put('Rw')) / put('RL'),
  strapTensionN: (put) => Math.min((put('mu_s') * put('M_ext')) / put('s + g mu a'), put('As') * put('Fys')),
  externalMomentNmm: (put) =>
    put('M_tube') + put('M_filler') + put('M_strap') + put('T') * (put('h') / 2 + put('ts') / 2),
  loadedAngleDeg: (put) => put('arc wrapped') + 2 * put('arm under load'),
  angleAtPressDeg: (put) =>
    put('arc wrapped') * put('RL') * (1 / put('RL') - put('dk1')) + 2 * put('arm at the press'),
  finalAngleDeg: (put) => (put('arc wrapped') * put('RL')) / put('Rf') + 2 * put('arm kept'),
  springbackDeg: (put) => put('loaded') - put('final'),
  meltOutSpringbackDeg: (put) => put('at the press') - put('final'),
  outerStrain: (put) => (put('h') / 2 - put('y_n')) / (put('RL') + put('y_n')),
  innerStrain: (put) => (-put('h') / 2 - put('y_n')) / (put('RL') + put('y_n')),
  widthOutsideMm: (put, half) => freeSection(put, 'b', half),
  widthInsideMm: (put, half) => freeSection(put, 'b', -half),
  'wallOutsideMm.low': (put, half) => Math.min(freeSection(put, 't', half), put('t') / (1 + put('e'))),
  'wallOutsideMm.high': (put, half) => Math.max(freeSection(put, 't', half), put('t') / (1 + put('e'))),
  'wallInsideMm.low': (put, half) => Math.min(freeSection(put, 't', -half), put('t') / (1 + put('e'))),
  'wallInsideMm.high': (put, half) => Math.max(freeSection(put, 't', -half), put('t') / (1 + put('e'))),
  fillerBearing: (put) => put('p') / (3 * put('sf')),
  ramTravelMm: (put) => {
    const phi = radians(put)
    const over = 1 - Math.cos(phi)
    return put('R') * over + put('s') * Math.sin(phi) + put('d') * over + put('bow') / Math.cos(phi)
  },
  pressForceKn: (put) => {
    const phi = radians(put, 'phi at the largest')
    const normalN = put('M_ext at full angle') / put('s + g mu a there')
    return (2 * normalN * (Math.cos(phi) + put('g') * put('mu') * Math.sin(phi))) / 1000
  },
  workingSpanMm: (put) => {
    const phi = radians(put)
    return 2 * ((put('R') + put('d')) * Math.sin(phi) + put('h') * Math.cos(phi))
  },
  tearUtilisation: (put) => put('outer strain') / ((put('factor') * put('elongation')) / 100),
  tearRadiusMm: (put) => (put('h') / 2 - put('y_n')) / put('factor * elongation') - put('y_n'),
  areaMm2: (put) => outsideLessBore(put, rounded),
  inertiaMm4: (put) => outsideLessBore(put, roundedInertia),
  plasticModulusMm3: (put) => outsideLessBore(put, roundedPlastic),
  boreAreaMm2: (put) => bore(put, rounded),
  boreInertiaMm4: (put) => bore(put, roundedInertia),
  elasticModulusMm3: (put) => (2 * put('I')) / put('h'),
  exponent: (put) => Math.max(Math.log(put('eu') / 0.002) / Math.log(put('Ftu') / put('Fty')), 1),
  massKgPerM: (put) => (put('A') * put('density')) / 1e6,
  cutLengthMm: (put) =>
    put('developed') + put('grip at the start') + put('grip at the end') + put('trim') + put('kerf'),
  volumeMm3: (put) => put('bore area') * put('cut length'),
  massKg: (put) => (put('volume') * put('density')) / 1e9,
}

/** Where the chain names another case than the formula, or the largest over a stroke that moves with the strap's pull. */
const leftOut = (key: string, symbols: readonly string[], hasStrap: boolean) =>
  symbols.includes('no strap') || (hasStrap && key === 'pressForceKn')

describe('a chain’s arithmetic', () => {
  it.each(parts)('is the stated formula of what the chain says was put in, for a part %s', (_, input) => {
    const { trace } = explainedSpec(input)
    const met = new Set<string>()
    for (const key of trace.keys) {
      const step = trace.chain(key).at(-1)
      const name = Object.keys(byHand).find((one) => key === one || key.endsWith(`.${one}`))
      const symbols = step?.inputs.map(([symbol]) => symbol) ?? []
      if (!step || !name || leftOut(name, symbols, input.method.strap !== undefined)) continue
      const put: Put = (symbol) => {
        const value = step.inputs.find(([one]) => one === symbol)?.[1]
        if (typeof value !== 'number') throw new RangeError(`${key} was given no ${symbol}`)
        return value
      }
      met.add(name)
      const expected = byHand[name]?.(put, input.tube.heightMm / 2) ?? Number.NaN
      // The corner's constants stand in the formula with four figures.
      const near = ['inertiaMm4', 'plasticModulusMm3', 'boreInertiaMm4'].includes(name) ? 2e-4 : 1e-7
      const size = Math.max(Math.abs(expected), 1e-3)
      expect(Math.abs(step.value - expected) / size, `${key}: ${step.value} for ${expected}`).toBeLessThan(
        near,
      )
    }
    expect(met.size).toBeGreaterThan(28)
  })

  it.each(parts)('puts in the very number that the step before gave, for a part %s', (_, input) => {
    const { trace } = explainedSpec(input)
    const values = new Map(trace.keys.map((key) => [key, trace.chain(key).at(-1)?.value]))
    let compared = 0
    for (const key of trace.keys) {
      for (const [symbol, value, , from] of trace.chain(key).at(-1)?.inputs ?? []) {
        // Products of a step's value and something entered carry its name too; phi is half of the wrapped angle.
        if (from === undefined || typeof value !== 'number' || ['E I', '4 S Fty / L', 'phi'].includes(symbol))
          continue
        if (symbol.startsWith('arc ') && key === 'developedLengthMm') continue
        expect(value, `${key}: ${symbol}`).toBe(values.get(from))
        compared++
      }
    }
    expect(compared).toBeGreaterThan(60)
  })
})
